"""Groups, standards, airframes and failures: what is said of several things where a subject lacks some of them."""

import pytest

from cutaway.inquiry.check import judge
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, Stated
from tests.inquiry.folders import Folder, folder_at, system

TYPE = """name: Wren
marks: [Mk 1, Mk 2]
airframes:
  Wren W-1: {standard: Mk 1, missing: [stern light]}
  Wren W-2: {standard: Mk 1, disconnected: [bow light]}
  Wren W-3: {standard: Mk 1, missing: [battery]}
"""
PARTS = system(
    """
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
master: {kind: switch, at: left wall}
bus: {kind: bus}
meter: {kind: voltmeter, senses: bus.any}
bow light: {kind: electrical load, current: 1 A, fed by: bus, group: outside lights, at: bow}
stern light: {kind: electrical load, current: 1 A, fed by: bus, group: outside lights, at: stern}
cabin light: {on: Mk 2, kind: electrical load, current: 1 A, fed by: bus, group: outside lights, at: bow}
""",
    "battery > master > bus",
)
SITUATION = "situations:\n  lit:\n    set: {master: on}\n    settle: 10 s\n"


@pytest.fixture(scope="module")
def lights(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    files = {"type.yaml": TYPE, "systems/a.yaml": PARTS, "situations.yaml": SITUATION}
    return folder_at(tmp_path_factory.mktemp("lights"), files)


def test_members_that_a_mark_lacks_are_left_out(lights: Folder) -> None:
    for on in ("Mk 1", "Mk 2"):
        assert isinstance(lights.verdict("in lit: each of the outside lights is working", on), Holds)
    assert isinstance(lights.verdict("in lit: none of the outside lights is working", "Mk 1"), Fails)
    assert isinstance(lights.verdict("in lit: any of the outside lights is working", "Wren W-1"), Holds)


def test_a_part_that_the_claim_names_must_be_there(lights: Folder) -> None:
    missing = lights.verdict("in lit: bow light is working and cabin light is working", "Mk 1")
    assert missing == NotModelled(("cabin light",))
    assert lights.verdict("in lit: cabin light is dead", "Mk 1") == NotModelled(("cabin light",))
    assert lights.verdict("in lit, with stern light open: bow light is working", "Wren W-1") == NotModelled(
        ("stern light",)
    )


def test_a_group_of_failures_is_tried_one_by_one(lights: Folder) -> None:
    verdict = lights.verdict("in lit, with any of the outside lights open: bow light is working", "Mk 1")
    assert isinstance(verdict, Fails) and verdict.counterexample is not None
    assert verdict.counterexample.chosen == (("bow light", "open"),)
    assert verdict.tried == 2
    two = lights.verdict("in lit, with any of the outside lights open: master is on", "Mk 2")
    assert isinstance(two, Holds) and two.tried == 3
    sometimes = lights.verdict("in lit, with any of the outside lights open, sometimes: bow light is dead", "Mk 1")
    assert isinstance(sometimes, Holds) and sometimes.witness is not None


def test_on_says_for_whom(lights: Folder) -> None:
    def names(text: str) -> list[str]:
        claim = lights.claim(text)
        return [str(j.subject.name) for j in judge(claim, lights.workshop, lights.loaded.told, rests=False)]

    assert names("in lit: bus is alive") == ["Mk 1", "Mk 2"]
    assert names("on Mk 2, in lit: bus is alive") == ["Mk 2"]
    assert names("on Wren W-1, in lit: bus is alive") == ["Wren W-1"]


def test_an_airframe_with_a_part_disconnected_or_missing(lights: Folder) -> None:
    assert isinstance(lights.verdict("in lit: bow light is dead and stern light is working", "Wren W-2"), Holds)
    assert isinstance(lights.verdict("in lit: bus is dead and bow light is dead", "Wren W-3"), Holds)
    assert lights.verdict("in lit: battery is flat", "Wren W-3") == NotModelled(("battery",))


OTHER_KINDS = system(
    """
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
bus: {kind: bus}
tank: {kind: tank, capacity: 10 gal}
second tank: {kind: tank, capacity: 10 gal}
tap:
  - {on: Mk 1, kind: cock}
  - {on: Mk 2, kind: selector cock, ways: [tank, second tank]}
carburettor: {kind: carburettor}
watch:
  - {on: Mk 1, kind: fuel pressure gauge, senses: carburettor.inlet}
  - {on: Mk 2, kind: low-pressure lamp, senses: carburettor.inlet, fed by: bus, lights below: 2 lb/sq in}
""",
    """
battery > bus
tap > carburettor
{run: tank > tap, on: Mk 1}
{run: tank > tap.tank, on: Mk 2}
{run: second tank > tap.second tank, on: Mk 2}
""",
)


def test_what_a_part_is_not_on_a_mark_is_told_and_not_passed_over(tmp_path_factory: pytest.TempPathFactory) -> None:
    files = {"type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n", "systems/a.yaml": OTHER_KINDS}
    folder = folder_at(tmp_path_factory.mktemp("kinds"), files)
    assert folder.verdict("watch is lit", "Mk 1") == NotModelled(("'lit' of watch",))
    assert folder.verdict("watch is below 1 lb/sq in", "Mk 2") == NotModelled(("pressure of watch",))
    assert folder.verdict("tap is second tank", "Mk 1") == NotModelled(("second tank of tap",))
    moved = folder.verdict("after tap to second tank, within 5 s: carburettor is starved", "Mk 1")
    assert moved == NotModelled(("second tank of tap",))
    held = folder.verdict("with tap at second tank: carburettor is starved", "Mk 1")
    assert held == NotModelled(("second tank of tap",))
    broken = folder.verdict("with watch pipe broken: carburettor is starved", "Mk 2")
    assert broken == NotModelled(("pipe broken of watch",))
    assert isinstance(folder.verdict("watch is lit", "Mk 2"), Holds)


def test_built_and_run_statements_are_judged_together(lights: Folder) -> None:
    both = lights.verdict("in lit: master is at left wall and bus is alive", "Mk 1")
    assert isinstance(both, Holds)
    other = lights.verdict("in lit: master is at right wall and bus is alive", "Mk 1")
    assert isinstance(other, Fails) and other.why == "built otherwise"
    dead = lights.verdict("in lit: master is at left wall and bus is dead", "Mk 1")
    assert isinstance(dead, Fails) and dead.why == "not so"


def test_what_is_built_can_be_joined_by_or_not_and_if(lights: Folder) -> None:
    assert isinstance(lights.verdict("cabin light is fitted or stern light is fitted", "Mk 1"), Stated)
    assert isinstance(lights.verdict("in lit: cabin light is fitted or bus is alive", "Mk 1"), Holds)
    assert isinstance(lights.verdict("not (cabin light is fitted)", "Mk 1"), Stated)
    assert isinstance(lights.verdict("each of the outside lights is at bow", "Wren W-1"), Stated)


def test_a_meter_whose_wire_is_off_reads_nothing(lights: Folder) -> None:
    assert isinstance(lights.verdict("in lit: meter is above 10 V", "Mk 1"), Holds)
    assert isinstance(lights.verdict("in lit: meter is below 0.1 V", "Wren W-3"), Holds)
