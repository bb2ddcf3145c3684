"""The lines of a layout as level and upright runs: which of them hang together, and whether they may be moved."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from cutaway.draw.layout import Box, Layout, Wire
from cutaway.draw.shapes import Point
from cutaway.draw.stretches import Segment

Axis = Literal[0, 1]
"""Along which a run lies: 0 level, 1 upright."""

SAME = 0.5
"""Nearer than this is the same place."""

Place = tuple[float, float, float, float]
"""Left, top, right and bottom."""

Routes = dict[str, tuple[Point, ...]]


@dataclass(frozen=True, slots=True)
class Run:
    """Stretches of one net that lie on each other or end to end in one row or column.

    at: its row or column. low, high: how far it goes. stretches: by wire, the number of the stretch in its route. ends:
    the boxes that it ends at, each with its pin.
    """

    net: str
    axis: Axis
    at: float
    low: float
    high: float
    stretches: tuple[tuple[str, int], ...]
    ends: tuple[tuple[str, str], ...]


def runs_of(routes: Mapping[str, tuple[Point, ...]], wires: Iterable[Wire], nets: Mapping[str, str]) -> tuple[Run, ...]:
    """All runs of a layout. nets: by wire, what it carries; wires of one net may lie on each other."""
    single = [run for wire in wires for run in _runs_of(wire, routes.get(wire.name, ()), nets[wire.name])]
    found: list[Run] = []
    for run in sorted(single, key=lambda r: (r.net, r.axis, round(r.at), r.low)):
        last = found[-1] if found else None
        if last is not None and _touch(last, run):
            found[-1] = Run(
                run.net,
                run.axis,
                last.at,
                last.low,
                max(last.high, run.high),
                (*last.stretches, *run.stretches),
                tuple(dict.fromkeys((*last.ends, *run.ends))),
            )
        else:
            found.append(run)
    return tuple(found)


def _runs_of(wire: Wire, points: tuple[Point, ...], net: str) -> Iterable[Run]:
    last = len(points) - 2
    for i in range(last + 1):
        a, b = points[i], points[i + 1]
        axis: Axis = 0 if abs(a[1] - b[1]) < SAME else 1
        ends = (*((wire.start,) if i == 0 else ()), *((wire.end,) if i == last else ()))
        low, high = sorted((a[axis], b[axis]))
        yield Run(net, axis, a[1 - axis], low, high, ((wire.name, i),), ends)


def _touch(one: Run, other: Run) -> bool:
    return (
        (one.net, one.axis) == (other.net, other.axis)
        and abs(one.at - other.at) < SAME
        and other.low <= one.high + SAME
        and one.low <= other.high + SAME
    )


def stretch(points: tuple[Point, ...], number: int) -> Segment:
    """One stretch of a route."""
    return points[number], points[number + 1]


def without_idle_points(points: Iterable[Point]) -> tuple[Point, ...]:
    """A route without points at which it does not turn."""
    kept: list[Point] = []
    for point in points:
        if kept and abs(kept[-1][0] - point[0]) + abs(kept[-1][1] - point[1]) < SAME:
            continue
        if len(kept) > 1 and any(abs(kept[-2][a] - kept[-1][a]) + abs(kept[-1][a] - point[a]) < SAME for a in (0, 1)):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def beside(one: Segment, other: Segment) -> float:
    """How far two stretches that run beside each other are apart; infinite for any others."""
    for axis in (0, 1):
        if all(abs(s[0][1 - axis] - s[1][1 - axis]) < SAME for s in (one, other)):
            (a, b), (c, d) = (sorted((s[0][axis], s[1][axis])) for s in (one, other))
            return abs(one[0][1 - axis] - other[0][1 - axis]) if min(b, d) - max(a, c) > -4.0 else float("inf")
    return float("inf")


def covered(layout: Layout, boxes: Iterable[Box]) -> Mapping[str, Place]:
    """What each box takes up, with the words that hang below it."""
    corners = dict(layout.corners)
    found = {}
    for box in boxes:
        (x, y), (width, height), below = corners[box.name], box.size, box.below or (0.0, 0.0)
        side = max(0.0, (below[0] - width) / 2)
        found[box.name] = (x - side, y, x + width + side, y + height + below[1])
    return found
