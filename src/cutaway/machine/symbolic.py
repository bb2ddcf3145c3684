"""The order of elimination and the pattern of the factors of a network's matrix, found once for a structure."""

from dataclasses import dataclass
from functools import lru_cache
from heapq import heapify, heappop, heappush

import numpy as np

from cutaway.machine.layout import Ints


@dataclass(frozen=True, slots=True, eq=False)
class Elimination:
    """Places in one array of values for every entry of the factors; the array has one more place, for waste.

    order: node of each pivot. pivot: place of each diagonal, by pivot. lower, upper: places below and right of each pivot, with
    their rows and columns; target: where each product of the two goes. place: (node, node) to place, for the elements.
    """

    order: Ints
    pivot: Ints
    lower_at: Ints
    lower: Ints
    lower_row: Ints
    upper_at: Ints
    upper: Ints
    upper_column: Ints
    target_at: Ints
    target: Ints
    row_of: Ints
    column_of: Ints
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
    lower_at, lower, lower_row, upper, upper_column = [0], [], [], [], []
    for k in range(n):
        for i in below[k]:
            place[(k, i)] = len(place)
            place[(i, k)] = len(place)
            upper.append(place[(k, i)])
            lower.append(place[(i, k)])
            lower_row.append(i)
            upper_column.append(i)
        lower_at.append(len(lower))
    target_at, target = [0], []
    for k in range(n):
        target.extend(place[(i, j)] for i in below[k] for j in below[k])
        target_at.append(len(target))
    rows, columns = np.zeros(len(place), np.int64), np.zeros(len(place), np.int64)
    for (i, j), at in place.items():
        rows[at], columns[at] = i, j
    by_node = {(order[i], order[j]): at for (i, j), at in place.items()}

    def ints(values: list[int]) -> Ints:
        return np.array(values, np.int64)

    return Elimination(
        ints(order), ints(list(range(n))), ints(lower_at), ints(lower), ints(lower_row), ints(lower_at), ints(upper),
        ints(upper_column), ints(target_at), ints(target), rows, columns, by_node,
    )  # fmt: skip
