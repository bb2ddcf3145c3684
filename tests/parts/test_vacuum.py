"""Vacuum: suction from a pump, its relief valve, and gyro instruments that want time."""

import math

import pytest

from tests.parts.stand import TURNER, Stand

IN_HG = 3386.389
CUBIC_FEET_A_MINUTE = 0.3048**3 / 60.0


def stand(instruments: int = 2, relief: bool = True) -> Stand:
    parts: dict = {
        "engine": (TURNER, {}),
        "pump": ("vacuum pump", {"displacement": "6 cu ft/min"}),
        "gauge": ("suction gauge", {}),
    }
    lines = []
    if relief:
        parts["relief"] = ("suction relief valve", {"set at": "4.5 in Hg"})
        lines.append("relief.line > pump.suction")
    for i in range(instruments):
        parts[f"gyro {i}"] = ("gyro instrument", {"flow": "1.5 cu ft/min", "works above": "3.5 in Hg"})
        lines.append(f"gyro {i}.line > pump.suction")
    return Stand(parts, tuple(lines), ("pump: driven by > engine", "gauge: senses > pump.suction"))


def test_suction_without_a_relief_valve_is_where_pump_and_instruments_agree() -> None:
    s = stand(relief=False).run(300.0, (0.0, "engine", 1.0))
    # By hand: what the pump moves at the line's pressure is what the two instruments let in.
    ambient, c = 101325.0, 1.5 * CUBIC_FEET_A_MINUTE / math.sqrt(101325.0**2 - (101325.0 - 3.5 * IN_HG) ** 2)
    low, high = 0.0, ambient
    for _ in range(100):
        p = 0.5 * (low + high)
        pumped, let_in = 6.0 * CUBIC_FEET_A_MINUTE * p / ambient, 2.0 * c * math.sqrt(ambient**2 - p**2)
        low, high = (low, p) if pumped > let_in else (p, high)
    assert s.end("gauge: suction") == pytest.approx(ambient - p, rel=1e-4)
    assert s.end("gauge: suction") > 5.0 * IN_HG


def test_the_relief_valve_holds_its_setting() -> None:
    s = stand().run(300.0, (0.0, "engine", 1.0), (100.0, "engine", 0.2), (200.0, "engine", 1.0))
    assert s.at(99.0, "gauge: suction") == pytest.approx(4.5 * IN_HG, rel=0.05)
    assert s.at(99.0, "relief: open") == 1.0
    assert s.at(199.0, "gauge: suction") < 2.0 * IN_HG and s.at(199.0, "relief: open") == 0.0


def test_the_same_suction_at_height() -> None:
    s = stand().run(300.0, (0.0, "engine", 1.0), (100.0, "height", 3000.0))
    assert s.at(99.0, "pump.suction") == pytest.approx(101325.0 - 4.5 * IN_HG, rel=0.01)
    assert s.end("gauge: suction") == pytest.approx(4.5 * IN_HG, rel=0.06)


def test_an_instrument_wants_its_run_up_and_coasts_on() -> None:
    s = stand().run(600.0, (10.0, "engine", 1.0), (300.0, "engine", 0.0))
    assert s.when("gyro 0: working") == pytest.approx(190.0, abs=1.0)
    assert s.when("gyro 0: working", False) == pytest.approx(420.0, abs=2.0)


def test_a_short_loss_of_suction_does_no_harm() -> None:
    s = stand().run(500.0, (10.0, "engine", 1.0), (300.0, "engine", 0.0), (360.0, "engine", 1.0))
    assert s.end("gyro 0: working") == 1.0
    assert len([e for e in s.ran.events if e.mode == "gyro 0: working"]) == 1 if s.ran else False


@pytest.mark.parametrize("failure", ["pump: sheared", "relief: stuck open", "gyro 0: filter choked"])
def test_what_takes_the_suction_away(failure: str) -> None:
    s = stand().run(900.0, (0.0, "engine", 1.0), (300.0, failure, 1.0))
    assert s.at(299.0, "gyro 0: working") == 1.0 and s.end("gyro 0: working") == 0.0
    assert s.end("gyro 1: working") == (1.0 if failure.startswith("gyro") else 0.0)


def test_a_valve_stuck_shut_lets_the_suction_rise() -> None:
    s = stand().run(300.0, (0.0, "engine", 1.0), (200.0, "relief: stuck shut", 1.0))
    assert s.at(199.0, "gauge: suction") < 4.8 * IN_HG
    assert s.end("gauge: suction") > 5.0 * IN_HG and s.end("relief: open") == 0.0


def test_a_broken_pipe_shows_no_suction() -> None:
    s = stand().run(100.0, (0.0, "engine", 1.0), (50.0, "gauge: pipe broken", 1.0))
    assert s.at(49.0, "gauge: suction") > 4.0 * IN_HG and s.end("gauge: suction") == 0.0
