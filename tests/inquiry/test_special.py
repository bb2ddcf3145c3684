"""Statements that one run does not settle: order, trend, comparison of scopes, independence, thresholds."""

import pytest

from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, RestsOn
from tests.inquiry.folders import PUMPED, SITUATIONS, Folder, folder_at, system

LAMP = system(
    """
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
master: {kind: switch}
spare: {kind: switch}
bus: {kind: bus}
meter: {kind: voltmeter, senses: bus.any}
light: {kind: electrical load, current: 10 A, fed by: light switch.outlet}
light switch: {kind: switch}
tank: {kind: tank, capacity: 10 gal}
cock: {kind: cock}
pump: {kind: hand fuel pump}
carburettor: {kind: carburettor}
lamp: {kind: low-pressure lamp, senses: carburettor.inlet, fed by: bus, lights below: 2 lb/sq in, delay: 1 s}
""",
    """
battery > master > bus
bus > light switch
tank > cock > pump > carburettor
""",
)
SET = "situations:\n  lit:\n    set: {master: on, cock: on}\n    settle: 10 s\n"


@pytest.fixture(scope="module")
def lamp(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("lamp"), {"systems/a.yaml": LAMP, "situations.yaml": SET})


@pytest.fixture(scope="module")
def pumped(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("pumped"), {"systems/f.yaml": PUMPED, "situations.yaml": SITUATIONS})


def test_order(pumped: Folder) -> None:
    start = "in standing, after pump to pumping"
    half = "upper tank is below 0.5 gal"
    assert isinstance(pumped.verdict(f"{start}: {half} before upper tank is empty"), Holds)
    other = pumped.verdict(f"{start}: upper tank is empty before {half}")
    assert isinstance(other, Fails) and other.why == "order"
    assert other.at == pytest.approx(277.42 / 4.0, rel=0.03)
    never = pumped.verdict(f"{start}: lower tank is empty before upper tank is empty")
    assert isinstance(never, Fails) and never.why == "never came"


def test_order_with_a_time(pumped: Folder) -> None:
    start = "in standing, after pump to pumping"
    half = "upper tank is below 0.5 gal before upper tank is empty"
    assert isinstance(pumped.verdict(f"{start}, within 75 s: {half}"), Holds)
    # Half of it takes 69 s: not within 30 s.
    late = pumped.verdict(f"{start}, within 30 s: {half}")
    assert isinstance(late, Fails)
    assert isinstance(pumped.verdict(f"{start}, never: {half}"), Fails)


def test_order_over_all_positions(pumped: Folder) -> None:
    claim = "in standing, always: upper tank is below 0.5 gal before upper tank is empty"
    verdict = pumped.verdict(claim)
    assert isinstance(verdict, Fails) and verdict.why == "never came"


def test_against_another_scope(lamp: Folder) -> None:
    assert isinstance(
        lamp.verdict("in lit, with light switch at on: meter is lower than with light switch at off"), Holds
    )
    higher = lamp.verdict("in lit, with light switch at on: meter is higher than with light switch at off")
    assert isinstance(higher, Fails) and higher.why == "not higher" and len(higher.seen) == 2
    assert isinstance(lamp.verdict("in lit: meter is the same as with spare at on"), Holds)
    same = lamp.verdict("in lit: meter is the same as with master at off")
    assert isinstance(same, Fails) and same.why == "not the same"


def test_independence(lamp: Folder) -> None:
    assert isinstance(lamp.verdict("in lit: light does not depend on spare"), Holds)
    depends = lamp.verdict("in lit, with light switch at on: light does not depend on master")
    assert isinstance(depends, Fails) and depends.why == "depends"
    assert depends.counterexample is not None and depends.counterexample.chosen == (("master", "off"),)
    # With its own switch off the light is dark whatever the master does: the scope counts.
    assert isinstance(lamp.verdict("in lit, with light switch at off: light does not depend on master"), Holds)
    assert isinstance(lamp.verdict("in lit, with light switch at on: light depends on master"), Holds)


def test_a_part_of_which_nothing_can_be_seen_is_not_modelled(lamp: Folder) -> None:
    assert lamp.verdict("in lit: spare does not depend on master") == NotModelled(("a state or a reading of spare",))


def test_trend(lamp: Folder) -> None:
    flat = lamp.verdict("in lit: meter rises as height rises from 0 ft to 8000 ft")
    assert isinstance(flat, Fails) and flat.why == "trend"


def test_trend_of_suction_with_height(tmp_path_factory: pytest.TempPathFactory) -> None:
    parts = system(
        """
tank: {kind: tank, capacity: 10 gal}
carburettor: {kind: carburettor}
throttle: {kind: throttle}
ignition: {kind: magneto switch}
engine: {kind: engine, throttle: throttle, ignition: ignition, fuel from: carburettor, windmilling: 40 %}
vacuum pump: {kind: vacuum pump, driven by: engine}
gyro: {kind: gyro instrument}
suction gauge: {kind: suction gauge, senses: vacuum pump.suction}
""",
        "tank > carburettor\ngyro > vacuum pump",
    )
    situations = "situations:\n  gliding:\n    given: {airspeed: 100 kt}\n    settle: 1 min\n"
    folder = folder_at(tmp_path_factory.mktemp("air"), {"systems/a.yaml": parts, "situations.yaml": situations})
    # The pump takes a share of what there is, and there is less of it higher up.
    assert isinstance(folder.verdict("in gliding: suction gauge falls as height rises from 0 ft to 10000 ft"), Holds)
    wrong = folder.verdict("in gliding: suction gauge rises as height rises from 0 ft to 10000 ft")
    assert isinstance(wrong, Fails) and wrong.why == "trend"


def test_a_threshold_on_the_bench(lamp: Folder) -> None:
    assert isinstance(lamp.verdict("in lit: lamp lights at 2 lb/sq in falling"), Holds)
    assert isinstance(lamp.verdict("lamp lights at 2 lb/sq in falling"), Holds)
    high = lamp.verdict("in lit: lamp lights at 1 lb/sq in falling")
    assert isinstance(high, Fails) and high.why == "too early"
    low = lamp.verdict("in lit: lamp lights at 3 lb/sq in falling")
    assert isinstance(low, Fails) and low.why == "never came"
    # Two thresholds in one workshop do not share a bench.
    assert isinstance(lamp.verdict("in lit: lamp lights at 2.0 lb/sq in falling"), Holds)


def test_special_statements_rest_on_assumed_values_too(lamp: Folder) -> None:
    verdict = lamp.verdict("in lit, with light switch at on: meter is lower than with light switch at off", rests=True)
    assert isinstance(verdict, (Holds, RestsOn))
    assert (verdict if isinstance(verdict, Holds) else verdict.nominal).assumed > 0


def test_what_cannot_be_joined_is_said(lamp: Folder) -> None:
    either = lamp.verdict("in lit: light does not depend on spare or lamp is lit")
    assert isinstance(either, NotModelled)
    both = lamp.verdict("in lit: light does not depend on spare and master is on")
    assert isinstance(both, Holds)
