"""Amendments as books name them: 'A.L. 1', 'Amendment No. 2', with their dates, on lines of their own, in lists.

However it is printed, an amendment is called 'A.L. 2' here, so that a heading and a list mean the same one.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cutaway.handbook.dates import read_date

NAMED = (
    r"(?:\bA\.\s?L\.|\bAL|\b(?i:amendment(?:\s+list)?|amdt\.?|amend\.))\s*(?i:no\.?\s*|number\s+)?"
    r"(?P<number>\d{1,3})(?![\w/]|[.,]\d)"
)
"""An amendment with its number."""

_MONTHS = r"(?i:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*"
_DATE = rf"(?:\d{{1,2}}(?:st|nd|rd|th)?\s+)?{_MONTHS}\.?,?\s+\d{{4}}|\d{{1,2}}[./]\d{{1,2}}[./]\d{{2,4}}|\b1[89]\d\d\b"
_DATED = re.compile(rf"{NAMED}[\s,.:;(–—-]*(?:(?i:dated|of|issued)\s+)?(?P<date>{_DATE})")
_LABEL = re.compile(
    rf"^[(\[]?\s*{NAMED}(?:[\s,.:;(–—-]*(?:(?i:dated|of|issued)\s+)?(?P<date>{_DATE}))?\s*[)\].:]*$",
)
_LIST_HEAD = re.compile(
    r"^(?:(?:record|list|table)\s+of\s+)?(?:amendments?(?:\s+(?:list|lists|record|record\s+sheet))?|A\.?\s?L\.?s?\s+list)"
    r"(?:\s+(?:incorporated|in force))?\s*[.:]?$",
    re.IGNORECASE,
)
_PARAGRAPHS = re.compile(
    r"(?i:§|\bpara(?:graph)?s?\.?)\s*(?P<numbers>\d+\s?[a-z]?\b(?:\s*(?:,|and|&)\s*\d+\s?[a-z]?\b)*)\s+"
    r"(?i:is|are|was|were)?\s*(?i:added|inserted|amended|altered|replaced|new)",
)
_NAMED = re.compile(NAMED)


@dataclass(frozen=True, slots=True)
class Listed:
    """An amendment of the book: its name, its date as printed ('' where none is, or two differ), and the paragraphs
    that a list says it brought."""

    name: str
    date: str = ""
    brought: tuple[str, ...] = ()


def name_of(words: str) -> str:
    """How an amendment that is named in some words is called here; '' where none is.

    >>> name_of("Amendment No. 2"), name_of("amended by A.L.3"), name_of("A.L. 1, May 1938"), name_of("Al 45 alloy")
    ('A.L. 2', 'A.L. 3', 'A.L. 1', '')
    """
    found = _NAMED.search(words)
    return f"A.L. {int(found['number'])}" if found else ""


def is_label(line: str) -> bool:
    """Whether a line names an amendment, perhaps with its date, and nothing else.

    >>> is_label("A.L. 1, August 1937"), is_label("[Amendment No. 2]"), is_label("A.L. 1. For paragraph 9: …")
    (True, True, False)
    """
    return _LABEL.match(line.strip()) is not None


def is_list_head(line: str) -> bool:
    """Whether a line heads a list of amendments.

    >>> is_list_head("AMENDMENT LIST"), is_list_head("Record of amendments"), is_list_head("Amendments are kept here.")
    (True, True, False)
    """
    return _LIST_HEAD.match(line.strip()) is not None


def begins_list(line: str) -> bool:
    """Whether a line begins with a dated amendment, as the lines of a list do."""
    return _DATED.match(line.strip()) is not None


def is_list(title: str, text: str) -> bool:
    """Whether a paragraph lists amendments, rather than being of one."""
    return is_list_head(title) or len({found["number"] for found in _DATED.finditer(text)}) > 1


def listed(texts: Iterable[str]) -> tuple[Listed, ...]:
    """The amendments that some texts date, or of which they tell what they brought, by number."""
    dates: dict[int, list[str]] = {}
    brought: dict[int, list[str]] = {}
    for text in texts:
        for found in _DATED.finditer(text):
            if read_date(found["date"]) is not None:
                dates.setdefault(int(found["number"]), []).append(" ".join(found["date"].split()))
        for number, said in _parted(text):
            for some in _PARAGRAPHS.finditer(said):
                brought.setdefault(number, []).extend(
                    one.replace(" ", "").lower() for one in re.findall(r"\d+\s?[a-z]?\b", some["numbers"])
                )
    return tuple(
        Listed(f"A.L. {n}", _one_date(dates.get(n, [])), tuple(dict.fromkeys(brought.get(n, []))))
        for n in sorted(dates.keys() | brought.keys())
    )


def _parted(text: str) -> list[tuple[int, str]]:
    """A text cut before each amendment that begins it or a sentence of it."""
    starts = [m for m in _NAMED.finditer(text) if re.search(r"(?:^|[.;\n])\s*[(\[]?$", text[: m.start()])]
    ends = [*(m.start() for m in starts[1:]), len(text)]
    return [(int(m["number"]), text[m.end() : end]) for m, end in zip(starts, ends, strict=False)]


def _one_date(dates: Sequence[str]) -> str:
    """The date on which all agree; '' where they differ."""
    return dates[0] if dates and len({read_date(date) for date in dates}) == 1 else ""
