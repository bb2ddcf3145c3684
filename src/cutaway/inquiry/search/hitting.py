"""Minimal reasons: the minimal sets that meet every change set."""

from collections.abc import Hashable, Iterator, Sequence
from itertools import islice
from typing import TypeVar

from pysat.examples.hitman import Hitman

T = TypeVar("T", bound=Hashable)


def hitting_sets(sets: Sequence[frozenset[T]], most: int = 200) -> Iterator[frozenset[T]]:
    """The minimal hitting sets of some sets, smallest first, `most` at most: each meets every one of the sets, and no
    part of it does. None where there are no sets, or one of them is empty.

    Source: R. Reiter, A Theory of Diagnosis from First Principles, 1987; enumerated by python-sat.
    """
    if not sets or any(not one for one in sets):
        return
    number: dict[T, int] = {}
    for one in sets:
        for element in sorted(one, key=repr):  # the same numbers in every process
            number.setdefault(element, len(number) + 1)
    names = {n: element for element, n in number.items()}
    clauses = [sorted(number[element] for element in one) for one in sets]
    with Hitman(bootstrap_with=clauses, htype="sorted") as hitman:
        for hit in islice(hitman.enumerate(), most):
            yield frozenset(names[n] for n in hit)
