"""The chance that some minimal set comes about, where the chance of each thing is known and they are independent."""

from collections.abc import Hashable, Iterable, Mapping
from math import prod
from typing import TypeVar

T = TypeVar("T", bound=Hashable)


def chance_of(one: Iterable[T], chances: Mapping[T, float]) -> float:
    """The chance that all of a set come about together."""
    return prod(chances[element] for element in one)


def sum_of_sets(sets: Iterable[frozenset[T]], chances: Mapping[T, float]) -> float:
    """The sum over the sets: never less than the exact chance, and near it where all chances are small."""
    return sum(chance_of(one, chances) for one in sets)


def exact_chance(sets: Iterable[frozenset[T]], chances: Mapping[T, float]) -> float:
    """The exact chance that all of at least one set come about: one element after another, so or not so (Shannon).

    >>> exact_chance([frozenset("a"), frozenset("bc")], {"a": 0.1, "b": 0.5, "c": 0.5})
    0.325
    """
    known: dict[frozenset[frozenset[T]], float] = {}

    def chance(family: frozenset[frozenset[T]]) -> float:
        if not family:
            return 0.0
        if frozenset() in family:
            return 1.0
        if family not in known:
            counts: dict[T, int] = {}
            for one in family:
                for element in one:
                    counts[element] = counts.get(element, 0) + 1
            first = min(counts, key=lambda element: (-counts[element], repr(element)))
            so = _minimal(one - {first} for one in family)
            not_so = frozenset(one for one in family if first not in one)
            known[family] = chances[first] * chance(so) + (1.0 - chances[first]) * chance(not_so)
        return known[family]

    return chance(_minimal(sets))


def _minimal(sets: Iterable[frozenset[T]]) -> frozenset[frozenset[T]]:
    out: list[frozenset[T]] = []
    for one in sorted(set(sets), key=len):
        if not any(other <= one for other in out):
            out.append(one)
    return frozenset(out)
