"""The engine with its throttle and magneto switch, fed by a tank that stands high."""

import math

import pytest

from tests.parts.stand import Stand

RPM = 2.0 * math.pi / 60.0
PRESSED = "engine.starter"


def stand() -> Stand:
    return Stand(
        {
            "tank": ("tank", {"capacity": "10 gal", "head": "1.5 m"}),
            "cock": ("cock", {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h", "lowest pressure": "0.5 lb/sq in"}),
            "throttle": ("throttle", {}),
            "switch": ("magneto switch", {}),
            "engine": ("engine", {"rated speed": "2300 rpm", "idling speed": "600 rpm"}),
        },
        ("tank.outlet > cock.inlet", "cock.outlet > carburettor.inlet"),
        ("engine: throttle > throttle", "engine: fuel from > carburettor", "engine: ignition > switch",
         "carburettor: engine > engine"),
    )  # fmt: skip


START = ((0.0, "cock", 1.0), (1.0, "switch", 3.0), (5.0, PRESSED, 1.0), (8.0, PRESSED, 0.0))


def test_it_starts_idles_and_opens_up() -> None:
    s = stand().run(60.0, *START, (30.0, "throttle", 1.0))
    assert 6.0 < s.when("engine: running") < 7.0
    assert s.at(29.0, "engine: rate of turn") == pytest.approx(600.0 * RPM, rel=1e-3)
    assert s.end("engine: rate of turn") == pytest.approx(2300.0 * RPM, rel=1e-3)
    assert s.end("engine: speed") == pytest.approx(1.0, rel=1e-3)
    # One first-order lag of a second and a half: two thirds of the way in that time.
    way = (s.at(31.5, "engine: rate of turn") / RPM - 600.0) / 1700.0
    assert way == pytest.approx(1.0 - math.exp(-1.0), abs=0.03)


@pytest.mark.parametrize("without", ["fuel", "ignition", "starter"])
def test_it_needs_fuel_ignition_and_turning(without: str) -> None:
    names = {"fuel": ("cock",), "ignition": ("switch",), "starter": (PRESSED,)}[without]
    s = stand().run(20.0, *(change for change in START if change[1] not in names))
    assert not s.ever("engine: running")
    assert s.end("engine: speed") < 1e-3


def test_it_stops_at_once_without_ignition_and_later_without_fuel() -> None:
    off = stand().run(60.0, *START, (30.0, "switch", 0.0))
    assert off.when("engine: running", False) == pytest.approx(30.0, abs=1e-3)
    assert off.end("engine: speed") < 1e-4 and off.end("carburettor: draw") < 1e-9
    starved = stand().run(90.0, *START, (20.0, "throttle", 1.0), (30.0, "cock", 0.0))
    fed = starved.when("carburettor: fed", False)
    assert starved.when("engine: running", False) == pytest.approx(fed + 2.0, abs=0.01)


def test_it_goes_on_through_a_short_want_of_fuel() -> None:
    s = stand().run(60.0, *START, (20.0, "throttle", 1.0), (30.0, "cock", 0.0), (31.5, "cock", 1.0))
    assert s.when("carburettor: fed", False) < 31.5
    assert s.end("engine: running") == 1.0


def test_one_magneto_costs_its_drop_and_none_stops_it() -> None:
    s = stand().run(90.0, *START, (10.0, "throttle", 1.0), (30.0, "switch", 1.0), (60.0, "switch: left dead", 1.0))
    lost = s.at(29.0, "engine: rate of turn") - s.at(59.0, "engine: rate of turn")
    assert lost == pytest.approx(75.0 * RPM, rel=0.01)
    assert s.when("engine: running", False) == pytest.approx(60.0, abs=1e-3)
    other = stand().run(60.0, *START, (30.0, "switch: right dead", 1.0))
    assert other.end("engine: running") == 1.0 and other.end("switch: magnetos") == 1.0


def test_a_seized_engine_stops_and_cannot_be_turned() -> None:
    s = stand().run(60.0, *START, (30.0, "engine: seized", 1.0), (40.0, PRESSED, 1.0), (50.0, PRESSED, 0.0))
    assert s.at(31.0, "engine: speed") < 1e-3 and s.at(45.0, "engine: speed") < 1e-3
    assert s.end("engine: running") == 0.0


def test_in_flight_the_airscrew_turns_a_dead_engine_and_starts_it_again() -> None:
    fly = (20.0, "airspeed", 100.0 * 1852.0 / 3600.0)
    s = stand().run(120.0, *START, fly, (30.0, "switch", 0.0), (60.0, "switch", 3.0))
    assert s.at(59.0, "engine: speed") == pytest.approx(0.4, abs=0.001)
    assert s.end("engine: running") == 1.0


def test_it_draws_by_speed_and_opening() -> None:
    s = stand().run(60.0, *START, (30.0, "throttle", 1.0))
    full = 12.0 * 4.54609e-3 / 3600.0
    assert s.at(29.0, "carburettor: draw") == pytest.approx(full * 0.25 * 600.0 / 2300.0, rel=0.01)
    assert s.end("carburettor: draw") == pytest.approx(full, rel=0.01)
