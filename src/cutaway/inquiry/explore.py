"""Everything that can come of single movements, one after another: settled stops, and what leads from one to the next.

Outwards from the situation's settled state. Two ways that come to the same are one stop, so that what depends on
history stays apart and what does not is told once. Controls that are moved and left come before those that are let go
after a moment, since these can lead on and on. Beyond the bound a movement is not followed, and that is said.
"""

import heapq
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from cutaway.inquiry.course import Leg
from cutaway.inquiry.explore_alike import FINENESS, Fineness, Marker, near
from cutaway.inquiry.explore_ground import (
    Ground,
    Here,
    Movement,
    against,
    kept_at,
    leg_of,
    looked,
    movements,
    settled,
    stands_there,
)
from cutaway.inquiry.explore_told import Happening, Watch, happenings
from cutaway.inquiry.told import placed_at_end
from cutaway.inquiry.workshop import Request
from cutaway.machine.records import Outcome, Run, SetContent

Words = Callable[[Mapping[str, float]], Hashable]
"""What a reader sees of a stop, from the values of every signal."""

# How often a situation is let settle once more before its exploration begins, at most.
LONGEST_BEFORE = 30


@dataclass(frozen=True, slots=True)
class Led:
    """A movement leads to the stop of that number. happened: on the way there."""

    to: int
    happened: tuple[Happening, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """Rules hold a movement back. asks: what they ask, in the words of the folder."""

    asks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Unfollowed:
    """Where a movement leads is not told. because: 'bound', the exploration ended before; 'no solution', no state
    could be found, and `sentence` says more."""

    because: Literal["bound", "no solution"]
    sentence: str = ""


Arc = Led | Refused | Unfollowed


@dataclass(frozen=True, slots=True, eq=False)
class Stop:
    """A settled state. placed: where the inputs stand. came: the stop before it on the shortest walk there and the
    movement made from it; None for the first. arcs: by movement; one to where a control stands has none."""

    here: Here
    placed: Mapping[str, float]
    came: tuple[int, Movement] | None
    arcs: Mapping[Movement, Arc]


@dataclass(frozen=True, slots=True, eq=False)
class Explored:
    """All stops, the first being where the situation comes to rest. waited: how often it was let settle before that.
    most: how many stops were allowed. whole: whether every movement from every stop was followed."""

    ground: Ground
    waited: int
    movements: tuple[Movement, ...]
    stops: tuple[Stop, ...]
    most: int
    whole: bool


def begun(ground: Ground, words: Words) -> tuple[Ground, Here, int] | Outcome:
    """The ground with what it keeps, where an exploration of it begins, and how often that was let settle before."""
    state = ground.workshop.reached(Request(ground.made, ground.legs, (), 0.0))
    if state is None:
        (found,) = ground.workshop.runs([Request(ground.made, ground.legs, (), 0.0)])
        assert isinstance(found, Outcome)
        return found
    ground = replace(ground, kept=ground.legs[-1].sets)
    (here,) = looked(ground, [state])
    ground = replace(ground, kept=kept_at(ground, here), legs=_ending_in(ground, kept_at(ground, here)))
    (here,) = looked(ground, [state])
    marker = Marker(ground, FINENESS[0])
    wait = leg_of(ground, Movement(), {})
    for waited in range(LONGEST_BEFORE):
        (run,) = settled(ground, [(here.state, wait)])
        if run.outcome.kind != "done":
            return ground, here, waited
        (later,) = looked(ground, [run.end])
        before, after = (marker.mark(one.state, words(one.values)) for one in (here, later))
        if before.key == after.key and near(before, after.amounts[None, :]) is not None:
            return ground, here, waited
        here = later
    return ground, here, LONGEST_BEFORE


def _ending_in(ground: Ground, kept: tuple[SetContent, ...]) -> tuple[Leg, ...]:
    return (*ground.legs[:-1], replace(ground.legs[-1], sets=kept))


def explored(
    ground: Ground,
    start: Here,
    waited: int,
    words: Words,
    watch: Sequence[Watch],
    most: int,
    fine: Fineness = FINENESS[0],
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] = lambda known: None,
) -> Explored:
    """Every stop that can be reached from where a ground begins, up to `most` of them.

    watch: the states whose changes on the way are told. stop: asked now and then whether to end with what is known.
    progress: told how many stops are known.
    """
    placed = placed_at_end(ground.legs)
    every = movements(ground, placed)
    lasting = tuple(one for one in every if not one.back)
    passing = tuple(one for one in every if one.back)
    graph = _Graph(ground, words, watch, most, fine)
    graph.add(start, placed, None)
    # How far away what is to be made leads, a movement that passes counting as three; then the number of the stop.
    waiting: list[tuple[int, int, tuple[Movement, ...]]] = [(1, 0, lasting), (3, 0, passing)]
    while waiting:
        away, number, some = heapq.heappop(waiting)
        known = len(graph.stops)
        graph.follow(number, some, stop())
        for new in range(known, len(graph.stops)):
            heapq.heappush(waiting, (away + 1, new, lasting))
            heapq.heappush(waiting, (away + 3, new, passing))
        progress(len(graph.stops))
    whole = not any(arc == Unfollowed("bound") for one in graph.stops for arc in one.arcs.values())
    return Explored(ground, waited, every, tuple(graph.stops), most, whole)


class _Graph:
    """The stops so far; grows."""

    def __init__(self, ground: Ground, words: Words, watch: Sequence[Watch], most: int, fine: Fineness) -> None:
        self.ground, self.words, self.watch, self.most = ground, words, watch, most
        self.stops: list[Stop] = []
        self._marker = Marker(ground, fine)
        self._alike: dict[Hashable, tuple[list[int], list[object]]] = {}

    def add(self, here: Here, placed: Mapping[str, float], came: tuple[int, Movement] | None) -> int | None:
        """The number of the stop, a new one if there is none like it; None where there is no room for one."""
        mark = self._marker.mark(here.state, self.words(here.values))
        numbers, amounts = self._alike.setdefault(mark.key, ([], []))
        found = near(mark, np.array(amounts)) if amounts else None
        if found is not None:
            return numbers[found]
        if len(self.stops) >= self.most:
            return None
        numbers.append(len(self.stops))
        amounts.append(mark.amounts)
        self.stops.append(Stop(here, placed, came, {}))
        return len(self.stops) - 1

    def follow(self, number: int, every: Sequence[Movement], over: bool) -> None:
        """Make every movement from a stop, and keep what comes of it. over: whether none is to be made any more."""
        at = self.stops[number]
        arcs = dict(at.arcs)
        made: list[Movement] = []
        for movement in every:
            if stands_there(movement, at.placed):
                continue
            asks = against(self.ground, movement, at.here)
            if asks:
                arcs[movement] = Refused(asks)
            elif over:
                arcs[movement] = Unfollowed("bound")
            else:
                made.append(movement)
        legs = [leg_of(self.ground, movement, at.placed) for movement in made]
        runs = settled(self.ground, [(at.here.state, leg) for leg in legs])
        fine = [run for run in runs if run.outcome.kind == "done"]
        seen = iter(looked(self.ground, [run.end for run in fine]))
        for movement, leg, run in zip(made, legs, runs, strict=True):
            if run.outcome.kind != "done":
                arcs[movement] = Unfollowed("no solution", run.outcome.sentence)
                continue
            placed = {**at.placed, **{change.input: change.value for change in leg.changes}}
            arcs[movement] = self._led(next(seen), placed, (number, movement), run)
        self.stops[number] = replace(at, arcs=arcs)

    def _led(self, here: Here, placed: Mapping[str, float], came: tuple[int, Movement], run: Run) -> Arc:
        to = self.add(here, placed, came)
        return Unfollowed("bound") if to is None else Led(to, happenings(run, self.watch))


def walk_to(found: Explored, number: int) -> tuple[Movement, ...]:
    """The shortest walk to a stop."""
    walk: list[Movement] = []
    came = found.stops[number].came
    while came is not None:
        walk.append(came[1])
        came = found.stops[came[0]].came
    return tuple(reversed(walk))
