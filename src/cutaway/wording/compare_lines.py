"""Pipes and wires that only one of two standards has, in sentences: from what to what, and which way it goes on the
other."""

from collections import deque
from collections.abc import Iterable

from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.wording.asking import the
from cutaway.wording.shown import listed_with, sentence


def line_words(one: RecordDifference, every: Iterable[RecordDifference], here: str, there: str) -> str:
    """A line that only one has. every: all that differs in the records, among it the other's lines."""
    start, end = one.part.split(" > ")
    mine, others = (here, there) if one.one else (there, here)
    theirs = [tuple(r.part.split(" > ")) for r in every if r.what == "line" and bool(r.one) != bool(one.one)]
    by = _between(start, end, theirs)
    leads = f"{_end(start)} leads"
    if by:
        way = listed_with(the(part) for part in by)
        return sentence(f"{leads} straight to {_end(end)} on {mine}, and by way of {way} on {others}")
    return sentence(f"{leads} straight to {_end(end)} on {mine} only")


def _end(words: str) -> str:
    """An end of a line as it is said: 'the outlet side of the shuttle valve'."""
    part, _, inner = words.partition(".")
    return f"the {inner} side of {the(part)}" if inner else the(part)


def _between(start: str, end: str, lines: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """The parts through which lines lead from one end to another, the fewest that do; none where they do not."""
    joined: dict[str, list[str]] = {}
    for a, b in lines:
        joined.setdefault(a, []).append(b)
        joined.setdefault(b, []).append(a)
    waiting: deque[tuple[str, tuple[str, ...]]] = deque([(start, ())])
    seen = {start}
    while waiting:
        at, by = waiting.popleft()
        for other in joined.get(at, ()):
            if other == end:
                return by
            part = other.split(".")[0]
            for port in (one for one in joined if one.split(".")[0] == part and one not in seen):
                seen.add(port)
                waiting.append((port, (*by, part)))
    return ()
