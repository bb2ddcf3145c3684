"""Lamps and gauges: what they show, when they are dead, and when they lie."""

import pytest

from tests.parts.stand import TURNER, Stand, supply

POUND = 6894.757
GALLON = 4.54609e-3


def lamp() -> Stand:
    return Stand(
        {
            "petrol": (supply("petrol", 10.0 * POUND), {}),
            "volts": (supply("current", 12.0), {}),
            "lamp": ("low-pressure lamp", {"lights below": "2 lb/sq in", "rise": "0.3 lb/sq in", "delay": "1 s"}),
        },
        (),
        ("lamp: senses > petrol.outlet", "lamp: fed by > volts.outlet"),
    )


def test_the_lamp_lights_below_its_limit_after_its_delay_and_goes_out_above_its_rise() -> None:
    s = lamp().run(
        60.0, (0.0, "volts", 1.0), (0.0, "petrol", 0.5), (10.0, "petrol", 0.19), (20.0, "petrol", 0.22),
        (30.0, "petrol", 0.24), (40.0, "petrol", 0.19), (40.5, "petrol", 0.5),
    )  # fmt: skip
    lit = [e.time for e in s.ran.events if e.mode == "lamp: switch" and e.now] if s.ran else []
    assert lit[-1] == pytest.approx(11.0, abs=1e-3)
    for t, shown in ((9.0, 0.0), (10.9, 0.0), (12.0, 1.0), (25.0, 1.0), (31.0, 0.0), (42.0, 0.0)):
        assert s.at(t, "lamp: lit") == shown, t
    assert s.at(12.0, "lamp.feed flow") == pytest.approx(0.1, rel=1e-3)
    assert s.at(31.0, "lamp.feed flow") == 0.0


@pytest.mark.parametrize("failure", ["filament", "switch stuck"])
def test_a_lamp_needs_current_a_filament_and_its_switch(failure: str) -> None:
    s = lamp().run(30.0, (5.0, "volts", 1.0), (15.0, f"lamp: {failure}", 1.0))
    assert s.at(4.0, "lamp: lit") == 0.0
    assert s.at(14.0, "lamp: lit") == 1.0
    assert s.end("lamp: lit") == 0.0 and s.end("lamp.feed flow") == 0.0


def gauges() -> Stand:
    return Stand(
        {
            "tank": ("tank", {"capacity": "10 gal"}),
            "volts": (supply("current", 12.0), {}),
            "electric": ("contents gauge", {}),
            "direct": ("contents gauge", {}),
        },
        (),
        ("electric: reads > tank", "electric: fed by > volts.outlet", "direct: reads > tank"),
    )


def test_an_electric_gauge_is_dead_without_current_and_a_direct_one_is_not() -> None:
    s = gauges().run(30.0, (10.0, "volts", 1.0), (20.0, "electric: no supply", 1.0), (20.0, "direct: no supply", 1.0))
    assert [s.at(t, "electric: working") for t in (9.0, 19.0, 29.0)] == [0.0, 1.0, 0.0]
    assert [s.at(t, "direct: working") for t in (9.0, 19.0, 29.0)] == [1.0, 1.0, 0.0]
    assert s.at(19.0, "electric.feed flow") == pytest.approx(0.05, rel=1e-3) and s.end("electric.feed flow") == 0.0


def test_a_stuck_float_goes_on_showing_full() -> None:
    s = gauges().run(600.0, (0.0, "tank: leaking", 1.0), (300.0, "direct: stuck", 1.0))
    assert s.at(299.0, "direct: shown") == s.at(299.0, "tank: contents") < 9.0 * GALLON
    assert s.end("direct: shown") == pytest.approx(10.0 * GALLON) and s.end("tank: contents") < 8.0 * GALLON


def test_an_oil_gauge_shows_pressure_but_no_suction() -> None:
    s = Stand(
        {"oil": (supply("oil", 300.0 * POUND), {}), "gauge": ("oil pressure gauge", {})},
        (),
        ("gauge: senses > oil.outlet",),
    ).run(30.0, (10.0, "oil", 1.0), (20.0, "gauge: pipe broken", 1.0))
    assert [s.at(t, "gauge: pressure") for t in (9.0, 19.0, 29.0)] == [0.0, pytest.approx(300.0 * POUND), 0.0]


def test_the_turner_turns() -> None:
    s = Stand({"engine": (TURNER, {})}).run(2.0, (1.0, "engine", 0.5))
    assert s.end("engine: speed") == 0.5
