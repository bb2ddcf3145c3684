"""The shortest sequences against going through every sequence there is, on random worlds."""

import random
from collections.abc import Sequence
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.sequences import After, Going, Path, shortest

MOVES = ("a", "b", "c")
WAITS = (0.0, 5.0)


class Random:
    """A world of so many states: where a move with a wait leads, and with which moves one is there, are drawn."""

    def __init__(self, seed: int, states: int, there: float) -> None:
        rng = random.Random(seed)
        self.leads = {(s, m, w): rng.randrange(states) for s in range(states) for m in MOVES for w in WAITS}
        self.there = {(s, m): rng.choice([None, True]) if rng.random() < there else False
                      for s in range(states) for m in MOVES}  # fmt: skip
        self.asked: list[tuple[int, str]] = []

    def moves(self, state: int) -> Sequence[str]:
        return MOVES

    def can_end(self, move: str) -> bool:
        return True

    def can_matter(self, path: Path[str], move: str) -> bool:
        return True

    def can_begin(self, path: Path[str], move: str, left: int) -> bool:
        return True

    def arrive(self, pairs: Sequence[tuple[int, str]]) -> list[bool | None]:
        self.asked += pairs
        return [self.there[pair] for pair in pairs]

    def go_on(self, pairs: Sequence[tuple[int, str]]) -> list[list[After[int]]]:
        return [[After(w, str(self.leads[s, m, w]), self.leads[s, m, w]) for w in WAITS] for s, m in pairs]


def every_shortest(world: Random, longest: int) -> set[Path[str]]:
    """All sequences of the least length that get there, by going through all."""
    for length in range(1, longest + 1):
        found: set[Path[str]] = set()
        for moves in product(MOVES, repeat=length):
            for waits in product(WAITS, repeat=length - 1):
                state, before = 0, (0.0, *waits)
                for move, wait in zip(moves[:-1], waits, strict=True):
                    state = world.leads[state, move, wait]
                if world.there[state, moves[-1]]:
                    found.add(tuple(zip(moves, before, strict=True)))
        if found:
            return found
    return set()


@given(st.integers(0, 10_000), st.integers(2, 8), st.floats(0.0, 0.3), st.integers(1, 4), st.integers(1, 5))
def test_the_same_as_by_going_through_all(seed: int, states: int, there: float, longest: int, batch: int) -> None:
    world = Random(seed, states, there)
    going: Going[str] = Going()
    found = list(shortest((0, "0"), world, Bound(longest, batch=batch), going))
    assert set(found) == every_shortest(world, longest) and len(found) == len(set(found))
    assert going.tried == len(world.asked) == len(set(world.asked)), "no last move is tried twice"
    assert going.ended == ("found" if found else going.ended) and going.ended in ("found", "length", "complete")
    if going.ended == "complete":
        assert not every_shortest(world, 5)


def test_bounds_are_kept_and_told() -> None:
    world = Random(3, 8, 0.0)
    going: Going[str] = Going()
    assert list(shortest((0, "0"), world, Bound(4, tries=4, batch=2), going)) == []
    assert (going.ended, going.tried, going.length) == ("tries", 4, 1)
    going = Going()
    list(shortest((0, "0"), world, Bound(4), going, stop=lambda: True))
    assert going.ended == "stopped"
    going = Going()
    list(shortest((0, "0"), world, Bound(4, seconds=0.0), going))
    assert going.ended == "time"
