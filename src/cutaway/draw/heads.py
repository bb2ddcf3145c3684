"""Where along a pipe or wire the heads stand that tell which way it flows."""

import math
from collections.abc import Mapping, Sequence

from cutaway.draw.shapes import Point, Shape
from cutaway.draw.stretches import Segment, degrees, segments, without
from cutaway.draw.symbols.strokes import triangle

HEAD = (17.0, 15.0)
LONG = 110.0
"""A stretch as long as this has a head of its own."""

CLEAR = 20.0
"""How far the middle of a head is from any line that crosses or joins."""

STEP = 4.0


def head_shapes(
    flows: Mapping[str, int], routes: Mapping[str, Sequence[Point]], every: Sequence[Segment], medium: str
) -> tuple[Shape, ...]:
    """Heads along all lines of one node. flows: by line, 1 from start to end, -1 the other way, 0 none or not known.

    every: the stretches of all lines of the sheet. What several lines share has one head, none where they disagree.
    """
    ways = {name: _directed(routes[name], flow) for name, flow in flows.items() if flow}
    shapes: list[Shape] = []
    done: list[Segment] = []
    for name, own in ways.items():
        others = [s for other, there in ways.items() if other != name for s in there]
        still = [s for other, flow in flows.items() if other != name and not flow for s in segments(routes[other])]
        free = _less(own, [*done, *(o for o in others if any(_against(o, s) for s in own))])
        alone = _less(free, [*others, *still])
        best = max(alone or free, key=lambda s: math.dist(*s), default=None)
        chosen = [s for s in free if math.dist(*s) >= LONG] or ([best] if best else [])
        for stretch in chosen:
            shapes += _head(stretch, every, medium)
        done += own
    return tuple(shapes)


def _directed(points: Sequence[Point], flow: int) -> list[Segment]:
    return segments(points if flow > 0 else tuple(reversed(points)))


def _less(stretches: Sequence[Segment], taken: Sequence[Segment]) -> list[Segment]:
    left = list(stretches)
    for other in taken:
        left = [rest for one in left for rest in without(one, other)]
    return left


def _against(one: Segment, other: Segment) -> bool:
    """Whether two stretches lie on each other and lead opposite ways."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    return (bx - ax) * (dx - cx) + (by - ay) * (dy - cy) < 0 and without(other, one) != [other]


def _head(stretch: Segment, every: Sequence[Segment], medium: str) -> tuple[Shape, ...]:
    """One head, as near to the middle as what crosses or joins the stretch allows."""
    start, end = stretch
    length = min(HEAD[0], max(8.0, math.dist(start, end)))
    axis = 0 if abs(end[0] - start[0]) > abs(end[1] - start[1]) else 1
    low, high = sorted((start[axis], end[axis]))
    middle, reach = (low + high) / 2, max(0.0, (high - low) / 2 - length / 2)
    busy = _met(stretch, axis, every)
    steps = [0.0, *(sign * STEP * i for i in range(1, int(reach / STEP) + 1) for sign in (1, -1))]
    places = [middle + step for step in steps]
    clear = [min((abs(at - met) for met in busy), default=CLEAR) for at in places]
    at = next((p for p, room in zip(places, clear, strict=True) if room >= CLEAR), places[clear.index(max(clear))])
    angle = degrees(start, end)
    ahead = at + math.copysign(length / 2, end[axis] - start[axis])
    tip = (ahead, start[1]) if axis == 0 else (start[0], ahead)
    return (triangle(tip, angle, length, HEAD[1], f"arrow {medium}"),)


def _met(stretch: Segment, axis: int, every: Sequence[Segment]) -> list[float]:
    """Where along a stretch lines cross or join it."""
    level = stretch[0][1 - axis]
    low, high = sorted((stretch[0][axis], stretch[1][axis]))
    found = []
    for one, other in every:
        if abs(one[axis] - other[axis]) < 0.5 and low - CLEAR < one[axis] < high + CLEAR:
            near, far = sorted((one[1 - axis], other[1 - axis]))
            if near - HEAD[1] / 2 <= level <= far + HEAD[1] / 2:
                found.append(one[axis])
    return found
