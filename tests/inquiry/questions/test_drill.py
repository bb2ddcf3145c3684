"""A drill with steps left out and exchanged, against runs made by hand here."""

from pathlib import Path

import pytest

from cutaway.api.drill import DrillsTold, drill, drills_record, drills_text
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.questions.drill import DrillTold, StepTold
from cutaway.inquiry.verdicts import Fails, Holds
from cutaway.language.parse import parse_claim
from cutaway.problems.span import TextFile, whole
from tests.inquiry.folders import folder_at, system

PARTS = """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
master: {kind: switch}
lamp switch: {kind: switch}
lamp: {kind: electrical load, current: 2 A, fed by: lamp switch.outlet}
spare switch: {kind: switch}
guard: {kind: switch, rules: [{to: "on", only when: lamp is working}]}
bell: {kind: electrical load, current: 2 A, fed by: guard.outlet}
"""
LINES = "battery > master > lamp switch\nmaster.outlet > guard"
DRILL = """---
title: Lighting up
from: dark
---

1. Nothing is alight: `lamp is not working`.
2. The spare: `spare switch to on`.
3. Current: `master to on`.
4. Light: `lamp switch to on`. It lights: `lamp is working`.
5. Bell: `guard to on`. It rings: `bell is working`.
6. Wait and look: `wait 10 s`. `lamp is working`.
"""
# What is done in each step, for the runs by hand.
STEPS = {2: "spare switch to on", 3: "master to on", 4: "lamp switch to on", 5: "guard to on", 6: "wait 10 s"}
SIGHTS = {1: "lamp is not working", 4: "lamp is working", 5: "bell is working", 6: "lamp is working"}


@pytest.fixture(scope="module")
def lighting(tmp_path_factory: pytest.TempPathFactory) -> DrillsTold:
    path = tmp_path_factory.mktemp("lighting")
    files = {
        "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
        "systems/lamp.yaml": system(PARTS, LINES),
        "situations.yaml": "situations:\n  dark:\n    settle: 10 s\n",
        "drills/lighting-up.md": DRILL,
    }
    folder_at(path, files)
    told, problems = drill(path, "lighting")
    assert told is not None, problems
    return told


def steps_of(told: DrillsTold) -> tuple[StepTold, ...]:
    answer = told.answers[0].answer
    assert isinstance(answer, DrillTold)
    return answer.steps


def lost_by_hand(told: DrillsTold, order: list[int], without: int = 0) -> set[int]:
    """The steps whose sights are not seen, each by a claim over all that was done before it, as `check` does."""
    loaded, subject = told.opened.loaded, told.answers[0].subject
    done: list[str] = []
    lost: set[int] = set()
    for number in order:
        if number in STEPS and number != without:
            done += ["wait 5 s"] if done else []
            done.append(STEPS[number])
        if number in SIGHTS:
            after = f", after {' then '.join(done)}" if done else ""
            text = f"in dark{after}, within 60 s: {SIGHTS[number]}"
            claim, problems = parse_claim(whole(TextFile("claim", text)), loaded.words)
            assert claim is not None, problems
            verdict = verdict_for(claim, subject, told.opened.workshop, loaded.told, False, None)
            if not isinstance(verdict, Holds):
                lost.add(number)
    return lost


def test_every_standard_is_gone_through(lighting: DrillsTold) -> None:
    assert [one.subject.name for one in lighting.answers] == ["Mk 1", "Mk 2"]


def test_sights_as_by_hand(lighting: DrillsTold) -> None:
    assert lost_by_hand(lighting, [1, 2, 3, 4, 5, 6]) == set()
    assert {step.number: [s.seen for s in step.sights] for step in steps_of(lighting)} == {
        1: [True], 2: [], 3: [], 4: [True], 5: [True], 6: [True],
    }  # fmt: skip


@pytest.mark.parametrize("number", [2, 3, 4, 5, 6])
def test_a_step_left_out_loses_what_it_does_by_hand(lighting: DrillsTold, number: int) -> None:
    step = steps_of(lighting)[number - 1]
    assert step.without is not None
    lost = {sight.number for sight in step.without.lost}
    assert lost == lost_by_hand(lighting, [1, 2, 3, 4, 5, 6], without=number)
    assert lost == {2: set(), 3: {4, 5, 6}, 4: {4, 5, 6}, 5: {5}, 6: set()}[number]


@pytest.mark.parametrize("order", [[1, 3, 2, 4, 5, 6], [1, 2, 4, 3, 5, 6], [1, 2, 3, 5, 4, 6], [1, 2, 3, 4, 6, 5]])
def test_neighbours_exchanged_lose_what_they_do_by_hand(lighting: DrillsTold, order: list[int]) -> None:
    first = next(a for a, b in zip([1, 2, 3, 4, 5, 6], order, strict=True) if a != b)
    step = steps_of(lighting)[first - 1]
    assert step.exchanged is not None and step.with_next == first + 1
    assert {sight.number for sight in step.exchanged.lost} == lost_by_hand(lighting, order)


def test_what_a_rule_holds_back_is_told(lighting: DrillsTold) -> None:
    exchanged = steps_of(lighting)[3].exchanged
    assert exchanged is not None
    assert [(one.what, one.state) for one in exchanged.refused] == [("guard", "held back from on")]


def test_a_step_that_does_nothing_is_said_to_be_so(lighting: DrillsTold) -> None:
    assert [step.number for step in steps_of(lighting) if step.idle] == [2]
    text = drills_text(lighting)
    assert "In this model nothing comes of step 2." in text
    assert "Nothing is moved in step 6, which only waits." in text
    assert "Without this wait nothing later in the drill is otherwise." in text
    assert "Nothing is moved in step 1, which only looks." in text and "on Mk 1 and Mk 2" in text
    assert "Something that the drill looks for is not seen without step 3, step 4 or step 5." in text


def test_the_record_says_the_same(lighting: DrillsTold) -> None:
    record = drills_record(lighting)
    first = record["drills"][0]  # type: ignore[index]
    assert [step["idle"] for step in first["steps"]] == [False, True, False, False, False, False]
    assert [step["waits"] for step in first["steps"]] == [False, False, False, False, False, True]
    lost = first["steps"][2]["without"]["lost"]
    assert [one["statement"] for one in lost] == [SIGHTS[4], SIGHTS[5], SIGHTS[6]]
    told = steps_of(lighting)[2].without
    assert told is not None and [one.statement.span.words for one in told.lost] == [SIGHTS[4], SIGHTS[5], SIGHTS[6]]


STARTING = """
battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}
magneto: {kind: magneto switch}
throttle: {kind: throttle}
tank: {kind: tank, capacity: 20 gal}
cock: {kind: cock}
pump: {kind: engine-driven fuel pump, driven by: engine}
carburettor: {kind: carburettor, full flow: 10 gal/h}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: magneto}
"""
STARTED = """---
title: Starting
from: cold
---

1. Petrol and sparks: `cock to on then magneto to both`.
2. `throttle to 30 %`.
3. `engine starter to pressed for 8 s`.
4. Open up: `throttle to 60 %`.
"""


def test_what_goes_on_turning_is_told_and_so_is_the_engine_that_its_own_starter_sets_going(tmp_path: Path) -> None:
    files = {
        "type.yaml": "name: Wren\nmarks: [Mk 1]\n",
        "systems/engine.yaml": system(STARTING, "tank > cock > pump > carburettor"),
        "situations.yaml": "situations:\n  cold:\n    settle: 10 s\n",
        "drills/starting.md": STARTED,
    }
    folder_at(tmp_path, files)
    told, problems = drill(tmp_path, "starting")
    assert told is not None, problems
    steps = steps_of(told)
    assert [(one.now.what, one.now.state) for one in steps[2].changed] == [("engine", "running")]
    # By hand: run with the throttle so far open, and at the end with or without the last step.
    slow, fast = (_speed_by_hand(told, end) for end in ("", " then wait 8 s then throttle to 60 %"))
    (faster,) = steps[3].shifted
    assert faster.now.what == "engine speed" and faster.now.value == pytest.approx(fast, rel=0.05)
    assert faster.before.value == pytest.approx(slow, rel=0.05) and fast > 1.2 * slow
    assert steps[3].without is not None and [n.now.value for n in steps[3].without.shifted] == [
        pytest.approx(slow, rel=0.05)
    ]
    assert steps[2].without is not None and [n.now.state for n in steps[2].without.end] == ["stopped"]
    text = drills_text(told)
    assert "Then the engine speed goes from" in text and "the end is the same" not in text
    assert "but the end is another without step 1, step 3 or step 4" in text


def _speed_by_hand(told: DrillsTold, end: str) -> float:
    loaded, subject = told.opened.loaded, told.answers[0].subject
    begun = "cock to on then magneto to both then throttle to 30 % then engine starter to pressed for 8 s"
    claim, problems = parse_claim(
        whole(TextFile("claim", f"in cold, after {begun}{end} then wait 30 s: engine reads 1 rpm")), loaded.words
    )
    assert claim is not None, problems
    verdict = verdict_for(claim, subject, told.opened.workshop, loaded.told, False, None)
    assert isinstance(verdict, Fails)
    (value,) = (seen.value for seen in verdict.seen if seen.value is not None)
    return value


def test_names_that_are_not_there(lighting: DrillsTold) -> None:
    told, problems = drill(lighting.opened, "lightning up")
    assert told is None and [p.code for p in problems] == ["I202"] and "Did you mean" in (problems[0].hint or "")
    told, problems = drill(lighting.opened, "lighting", "Mk 3")
    assert told is None and problems


def test_a_drill_for_other_standards(tmp_path: Path) -> None:
    files = {
        "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
        "systems/lamp.yaml": system(PARTS, LINES),
        "situations.yaml": "situations:\n  dark:\n    settle: 10 s\n",
        "drills/lighting-up.md": DRILL.replace("from: dark\n", "from: dark\non: Mk 1\n"),
    }
    folder_at(tmp_path, files)
    told, problems = drill(tmp_path, "Lighting up", "Mk 2")
    assert told is None and [p.code for p in problems] == ["I203"]
