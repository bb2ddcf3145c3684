"""Everything that a subject shows once a situation has been reached: what a sheet is drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.inquiry.told import Told, legs_for
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.language.syntax import Scope, When
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True, eq=False)
class Snapshot:
    """values: every signal of the subject's whole machine by name, SI."""

    values: Mapping[str, float]


def snapshot(workshop: Workshop, told: Told, subject: Subject, situation: str) -> tuple[Snapshot | None, Problems]:
    """The signals at the end of a situation; None, with a problem that names the parts, where no solution was found."""
    bound, _ = workshop.bound(subject)
    made = workshop.made(bound, frozenset(name for name, _ in bound.network.signals))
    here = next(s for s in workshop.folder.situations if s.name == situation)
    legs = legs_for(workshop.folder, told, bound, in_situation(situation, here.span))
    (run,) = workshop.runs([Request(made, legs, (), 0.05)])
    if isinstance(run, Outcome):
        return None, (_no_solution(run, subject, situation, here.span),)
    if run.outcome.kind != "done":
        return None, (_no_solution(run.outcome, subject, situation, here.span),)
    return Snapshot(dict(zip(run.names, map(float, run.values[-1]), strict=True))), ()


def in_situation(situation: str, span: Span) -> Scope:
    """The scope that says no more than a situation."""
    return Scope(None, situation, (), (), (), (), When(), "", span)


def _no_solution(outcome: Outcome, subject: Subject, situation: str, span: Span) -> Diagnostic:
    return Diagnostic(
        "I101",
        span,
        f"On {subject.name} the model cannot be brought to '{situation}': {outcome.sentence}",
        f"Look at {', '.join(outcome.parts)}: a figure there may be far from what its kind is for."
        if outcome.parts
        else "Look at the figures of the parts that this situation sets to work.",
    )
