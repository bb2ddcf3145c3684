"""The electrical and petrol behaviours made of library parts, against plain sums: lamps, a dry tank, a dead dynamo.

Held to: the order of events exactly; landmarks within 1 % or 0.05 s, but where a pump stands between, as said.
"""

from math import exp

import pytest

from tests.parts.stand import TURNER, Stand, supply

LITRE = 1.0e-3


def lamps() -> Stand:
    """Behaviour 4: 24.5 V, indicator switch, dimmer of 30 ohm, two bulbs chosen by switches, a switch for the lock."""
    return Stand(
        {
            "volts": (supply("current", 24.5), {}),
            "indicator": ("switch", {}),
            "dimmer": ("dimmer", {"resistance": "30 ohm"}),
            "locked": ("switch", {}),
            "first set": ("switch", {}),
            "second set": ("switch", {}),
            "lamp": ("twin-filament lamp", {"current": "0.12 A"}),
        },
        (
            "volts.outlet > indicator.inlet",
            "indicator.outlet > dimmer.inlet",
            "dimmer.outlet > locked.inlet",
            "locked.outlet > first set.inlet",
            "locked.outlet > second set.inlet",
            "first set.outlet > lamp.first",
            "second set.outlet > lamp.second",
        ),
    )


def test_the_undercarriage_lamp_through_switch_dimmer_and_spare_bulb() -> None:
    s = lamps().run(
        70.0, (0.0, "volts", 1.0), (0.0, "locked", 1.0), (0.0, "first set", 1.0), (10.0, "indicator", 1.0),
        (20.0, "dimmer", 1.0), (30.0, "dimmer", 0.0), (30.0, "lamp: first filament", 1.0), (40.0, "first set", 0.0),
        (40.0, "second set", 1.0), (50.0, "locked", 0.0),
    )  # fmt: skip
    at = (9.0, 19.0, 29.0, 39.0, 49.0, 59.0)
    light = [s.at(t, "lamp: brightness") for t in at]
    # Off and dark; bright; dim; its filament gone; the second bulb; unlocked. By brentq and a circuit simulator.
    assert light == pytest.approx([0.0, 1.0622, 0.6809, 0.0, 1.0622, 0.0], abs=0.004)
    assert [s.at(t, "lamp: lit") for t in at] == [0.0, 1.0, 1.0, 0.0, 1.0, 0.0]
    assert s.at(19.0, "lamp.first") == pytest.approx(24.488, abs=0.02)
    assert s.at(29.0, "lamp.first") == pytest.approx(21.1137, abs=0.02)


def two_tanks() -> Stand:
    """Behaviour 6: 2.07 l at 0.06 l/s, a switch that closes at 10 kPa and opens at 12, a lamp a second later."""
    return Stand(
        {
            "left": ("tank", {"capacity": "2.07 l", "head": "0.3 m"}),
            "right": ("tank", {"capacity": "50 l", "head": "0.3 m"}),
            "selector": ("selector cock", {}),
            "cross-feed": ("cross-feed cock", {}),
            "engine": (TURNER, {}),
            "pump": ("engine-driven fuel pump", {"delivery": "432 l/h", "pressure": "4 lb/sq in"}),
            "carburettor": ("carburettor", {"full flow": "216 l/h", "lowest pressure": "0.2 lb/sq in"}),
            "volts": (supply("current", 24.0), {}),
            "lamp": ("low-pressure lamp", {"lights below": "1.450 lb/sq in", "rise": "0.290 lb/sq in",
                                           "delay": "1 s", "voltage": "24 V"}),
        },
        (
            "left.outlet > selector.port tank",
            "right.outlet > selector.starboard tank",
            "selector.outlet > pump.inlet",
            "pump.outlet > carburettor.inlet",
            "right.outlet > cross-feed.inlet",
            "cross-feed.outlet > left.outlet",
        ),
        (
            "pump: driven by > engine",
            "carburettor: engine > engine",
            "lamp: senses > carburettor.inlet",
            "lamp: fed by > volts.outlet",
        ),
    )  # fmt: skip


def test_the_lamp_comes_a_second_after_the_pressure_and_goes_on_cross_feed() -> None:
    s = two_tanks().run(
        140.0, (0.0, "volts", 1.0), (0.0, "selector", 1.0), (0.0, "engine", 1.0), (60.0, "selector", 2.0),
        (90.0, "selector", 1.0), (130.0, "cross-feed", 1.0),
    )  # fmt: skip
    assert s.ran is not None
    seen = [(e.time, e.now) for e in s.ran.events if e.mode == "lamp: switch" and e.time > 5.0]
    assert [now for _, now in seen] == [True, False, True, False]
    dry = 2.07 / 0.06
    (lit, _), (out, _), (again, _), (cleared, _) = seen
    assert lit == pytest.approx(dry + 1.0, abs=0.05)
    assert out == pytest.approx(60.0, abs=0.05) and cleared == pytest.approx(130.0, abs=0.05)
    # The pipe beyond the cock still holds some petrol under pressure: a tenth of a second's worth.
    assert again == pytest.approx(90.0 + 0.1 + 1.0, abs=0.05)


CAPACITY = 20.0 * 3600.0


def decay(charge: float, seconds: float, load: float, own: float) -> float:
    """Volts at a load of so many ohm on a battery of 24 V and 20 Ah, so long after it held a charge: 21.0 V flat and
    25.2 V full, hence Q dq/dt = -(E0 + k q) / (R + r), an exponential."""
    per_coulomb = 4.2 / CAPACITY
    start = 21.0 + per_coulomb * charge
    return start * exp(-per_coulomb * seconds / (load + own)) * load / (load + own)


def test_a_dead_dynamo_leaves_the_battery_to_run_down_as_its_capacity_says() -> None:
    """Behaviour 9: load of 0.6 S; the dynamo fails at 120 s, the switch goes to ground at an hour."""
    s = Stand(
        {
            "battery": ("battery", {"capacity": "20 Ah", "voltage": "24 V", "resistance": "0.05 ohm"}),
            "switch": ("ground/flight switch", {}),
            "bus": ("bus", {"voltage": "24 V"}),
            "engine": (TURNER, {}),
            "dynamo": ("dynamo", {"current limit": "40 A"}),
            "cut-out": ("generator cut-out", {}),
            "lamp": ("charging lamp", {"voltage": "24 V", "current": "0.0001 A"}),
            "load": ("electrical load", {"current": "14.4 A", "voltage": "24 V"}),
        },
        (
            "battery.positive > switch.battery",
            "switch.bus > bus.any",
            "dynamo.output > cut-out.generator",
            "cut-out.bus > bus.any",
        ),
        (
            "dynamo: driven by > engine",
            "load: fed by > bus.any",
            "lamp: watches > cut-out",
            "lamp: fed by > bus.any",
        ),
    ).run(
        3800.0, (0.0, "switch", 1.0), (0.0, "engine", 1.0), (120.0, "dynamo: no field", 1.0), (3600.0, "switch", 0.0),
        starts={"battery.cells": CAPACITY * 3.8 / 4.2},
    )  # fmt: skip
    assert s.when("cut-out: closed", False) == pytest.approx(120.0, abs=0.05)
    assert s.at(119.0, "lamp: lit") == 0.0 and s.at(121.0, "lamp: lit") == 1.0
    at_failure = s.at(120.2, "battery: charge")
    # The battery's own 0.05 ohm and the contact of the switch, 0.01 ohm.
    for t in (130.0, 1800.0, 3590.0):
        assert s.at(t, "bus: voltage") == pytest.approx(decay(at_failure, t - 120.2, 1.0 / 0.6, 0.06), rel=1e-3), t
    assert s.end("bus: voltage") < 1e-3 and s.end("bus: alive") == 0.0
