"""From sets of changes to runs: each set on a base is one scene, all of a batch are run side by side."""

from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.inquiry.judging import Looked, looked_at, request_for
from cutaway.inquiry.rules import obeying
from cutaway.inquiry.scenes import Scene, Scenes
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changed import changed
from cutaway.inquiry.search.changes import Alteration, Assume, Break, ChangeSet, Put
from cutaway.inquiry.search.courses import Courses
from cutaway.inquiry.search.narrow import Mattering, Narrow
from cutaway.inquiry.verdicts import Undecided
from cutaway.inquiry.workshop import Made, Request

# Of a smaller universe the sets are run as soon as their courses are watched: where sets of several will be tried, and
# where single changes alone. Choices of ours.
WORTH_WATCHING = 40
WORTH_WATCHING_ONE = 100


@dataclass(frozen=True, slots=True, eq=False)
class Tried:
    """What came of one set: the scene as it was run with what is decided, or why nothing is."""

    looked: Looked | Undecided
    made: Made


def outcomes(base: Base, sets: Sequence[ChangeSet]) -> list[Tried]:
    """What comes of each set, in their order; all are run as one batch."""
    # Movements are put to their rules side by side, and so of one batch there are as many in every scene.
    batches: dict[tuple[int, int], tuple[Made, list[int]]] = {}
    put = [changed(base, one) for one in sets]
    for i, one in enumerate(sets):
        made = _machine(base, one)
        batches.setdefault((id(made), len(put[i].movements)), (made, []))[1].append(i)
    found: dict[int, Tried] = {}
    for made, places in batches.values():
        scenes = obeying(base.question, made, Scenes(tuple(put[i] for i in places), ""))
        if isinstance(scenes, Undecided):
            found.update({i: Tried(scenes, made) for i in places})
            continue
        requests = [request_for(base.question, made, scene) for scene in scenes.all]
        for i, looked in zip(places, _looked(base, scenes.all, requests), strict=True):
            found[i] = Tried(looked, made)
    return [found[i] for i in range(len(sets))]


def _looked(base: Base, scenes: Sequence[Scene], requests: Sequence[Request]) -> list[Looked | Undecided]:
    results = base.question.workshop.runs(requests)
    return [looked_at(base.question, scene, result) for scene, result in zip(scenes, results, strict=True)]


def _machine(base: Base, alterations: ChangeSet) -> Made:
    """The machine with the assumed values of a set."""
    values = tuple(((one.part, one.value), one.si) for one in sorted(alterations, key=repr) if isinstance(one, Assume))
    return base.question.workshop.varied(base.question.bound, base.made, values) if values else base.made


def holds(base: Base) -> Tried:
    """What comes of the base itself."""
    return outcomes(base, (frozenset(),))[0]


def _watchable(one: ChangeSet) -> bool:
    """Whether a set is one of positions and failures: of those it can be watched what they would change."""
    return all(isinstance(part, Put | Break) for part in one)


class Trying:
    """Whether sets of changes bring a statement about (`wanted` true) or undo it, and what was seen with each.

    Runs are kept by the workshop, and what came of a set by this, so that a second question on one base is quick.
    within: the universe that the sets are made of. With it they are tried on the narrow machine first, and what does it
    there, or is undecided there, is run on the whole one, which alone decides; `came` has what came of those. several:
    whether sets of more than one change will be tried: then it is watched what would change nothing besides what.
    """

    def __init__(self, base: Base, wanted: bool, within: Sequence[Alteration] = (), several: bool = False) -> None:
        self.base = base
        self.wanted = wanted
        self.came: dict[ChangeSet, Tried] = {}
        self._narrow = Narrow.of(base, within)
        self._several = several
        self._courses: Courses | None = None
        if self._narrow is not None and len(within) >= (WORTH_WATCHING if several else WORTH_WATCHING_ONE):
            self._courses = Courses(base, self._narrow, within, wanted)
        self._not: set[ChangeSet] = set()
        self._mattering: Mattering | None = None

    def __call__(self, sets: Sequence[ChangeSet]) -> list[bool | None]:
        """Whether each does it; None where a run gave up or did not come to rest."""
        new = [one for one in dict.fromkeys(sets) if one not in self.came and one not in self._not]
        if self._courses is not None:
            self._not |= self._courses.adds_nothing([one for one in new if _watchable(one)])
            new = [one for one in new if one not in self._not]
        if self._narrow is not None and new:
            self._not.update(one for one, does in zip(new, self._quick(new), strict=True) if does is False)
            new = [one for one in new if one not in self._not]
        for one, outcome in zip(new, outcomes(self.base, new), strict=True):
            self.came[one] = outcome
        return [False if one in self._not else self._does(self.came[one]) for one in sets]

    def _quick(self, sets: Sequence[ChangeSet]) -> list[bool | None]:
        """Whether each does it on the narrow machine. The courses of single changes are watched, since there are few
        of them beside the sets of two."""
        assert self._narrow is not None
        if self._several and self._courses is not None and all(len(one) == 1 and _watchable(one) for one in sets):
            return self._courses.does(sets)
        return self._narrow.does([changed(self.base, one) for one in sets], self.wanted)

    def can_matter(self, one: ChangeSet) -> bool:
        """False where some part of a set cannot matter together with the rest of it."""
        if self._mattering is None:
            self._mattering = Mattering(self.base, (self._narrow or self.base.made).network)
        return self._mattering(one)

    def _does(self, outcome: Tried) -> bool | None:
        if isinstance(outcome.looked, Undecided):
            return None
        return outcome.looked.decision.holds == self.wanted
