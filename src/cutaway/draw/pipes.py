"""Pipes, wires and couplings as shapes: live or dead, with arrows where something flows."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.draw.heads import head_shapes
from cutaway.draw.plan import Plan, Tie
from cutaway.draw.seen import LineSeen
from cutaway.draw.shapes import Circle, Group, Point, Polyline, Shape
from cutaway.draw.stretches import NEAR, Segment, crossing, degrees, segments, ways_on, without
from cutaway.draw.symbols.strokes import triangle
from cutaway.draw.theme import DASHED, GRAINED

Routes = Mapping[str, tuple[Point, ...]]

JOINT = 5.5
TAP = 3.6
GAP = 9.0
"""How far what lies under a line is cut on either side of it, where the two cross."""

UNLIT = LineSeen()


@dataclass(frozen=True, slots=True)
class Used:
    """What a state shows. looks: the strokes of its lines. flows: whether anything does. air: whether that is under
    'suction' or 'pressure'."""

    looks: frozenset[tuple[str, ...]]
    flows: bool
    air: frozenset[str] = frozenset()


def link_shapes(plan: Plan, routes: Routes) -> tuple[Shape, ...]:
    """Every coupling as a thin dashed line with a small head at the part that takes."""
    shapes: list[Shape] = []
    drawn: list[Segment] = []
    for tie in plan.ties:
        points = routes.get(tie.name, ())
        if tie.sort == "link" and len(points) > 1 and not tie.along:
            every = [t for t in plan.ties if tie.name in (t.name, t.along)]
            head = triangle(points[-1], degrees(points[-2], points[-1]), 10.0, 9.0, "linkhead")
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
    every = [s for tie in plan.ties for s in segments(routes.get(tie.name, ()))]
    return tuple(_node_group(ties, routes, seen, every) for ties in _nodes(plan, routes).values())


def _gaps(ties: Sequence[Tie], routes: Routes, every: Sequence[Segment]) -> list[Shape]:
    """Where lines of a node cross others: short stretches of paper under them, so that nothing is taken for joined."""
    own = {s for tie in ties for s in segments(routes[tie.name])}
    places = {(one, at) for one in own for other in every if other not in own and (at := crossing(one, other))}
    return [Polyline(_about(one, at), "halo") for one, at in sorted(places)]


def _about(line: Segment, at: Point) -> tuple[Point, Point]:
    """A short stretch of a line about a place on it."""
    level = abs(line[0][1] - line[1][1]) < NEAR
    return ((at[0] - GAP, at[1]), (at[0] + GAP, at[1])) if level else ((at[0], at[1] - GAP), (at[0], at[1] + GAP))


def _nodes(plan: Plan, routes: Routes) -> Mapping[str, list[Tie]]:
    """The lines of each node that have a route."""
    nodes: dict[str, list[Tie]] = {}
    for tie in plan.ties:
        if tie.sort == "line" and routes.get(tie.name):
            nodes.setdefault(plan.wiring.joined.get(tie.start.node, tie.name), []).append(tie)
    return nodes


def _node_group(ties: Sequence[Tie], routes: Routes, seen: Mapping[str, LineSeen], every: Sequence[Segment]) -> Group:
    medium = ties[0].medium or "petrol"
    live, low = seen.get(ties[0].name, UNLIT).live, seen.get(ties[0].name, UNLIT).low
    drawn = [tie for tie in ties if not tie.along]
    flows = {tie.name: _flow(tie, ties, seen) for tie in drawn}
    shapes = _gaps(drawn, routes, every)
    roles = [(tie, strokes(medium, live, flows[tie.name] != 0, low)) for tie in drawn]
    roles.sort(key=lambda of_tie: flows[of_tie[0].name] != 0)  # what flows lies over what does not
    for layer in range(max(len(of_tie) for _, of_tie in roles)):
        strokes_here = [(routes[tie.name], of_tie[layer]) for tie, of_tie in roles if layer < len(of_tie)]
        once = any(role in DASHED for _, role in strokes_here)
        shapes += _each_once(strokes_here) if once else [Polyline(*stroke) for stroke in strokes_here]
    shapes += head_shapes(flows, routes, every, medium)
    state = "low" if low else {True: "live", False: "dead", None: "not known"}[live]
    title = f"{'; '.join(tie.name for tie in ties)}: {medium}, {state}"
    return Group(tuple(shapes), f"node {state.split()[0]}", line="; ".join(tie.name for tie in ties), title=title)


def _flow(tie: Tie, mates: Sequence[Tie], seen: Mapping[str, LineSeen]) -> int:
    """Which way a line flows that stands for all ties to one flag; none where some flow one way and some the other."""
    ways = {seen.get(t.name, UNLIT).flow for t in mates if tie.name in (t.name, t.along)} - {0}
    return ways.pop() if len(ways) == 1 else 0


def _each_once(strokes_here: Iterable[tuple[tuple[Point, ...], str]]) -> list[Shape]:
    """Dashes, each stretch once: over each other they would make a full line."""
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
    core = () if medium == "current" else (f"core {medium}",)
    grain = (f"grain {medium}",) if medium in GRAINED else ()
    return (f"casing {medium}", *core, *grain)


def joint_shapes(plan: Plan, routes: Routes, joints: Iterable[Point]) -> tuple[Shape, ...]:
    """Dots where lines of one node meet: large where three pipes or wires do, small where a coupling branches or is
    tapped in; none where nothing does, and one where two would touch."""
    nodes = _nodes(plan, routes)
    lines = [[s for tie in ties for s in segments(routes[tie.name])] for ties in nodes.values()]
    every = [s for tie in plan.ties for s in segments(routes.get(tie.name, ()))]
    shapes: list[Circle] = []
    for joint in joints:
        if any(math.dist(joint, other.centre) < 2 * TAP for other in shapes):
            continue
        if any(len(ways_on(joint, stretches)) > 2 for stretches in lines):
            shapes.append(Circle(joint, JOINT, "joint"))
        elif len(ways_on(joint, every)) > 2:
            shapes.append(Circle(joint, TAP, "linkhead"))
    return tuple(shapes)


def branches(plan: Plan, routes: Routes, at: Point) -> bool:
    """Whether lines part or meet at a place."""
    return len(ways_on(at, [s for tie in plan.ties for s in segments(routes.get(tie.name, ()))])) > 2


def used_on(plan: Plan, routes: Routes, seen: Mapping[str, LineSeen]) -> Used:
    """What the lines of a sheet show of a state."""
    looks: set[tuple[str, ...]] = set()
    flows, air = False, set[str]()
    for ties in _nodes(plan, routes).values():
        first = seen.get(ties[0].name, UNLIT)
        for tie in (t for t in ties if not t.along):
            flow = _flow(tie, ties, seen)
            looks.add(strokes(ties[0].medium or "petrol", first.live, flow != 0, first.low))
            flows = flows or flow != 0
        if ties[0].medium == "air" and first.live:
            air.add("suction" if first.suction else "pressure")
    return Used(frozenset(looks), flows, frozenset(air))
