"""A drill run step by step: what should be seen at each step is put to all that was done before it."""

from pathlib import Path

from cutaway.api.drill import drill as told_of
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled
from cutaway.language.syntax import Move, Wait, When
from cutaway.narrate.checked import Asking, is_wrong
from cutaway.narrate.checking import check_words
from cutaway.narrate.drill_claims import BETWEEN_STEPS, DRILL_WATCH, drill_claims
from tests.inquiry.folders import PUMPED, Folder, folder_at

SITUATIONS = "situations:\n  standing:\n    start: {lower tank: 1 gal}\n    settle: 10 s\n"
DRILL = """---
title: Moving petrol
from: standing
---

1. Petrol on: `cock to on`. Nothing has gone yet: `upper tank is above 0.9 gal`.
2. Pump for half a minute: `pump to pumping for 30 s`. Some has gone: `upper tank is below 0.9 gal`.
3. Shut it: `cock to off`. {third}
4. Look again: `upper tank is above 0.5 gal`.
"""
RIGHT = "It is shut, and the tank is not empty: `cock is off`, `upper tank is not empty`."
WRONG = "It is shut, and the tank is empty: `cock is off`, `upper tank is empty`."


def drilled(path: Path, third: str) -> Folder:
    files = {"systems/fuel.yaml": PUMPED, "situations.yaml": SITUATIONS, "drills/moving.md": DRILL.format(third=third)}
    return folder_at(path, files)


def test_each_sight_comes_after_all_that_was_done(tmp_path: Path) -> None:
    folder = drilled(tmp_path, RIGHT)
    (drill,) = folder.loaded.folder.drills
    steps = drill_claims(drill, folder.loaded.parsed)
    assert [(step.number, len(claims)) for step, claims in steps] == [(1, 1), (2, 1), (3, 2), (4, 1)]
    last = steps[-1][1][0].scope
    assert last.situation == "standing" and last.when == When("within", DRILL_WATCH)
    moves = [a.control.part for a in last.actions if isinstance(a, Move)]
    waits = [a.seconds for a in last.actions if isinstance(a, Wait)]
    assert moves == ["cock", "pump", "cock"] and waits == [BETWEEN_STEPS, BETWEEN_STEPS]


def test_a_right_drill_holds_throughout(tmp_path: Path) -> None:
    folder = drilled(tmp_path, RIGHT)
    asking = Asking(rests=False)
    checked, problems = check_words(folder.workshop, folder.loaded.parsed, folder.loaded.told, Memory(None), asking)
    assert problems == ()
    assert all(isinstance(verdict, Holds) for verdict in checked.verdicts()) and len(checked.verdicts()) == 5


def test_a_wrong_sight_is_found_at_its_step(tmp_path: Path) -> None:
    folder = drilled(tmp_path, WRONG)
    asking = Asking(rests=False)
    checked, _ = check_words(folder.workshop, folder.loaded.parsed, folder.loaded.told, Memory(None), asking)
    wrong = [
        (one.step.number, claim.claim.span, judged.verdict)
        for one in checked.steps
        for claim in one.claims
        for judged in claim.judged
        if is_wrong(judged.verdict)
    ]
    ((number, span, verdict),) = wrong
    assert number == 3 and span.file.text[span.start : span.end] == "upper tank is empty"
    assert isinstance(verdict, Fails) and verdict.why == "never came"


def test_a_drill_of_one_aeroplane(tmp_path: Path) -> None:
    """It is judged for that aeroplane with what it lacks, and for no standard."""
    lamp = "  lamp: {kind: filament lamp}\nlines:"
    files = {
        "type.yaml": "name: Wren\nmarks: [Mk 1]\nairframes: {W-9: {standard: Mk 1, missing: [lamp]}}\n",
        "systems/fuel.yaml": PUMPED.replace("lines:", lamp),
        "situations.yaml": SITUATIONS,
        "drills/moving.md": "---\nfrom: standing\non: W-9\n---\n\n"
        "1. Petrol: `cock to on`. It is: `cock is on`. No light: `lamp is out`.\n",
    }
    folder = folder_at(tmp_path, files)
    asking = Asking(rests=False)
    checked, problems = check_words(folder.workshop, folder.loaded.parsed, folder.loaded.told, Memory(None), asking)
    assert problems == ()
    judged = [one for claim in checked.steps[0].claims for one in claim.judged]
    assert [(one.subject.name, type(one.verdict)) for one in judged] == [("W-9", Holds), ("W-9", NotModelled)]
    told, problems = told_of(tmp_path, "moving")
    assert told is not None and problems == ()
    assert [one.subject.name for one in told.answers] == ["W-9"]
