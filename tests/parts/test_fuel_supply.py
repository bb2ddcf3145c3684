"""Vents, immersed pumps, cross-feed, jettison, priming, the flowmeter and both carburettors, at work and failing."""

import math

import pytest

from tests.parts.stand import TURNER, Stand, supply

GALLON = 4.54609e-3
POUND = 6894.757
GALLONS_AN_HOUR = GALLON / 3600.0
AMBIENT = 101_325.0
FULL_HEAD = 720.0 * 9.80665 * 0.5


def vented(capacity: str = "20 gal") -> Stand:
    """A tank with a vent, emptied by a carburettor at 12 gal/h."""
    return Stand(
        {
            "tank": ("tank", {"capacity": capacity, "head": "0.5 m"}),
            "vent": ("vent", {}),
            "engine": (TURNER, {}),
            "pump": ("engine-driven fuel pump", {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h"}),
        },
        ("tank.outlet > pump.inlet", "pump.outlet > carburettor.inlet"),
        ("vent: vents > tank", "tank: vent > vent", "pump: driven by > engine", "carburettor: engine > engine"),
    )


def test_a_vented_tank_is_as_one_without_a_vent_in_the_drawing() -> None:
    with_vent = vented().run(1800.0, (0.0, "engine", 1.0))
    assert with_vent.end("tank: contents") == pytest.approx(14.0 * GALLON, rel=0.002)
    head = FULL_HEAD * with_vent.end("tank: contents") / (20.0 * GALLON)
    assert with_vent.end("tank.outlet") == pytest.approx(head, abs=60.0)
    assert with_vent.end("carburettor: fed") == 1.0


def test_a_blocked_vent_thins_the_air_by_the_volume_drawn_until_the_engine_starves() -> None:
    s = vented().run(1800.0, (0.0, "engine", 1.0), (600.0, "vent: blocked", 1.0))
    before, drawn = s.at(600.0, "tank: contents"), s.at(600.0, "tank: contents") - s.at(605.0, "tank: contents")
    space = 1.02 * 20.0 * GALLON - s.at(605.0, "tank: contents")
    head = FULL_HEAD * s.at(605.0, "tank: contents") / (20.0 * GALLON)
    assert s.at(605.0, "tank.outlet") == pytest.approx(head - AMBIENT * drawn / space, abs=80.0)
    assert 605.0 < s.when("carburettor: fed", False) < 800.0
    # The pump gives nothing with 6 kPa of suction: what can be drawn at most, by Boyle's law.
    space = 1.02 * 20.0 * GALLON - before
    most = space * (6_000.0 + FULL_HEAD) / (AMBIENT - 6_000.0 - FULL_HEAD)
    assert 0.0 < before - s.end("tank: contents") < 1.05 * most


def test_a_vent_that_comes_free_lets_the_engine_have_its_petrol_again() -> None:
    s = vented().run(1800.0, (0.0, "engine", 1.0), (300.0, "vent: blocked", 1.0), (1200.0, "vent: blocked", 0.0))
    assert s.at(1199.0, "carburettor: fed") == 0.0 and s.end("carburettor: fed") == 1.0


def test_a_nearly_empty_tank_minds_a_blocked_vent_later_than_a_full_one() -> None:
    def starves(start: float) -> float:
        s = vented().run(3600.0, (0.0, "engine", 1.0), (60.0, "vent: blocked", 1.0), starts={"tank.fuel": start})
        return s.when("carburettor: fed", False) - 60.0

    assert starves(19.0 * GALLON) < 0.3 * starves(12.0 * GALLON)


def boosted() -> Stand:
    return Stand(
        {
            "volts": (supply("current", 24.0), {}),
            "tank": ("tank", {"capacity": "20 gal", "head": "0.5 m"}),
            "pump": ("immersed pump", {"delivery": "60 gal/h", "pressure": "8 lb/sq in"}),
            "engine": (TURNER, {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h", "lowest pressure": "0.3 lb/sq in"}),
        },
        ("tank.outlet > pump.inlet", "pump.outlet > carburettor.inlet"),
        ("pump: fed by > volts.outlet", "carburettor: engine > engine"),
    )


def test_an_immersed_pump_keeps_its_shut_off_pressure_and_less_as_more_is_drawn() -> None:
    s = boosted().run(60.0, (10.0, "volts", 1.0), (30.0, "engine", 1.0))
    head = FULL_HEAD
    assert s.at(29.0, "carburettor.inlet") == pytest.approx(8.0 * POUND + head, rel=0.01)
    # A fifth of its delivery is drawn: a fifth of its pressure is lost.
    assert s.end("carburettor.inlet") == pytest.approx(0.8 * 8.0 * POUND + head, rel=0.01)
    assert s.end("pump: current") == pytest.approx(5.0, rel=1e-3)


@pytest.mark.parametrize(("failure", "amps"), [("pump: seized", 30.0), ("pump: lead off", 0.0)])
def test_an_immersed_pump_that_stands_lets_petrol_pass(failure: str, amps: float) -> None:
    s = boosted().run(90.0, (0.0, "volts", 1.0), (0.0, "engine", 1.0), (30.0, failure, 1.0))
    assert s.end("pump: current") == pytest.approx(amps, rel=1e-3) and s.end("pump: running") == 0.0
    assert s.end("carburettor: fed") == 1.0 and s.end("carburettor.inlet") < FULL_HEAD
    assert s.at(29.0, "carburettor.inlet") > 6.0 * POUND


def test_a_cross_feed_cock_passes_both_ways_until_it_is_shut_or_blocked() -> None:
    for full, other in (("port", "starboard"), ("starboard", "port")):
        s = Stand(
            {
                "port": ("tank", {"capacity": "20 gal"}),
                "starboard": ("tank", {"capacity": "20 gal"}),
                "cock": ("cross-feed cock", {}),
            },
            ("port.outlet > cock.inlet", "cock.outlet > starboard.outlet"),
        ).run(
            400.0, (100.0, "cock", 1.0), (200.0, "cock: blocked", 1.0), (300.0, "cock: blocked", 0.0),
            (350.0, "cock", 0.0), starts={f"{other}.fuel": 2.0 * GALLON},
        )  # fmt: skip
        given = [20.0 * GALLON - s.at(t, f"{full}: contents") for t in (99.0, 199.0, 299.0, 349.0, 399.0)]
        assert abs(given[0]) < 1e-9 and given[1] > 0.5 * GALLON
        assert given[2] == pytest.approx(given[1], rel=0.02) and given[3] > 1.2 * given[2]
        assert given[4] == pytest.approx(given[3], rel=0.02)


def test_a_tank_is_jettisoned_by_torricelli() -> None:
    s = Stand(
        {
            "tank": ("tank", {"capacity": "100 gal", "head": "0.5 m"}),
            "valve": ("jettison valve", {"flow": "3000 gal/h"}),
        },
        ("tank.outlet > valve.inlet",),
    ).run(400.0, (0.0, "valve", 1.0))
    # dV/dt = -Q √(V / full): empty to a share s after (2 V / Q)(1 - √s).
    for t in (60.0, 120.0):
        share = (1.0 - t * 3000.0 * GALLONS_AN_HOUR / (2.0 * 100.0 * GALLON)) ** 2
        assert s.at(t, "tank: contents") == pytest.approx(100.0 * GALLON * share, rel=0.035)
    # The last of it takes longer than the square root says: under an inch of petrol the flow is no longer turbulent.
    assert 240.0 * (1.0 - math.sqrt(0.01)) < s.when("tank: empty") < 1.08 * 240.0
    stuck = s.run(100.0, (0.0, "valve: stuck shut", 1.0), (0.0, "valve", 1.0))
    assert stuck.end("tank: contents") == pytest.approx(100.0 * GALLON, rel=1e-6)


def test_priming_takes_its_strokes_and_wears_off() -> None:
    s = Stand(
        {
            "tank": ("tank", {"capacity": "20 gal"}),
            "primer": ("priming pump", {"stroke": "10 cc", "rate": "30 strokes/min"}),
        },
        ("tank.outlet > primer.inlet",),
    )
    done = s.run(900.0, (10.0, "primer", 1.0), (30.0, "primer", 0.0))
    # 5 cc a second against what evaporates with a time constant of 180 s, up to 60 cc.
    taken = -180.0 * math.log(1.0 - 60.0 / (5.0 * 180.0))
    assert done.when("primer: primed") == pytest.approx(10.0 + taken, abs=0.3)
    assert 100.0 < done.when("primer: primed", False) < 400.0
    worn = s.run(60.0, (0.0, "primer: leaking washer", 1.0), (0.0, "primer", 1.0))
    assert worn.when("primer: primed") == pytest.approx(-180.0 * math.log(1.0 - 60.0 / (1.5 * 180.0)), rel=0.04)


def metered() -> Stand:
    return Stand(
        {
            "tank": ("tank", {"capacity": "20 gal", "head": "1.5 m"}),
            "meter": ("fuel flowmeter", {}),
            "engine": (TURNER, {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h", "lowest pressure": "0.3 lb/sq in"}),
            "lever": (TURNER, {}),
        },
        ("tank.outlet > meter.inlet", "meter.outlet > carburettor.inlet"),
        ("carburettor: engine > engine",),
    )


def test_a_flowmeter_shows_what_passes_until_it_sticks() -> None:
    s = metered().run(60.0, (0.0, "engine", 0.5), (30.0, "meter: stuck", 1.0))
    assert s.at(29.0, "meter: flow") == pytest.approx(6.0 * GALLONS_AN_HOUR, rel=1e-3)
    assert s.end("meter: flow") == 0.0 and s.end("carburettor: draw") == pytest.approx(6.0 * GALLONS_AN_HOUR, rel=1e-3)


# --- carburettors


def test_a_float_carburettor_is_upset_by_too_little_load_after_its_delay() -> None:
    s = metered().run(
        60.0, (0.0, "engine", 1.0), (10.0, "load factor", 0.0), (10.3, "load factor", 1.0),
        (20.0, "load factor", 0.1), (30.0, "load factor", 0.4), (40.0, "load factor", 0.6),
    )  # fmt: skip
    assert s.at(15.0, "carburettor: fed") == 1.0  # three tenths of a second are too short to matter
    assert s.when("carburettor: fed", False) == pytest.approx(20.5, abs=0.01)
    assert [s.at(t, "carburettor: fed") for t in (29.0, 39.0, 59.0)] == [0.0, 0.0, 1.0]
    assert s.at(29.0, "carburettor: draw") == 0.0


def injected() -> Stand:
    s = metered()
    s.parts["carburettor"] = ("pressure-injection carburettor", {"full flow": "12 gal/h"})
    s.parts["tank"] = (supply("petrol", 10.0 * POUND), {})
    return s


def test_a_pressure_injection_carburettor_minds_pressure_and_no_load() -> None:
    s = injected().run(
        60.0, (0.0, "tank", 1.0), (0.0, "engine", 1.0), (10.0, "load factor", -1.0), (20.0, "tank", 0.45),
        (30.0, "tank", 0.52), (40.0, "tank", 0.6), (50.0, "carburettor: diaphragm", 1.0),
    )  # fmt: skip
    assert [s.at(t, "carburettor: fed") for t in (9.0, 19.0, 29.0, 39.0, 49.0, 59.0)] == [1.0, 1.0, 0.0, 0.0, 1.0, 0.0]
    assert s.end("carburettor: draw") == 0.0


@pytest.mark.parametrize(("given", "way"), [({"cuts above": "50 %"}, 1.0), ({"cuts below": "50 %"}, 0.0)])
def test_a_cut_out_takes_the_slow_running_and_no_more(given: dict[str, str], way: float) -> None:
    s = metered()
    s.parts["lever"] = ("throttle", {})
    s.parts["cut-out"] = ("slow-running cut-out", given)
    s.couplings = (
        *s.couplings,
        "cut-out: cuts > carburettor",
        "carburettor: cut-out > cut-out",
        "cut-out: moved by > lever",
    )
    s.run(
        60.0, (0.0, "lever", 1.0 - way), (0.0, "engine", 0.1), (10.0, "lever", way), (20.0, "engine", 0.5),
        (30.0, "engine", 0.1), (40.0, "cut-out: stuck", 1.0),
    )  # fmt: skip
    assert [s.at(t, "carburettor: fed") for t in (9.0, 19.0, 29.0, 39.0, 59.0)] == [1.0, 0.0, 1.0, 0.0, 1.0]
    assert s.at(19.0, "carburettor: draw") == 0.0 and s.at(29.0, "carburettor: draw") > 5.9 * GALLONS_AN_HOUR
    assert s.at(39.0, "cut-out: cutting") == 1.0 and s.end("cut-out: cutting") == 0.0


# --- the collector box


def collected(*changes: tuple[float, str, float], starts: dict[str, float]) -> Stand:
    """Two tanks over a box of half a metre, which stands at the middle of a long pipe that a spout ends."""
    s = Stand(
        {
            "port": ("tank", {"capacity": "20 gal", "head": "0.5 m"}),
            "starboard": ("tank", {"capacity": "20 gal", "head": "0.5 m"}),
            "box": ("collector box", {"head": "0.5 m"}),
            "spout": ("jettison valve", {"flow": "60 gal/h"}),
        },
        ("port.outlet > box.port tank", "starboard.outlet > box.starboard tank", "box.outlet > spout.inlet"),
    )
    return s.run(600.0, *changes, starts=starts)


def test_petrol_stands_over_the_box_with_tank_and_pipe() -> None:
    s = collected(starts={"port.fuel": 20.0 * GALLON, "starboard.fuel": 10.0 * GALLON})
    assert s.end("box.outlet") == pytest.approx(2.0 * FULL_HEAD, rel=0.02)  # the fuller tank's head and the pipe's
    assert s.end("port: contents") == pytest.approx(20.0 * GALLON, rel=1e-4)


def test_the_fuller_tank_is_drawn_first_and_flaps_that_stick_let_it_run_across() -> None:
    starts = {"port.fuel": 20.0 * GALLON, "starboard.fuel": 10.0 * GALLON}
    s = collected((0.0, "spout", 1.0), starts=starts)
    assert s.at(300.0, "port: contents") < 15.0 * GALLON
    assert s.at(300.0, "starboard: contents") == pytest.approx(10.0 * GALLON, rel=1e-3)
    s = collected((0.0, "box: flaps stuck open", 1.0), starts=starts)
    assert s.end("port: contents") == pytest.approx(15.0 * GALLON, rel=0.05)
    assert s.end("starboard: contents") == pytest.approx(15.0 * GALLON, rel=0.05)


def test_nothing_comes_of_an_empty_box_or_past_air_in_it() -> None:
    s = collected((0.0, "spout", 1.0), (300.0, "box: airlock", 1.0), starts=dict.fromkeys(("port.fuel",), 5.0 * GALLON))
    assert s.at(299.0, "spout: flow") > 40.0 * GALLONS_AN_HOUR and s.end("spout: flow") < 0.1 * GALLONS_AN_HOUR
    s = collected((0.0, "spout", 1.0), starts={"port.fuel": GALLON, "starboard.fuel": 0.0})
    assert s.end("spout: flow") < GALLONS_AN_HOUR
