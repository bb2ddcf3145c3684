"""What could be behind what the crew sees: the minimal explanations, and the next look that tells them apart best."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from cutaway.handbook.records import Cite
from cutaway.inquiry.deciding import LONGEST_REST
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.asked import HowFar, how_far
from cutaway.inquiry.questions.failures import FAILURES, breaks, cites_for, faultless, says_of, seen_in, slow_leaks
from cutaway.inquiry.questions.held_back import held_back
from cutaway.inquiry.questions.indications import (
    LEAST,
    NOTICEABLE,
    Indication,
    indications,
    shown_at_end,
    with_indications,
)
from cutaway.inquiry.questions.remembered import Remembered
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Break, ChangeSet, Put
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.trying import Trying, holds, outcomes
from cutaway.inquiry.search.twins import Folded, folded
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.signals import atoms
from cutaway.inquiry.verdicts import Seen, Undecided
from cutaway.inquiry.workshop import Request
from cutaway.language.syntax import Compare, InState
from cutaway.machine.records import Change, Run
from cutaway.parts.kind import State

# How many explanations are told apart, and how many runs are spent on movements that could do it. Choices of ours.
MOST_APART = 24
MOST_RUNS = 300


@dataclass(frozen=True, slots=True)
class Explanation:
    """A minimal set of failures that brings about all that is seen. twins: the same but for port and starboard. says:
    what each failure does, as its kind has it."""

    of: tuple[Break, ...]
    twins: tuple[tuple[Break, ...], ...]
    cites: tuple[Cite, ...]
    says: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Answers:
    """What a look would show, and with which of the explanations (each as its failures)."""

    shows: Seen
    by: tuple[tuple[Break, ...], ...]


@dataclass(frozen=True, slots=True)
class Look:
    """An indication that tells explanations apart, first the answer that most would give. move: what is moved before
    it is looked at, None where looking is enough."""

    indication: Indication
    move: Put | None
    answers: tuple[Answers, ...]

    @property
    def left(self) -> float:
        """How many explanations are left after it, as may be expected if all are as likely."""
        sizes = [len(one.by) for one in self.answers]
        return sum(size * size for size in sizes) / sum(sizes)


@dataclass(frozen=True, slots=True)
class Suspects:
    """otherwise: what would be seen with nothing wrong. look: the best look; move: the best movement with a look after
    it, where that tells more; None where none tells anything. apart: how many explanations were told apart. alike:
    those that no lamp or gauge tells apart. leaks: stores whose slow leak does not explain it, once all is at rest.
    faultless: the kinds of which the library knows no failure."""

    otherwise: tuple[Seen, ...]
    explanations: tuple[Explanation, ...]
    look: Look | None
    move: Look | None
    apart: int
    far: HowFar
    alike: tuple[tuple[tuple[Break, ...], ...], ...] = ()
    leaks: tuple[str, ...] = ()
    faultless: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NothingWrong:
    """All that is seen is so with nothing wrong."""

    seen: tuple[Seen, ...]


def suspects(
    base: Base,
    bound: Bound,
    stop: Callable[[], bool] = lambda: False,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
    memory: Memory | None = None,
) -> Suspects | NothingWrong | Undecided:
    """The minimal sets of failures that bring about a statement which is not so at a base, single before double; and
    the next look or movement that tells them apart."""
    first = holds(base).looked
    if isinstance(first, Undecided):
        return first
    if first.decision.holds:
        return NothingWrong(seen_in(base, first))
    within, search = universe(base, FAILURES), Search[Alteration]()
    trying = Trying(base, True, within)
    does = Remembered(trying, base, True, memory)
    for one in minimal_sets(within, does, bound, search, stop, trying.can_matter):
        as_found(one)
    does.keep()
    groups = folded(search.found, base.question.bound.parts)
    told = tuple(_explanation(base, g) for g in groups)
    apart = search.found[:MOST_APART]
    look, move = (None, None) if len(apart) < 2 or stop() else next_looks(base, apart, stop)
    alike = () if len(apart) < 2 or stop() else _alike(base, apart)
    leaks = slow_leaks(base, [one for one in within if trying.can_matter(frozenset({one}))], search.found)
    far = how_far(len(within), bound, search)
    return Suspects(seen_in(base, first), told, look, move, len(apart), far, alike, leaks, faultless(base))


def _explanation(base: Base, group: Folded) -> Explanation:
    of = breaks(group.first)
    says = tuple(says_of(base, one) for one in of)
    return Explanation(of, tuple(map(breaks, group.twins)), cites_for(base, group.first), says)


def _alike(base: Base, explanations: Sequence[ChangeSet]) -> tuple[tuple[tuple[Break, ...], ...], ...]:
    """The explanations with which everything that tells the crew something shows the same."""
    wide = with_indications(base)
    looked = zip(explanations, outcomes(wide, explanations), strict=True)
    runs = [(e, one.looked.run) for e, one in looked if isinstance(one.looked, Looked)]
    shows: dict[tuple[Break, ...], tuple[int, ...]] = {breaks(e): () for e, _ in runs}
    for indication in indications(base.question.bound):
        for number, answer in enumerate(_answers(indication, runs)):
            for by in answer.by:
                shows[by] += (number,)
    groups: dict[tuple[int, ...], list[tuple[Break, ...]]] = {}
    for by, numbers in shows.items():
        groups.setdefault(numbers, []).append(by)
    return tuple(tuple(group) for group in groups.values() if len(group) > 1)


def next_looks(
    base: Base, explanations: Sequence[ChangeSet], stop: Callable[[], bool] = lambda: False
) -> tuple[Look | None, Look | None]:
    """The look that splits the explanations most evenly; and the movement followed by a look that does so better, where
    there is one. Among equals the first in the order of the parts, and of the nearest positions. What was seen already
    is not looked at again, unless something is moved; nor is the starter of an engine that runs put in."""
    wide = with_indications(base)
    looked = [one.looked for one in outcomes(wide, explanations)]
    known = [(e, one) for e, one in zip(explanations, looked, strict=True) if isinstance(one, Looked)]
    as_seen = [(e, one.run) for e, one in known]
    look = _best(base, as_seen, None)
    if stop() or (look is not None and look.left <= 1.0):
        return look, None
    best = None
    for put in _movements(base, as_seen):
        if stop():
            break
        runs = _after(wide, known, put)
        # With some of them not run, those that are left would seem told apart better than they are.
        found = _best(base, runs, put) if len(runs) == len(known) else None
        if found is not None and (best is None or found.left < best.left):
            best = found
    better = best is not None and (look is None or best.left < look.left - 1e-9)
    return look, best if better else None


def _movements(base: Base, runs: Sequence[tuple[ChangeSet, Run]]) -> list[Put]:
    """The movements that are tried: of controls that can matter, as many as the runs allow."""
    every = [one for one in universe(base, frozenset({"control"})) if isinstance(one, Put)]
    if _some_engine_runs(base, [run for _, run in runs]):
        every = [one for one in every if not _is_starter(base, one)]
    held = held_back(base, [frozenset({one}) for one in every])
    every = [one for one, back in zip(every, held, strict=True) if not back]
    return every[: max(1, MOST_RUNS // max(1, len(runs)))]


def _some_engine_runs(base: Base, runs: Sequence[Run]) -> bool:
    running = [
        one for one in indications(base.question.bound) if isinstance(one.shows, State) and one.shows.words == "running"
    ]
    return any(float(run.column(one.signals[0])[-1]) > 0.5 for run in runs for one in running)


def _is_starter(base: Base, one: Put) -> bool:
    """Whether a control is one that turns an engine to start it: it springs back, and says so by its name or its
    part's."""
    slot = base.question.bound.controls[(one.part, one.control)]
    return slot.springs_back and "starter" in f"{one.part} {one.control}".casefold()


def _after(wide: Base, known: Sequence[tuple[ChangeSet, Looked]], put: Put) -> list[tuple[ChangeSet, Run]]:
    """The runs with each explanation in which, once all is as it is seen, a control is moved."""
    requests = []
    for _, one in known:
        at = float(one.run.times[-1])
        changes = (*one.scene.changes, Change(at, put.input, put.value))
        requests.append(Request(wide.made, one.scene.legs, changes, at + LONGEST_REST, "calm"))
    results = wide.question.workshop.runs(requests)
    return [
        (e, run)
        for (e, _), run in zip(known, results, strict=True)
        if isinstance(run, Run) and run.outcome.kind == "done"
    ]


def _best(base: Base, runs: Sequence[tuple[ChangeSet, Run]], move: Put | None) -> Look | None:
    """The indication that splits the runs most evenly, None where all show the same everywhere."""
    seen = _spoken_of(base) if move is None else frozenset()
    looks = (Look(one, move, _answers(one, runs)) for one in indications(base.question.bound) if one.part not in seen)
    telling = [one for one in looks if len(one.answers) > 1]
    return min(telling, key=lambda one: one.left, default=None)


def _spoken_of(base: Base) -> frozenset[str]:
    """The parts whose showing is what was seen."""
    found: set[str] = set()
    for one in atoms(base.question.statement, base.question.told.services):
        match one:
            case InState(part=part):
                found.add(str(part))
            case Compare(reading=ref) if not ref.port:
                found.add(str(ref.part))
            case _:
                pass
    return frozenset(found)


def _answers(indication: Indication, runs: Iterable[tuple[ChangeSet, Run]]) -> tuple[Answers, ...]:
    """What an indication shows in each run, those that the crew would take for the same together."""
    shown = [(shown_at_end(indication, run), breaks(explanation)) for explanation, run in runs]
    groups: dict[str, list[tuple[Seen, tuple[Break, ...]]]] = {}
    for seen, by in shown:
        if seen.value is None:
            groups.setdefault(seen.state, []).append((seen, by))
    together = [*groups.values(), *_read_alike([(seen, by) for seen, by in shown if seen.value is not None])]
    answers = (Answers(group[0][0], tuple(by for _, by in group)) for group in together)
    return tuple(sorted(answers, key=lambda one: -len(one.by)))


def _read_alike(read: list[tuple[Seen, tuple[Break, ...]]]) -> list[list[tuple[Seen, tuple[Break, ...]]]]:
    """The readings of one dial in groups with a gap between them that can be read on it: a share of the most that it
    shows in any of them, since that is what its scale is made for."""
    if not read:
        return []
    dimension = read[0][0].dimension
    most = 0.0 if dimension == "temperature" else max(abs(seen.value or 0.0) for seen, _ in read)
    gap = max(LEAST.get(dimension, 0.0), NOTICEABLE * most)
    in_order = sorted(read, key=lambda one: one[0].value or 0.0)
    groups = [[in_order[0]]]
    for before, one in pairwise(in_order):
        if (one[0].value or 0.0) - (before[0].value or 0.0) > gap:
            groups.append([])
        groups[-1].append(one)
    return [sorted(group, key=read.index) for group in groups]
