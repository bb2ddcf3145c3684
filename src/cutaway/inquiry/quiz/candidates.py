"""What may become a question: known by its key and where it belongs, made only when it is its turn."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from cutaway.handbook.records import Sentence
from cutaway.inquiry.check import subjects_of
from cutaway.inquiry.quiz.proving import Setter
from cutaway.inquiry.quiz.records import QuizQuestion, Sort
from cutaway.inquiry.signals import atoms
from cutaway.language.print_back import printed_scope
from cutaway.language.syntax import (
    AtPosition,
    Built,
    Claim,
    ComesOnAt,
    Compare,
    InState,
    Move,
    Scope,
    Statement,
    Wait,
    When,
)
from cutaway.machine.subjects import Subject, subjects

MOST_ACTIONS = 4
"""More than this nobody keeps in his head while he thinks of the answer. A choice of ours."""


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """A question that may come of something. make: puts it to the model; None where no good question comes of it.
    quantity: of what kind the figure is that it asks for or names, '' where it is not about a figure."""

    key: str
    sort: Sort
    subject: Subject
    system: str
    make: Callable[[], QuizQuestion | None]
    script: str = ""
    chapter: str = ""
    quantity: str = ""


@dataclass(frozen=True, slots=True)
class SaidClaim:
    """A claim of a script with the sentence that it stands under."""

    claim: Claim
    script: str
    sentence: Sentence


def said_claims(setter: Setter) -> Iterator[SaidClaim]:
    """Every claim of the scripts in their order."""
    for one in setter.parsed.sentences:
        for claim in one.claims:
            yield SaidClaim(claim, one.script, one.sentence)


def subjects_for(claim: Claim, setter: Setter, among: tuple[Subject, ...]) -> tuple[Subject, ...]:
    """Those of some subjects that a claim is for."""
    named = {s.name for s in subjects_of(claim, subjects(setter.folder))}
    return tuple(s for s in among if s.name in named)


def parts_in(statement: Statement, setter: Setter) -> tuple[str, ...]:
    """The parts that a statement speaks of."""
    found: list[str] = []
    for atom in atoms(statement, setter.told.services):
        match atom:
            case InState(part=part) | ComesOnAt(part=part):
                found.append(str(part))
            case Compare(reading=reading):
                found.append(str(reading.part))
            case AtPosition(control=control):
                found.append(str(control.part))
            case Built(subject=subject):
                found.append(subject)
            case _:
                pass
    return tuple(dict.fromkeys(found))


def system_of(setter: Setter, parts: tuple[str, ...]) -> str:
    """The system of the first of some parts that is one; '' where none is."""
    systems = {str(part.name): part.system for part in setter.folder.parts}
    return next((systems[name] for name in parts if name in systems), "")


def case_of(scope: Scope) -> str:
    """The course of things of a scope, without its mark and its moment, by which two claims are known to be about the
    same."""
    return printed_scope(replace(scope, on=None, when=When()))


def plain_scope(claim: Claim) -> Scope | None:
    """The scope of a claim as one course of things with one moment to look at; None where it has several."""
    scope = claim.scope
    several = any(len(one.options) > 1 for one in scope.failures) or any(c.quantity.is_range for c in scope.conditions)
    # After something that is held for a time and then waited for, the moment cannot be said in few words.
    held = any(isinstance(one, Move) and one.held is not None for one in scope.actions[-2:-1])
    long = len(scope.actions) > MOST_ACTIONS or (held and isinstance(scope.actions[-1], Wait))
    if scope.modality or several or long or not scope.situation or isinstance(claim.statement, ComesOnAt | Built):
        return None
    match scope.when.kind:
        case "settled" | "at":
            return scope
        case "within" | "throughout":
            return replace(scope, when=When("at", scope.when.first))
        case _:
            return None
