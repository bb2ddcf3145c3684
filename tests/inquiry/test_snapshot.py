"""What a subject shows in a situation; and I101, where the model cannot be brought there."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.inquiry import workshop as workshop_module
from cutaway.inquiry.snapshot import snapshot
from cutaway.inquiry.verdicts import Undecided
from cutaway.machine.records import Job, Outcome, Run
from cutaway.machine.run import run_jobs
from tests.inquiry.folders import PUMPED, SITUATIONS, Folder, folder_at


@pytest.fixture
def pumped(tmp_path: Path) -> Folder:
    return folder_at(tmp_path, {"systems/fuel.yaml": PUMPED, "situations.yaml": SITUATIONS})


def giving_up(jobs: list[Job], threads: int | None = None) -> tuple[Run, ...]:
    """Runs that have all given up. No honest input is known that makes the solver do so, so it is made to."""
    outcome = Outcome("gave up", 3.0, ("pump", "valve"), "no balance was found for pump and valve at 3 s")
    return tuple(replace(run, outcome=outcome) for run in run_jobs(jobs, threads))


def test_a_snapshot_has_every_signal_at_the_end(pumped: Folder) -> None:
    shot, problems = snapshot(pumped.workshop, pumped.loaded.told, pumped.subject(), "standing")
    assert problems == () and shot is not None
    assert shot.values["set cock"] == 1.0
    assert shot.values["upper tank: contents"] == pytest.approx(0.00454609, rel=1e-3)
    assert shot.values.keys() == {name for name, _ in pumped.workshop.bound(pumped.subject())[0].network.signals}


def test_a_situation_that_cannot_be_reached_names_the_parts(pumped: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workshop_module, "run_jobs", giving_up)
    shot, (problem,) = snapshot(pumped.workshop, pumped.loaded.told, pumped.subject(), "standing")
    assert shot is None and problem.code == "I101"
    assert "Mk 1" in problem.message and "'standing'" in problem.message and "no balance" in problem.message
    assert "pump, valve" in problem.hint
    assert problem.span is not None and problem.span.file.path == "situations.yaml"
    places = {span.file.text[span.start : span.end]: words for span, words in problem.also}
    assert places.items() <= {("pump", "pump stands here:"), ("valve", "valve stands here:")} and places


def test_a_claim_there_is_undecided(pumped: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workshop_module, "run_jobs", giving_up)
    verdict = pumped.verdict("in standing: cock is on")
    assert verdict == Undecided("no balance was found for pump and valve at 3 s")
