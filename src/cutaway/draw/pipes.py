"""Pipes, wires and couplings as shapes: live or dead, with arrows where something flows."""

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from cutaway.draw.plan import Plan, Tie
from cutaway.draw.seen import LineSeen
from cutaway.draw.shapes import Circle, Group, Point, Polyline, Shape
from cutaway.draw.symbols.strokes import triangle
from cutaway.draw.theme import GRAINED

Routes = Mapping[str, tuple[Point, ...]]
Segment = tuple[Point, Point]

JOINT = 5.5
TAP = 3.6
ARROW = (17.0, 15.0)
GRAIN_LAYER = 2
"""Which of the strokes of a live line are its dashes: above casing and core."""

UNLIT = LineSeen()


def link_shapes(plan: Plan, routes: Routes) -> tuple[Shape, ...]:
    """Every coupling as a thin dashed line with a small head at the part that takes."""
    shapes: list[Shape] = []
    drawn: list[Segment] = []
    for tie in plan.ties:
        points = routes.get(tie.name, ())
        if tie.sort == "link" and len(points) > 1 and not tie.along:
            every = [t for t in plan.ties if tie.name in (t.name, t.along)]
            head = triangle(points[-1], _degrees(points[-2], points[-1]), 10.0, 9.0, "linkhead")
            dashes = [Polyline(stretch, "link") for stretch in _not_yet(points, drawn)]
            names, told = "; ".join(t.name for t in every), "; ".join(t.told for t in every)
            shapes.append(Group((*dashes, head), "coupling", line=names, title=told))
    return tuple(shapes)


def _not_yet(points: tuple[Point, ...], drawn: list[Segment]) -> list[tuple[Point, ...]]:
    """The stretches of a dashed route that are not drawn, which are then noted as drawn: two rows of dashes over each
    other would make a full line."""
    whole = segments(points)
    rest = whole
    for before in drawn:
        rest = [left for segment in rest for left in without(segment, before)]
    drawn += rest
    return [points] if rest == whole else list(rest)


def pipe_shapes(plan: Plan, routes: Routes, seen: Mapping[str, LineSeen]) -> tuple[Shape, ...]:
    """Every pipe and wire, node by node, so that what is joined is drawn as one and what merely crosses is not."""
    nodes: dict[str, list[Tie]] = {}
    for tie in plan.ties:
        if tie.sort == "line" and routes.get(tie.name):
            nodes.setdefault(plan.wiring.joined.get(tie.start.node, tie.name), []).append(tie)
    return tuple(_node_group(ties, routes, seen) for ties in nodes.values())


def _node_group(ties: Sequence[Tie], routes: Routes, seen: Mapping[str, LineSeen]) -> Group:
    medium = ties[0].medium or "petrol"
    live, low = seen.get(ties[0].name, UNLIT).live, seen.get(ties[0].name, UNLIT).low
    drawn = [tie for tie in ties if not tie.along]
    flows = {tie.name: _flow(tie, ties, seen) for tie in drawn}
    shapes: list[Shape] = [Polyline(routes[tie.name], "halo") for tie in drawn]
    roles = [(tie, strokes(medium, live, flows[tie.name] != 0, low)) for tie in drawn]
    roles.sort(key=lambda of_tie: flows[of_tie[0].name] != 0)  # what flows lies over what does not
    for layer in range(max(len(of_tie) for _, of_tie in roles)):
        strokes_here = [(routes[tie.name], of_tie[layer]) for tie, of_tie in roles if layer < len(of_tie)]
        shapes += _grains(strokes_here) if layer == GRAIN_LAYER else [Polyline(*stroke) for stroke in strokes_here]
    for tie in drawn:
        shapes += _arrow(tie, drawn, routes, flows[tie.name], medium)
    state = "low" if low else {True: "live", False: "dead", None: "not known"}[live]
    title = f"{'; '.join(tie.name for tie in ties)}: {medium}, {state}"
    return Group(tuple(shapes), f"node {state.split()[0]}", line="; ".join(tie.name for tie in ties), title=title)


def _flow(tie: Tie, mates: Sequence[Tie], seen: Mapping[str, LineSeen]) -> int:
    """Which way a line flows that stands for all ties to one flag; none where some flow one way and some the other."""
    ways = {seen.get(t.name, UNLIT).flow for t in mates if tie.name in (t.name, t.along)} - {0}
    return ways.pop() if len(ways) == 1 else 0


def _grains(strokes_here: Iterable[tuple[tuple[Point, ...], str]]) -> list[Shape]:
    """Dashes within double lines, each stretch once."""
    drawn: list[Segment] = []
    return [Polyline(stretch, role) for points, role in strokes_here for stretch in _not_yet(points, drawn)]


def strokes(medium: str, live: bool | None, flowing: bool = False, low: bool = False) -> tuple[str, ...]:
    """The roles of the strokes that make up a line, lowest first."""
    if live is None:
        return (f"pipe {medium} unknown",)
    if low:
        return (f"pipe {medium} flowing",)
    if not live:
        return (f"pipe {medium} {'flowing' if flowing else 'dead'}",)
    if medium == "current":
        return (f"casing {medium}",)
    grain = (f"grain {medium}",) if medium in GRAINED else ()
    return (f"casing {medium}", f"core {medium}", *grain)


def _arrow(tie: Tie, mates: Sequence[Tie], routes: Routes, flow: int, medium: str) -> tuple[Shape, ...]:
    """One head in the middle of the longest stretch that the tie has to itself."""
    if not flow:
        return ()
    others = [s for mate in mates if mate.name != tie.name for s in segments(routes[mate.name])]
    own = segments(routes[tie.name])
    for other in others:
        own = [left for segment in own for left in without(segment, other)]
    start, end = max(own or segments(routes[tie.name]), key=lambda s: math.dist(*s))
    if flow < 0:
        start, end = end, start
    length = min(ARROW[0], max(8.0, math.dist(start, end)))
    degrees = _degrees(start, end)
    along = math.radians(degrees)
    tip = (
        (start[0] + end[0]) / 2 + length / 2 * math.cos(along),
        (start[1] + end[1]) / 2 - length / 2 * math.sin(along),
    )
    return (triangle(tip, degrees, length, ARROW[1], f"arrow {medium}"),)


def joint_shapes(plan: Plan, routes: Routes, joints: Iterable[Point]) -> tuple[Shape, ...]:
    """Dots where lines of one node meet: large where three pipes or wires do, small where a coupling is tapped in."""
    lines = [segments(routes.get(t.name, ())) for t in plan.ties if t.sort == "line"]
    shapes: list[Shape] = []
    for joint in joints:
        ways = {way for route in lines for segment in route for way in _ways_from(joint, segment)}
        shapes.append(Circle(joint, JOINT, "joint") if len(ways) > 2 else Circle(joint, TAP, "linkhead"))
    return tuple(shapes)


def _ways_from(point: Point, segment: Segment) -> set[str]:
    """In which directions a segment leaves a point that it touches."""
    (ax, ay), (bx, by) = segment
    x, y = point
    near = 0.5
    if abs(ay - by) < near and abs(y - ay) < near and min(ax, bx) - near <= x <= max(ax, bx) + near:
        return {w for w, has in (("west", min(ax, bx) < x - near), ("east", max(ax, bx) > x + near)) if has}
    if abs(ax - bx) < near and abs(x - ax) < near and min(ay, by) - near <= y <= max(ay, by) + near:
        return {w for w, has in (("north", min(ay, by) < y - near), ("south", max(ay, by) > y + near)) if has}
    return set()


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


def _moved(point: Point, axis: int, to: float) -> Point:
    return (to, point[1]) if axis == 0 else (point[0], to)


def _degrees(start: Point, end: Point) -> float:
    return math.degrees(math.atan2(start[1] - end[1], end[0] - start[0]))
