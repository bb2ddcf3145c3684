"""Which changes would change nothing besides others: courses that were run with a witness for every change.

If nothing that a change is met in reads otherwise along the course of a set, then the set with that change added runs
the same course, and does what the set does (see `machine/inert.py`). So it need not be run.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.inquiry.judging import looked_at
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changed import changed
from cutaway.inquiry.search.changes import Alteration, Break, ChangeSet, Put
from cutaway.inquiry.search.narrow import Narrow
from cutaway.inquiry.verdicts import Undecided
from cutaway.machine.inert import Witnesses
from cutaway.machine.records import Change

# So many courses are run at once: each keeps a row of witnesses for every step until it is looked through.
AT_ONCE = 16


@dataclass(frozen=True, slots=True)
class _Course:
    """does: whether the set does it, None where that cannot be said. idle: what would change nothing besides."""

    does: bool | None
    idle: frozenset[Alteration]


class Courses:
    """The courses of sets on the narrow machine, each run once. wanted: what the statement is to come to."""

    def __init__(self, base: Base, narrow: Narrow, within: Sequence[Alteration], wanted: bool) -> None:
        self._base, self._wanted = base, wanted
        inside = {slot.name for slot in narrow.network.inputs}
        self._moves = tuple(one for one in within if isinstance(one, Put | Break) and one.input in inside)
        self._witnesses = Witnesses(narrow.network, [_move(one) for one in self._moves])
        self._narrow = narrow.recording(self._witnesses.network, self._witnesses.names)
        self._known: dict[ChangeSet, _Course] = {}

    def does(self, sets: Sequence[ChangeSet]) -> list[bool | None]:
        """Whether each does it, on the narrow machine."""
        self._run([one for one in dict.fromkeys(sets) if one not in self._known])
        return [self._known[one].does for one in sets]

    def adds_nothing(self, sets: Sequence[ChangeSet]) -> set[ChangeSet]:
        """The sets of which some part changes nothing besides the rest, which does not do it. Courses of more than one
        change are not run for this: of a larger set it is only seen where the rest itself comes down to one."""
        rests = {rest for one in sets for part in one if len(rest := one - {part}) <= 1}
        self._run([rest for rest in sorted(rests, key=repr) if rest not in self._known])
        return {one for one in sets if self._adds_nothing(one)}

    def _adds_nothing(self, one: ChangeSet) -> bool:
        return any(self._idle(part, one - {part}) for part in one)

    def _idle(self, part: Alteration, rest: ChangeSet) -> bool:
        """Whether a change changes nothing besides a set that does not do it."""
        course = self._course(rest)
        return course is not None and course.does is False and part in course.idle

    def _course(self, one: ChangeSet) -> _Course | None:
        """The course of a set; where a part of it adds nothing, that of the rest."""
        known = self._known.get(one)
        if known is None and len(one) > 1:
            rest = next((one - {part} for part in sorted(one, key=repr) if self._idle(part, one - {part})), None)
            known = None if rest is None else self._course(rest)
        return known

    def _run(self, sets: Sequence[ChangeSet]) -> None:
        for i in range(0, len(sets), AT_ONCE):
            some = sets[i : i + AT_ONCE]
            scenes = [changed(self._base, one) for one in some]
            for one, scene, run in zip(some, scenes, self._narrow.runs(scenes, self._touched()), strict=True):
                looked = looked_at(self._base.question, scene, run)
                if isinstance(looked, Undecided):
                    self._known[one] = _Course(None, frozenset())
                    continue
                inert = zip(self._moves, self._witnesses.inert(run), strict=True)
                idle = frozenset(move for move, nothing in inert if nothing)
                self._known[one] = _Course(looked.decision.holds == self._wanted, idle)

    def _touched(self) -> Change | None:
        """A move of something to where it stands already: so that the course of nothing begins as all others do."""
        if not self._moves:
            return None
        return Change(0.0, self._moves[0].input, self._narrow.stands(self._moves[0].input))


def _move(one: Put | Break) -> tuple[str, float]:
    return one.input, one.value if isinstance(one, Put) else 1.0
