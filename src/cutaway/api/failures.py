"""What must fail for a statement or service to be lost: asked in words, answered as text or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asked_text import (
    alteration_record,
    asked_words,
    far_record,
    meaning,
    noticed_record,
    opening,
    seen_record,
)
from cutaway.api.asking import Asked, Opened, base_for, opened, remembered
from cutaway.inquiry.questions.failures import AlreadyUndone, Failures, FailuresAnswer, FailureSet
from cutaway.inquiry.questions.failures import failures as failures_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import ChangeSet
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.verdicts import Undecided
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.wording.failures import failures_lines, undone_words
from cutaway.wording.shown import sentence


@dataclass(frozen=True, slots=True, eq=False)
class FailuresTold:
    """The question, what it was asked of, and the answer. most: how many sets are told at length."""

    opened: Opened
    asked: Asked
    base: Base
    subject: Subject
    answer: FailuresAnswer
    most: int


def failures(
    folder: Path | str | Opened,
    asked: Asked,
    size: int = 2,
    most: int = 20,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
) -> tuple[FailuresTold | None, Problems]:
    """The minimal sets of failures, of up to `size`, that undo a statement.

    most: how many are told at length, with what the crew would see. seconds: how long to look. stop: asked now and then
    whether to end with what is known. as_found: told each set at once.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    base, subject, more = base_for(here.loaded, here.workshop, asked)
    if base is None or subject is None:
        return None, (*problems, *more)
    bound = Bound(size, seconds=seconds, batch=16)
    answer = failures_of(base, bound, most, stop, as_found, remembered())
    return FailuresTold(here, asked, base, subject, answer, most), (*problems, *more)


def failures_text(told: FailuresTold) -> str:
    """The answer as lines that read aloud."""
    folder, question = told.opened.loaded.folder, asked_words(told.base, told.opened.loaded)
    meant = meaning(told.base, told.opened.loaded)
    match told.answer:
        case Failures():
            body = failures_lines(told.answer, question, folder, told.most)
        case AlreadyUndone():
            body = (undone_words(told.answer, question, folder), "Name a situation in which it is so, with --in.")
        case Undecided(because=because):
            body = (sentence(f"That cannot be said here: {because}"),)
    where = opening(told.asked, told.subject, told.opened.loaded)
    return "\n".join((f"What must fail, {where}, for this to be lost: {question}", *meant, *body))


def failures_record(told: FailuresTold) -> dict[str, object]:
    """The answer for a program; figures in SI."""
    record: dict[str, object] = {
        "question": "failures",
        "statement": told.asked.statement,
        "subject": told.subject.name,
        "situation": told.asked.situation,
    }
    match told.answer:
        case Failures(seen=seen, sets=sets, counts=counts, common=common, far=far):
            record |= {
                "answer": "found" if sets else "none",
                "seen": [seen_record(one) for one in seen],
                "sets": [_set_record(one) for one in sets],
                "counts": {str(size): count for size, count in counts},
                "common": [{"part": c.part, "sets": c.sets, "of": c.of} for c in common],
                "bound": far_record(far),
                "crew looked": told.answer.crew_looked,
                "faultless": list(told.answer.faultless),
            }
        case AlreadyUndone(seen=seen):
            record |= {"answer": "already so", "seen": [seen_record(one) for one in seen]}
        case Undecided(because=because):
            record |= {"answer": "undecided", "because": because}
    return record


def _set_record(one: FailureSet) -> dict[str, object]:
    return {
        "failures": [{**alteration_record(b), "says": s} for b, s in zip(one.of, one.says, strict=True)],
        "twins": [[alteration_record(b) for b in twin] for twin in one.twins],
        "lost": [seen_record(seen) for seen in one.lost],
        "noticed": None if one.noticed is None else [noticed_record(noticed) for noticed in one.noticed],
        "cites": [cite.key for cite in one.cites],
    }
