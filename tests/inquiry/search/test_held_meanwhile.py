"""A control that springs back is held while another is moved: what needs two hands is found."""

from pathlib import Path

import pytest

from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.reach import Reached, reach
from cutaway.inquiry.questions.ways import looked_of
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.movements import Hands
from cutaway.language.print_back import printed_actions
from cutaway.wording.reach import reach_lines
from tests.inquiry.folders import folder_at, system
from tests.inquiry.search.test_brute_force import base_for

BOLTED = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
bolt: {kind: safety bolt}
lamp switch: {kind: switch, rules: [{to: "on", only when: bolt is held aside}]}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
""",
    "battery > lamp switch",
)
BUTTONS = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
left button: {kind: push-button}
right button: {kind: push-button}
lamp: {kind: electrical load, current: 2 A, fed by: right button.outlet}
""",
    "battery > left button > right button",
)
# What there is of both: the button lets current to the switch, which stays.
ONE_OF_EACH = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
button: {kind: push-button}
lamp switch: {kind: switch}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
""",
    "battery > button > lamp switch",
)


def ways(path: Path, parts: str, claim: str, size: int = 2) -> tuple[set[str], Reached, list[str]]:
    """The ways found, as a claim would have them, each held against what the claim comes to."""
    folder = folder_at(path, {"systems/lamp.yaml": parts})
    base = base_for(folder, claim)
    answer = reach(base, Bound(size))
    assert isinstance(answer, Reached)
    for looked in looked_of(base, Hands(base).base.made, [way.actions for way in answer.ways]):
        assert isinstance(looked, Looked) and looked.decision.holds
    lines = list(reach_lines(answer, "the lamp is working", folder.loaded.folder))
    return {printed_actions(way.actions) for way in answer.ways}, answer, lines


def test_a_bolt_is_held_aside_while_what_it_bars_is_moved(tmp_path: Path) -> None:
    found, answer, lines = ways(tmp_path, BOLTED, "lamp is working")
    assert found == {"bolt to held aside while (lamp switch to on)"}
    assert [one.hand.input for one in answer.refused] == ["lamp switch"] and answer.refused[0].does
    assert any(
        "The bolt is put to held aside and held there while the lamp switch is put to on." in one for one in lines
    )
    assert any("a control that springs back is also held while another is moved" in one for one in lines)


def test_two_buttons_want_two_hands(tmp_path: Path) -> None:
    found, answer, _ = ways(tmp_path, BUTTONS, "at 0.5 s: lamp is working")
    # In either order: told once.
    assert len(found) == 1 and answer.ways[0].orders == 2
    sides = (("left", "right"), ("right", "left"))
    assert found < {f"{a} button to pressed while ({b} button to pressed for 1 s)" for a, b in sides}


@pytest.mark.parametrize(("moment", "expected"), [("at 0.5 s: ", 1), ("", 0)])
def test_nothing_is_held_any_longer_once_the_other_is_moved(tmp_path: Path, moment: str, expected: int) -> None:
    found, answer, _ = ways(tmp_path, ONE_OF_EACH, f"{moment}lamp is working")
    assert len(found) == expected and answer.tries.holds == 1
    if expected:  # the switch first and then the button is plainer than both at once, and stands for it
        assert found == {"lamp switch to on then button to pressed for 1 s"}


def test_one_movement_holds_nothing(tmp_path: Path) -> None:
    found, answer, _ = ways(tmp_path, BOLTED, "lamp is working", size=1)
    assert not found and answer.tries.ended == "length"
