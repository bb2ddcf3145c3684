"""What checking a folder's scripts and drills found, as records: every sentence and step with its verdicts."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol, TypeVar

from cutaway.handbook.records import Drill, Folder, Paragraph, Script, Sentence, Step
from cutaway.inquiry.check import Judged, not_yet
from cutaway.inquiry.questions.corrections import Correction
from cutaway.inquiry.verdicts import Empty, Fails, NotModelled, RestsOn, Undecided, Verdict
from cutaway.language.syntax import Claim
from cutaway.narrate.compared import Compared
from cutaway.narrate.coverage import checking
from cutaway.narrate.obsolete import Obsolete
from cutaway.problems.diagnostic import Problems
from cutaway.quantities.which import StandardName

T = TypeVar("T")


class Keep(Protocol):
    """Where findings may be kept between sessions: gives the one that is kept, or finds it with `find`."""

    def __call__(self, sort: str, name: object, find: Callable[[], T]) -> T:
        """sort, name: what is found: ('script', '01-fuel'), ('verdict', (claim, 'Mk 1'))."""


def found_here(sort: str, name: object, find: Callable[[], T]) -> T:
    """Nothing is kept."""
    return find()


@dataclass(frozen=True, slots=True)
class JudgedClaim:
    """A claim with its verdicts, one for each standard. corrections: the smallest that would make one that fails true,
    where that was asked."""

    claim: Claim
    judged: tuple[Judged, ...]
    corrections: tuple[Correction, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckedSentence:
    """A sentence of a script. stated: it reports a paragraph, which says so. likely: for one that nothing checks, the
    likeliest paragraphs. at_odds: what it says otherwise than the paragraphs that it cites or the claims under it.
    compared: the sentence held against the books, None where a claim checks it or it needs none. overtaken: what later
    amendments made of it, where corrections were asked for."""

    script: Script
    sentence: Sentence
    claims: tuple[JudgedClaim, ...]
    stated: bool
    likely: tuple[Paragraph, ...]
    at_odds: Problems = ()
    compared: Compared | None = None
    overtaken: tuple[Obsolete, ...] = ()

    @property
    def unchecked(self) -> bool:
        """Whether nothing checks the sentence and nothing says that it needs no checking."""
        return checking(self.sentence) == "unchecked"


@dataclass(frozen=True, slots=True)
class CheckedStep:
    """A step of a drill with what should then be seen."""

    drill: Drill
    step: Step
    claims: tuple[JudgedClaim, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking a folder found. runs: how many runs it took, 0 where all was remembered. alone: parts that no line
    joins to anything, with the standards on which that is so."""

    folder: Folder
    sentences: tuple[CheckedSentence, ...]
    steps: tuple[CheckedStep, ...]
    runs: int
    alone: tuple[tuple[str, tuple[str, ...]], ...] = ()

    def claims(self) -> tuple[JudgedClaim, ...]:
        """All claims, those of the scripts first."""
        said = tuple(claim for one in self.sentences for claim in one.claims)
        return said + tuple(claim for one in self.steps for claim in one.claims)

    def verdicts(self) -> tuple[Verdict, ...]:
        """All verdicts, in the order of the claims."""
        return tuple(j.verdict for c in self.claims() for j in c.judged)

    @property
    def not_yet(self) -> int:
        """Of how many verdicts the assumed values are still to be tried."""
        return sum(not_yet(verdict) for verdict in self.verdicts())


def is_wrong(verdict: Verdict, strict: bool = False) -> bool:
    """Whether a verdict makes `check` end with 1. strict: all that is not settled counts as well."""
    if isinstance(verdict, (Fails, Empty)):
        return True
    if isinstance(verdict, RestsOn) and isinstance(verdict.nominal, Fails):
        return True
    return strict and isinstance(verdict, (RestsOn, NotModelled, Undecided))


@dataclass(frozen=True, slots=True)
class Asking:
    """What to check and how. on: only these standards (None: all). script: only that one ('': all). rests: whether
    assumed values are taken to the ends of their ranges. mending: whether for each claim that fails the smallest
    corrections are looked for."""

    on: frozenset[StandardName] | None = None
    script: str = ""
    rests: bool = True
    mending: bool = False
