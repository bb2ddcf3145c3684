"""The routes of a layout led on from the edges of the boxes to the symbols themselves."""

import math
from collections.abc import Mapping, Sequence

from cutaway.draw.blocks import Block, pin_of
from cutaway.draw.layout import Layout
from cutaway.draw.pipes import Routes
from cutaway.draw.plan import Plan, Tie
from cutaway.draw.shapes import Point
from cutaway.draw.stretches import last_on, segments


def routes_of(plan: Plan, blocks: Mapping[str, Block], layout: Layout) -> Routes:
    """The layout's routes, led on from the box's edge to the symbol itself."""
    corners = dict(layout.corners)
    found = dict(layout.routes)
    routes = {}
    for tie in plan.ties:
        points = found.get(tie.name, ())
        if points:
            ends = [
                _within(blocks[end.item], corners[end.item], pin_of(blocks[end.item], tie), edge)
                for end, edge in ((tie.start, points[0]), (tie.end, points[-1]))
            ]
            routes[tie.name] = _without_idle_points((*reversed(ends[0]), *points, *ends[1]))
    routes |= {tie.name: _tapped(tie, plan, routes) for tie in plan.ties if tie.sort == "link" and tie.name in routes}
    return routes | {tie.name: routes[tie.along] for tie in plan.ties if tie.along in routes}


def _tapped(tie: Tie, plan: Plan, routes: Routes) -> tuple[Point, ...]:
    """A coupling that reads a pipe from where it last leaves that pipe: the library leads it there from the part that
    the pipe comes from, along the pipe or beside it."""
    node = plan.wiring.joined.get(tie.start.node)
    pipes = [
        stretch
        for one in plan.ties
        if one.sort == "line" and node is not None and plan.wiring.joined.get(one.start.node) == node
        for stretch in segments(routes.get(one.name, ()))
    ]
    points = routes[tie.name]
    for i in range(len(points) - 1, 0, -1):
        at = last_on(points[i - 1], points[i], pipes)
        if at is not None:
            return (at, *points[i:]) if at != points[i] else points
    return points


def _within(block: Block, corner: Point, pin: str, edge: Point) -> tuple[Point, ...]:
    """From the edge of a box to where a line ends in the symbol."""
    lead = tuple((corner[0] + x, corner[1] + y) for x, y in block.leads.get(pin, ()))
    return (_target(block, corner, pin, edge), *lead)


def _target(block: Block, corner: Point, pin: str, edge: Point) -> Point:
    x, y = block.targets[pin]
    side = next(p.side for p in block.box.pins if p.name == pin)
    return (corner[0] + x, edge[1]) if side in ("west", "east") else (edge[0], corner[1] + y)


def _without_idle_points(points: Sequence[Point]) -> tuple[Point, ...]:
    """The route without points at which it does not turn."""
    kept: list[Point] = []
    for i, point in enumerate(points):
        if kept and math.dist(kept[-1], point) < 0.01:
            continue
        if kept and i + 1 < len(points):
            after = next((p for p in points[i + 1 :] if math.dist(p, point) >= 0.01), None)
            if after is not None and any(abs(kept[-1][a] - point[a]) + abs(point[a] - after[a]) < 0.01 for a in (0, 1)):
                continue
        kept.append(point)
    return tuple(kept)
