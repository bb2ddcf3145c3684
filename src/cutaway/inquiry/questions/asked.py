"""What the questions share: how far a search went, as its answer says, and the sets in the order they read in."""

from dataclasses import dataclass
from math import comb

from cutaway.inquiry.search.changes import Alteration, ChangeSet, in_words
from cutaway.inquiry.search.minimal import Bound, Ended, Search


@dataclass(frozen=True, slots=True)
class HowFar:
    """universe: how many changes could matter, of how many things. asked: the largest set that was to be looked at;
    done: the largest size gone through whole. tried: how many sets were tried, of about `possible`; undecided: of how
    many of them nothing could be said. ended: why it ended."""

    universe: int
    asked: int
    done: int
    tried: int
    possible: int
    undecided: int
    ended: Ended


def how_far(within: int, bound: Bound, search: Search[Alteration]) -> HowFar:
    """How far a search over so many changes went; one that was left in its midst counts as stopped."""
    possible = sum(comb(within, size) for size in range(1, bound.size + 1))
    ended = search.ended or "stopped"
    return HowFar(within, bound.size, search.size, search.tried, possible, len(search.undecided), ended)


def in_order(one: ChangeSet) -> tuple[Alteration, ...]:
    """The alterations of a set in the order that they are told in."""
    return tuple(sorted(one, key=in_words))
