"""Oil valves: two-position selector, sequence, restrictors, hydraulic lock, shuttle with the emergency bottle."""

import pytest

from cutaway.parts.kind import Kind
from tests.parts.stand import Stand, supply

POUND = 6894.757293168362
INCH = 0.0254
FORCE = 4.4482216152605
PRESSURE = 800.0 * POUND
UP, DOWN = 0.0, 1.0
MAIN = supply("oil", PRESSURE)


def tank() -> tuple[str, dict[str, str]]:
    return "reservoir", {"capacity": "2 gal"}


def jack(**given: str) -> tuple[str | Kind, dict[str, str]]:
    return "jack", {"area": "2 sq in", "stroke": "10 in", "rod area": "0.5 sq in", "friction": "30 lbf"} | {
        name.replace("_", " "): value for name, value in given.items()
    }


def moved(stroke: float, flow_gal_h: float, area: float) -> float:
    """Rough seconds for a stroke, in, of an area, sq in, at a flow, gal/h, and a drop of 10 lb/sq in."""
    return stroke * area * INCH**3 / (flow_gal_h * 4.54609e-3 / 3600.0)


def two_way(*, given: dict[str, str] | None = None) -> Stand:
    return Stand(
        {"main": (MAIN, {}), "reservoir": tank(), "selector": ("two-position selector", given or {}), "jack": jack()},
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > jack.extend",
         "selector.up > jack.retract"),
    )  # fmt: skip


def test_a_two_position_selector_has_no_neutral() -> None:
    s = two_way().run(40.0, (0.0, "main", 1.0), (10.0, "selector", DOWN), (25.0, "selector", UP))
    assert s.at(9.0, "selector.up") == pytest.approx(PRESSURE, rel=0.01) and s.at(9.0, "jack: travel") < 1e-3
    assert s.at(24.0, "jack: extended") == 1.0 and s.end("jack: retracted") == 1.0
    assert s.at(24.0, "selector: position") == 1.0 and s.end("selector: position") == 0.0


def test_a_leaking_selector_lets_the_pressure_go() -> None:
    def held(leaks: float) -> float:
        parts = {
            "reservoir": tank(),
            "bottle": ("accumulator", {"volume": "20 cu in"}),
            "selector": ("two-position selector", {}),
            "jack": jack(),
        }
        lines = ("bottle.oil > selector.pressure", "selector.return > reservoir.return",
                 "selector.down > jack.extend", "selector.up > jack.retract")  # fmt: skip
        s = Stand(parts, lines)
        s.run(3600.0, (0.0, "selector: internal leak", leaks), starts={"bottle.air": 10.0 * INCH**3})
        return s.end("bottle: charged")

    assert held(0.0) == 1.0 and held(1.0) == 0.0


def sequence(**jacks: str) -> Stand:
    """Doors before the leg: the leg's oil comes through a valve that the doors' jack pushes open."""
    return Stand(
        {
            "main": (MAIN, {}),
            "reservoir": tank(),
            "selector": ("two-position selector", {}),
            "door jack": jack(),
            "leg jack": jack(**jacks),
            "sequence valve": ("sequence valve", {}),
        },
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > door jack.extend",
         "selector.up > door jack.retract", "selector.down > sequence valve.inlet",
         "sequence valve.outlet > leg jack.extend", "selector.up > leg jack.retract"),
        ("sequence valve: moved by > door jack",),
    )  # fmt: skip


def test_what_a_sequence_valve_feeds_waits_for_what_opens_it() -> None:
    s = sequence().run(60.0, (0.0, "main", 1.0), (1.0, "selector", DOWN), (40.0, "selector", UP))
    opened, extended = s.when("sequence valve: open"), s.when("leg jack: extended")
    assert s.at(opened, "leg jack: travel") < 1e-4 and s.at(opened, "door jack: extension") == pytest.approx(
        0.98, abs=2e-3
    )
    assert extended > opened + 1.0
    # Coming up, the leg's oil passes back whether the doors have let the valve shut or not.
    assert s.end("leg jack: retracted") == 1.0 == s.end("door jack: retracted")


def test_a_stuck_sequence_valve_leaves_the_leg_where_it_is() -> None:
    s = sequence().run(60.0, (0.0, "main", 1.0), (1.0, "selector", DOWN), (0.0, "sequence valve: stuck", 1.0))
    assert (
        s.end("door jack: extended") == 1.0
        and s.end("leg jack: travel") < 1e-4
        and s.end("sequence valve: open") == 0.0
    )


def through(kind: str, forwards: bool, *failures: str) -> float:
    """Seconds in which a jack is driven out through a valve standing one way or the other."""
    ends = ("inlet", "outlet") if forwards else ("outlet", "inlet")
    s = Stand(
        {"main": (MAIN, {}), "reservoir": tank(), "valve": (kind, {}), "jack": jack()},
        (f"main.outlet > valve.{ends[0]}", f"valve.{ends[1]} > jack.extend", "jack.retract > reservoir.return"),
    )
    s.run(60.0, (0.0, "main", 1.0), *((0.0, f"valve: {failure}", 1.0) for failure in failures))
    return s.when("jack: extended") if s.ever("jack: extended") else float("inf")


def test_restrictors_slow_both_ways_or_one() -> None:
    slow, back = through("restrictor", True), through("restrictor", False)
    assert slow == pytest.approx(back, rel=0.01)
    assert through("one-way restrictor", False) == pytest.approx(slow, rel=0.01)
    # Thirteen gallons an hour and four beside each other, instead of four.
    assert through("one-way restrictor", True) == pytest.approx(slow * 4.0 / 17.0, rel=0.1)
    assert through("restrictor", True, "choked") == float("inf") == through("one-way restrictor", False, "choked")
    assert through("one-way restrictor", True, "choked") < 0.5 * slow


def test_a_restrictor_is_the_orifice_law() -> None:
    """2 sq in times 9.8 in at 4 gal/h per root of 10 lb/sq in; nearly all of 800 lb/sq in less 15 of friction."""
    flow = 4.0 * (785.0 / 10.0) ** 0.5
    assert through("restrictor", True) == pytest.approx(moved(9.8, flow, 2.0), rel=0.03)


def locked() -> Stand:
    """A jack with a weight on it; a hydraulic lock on its lower side, its pilot on the other."""
    return Stand(
        {
            "main": (MAIN, {}),
            "reservoir": tank(),
            "selector": ("two-position selector", {}),
            "lock": ("hydraulic lock", {}),
            "jack": jack(spring_load="900 lbf"),
        },
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > lock.supply",
         "lock.jack > jack.extend", "selector.up > jack.retract", "selector.up > lock.pilot"),
    )  # fmt: skip


def test_a_hydraulic_lock_keeps_the_jack_when_its_pipe_has_lost_all_pressure() -> None:
    s = locked().run(4000.0, (0.0, "main", 1.0), (0.0, "selector", DOWN), (20.0, "main", 0.0))
    assert s.at(19.0, "jack: extended") == 1.0
    assert s.end("jack: travel") == pytest.approx(s.at(19.0, "jack: travel"), abs=1e-4)
    assert s.end("lock.supply") < POUND and s.end("lock.jack") > 400.0 * POUND
    assert s.end("lock: open") == 0.0


def test_pressure_on_the_other_side_opens_it_unless_it_is_stuck() -> None:
    changes = ((0.0, "main", 1.0), (0.0, "selector", DOWN), (20.0, "selector", UP))
    assert locked().run(60.0, *changes).end("jack: retracted") == 1.0
    s = locked().run(60.0, *changes, (0.0, "lock: stuck", 1.0))
    assert s.end("jack: extended") == 1.0 and s.end("lock: open") == 0.0


def test_a_selector_alone_would_not_have_held_it() -> None:
    s = Stand(
        {"main": (MAIN, {}), "reservoir": tank(), "selector": ("two-position selector", {}),
         "jack": jack(spring_load="900 lbf")},
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > jack.extend",
         "selector.up > jack.retract"),
    ).run(60.0, (0.0, "main", 1.0), (0.0, "selector", DOWN), (20.0, "main", 0.0))  # fmt: skip
    assert s.end("jack: retracted") == 1.0


def emergency(pressure: str = "1200 lb/sq in", **jacks: str) -> Stand:
    """A leg's jack fed through a shuttle valve from the main, or from the bottle when there is none."""
    return Stand(
        {
            "main": (MAIN, {}),
            "reservoir": tank(),
            "selector": ("two-position selector", {}),
            "shuttle": ("shuttle valve", {}),
            "bottle": ("emergency air bottle", {"volume": "90 cu in", "pressure": pressure}),
            "jack": jack(**jacks),
        },
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > shuttle.normal",
         "bottle.outlet > shuttle.emergency", "shuttle.outlet > jack.extend", "selector.up > jack.retract"),
    )  # fmt: skip


def test_the_bottle_lowers_what_the_pump_cannot() -> None:
    s = emergency(load="0 lbf").run(60.0, (0.0, "selector", DOWN), (10.0, "bottle", 1.0))
    assert s.at(9.0, "jack: travel") < 1e-4 and s.at(9.0, "shuttle: over") == 0.0 and s.at(9.0, "bottle: used") == 0.0
    assert s.end("shuttle: over") == 1.0 == s.end("jack: extended") == s.end("bottle: used")
    # Boyle, absolute: 90 cu in at 1200 spread to 90 and the jack's 20 besides.
    atmosphere = 101325.0 / POUND
    expected = (1200.0 + atmosphere) * 90.0 / 110.0 - atmosphere
    assert s.end("bottle: pressure") / POUND == pytest.approx(expected, rel=0.005)
    assert s.end("shuttle.normal") < 5.0 * POUND


def test_a_weak_bottle_goes_as_far_as_boyle_lets_it() -> None:
    """40 cu in at 300 lb/sq in against 400 lbf on 2 sq in and 30 lbf of friction: until it has fallen to 219."""
    s = emergency("300 lb/sq in", spring_load="400 lbf")
    s.parts["bottle"] = ("emergency air bottle", {"volume": "40 cu in", "pressure": "300 lb/sq in"})
    s.run(120.0, (0.0, "selector", DOWN), (10.0, "bottle", 1.0))
    atmosphere = 101325.0 / POUND
    valve = 30_000.0 / POUND  # what the bottle's own valve wants to be lifted
    spread = 40.0 * ((300.0 + atmosphere) / (215.0 + valve + atmosphere) - 1.0)
    assert s.end("jack: travel") == pytest.approx(spread / 2.0 * INCH, rel=0.02)
    assert s.end("jack: extended") == 0.0


def test_a_leaked_bottle_and_a_stuck_shuttle_do_nothing() -> None:
    leaked = emergency().run(900.0, (0.0, "selector", DOWN), (0.0, "bottle: leaked", 1.0), (800.0, "bottle", 1.0))
    assert leaked.at(799.0, "bottle: pressure") < 20.0 * POUND and leaked.end("jack: extended") == 0.0
    stuck = emergency().run(60.0, (0.0, "selector", DOWN), (0.0, "shuttle: stuck", 1.0), (10.0, "bottle", 1.0))
    assert stuck.end("jack: travel") < 1e-4 and stuck.end("shuttle: over") == 0.0


def test_a_shuttle_goes_back_when_the_pump_is_stronger() -> None:
    s = emergency("400 lb/sq in").run(60.0, (0.0, "selector", DOWN), (10.0, "bottle", 1.0), (30.0, "main", 1.0))
    assert s.at(29.0, "shuttle: over") == 1.0 and s.end("shuttle: over") == 0.0
    assert s.end("jack.extend") == pytest.approx(PRESSURE, rel=0.01)
