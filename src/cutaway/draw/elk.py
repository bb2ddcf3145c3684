"""A request for a layout in the JSON form of the layout library (elkjs), and its answer back."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from importlib.resources import files
from typing import Any

from cutaway.draw.elk_engine import NoLayout, engine
from cutaway.draw.layout import Box, Layout, Request, runs_through
from cutaway.draw.pages import Room, fits
from cutaway.draw.shapes import Point

SECONDS = 20.0
FORCED = "elk.layered.crossingMinimization.forceNodeModelOrder"
SIDES = {"west": "WEST", "east": "EAST", "north": "NORTH", "south": "SOUTH"}

COMPACT: dict[str, str] = {"elk.layered.compaction.postCompaction.strategy": "EDGE_LENGTH"}
FREE = {"elk.layered.considerModelOrder.strategy": "NONE"}
NARROW = {"elk.layered.layering.strategy": "MIN_WIDTH"}
EVEN = {"elk.layered.layering.strategy": "COFFMAN_GRAHAM", "elk.layered.layering.coffmanGraham.layerBound": "7"}
FOLDED: dict[str, str] = {"elk.layered.wrapping.strategy": "MULTI_EDGE"}
MANNERS: tuple[Mapping[str, str], ...] = ({}, COMPACT, FREE, FREE | COMPACT, NARROW, EVEN, FOLDED)
"""Ways to lay out a request, the usual one first: in flow order, one column a step. The others draw the columns closer,
break with the order in which the files name the parts, or with columns, where that makes a sheet less tall or wide."""


def elk_layouts(
    request: Request, rooms: Sequence[Room], kept: tuple[Layout, ...] = (), seconds: float = SECONDS
) -> tuple[Layout, ...] | NoLayout:
    """Lay out a request in one manner after another until one is large enough for one of the rooms, or say why not.

    kept: what the first manners gave before, each one layout. Returned are all, those that were kept first.
    """
    library = library_text()
    if library is None:
        return NoLayout("it is not in this installation", missing=True)
    manners = (FOLDED, FOLDED | COMPACT) if request.folded else ({}, COMPACT) if request.columns else MANNERS
    graph = to_elk(request)
    found = list(kept)
    for manner in manners[len(kept) :]:
        answer = engine(library).laid({**graph, "layoutOptions": {**graph["layoutOptions"], **manner}}, seconds)
        if not isinstance(answer, NoLayout):
            layout = from_elk(request, answer)
            found.append(replace(layout, sound=not runs_through(layout, request.boxes)))
        elif not found or answer.lost:
            return tuple(found) or answer
        else:
            found.append(found[-1])  # a manner that it fails at now and then adds nothing, and is not tried again
        if any(fits(found[-1], room) for room in rooms):
            break
    return tuple(found)


@lru_cache(maxsize=1)
def library_text() -> str | None:
    """The library's source, fetched when the package was built; None where it was not."""
    try:
        return (files("cutaway.draw") / "vendor" / "elk.bundled.js").read_text(encoding="utf-8")
    except OSError:
        return None


def to_elk(request: Request) -> dict[str, Any]:
    """The request as the library reads it."""
    steered = {FORCED: "true", "elk.partitioning.activate": "true"} if request.columns else {}
    columns = {name: i for i, column in enumerate(request.columns) for name in column}
    return {
        "id": "sheet",
        "layoutOptions": {
            "elk.algorithm": "layered",
            "elk.direction": "RIGHT",
            "elk.edgeRouting": "ORTHOGONAL",
            "elk.layered.cycleBreaking.strategy": "MODEL_ORDER",
            "elk.layered.considerModelOrder.strategy": "PREFER_NODES",
            "elk.layered.nodePlacement.strategy": "NETWORK_SIMPLEX",
            "elk.layered.nodePlacement.favorStraightEdges": "true",
            "elk.layered.thoroughness": "20",
            "elk.randomSeed": "1",
            "elk.padding": "[top=4,left=4,bottom=4,right=4]",
            "elk.spacing.nodeNode": "18",
            "elk.layered.spacing.nodeNodeBetweenLayers": "26",
            "elk.spacing.edgeNode": "13",
            "elk.layered.spacing.edgeNodeBetweenLayers": "14",
            "elk.spacing.edgeEdge": f"{request.apart:g}",
            "elk.layered.spacing.edgeEdgeBetweenLayers": f"{request.apart:g}",
            "elk.spacing.componentComponent": "26",
            "elk.aspectRatio": "1.6",
            **steered,
        },
        "children": [_node(box, columns.get(box.name)) for box in _in_order(request)],
        "edges": [
            {
                "id": f"wire {i}",
                "sources": [_pin_id(*wire.start)],
                "targets": [_pin_id(*wire.end)],
                "layoutOptions": {
                    "elk.layered.priority.direction": "10" if wire.firm else "1",
                    "elk.layered.priority.straightness": "10" if wire.firm else "1",
                    "elk.layered.priority.shortness": "5" if wire.firm else "1",
                },
            }
            for i, wire in enumerate(request.wires)
        ],
    }


def _in_order(request: Request) -> tuple[Box, ...]:
    """The boxes as somebody has put them, else in flow order."""
    said = [name for column in request.columns for name in column]
    place = {name: i for i, name in enumerate(said)}
    return tuple(sorted(request.boxes, key=lambda box: place.get(box.name, len(said))))


def _node(box: Box, column: int | None = None) -> dict[str, Any]:
    fixed = all(pin.at is not None for pin in box.pins)
    ports = []
    for pin in box.pins:
        port: dict[str, Any] = {"id": _pin_id(box.name, pin.name), "width": 0, "height": 0}
        port["layoutOptions"] = {"elk.port.side": SIDES[pin.side]}
        if pin.at is not None:
            port["x"], port["y"] = pin.at
        ports.append(port)
    options = {"elk.portConstraints": "FIXED_POS" if fixed else "FIXED_SIDE"}
    labels = []
    if box.below is not None:
        options["elk.nodeLabels.placement"] = "OUTSIDE V_BOTTOM H_CENTER"
        labels.append({"text": "words", "width": box.below[0], "height": box.below[1]})
    if column is not None:
        options["elk.partitioning.partition"] = str(column)
    return {
        "id": box.name,
        "width": box.size[0],
        "height": box.size[1],
        "ports": ports,
        "labels": labels,
        "layoutOptions": options,
    }


def _pin_id(box: str, pin: str) -> str:
    return f"{box}\n{pin}"


def from_elk(request: Request, found: dict[str, Any]) -> Layout:
    """The library's answer as a layout."""
    there = {str(c["id"]): (float(c["x"]), float(c["y"])) for c in found["children"]}
    corners = tuple((box.name, there[box.name]) for box in request.boxes)
    routes, joints = [], set()
    for wire, edge in zip(request.wires, found["edges"], strict=True):
        points: list[Point] = []
        for section in edge.get("sections", ()):
            stops = (section["startPoint"], *section.get("bendPoints", ()), section["endPoint"])
            points += [(float(p["x"]), float(p["y"])) for p in stops]
        routes.append((wire.name, tuple(points)))
        joints |= {(float(p["x"]), float(p["y"])) for p in edge.get("junctionPoints", ())}
    size = (float(found["width"]), float(found["height"]))
    return Layout(size, corners, tuple(routes), tuple(sorted(joints)), "layered")
