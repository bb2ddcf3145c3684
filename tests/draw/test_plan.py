"""What stands on a sheet: one flag for all parts of another system that are joined to the same place."""

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cutaway.draw.pages import SHAPES
from cutaway.draw.pipes import pipe_shapes
from cutaway.draw.plan import Plan, make_plan
from cutaway.draw.seen import LineSeen
from cutaway.draw.shapes import Group, Polyline
from cutaway.draw.sheet import make_sheet
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from tests.draw import by_hand

SVG = "{http://www.w3.org/2000/svg}"


def electrics() -> Plan:
    """The bus's own sheet: the lamp and the gauge that it feeds are on the sheet of the petrol."""
    return make_plan(by_hand.FUEL, subjects(by_hand.FUEL)[0], "Electrics", KINDS)


def test_parts_of_one_system_on_one_place_share_a_flag() -> None:
    flags = [item for item in electrics().items if item.reference]
    assert [[str(p.name) for p in flag.parts] for flag in flags] == [["fuel lamp", "port contents gauge"]]
    assert [bool(tie.along) for tie in electrics().ties] == [False, True]


def test_the_flag_names_every_part(layouts: Path) -> None:
    text, problems = make_sheet(by_hand.FUEL, by_hand.MK, "Electrics", None, KINDS, cache=layouts)
    root = ET.fromstring(text)
    flag = next(e for e in root.iter(f"{SVG}g") if e.get("data-reference"))
    words = [e.text for e in flag.iter(f"{SVG}text")]
    assert problems == () and words == ["fuel lamp", "port contents gauge", "see Fuel"]
    lines = [e.get("data-line") for e in root.iter(f"{SVG}g") if e.get("data-line")]
    assert lines == [
        "instrument bus.any > fuel lamp.feed (fed by); instrument bus.any > port contents gauge.feed (fed by)"
    ]


@pytest.mark.parametrize(("flows", "arrows"), [((0, 0), 0), ((1, 0), 1), ((0, 1), 1), ((1, 1), 1), ((1, -1), 0)])
def test_a_shared_line_is_drawn_once_and_flows_if_any_of_it_does(flows: tuple[int, int], arrows: int) -> None:
    plan = electrics()
    routes = {tie.name: ((0.0, 0.0), (90.0, 0.0)) for tie in plan.ties}
    seen = {tie.name: LineSeen(True, flow) for tie, flow in zip(plan.ties, flows, strict=True)}
    (node,) = pipe_shapes(plan, routes, seen)
    assert isinstance(node, Group)
    lines = [s for s in node.shapes if isinstance(s, Polyline)]
    assert sum(not s.closed for s in lines) == 2  # the wire and its beads
    assert sum(s.closed for s in lines) == arrows


def test_a_line_is_cut_where_another_crosses_it_and_nowhere_else() -> None:
    plan = make_plan(by_hand.FUEL, subjects(by_hand.FUEL)[0], "Fuel", KINDS)
    lines = {plan.wiring.joined[tie.start.node]: tie.name for tie in plan.ties if tie.sort == "line"}
    level, upright, *_ = lines.values()
    routes = {level: ((0.0, 0.0), (90.0, 0.0)), upright: ((40.0, -30.0), (40.0, 30.0), (60.0, 30.0))}
    nodes = [node for node in pipe_shapes(plan, routes, {}) if isinstance(node, Group)]
    gaps = [shape.points for node in nodes for shape in node.shapes if shape.role == "halo"]
    assert gaps == [((31.0, 0.0), (49.0, 0.0)), ((40.0, -9.0), (40.0, 9.0))]


@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES.keys())
def test_a_sheet_has_the_shape_of_its_page(shape: float, layouts: Path) -> None:
    text, _ = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", by_hand.RUNNING, KINDS, cache=layouts, shape=shape)
    _, _, width, height = (float(n) for n in ET.fromstring(text).get("viewBox", "").split())
    assert width / height == pytest.approx(shape, abs=0.002)


def test_a_flag_tells_which_of_several_ports_is_meant() -> None:
    parts = (
        by_hand.part("lock switch", "down-lock switch", "Legs", of="leg"),
        by_hand.part("leg", "leg", "Legs", moved_by="jack"),
        by_hand.part("jack", "jack", "Legs"),
        by_hand.part("green lamp", "filament lamp", "Lamps"),
        by_hand.part("red lamp", "filament lamp", "Lamps"),
    )
    lines = (
        by_hand.line("lock switch.locked", "green lamp.feed", "Lamps"),
        by_hand.line("lock switch.unlocked", "red lamp.feed", "Lamps"),
    )
    folder = by_hand.folder(parts, lines)
    plan = make_plan(folder, subjects(folder)[0], "Lamps", KINDS)
    labels = [item.labels for item in plan.items if item.reference]
    assert labels == [("lock switch: locked",), ("lock switch: unlocked",)]
