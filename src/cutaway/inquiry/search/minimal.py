"""Minimal sets, smallest first. Knows nothing of machines: what a set does is asked of whoever can try it."""

import time
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import Generic, Literal, Protocol, TypeVar


class Element(Protocol):
    """What a set is made of: `thing` is what it alters, and a set alters each thing once."""

    @property
    def thing(self) -> Hashable:
        """What is altered."""
        ...


E = TypeVar("E", bound=Element)
Ended = Literal["complete", "size", "tries", "time", "stopped"]


@dataclass(frozen=True, slots=True)
class Bound:
    """How far to look. size: the largest set. tries: how many sets are tried at most. seconds: for how long, None
    without end. batch: how many are handed over at once."""

    size: int = 2
    tries: int = 20_000
    seconds: float | None = None
    batch: int = 64


@dataclass(slots=True)
class Search(Generic[E]):
    """A search as it goes. found: the minimal sets so far. size: the largest that was gone through whole. tried: how
    many sets were tried. undecided: those of which nothing could be said. left_out: how many of the next size were
    not tried. ended: why it ended, '' while it goes on.

    'complete' means that no larger set can be minimal: every set of the universe has been tried or holds a found one.
    """

    found: list[frozenset[E]] = field(default_factory=list)
    undecided: list[frozenset[E]] = field(default_factory=list)
    size: int = 0
    tried: int = 0
    left_out: int = 0
    ended: Ended | Literal[""] = ""


Try = Callable[[Sequence[frozenset[E]]], Sequence[bool | None]]


def minimal_sets(
    universe: Sequence[E],
    does: Try[E],
    bound: Bound,
    search: Search[E],
    stop: Callable[[], bool] = lambda: False,
    can_matter: Callable[[frozenset[E]], bool] = lambda one: True,
) -> Iterator[frozenset[E]]:
    """Every minimal set up to the bound that does what is asked, as each is found; `search` tells how far it got.

    universe: what sets are made of; sets of two that alter one thing are not made. does: whether each of some sets does
    it, None where that cannot be said (such a set counts as not found, and larger ones are tried). stop: asked before
    every batch. The empty set is not tried: the caller knows what the base does.

    Within one size no set can hold another, so a batch never tries a superset of what the same batch finds; a batch
    never mixes sizes.
    """
    until = None if bound.seconds is None else time.monotonic() + bound.seconds
    for size in range(1, bound.size + 1):
        waiting: list[frozenset[E]] = []
        more = False
        for one in _of_size(universe, size, search.found):
            more = True
            if not can_matter(one):
                continue
            waiting.append(one)
            if len(waiting) == min(bound.batch, bound.tries - search.tried):
                yield from _tried(waiting, does, search)
                waiting = []
                search.ended = _over(search, bound, until, stop)
                if search.ended:
                    return
        if waiting:
            yield from _tried(waiting, does, search)
        search.size = size
        if not more:
            search.ended = "complete"
            return
        search.ended = _over(search, bound, until, stop)
        if search.ended:
            return
    search.ended = "size" if next(iter(_of_size(universe, bound.size + 1, search.found)), None) else "complete"


def _over(search: Search[E], bound: Bound, until: float | None, stop: Callable[[], bool]) -> Ended | Literal[""]:
    if stop():
        return "stopped"
    if search.tried >= bound.tries:
        return "tries"
    return "time" if until is not None and time.monotonic() >= until else ""


def _tried(sets: Sequence[frozenset[E]], does: Try[E], search: Search[E]) -> Iterator[frozenset[E]]:
    for one, done in zip(sets, does(sets), strict=True):
        search.tried += 1
        if done:
            search.found.append(one)
            yield one
        elif done is None:
            search.undecided.append(one)


def _of_size(universe: Sequence[E], size: int, found: Sequence[frozenset[E]]) -> Iterator[frozenset[E]]:
    """The sets of a size that alter no thing twice and hold no found set, in the order of the universe."""
    smaller = [one for one in found if len(one) < size]
    holding: dict[E, list[frozenset[E]]] = {}
    for one in smaller:
        for element in one:
            holding.setdefault(element, []).append(one)
    alone = {next(iter(one)) for one in smaller if len(one) == 1}
    left = [element for element in universe if element not in alone]
    for chosen in combinations(left, size):
        if len({element.thing for element in chosen}) < size:
            continue
        candidate = frozenset(chosen)
        if not any(other <= candidate for element in chosen for other in holding.get(element, ())):
            yield candidate
