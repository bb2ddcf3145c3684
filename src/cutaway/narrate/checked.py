"""A folder's scripts and drills with a verdict for every claim: what `check` finds and the pack shows."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Protocol, TypeVar

from cutaway.handbook.records import Drill, Folder, Paragraph, Script, Sentence, Step
from cutaway.inquiry.check import Judged, not_yet, subjects_of, verdict_for
from cutaway.inquiry.many import UNHURRIED, Pace, Waiting, tried
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.corrections import Correction, corrections
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Empty, Fails, NotModelled, RestsOn, Undecided, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import Done, Looked, ParsedClaims
from cutaway.language.syntax import Action, Claim, Scope, Wait, When
from cutaway.machine.subjects import Subject, subjects
from cutaway.machine.wiring import alone
from cutaway.narrate.citing import cite_verdict
from cutaway.narrate.claimed import words_and_claims
from cutaway.narrate.compared import Compared
from cutaway.narrate.coverage import checking
from cutaway.narrate.likely import Heard, Ranking
from cutaway.narrate.obsolete import Obsolete, overtaken
from cutaway.narrate.sentence_first import Comparer
from cutaway.narrate.sentence_first import told as told_of
from cutaway.narrate.superseding import Later
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import StandardName, Which

# How long a crew watches for what a drill says should be seen, and how long it takes from one step to the next, s.
# Choices of ours.
DRILL_WATCH = 60.0
BETWEEN_STEPS = 5.0

T = TypeVar("T")


class Keep(Protocol):
    """Where findings may be kept between sessions: gives the one that is kept, or finds it with `find`."""

    def __call__(self, sort: str, name: str, find: Callable[[], T]) -> T:
        """sort, name: what is found: ('script', '01-fuel')."""


def found_here(sort: str, name: str, find: Callable[[], T]) -> T:
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


def check_words(
    workshop: Workshop,
    parsed: ParsedClaims,
    told: Told,
    memory: Memory | None,
    asking: Asking,
    judging: Callable[[Claim], tuple[Judged, ...]] | None = None,
    keep: Keep = found_here,
    pace: Pace = UNHURRIED,
) -> tuple[Checked, Problems]:
    """Put every claim of the scripts and every sight of the drills to the standards that it is for.

    judging: verdicts that were found elsewhere (on a cluster, say), by claim; () for one that is not among them. keep:
    where what was found of a whole script, or of the drills, may be kept between sessions. pace: how long it may take.

    All claims are judged with the values as stated first; then assumed values are taken to the ends of their ranges.
    """
    folder = workshop.folder
    room = _Room(workshop, parsed, told, memory, asking, judging, pace)
    sentences, steps, problems = _gone_through(folder, room, keep)
    if room.waiting() and not pace.stop():
        room.try_assumed()
        sentences, steps, problems = _gone_through(folder, room, keep)
    alone = keep("alone", "", lambda: _alone(workshop))
    return Checked(folder, sentences, steps, workshop.runs_made, alone), problems


def _gone_through(
    folder: Folder, room: "_Room", keep: Keep
) -> tuple[tuple[CheckedSentence, ...], tuple[CheckedStep, ...], Problems]:
    """What is found of every script that is asked for, and of the drills."""
    asking = room.asking
    problems: Problems = ()
    sentences: list[CheckedSentence] = []
    for script in folder.scripts:
        if not asking.script or script.name == asking.script:
            found, more = keep("script", script.name, partial(room.script, script))
            sentences += found
            problems += more
    steps = keep("drills", "", room.steps) if folder.drills and not asking.script else ()
    return tuple(sentences), steps, problems


@dataclass(frozen=True, eq=False)
class _Room:
    """What the claims of a folder are judged with, and what was found so far; what scripts are compared with is made
    when it is first wanted."""

    workshop: Workshop
    parsed: ParsedClaims
    told: Told
    memory: Memory | None
    asking: Asking
    judging: Callable[[Claim], tuple[Judged, ...]] | None
    pace: Pace
    _verdicts: dict[tuple[Claim, StandardName], Verdict] = field(default_factory=dict)
    _mended: dict[Claim, tuple[Correction, ...]] = field(default_factory=dict)
    _read: dict[tuple[str, Span], Compared] = field(default_factory=dict)

    @cached_property
    def _comparer(self) -> Comparer:
        return Comparer(Ranking(self.workshop.folder))

    @cached_property
    def _later(self) -> Later:
        return Later(self.workshop.folder)

    @cached_property
    def _claims(self) -> Mapping[tuple[str, Span], tuple[Claim, ...]]:
        return {(one.script, one.sentence.span): one.claims for one in self.parsed.sentences}

    def script(self, script: Script) -> tuple[tuple[CheckedSentence, ...], Problems]:
        """The sentences of a script, and what is told of them."""
        found = [self._sentence(script, heard) for heard in self._comparer.ranking.heard(script)]
        return tuple(one for one, _ in found), tuple(problem for _, problems in found for problem in problems)

    def steps(self) -> tuple[CheckedStep, ...]:
        """The steps of all drills."""
        return tuple(
            CheckedStep(drill, step, tuple(self._judged(claim) for claim in claims))
            for drill in self.workshop.folder.drills
            for step, claims in drill_claims(drill, self.parsed)
        )

    def _judged(self, claim: Claim) -> JudgedClaim:
        only, asking = _only(claim, self.asking), self.asking
        found = self.judging(only) if self.judging is not None else None
        found = found or self._here(only)
        if asking.mending and claim not in self._mended:
            self._mended[claim] = corrections(claim, found, self.workshop, self.told, self.memory)
        return JudgedClaim(claim, found, self._mended.get(claim, ()))

    def _here(self, claim: Claim) -> tuple[Judged, ...]:
        """The verdicts as they are known so far; new ones with the values as stated."""
        wanted = subjects_of(claim, subjects(self.workshop.folder))
        for subject in wanted:
            if (claim, subject.name) not in self._verdicts:
                self._verdicts[claim, subject.name] = self._stated(claim, subject)
        return tuple(Judged(subject, self._verdicts[claim, subject.name]) for subject in wanted)

    def _stated(self, claim: Claim, subject: Subject) -> Verdict:
        if self.pace.stop():
            return Undecided("it was stopped before that was looked at")
        rests = self.asking.rests
        return verdict_for(claim, subject, self.workshop, self.told, rests, self.memory, stop=lambda: rests)

    def waiting(self) -> tuple[Waiting, ...]:
        """The verdicts whose assumed values are still to be tried."""
        by_name = {subject.name: subject for subject in subjects(self.workshop.folder)}
        found = ((claim, by_name[name], verdict) for (claim, name), verdict in self._verdicts.items())
        return tuple(Waiting(*one) for one in found if not_yet(one[-1]))

    def try_assumed(self) -> None:
        """Try the assumed values of those, as far as there is time."""
        self._verdicts.update(tried(self.waiting(), self.workshop, self.told, self.memory, self.pace))

    def _compared(self, script: Script, heard: Heard) -> Compared:
        key = (script.name, heard.sentence.span)
        if key not in self._read:
            self._read[key] = self._comparer.sentence(heard)
        return self._read[key]

    def _sentence(self, script: Script, heard: Heard) -> tuple[CheckedSentence, Problems]:
        sentence, comparer = heard.sentence, self._comparer
        written = self._claims[(script.name, sentence.span)]
        stated, at_odds = cite_verdict(sentence, comparer.ranking.folder)
        at_odds += words_and_claims(heard, written, comparer)
        problems = at_odds
        claims = tuple(self._judged(claim) for claim in written)
        one = CheckedSentence(script, sentence, claims, stated is not None, (), at_odds)
        if one.unchecked or (sentence.cites and not claims):
            compared = self._compared(script, heard)
            problems += told_of(compared)
            likely = tuple(found.paragraph for found in compared.likely) if one.unchecked else ()
            one = _held(replace(one, likely=likely, compared=compared))
        if self.asking.mending:
            pairs = tuple((claim.claim, claim.judged) for claim in claims)
            one = replace(one, overtaken=overtaken(sentence, pairs, self.workshop.folder, self._later))
        return one, problems


def claims_asked(folder: Folder, parsed: ParsedClaims, asking: Asking) -> tuple[Claim, ...]:
    """Every claim that `check_words` would put to its standards, as it would put it, each once."""
    scripts = {script.name for script in folder.scripts if not asking.script or script.name == asking.script}
    said = [claim for one in parsed.sentences if one.script in scripts for claim in one.claims]
    drills = folder.drills if not asking.script else ()
    seen = [claim for drill in drills for _, several in drill_claims(drill, parsed) for claim in several]
    return tuple(dict.fromkeys(_only(claim, asking) for claim in (*said, *seen)))


def _held(one: CheckedSentence) -> CheckedSentence:
    """A sentence that was compared: what it cites does not state it where it says otherwise, or was put out of use."""
    if one.compared is None or not one.sentence.cites or not one.compared.differences:
        return one
    over = tuple(d for d in one.compared.differences if d.sort == "superseded")
    at_odds = one.at_odds + told_of(replace(one.compared, differences=over))
    return replace(one, stated=False, at_odds=at_odds)


def _alone(workshop: Workshop) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The parts that no line joins to anything, each with the standards of which that is true."""
    found: dict[str, list[str]] = {}
    for subject in subjects(workshop.folder):
        if subject.name == subject.standard:
            bound, _ = workshop.bound(subject)
            for name in alone(tuple(bound.parts.values()), bound.kinds, bound.wiring):
                found.setdefault(name, []).append(str(subject.name))
    return tuple((name, tuple(standards)) for name, standards in found.items())


def _only(claim: Claim, asking: Asking) -> Claim:
    """The claim for those standards alone that were asked for."""
    if asking.on is None:
        return claim
    if claim.scope.on is None:
        which = Which("", asking.on)
    else:
        which = Which(claim.scope.on.words, claim.scope.on.names & asking.on)
    return replace(claim, scope=replace(claim.scope, on=which))


def drill_claims(drill: Drill, parsed: ParsedClaims) -> tuple[tuple[Step, tuple[Claim, ...]], ...]:
    """Each step with the claims that its sights come to: all that was done so far, then within a minute it is seen.

    From the first step on of which something was not understood nothing is claimed, as it may have had to be done.
    """
    done: list[Action] = []
    lost = False
    out: list[tuple[Step, tuple[Claim, ...]]] = []
    for step in (one for one in parsed.steps if one.drill == drill.name):
        actions = [action for mark in step.marks if isinstance(mark, Done) for action in mark.actions]
        if done and actions:
            done.append(Wait(BETWEEN_STEPS, step.step.span))
        done.extend(actions)
        lost = lost or len(step.marks) < len(step.step.marks)
        sights = [] if lost else [mark.statement for mark in step.marks if isinstance(mark, Looked)]
        out.append((step.step, tuple(Claim(_after(drill, tuple(done), s.span), s, s.span) for s in sights)))
    return tuple(out)


def _after(drill: Drill, done: tuple[Action, ...], span: Span) -> Scope:
    on = drill.on if drill.on.words else None
    return Scope(on, drill.situation, (), (), (), done, When("within", DRILL_WATCH), "", span)
