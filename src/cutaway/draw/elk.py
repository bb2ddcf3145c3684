"""The layout library (elkjs) run inside this process: a request to its JSON form and its answer back."""

import json
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from importlib.resources import files
from typing import Any

from py_mini_racer import JSEvalException, JSTimeoutException, MiniRacer

from cutaway.draw.layout import Box, Layout, Request, runs_through
from cutaway.draw.pages import Room, fits
from cutaway.draw.shapes import Point

SECONDS = 20.0
TURNS = 1000
"""How often waiting callbacks are run before the library is held to have given up; two or three are usual."""

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

_BEFORE = """
var self = globalThis, waiting = [], answer = "", fault = "";
function setTimeout(call) { waiting.push(call); return waiting.length; }
function clearTimeout() {}
function turn() { var now = waiting; waiting = []; now.forEach(function (call) { call(); }); return now.length; }
"""
_FRESH = 'waiting = []; answer = ""; fault = "";\n'
_CALL = (
    "new ELK().layout(%s).then(function (r) { answer = JSON.stringify(r); }, function (e) { fault = String(e); }); 0"
)


@dataclass(frozen=True, slots=True)
class NoLayout:
    """The library is not there, took too long or gave no answer. missing: it is not there."""

    words: str
    missing: bool = False


def elk_layouts(
    request: Request, rooms: Sequence[Room], have: int = 0, seconds: float = SECONDS
) -> tuple[Layout, ...] | NoLayout:
    """Lay out a request in one manner after another until one is large enough for one of the rooms, or say why not.

    have: how many manners were tried before.
    """
    library = library_text()
    if library is None:
        return NoLayout("it is not in this installation", missing=True)
    manners = ((FOLDED, FOLDED | COMPACT) if request.folded else ({}, COMPACT) if request.columns else MANNERS)[have:]
    if not manners:
        return ()
    # A thread of its own: where an event loop runs in the caller's (a notebook), the engine allows no time limit.
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(_run, library, request, manners, rooms, seconds).result()


def library_text() -> str | None:
    """The library's source, fetched when the package was built; None where it was not."""
    try:
        return (files("cutaway.draw") / "vendor" / "elk.bundled.js").read_text(encoding="utf-8")
    except OSError:
        return None


def _run(
    library: str, request: Request, manners: Sequence[Mapping[str, str]], rooms: Sequence[Room], seconds: float
) -> tuple[Layout, ...] | NoLayout:
    machine = MiniRacer()
    graph = to_elk(request)
    found: list[Layout] = []
    try:
        machine.eval(_BEFORE + library, timeout_sec=seconds)
        for manner in manners:
            answer = _laid(machine, {**graph, "layoutOptions": {**graph["layoutOptions"], **manner}}, seconds)
            if isinstance(answer, NoLayout):
                return tuple(found) or answer
            layout = from_elk(request, answer)
            found.append(replace(layout, sound=not runs_through(layout, request.boxes)))
            if any(fits(found[-1], room) for room in rooms):
                break
        return tuple(found)
    except JSEvalException as fault:
        return tuple(found) or NoLayout(
            "it took too long" if isinstance(fault, JSTimeoutException) else f"it stopped: {str(fault)[:200]}"
        )
    finally:
        machine.close()  # left open, it would keep the process from ending


def _laid(machine: MiniRacer, graph: dict[str, Any], seconds: float) -> dict[str, Any] | NoLayout:
    """One layout."""
    machine.eval(_FRESH + _CALL % json.dumps(graph), timeout_sec=seconds)
    for _ in range(TURNS):
        machine.eval("turn()", timeout_sec=seconds)
        answer, fault = str(machine.eval("answer")), str(machine.eval("fault"))
        if fault:
            return NoLayout(f"it says: {fault[:200]}")
        if answer:
            laid: dict[str, Any] = json.loads(answer)
            return laid
    return NoLayout("it gave no answer")


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
