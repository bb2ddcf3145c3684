"""Behaviours of whole systems against references written apart from the kernel, with plain laws.

Held to: the order of events exactly; landmarks within 1 % of travel or set-point, or 0.05 s; slow progress within 2.5
%.
"""

from itertools import pairwise

import pytest

from cutaway.machine.run import values_at
from tests.machine import networks, references
from tests.machine.running import happened, run, when

NEAR = 0.05  # s
TRAVEL = 0.01 * 0.30  # m


def test_a_jack_stalls_until_a_reversal_brings_the_pump_in() -> None:
    lever = ((0.5, 1), (4.0, 2), (4.4, 1))
    numbers = {"accumulator": 1.5e-3, "start": 76.0, "cut_in": 64.0, "k": 0.03, "load": 7000.0, "spring": 5000.0}
    events, places = references.hydraulic_jack(lever, 14.0, (3.9, 4.4), **numbers)
    found = run(networks.hydraulic_jack(**numbers), 14.0, *((t, "selector", float(way)) for t, way in lever))
    assert happened(found) == [(name, now) for _, name, now in events]
    assert happened(found) == [("idle", False), ("extended", True), ("idle", True)]
    for (time, name, _), event in zip(events, found.events, strict=True):
        assert event.time == pytest.approx(time, abs=NEAR), name
    for time, (travel, pressure) in places.items():
        assert values_at(found, time)[found.names.index("travel")] == pytest.approx(travel, abs=TRAVEL)
        assert values_at(found, time)[found.names.index("pressure")] == pytest.approx(pressure, rel=0.01)
    assert values_at(found, 3.9)[found.names.index("travel")] == pytest.approx(0.0982, abs=TRAVEL)


def test_repeated_reversals_gain_a_little_each() -> None:
    lever = ((0.1, 1), *((t, way) for k in range(2, 11) for t, way in ((float(k), 2), (k + 0.05, 1))))
    numbers = {"accumulator": 0.15e-3, "start": 76.0, "cut_in": 66.0, "k": 0.02, "load": 7900.0, "spring": 2000.0}
    at = tuple(k + 0.9 for k in range(1, 11))
    events, places = references.hydraulic_jack(lever, 11.0, at, **numbers)
    found = run(networks.hydraulic_jack(**numbers), 11.0, *((t, "selector", float(way)) for t, way in lever))
    assert happened(found) == [(name, now) for _, name, now in events]
    travel = found.names.index("travel")
    gained = [values_at(found, t)[travel] for t in at]
    assert all(after > before + 0.005 for before, after in pairwise(gained))
    for value, t in zip(gained, at, strict=True):
        assert value == pytest.approx(places[t][0], rel=0.025, abs=1.0e-3)
    for (time, name, _), event in zip(events, found.events, strict=True):
        assert event.time == pytest.approx(time, abs=NEAR), name


def test_a_tank_runs_dry_and_the_lamp_comes_a_second_later() -> None:
    found = run(networks.two_tanks(), 140.0, (60.0, "selector", 1.0), (75.0, "selector", 0.0), (130.0, "balance", 1.0))
    assert happened(found)[2:] == [
        ("low", True), ("lamp", True), ("low", False), ("lamp", False),
        ("low", True), ("lamp", True), ("low", False), ("lamp", False),
    ]  # fmt: skip
    dry = 2.07e-3 / 0.06e-3
    assert when(found, "low", True, 1) == pytest.approx(dry, abs=NEAR)
    assert when(found, "lamp", True) == pytest.approx(when(found, "low", True, 1) + 1.0, abs=1.0e-6)
    assert when(found, "low", False, 1) == pytest.approx(60.0, abs=NEAR)
    assert when(found, "low", False, 2) == pytest.approx(130.0, abs=NEAR)


def test_a_failed_generator_opens_its_cut_out_and_the_battery_carries_on() -> None:
    found = run(networks.generator_and_battery(), 3800.0, (120.0, "failed", 1.0), (3600.0, "flight", 0.0))
    assert happened(found)[-2:] == [("closed", False), ("lamp", True)]
    assert when(found, "closed", False) == pytest.approx(120.0, abs=NEAR)
    at = (60.0, 100.0, 119.0, 130.0, 1800.0, 3590.0)
    for t, bus in zip(at, references.generator_and_battery(at, 120.0), strict=True):
        assert values_at(found, t)[0] == pytest.approx(bus, rel=1.0e-3), t
    assert abs(values_at(found, 3700.0)[0]) < 1.0e-6


@pytest.mark.parametrize(("legs", "leak"), [(1, 0.0), (1, 4.0e-5), (2, 0.0)])
def test_a_hand_pump_raises_the_legs_in_its_time(legs: int, leak: float) -> None:
    found = run(networks.hand_pumped(legs, leak), 300.0)
    assert when(found, "up", True) == pytest.approx(references.raised(legs, leak), rel=1.0e-3)


def test_a_spring_brings_the_ram_back_when_the_bottle_leaks() -> None:
    """The current is still on; the air goes, and the ram with it (E8: within 1 % of the blow-down)."""
    found = run(networks.ram_and_bottle(leak=1.0e-9), 120.0, (1.0, "current", 1.0))
    out, back = when(found, "out", True), when(found, "out", False)
    assert out == pytest.approx(1.0, abs=1.0)
    assert back == pytest.approx(references.ram_leaves(1.0e-9), rel=0.01)
    assert values_at(found, 120.0)[0] == pytest.approx(0.0, abs=1.0e-4)
