"""Layouts put right: a column for each line, no small steps, and nothing that comes too near for it."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.draw.lanes import in_lanes, read_as_one
from cutaway.draw.laying import laid_out
from cutaway.draw.layout import Box, Layout, Pin, Request, Wire, keep
from cutaway.draw.lines import runs_of
from cutaway.draw.pages import Room
from cutaway.draw.shapes import Point
from cutaway.draw.straight import steps_in, straightened

SIZE = (60.0, 40.0)


def box(name: str, *sides: str) -> Box:
    at: dict[str, Point] = {"west": (0.0, 20.0), "east": (60.0, 20.0), "north": (30.0, 0.0), "south": (30.0, 40.0)}
    return Box(name, SIZE, tuple(Pin(s, s, at[s]) for s in sides))  # type: ignore[arg-type]


def layout(corners: dict[str, Point], routes: dict[str, tuple[Point, ...]], joints: tuple[Point, ...] = ()) -> Layout:
    return Layout((600.0, 400.0), tuple(corners.items()), tuple(routes.items()), joints, "layered")


PAIR = (box("tank", "east"), box("pump", "west", "east"))
TO_PUMP = (Wire("1", ("tank", "east"), ("pump", "west")),)
STEP = {"1": ((60.0, 120.0), (100.0, 120.0), (100.0, 128.0), (200.0, 128.0))}


def test_a_small_step_is_taken_out_by_moving_a_box() -> None:
    found = straightened(layout({"tank": (0.0, 100.0), "pump": (200.0, 108.0)}, STEP), PAIR, TO_PUMP, {"1": "petrol"})
    assert [points for _, points in found.routes] in (
        [((60.0, 120.0), (200.0, 120.0))],
        [((60.0, 128.0), (200.0, 128.0))],
    )
    corners = dict(found.corners)
    assert corners["tank"][1] == corners["pump"][1] and found.size == (600.0, 400.0)


def test_what_hangs_on_a_box_goes_with_it_and_a_joint_stays_on_its_line() -> None:
    boxes = (*PAIR, box("gauge", "west"), box("lamp", "south"))
    wires = (*TO_PUMP, Wire("2", ("pump", "east"), ("gauge", "west")), Wire("3", ("lamp", "south"), ("tank", "east")))
    routes = {
        **STEP,
        "2": ((260.0, 128.0), (300.0, 128.0)),
        "3": ((80.0, 60.0), (80.0, 120.0), (60.0, 120.0)),
    }
    corners = {"tank": (0.0, 100.0), "pump": (200.0, 108.0), "gauge": (300.0, 108.0), "lamp": (50.0, 20.0)}
    nets = {"1": "petrol", "2": "oil", "3": "petrol"}
    found = straightened(layout(corners, routes, ((80.0, 120.0),)), boxes, wires, nets)
    assert steps_in(dict(found.routes)) == []
    for wire in wires:
        points, there = dict(found.routes)[wire.name], dict(found.corners)
        for (name, pin), end in ((wire.start, points[0]), (wire.end, points[-1])):
            at = next(p.at for one in boxes if one.name == name for p in one.pins if p.name == pin)
            assert at is not None and end == (there[name][0] + at[0], there[name][1] + at[1])
    branch = dict(found.routes)["3"][1]
    assert branch in found.joints and branch[1] == dict(found.routes)["1"][0][1]


@pytest.mark.parametrize("near", [40.0, 46.0])
def test_nothing_is_moved_too_near_to_anything(near: float) -> None:
    boxes = (*PAIR, box("above"), box("below"), box("left"), box("right"))
    corners = {"tank": (0.0, 100.0), "pump": (200.0, 108.0), "above": (0.0, 100.0 - near), "below": (0.0, 100.0 + near)}
    corners |= {"left": (200.0, 108.0 - near), "right": (200.0, 108.0 + near)}
    before = layout(corners, STEP)
    assert straightened(before, boxes, TO_PUMP, {"1": "petrol"}) == before


def test_parts_of_two_areas_stay_farther_apart_than_others() -> None:
    boxes = (*PAIR, box("above"), box("left"))
    corners = {"tank": (0.0, 108.0), "pump": (200.0, 100.0), "above": (0.0, 48.0), "left": (200.0, 160.0)}
    routes = {"1": ((60.0, 128.0), (100.0, 128.0), (100.0, 120.0), (200.0, 120.0))}
    before = layout(corners, routes)
    assert steps_in(dict(straightened(before, boxes, TO_PUMP, {"1": "petrol"}).routes)) == []
    stationed = frozenset(corners)
    assert straightened(before, boxes, TO_PUMP, {"1": "petrol"}, stationed) == before


COCK = (box("first", "east"), box("second", "east"), Box("cock", (60.0, 80.0), (
    Pin("upper", "west", (0.0, 30.0)), Pin("lower", "west", (0.0, 50.0)),
)))  # fmt: skip
TO_COCK = (Wire("1", ("first", "east"), ("cock", "upper")), Wire("2", ("second", "east"), ("cock", "lower")))
NETS = {"1": "instruments", "2": "the other"}
IN_ONE = layout(
    {"first": (0.0, 0.0), "second": (0.0, 200.0), "cock": (160.0, 100.0)},
    {
        "1": ((60.0, 20.0), (110.0, 20.0), (110.0, 130.0), (160.0, 130.0)),
        "2": ((60.0, 220.0), (110.0, 220.0), (110.0, 150.0), (160.0, 150.0)),
    },
)


def test_two_lines_in_one_column_are_set_apart() -> None:
    assert len(read_as_one(IN_ONE, TO_COCK, NETS)) == 1
    found = in_lanes(IN_ONE, COCK, TO_COCK, NETS, 20.0)
    assert read_as_one(found, TO_COCK, NETS) == []
    columns = [run.at for run in runs_of(dict(found.routes), TO_COCK, NETS) if run.axis == 1]
    assert sorted(columns) == [110.0, 130.0]
    assert dict(found.corners)["cock"] == (180.0, 100.0) and found.size[0] == 620.0
    assert all(points[-1][0] == 180.0 for _, points in found.routes)


def test_lines_of_one_net_may_stand_in_one_column() -> None:
    assert in_lanes(IN_ONE, COCK, TO_COCK, dict.fromkeys(NETS, "petrol"), 20.0) == IN_ONE


def test_only_what_hangs_together_makes_room_where_something_else_is_in_the_way() -> None:
    boxes = (*COCK, box("heater"))
    before = replace(IN_ONE, corners=(*IN_ONE.corners, ("heater", (90.0, 300.0))))
    found = in_lanes(before, boxes, TO_COCK, NETS, 20.0)
    assert read_as_one(found, TO_COCK, NETS) == []
    assert dict(found.corners)["heater"] == (90.0, 300.0) and dict(found.corners)["cock"] == (180.0, 100.0)
    beside = replace(before, corners=(*IN_ONE.corners, ("heater", (90.0, 300.0)), ("fan", (225.0, 110.0))))
    assert in_lanes(beside, (*boxes, box("fan")), TO_COCK, NETS, 20.0) == beside  # the cock would come upon the fan


def test_what_other_pages_wanted_does_not_count(tmp_path: Path) -> None:
    """A layout is the same whichever pages were asked for before."""
    request = Request(PAIR, TO_PUMP)
    usual, other = (replace(layout({}, {}), size=size) for size in ((600.0, 400.0), (400.0, 600.0)))
    keep(request, (usual, other), tmp_path)
    assert laid_out(request, (Room(600.0, 400.0),), tmp_path) == ((usual,), ())
    assert laid_out(request, (Room(400.0, 600.0),), tmp_path) == ((usual, other), ())
