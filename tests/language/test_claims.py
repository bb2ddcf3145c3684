"""Whole folders: the demo type is understood to its last claim; a folder with mistakes as far as it can be."""

from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.language.claims import Done, Looked, read_claims
from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed_claim
from cutaway.language.words import words_of
from cutaway.parts.library import KINDS
from cutaway.problems.codes_language import ENTRIES
from cutaway.problems.span import TextFile, whole

ROOT = Path(__file__).parents[2]


def loaded(folder: Path):
    found, problems = load_folder(folder, KINDS)
    assert found is not None
    words = words_of(found, KINDS)
    parsed, more = read_claims(found, words)
    return found, words, parsed, (*problems, *more)


@pytest.fixture(scope="module")
def whinchat():
    return loaded(ROOT / "demo" / "whinchat")


def test_every_claim_service_and_step_of_the_demo_is_understood(whinchat) -> None:
    folder, _, parsed, problems = whinchat
    assert problems == ()
    written = sum(len(s.claims) for script in folder.scripts for s in script.sentences)
    assert written > 50 and sum(len(s.claims) for s in parsed.sentences) == written
    assert all(s.left_out == 0 for s in parsed.sentences)
    assert parsed.services and all(s.statement is not None for s in parsed.services)
    marks = [mark for step in parsed.steps for mark in step.marks]
    assert len(marks) == sum(len(step.marks) for drill in folder.drills for step in drill.steps)
    assert {type(mark) for mark in marks} == {Done, Looked}


def test_every_setting_of_the_demo_is_resolved(whinchat) -> None:
    folder, _, parsed, _ = whinchat
    assert [len(s.sets) for s in parsed.situations] == [len(s.sets) for s in folder.situations]
    assert [len(s.given) for s in parsed.situations] == [len(s.given) for s in folder.situations]
    starting = next(s for s in parsed.situations if s.situation.name == "starting")
    placed = {(h.control.part, h.control.control): (h.position, h.level) for h in starting.sets}
    assert placed["engine", "starter"] == ("pressed", None)
    assert placed["throttle", ""] == ("", 0.25)


def test_every_claim_of_the_demo_is_printed_and_read_as_it_was(whinchat) -> None:
    _, words, parsed, _ = whinchat
    for sentence in parsed.sentences:
        for claim in sentence.claims:
            text = printed_claim(claim)
            again, problems = parse_claim(whole(TextFile("s", text)), words)
            assert problems == () and again is not None
            assert printed_claim(again) == text


def test_one_bad_claim_leaves_the_others(sample) -> None:
    script = sample / "scripts" / "01-fuel.md"
    script.write_text(
        "# Cock\n\nThe cock is fitted.\n\n```claim\nfuel clock is fitted\nfuel cock is fitted\nfuel cock is\n```\n"
    )
    _, _, parsed, problems = loaded(sample)
    (sentence,) = [s for s in parsed.sentences if s.sentence.claims]
    assert len(sentence.claims) == 1 and sentence.left_out == 2
    assert [p.code for p in problems] == ["L201", "L105"]


@pytest.mark.parametrize("code", [code for code, entry in ENTRIES.items() if entry.where])
def test_samples(code, sample) -> None:
    entry = ENTRIES[code]
    (sample / entry.where).write_text(entry.wrong)
    assert {p.code for p in loaded(sample)[3]} == {code}
    (sample / entry.where).write_text(entry.right)
    assert loaded(sample)[3] == ()
