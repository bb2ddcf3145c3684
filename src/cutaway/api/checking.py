"""Check a folder: every claim of its scripts and every sight of its drills, for every standard that it is for."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.places import memory_file
from cutaway.handbook.records import Drill, Folder, Script, Sentence, Step
from cutaway.inquiry.check import Judged, judge
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.verdicts import Empty, Fails, NotModelled, RestsOn, Undecided, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import Action, Claim, Scope, Statement, Wait, When
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.which import Which
from cutaway.narrate.citing import cite_verdict

# How long a crew watches for what a drill says should be seen, and how long it takes from one step to the next, s.
# Choices of ours.
DRILL_WATCH = 60.0
BETWEEN_STEPS = 5.0


@dataclass(frozen=True, slots=True)
class JudgedClaim:
    """A claim with its verdicts, one for each standard."""

    claim: Claim
    judged: tuple[Judged, ...]


@dataclass(frozen=True, slots=True)
class CheckedSentence:
    """A sentence of a script with its claims. stated: what the cited paragraph says for it, for one that reports."""

    script: Script
    sentence: Sentence
    claims: tuple[JudgedClaim, ...]
    reported: bool


@dataclass(frozen=True, slots=True)
class CheckedStep:
    """A step of a drill with what should then be seen."""

    drill: Drill
    step: Step
    claims: tuple[JudgedClaim, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """What checking a folder found. runs: how many runs it took (0 where all was remembered)."""

    folder: Folder
    sentences: tuple[CheckedSentence, ...]
    steps: tuple[CheckedStep, ...]
    runs: int

    def verdicts(self) -> tuple[Verdict, ...]:
        """All verdicts, in the order of the scripts and drills."""
        claims = [c for s in self.sentences for c in s.claims] + [c for s in self.steps for c in s.claims]
        return tuple(j.verdict for c in claims for j in c.judged)
