"""Lines that stand at the top or foot of page after page: the book's name, a chapter, the number of the page."""

import re
from collections import Counter

from rapidfuzz import fuzz, process

from cutaway.taking.records import Line, Page, PlacedLine

PAGE_NUMBER = re.compile(
    r"^[\W_]*(?:(?:page|pages|pp?\.|sheet)\s*)?(?:(?P<page>\d{1,4})|(?P<roman>(?=[ivxl])(?:xl|l?x{0,3})(?:ix|iv|v?i{0,3})))"
    r"(?:\s*(?:of|/)\s*\d{1,4})?[\W_]*$",
    re.IGNORECASE,
)
"""A line that is the number of a page and nothing else: '- 37 -', 'Page 37', '37 of 90', 'iv'."""

_HEAD = re.compile(r"^(?:§\s*)?\d{1,4}[a-z]?[.)]\s+\w", re.IGNORECASE)
_SENTENCE_END = re.compile(r"^[a-z].*[.;,]$")
_EDGE = 2
"""So many lines at the top and at the foot of a page may be running ones."""
_LEAST = 3
_SHARE = 0.3
_ODD_EVEN = 2
"""A book of so few pages has a running line where both begin, or both end, with it."""


def without_running_heads(pages: tuple[Page, ...]) -> tuple[tuple[PlacedLine, ...], tuple[PlacedLine, ...]]:
    """All lines of the text in order, and the lines left out as running heads and page numbers."""
    common = _common(pages)
    kept: list[PlacedLine] = []
    out: list[PlacedLine] = []
    for page in pages:
        texts = [line.text for line in page.lines]
        numbered = len(pages) > 1 or _is_a_page(page.lines)
        above = _peeled(texts, common) if numbered else 0
        below = _peeled(texts[::-1], common) if numbered else 0
        for place, line in enumerate(page.lines, 1):
            outside = place <= above or place > len(texts) - below
            (out if outside else kept).append(PlacedLine(page.number, place, line))
    return tuple(kept), tuple(out)


def _is_a_page(lines: tuple[Line, ...]) -> bool:
    """Whether the lines have places on a sheet, so that its foot is a foot: a plain text has none."""
    return any(line.top != line.bottom for line in lines)


def _peeled(texts: list[str], common: tuple[str, ...]) -> int:
    """How many lines at the beginning are running ones: from outside in, so that text ends the row."""
    if len(texts) <= 2:
        return 0
    count = 0
    for text in texts[:_EDGE]:
        if not (PAGE_NUMBER.match(text) or _near(running_key(text), common)):
            break
        count += 1
    return count


def _common(pages: tuple[Page, ...]) -> tuple[str, ...]:
    """The keys of lines that come back at the edges of pages."""
    if len(pages) <= _ODD_EVEN:
        return _shared(pages)
    found: Counter[str] = Counter()
    for page in pages:
        edges = page.lines if len(page.lines) <= 2 * _EDGE else (*page.lines[:_EDGE], *page.lines[-_EDGE:])
        for key in {running_key(line.text) for line in edges}:
            found[_near(key, tuple(found)) or key if page.origin == "read" else key] += 1
    least = max(_LEAST, _SHARE * len(pages))
    return tuple(key for key, times in found.items() if times >= least and key)


def _shared(pages: tuple[Page, ...]) -> tuple[str, ...]:
    """The keys of lines that stand at the same edge of both of two pages, from outside in."""
    if len(pages) < _ODD_EVEN:
        return ()
    found: list[str] = []
    for step in (1, -1):
        edges = [[line.text for line in page.lines][::step][:_EDGE] for page in pages]
        keys = [[_short_key(text) for text in texts if not PAGE_NUMBER.match(text)] for texts in edges]
        for one, two in zip(*keys, strict=False):
            near = _near(one, (two,)) if all(page.origin == "read" for page in pages) else one if one == two else ""
            if not near:
                break
            found += [one, two]
    return tuple(dict.fromkeys(found))


def _near(key: str, known: tuple[str, ...]) -> str:
    if not key or not known:
        return ""
    if key in known:
        return key
    near = process.extractOne(key, known, scorer=fuzz.ratio, score_cutoff=85)
    return near[0] if near else ""


def _short_key(text: str) -> str:
    """The key of a line that is no sentence: of two pages both may end with the same short one."""
    return "" if text.endswith((".", ";", ",", ":", "?", "!")) else running_key(text)


def running_key(text: str) -> str:
    """A line without what changes from page to page. '' for what is text: a long line, the head of a paragraph, the end
    of a sentence, a line with several figures."""
    is_text = len(text) > 90 or _HEAD.match(text) or _SENTENCE_END.search(text) or len(re.findall(r"\d+", text)) > 1
    return "" if is_text else " ".join(re.sub(r"[\d\W_]+", " ", text.lower()).split())
