"""What two standards are compared by: the moments at which it is looked, and what is then seen otherwise."""

from dataclasses import dataclass

from cutaway.inquiry.questions.indications import Indication, indications
from cutaway.inquiry.verdicts import Seen
from cutaway.machine.bind import Bound
from cutaway.problems.span import Span, TextFile


@dataclass(frozen=True, slots=True)
class Moment:
    """When two of them are looked at: a situation, the end of a drill's step (step 0: its beginning), or when a control
    (`move`: its name and where it is put) has been put elsewhere in a situation."""

    situation: str
    drill: str = ""
    title: str = ""
    step: int = 0
    move: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Behaviour:
    """What the crew sees otherwise at a moment, of indications that both have."""

    at: Moment
    one: Seen
    other: Seen


def shared(one: Bound, other: Bound) -> tuple[Indication, ...]:
    """The indications that both have."""
    there = set(indications(other))
    return tuple(i for i in indications(one) if i in there)


def nowhere() -> Span:
    """The place of a scope that nobody wrote."""
    return Span(TextFile("", ""), 0, 0)
