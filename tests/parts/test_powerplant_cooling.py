"""The coolant circuit with its thermostat, shutter and thermometer, against arithmetic and closed forms."""

import math
from pathlib import Path

import pytest

from cutaway.inquiry.verdicts import Fails, Holds
from tests.inquiry.folders import Folder, folder_at, system
from tests.parts.powerplants import LINES, PARTS

RATING = "with master cock on, with ignition both, with airscrew highest, with throttle open, with airspeed 200 kt"
COOLED = (
    "coolant: {kind: coolant circuit, engine: engine, shutter: shutter}\n"
    "shutter: {kind: radiator shutter, moved by: shutter lever}\n"
    "shutter lever: {kind: throttle}\n"
    "thermostat: {kind: thermostat, senses: coolant}\n"
    "hot lamp: {kind: filament lamp}\n"
    "thermometer: {kind: thermometer, reads: coolant}\n"
    "thermometer switch: {kind: switch}\n"
)
WIRED = "battery > thermostat > hot lamp\nbattery > thermometer switch > thermometer"


@pytest.fixture(scope="module")
def cooled(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    """The engine with its coolant; the shutter is moved by hand."""
    parts = PARTS.replace(", mixture: mixture", "")
    return folder_at(
        tmp_path_factory.mktemp("cooled"), {"systems/power.yaml": system(parts + COOLED, f"{LINES}\n{WIRED}")}
    )


def holds(folder: Folder, given: str, statement: str, wait: str = "12 min") -> bool:
    each = "".join(f", with {one}" for one in given.split(", ") if one)
    run = f"after starter button to pressed for 4 s then wait {wait}, within 1 s"
    return isinstance(folder.verdict(f"{RATING}{each}, {run}: {statement}"), Holds)


def test_at_the_rating_it_stands_as_far_above_the_air_as_was_given(cooled: Folder) -> None:
    """85 °C in air of 15 °C, so 70 above 5.25 °C at 1500 m; 110 above it with the shutter closed."""
    assert holds(cooled, "height 1500 m, shutter lever open", "coolant reads 75.25 °C ± 0.3 °C")
    assert holds(cooled, "height 1500 m, shutter lever closed", "coolant reads 115.25 °C ± 0.3 °C")
    # Ten degrees warmer weather, ten degrees more, less what the warmer charge takes from the power.
    assert holds(cooled, "height 1500 m, shutter lever open, temperature 25 °C", "coolant reads 80 to 85 °C")


def test_half_a_shutter_lets_half_of_the_difference_pass(cooled: Folder) -> None:
    per_degree = 0.5 * (1.0 / 70.0 + 1.0 / 110.0)
    expected = 5.25 + 1.0 / per_degree
    assert holds(cooled, "height 1500 m, shutter lever 50 %", f"coolant reads {expected:.2f} °C ± 0.3 °C")


def temperature(folder: Folder, given: str, wait: str) -> float:
    """What the coolant reads, °C, taken from the evidence of a claim that cannot hold."""
    run = f"after starter button to pressed for 4 s then wait {wait}, within 0.1 s: coolant reads 500 °C"
    verdict = folder.verdict(f"{RATING}, with {given.replace(', ', ', with ')}, {run}")
    assert isinstance(verdict, Fails) and verdict.seen[0].value is not None
    return verdict.seen[0].value - 273.15


def test_it_warms_as_its_mass_says(cooled: Folder) -> None:
    """160 lb at 3700 J/(kg K) and four tenths of 1180 hp / 0.87, towards 75.25 °C: a first-order lag of 46 s."""
    heat = 0.4 * 1180.0 * 745.69987 / 0.87
    constant = 160.0 * 0.45359237 * 3700.0 * 70.0 / heat
    first, then = (temperature(cooled, "height 1500 m, shutter lever open", wait) for wait in ("5 s", "25 s"))
    assert first < 65.0
    assert then == pytest.approx(75.25 - (75.25 - first) * math.exp(-20.0 / constant), abs=0.15)


def test_it_boils_when_the_liquid_is_lost(cooled: Folder) -> None:
    given = "height 1500 m, shutter lever open"
    assert holds(cooled, given, "coolant is not boiling")
    assert holds(cooled, f"{given}, coolant leaking", "coolant is boiling")


def test_the_thermostat_makes_and_breaks_apart(cooled: Folder) -> None:
    shut, opened = "height 1500 m, shutter lever closed", "height 1500 m, shutter lever open"
    assert holds(cooled, shut, "thermostat is made and hot lamp is lit")
    assert holds(cooled, opened, "thermostat is broken and hot lamp is out")
    assert holds(cooled, f"{shut}, thermostat stuck open", "hot lamp is out")
    # It stays made on the way down until 100 °C.
    cooling = "with height 1500 m, with shutter lever closed, after starter button to pressed for 4 s then wait 10 min"
    still = f"{RATING}, {cooling} then shutter lever to 40 % then wait 5 min, within 1 s: coolant reads below 99 °C"
    assert isinstance(cooled.verdict(still + " and thermostat is broken"), Holds)
    between = (
        f"{RATING}, {cooling} then shutter lever to 15 % then wait 10 min, within 1 s: coolant reads 101 to 109 °C"
    )
    assert isinstance(cooled.verdict(between + " and thermostat is made"), Holds)


def test_a_stuck_shutter_stays_closed(cooled: Folder) -> None:
    given = "height 1500 m, shutter lever open, shutter stuck"
    assert holds(cooled, given, "shutter is closed and coolant reads above 110 °C")


def test_the_thermometer_needs_current_and_its_lead(cooled: Folder) -> None:
    given = "height 1500 m, shutter lever open"
    assert holds(cooled, given, "thermometer is dead")
    assert holds(cooled, f"{given}, thermometer switch on", "thermometer reads 75.25 °C ± 0.3 °C")
    assert holds(cooled, f"{given}, thermometer switch on, thermometer open", "thermometer reads 150 °C")


def test_standing_still_it_cools_badly(cooled: Folder, tmp_path: Path) -> None:
    still = RATING.replace("with airspeed 200 kt", "with airspeed 0 kt")
    claim = f"{still}, with shutter lever open, after starter button to pressed for 4 s then wait 10 min, within 1 s: "
    assert isinstance(cooled.verdict(claim + "coolant is boiling"), Holds)
