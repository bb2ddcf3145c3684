"""What is said of a group, on one subject: members that it lacks are left out, as long as one is there."""

import re
from dataclasses import replace

from cutaway.language.syntax import (
    AgainstScope,
    And,
    AtPosition,
    Built,
    CanMove,
    ComesOnAt,
    Compare,
    Earlier,
    FailureChoice,
    If,
    Independent,
    InState,
    Not,
    Or,
    Scope,
    Statement,
    Trend,
)
from cutaway.machine.bind import Bound
from cutaway.problems.span import Span


def on_subject(statement: Statement, bound: Bound) -> Statement:
    """The statement without the members of its groups that the subject lacks. A part that the claim itself names
    stays, so that its absence is told."""
    match statement:
        case And(of=inner, span=span) | Or(of=inner, span=span):
            several = tuple(on_subject(one, bound) for one in inner)
            here = tuple(one for one in several if not _left_out(one, span, bound))
            kept = here or several
            return kept[0] if len(kept) == 1 and len(several) > 1 else replace(statement, of=kept)
        case Not(of=one):
            return replace(statement, of=on_subject(one, bound))
        case If(then=then, condition=condition):
            return replace(statement, then=on_subject(then, bound), condition=on_subject(condition, bound))
        case Earlier(first=first, second=second):
            return replace(statement, first=on_subject(first, bound), second=on_subject(second, bound))
        case _:
            return statement


def _left_out(member: Statement, whole: Span, bound: Bound) -> bool:
    """Whether a statement was made for a member of a group (it then stands at the whole's own place) which the subject
    lacks and the text does not name."""
    inner = member.of if isinstance(member, Not) else member
    if inner.span != whole:
        return False
    part = _about(inner)
    return part is not None and part not in bound.parts and not _named(part, whole)


def _about(statement: Statement) -> str | None:
    """The part that a statement of one part is about; None for any other, and where its absence is what is asked."""
    match statement:
        case Built(subject=part, what=what):
            return None if what in ("fitted", "count") else part
        case InState(part=part) | ComesOnAt(part=part) | Independent(part=part):
            return part
        case Compare(reading=reading) | Trend(reading=reading) | AgainstScope(reading=reading):
            return reading.part
        case AtPosition(control=control) | CanMove(control=control):
            return control.part
        case _:
            return None


def _named(part: str, span: Span) -> bool:
    words = " ".join(span.text.casefold().split())
    return re.search(rf"(?<!\w){re.escape(part.casefold())}(?!\w)", words) is not None


def scope_on_subject(scope: Scope, bound: Bound) -> Scope:
    """The scope without the failures of a group's members that the subject lacks, as long as one is there."""
    return replace(scope, failures=tuple(_choice(choice, bound) for choice in scope.failures))


def _choice(choice: FailureChoice, bound: Bound) -> FailureChoice:
    here = tuple(f for f in choice.options if f.part in bound.parts or _named(str(f.part), choice.span))
    return replace(choice, options=here or choice.options)
