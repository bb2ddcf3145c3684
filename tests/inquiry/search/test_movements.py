"""The shortest sequences of movements against every sequence there is, on random systems.

The reference here makes a claim of every sequence of movements with every choice of waits, and has it judged like any
claim. CUTAWAY_SEARCHES says how many systems (24 unless set).
"""

import os
import re
from itertools import product
from pathlib import Path

import pytest

from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.ways import looked_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.movements import Hand, Hands, actions_of
from cutaway.inquiry.search.sequences import Going, shortest
from cutaway.inquiry.search.sequences import Path as Sequence
from cutaway.inquiry.search.trying import holds
from cutaway.machine.names import control_name
from cutaway.machine.reaching import Reaching
from cutaway.machine.records import Outcome
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import held_for_good
from tests.inquiry.folders import folder_at, system
from tests.inquiry.search.random_folders import random_folder
from tests.inquiry.search.test_brute_force import base_for

HOW_MANY = int(os.environ.get("CUTAWAY_SEARCHES", "24"))
LONGEST = 2
WAITS = (0.0, 120.0)

Steps = tuple[tuple[str, str, float], ...]


def all_off(number: int) -> tuple[dict[str, str], str]:
    """A random system with everything off, so that more than one movement is needed as a rule."""
    files, claim = random_folder(number)
    off = re.sub(r"(part \d+): \w+", r"\1: OFF", files["situations.yaml"])
    for i, kind in re.findall(r"part (\d+): \{kind: ([\w -]+)", files["systems/small.yaml"]):
        off = off.replace(f"part {i}: OFF", f"part {i}: {'idle' if 'pump' in kind else 'off'}")
    return {**files, "situations.yaml": off}, claim


def searched(base: Base) -> tuple[set[Steps], Going[Hand], Hands]:
    hands = Hands(base)
    start = hands.start()
    assert not isinstance(start, Outcome)
    going: Going[Hand] = Going()
    found = list(shortest(start, hands, Bound(LONGEST), going))
    return {tuple((h.input, h.words, wait) for h, wait in path) for path in found}, going, hands


def exhausted(base: Base, hands: Hands) -> set[Steps]:
    """The same by claims: every position of every control that the folder has, whether or not it can matter."""
    bound = base.question.bound
    every = [
        Hand(str(slot.part), slot.control, slot.input, float(i), None, words)
        for slot in bound.controls.values()
        for i, words in enumerate(slot.positions)
    ]
    for length in range(1, LONGEST + 1):
        paths: list[Sequence[Hand]] = []
        for moves in product(every, repeat=length):
            stands = dict(base.stands)
            if all(_moves(hand, stands) for hand in moves):
                for waits in product(WAITS, repeat=length - 1):
                    paths.append(tuple(zip(moves, (0.0, *waits), strict=True)))
        looked = looked_of(base, hands.base.made, [actions_of(hands, path) for path in paths])
        done = [p for p, one in zip(paths, looked, strict=True) if isinstance(one, Looked) and one.decision.holds]
        if done:
            return {tuple((h.input, h.words, wait) for h, wait in path) for path in done}
    return set()


def _moves(hand: Hand, stands: dict[str, float]) -> bool:
    """Whether a control is not there already; it is then."""
    before = stands.get(hand.input, 0.0)
    stands[hand.input] = hand.value
    return before != hand.value


def test_the_same_sequences_as_by_exhaustion(tmp_path: Path) -> None:
    lengths: dict[int, int] = {}
    passed_over = 0
    for number in range(HOW_MANY):
        files, claim = (all_off if number % 3 else random_folder)(number)
        base = base_for(folder_at(tmp_path / str(number), files), claim)
        looked = holds(base).looked
        assert isinstance(looked, Looked)
        if looked.decision.holds:
            continue
        found, going, hands = searched(base)
        assert found == exhausted(base, hands), (number, files, claim)
        passed_over += going.passed_over
        if found:
            length = len(next(iter(found)))
            lengths[length] = lengths.get(length, 0) + 1
    print(f"shortest lengths {lengths}, {passed_over} sequences passed over")
    assert lengths.get(1, 0) > 0 and lengths.get(2, 0) > 0


def test_what_can_reach_is_never_less_than_by_holding_the_rest(tmp_path: Path) -> None:
    """Against the slower working out of the whole network, one set of loose inputs after another."""
    fewer = 0
    for number in range(HOW_MANY):
        files, claim = random_folder(number)
        base = base_for(folder_at(tmp_path / str(number), files), claim)
        network, signals = base.made.network, base.made.signals
        values = {slot.name: base.stands.get(slot.name, slot.value) for slot in network.inputs}
        reaching = Reaching(network, values, signals)
        for loose in product(*[[slot.name for slot in network.inputs]] * 2):
            held = {name: value for name, value in values.items() if name not in loose}
            exact = {slot.name for slot in cone(held_for_good(network, held), signals).inputs}
            assert exact <= reaching.inputs(loose), (number, loose)
            fewer += reaching.inputs(loose) < {slot.name for slot in network.inputs}
    assert fewer > 0


RULED = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
master: {kind: switch}
lamp switch: {kind: switch, rules: [{to: "on", only when: master is on}]}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
""",
    "battery > master > lamp switch",
)


LAMPS = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
master: {kind: switch}
lamp switch: {kind: switch}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
""",
    "battery > master > lamp switch",
)


def test_what_is_done_on_a_dead_wire_cannot_matter(tmp_path: Path) -> None:
    base = base_for(folder_at(tmp_path, {"systems/lamp.yaml": LAMPS}), "lamp is working")
    found, going, hands = searched(base)
    start = hands.start()
    assert not isinstance(start, Outcome)
    by_input = {hand.input: hand for hand in hands.moves(start[0])}
    master, lamp = by_input["master"], by_input["lamp switch"]
    # Neither alone: one leaves the lamp's wire dead, the other brings current no further than to the open switch.
    assert not hands.can_matter((), master) and not hands.can_matter((), lamp)
    assert hands.can_matter(((master, 0.0),), lamp) and hands.can_begin((), lamp, 1)
    assert {tuple(name for name, _, _ in steps) for steps in found} == {
        ("master", "lamp switch"), ("lamp switch", "master")
    }  # fmt: skip
    assert going.tried == 2, "no more than the two that do it"


def test_rules_are_obeyed_on_the_way(tmp_path: Path) -> None:
    base = base_for(folder_at(tmp_path, {"systems/lamp.yaml": RULED}), "lamp is working")
    found, _, hands = searched(base)
    # The lamp switch cannot be put on first.
    assert found == {
        ((control_name("master", ""), "on", 0.0), (control_name("lamp switch", ""), "on", wait)) for wait in WAITS
    }
    assert [hand.input for hand in hands.refused] == ["lamp switch"]


@pytest.mark.parametrize("wait", WAITS)
def test_a_sequence_is_what_a_claim_repeats(tmp_path: Path, wait: float) -> None:
    base = base_for(folder_at(tmp_path, {"systems/lamp.yaml": RULED}), "lamp is working")
    found, _, hands = searched(base)
    paths = [tuple((h, w) for h, w in path) for path in _paths(hands) if path[1][1] == wait]
    (looked,) = looked_of(base, hands.base.made, [actions_of(hands, paths[0])])
    assert isinstance(looked, Looked) and looked.decision.holds and len(found) == 2


def _paths(hands: Hands) -> list[Sequence[Hand]]:
    start = hands.start()
    assert not isinstance(start, Outcome)
    return list(shortest(start, hands, Bound(LONGEST), Going()))
