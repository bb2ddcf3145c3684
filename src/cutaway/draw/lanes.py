"""Upright lines of different nets that the library sets end to end in one column, which would be read as one line: each
is given a column of its own, for which all that is to the right of it makes room."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from cutaway.draw.layout import Box, Layout, Wire
from cutaway.draw.lines import Run, covered, runs_of
from cutaway.draw.shapes import Point

COLUMN = 9.0
"""Lines nearer than this are in one column."""

END_TO_END = 45.0
"""Ends that are farther from each other than this are not taken for one line."""

ROUNDS = 12


def in_lanes(
    layout: Layout, boxes: Sequence[Box], wires: Sequence[Wire], nets: Mapping[str, str], apart: float
) -> Layout:
    """The layout with a column for each of two upright lines that would be read as one. apart: how far from each other.

    nets: by wire, what it carries; wires of one net may be in one column.
    """
    for _ in range(ROUNDS):
        found = next(
            (d for pair in read_as_one(layout, wires, nets) if (d := _parted(layout, boxes, *pair, apart))), None
        )
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


def _parted(layout: Layout, boxes: Sequence[Box], upper: Run, lower: Run, apart: float) -> Layout | None:
    """The layout with the run farther right, and all that is to the right of it, moved by `apart`; None where a box
    stands across the column or a run ends at a box, so that there is no cutting the sheet there."""
    at = max(upper.at, lower.at)
    if any(left < at < right for left, _, right, _ in covered(layout, boxes).values()):
        return None
    free = [run for run in (lower, upper) if not run.ends]
    return _cut(layout, free[0], at, apart) if free else None


def _cut(layout: Layout, run: Run, at: float, apart: float) -> Layout:
    own = {(name, k) for name, i in run.stretches for k in (i, i + 1)}

    def moved(point: Point, along: bool) -> Point:
        return (point[0] + apart, point[1]) if along or point[0] > at + 0.5 else point

    routes = tuple(
        (name, tuple(moved(point, (name, k) in own) for k, point in enumerate(points)))
        for name, points in layout.routes
    )
    joints = tuple(
        moved(p, abs(p[0] - run.at) < 0.5 and run.low - 0.5 <= p[1] <= run.high + 0.5) for p in layout.joints
    )
    corners = tuple((name, moved(corner, False)) for name, corner in layout.corners)
    return replace(layout, size=(layout.size[0] + apart, layout.size[1]), corners=corners, routes=routes, joints=joints)
