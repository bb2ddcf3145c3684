"""The enumeration of minimal sets against going through every set there is."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, combinations

from hypothesis import given
from hypothesis import strategies as st

from cutaway.inquiry.search.hitting import hitting_sets
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets


@dataclass(frozen=True)
class Move:
    """Something that can be changed: `thing` to `value`."""

    thing: str
    value: int


UNIVERSE = tuple(Move(thing, value) for thing in "abcd" for value in (1, 2))


def all_sets(universe: Sequence[Move], largest: int) -> list[frozenset[Move]]:
    every = chain.from_iterable(combinations(universe, size) for size in range(1, largest + 1))
    return [frozenset(one) for one in every if len({move.thing for move in one}) == len(one)]


def brute(truth: dict[frozenset[Move], bool | None], largest: int) -> set[frozenset[Move]]:
    """Every set that does it and of which no smaller part does."""
    doing = [one for one in all_sets(UNIVERSE, largest) if truth[one]]
    return {one for one in doing if not any(other < one for other in doing)}


@given(st.randoms(use_true_random=False), st.floats(0.0, 0.5), st.integers(1, 4), st.integers(1, 7))
def test_the_same_sets_as_by_going_through_all(random, share: float, largest: int, batch: int) -> None:
    truth = {one: random.random() < share for one in all_sets(UNIVERSE, 4)}
    search: Search[Move] = Search()
    asked: list[frozenset[Move]] = []

    def does(sets: Sequence[frozenset[Move]]) -> list[bool | None]:
        asked.extend(sets)
        return [truth[one] for one in sets]

    found = list(minimal_sets(UNIVERSE, does, Bound(largest, batch=batch), search))
    assert set(found) == brute(truth, largest) and found == search.found
    assert [len(one) for one in found] == sorted(len(one) for one in found)
    assert search.tried == len(asked) == len(set(asked))
    assert not any(other < one for one in asked for other in found if len(other) < len(one))
    assert search.ended in ("size", "complete")
    whole = brute(truth, 4)
    assert search.ended == "size" or set(found) == whole


def test_what_cannot_be_said_is_counted_and_not_found() -> None:
    search: Search[Move] = Search()
    found = list(minimal_sets(UNIVERSE, lambda sets: [None for _ in sets], Bound(2), search))
    assert found == [] and len(search.undecided) == search.tried == len(all_sets(UNIVERSE, 2))


def test_a_bound_is_kept_and_told() -> None:
    search: Search[Move] = Search()
    list(minimal_sets(UNIVERSE, lambda sets: [False for _ in sets], Bound(3, tries=10, batch=5), search))
    assert (search.ended, search.tried, search.size) == ("tries", 10, 1)
    search = Search()
    list(minimal_sets(UNIVERSE, lambda sets: [False for _ in sets], Bound(3), search, stop=lambda: True))
    assert search.ended == "stopped"


@given(st.lists(st.frozensets(st.integers(0, 6), min_size=1), min_size=1, max_size=6))
def test_hitting_sets_meet_every_set_and_are_minimal(sets: list[frozenset[int]]) -> None:
    found = set(hitting_sets(sets, 10_000))
    every = [frozenset(one) for size in range(8) for one in combinations(range(7), size)]
    meeting = [one for one in every if all(one & other for other in sets)]
    assert found == {one for one in meeting if not any(other < one for other in meeting)}
    assert list(hitting_sets([*sets, frozenset()])) == []
