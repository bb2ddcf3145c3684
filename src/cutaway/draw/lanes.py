"""Upright lines of different nets that the library sets end to end in one column, which would be read as one line: each
is given a column of its own, for which all that is to the right of it makes room."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from cutaway.draw.layout import Box, Layout, Wire, runs_through
from cutaway.draw.lines import Place, Run, covered, runs_of
from cutaway.draw.shapes import Point

COLUMN = 9.0
"""Lines nearer than this are in one column."""

END_TO_END = 45.0
"""Ends that are farther from each other than this are not taken for one line."""

CLEAR = 9.0
"""How near what is moved may come to what is not joined to it."""

ROUNDS = 12


def in_lanes(
    layout: Layout, boxes: Sequence[Box], wires: Sequence[Wire], nets: Mapping[str, str], apart: float
) -> Layout:
    """The layout with a column for each of two upright lines that would be read as one. apart: how far from each other.

    nets: by wire, what it carries; wires of one net may be in one column.
    """
    for _ in range(ROUNDS):
        ways = (_parted(layout, boxes, wires, pair, apart) for pair in read_as_one(layout, wires, nets))
        found = next((way for way in ways if way is not None), None)
        if found is None:
            return layout
        layout = found
    return layout


def read_as_one(layout: Layout, wires: Sequence[Wire], nets: Mapping[str, str]) -> list[tuple[Run, Run]]:
    """Upright runs of two nets that stand end to end in one column, the upper first."""
    firm = {wire.name for wire in wires if wire.firm}
    upright = [
        run
        for run in runs_of(dict(layout.routes), wires, nets)
        if run.axis == 1 and any(name in firm for name, _ in run.stretches)
    ]
    return [
        (upper, lower)
        for upper in upright
        for lower in upright
        if upper.net != lower.net and abs(upper.at - lower.at) < COLUMN and 0 < lower.low - upper.high < END_TO_END
    ]


def _parted(
    layout: Layout, boxes: Sequence[Box], wires: Sequence[Wire], pair: tuple[Run, Run], apart: float
) -> Layout | None:
    """The layout with one of two runs, and all that is to the right of it and joined to them, moved by `apart`; None
    where a box stands across the column or a run ends at a box, so that there is no cutting the sheet there."""
    at = max(run.at for run in pair)
    run = next((one for one in reversed(pair) if not one.ends), None)
    if run is None:
        return None
    for joined in (frozenset(box.name for box in boxes), _joined(wires, pair)):
        places = covered(layout, boxes)
        if any(name in joined and left < at < right for name, (left, _, right, _) in places.items()):
            continue
        cut = _cut(layout, wires, joined, run, at, apart)
        if len(joined) == len(boxes) or _stands_clear(cut, boxes, joined):
            return cut
    return None


def _joined(wires: Sequence[Wire], pair: tuple[Run, Run]) -> frozenset[str]:
    """All boxes that hang together with the lines of two runs."""
    first = {name for run in pair for name, _ in run.stretches}
    found = {box for wire in wires if wire.name in first for box in (wire.start[0], wire.end[0])}
    while more := {
        box
        for wire in wires
        if {wire.start[0], wire.end[0]} & found
        for box in (wire.start[0], wire.end[0])
        if box not in found
    }:
        found |= more
    return frozenset(found)


def _cut(layout: Layout, wires: Sequence[Wire], joined: frozenset[str], run: Run, at: float, apart: float) -> Layout:
    """The layout with a run, and of what is joined all that is to the right of a column, moved by `apart`."""
    own = {(name, k) for name, i in run.stretches for k in (i, i + 1)}
    going = {wire.name for wire in wires if wire.start[0] in joined}
    vertices = {point for name, points in layout.routes if name in going for point in points}

    def moved(point: Point, along: bool) -> Point:
        return (point[0] + apart, point[1]) if along or point[0] > at + 0.5 else point

    routes = tuple(
        (name, tuple(moved(point, (name, k) in own) for k, point in enumerate(points)) if name in going else points)
        for name, points in layout.routes
    )
    joints = tuple(
        moved(p, abs(p[0] - run.at) < 0.5 and run.low - 0.5 <= p[1] <= run.high + 0.5) if p in vertices else p
        for p in layout.joints
    )
    corners = tuple((name, moved(corner, False) if name in joined else corner) for name, corner in layout.corners)
    return replace(layout, size=(layout.size[0] + apart, layout.size[1]), corners=corners, routes=routes, joints=joints)


def _stands_clear(layout: Layout, boxes: Sequence[Box], joined: frozenset[str]) -> bool:
    """Whether what was moved keeps off what it is not joined to."""
    places = covered(layout, boxes)
    theirs = [place for name, place in places.items() if name not in joined]
    if any(_meet(places[name], place) for name in joined for place in theirs):
        return False
    return not runs_through(layout, tuple(boxes))


def _meet(one: Place, other: Place) -> bool:
    across = max(one[0], other[0]) - min(one[2], other[2])
    return max(across, max(one[1], other[1]) - min(one[3], other[3])) < CLEAR
