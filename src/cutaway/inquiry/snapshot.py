"""Everything that a subject shows once a situation has been reached: what a sheet is drawn from."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.handbook.records import Folder
from cutaway.inquiry.told import Told, legs_for
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.language.syntax import Scope, When
from cutaway.machine.records import Outcome, Run
from cutaway.machine.subjects import Subject, parts_of
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True, eq=False)
class Snapshot:
    """values: every signal of the subject's whole machine by name, SI."""

    values: Mapping[str, float]


def snapshot(workshop: Workshop, told: Told, subject: Subject, situation: str) -> tuple[Snapshot | None, Problems]:
    """The signals at the end of a situation; None, with a problem that names the parts, where no solution was found."""
    return snapshots(workshop, told, ((subject, situation),))[0]


def snapshots(
    workshop: Workshop, told: Told, wanted: Sequence[tuple[Subject, str]]
) -> tuple[tuple[Snapshot | None, Problems], ...]:
    """The same for several subjects and situations, run side by side."""
    requests = [_request(workshop, told, subject, situation) for subject, situation in wanted]
    return tuple(
        _taken(workshop, run, subject, situation)
        for run, (subject, situation) in zip(workshop.runs(requests), wanted, strict=True)
    )


def decided_by(workshop: Workshop, told: Told, subject: Subject, situation: str) -> tuple[object, ...]:
    """All that decides what a situation shows on a subject: its machine and the way there."""
    request = _request(workshop, told, subject, situation)
    return (request.made.digest, request.legs, request.seconds)


def _request(workshop: Workshop, told: Told, subject: Subject, situation: str) -> Request:
    bound, _ = workshop.bound(subject)
    made = workshop.made(bound, frozenset(name for name, _ in bound.network.signals))
    here = _span_of(workshop, situation)
    return Request(made, legs_for(workshop.folder, told, bound, in_situation(situation, here)), (), 0.05)


def _span_of(workshop: Workshop, situation: str) -> Span:
    return next(s.span for s in workshop.folder.situations if s.name == situation)


def _taken(
    workshop: Workshop, run: Run | Outcome, subject: Subject, situation: str
) -> tuple[Snapshot | None, Problems]:
    here = _span_of(workshop, situation)
    if isinstance(run, Outcome):
        return None, (_no_solution(run, subject, situation, workshop, here),)
    if run.outcome.kind != "done":
        return None, (_no_solution(run.outcome, subject, situation, workshop, here),)
    return Snapshot(dict(zip(run.names, map(float, run.values[-1]), strict=True))), ()


def in_situation(situation: str, span: Span) -> Scope:
    """The scope that says no more than a situation."""
    return Scope(None, situation, (), (), (), (), When(), "", span)


def _no_solution(outcome: Outcome, subject: Subject, situation: str, workshop: Workshop, span: Span) -> Diagnostic:
    return Diagnostic(
        "I101",
        span,
        f"On {subject.name} the model cannot be brought to '{situation}': {outcome.sentence}",
        f"Look at {', '.join(outcome.parts)}: a figure there may be far from what its kind is for."
        if outcome.parts
        else "Look at the figures of the parts that this situation sets to work.",
        places_of(workshop.folder, outcome.parts, subject),
    )


def places_of(folder: Folder, parts: Iterable[str], subject: Subject) -> tuple[tuple[Span, str], ...]:
    """Where the parts stand that are to blame for an outcome, each with a few words."""
    wanted = tuple(dict.fromkeys(parts))
    here = {str(part.name): part.span for part in parts_of(folder, subject)}
    return tuple((here[name], f"{name} stands here:") for name in wanted if name in here)
