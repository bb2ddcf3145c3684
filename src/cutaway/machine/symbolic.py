"""The order of elimination and the pattern of the factors of a network's matrix, found once for a structure."""

from dataclasses import dataclass
from functools import lru_cache
from heapq import heapify, heappop, heappush

import numpy as np

from cutaway.machine.layout import Ints


@dataclass(frozen=True, slots=True, eq=False)
class Elimination:
    """Places in one array of values for every entry of the factors; the array has one more place, for waste.

    The place of pivot k is k. order: node of each pivot. fill_at: where each pivot's fill begins. fill: by line the
    places below the pivot, the pivots they belong to (also those of the columns: the pattern is symmetric), the
    places right of it. target: where each product of the two goes. places: row and column of each place. place:
    (node, node) to place, for the elements.
    """

    order: Ints
    fill_at: Ints
    fill: Ints
    target: Ints
    places: Ints
    place: dict[tuple[int, int], int]


def least_degree(n: int, edges: frozenset[tuple[int, int]]) -> tuple[list[int], list[set[int]]]:
    """Nodes in the order of least remaining neighbours, and the later neighbours of each (fill included)."""
    near: list[set[int]] = [set() for _ in range(n)]
    for a, b in edges:
        near[a].add(b)
        near[b].add(a)
    order, later = [], []
    gone = [False] * n
    queue = [(len(near[i]), i) for i in range(n)]
    heapify(queue)
    while queue:
        degree, k = heappop(queue)
        if gone[k] or degree != len(near[k]):
            continue
        gone[k] = True
        order.append(k)
        later.append(set(near[k]))
        for i in near[k]:
            near[i] |= near[k]
            near[i] -= {i, k}
            heappush(queue, (len(near[i]), i))
    return order, later


@lru_cache(maxsize=128)
def elimination(n: int, edges: frozenset[tuple[int, int]]) -> Elimination:
    """The elimination of a symmetric pattern of `n` nodes with these edges."""
    order, later = least_degree(n, edges)
    rank = {node: k for k, node in enumerate(order)}
    place: dict[tuple[int, int], int] = {(k, k): k for k in range(n)}
    below = [sorted(rank[i] for i in later[k]) for k in range(n)]
    fill_at, lower, upper = [0], list[int](), list[int]()
    target: list[int] = []
    for k in range(n):
        for i in below[k]:
            place[(k, i)] = len(place)
            upper.append(place[(k, i)])
            place[(i, k)] = len(place)
            lower.append(place[(i, k)])
        fill_at.append(len(lower))
    for k in range(n):
        target.extend(place[(i, j)] for i in below[k] for j in below[k])
    rows = [i for k in range(n) for i in below[k]]
    return Elimination(
        order=np.array(order, np.int64),
        fill_at=np.array(fill_at, np.int64),
        fill=np.array([lower, rows, upper], np.int64).reshape(3, len(rows)),
        target=np.array(target, np.int64),
        places=np.array(list(place), np.int64).reshape(len(place), 2).T.copy(),
        place={(order[i], order[j]): at for (i, j), at in place.items()},
    )
