"""Loose ends: each is told with its parts, and nothing that works is told."""

from pathlib import Path

from cutaway.api.checking import check_problems
from tests.inquiry.folders import TYPE, folder_at, system
from tests.whinchat import WHINCHAT

ELECTRICS = """
battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}
master switch: {kind: switch}
bus: {kind: bus}
lamp switch: {kind: switch}
cabin lamp: {kind: electrical load, current: 1 A}
"""
FED = "battery > master switch > bus > lamp switch > cabin lamp"
PETROL = """
tank: {kind: tank, capacity: 10 gal}
hand pump: {kind: hand fuel pump}
carburettor: {kind: carburettor}
gauge: {kind: fuel pressure gauge, senses: carburettor.inlet}
"""


def loose(path: Path, parts: str, lines: str, **files: str) -> list[tuple[str, str]]:
    """The codes and messages of the loose ends of a small folder."""
    folder = folder_at(path, {"type.yaml": TYPE, "systems/small.yaml": system(parts, lines), **files})
    return [(p.code, p.message) for p in folder.problems if p.code.startswith("M11")]


def test_nothing_is_told_of_what_works(tmp_path: Path) -> None:
    electrics = ELECTRICS.replace("current: 1 A}", "current: 1 A, fed by: lamp switch.outlet}")
    assert loose(tmp_path, electrics, FED) == []
    assert [p for p in check_problems(WHINCHAT) if p.code.startswith("M11")] == []


def test_parts_joined_to_no_supply_are_named(tmp_path: Path) -> None:
    electrics = ELECTRICS.replace("current: 1 A}", "current: 1 A, fed by: lamp switch.outlet}")
    (told,) = loose(tmp_path, electrics, "bus > lamp switch\nbattery > master switch")[:1]
    assert told == (
        "M111",
        "'bus', 'lamp switch', 'cabin lamp' are joined to each other, but to nothing that gives current.",
    )


def test_a_collector_box_draws_through_its_flaps(tmp_path: Path) -> None:
    """What falls from it falls from inside it; it is no pump without an inlet."""
    parts = PETROL + "box: {kind: collector box, ways: [port, starboard]}\n"
    found = loose(tmp_path, parts, "tank > box.port\ntank > box.starboard\nbox > hand pump > carburettor")
    assert [told for told in found if told[0] != "M113"] == []


def test_a_pump_with_no_inlet(tmp_path: Path) -> None:
    assert loose(tmp_path / "with", PETROL, "tank > hand pump > carburettor") == []
    found = loose(tmp_path / "without", PETROL, "hand pump > carburettor")
    assert ("M112", "'hand pump' has no petrol to draw: its inlet leads to no tank.") in found


def test_a_control_on_which_nothing_depends(tmp_path: Path) -> None:
    parts = ELECTRICS.replace("current: 1 A}", "current: 1 A, fed by: bus.any}") + "lever: {kind: throttle}\n"
    found = loose(tmp_path, parts, "battery > master switch > bus > lamp switch")
    assert [message.split("'")[1] for code, message in found if code == "M113"] == ["lamp switch", "lever"]


def test_a_control_that_a_rule_speaks_of_is_not_idle(tmp_path: Path) -> None:
    parts = ELECTRICS.replace("current: 1 A}", "current: 1 A, fed by: lamp switch.outlet}")
    parts += "guard: {kind: throttle}\n"
    parts = parts.replace(
        "lamp switch: {kind: switch}", "lamp switch: {kind: switch, rules: [{to: on, only when: guard is open}]}"
    )
    assert loose(tmp_path, parts, FED) == []


def test_the_marks_on_which_it_is_so_are_named(tmp_path: Path) -> None:
    parts = PETROL.replace("{kind: hand fuel pump}", "{kind: hand fuel pump}")
    lines = "{run: tank > hand pump, on: Mk 1}\nhand pump > carburettor"
    found = loose(tmp_path, parts, lines, **{"type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n"})
    assert ("M112", "'hand pump' has no petrol to draw: its inlet leads to no tank (on Mk 2).") in found


def test_a_lamp_that_nothing_feeds_is_named(tmp_path: Path) -> None:
    parts = ELECTRICS.replace("current: 1 A}", "current: 1 A, fed by: lamp switch.outlet}")
    found = loose(tmp_path, parts + "spare lamp: {kind: filament lamp}\n", FED)
    assert found == [("M111", "'spare lamp' is joined to nothing that gives current.")]
