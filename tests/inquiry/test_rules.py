"""Rules of movement: what they refuse stays where it was, what they let through takes others with it."""

from pathlib import Path

import pytest

from cutaway.inquiry.verdicts import Fails, Holds, Seen
from tests.inquiry.folders import Folder, folder_at, system

PARTS = system(
    """
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
guard: {kind: switch}
master:
  kind: switch
  rules:
    - {to: on, only when: guard is on}
    - {to: off, then: guard to off}
lamp switch:
  kind: switch
  rules:
    - {to: on, only when: bus is alive}
bus: {kind: bus}
light: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
""",
    """
battery > master > bus
bus > lamp switch
""",
)
SITUATION = "situations:\n  parked:\n    settle: 10 s\n"


@pytest.fixture(scope="module")
def wired(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("wired"), {"systems/a.yaml": PARTS, "situations.yaml": SITUATION})


def test_a_forbidden_movement_leaves_the_control_where_it_was(wired: Folder) -> None:
    refused = wired.verdict("in parked, after master to on, within 5 s: bus is alive")
    assert isinstance(refused, Fails) and refused.why == "refused"
    assert Seen("master", 0.0, None, "", "held back from on") in refused.seen
    stays = wired.verdict("in parked, after master to on, within 5 s: master is off and bus is dead")
    assert isinstance(stays, Holds)
    assert Seen("master", 0.0, None, "", "held back from on") in stays.seen


def test_a_movement_that_is_let_through_is_made(wired: Folder) -> None:
    assert isinstance(wired.verdict("in parked, after guard to on then master to on, within 5 s: bus is alive"), Holds)


def test_what_a_rule_takes_with_it_happens_at_once(wired: Folder) -> None:
    verdict = wired.verdict(
        "in parked, after guard to on then master to on then master to off, within 1 s: guard is off"
    )
    assert isinstance(verdict, Holds) and verdict.at == pytest.approx(0.0, abs=1e-6)
    # The guard has gone off with the master, so that the master is refused the next time.
    again = wired.verdict(
        "in parked, after guard to on then master to on then master to off then master to on, within 5 s: bus is alive"
    )
    assert isinstance(again, Fails) and again.why == "refused"


def test_a_rule_is_read_off_the_run_at_that_moment(wired: Folder) -> None:
    # The lamp switch waits for the bus, which is alive only once the master has been let through.
    late = "in parked, after guard to on then master to on then lamp switch to on, within 5 s: light is working"
    assert isinstance(wired.verdict(late), Holds)
    early = wired.verdict(
        "in parked, after lamp switch to on then guard to on then master to on, within 5 s: light is working"
    )
    assert isinstance(early, Fails) and early.why == "refused"


def test_letting_go_is_a_movement_too(wired: Folder) -> None:
    # Held for 5 s, then back to off, which puts the guard off.
    verdict = wired.verdict(
        "in parked, after guard to on then master to on for 5 s, at 6 s: guard is off and master is off"
    )
    assert isinstance(verdict, Holds)


def test_a_movement_to_where_it_stands_is_none(wired: Folder) -> None:
    verdict = wired.verdict("in parked, after guard to on then master to off, within 2 s: guard is on")
    assert isinstance(verdict, Holds)


def test_can_be_moved(wired: Folder) -> None:
    no = wired.verdict("in parked: master can be moved to on")
    assert isinstance(no, Fails) and no.why == "refused"
    assert isinstance(wired.verdict("in parked: master cannot be moved to on"), Holds)
    assert isinstance(wired.verdict("in parked, with guard at on: master can be moved to on"), Holds)
    moved = wired.verdict("in parked: guard cannot be moved to on")
    assert isinstance(moved, Fails) and moved.why == "moved"
    assert isinstance(wired.verdict("in parked, always: master can be moved to on if guard is on"), Holds)
    some = wired.verdict("in parked, sometimes: master can be moved to on")
    assert isinstance(some, Holds) and some.witness is not None
    assert some.witness.chosen == (("guard", "on"),)


def test_a_rule_of_one_mark_binds_that_mark_alone(tmp_path: Path) -> None:
    parts = system(
        """
guard: {kind: switch}
master:
  - {on: Mk 1, kind: switch, rules: [{to: on, only when: guard is on}]}
  - {on: Mk 2, kind: switch}
""",
        "guard > master",
    )
    marks = {"type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n"}
    wired = folder_at(tmp_path, {**marks, "systems/a.yaml": parts, "situations.yaml": SITUATION})
    claim = "in parked, after master to on, within 2 s: master is on"
    assert isinstance(wired.verdict(claim, "Mk 1"), Fails)
    assert isinstance(wired.verdict(claim, "Mk 2"), Holds)


def test_a_knob_springs_back_after_a_moment(tmp_path: Path) -> None:
    parts = system(
        """
tank: {kind: tank, capacity: 10 gal}
carburettor: {kind: carburettor}
throttle: {kind: throttle}
ignition: {kind: magneto switch}
engine: {kind: engine, throttle: throttle, ignition: ignition, fuel from: carburettor}
""",
        "tank > carburettor",
    )
    situations = """situations:
  parked:
    settle: 5 s
  winding:
    from: parked
    set: {engine starter: pressed}
    settle: 5 s
"""
    folder = folder_at(tmp_path, {"systems/a.yaml": parts, "situations.yaml": situations})
    assert isinstance(
        folder.verdict("in parked, after engine starter to pressed, at 0.5 s: engine starter is pressed"), Holds
    )
    assert isinstance(
        folder.verdict("in parked, after engine starter to pressed, at 1.5 s: engine starter is out"), Holds
    )
    held = "in parked, after engine starter to pressed for 3 s,"
    assert isinstance(folder.verdict(f"{held} at 2.5 s: engine starter is pressed"), Holds)
    assert isinstance(folder.verdict(f"{held} at 3.5 s: engine starter is out"), Holds)
    # A situation keeps it pressed; let go after an action, it springs out even so.
    assert isinstance(folder.verdict("in winding: engine starter is pressed"), Holds)
    after = "in winding, after ignition to both then engine starter to pressed for 2 s, at 3 s: engine starter is out"
    assert isinstance(folder.verdict(after), Holds)
