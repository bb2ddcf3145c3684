"""Where a numbered paragraph of the book begins: '21. Fuel cocks. A selector …', '21a Fuel lamp'."""

import re
from bisect import bisect_left
from dataclasses import dataclass

from cutaway.taking.records import PlacedLine

_HEAD = re.compile(
    r"^(?P<sign>§\s*|(?:para(?:graph|\.)?\s+))?\(?(?P<number>\d{1,4})(?P<letter>[a-z])?(?P<stop>[.)\]:]|\s?[—–-]|(?P<comma>,))?\s+"
    r"(?P<rest>[\"'“‘(\[]?[A-Z].*)$",
    re.IGNORECASE,
)
_CONTENTS = re.compile(r"(?:\.\s?){4,}\s*\d*$|…\s*\d+$")
_RESTART_FROM, _RESTART_TO = 5, 2


@dataclass(frozen=True, slots=True)
class Head:
    """A line that looks like the beginning of one. at: its index among all lines. rest: what follows its number."""

    at: int
    number: int
    letter: str
    rest: str
    sure: bool

    @property
    def name(self) -> str:
        """The number with its letter."""
        return f"{self.number}{self.letter}"

    @property
    def rank(self) -> tuple[int, str]:
        """Its place in the order of the book."""
        return self.number, self.letter


def heads_in(lines: tuple[PlacedLine, ...], gaps: tuple[bool, ...]) -> tuple[Head, ...]:
    """All lines that look like heads. gaps: whether white stands before each line."""
    heads: list[Head] = []
    for at, placed in enumerate(lines):
        text = placed.line.text
        match = _HEAD.match(text)
        if match is None or _CONTENTS.search(text) or not match["rest"].lstrip("\"'“‘([")[:1].isupper():
            continue
        # A comma is a full stop that was read wrongly, where white stands before the line.
        sure = bool(match["sign"] or (match["stop"] and not match["comma"]))
        if sure or gaps[at]:
            heads.append(
                Head(at, int(match["number"]), (match["letter"] or "").lower(), match["rest"].strip(), sure or gaps[at])
            )
    return tuple(heads)


def runs(heads: tuple[Head, ...]) -> tuple[tuple[Head, ...], ...]:
    """The heads parted where the book begins to number anew: 1, 2 after 5 or more."""
    parted: list[list[Head]] = [[]]
    for place, head in enumerate(heads):
        now = parted[-1]
        following = heads[place + 1].number if place + 1 < len(heads) else 0
        highest = max((h.number for h in now[-4:]), default=0)
        if head.number == 1 and not head.letter and highest >= _RESTART_FROM and following in (1, _RESTART_TO):
            parted.append([])
        parted[-1].append(head)
    return tuple(tuple(run) for run in parted)


def in_order(heads: tuple[Head, ...]) -> tuple[tuple[Head, ...], tuple[Head, ...]]:
    """The longest rising row of heads, and those that do not fit into it (misread, or figures at the start of a line).

    >>> [h.name for h in in_order(tuple(Head(0, n, "", "", True) for n in (20, 71, 22, 23)))[0]]
    ['20', '22', '23']
    """
    tails: list[tuple[int, str]] = []
    ends: list[int] = []
    before: list[int] = []
    for place, head in enumerate(heads):
        key = (head.number, head.letter)
        where = bisect_left(tails, key)
        before.append(ends[where - 1] if where else -1)
        if where == len(tails):
            tails.append(key)
            ends.append(place)
        else:
            tails[where], ends[where] = key, place
    chosen: set[int] = set()
    at = ends[-1] if ends else -1
    while at >= 0:
        chosen.add(at)
        at = before[at]
    kept = tuple(head for place, head in enumerate(heads) if place in chosen)
    return kept, tuple(head for place, head in enumerate(heads) if place not in chosen)
