"""What came of sets in an earlier session is not tried anew, and the answers are the same."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from cutaway.api.sweeping import all_failures, swept_record, swept_text
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.failures import Failures, failures
from cutaway.inquiry.questions.remembered import Remembered
from cutaway.inquiry.search.changes import ChangeSet
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying
from cutaway.inquiry.search.universe import universe
from tests.inquiry.questions.asking import base, whinchat


def counted(trying: Trying, asked: list[ChangeSet]) -> object:
    def does(sets: Sequence[ChangeSet]) -> list[bool | None]:
        asked.extend(sets)
        return trying(sets)

    return does


def test_only_what_does_it_is_run_again(tmp_path: Path) -> None:
    found = base("flying instruments", "cruising")
    every = [frozenset({one}) for one in universe(found, frozenset({"failure"}))]
    answers: list[list[bool | None]] = []
    ran: list[int] = []
    for _ in range(2):
        asked: list[ChangeSet] = []
        does = Remembered(counted(Trying(found, False), asked), found, False, Memory(tmp_path / "kept.sqlite"))  # type: ignore[arg-type]
        answers.append(does(every))
        does.keep()
        ran.append(len(asked))
    assert answers[0] == answers[1] and ran[0] == len(every)
    assert ran[1] == sum(one is True for one in answers[0]) < ran[0]


@pytest.mark.parametrize("other", ["another statement", "another situation", "another standard", "the other way round"])
def test_another_question_remembers_nothing_of_it(other: str, tmp_path: Path) -> None:
    first = base("fuel lamp is out", "cruising", "Mk 1")
    one = [frozenset({a}) for a in universe(first, frozenset({"failure"}))][:3]
    kept = Remembered(Trying(first, False), first, False, Memory(tmp_path / "kept.sqlite"))
    kept(one)
    kept.keep()
    bases = {
        "another statement": base("engine is running", "cruising", "Mk 1"),
        "another situation": base("fuel lamp is out", "gliding", "Mk 1"),
        "another standard": base("fuel lamp is out", "cruising", "Mk 2"),
        "the other way round": first,
    }
    asked: list[ChangeSet] = []

    def does(sets: Sequence[ChangeSet]) -> list[bool | None]:
        asked.extend(sets)
        return [False for _ in sets]

    Remembered(does, bases[other], other == "the other way round", Memory(tmp_path / "kept.sqlite"))(one)
    assert asked == one


def test_the_answer_is_the_same_from_memory(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "kept.sqlite")
    answers = [failures(base("flying instruments", "cruising"), Bound(2), 2, memory=memory) for _ in range(2)]
    assert isinstance(answers[0], Failures) and answers[0] == answers[1]


def test_a_sweep_that_is_stopped_tells_what_it_has_and_what_it_has_not() -> None:
    done: list[int] = []
    swept, problems = all_failures(
        whinchat(), "cruising", "Mk 1", size=1, most=0, progress=done.append, stop=lambda: bool(done)
    )
    assert swept is not None and not problems
    assert len(swept.answers) == 1 and swept.left >= 1
    assert "Not come to: " in swept_text(swept).splitlines()[-1]
    assert swept_record(swept)["left"] == swept.left
    none, _ = all_failures(whinchat(), "cruising", "Mk 1", size=1, most=0, seconds=0.0)
    assert none is not None and none.answers == () and none.left == swept.left + 1


def test_stopped_it_is_said_that_the_crew_was_not_looked_at() -> None:
    from cutaway.wording.failures import failures_lines

    found: list[ChangeSet] = []
    asked = base("flying instruments", "cruising")
    answer = failures(asked, Bound(1, batch=4), stop=lambda: bool(found), as_found=found.append)
    assert isinstance(answer, Failures) and not answer.crew_looked and answer.sets
    lines = failures_lines(answer, "the flying instruments are served", whinchat().loaded.folder, 20)
    assert any("What the crew would notice of" in line and "was not looked at" in line for line in lines)
