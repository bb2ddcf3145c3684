"""Where words beside a mark cover least of the lines that run past it."""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations, pairwise, product

Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""
Place = tuple[float, float]

Side = tuple[float, float]
SIDES: tuple[Side, ...] = (
    (1, 1), (-1, -1), (1, -1), (-1, 1),
    (1, 4), (1, -4), (-1, 4), (-1, -4),
)  # fmt: skip
"""Right and left, above and below, near and further off, in steps of `OFF`; of equal ones the first is taken."""
FEW = 3
OFF = 7.0
_STEP = 3.0
_OVER, _OUTSIDE, _FAR = 1000.0, 10_000.0, 60.0
"""What words that lie on others, reach out of the paper or stand further off count, in points of line covered."""


def least_covering(
    marks: Sequence[tuple[Place, Place]], lines: Sequence[Sequence[Place]], paper: Box
) -> tuple[Side, ...]:
    """On which side of its mark each of some words stands best: (1, 1) is right and above. marks: each with the width
    and height of its words. Of few marks all ways are tried together; of more each in its turn.

    >>> least_covering([((50, 50), (20, 10))], [[(50, 50), (90, 90)]], (0, 0, 100, 100))
    ((-1, -1),)
    """
    alone = [
        {side: _cost(_box(at, size, side), lines, paper) + _FAR * (abs(side[1]) > 1) for side in SIDES}
        for at, size in marks
    ]
    if len(marks) > FEW:
        chosen: tuple[Side, ...] = ()
        for number in range(len(marks)):
            ways = [(*chosen, side) for side in SIDES]
            chosen = min(ways, key=lambda way: _together(way, marks[: number + 1], alone))
        return chosen
    return min(product(SIDES, repeat=len(marks)), key=lambda way: _together(way, marks, alone))


def _together(
    sides: Sequence[Side],
    marks: Sequence[tuple[Place, Place]],
    alone: Sequence[Mapping[Side, float]],
) -> float:
    """What a choice of sides counts, words on one another among it."""
    boxes = [_box(at, size, side) for (at, size), side in zip(marks, sides, strict=True)]
    over = sum(_meet(one, other) for one, other in combinations(boxes, 2))
    return _OVER * over + sum(costs[side] for costs, side in zip(alone, sides, strict=False))


def _box(at: Place, size: Place, side: Side) -> Box:
    left = at[0] + OFF * side[0] - (size[0] if side[0] < 0 else 0.0)
    bottom = at[1] + OFF * side[1] - (size[1] if side[1] < 0 else 0.0)
    return (left, bottom, left + size[0], bottom + size[1])


def _cost(box: Box, lines: Sequence[Sequence[Place]], paper: Box) -> float:
    outside = box[0] < paper[0] or box[1] < paper[1] or box[2] > paper[2] or box[3] > paper[3]
    return _OUTSIDE * outside + sum(_covered(box, line) for line in lines)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _covered(box: Box, line: Sequence[Place]) -> float:
    """How much of a line lies under a box, in small steps."""
    found = 0.0
    for (ax, ay), (bx, by) in pairwise(line):
        if max(ax, bx) < box[0] or min(ax, bx) > box[2] or max(ay, by) < box[1] or min(ay, by) > box[3]:
            continue
        steps = max(1, math.ceil(math.dist((ax, ay), (bx, by)) / _STEP))
        for i in range(steps):
            x, y = ax + (bx - ax) * (i + 0.5) / steps, ay + (by - ay) * (i + 0.5) / steps
            found += math.dist((ax, ay), (bx, by)) / steps if box[0] <= x <= box[2] and box[1] <= y <= box[3] else 0.0
    return found
