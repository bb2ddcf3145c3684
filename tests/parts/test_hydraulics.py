"""Oil: flaps by hand pump, locked in neutral, blown at by the air, and what leaks."""

import math

import pytest

from tests.parts.stand import Stand

INCH = 0.0254
POUND = 6894.757
FORCE = 4.4482216152605
KNOT = 1852.0 / 3600.0
NEUTRAL, DOWN, UP = 0.0, 1.0, 2.0


def stand(**jack: str) -> Stand:
    given = {"area": "1.2 sq in", "stroke": "7 in", "rod area": "0.3 sq in", "friction": "15 lbf"} | {
        name.replace("_", " "): value for name, value in jack.items()
    }
    return Stand(
        {
            "reservoir": ("reservoir", {"capacity": "3 pint"}),
            "pump": ("hydraulic hand pump",
                     {"stroke": "0.4 cu in", "rate": "40 strokes/min", "pressure": "450 lb/sq in"}),
            "valve": ("oil non-return valve", {}),
            "relief": ("oil relief valve", {"set at": "300 lb/sq in"}),
            "selector": ("selector valve", {}),
            "jack": ("jack", given),
            "flaps": ("flaps", {"full angle": "40 deg"}),
            "pointer": ("position indicator", {}),
            "gauge": ("oil pressure gauge", {}),
        },
        ("reservoir.outlet > pump.inlet", "pump.outlet > valve.inlet", "valve.outlet > selector.pressure",
         "pump.outlet > relief.inlet", "relief.outlet > reservoir.return", "selector.return > reservoir.return",
         "selector.down > jack.extend", "selector.up > jack.retract"),
        ("flaps: moved by > jack", "pointer: shows > flaps", "gauge: senses > selector.pressure"),
    )  # fmt: skip


def test_the_flaps_go_down_in_the_oil_over_the_flow() -> None:
    s = stand().run(120.0, (10.0, "selector", DOWN), (20.0, "pump", 1.0), (100.0, "pump", 0.0))
    # 1.2 sq in times 98 % of 7 in, at 0.4 cu in forty times a minute.
    expected = 1.2 * 0.98 * 7.0 / (0.4 * 40.0 / 60.0)
    assert s.when("jack: extended") - 20.0 == pytest.approx(expected, rel=0.01)
    assert s.at(19.0, "flaps: up") == 1.0 and s.end("flaps: down") == 1.0 and s.end("flaps: up") == 0.0
    assert s.end("flaps: angle") == pytest.approx(math.radians(40.0), rel=0.005)
    assert s.end("pointer: angle") == s.end("flaps: angle")


def test_the_oil_that_left_the_reservoir_is_in_the_jack() -> None:
    s = stand().run(120.0, (10.0, "selector", DOWN), (20.0, "pump", 1.0), (100.0, "pump", 0.0))
    displaced = 0.3 * 7.0 * INCH**3  # the cap side took more than the rod side gave back
    lost = 3.0 * 4.54609e-3 / 8.0 - s.end("reservoir: contents")
    assert lost == pytest.approx(displaced, rel=0.02)


def test_the_relief_valve_opens_when_the_jack_is_at_its_end() -> None:
    s = stand().run(120.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0))
    assert s.at(20.0, "relief: open") == 0.0 and s.end("relief: open") == 1.0
    assert 300.0 * POUND < s.end("pump.outlet") < 316.0 * POUND
    assert s.end("gauge: pressure") == pytest.approx(s.end("selector.pressure"))
    assert s.end("jack: travel") == pytest.approx(7.0 * INCH, rel=0.003)


def test_they_come_up_again_faster_than_they_went_down() -> None:
    s = stand().run(200.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (80.0, "selector", UP))
    down, up = s.when("jack: extended"), s.when("jack: retracted", True)
    again = [e.time for e in s.ran.events if e.mode == "jack: retracted" and e.now][-1] if s.ran else 0.0
    assert up == again or up < down
    # The rod takes a quarter of the piston away: three quarters of the oil. The first 2 % and the last are not counted.
    assert again - 80.0 == pytest.approx(0.75 * down, rel=0.03)
    assert s.end("flaps: up") == 1.0


def test_neutral_locks_them_against_the_air() -> None:
    s = stand(load="100 lbf").run(
        4000.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (15.0, "pump", 0.0), (15.0, "selector", NEUTRAL),
        (20.0, "airspeed", 100.0 * KNOT),
    )  # fmt: skip
    half = s.at(19.0, "jack: travel")
    assert 0.3 * 7.0 * INCH < half < 0.6 * 7.0 * INCH
    assert s.end("jack: travel") == pytest.approx(half, abs=2e-4)
    thrust = (1.2 * s.end("jack.extend") - 0.9 * s.end("jack.retract")) * INCH**2 / FORCE
    assert 100.0 - 15.5 < thrust < 100.0 + 15.5  # the load, give or take the friction


@pytest.mark.parametrize(("failure", "left"), [("selector: internal leak", NEUTRAL), ("jack: seal leaking", DOWN)])
def test_what_leaks_lets_them_creep_up(failure: str, left: float) -> None:
    s = stand(load="100 lbf").run(
        4000.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (15.0, "pump", 0.0), (15.0, "selector", left),
        (20.0, "airspeed", 100.0 * KNOT), (100.0, failure, 1.0),
    )  # fmt: skip
    assert s.end("jack: travel") < s.at(99.0, "jack: travel") - 5e-3


def test_a_leaking_seal_alone_moves_nothing_while_both_pipes_are_blocked() -> None:
    """The oil that leaves one side has no room on the other, which is smaller by the rod."""
    s = stand(load="100 lbf").run(
        4000.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (15.0, "pump", 0.0), (15.0, "selector", NEUTRAL),
        (20.0, "airspeed", 100.0 * KNOT), (100.0, "jack: seal leaking", 1.0),
    )  # fmt: skip
    assert s.end("jack: travel") == pytest.approx(s.at(99.0, "jack: travel"), abs=5e-4)


def test_too_strong_an_air_load_stops_them_half_way() -> None:
    s = stand(load="400 lbf").run(200.0, (0.0, "airspeed", 100.0 * KNOT), (0.0, "selector", DOWN), (0.0, "pump", 1.0))
    assert s.end("jack: travel") == pytest.approx(0.0, abs=5e-4) and s.end("relief: open") == 1.0
    slower = stand(load="400 lbf").run(
        200.0, (0.0, "airspeed", 80.0 * KNOT), (0.0, "selector", DOWN), (0.0, "pump", 1.0)
    )
    assert slower.end("flaps: down") == 1.0


def test_a_jammed_jack_stays() -> None:
    s = stand().run(120.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (10.0, "jack: jammed", 1.0))
    assert s.end("jack: travel") == pytest.approx(s.at(10.0, "jack: travel"), abs=1e-6)
    assert s.end("flaps: down") == 0.0 == s.end("flaps: up")


def test_a_leaking_washer_takes_three_times_as_long() -> None:
    sound = stand().run(200.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0))
    worn = stand().run(200.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), (0.0, "pump: leaking washer", 1.0))
    assert worn.when("jack: extended") == pytest.approx(sound.when("jack: extended") / 0.3, rel=0.03)


def test_a_relief_valve_stuck_open_keeps_the_flaps_where_they_are() -> None:
    s = stand(load="100 lbf").run(
        120.0, (0.0, "relief: stuck open", 1.0), (0.0, "airspeed", 100.0 * KNOT), (0.0, "selector", DOWN),
        (0.0, "pump", 1.0),
    )  # fmt: skip
    assert s.end("flaps: down") == 0.0 and s.end("relief: open") == 1.0


def test_a_non_return_valve_holds_the_jack_with_the_selector_left_down() -> None:
    changes = ((0.0, "selector", DOWN), (0.0, "pump", 1.0), (15.0, "pump", 0.0), (20.0, "airspeed", 100.0 * KNOT))
    held = stand(load="100 lbf").run(600.0, *changes)
    assert held.end("jack: travel") == pytest.approx(held.at(19.0, "jack: travel"), abs=3e-4)
    # With the non-return valve stuck the pump's own valves still hold, so it takes the relief valve to let them up.
    let_go = stand(load="100 lbf").run(
        600.0, *changes, (100.0, "valve: stuck open", 1.0), (100.0, "relief: stuck open", 1.0)
    )
    assert let_go.end("jack: travel") < 0.2 * held.at(19.0, "jack: travel")


def test_an_empty_reservoir_moves_nothing() -> None:
    s = stand().run(
        120.0, (0.0, "selector", DOWN), (0.0, "pump", 1.0), starts={"reservoir.oil": 0.05 * 4.54609e-3 / 8.0}
    )
    assert s.end("flaps: down") == 0.0 and s.when("reservoir: empty") < 60.0


def test_a_parted_cable_shows_nothing() -> None:
    s = stand().run(10.0, (5.0, "pointer: open", 1.0))
    assert s.at(4.0, "pointer: working") == 1.0 and s.end("pointer: working") == 0.0
