"""The number that is printed on each page, where its head or foot shows one that fits its neighbours."""

import re
from collections import Counter, defaultdict
from collections.abc import Mapping

from cutaway.taking.records import PlacedLine
from cutaway.taking.running_heads import PAGE_NUMBER, running_key

_AT_THE_EDGE = re.compile(r"^\W*(?P<first>\d{1,4})\b|\b(?P<last>\d{1,4})\W*$")
_LETTERS = {"i": 1, "v": 5, "x": 10, "l": 50}


def printed_pages(left_out: tuple[PlacedLine, ...], count: int) -> Mapping[int, str]:
    """The printed number by the page in the file. A number is believed where a further page is off by as much, since a
    misread one stands alone; in a file of one page a line that is nothing but its number is enough.

    >>> from cutaway.taking.records import Line, Word
    >>> foot = lambda page, text: PlacedLine(page, 9, Line((Word(text),)))
    >>> dict(printed_pages((foot(1, "37"), foot(2, "38"), foot(3, "89")), 3))
    {1: '37', 2: '38'}
    """
    found = {**_in_running_lines(left_out), **_alone(left_out)}
    if count == 1:
        found = _alone(left_out)
    off = Counter(_value(printed) - page for page, printed in found.items())
    return {page: printed for page, printed in found.items() if count == 1 or off[_value(printed) - page] > 1}


def _alone(left_out: tuple[PlacedLine, ...]) -> dict[int, str]:
    """Numbers that have a line of their own."""
    found: dict[int, str] = {}
    for placed in left_out:
        match = PAGE_NUMBER.match(placed.line.text)
        if match:
            found[placed.page] = match["page"] or match["roman"].lower()
    return found


def _in_running_lines(left_out: tuple[PlacedLine, ...]) -> dict[int, str]:
    """Numbers beside the book's name, '38 THE WHINCHAT', where they are another on every page: a chapter's are not."""
    by_key: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for placed in left_out:
        match = _AT_THE_EDGE.search(placed.line.text)
        if match and not PAGE_NUMBER.match(placed.line.text):
            by_key[running_key(placed.line.text)].append((placed.page, match["first"] or match["last"]))
    return {
        page: printed
        for some in by_key.values()
        if len({printed for _, printed in some}) == len(some)
        for page, printed in some
    }


def _value(printed: str) -> int:
    """The number that is meant; Roman ones are counted apart, so that 'iv' is never a neighbour of 5."""
    if printed.isdigit():
        return int(printed)
    values = [_LETTERS[letter] for letter in printed]
    pairs = zip(values, [*values[1:], 0], strict=True)
    return -10_000 + sum(-value if value < following else value for value, following in pairs)
