"""Current: battery, generator with cut-out, bus, switch, fuse, loads, lamps, voltmeter."""

import math

import pytest

from tests.parts.stand import TURNER, Stand, supply

AH = 3600.0


def circuit(load: str = "10 A") -> Stand:
    """A battery and a generator on one bus, with a load."""
    return Stand(
        {
            "battery": ("battery", {"capacity": "25 Ah", "voltage": "12 V", "resistance": "0.05 ohm"}),
            "main": ("switch", {}),
            "bus": ("bus", {}),
            "engine": (TURNER, {}),
            "generator": ("generator", {"voltage": "14 V", "current limit": "20 A", "cut-in speed": "900 rpm"}),
            "lamp": ("charging lamp", {}),
            "light": ("switch", {}),
            "load": ("electrical load", {"current": load, "voltage": "12 V"}),
            "meter": ("voltmeter", {}),
        },
        ("battery.positive > main.inlet", "main.outlet > bus.any", "generator.output > bus.any",
         "bus.any > light.inlet"),
        ("generator: driven by > engine", "lamp: watches > generator", "lamp: fed by > bus.any",
         "load: fed by > light.outlet", "meter: senses > bus.any"),
    )  # fmt: skip


def test_battery_alone_obeys_ohm() -> None:
    s = circuit().run(20.0, (0.0, "main", 1.0), (5.0, "light", 1.0))
    lamp = s.at(4.0, "battery: current")
    assert 0.1 < lamp < 0.2  # the charging lamp
    # 12.6 V through 0.05, two contacts of 0.01 and 1.2 ohm, beside the lamp's little.
    expected = (12.6 - 0.06 * lamp) / (0.05 + 0.02 + 1.2)
    assert s.at(6.0, "load: current") == pytest.approx(expected, rel=2e-3)
    assert s.at(6.0, "meter: voltage") == pytest.approx(12.6 - 0.06 * s.at(6.0, "battery: current"), abs=0.01)
    assert s.at(6.0, "load: working") == 1.0 and s.at(6.0, "bus: alive") == 1.0


def test_nothing_is_alive_with_the_switch_off_or_broken() -> None:
    s = circuit().run(20.0, (0.0, "light", 1.0), (5.0, "main", 1.0), (10.0, "main: open", 1.0))
    for t, alive in ((4.0, 0.0), (9.0, 1.0), (19.0, 0.0)):
        assert s.at(t, "bus: alive") == s.at(t, "load: working") == alive
    assert s.end("bus: voltage") < 0.01


def test_the_voltage_falls_as_the_battery_gives() -> None:
    s = circuit().run(3600.0, (0.0, "main", 1.0), (0.0, "light", 1.0))
    given = 25.0 * AH - s.end("battery: charge")
    assert given == pytest.approx(3600.0 * 9.9, rel=0.05)
    share = s.end("battery: charge") / (25.0 * AH)
    emf = 12.0 * (0.875 + 0.175 * share)
    assert s.end("battery: voltage") == pytest.approx(emf - 0.05 * s.end("battery: current"), abs=0.01)


def test_a_flat_battery_gives_out() -> None:
    s = circuit("20 A").run(3.0 * 3600.0, (0.0, "main", 1.0), (0.0, "light", 1.0))
    # Charge over current, both falling: (capacity · resistance / 2.1 V) · ln(12.6 V / EMF at 5 % of charge). In the
    # circuit: 0.05 and two contacts of 0.01 ohm, and the load with the charging lamp beside it.
    resistance = 0.07 + 1.0 / (20.0 / 12.0 + 0.15 / 12.0)
    expected = 25.0 * AH * resistance / 2.1 * math.log(12.6 / (10.5 + 0.05 * 2.1))
    assert s.when("battery: flat") == pytest.approx(expected, rel=0.01)
    assert s.end("bus: alive") == 0.0 and s.end("battery: charge") < 0.02 * 25.0 * AH


def test_an_open_cell_gives_nothing() -> None:
    s = circuit().run(20.0, (0.0, "main", 1.0), (0.0, "light", 1.0), (10.0, "battery: open cell", 1.0))
    assert s.at(9.0, "bus: alive") == 1.0 and s.end("bus: alive") == 0.0 and s.end("battery: current") == 0.0


def test_the_generator_cuts_in_carries_the_load_and_charges() -> None:
    s = circuit().run(100.0, (0.0, "main", 1.0), (0.0, "light", 1.0), (20.0, "engine", 0.3), (40.0, "engine", 1.0))
    assert not s.at(39.0, "generator: charging")  # 690 rpm
    assert s.at(39.0, "lamp: lit") == 1.0
    assert s.when("generator: cut-out") == pytest.approx(40.0, abs=0.1)
    assert s.end("lamp: lit") == 0.0
    assert s.end("bus: voltage") == pytest.approx(14.0, abs=0.45)
    assert s.end("generator: current") > s.end("load: current")
    assert s.end("battery: current") < 0.0
    assert s.end("battery: charge") > s.at(41.0, "battery: charge")


def test_a_full_battery_takes_no_more() -> None:
    s = circuit().run(4.0 * 3600.0, (0.0, "main", 1.0), (0.0, "engine", 1.0), starts={"battery.cells": 20.0 * AH})
    assert s.at(60.0, "battery: current") < -5.0
    assert 0.99 * 25.0 * AH < s.end("battery: charge") <= 25.0 * AH
    assert abs(s.end("battery: current")) < 0.2


def test_the_cut_out_opens_on_reverse_current() -> None:
    for cause in ((60.0, "engine", 0.2), (60.0, "generator: no field", 1.0)):
        s = circuit().run(120.0, (0.0, "main", 1.0), (0.0, "light", 1.0), (20.0, "engine", 1.0), cause)
        assert s.when("generator: cut-out", False) == pytest.approx(60.0, abs=0.1)
        assert s.end("lamp: lit") == 1.0 and s.end("bus: alive") == 1.0
        assert s.end("battery: current") > 9.0


def test_the_generator_gives_no_more_than_its_limit() -> None:
    s = circuit("40 A").run(60.0, (0.0, "engine", 1.0), (0.0, "main", 1.0), (20.0, "light", 1.0))
    assert s.end("generator: current") == pytest.approx(20.0, rel=0.01)
    assert s.end("battery: current") > 5.0


def test_the_charging_lamp_has_a_filament() -> None:
    s = circuit().run(20.0, (0.0, "main", 1.0), (10.0, "lamp: filament", 1.0))
    assert s.at(9.0, "lamp: lit") == 1.0 and s.end("lamp: lit") == 0.0
    assert s.end("battery: current") < 1e-3


def test_a_short_drags_the_bus_down_and_a_meter_lead_falls_off() -> None:
    s = circuit().run(20.0, (0.0, "main", 1.0), (5.0, "meter: open", 1.0), (10.0, "bus: short", 1.0))
    assert s.at(9.0, "meter: voltage") == 0.0 and s.at(9.0, "bus: voltage") > 12.0
    assert s.end("bus: alive") == 0.0 and s.end("battery: current") > 100.0


def test_a_load_that_is_open_takes_nothing() -> None:
    s = circuit().run(20.0, (0.0, "main", 1.0), (0.0, "light", 1.0), (10.0, "load: open", 1.0))
    assert s.at(9.0, "load: working") == 1.0 and s.end("load: working") == 0.0 and s.end("load: current") == 0.0


def fused(amps: float) -> Stand:
    return Stand(
        {
            "supply": (supply("current", 14.0), {}),
            "fuse": ("fuse", {"rating": "5 A"}),
            "load": ("electrical load", {"current": f"{amps} A", "voltage": "14 V"}),
        },
        ("supply.outlet > fuse.inlet",),
        ("load: fed by > fuse.outlet",),
    )


def test_a_fuse_carries_its_rating_for_ever() -> None:
    s = fused(5.0).run(3600.0, (0.0, "supply", 1.0))
    assert not s.ever("fuse: blown") and s.end("fuse: current") == pytest.approx(5.0, rel=0.01)


@pytest.mark.parametrize("times", [2.0, 3.0, 6.0])
def test_a_fuse_melts_the_sooner_the_more_it_carries(times: float) -> None:
    s = fused(5.0 * times).run(60.0, (10.0, "supply", 1.0))
    carried = 5.0 * times / (1.0 + 0.01 * 5.0 * times / 14.0) / 5.0
    expected = -5.0 * math.log(1.0 - 2.25 / carried**2)
    assert s.when("fuse: blown") - 10.0 == pytest.approx(expected, rel=0.03)
    assert s.end("load: working") == 0.0 and s.end("fuse: current") == 0.0


def test_a_fuse_melts_at_once_on_a_short_and_stays_so() -> None:
    s = fused(2.0).run(60.0, (0.0, "supply", 1.0), (10.0, "load: short", 1.0), (20.0, "load: short", 0.0))
    assert 10.0 < s.when("fuse: blown") < 10.3
    assert s.end("fuse: blown") == 1.0 and s.end("load: working") == 0.0
