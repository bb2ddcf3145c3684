"""Whether an exploration says what the engine says: walks run through without a stop, against where they lead to."""

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cutaway.inquiry.course import Leg
from cutaway.inquiry.explore import Explored, Led, Words
from cutaway.inquiry.explore_ground import LOOK, Movement, leg_of
from cutaway.inquiry.workshop import Request
from cutaway.machine.records import Run


@dataclass(frozen=True, slots=True)
class Walk:
    """Movements one after another and the stop after each."""

    movements: tuple[Movement, ...]
    stops: tuple[int, ...]


def random_walks(found: Explored, count: int, longest: int, seed: int) -> tuple[Walk, ...]:
    """Walks of up to so many movements, each chosen blindly among those that are followed."""
    chance = random.Random(seed)
    return tuple(_walk(found, chance, chance.randint(1, longest)) for _ in range(count))


def _walk(found: Explored, chance: random.Random, length: int) -> Walk:
    movements: list[Movement] = []
    stops: list[int] = []
    at = 0
    for _ in range(length):
        open_ways = [(movement, arc.to) for movement, arc in found.stops[at].arcs.items() if isinstance(arc, Led)]
        if not open_ways:
            break
        movement, at = chance.choice(open_ways)
        movements.append(movement)
        stops.append(at)
    return Walk(tuple(movements), tuple(stops))


def legs_of(found: Explored, movements: Sequence[Movement]) -> tuple[Leg, ...]:
    """A walk as legs from the very beginning: the situation's own, then a leg for each movement."""
    ground, at = found.ground, 0
    legs = [*ground.legs, *(leg_of(ground, Movement(), {}) for _ in range(found.waited))]
    for movement in movements:
        stop = found.stops[at]
        legs.append(leg_of(ground, movement, stop.placed))
        arc = stop.arcs[movement]
        assert isinstance(arc, Led)
        at = arc.to
    return tuple(legs)


def disagreeing(found: Explored, walks: Sequence[Walk], words: Words) -> Iterator[Walk]:
    """The walks on which the engine, run from the very beginning, shows other words than one of their stops does."""
    ground = found.ground
    to: dict[tuple[Movement, ...], int] = {}
    for walk in walks:
        to |= {walk.movements[: n + 1]: stop for n, stop in enumerate(walk.stops)}
    runs = ground.workshop.runs([Request(ground.made, legs_of(found, one), (), LOOK) for one in to])
    wrong: set[tuple[Movement, ...]] = set()
    for (movements, stop), run in zip(to.items(), runs, strict=True):
        said = words(dict(zip(run.names, map(float, run.values[-1]), strict=True))) if isinstance(run, Run) else None
        if said != words(found.stops[stop].here.values):
            wrong.add(movements)
    for walk in walks:
        if any(walk.movements[: n + 1] in wrong for n in range(len(walk.stops))):
            yield walk
