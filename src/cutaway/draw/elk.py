"""The layout library (elkjs) run inside this process: a request to its JSON form and its answer back."""

import json
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from importlib.resources import files
from itertools import pairwise
from typing import Any

from py_mini_racer import JSEvalException, JSTimeoutException, MiniRacer

from cutaway.draw.layout import Box, Layout, Request
from cutaway.draw.shapes import Point

SECONDS = 20.0
TURNS = 1000
"""How often waiting callbacks are run before the library is held to have given up; two or three are usual."""

SIDES = {"west": "WEST", "east": "EAST", "north": "NORTH", "south": "SOUTH"}

MANNERS: tuple[Mapping[str, str], ...] = (
    {},
    {"elk.layered.considerModelOrder.strategy": "NONE"},
    {"elk.layered.layering.strategy": "MIN_WIDTH"},
    {"elk.layered.layering.strategy": "MIN_WIDTH", "elk.layered.considerModelOrder.strategy": "NONE"},
    {"elk.layered.cycleBreaking.strategy": "GREEDY"},
)
"""Ways to lay out a request, the usual one first: in flow order, one column a step. The others break with the order
in which the files name the parts, or with columns, where that makes a sheet less tall or less wide."""

BETTER = 1.08
"""How much larger a sheet must come out for another manner than the usual: small gains are not worth a new picture."""

PAGE = (1520.0, 720.0)
"""The room that a drawing usually has: for choosing among layouts only."""

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


def elk_layout(request: Request, seconds: float = SECONDS) -> Layout | NoLayout:
    """Lay out a request, or say why that did not go."""
    library = library_text()
    if library is None:
        return NoLayout("it is not in this installation", missing=True)
    # A thread of its own: where an event loop runs in the caller's (a notebook), the engine allows no time limit.
    with ThreadPoolExecutor(1) as thread:
        found = thread.submit(_run, library, to_elk(request), seconds).result()
    return found if isinstance(found, NoLayout) else from_elk(request, best(found))


def best(found: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """The layout that fills a page best: the first, unless another lets everything be clearly larger.

    One in which a wire runs through a box, as the library makes now and then, is passed over if there is another.
    """
    sound = [one for one in found if not runs_through(one)] or found
    chosen = sound[0]
    for one in sound[1:]:
        if fit(one) > BETTER * fit(chosen):
            chosen = one
    return chosen


def runs_through(found: dict[str, Any]) -> bool:
    """Whether any wire runs through a box."""
    boxes = [(float(c["x"]), float(c["y"]), float(c["width"]), float(c["height"])) for c in found["children"]]
    sections = [section for edge in found["edges"] for section in edge.get("sections", ())]
    for section in sections:
        stops = [
            (float(p["x"]), float(p["y"]))
            for p in (section["startPoint"], *section.get("bendPoints", ()), section["endPoint"])
        ]
        for (ax, ay), (bx, by) in pairwise(stops):
            for x, y, width, height in boxes:
                across = min(ax, bx) < x + width - 1 and max(ax, bx) > x + 1
                if across and min(ay, by) < y + height - 1 and max(ay, by) > y + 1:
                    return True
    return False


def fit(found: dict[str, Any]) -> float:
    """How much a layout can be enlarged on a usual page, 1 at most: what fits is large enough."""
    return min(1.0, PAGE[0] / float(found["width"]), PAGE[1] / float(found["height"]))


def library_text() -> str | None:
    """The library's source, fetched when the package was built; None where it was not."""
    try:
        return (files("cutaway.draw") / "vendor" / "elk.bundled.js").read_text(encoding="utf-8")
    except OSError:
        return None


def _run(library: str, graph: dict[str, Any], seconds: float) -> list[dict[str, Any]] | NoLayout:
    """The layouts of a graph, the usual one first; others only where that does not fit a page as it is."""
    machine = MiniRacer()
    found: list[dict[str, Any]] = []
    try:
        machine.eval(_BEFORE + library, timeout_sec=seconds)
        for manner in MANNERS:
            options = {**graph["layoutOptions"], **manner}
            answer = _laid(machine, {**graph, "layoutOptions": options}, seconds)
            if isinstance(answer, NoLayout):
                return found or answer
            found.append(answer)
            if fit(found[0]) >= 1 and not runs_through(found[0]):
                break
        return found
    except JSEvalException as fault:
        return found or NoLayout(
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
    gap = request.loose
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
            "elk.spacing.nodeNode": f"{26 * gap:.1f}",
            "elk.layered.spacing.nodeNodeBetweenLayers": f"{38 * gap:.1f}",
            "elk.spacing.edgeNode": f"{16 * gap:.1f}",
            "elk.layered.spacing.edgeNodeBetweenLayers": f"{18 * gap:.1f}",
            "elk.spacing.edgeEdge": "16",
            "elk.layered.spacing.edgeEdgeBetweenLayers": "18",
            "elk.spacing.componentComponent": f"{30 * gap:.1f}",
            "elk.aspectRatio": "2.2",
        },
        "children": [_node(box) for box in request.boxes],
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


def _node(box: Box) -> dict[str, Any]:
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
    corners = tuple((str(c["id"]), (float(c["x"]), float(c["y"]))) for c in found["children"])
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
