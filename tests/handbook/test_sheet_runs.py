"""The moments of a sheet: which there are, and each mistake at its place with what to write instead."""

from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.handbook.records import SheetRun
from cutaway.handbook.sheet_runs import MOST
from cutaway.problems.diagnostic import Problems
from tests.handbook.folders import sample_with

HEAD = "sheet: Petrol\nsystem: Fuel\n"
DONE = f"{HEAD}in: parked\ndo: fuel cock to on\n"


def read(folder: Path, text: str) -> tuple[list[SheetRun | None], Problems]:
    loaded, problems = load(sample_with(folder, {"sheets/petrol.yaml": text}))
    assert loaded is not None
    return [sheet.run for sheet in loaded.folder.sheets], problems


def moments(run: SheetRun | None) -> list[tuple[str, float]]:
    assert run is not None
    return [(one.sort, one.number) for one in run.moments]


def test_a_run_as_it_is_written(tmp_path: Path) -> None:
    (run,), problems = read(tmp_path, f"{DONE}with: [fuel cock blocked]\nat: [Before, 0 s, 1.5 min, settled]\n")
    assert problems == () and run is not None
    assert (run.situation, run.drill, run.do and run.do.words) == ("parked", "", "fuel cock to on")
    assert [span.words for span in run.failed] == ["fuel cock blocked"]
    assert moments(run) == [("before", 0.0), ("time", 0.0), ("time", 90.0), ("settled", 0.0)]


def test_without_moments_there_are_the_usual(tmp_path: Path) -> None:
    (run,), _ = read(tmp_path / "done", DONE)
    assert moments(run) == [("before", 0.0), ("time", 0.0), ("settled", 0.0)]
    (run,), _ = read(tmp_path / "drill", f"{HEAD}drill: STARTING\n")
    assert run is not None and (run.situation, run.drill) == ("parked", "starting")
    assert moments(run) == []  # the language knows in which steps something is done


def test_a_sheet_without_a_run_has_none(tmp_path: Path) -> None:
    assert read(tmp_path, f"{HEAD}in: [parked, running]\n") == ([None], ())


@pytest.mark.parametrize(
    ("text", "code", "marked", "hint"),
    [
        (f"{DONE}at: [before, later]\n", "H960", "later", "Write before, a time such as 5 s, settled"),
        (f"{DONE}at: 3 days\n", "Q104", "days", ""),
        (f"{DONE}at: 90 h\n", "H960", "90 h", "up to 48 hours"),
        (f"{DONE}at: 1 s to 2 s\n", "H960", "1 s to 2 s", "Write one time"),
        (f"{HEAD}drill: starting\nat: step {'9' * 5000}\n", "H960", "999", "Write before"),
        (f"{DONE}at: -5 s\n", "H960", "-5 s", "Write before, a time such as 5 s"),
        (f"{DONE}at: [[1 s]]\n", "H108", "1 s", "Write the words after the colon"),
        (f"{DONE}at: 5 lb/sq in\n", "Q105", "lb/sq in", ""),
        (f"{DONE}at: step 1\n", "H960", "step 1", "Write drill: and its name."),
        (f"{HEAD}drill: starting\nat: [step 2, step 7]\n", "H960", "step 7", "Write a step from 1 to 2."),
        (f"{DONE}at: [{', '.join(['1 s'] * (MOST + 1))}]\n", "H960", "1 s", "Leave some out."),
        (f"{HEAD}do: fuel cock to on\n", "H961", "do", "Write in: and its name."),
        (f"{HEAD}in: [parked, running]\nat: 1 s\n", "H961", "in", "Write in: and its name."),
        (f"{HEAD}in: parked\ndrill: starting\n", "H961", "in", "Leave out either the drill"),
        (f"{HEAD}drill: stating\n", "H962", "stating", "Did you mean starting?"),
    ],
)
def test_mistakes_leave_the_sheet_out(text: str, code: str, marked: str, hint: str, tmp_path: Path) -> None:
    runs, problems = read(tmp_path, text)
    assert [p.code for p in problems] == [code] and runs == []
    span = problems[0].span
    assert span is not None and marked in span.file.text[span.start : span.end] and hint in problems[0].hint


@pytest.mark.parametrize(
    ("text", "code", "marked"),
    [
        (DONE.replace("fuel cock", "fuel cok"), "L201", "fuel cok"),
        (f"{DONE}with: fuel cock broken\n", "L206", "broken"),
        (DONE.replace("to on", "to half"), "L205", "half"),
    ],
)
def test_words_of_the_run_are_read_as_those_of_a_claim(text: str, code: str, marked: str, tmp_path: Path) -> None:
    _, problems = read(tmp_path, text)
    assert [p.code for p in problems] == [code]
    span = problems[0].span
    assert span is not None and marked in span.file.text[span.start : span.end]


def test_a_situation_or_drill_that_was_lost_is_told_once(tmp_path: Path) -> None:
    runs, problems = read(tmp_path, f"{DONE.replace('parked', 'parkd')}")
    assert [p.code for p in problems] == ["H943"] and runs == []
    drill = "---\ntitle: Starting\nfrom: nowhere\n---\n\n1. Petrol on: `fuel cock to on`.\n"
    folder = sample_with(tmp_path / "lost", {"drills/starting.md": drill, "sheets/1.yaml": f"{HEAD}drill: starting\n"})
    _, problems = load(folder)
    assert [p.code for p in problems] == ["H402"]
