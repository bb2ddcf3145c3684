"""What could be behind what the crew sees: asked in words, answered as text or for a program."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.api.asked_text import alteration_record, asked_words, far_record, meaning, opening, seen_record
from cutaway.api.asking import Asked, Opened, base_for, opened, remembered
from cutaway.inquiry.questions.suspects import Look, NothingWrong, Suspects
from cutaway.inquiry.questions.suspects import suspects as suspects_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import ChangeSet
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.verdicts import Undecided
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.wording.shown import sentence
from cutaway.wording.suspects import nothing_wrong_words, suspects_lines


@dataclass(frozen=True, slots=True, eq=False)
class SuspectsTold:
    """The question, what it was asked of, and the answer. most: how many explanations are told."""

    opened: Opened
    asked: Asked
    base: Base
    subject: Subject
    answer: Suspects | NothingWrong | Undecided
    most: int


def suspects(
    folder: Path | str | Opened,
    seen: Sequence[str],
    asked: Asked,
    size: int = 2,
    most: int = 24,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
) -> tuple[SuspectsTold | None, Problems]:
    """The minimal sets of failures, of up to `size`, that bring about all that is seen, and the next look.

    seen: what the crew sees, a statement each. asked: where and on what; its own statement is passed over.
    """
    asked = replace(asked, statement=" and ".join(_bracketed(one) if len(seen) > 1 else one for one in seen))
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    base, subject, more = base_for(here.loaded, here.workshop, asked)
    if base is None or subject is None:
        return None, (*problems, *more)
    answer = suspects_of(base, Bound(size, seconds=seconds, batch=16), stop, as_found, remembered())
    return SuspectsTold(here, asked, base, subject, answer, most), (*problems, *more)


def _bracketed(one: str) -> str:
    """A statement as it stands among others: in brackets where it is joined of several itself."""
    return f"({one})" if any(f" {word} " in one for word in ("or", "if", "when")) else one


def suspects_text(told: SuspectsTold) -> str:
    """The answer as lines that read aloud."""
    folder, question = told.opened.loaded.folder, asked_words(told.base, told.opened.loaded)
    meant = meaning(told.base, told.opened.loaded)
    match told.answer:
        case Suspects():
            body = suspects_lines(told.answer, folder, told.most)
        case NothingWrong():
            body = (nothing_wrong_words(told.answer, folder),)
        case Undecided(because=because):
            body = (sentence(f"That cannot be said here: {because}"),)
    where = opening(told.asked, told.subject, told.opened.loaded)
    return "\n".join((f"What could be behind it, {where}: {question}", *meant, *body))


def suspects_record(told: SuspectsTold) -> dict[str, object]:
    """The answer for a program; figures in SI."""
    record: dict[str, object] = {
        "question": "suspects",
        "statement": told.asked.statement,
        "subject": told.subject.name,
        "situation": told.asked.situation,
    }
    match told.answer:
        case Suspects(otherwise=otherwise, explanations=explanations, look=look, move=move, far=far) as found:
            return record | {
                "answer": "found" if explanations else "none",
                "otherwise": [seen_record(one) for one in otherwise],
                "explanations": [
                    {
                        "of": [alteration_record(a) for a in one.of],
                        "says": list(one.says),
                        "twins": [[alteration_record(a) for a in twin] for twin in one.twins],
                        "cites": [cite.key for cite in one.cites],
                    }
                    for one in explanations
                ],
                "look": _look_record(look),
                "move": _look_record(move),
                "alike": [[[alteration_record(b) for b in by] for by in group] for group in found.alike],
                "leaks": list(found.leaks),
                "bound": far_record(far),
            }
        case NothingWrong(seen=seen):
            return record | {"answer": "nothing wrong", "seen": [seen_record(one) for one in seen]}
        case Undecided(because=because):
            return record | {"answer": "undecided", "because": because}


def _look_record(look: Look | None) -> dict[str, object] | None:
    if look is None:
        return None
    return {
        "part": look.indication.part,
        "move": alteration_record(look.move) if look.move is not None else None,
        "left": look.left,
        "answers": [
            {"shows": seen_record(one.shows), "by": [[alteration_record(b) for b in by] for by in one.by]}
            for one in look.answers
        ],
    }
