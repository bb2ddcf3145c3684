"""Why a thing is so: asked in words, answered as text or for a program."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from pathlib import Path

from cutaway.api.asked_text import alteration_record, asked_words, far_record, meaning, opening, seen_record
from cutaway.api.asking import Asked, Opened, base_for, opened, remembered
from cutaway.handbook.records import Cite
from cutaway.inquiry.questions.links import Link, Step
from cutaway.inquiry.questions.why import Cause, Standing, Why, cause
from cutaway.inquiry.questions.why import why as why_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import ChangeSet
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.verdicts import Undecided
from cutaway.language.syntax import Move
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.wording.otherwise import otherwise_clause
from cutaway.wording.shown import sentence
from cutaway.wording.why import cause_lines, why_lines


@dataclass(frozen=True, slots=True, eq=False)
class WhyTold:
    """The question, what it was asked of, and the answer. most: how many changes are told."""

    opened: Opened
    asked: Asked
    base: Base
    subject: Subject
    answer: Why | Undecided
    most: int


def why(
    folder: Path | str | Opened,
    asked: Asked,
    size: int = 2,
    most: int = 12,
    failures: bool = False,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
) -> tuple[WhyTold | None, Problems]:
    """The chain of cause behind a statement, the minimal reasons, and the smallest changes that would turn it over.

    size: how many changes at once. failures: whether things that go wrong count as changes. seconds: how long to look.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    base, subject, more = base_for(here.loaded, here.workshop, asked)
    if base is None or subject is None:
        return None, (*problems, *more)
    found = cause(base)
    answer = (
        found
        if isinstance(found, Undecided)
        else why_of(base, found, Bound(size, seconds=seconds, batch=16), failures, stop, as_found, remembered())
    )
    return WhyTold(here, asked, base, subject, answer, most), (*problems, *more)


def why_text(told: WhyTold) -> str:
    """The answer as lines that read aloud."""
    folder, question = told.opened.loaded.folder, asked_words(told.base, told.opened.loaded)
    meant = meaning(told.base, told.opened.loaded)
    heading = f"Whether it is so, and why, {opening(told.asked, told.subject, told.opened.loaded)}: {question}"
    if isinstance(told.answer, Undecided):
        return "\n".join((heading, sentence(f"That cannot be said here: {told.answer.because}")))
    otherwise = otherwise_clause(told.base.question, folder)
    acts = any(isinstance(one, Move) for one in told.base.question.scope.actions)
    changes = why_lines(told.answer, question, otherwise, folder, told.most, acts)
    return "\n".join((heading, *meant, *cause_lines(told.answer.cause, question, folder), *changes))


def why_record(told: WhyTold) -> dict[str, object]:
    """The answer for a program; figures in SI."""
    record: dict[str, object] = {
        "question": "why",
        "statement": told.asked.statement,
        "subject": told.subject.name,
        "situation": told.asked.situation,
    }
    match told.answer:
        case Undecided(because=because):
            return record | {"answer": "undecided", "because": because}
        case Why(cause=found, reasons=reasons, changes=changes, far=far):
            return record | {
                "answer": "so" if found.so else "not so",
                "seen": [seen_record(one) for one in found.seen],
                "chain": _chain_record(found),
                "changes": [
                    {
                        "of": [alteration_record(a) for a in one.of],
                        "twins": [[alteration_record(a) for a in twin] for twin in one.twins],
                        "cites": _cites(one.cites),
                        "held back": [
                            {"control": h.control, "position": h.position, "asks": list(h.asks)} for h in one.held
                        ],
                    }
                    for one in changes
                ],
                "reasons": [[_flat(one) for one in several] for several in reasons],
                "bound": far_record(far),
            }


def _chain_record(found: Cause) -> list[dict[str, object]]:
    """Each link, with the place of the one that it explains (-1: of what was asked)."""
    under = found.under or (-1,) * len(found.links)
    return [{**_flat(link), "under": by} for link, by in zip(found.links, under, strict=True)]


def _flat(one: Link | Standing) -> dict[str, object]:
    """A link as its fields, with the word for what it is."""
    record: dict[str, object] = {"link": type(one).__name__.lower()}
    for field in fields(one):
        value = getattr(one, field.name)
        if field.name == "cites":
            record["cites"] = _cites(value)
        elif field.name == "steps":
            record["steps"] = [_step(step) for step in value]
        elif field.name == "others":
            record["others"] = [{"supply": o.supply, "steps": [_step(step) for step in o.steps]} for o in value]
        else:
            record[field.name] = value
    return record


def _step(step: Step) -> dict[str, object]:
    return {"part": step.part, "setting": step.setting, "failure": step.failure}


def _cites(cites: tuple[Cite, ...]) -> list[str]:
    return [cite.key for cite in cites]
