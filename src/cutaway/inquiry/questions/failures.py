"""What must go wrong for a statement to be undone: the minimal sets of failures, and what the crew sees of each."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cutaway.handbook.records import Cite
from cutaway.inquiry.evidence import seen_at
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.asked import HowFar, how_far, in_order
from cutaway.inquiry.questions.indications import Noticed, noticed, with_indications
from cutaway.inquiry.questions.remembered import Remembered
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Break, ChangeSet
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.trying import Tried, Trying, holds, outcomes
from cutaway.inquiry.search.twins import folded
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.verdicts import Seen, Undecided
from cutaway.inquiry.workshop import Request
from cutaway.machine import names
from cutaway.machine.records import Run
from cutaway.parts.recipe import Medium

FAILURES = frozenset({"failure"})
PISTONS = ("JACK", "RAM")
# In how many sets of several a part must stand, at least, to be pointed out. A choice of ours.
OFTEN = 2


@dataclass(frozen=True, slots=True)
class FailureSet:
    """One minimal set. says: what each failure does, as its kind has it. twins: the sets that are the same but for
    port and starboard. lost: what the statement speaks of that is otherwise than before. noticed: what the crew would
    find otherwise, None where that was not looked at."""

    of: tuple[Break, ...]
    says: tuple[str, ...]
    twins: tuple[tuple[Break, ...], ...]
    lost: tuple[Seen, ...]
    noticed: tuple[Noticed, ...] | None
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Common:
    """A part that stands in many of the sets of several failures: in `sets` of `of`."""

    part: str
    sets: int
    of: int


@dataclass(frozen=True, slots=True)
class Failures:
    """seen: what the statement speaks of with nothing of this wrong. counts: how many sets of each size there are,
    twins each counted. common: parts that stand in many sets of several. leaks: the stores whose slow leak was tried
    and does not do it alone, by the time that all else is at rest. crew_looked: whether it was looked what the crew
    would notice; it is not where the search was stopped. faultless: the kinds of parts that could have to do with
    it and of which the library knows no failure."""

    seen: tuple[Seen, ...]
    sets: tuple[FailureSet, ...]
    counts: tuple[tuple[int, int], ...]
    common: tuple[Common, ...]
    far: HowFar
    leaks: tuple[str, ...] = ()
    crew_looked: bool = True
    faultless: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AlreadyUndone:
    """The statement is not so to begin with, so that nothing need fail for it. seen: what is so instead."""

    seen: tuple[Seen, ...]


FailuresAnswer = Failures | AlreadyUndone | Undecided


def failures(
    base: Base,
    bound: Bound,
    most: int = 20,
    stop: Callable[[], bool] = lambda: False,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
    memory: Memory | None = None,
) -> FailuresAnswer:
    """The minimal sets of failures that undo a statement which is so at a base.

    most: for how many sets, twins together, it is looked what the crew would see. as_found: told each set at once.
    memory: what came of sets in earlier sessions.
    """
    first = holds(base)
    if isinstance(first.looked, Undecided):
        return first.looked
    if not first.looked.decision.holds:
        return AlreadyUndone(seen_in(base, first.looked))
    within, search = universe(base, FAILURES), Search[Alteration]()
    trying = Trying(base, False, within, bound.size > 1)
    does = Remembered(trying, base, False, memory)
    for one in minimal_sets(within, does, bound, search, stop, trying.can_matter):
        as_found(one)
    does.keep()
    groups = folded(search.found, base.question.bound.parts)
    looks = not stop()
    seen = crew_sees(base, [group.first for group in groups[:most]]) if looks else []
    sets = tuple(
        FailureSet(
            breaks(group.first),
            tuple(says_of(base, one) for one in breaks(group.first)),
            tuple(breaks(twin) for twin in group.twins),
            _lost(base, first.looked, trying.came[group.first]),
            seen[i] if i < len(seen) else None,
            cites_for(base, group.first),
        )
        for i, group in enumerate(groups)
    )
    counts = tuple(sorted(Counter(len(one) for one in search.found).items()))
    far = how_far(len(within), bound, search)
    leaks = slow_leaks(base, [one for one in within if trying.can_matter(frozenset({one}))], search.found)
    common = _common(search.found)
    return Failures(seen_in(base, first.looked), sets, counts, common, far, leaks, looks, faultless(base))


def breaks(one: ChangeSet) -> tuple[Break, ...]:
    """The failures of a set in the order that they are told in."""
    return tuple(a for a in in_order(one) if isinstance(a, Break))


def seen_in(base: Base, looked: Looked) -> tuple[Seen, ...]:
    """What a statement speaks of, as it was in a run at the moment that decides."""
    clock, question = looked.scene.clock, base.question
    moment = min(clock + looked.decision.at, float(looked.run.times[-1]))
    return seen_at(question.statement, looked.run, question.bound, question.told.services, moment, clock)


def _lost(base: Base, before: Looked, after: Tried) -> tuple[Seen, ...]:
    """What a statement speaks of and is otherwise than before."""
    if isinstance(after.looked, Undecided):
        return ()
    was = {(one.what, one.dimension): one for one in seen_in(base, before)}
    now = seen_in(base, after.looked)
    return tuple(one for one in now if not _same(was.get((one.what, one.dimension)), one))


def _same(one: Seen | None, other: Seen) -> bool:
    return one is not None and replace(one, time=0.0) == replace(other, time=0.0)


def crew_sees(base: Base, sets: Sequence[ChangeSet]) -> list[tuple[Noticed, ...] | None]:
    """What the crew would find otherwise with each set than with none, once all is as the base is looked at; None
    where the model gave no answer. All are run as one batch."""
    wide = with_indications(base)
    before, *after = outcomes(wide, [frozenset(), *sets])
    if isinstance(before.looked, Undecided):
        return [None for _ in sets]
    runs = [None if isinstance(one.looked, Undecided) else one.looked.run for one in after]
    as_long = _as_long(wide, before.looked, [run for run in runs if run is not None])
    bound = base.question.bound
    return [None if run is None else noticed(bound, as_long[float(run.times[-1])], run) for run in runs]


def _as_long(wide: Base, before: Looked, runs: Sequence[Run]) -> dict[float, Run]:
    """The course without a change, as long as each of some runs: tanks and batteries go on emptying, and what differs
    for that alone is not to be told."""
    lengths = sorted({float(run.times[-1]) for run in runs})
    scene = before.scene
    results = wide.question.workshop.runs([Request(wide.made, scene.legs, scene.changes, one) for one in lengths])
    return {one: run if isinstance(run, Run) else before.run for one, run in zip(lengths, results, strict=True)}


def cites_for(base: Base, one: ChangeSet) -> tuple[Cite, ...]:
    """The paragraphs of the parts that a set alters."""
    parts = base.question.bound.parts
    return tuple(dict.fromkeys(c for a in in_order(one) if a.part in parts for c in parts[a.part].cites))


def faultless(base: Base) -> tuple[str, ...]:
    """The kinds of the parts that reach a base's statement and of which no failure is known."""
    bound, owner = base.question.bound, dict(base.made.network.owners)
    parts = {owner.get(element.name, "") for element in base.made.network.elements}
    kinds = {bound.parts[name].kind for name in parts if name in bound.parts}
    return tuple(sorted(kind for kind in kinds if not bound.kinds[kind].failures))


def says_of(base: Base, one: Break) -> str:
    """What a failure does, as its kind has it."""
    bound = base.question.bound
    kind = bound.kinds[bound.parts[one.part].kind]
    return next((failure.says for failure in kind.failures if failure.name == one.failure), "")


def slow_leaks(base: Base, within: Sequence[Alteration], found: Sequence[ChangeSet]) -> tuple[str, ...]:
    """The stores of what the statement speaks of (air, oil, petrol) whose leak is not among the answers to a question
    that is answered once all else is at rest."""
    if base.question.scope.when.kind != "settled":
        return ()
    network, slots = base.made.network, base.question.bound.contents
    medium, owner = {node.name: node.medium for node in network.nodes}, dict(network.owners)
    of = {name.rsplit(": ", 1)[0] for name in base.made.signals}
    media = {medium[name] for name in medium if owner.get(name) in of} | _sensed(base, of)
    stores = {e.name: medium.get(e.at[0], "") for e in network.elements if e.family not in PISTONS}
    alone = {next(iter(one)) for one in found if len(one) == 1}
    leaks = (one for one in within if isinstance(one, Break) and "leak" in one.failure and one not in alone)
    return tuple(
        one.part for one in leaks if one.part in slots and stores.get(slots[one.part].element, "none") in media
    )


def _sensed(base: Base, parts: set[str]) -> set[Medium]:
    """The media of the points that parts sense: a gauge holds no air itself."""
    wiring = base.question.bound.wiring
    ends = (names.node_name(to, inner) for (part, _), (to, inner) in wiring.coupled.items() if part in parts)
    return {wiring.media[node] for end in ends if (node := wiring.joined.get(end, "")) in wiring.media}


def _common(found: Sequence[ChangeSet]) -> tuple[Common, ...]:
    several = [one for one in found if len(one) > 1]
    counts = Counter(part for one in several for part in {a.part for a in one})
    often = [(part, count) for part, count in counts.most_common() if count >= OFTEN and count > len(several) / 10]
    return tuple(Common(part, count, len(several)) for part, count in often)
