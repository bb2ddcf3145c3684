"""Straight stretches of routes: where they touch, and what is left of one beside another."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from cutaway.draw.shapes import Point

Segment = tuple[Point, Point]

NEAR = 0.5
"""What is nearer than this is at one place."""


def ways_from(point: Point, segment: Segment) -> set[str]:
    """In which directions a segment leaves a point that it touches."""
    (ax, ay), (bx, by) = segment
    x, y = point
    near = NEAR
    if abs(ay - by) < near and abs(y - ay) < near and min(ax, bx) - near <= x <= max(ax, bx) + near:
        return {w for w, has in (("west", min(ax, bx) < x - near), ("east", max(ax, bx) > x + near)) if has}
    if abs(ax - bx) < near and abs(x - ax) < near and min(ay, by) - near <= y <= max(ay, by) + near:
        return {w for w, has in (("north", min(ay, by) < y - near), ("south", max(ay, by) > y + near)) if has}
    return set()


def ways_on(point: Point, stretches: Sequence[Segment]) -> set[str]:
    """In which directions stretches leave a point."""
    return {way for stretch in stretches for way in ways_from(point, stretch)}


def segments(points: Sequence[Point]) -> list[Segment]:
    """The straight stretches of a route."""
    return [(a, b) for a, b in pairwise(points) if a != b]


def without(one: Segment, other: Segment) -> list[Segment]:
    """What is left of a stretch where another that runs along it is taken away."""
    for axis in (0, 1):
        level = [p[1 - axis] for s in (one, other) for p in s]
        if max(level) - min(level) > 0.5:
            continue
        first, last = one[0][axis], one[1][axis]
        low, high = sorted((other[0][axis], other[1][axis]))
        cuts = [min(max(at, min(first, last)), max(first, last)) for at in (low, high)]
        if cuts[1] - cuts[0] < 0.5:
            return [one]
        near, far = cuts if first < last else reversed(cuts)
        ends = [(one[0], _moved(one[0], axis, near)), (_moved(one[1], axis, far), one[1])]
        return [(a, b) for a, b in ends if math.dist(a, b) > 1.0]
    return [one]


def last_on(start: Point, end: Point, lines: Iterable[Segment]) -> Point | None:
    """The last place of a stretch that touches one of the lines; None where none does.

    >>> last_on((0.0, 0.0), (10.0, 0.0), [((2.0, 0.0), (6.0, 0.0)), ((8.0, -5.0), (8.0, 5.0))])
    (8.0, 0.0)
    """
    axis = 0 if abs(start[1] - end[1]) < NEAR else 1
    low, high = sorted((start[axis], end[axis]))
    found: list[Point] = []
    for line in lines:
        first, last = sorted(point[axis] for point in line)
        near, far = sorted(point[1 - axis] for point in line)
        level = near - NEAR <= start[1 - axis] <= far + NEAR
        if level and first <= high + NEAR and last >= low - NEAR:
            ahead = start[axis] < end[axis]
            found.append(_moved(start, axis, min(last, high) if ahead else max(first, low)))
    return min(found, key=lambda at: math.dist(at, end), default=None)


def crossing(one: Segment, other: Segment) -> Point | None:
    """Where an upright and a level stretch cross, each in its midst; None where they do not."""
    level, upright = (one, other) if abs(one[0][1] - one[1][1]) < NEAR else (other, one)
    if abs(level[0][1] - level[1][1]) >= NEAR or abs(upright[0][0] - upright[1][0]) >= NEAR:
        return None
    x, y = upright[0][0], level[0][1]
    left, right = sorted((level[0][0], level[1][0]))
    top, bottom = sorted((upright[0][1], upright[1][1]))
    return (x, y) if left + NEAR < x < right - NEAR and top + NEAR < y < bottom - NEAR else None


def _moved(point: Point, axis: int, to: float) -> Point:
    return (to, point[1]) if axis == 0 else (point[0], to)


def degrees(start: Point, end: Point) -> float:
    """Which way a stretch leads, counted from east over north."""
    return math.degrees(math.atan2(start[1] - end[1], end[0] - start[0]))
