"""Lines that stand at the top or foot of page after page: the book's name, a chapter, the number of the page."""

import re
from collections import Counter

from rapidfuzz import fuzz, process

from cutaway.taking.records import Page, PlacedLine

_PAGE_NUMBER = re.compile(r"^[\W_]*(?:page\s*)?\d{1,4}[\W_]*$", re.IGNORECASE)
_HEAD = re.compile(r"^(?:§\s*)?\d{1,4}[a-z]?[.)]\s+\w", re.IGNORECASE)
_SENTENCE_END = re.compile(r"^[a-z].*[.;,]$")
_EDGE = 2
"""So many lines at the top and at the foot of a page may be running ones."""
_LEAST = 3
_SHARE = 0.3


def without_running_heads(pages: tuple[Page, ...]) -> tuple[tuple[PlacedLine, ...], tuple[PlacedLine, ...]]:
    """All lines of the text in order, and the lines left out as running heads and page numbers."""
    common = _common(pages)
    kept: list[PlacedLine] = []
    out: list[PlacedLine] = []
    for page in pages:
        texts = [line.text for line in page.lines]
        above = _peeled(texts, common) if len(pages) > 1 else 0
        below = _peeled(texts[::-1], common) if len(pages) > 1 else 0
        for place, line in enumerate(page.lines, 1):
            outside = place <= above or place > len(texts) - below
            (out if outside else kept).append(PlacedLine(page.number, place, line))
    return tuple(kept), tuple(out)


def _peeled(texts: list[str], common: tuple[str, ...]) -> int:
    """How many lines at the beginning are running ones: from outside in, so that text ends the row."""
    if len(texts) <= 2:
        return 0
    count = 0
    for text in texts[:_EDGE]:
        if not (_PAGE_NUMBER.match(text) or _near(_key(text), common)):
            break
        count += 1
    return count


def _common(pages: tuple[Page, ...]) -> tuple[str, ...]:
    """The keys of lines that come back at the edges of pages."""
    found: Counter[str] = Counter()
    for page in pages:
        edges = page.lines if len(page.lines) <= 2 * _EDGE else (*page.lines[:_EDGE], *page.lines[-_EDGE:])
        for key in {_key(line.text) for line in edges}:
            found[_near(key, tuple(found)) or key if page.origin == "read" else key] += 1
    least = max(_LEAST, _SHARE * len(pages))
    return tuple(key for key, times in found.items() if times >= least and key)


def _near(key: str, known: tuple[str, ...]) -> str:
    if not key or not known:
        return ""
    if key in known:
        return key
    near = process.extractOne(key, known, scorer=fuzz.ratio, score_cutoff=85)
    return near[0] if near else ""


def _key(text: str) -> str:
    """A line without what changes from page to page. '' for what is text: a long line, the head of a paragraph, the end
    of a sentence, a line with several figures."""
    is_text = len(text) > 90 or _HEAD.match(text) or _SENTENCE_END.search(text) or len(re.findall(r"\d+", text)) > 1
    return "" if is_text else " ".join(re.sub(r"[\d\W_]+", " ", text.lower()).split())
