"""Figures said to be a limit: 'more than 20 amp.' where a book has 'not more than 20 amp.'."""

import re
from typing import Literal

Side = Literal["", "most", "least"]

_WORDS = r"(?:\s+\w+){0,2}\s*$"
_UPON = r"(?:more|greater|higher|longer|faster)\s+than|above|over|exceed\w*|past|pass(?:es|ed)?|beyond|upwards of"
_UNDER = r"(?:less|fewer|lower|shorter|slower)\s+than|below|under|short of"
_NOT = r"(?:\b(?:not|never|no|cannot)|n't|n’t)\s+(?:\w+\s+){0,2}?"
_PATTERNS: tuple[tuple[str, Side], ...] = (
    (rf"{_NOT}(?:{_UPON})", "most"),
    (rf"{_NOT}(?:{_UNDER})", "least"),
    (r"\b(?:at most|up to|a maximum of)", "most"),
    (r"\b(?:at least|a minimum of)", "least"),
    (rf"\b(?:{_UPON})", "least"),
    (rf"\b(?:{_UNDER})", "most"),
)
_SIDES = tuple((re.compile(pattern + _WORDS, re.IGNORECASE), side) for pattern, side in _PATTERNS)


def side_of(before: str) -> tuple[Side, str]:
    """Whether the words before a figure make it the most or the least that there is, and those words.

    >>> side_of("gives not more than "), side_of("gives more than "), side_of("holds ")
    (('most', 'not more than'), ('least', 'more than'), ('', ''))
    """
    for pattern, side in _SIDES:
        found = pattern.search(before)
        if found is not None:
            return side, found[0].strip()
    return "", ""
