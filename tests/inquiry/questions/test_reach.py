"""The shortest way to a thing: found unaided, repeated by a claim, and why the direct way does not do."""

from pathlib import Path

import pytest

from cutaway.api.asking import Asked, Opened, opened
from cutaway.api.reach import ReachTold, reach, reach_record, reach_text
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.questions.reach import AlreadyThere, NothingToMove, Reached
from cutaway.inquiry.verdicts import Fails, Holds
from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed_actions
from cutaway.problems.span import TextFile, whole
from tests.inquiry.folders import folder_at, system
from tests.inquiry.questions.asking import whinchat

TRADE = Path(__file__).parents[2] / "trade" / "01-flaps-and-accumulator"


@pytest.fixture(scope="module")
def flaps() -> Opened:
    here, problems = opened(TRADE)
    assert here is not None and not problems
    return here


def told(here: Opened | Path, statement: str, situation: str, **more: object) -> ReachTold:
    answer, problems = reach(here, Asked(statement, situation), **more)  # type: ignore[arg-type]
    assert answer is not None, problems
    return answer


def verdict(told: ReachTold, claim: str) -> object:
    loaded = told.opened.loaded
    parsed, problems = parse_claim(whole(TextFile("claim", claim)), loaded.words)
    assert parsed is not None, problems
    return verdict_for(parsed, told.subject, told.opened.workshop, loaded.told, False, None)


def test_the_selector_reversal_is_found_unaided(flaps: Opened) -> None:
    found = told(flaps, "flaps are down", "part down")
    answer = found.answer
    assert isinstance(answer, Reached) and answer.tries.ended == "found" and answer.tries.done == 2
    assert [printed_actions(way.actions) for way in answer.ways] == ["flap selector to up then flap selector to down"]
    # A claim that repeats it holds, and the direct way does not.
    actions = printed_actions(answer.ways[0].actions)
    assert isinstance(verdict(found, f"in part down, after {actions}, within 20 s: flaps are down"), Holds)
    assert isinstance(verdict(found, "in part down, within 10 min: flaps are down"), Fails)


def test_why_the_direct_way_does_not_do(flaps: Opened) -> None:
    answer = told(flaps, "flaps are down", "part down").answer
    assert isinstance(answer, Reached) and answer.detour is not None
    assert answer.detour.to == (), "the selector stands at down already"
    (cut_out,) = answer.detour.stays
    assert (cut_out.part, cut_out.state, cut_out.instead) == ("cut-out", "idling", "charging")
    assert dict(cut_out.figures) == {"cut-out": "1000 lb/sq in", "cut-in": "800 lb/sq in"}
    (dial,) = answer.detour.dials
    psi = 6894.757
    assert dial.direct.value is not None and dial.turning.value is not None and dial.passing is not None
    assert dial.passing.value is not None
    # The pressure lies between that at which the pump cuts in and that which the flaps need.
    assert dial.turning.value == pytest.approx(800 * psi, rel=0.01)
    assert 800 * psi < dial.direct.value < dial.passing.value < 1000 * psi
    text = reach_text(told(flaps, "flaps are down", "part down"))
    assert "because the cut-out stays idling and the pressure gauge reads 829 lb/sq in" in text
    assert "too much for the cut-out to be charging, and too little to move the flaps on" in text


def test_a_statement_already_true_says_so_at_once(flaps: Opened) -> None:
    found = told(flaps, "cut-out is idling", "part down")
    assert isinstance(found.answer, AlreadyThere)
    assert "Nothing need be done" in reach_text(found)


def test_a_bound_is_told(flaps: Opened) -> None:
    found = told(flaps, "flaps are down", "part down", size=1)
    assert isinstance(found.answer, Reached) and found.answer.ways == () and found.answer.tries.ended == "length"
    assert "No single movement brings it about that the flaps are down" in reach_text(found)
    stopped = told(flaps, "flaps are down", "part down", stop=lambda: True)
    assert "The search ended early (you stopped it)" in reach_text(stopped)
    early = told(flaps, "flaps are down", "part down", seconds=0.0)
    assert "(the time limit)" in reach_text(early)


def test_what_is_found_is_told_at_once(flaps: Opened) -> None:
    heard: list[str] = []
    told(flaps, "flaps are down", "part down", as_found=lambda one: heard.append(printed_actions(one)))
    assert heard == ["flap selector to up then flap selector to down"]


def test_nothing_to_move_and_what_a_rule_holds_back(tmp_path: Path) -> None:
    parts = """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
guard: {kind: switch}
lamp switch: {kind: switch, rules: [{to: "on", only when: lamp is working}]}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
other battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
joint: {kind: junction}
other: {kind: electrical load, current: 2 A, fed by: joint.any}
"""
    folder_at(tmp_path, {"systems/lamp.yaml": system(parts, "battery > guard > lamp switch\nother battery > joint")})
    found = told(tmp_path, "lamp is working", "")
    assert isinstance(found.answer, Reached) and found.answer.ways == ()
    held = "Not tried, since a rule holds it back: the lamp switch goes to on only when the lamp is working."
    assert held in reach_text(found)
    idle = told(tmp_path, "other is not working", "")
    assert isinstance(idle.answer, NothingToMove)
    assert "No control that can be moved has anything to do with whether the other is not working" in reach_text(idle)


def test_a_movement_that_would_do_and_is_held_back_is_told_beside_the_ways(tmp_path: Path) -> None:
    parts = """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
bolt: {kind: switch}
easy: {kind: switch}
lever: {kind: switch, rules: [{to: "on", only when: bolt is on}]}
joint: {kind: junction}
lamp: {kind: electrical load, current: 2 A, fed by: joint.any}
"""
    lines = "battery > easy > joint\nbattery > lever > joint"
    folder_at(tmp_path, {"systems/lamp.yaml": system(parts, lines)})
    found = told(tmp_path, "lamp is working", "")
    assert isinstance(found.answer, Reached) and [one.moves[0].part for one in found.answer.ways] == ["easy"]
    (held,) = found.answer.refused
    assert held.hand.part == "lever" and held.does and held.asks == ("bolt is on",)
    assert "The lever put to on would do it by itself, but it goes there only when the bolt is on." in reach_text(found)


def test_waits_are_told_where_they_are_needed(tmp_path: Path) -> None:
    """A pump fills a tank in a minute or so; a hand that springs back has to be held."""
    from tests.inquiry.folders import PUMPED, SITUATIONS

    folder_at(tmp_path, {"systems/fuel.yaml": PUMPED, "situations.yaml": SITUATIONS})
    found = told(tmp_path, "upper tank is below 0.9 gal and pump is idle", "standing")
    answer = found.answer
    assert isinstance(answer, Reached) and answer.ways
    for way in answer.ways:
        claim = f"in standing, after {printed_actions(way.actions)}: upper tank is below 0.9 gal and pump is idle"
        assert isinstance(verdict(found, claim), Holds), claim


def test_ways_that_differ_in_their_order_alone_are_told_once(tmp_path: Path) -> None:
    parts = """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
master: {kind: switch}
lamp switch: {kind: switch}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
"""
    folder_at(tmp_path, {"systems/lamp.yaml": system(parts, "battery > master > lamp switch")})
    answer = told(tmp_path, "lamp is working", "").answer
    assert isinstance(answer, Reached)
    assert [(printed_actions(way.actions), way.orders) for way in answer.ways] == [
        ("master to on then lamp switch to on", 2)
    ]


def test_ways_that_differ_only_in_a_choice_of_position_are_told_together(tmp_path: Path) -> None:
    parts = """
left tank: {kind: tank, capacity: 20 gal}
right tank: {kind: tank, capacity: 20 gal}
selector: {kind: selector cock, ways: [left tank, right tank]}
cock: {kind: cock}
"""
    lines = "left tank > selector.left tank\nright tank > selector.right tank\nselector > cock"
    folder_at(tmp_path, {"systems/fuel.yaml": system(parts, lines)})
    found = told(tmp_path, "cock is on and selector is not off", "")
    assert isinstance(found.answer, Reached)
    (way,) = found.answer.ways
    assert way.ways == 2 == way.orders and set(way.choices) == {("on",), ("left tank", "right tank")}
    text = reach_text(found)
    assert "Two movements do it, in 2 ways:" in text and "is put to left tank or right tank" in text
    for place in way.choices[[hand.part for hand in way.moves].index("selector")]:
        claim = f"after cock to on then selector to {place}: cock is on and selector is not off"
        assert isinstance(verdict(found, claim), Holds)


def test_what_is_pressed_is_pressed_after_what_stays_is_set() -> None:
    answer = told(whinchat(), "engine is running", "parked").answer
    assert isinstance(answer, Reached)
    assert all(way.moves[-1].control == "starter" for way in answer.ways)
    assert {place for way in answer.ways for places in way.choices for place in places} >= {"left", "right", "both"}


def test_the_record_says_the_same(flaps: Opened) -> None:
    record = reach_record(told(flaps, "flaps are down", "part down"))
    assert record["answer"] == "found" and record["question"] == "reach"
    assert [way["actions"] for way in record["ways"]] == [  # type: ignore[attr-defined]
        "flap selector to up then flap selector to down"
    ]
    assert record["bound"]["length done"] == 2  # type: ignore[index]
