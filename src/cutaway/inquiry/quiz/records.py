"""A quiz as records: what is asked, what can be chosen, and the claims that make each choice right or wrong."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Cite
from cutaway.inquiry.questions.why import Cause
from cutaway.inquiry.verdicts import Fails, Holds, Seen, Stated, Verdict
from cutaway.language.syntax import Action, Claim, FailureRef, Scope
from cutaway.machine.subjects import Subject
from cutaway.quantities.which import StandardName

Sort = Literal["shows", "reads", "failure", "marks", "step", "figure"]
SORTS: tuple[Sort, ...] = ("shows", "failure", "marks", "reads", "step", "figure")

# --- what is asked -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class WhatShows:
    """What some indications show together, in a scope at its moment."""

    scope: Scope
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WhatReads:
    """What one dial reads, in a scope at its moment."""

    scope: Scope
    what: str


@dataclass(frozen=True, slots=True)
class WhichFailure:
    """What alone takes a service away in a situation."""

    situation: str
    service: str


@dataclass(frozen=True, slots=True)
class WhichStandards:
    """On which standards a claim of the folder is so."""

    claim: Claim


@dataclass(frozen=True, slots=True)
class WhichStep:
    """Which step of a drill cannot be left out if something is to be seen at a step. sight: in the author's words."""

    title: str
    sight: Claim
    at: int


@dataclass(frozen=True, slots=True)
class WhichFigure:
    """At what figure something of a part stands."""

    part: str
    value: str


Asked = WhatShows | WhatReads | WhichFailure | WhichStandards | WhichStep | WhichFigure

# --- what can be chosen --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StepOf:
    """A step of a drill, and what is done in it."""

    number: int
    actions: tuple[Action, ...]


@dataclass(frozen=True, slots=True)
class FigureOf:
    """A figure with its unit, as it is printed."""

    words: str


Choice = tuple[Seen, ...] | FailureRef | tuple[StandardName, ...] | StepOf | FigureOf


@dataclass(frozen=True, slots=True)
class Trap:
    """Why somebody might choose a wrong option.

    'other mark': it is so on `of`. 'before': it is so before anything is done. 'overlooked': it would be so without
    what the question gives (`of`). 'last alone': it would be so if the last thing that is done decided alone. 'other
    situation': it is so in `of`. 'figure of': the figure is that of `of`. 'same paragraph': it stands beside the answer
    in the paragraph `of`. 'no harm': what is chosen does no such harm; `of` says what it does. 'opposite': it is the
    other way about. 'needless': it can be left out. 'too many', 'too few', 'others': of standards.

    cites: the paragraphs of what it is said to be of, where they are others than those of the thing asked about.
    """

    sort: Literal[
        "", "other mark", "before", "overlooked", "last alone", "other situation", "figure of", "same paragraph",
        "no harm", "opposite", "needless", "too many", "too few", "others",
    ]  # fmt: skip
    of: str = ""
    cites: tuple[Cite, ...] = ()


@dataclass(frozen=True, slots=True)
class Proof:
    """A claim that an option stands on. text: in the grammar, naming its standard, so that it can be put to the model
    by itself. holds: whether the option says that it holds. verdict: what the model says."""

    text: str
    claim: Claim
    subject: Subject
    holds: bool
    verdict: Verdict

    @property
    def agrees(self) -> bool:
        """Whether the model says the same as the option."""
        return is_so(self.verdict) is self.holds


@dataclass(frozen=True, slots=True)
class Option:
    """Something to choose. It is right exactly where every one of its claims comes out as it says."""

    choice: Choice
    proofs: tuple[Proof, ...]
    trap: Trap
    cites: tuple[Cite, ...] = ()

    @property
    def right(self) -> bool:
        """Whether it is the answer."""
        return all(proof.agrees for proof in self.proofs)


@dataclass(frozen=True, slots=True)
class QuizQuestion:
    """A question with its options in the order in which they are shown; exactly one is right.

    key: what it is, by which it is known again. script, chapter: where the talk speaks of it, '' where it does not.
    case: the course of things that it is about, in the grammar, by which a claim of the folder is known to be about the
    same; '' where no claim is.
    cause: the chain of cause behind the answer, where it is one of a run and can be told.
    """

    key: str
    sort: Sort
    subject: Subject
    system: str
    asked: Asked
    options: tuple[Option, ...]
    script: str = ""
    chapter: str = ""
    cause: Cause | None = None
    case: str = ""

    @property
    def answer(self) -> Option:
        """The right one."""
        return next(option for option in self.options if option.right)


def is_so(verdict: Verdict) -> bool | None:
    """Whether a verdict says yes or no; None where it says neither, or rests on what is assumed."""
    if isinstance(verdict, (Holds, Stated)):
        return True
    return False if isinstance(verdict, Fails) else None
