"""Verdicts are kept by claim: an edited sentence asks for none anew, a changed figure for those of the claims again."""

import shutil
from pathlib import Path
from typing import Any

import pytest

from cutaway.api import checking
from cutaway.api.keeping import keeping
from cutaway.api.loading import load
from cutaway.inquiry import together
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.verdicts import NOT_YET, Holds, RestsOn, Undecided, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import Claim
from cutaway.narrate import checking as narrating
from cutaway.narrate.checked import Asking, Checked
from cutaway.publish.shelf import Shelf
from tests.whinchat import WHINCHAT

SCRIPT = "scripts/01-fuel.md"


def verdicts(checked: Checked) -> list[str]:
    return [repr(one) for claim in checked.claims() for one in claim.judged]


def edited(folder: Path, file: str, find: str, put: str) -> None:
    text = (folder / file).read_text(encoding="utf-8")
    assert find in text, f"{file} has no '{find}'"
    (folder / file).write_text(text.replace(find, put, 1), encoding="utf-8")


def test_only_what_changed_is_judged_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns("pack", "handout"))
    monkeypatch.setattr(checking, "memory_file", lambda: tmp_path / "verdicts.sqlite")
    judged: list[Claim] = []

    def counted(claim: Claim, *arguments: Any, **named: Any) -> Verdict:
        judged.append(claim)
        return verdict_for(claim, *arguments, **named)

    monkeypatch.setattr(narrating, "verdict_for", counted)

    def check() -> tuple[list[str], int]:
        judged.clear()
        checked, problems = checking.check(folder, rests=False)
        assert checked is not None, problems
        return verdicts(checked), len(judged)

    first, asked = check()
    assert asked == len(first) > 100
    edited(folder, SCRIPT, "eleven gallons", "11 gallons")
    assert check() == (first, 0)
    edited(folder, "systems/fuel.yaml", "capacity: 11 gal", "capacity: 12 gal")
    after, asked = check()
    assert asked == len(after) and after != first
    monkeypatch.setattr(checking, "memory_file", lambda: None)
    monkeypatch.setattr(narrating, "run_together", lambda *_: None)
    assert check()[0] == after  # what is kept, and what is run side by side, is what comes of each claim by itself


def test_what_is_run_together_is_what_the_verdicts_want(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(checking, "memory_file", lambda: None)
    before: list[int] = []

    def counted(put: Any, workshop: Workshop, *arguments: Any) -> None:
        together.run_together(put, workshop, *arguments)
        before.append(workshop.runs_made)

    monkeypatch.setattr(narrating, "run_together", counted)
    checked, _ = checking.check(WHINCHAT, rests=False)
    assert checked is not None
    assert 0.8 * checked.runs < before[-1] <= checked.runs


def test_a_verdict_is_kept_once_all_its_assumed_values_were_tried(tmp_path: Path) -> None:
    loaded, _ = load(WHINCHAT)
    assert loaded is not None
    keep = keeping(loaded, Asking(), Shelf(tmp_path))
    stated, waiting = Holds(0.0, (), ()), Holds(0.0, (), (), assumed=NOT_YET)
    for name, verdict, kept in (
        ("tried", RestsOn(stated, ()), True),
        ("some tried", RestsOn(waiting, ()), False),
        ("none tried", waiting, False),
        ("stopped", Undecided("it was stopped"), False),
    ):
        found = [keep("verdict", name, lambda one=one: one) for one in (verdict, stated)]  # type: ignore[misc]
        assert found == [verdict, verdict if kept else stated]
