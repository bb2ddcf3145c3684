"""The engine's kinds at work and at fault, by claims put to the whole powerplant."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.inquiry.engine_bench import Setting, measure
from cutaway.inquiry.verdicts import Holds
from tests.inquiry.folders import Folder
from tests.parts.charge_reference import Rating, Reference, air
from tests.parts.powerplants import HORSEPOWER, PARTS, POUND, RPM, on_bench, powerplant

GIVEN = "with master cock on, with ignition both, with airscrew highest"
RUN = "after starter button to pressed for 4 s then wait 60 s, within 2 s"


@pytest.fixture(scope="module")
def plant(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return powerplant(tmp_path_factory.mktemp("plant"))


def holds(folder: Folder, given: str, statement: str, run: str = RUN) -> bool:
    each = "".join(f", with {one}" for one in given.split(", ") if one)
    return isinstance(folder.verdict(f"{GIVEN}{each}, {run}: {statement}"), Holds)


GOVERNED = [
    # The governor keeps what the lever asks between its stops, whatever the throttle and the height.
    ("throttle gate", "engine reads 2850 rpm ± 5 rpm"),
    ("throttle gate, airscrew 50 %", "engine reads 2325 rpm ± 5 rpm"),
    ("throttle gate, airscrew lowest, airspeed 220 kt", "engine reads 1800 rpm ± 5 rpm"),
    ("throttle gate, height 10000 ft", "engine reads 2850 rpm ± 5 rpm"),
    # On the fine stop the throttle decides the speed, and with it closed the slow-running jet.
    ("throttle closed", "engine reads 600 rpm ± 5 rpm"),
    ("throttle 10 %", "engine reads 700 to 2000 rpm and airscrew is on fine stop"),
    # With speed the air turns it up to the lever's speed.
    ("throttle 10 %, airspeed 250 kt", "engine reads above 2300 rpm"),
    # Without oil the blades go fine, and in flight the engine overspeeds; a stuck pitch keeps the blades.
    ("throttle gate, airspeed 200 kt, airscrew lowest, airscrew oil lost", "engine reads above 3000 rpm"),
    ("throttle gate, airscrew lowest, airscrew pitch stuck", "engine reads above 2500 rpm"),
]


@pytest.mark.parametrize(("given", "statement"), GOVERNED)
def test_the_governor(plant: Folder, given: str, statement: str) -> None:
    assert holds(plant, given, statement)


def test_opening_the_throttle_surges_and_settles(plant: Folder) -> None:
    run = "after starter button to pressed for 4 s then wait 60 s then throttle to gate then wait 4 s, within 0.1 s"
    assert holds(plant, "airscrew 50 %, throttle 10 %", "engine reads above 2335 rpm", run)
    after = "after starter button to pressed for 4 s then wait 60 s then throttle to gate then wait 20 s, within 1 s"
    assert holds(plant, "airscrew 50 %, throttle 10 %", "engine reads 2325 rpm ± 5 rpm", after)


BOOSTED = [
    ("throttle gate", "engine boost reads 7 lb/sq in ± 0.02 lb/sq in"),
    ("throttle open", "engine boost reads 9 lb/sq in ± 0.02 lb/sq in"),
    ("throttle open, boost control cut-out pulled", "engine boost reads above 12.5 lb/sq in"),
    ("throttle gate, boost control capsule failed", "engine boost reads above 12.5 lb/sq in"),
    ("throttle open, throttle stuck", "engine boost reads below -3 lb/sq in"),
    ("throttle open, height 14000 ft, blower S", "engine boost reads 9 lb/sq in ± 0.05 lb/sq in"),
    ("throttle open, height 14000 ft", "engine boost reads below 5 lb/sq in"),
    ("throttle open, height 14000 ft, blower S, blower stuck in M", "engine boost reads below 5 lb/sq in"),
]


@pytest.mark.parametrize(("given", "statement"), BOOSTED)
def test_the_boost(plant: Folder, given: str, statement: str) -> None:
    assert holds(plant, given, statement)


def test_the_cut_out_has_a_boost_of_its_own_in_each_gear(tmp_path: Path) -> None:
    control = (
        "{kind: automatic boost control, throttle: throttle, boost at gate: 7 lb/sq in, take-off boost: 9 lb/sq in, "
        "M cut-out boost: 12 lb/sq in, S cut-out boost: 14 lb/sq in}"
    )
    plant = powerplant(tmp_path, boost_control=control)
    pulled = "throttle open, boost control cut-out pulled"
    assert holds(plant, pulled, "engine boost reads 12 lb/sq in ± 0.02 lb/sq in")
    assert holds(plant, f"{pulled}, blower S", "engine boost reads 14 lb/sq in ± 0.02 lb/sq in")


def test_the_weather_and_the_hot_air_reach_the_blower(tmp_path: Path) -> None:
    """Twenty degrees warmer than standard, against the reference with its air twenty degrees warmer."""
    folder = powerplant(tmp_path, without=("mixture", "boost control"))
    bench = on_bench(folder)
    reference = Reference(Rating(9 * POUND, 2850 * RPM, 1500.0, 1180 * HORSEPOWER))
    setting = Setting(4000.0, 1.0, 0, 2850 * RPM)

    def boost(input_name: str, value: float) -> float:
        machine = bench.machine
        inputs = machine.start_inputs.copy()
        inputs[machine.inputs.index(input_name)] = value
        return measure(replace(bench, machine=replace(machine, start_inputs=inputs)), [setting], 1)[0].boost

    p, t = air(4000.0, warmer=20.0)
    warm = reference.behind_throttle(1.0, setting.speed, p, t) * reference.blower(setting.speed, t)[0]
    assert boost("temperature", 308.15) == pytest.approx(warm - 101_325.0, abs=0.5)
    p, t = air(4000.0, warmer=25.0)
    hot = reference.behind_throttle(1.0, setting.speed, p, t) * reference.blower(setting.speed, t)[0]
    longer = 1.0 - 0.4 * POUND / 101_325.0
    assert boost("intake", 1.0) == pytest.approx(hot * longer - 101_325.0, abs=0.5)


MIXED = [
    ("throttle gate", "mixture is rich"),
    ("throttle 20 %", "mixture is weak"),
    ("throttle 20 %, mixture stuck rich", "mixture is rich"),
]


@pytest.mark.parametrize(("given", "statement"), MIXED)
def test_the_mixture_by_boost(plant: Folder, given: str, statement: str) -> None:
    assert holds(plant, given, statement)


def test_the_mixture_by_boost_and_speed(tmp_path: Path) -> None:
    plant = powerplant(
        tmp_path, mixture="{kind: automatic mixture, weak below boost: 8 lb/sq in, weak below speed: 2600 rpm}"
    )
    assert holds(plant, "throttle gate", "mixture is rich")
    assert holds(plant, "throttle gate, airscrew 50 %", "mixture is weak")


def test_a_weak_mixture_saves_a_quarter_and_costs_four_per_cent_of_power(plant: Folder, tmp_path: Path) -> None:
    weak = powerplant(tmp_path, mixture="{kind: automatic mixture, weak below boost: 8 lb/sq in}")
    assert holds(plant, "throttle gate", "engine fuel flow reads 89.2 gal/h ± 0.5 gal/h")
    assert holds(weak, "throttle gate", "engine fuel flow reads 66.9 gal/h ± 0.5 gal/h")
    assert holds(weak, "throttle gate, mixture stuck rich", "engine fuel flow reads 89.2 gal/h ± 0.5 gal/h")
    for folder, horsepower in ((plant, "1021"), (weak, "980")):
        assert holds(folder, "throttle gate", f"engine power reads {horsepower} hp ± 2 hp")


TABLE = "cruise table: [[rpm, lb/sq in, gal/h], [1800, 0, 34], [1800, 4, 42], [2400, 0, 45], [2400, 4, 58]]"


def test_petrol_by_the_cruise_table(tmp_path: Path) -> None:
    engine = next(line for line in PARTS.splitlines() if line.startswith("engine:")).split(": ", 1)[1]
    plant = powerplant(
        tmp_path,
        engine=engine[:-1] + f", {TABLE}}}",
        boost_control="{kind: automatic boost control, throttle: throttle, boost at gate: 2 lb/sq in, "
        "take-off boost: 4 lb/sq in}",
    )
    # Half-way in both: the mean of the four.
    assert holds(plant, "throttle gate, airscrew 28.571 %", "engine fuel flow reads 44.75 gal/h ± 0.1 gal/h")
    assert holds(plant, "throttle open, airscrew lowest", "engine fuel flow reads 42 gal/h ± 0.1 gal/h")
    # Beyond the table the flow goes with speed and pressure: 58 · 2850 / 2400.
    assert holds(plant, "throttle open, airspeed 200 kt", "engine fuel flow reads 68.9 gal/h ± 0.2 gal/h")
    # Both are weak mixtures; stuck rich takes a third more.
    rich = "throttle gate, airscrew 28.571 %, mixture stuck rich"
    assert holds(plant, rich, "engine fuel flow reads 59.7 gal/h ± 0.2 gal/h")
    assert holds(plant, rich, "carburettor flow reads 59.7 gal/h ± 0.2 gal/h")


LONG = "after starter button to pressed for 4 s then wait 10 min, within 2 s"
ICED = "throttle gate, intake drawing damp air, temperature 5 °C"


def test_ice_comes_in_damp_cool_air_and_goes_with_hot(plant: Folder) -> None:
    assert holds(plant, ICED, "intake is iced", LONG)
    assert holds(plant, "throttle gate, temperature 5 °C", "intake is clear", LONG)
    assert holds(plant, ICED.replace("5 °C", "22 °C"), "intake is clear", LONG)
    assert holds(plant, ICED.replace("5 °C", "-20 °C"), "intake is clear", LONG)
    cleared = "after starter button to pressed for 4 s then wait 10 min then intake to hot, within 60 s"
    assert holds(plant, ICED, "intake is clear", cleared)
    assert not holds(plant, f"{ICED}, intake stuck", "intake is clear", cleared)


def test_the_boost_control_hides_the_ice_until_nothing_is_left_to_open(plant: Folder) -> None:
    two = "after starter button to pressed for 4 s then wait 100 s, within 2 s"
    assert holds(plant, ICED, "engine boost reads 7 lb/sq in ± 0.05 lb/sq in", two)
    assert holds(plant, ICED, "engine boost reads below 4 lb/sq in", LONG)


def test_starting_needs_volts_ignition_and_petrol(plant: Folder) -> None:
    start = "after starter button to pressed for 4 s, within 10 s"
    assert holds(plant, "", "engine is running", start)
    assert holds(plant, "starter solenoid open", "engine is stopped", start)
    for left_out in ("with master cock on, ", "with ignition both, "):
        claim = f"{GIVEN}, {RUN}: engine is stopped".replace(left_out, "")
        assert isinstance(plant.verdict(claim), Holds), left_out
    assert holds(plant, "engine seized", "engine is stopped and engine reads 0 rpm")
    off = "after starter button to pressed for 4 s then wait 60 s then ignition to off, within 1 s"
    assert holds(plant, "throttle gate", "engine is stopped", off)


def test_a_dead_engine_windmills_on_the_governor_and_starts_again(plant: Folder) -> None:
    off = "after starter button to pressed for 4 s then wait 60 s then ignition to off then wait 30 s"
    flying = "throttle gate, airspeed 150 kt, airscrew lowest"
    assert holds(plant, flying, "engine reads 1000 to 1800 rpm and engine power reads 0 hp", f"{off}, within 1 s")
    assert holds(plant, flying, "engine is running", f"{off} then ignition to both, within 5 s")
