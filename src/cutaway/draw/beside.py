"""Where words beside a mark cover least of the lines that run past it."""

import math
from collections.abc import Sequence
from itertools import pairwise

Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""
Place = tuple[float, float]

SIDES = ((1, 1), (-1, -1), (1, -1), (-1, 1))
"""Right and left, above and below; tried in this order, so that the first of equal ones is taken."""
OFF = 7.0
_STEP = 3.0
_OVER, _OUTSIDE = 1000.0, 10_000.0
"""What words that lie on others, or reach out of the paper, count in points of line that they cover."""


def least_covering(
    at: Place, size: Place, lines: Sequence[Sequence[Place]], taken: Sequence[Box], paper: Box
) -> tuple[Box, tuple[int, int]]:
    """The box of words of a size beside a mark, and on which side of it: (1, 1) is right and above.

    >>> least_covering((50, 50), (20, 10), [[(50, 50), (90, 90)]], [], (0, 0, 100, 100))[1]
    (-1, -1)
    """
    boxes = [(_box(at, size, side), side) for side in SIDES]
    return min(boxes, key=lambda one: _cost(one[0], lines, taken, paper))


def _box(at: Place, size: Place, side: tuple[int, int]) -> Box:
    left = at[0] + OFF if side[0] > 0 else at[0] - OFF - size[0]
    bottom = at[1] + OFF if side[1] > 0 else at[1] - OFF - size[1]
    return (left, bottom, left + size[0], bottom + size[1])


def _cost(box: Box, lines: Sequence[Sequence[Place]], taken: Sequence[Box], paper: Box) -> float:
    over = sum(_meet(box, other) for other in taken)
    outside = box[0] < paper[0] or box[1] < paper[1] or box[2] > paper[2] or box[3] > paper[3]
    return _OVER * over + _OUTSIDE * outside + sum(_covered(box, line) for line in lines)


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
