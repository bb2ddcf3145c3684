"""How good a layout is, in figures: lines that cross, corners, and whatever lies over something else."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from cutaway.draw.draft import Draft
from cutaway.draw.extent import Extent
from cutaway.draw.lanes import read_as_one
from cutaway.draw.laying import nets_of, request_of
from cutaway.draw.stations import block_extents
from cutaway.draw.straight import steps_in
from cutaway.draw.stretches import crossing, segments

NEAR = 0.5
"""Lines nearer than this touch, and do not cross."""


@dataclass(frozen=True, slots=True)
class Quality:
    """crossings: of lines that are not joined. bends: corners of all lines. over: what lies over something else, in
    words; nothing may. steps: corners that are small steps in lines that should be straight."""

    crossings: int
    bends: int
    over: tuple[str, ...]
    steps: int = 0


def quality(draft: Draft) -> Quality:
    """The figures of one sheet."""
    routes = {t.name: draft.routes[t.name] for t in draft.plan.ties if not t.along and t.name in draft.routes}
    bends = sum(max(0, len(points) - 2) for points in routes.values())
    return Quality(_crossings(draft, routes), bends, _over(draft), len(steps_in(routes)))


def _crossings(draft: Draft, routes: Mapping[str, tuple[tuple[float, float], ...]]) -> int:
    """Places where lines cross that are not joined; one where several of one net do is one."""
    net = {}
    for tie in draft.plan.ties:
        shared = draft.plan.wiring.joined.get(tie.start.node, tie.start.node or tie.start.item)
        net[tie.name] = f"{tie.sort} {shared}"
    found: set[tuple[int, int]] = set()
    for one, other in combinations(routes, 2):
        if net[one] == net[other]:
            continue
        for a in segments(routes[one]):
            for b in segments(routes[other]):
                at = crossing(a, b)
                if at is not None:
                    found.add((round(at[0]), round(at[1])))
    return len(found)


def _over(draft: Draft) -> tuple[str, ...]:
    """Blocks over blocks, areas over areas or over parts that are not in them, wires through blocks, and lines that
    would be read as one."""
    found = []
    extents = block_extents(draft.plan.items, draft.blocks, dict(draft.layout.corners))
    for (one, a), (other, b) in combinations(extents.items(), 2):
        if _overlap(a, b):
            found.append(f"{one} over {other}")
    for first, second in combinations(draft.areas, 2):
        if _overlap(first.extent, second.extent):
            found.append(f"the areas {first.station} and {second.station}")
    for area in draft.areas:
        for key, extent in extents.items():
            if key not in area.members and _overlap(area.extent, extent):
                found.append(f"{key} in the area {area.station}")
    wires = request_of(draft.extract, draft.plan, draft.blocks).wires
    for upper, lower in read_as_one(draft.layout, wires, nets_of(draft.plan)):
        found.append(f"{upper.net} and {lower.net} in one column")
    return tuple(found) if draft.layout.sound else (*found, "a line runs through a part")


def _overlap(one: Extent, other: Extent) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > NEAR and down > NEAR
