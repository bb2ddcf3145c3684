"""A folder's scripts and drills with a verdict for every claim: what `check` finds and the pack shows."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from cutaway.handbook.records import Drill, Folder, Paragraph, Script, Sentence, Step
from cutaway.inquiry.check import Judged, judge
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.corrections import Correction, corrections
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Empty, Fails, NotModelled, RestsOn, Undecided, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import Done, Looked, ParsedClaims
from cutaway.language.syntax import Action, Claim, Scope, Wait, When
from cutaway.machine.subjects import subjects
from cutaway.machine.wiring import alone
from cutaway.narrate.citing import cite_verdict
from cutaway.narrate.claimed import words_and_claims
from cutaway.narrate.compared import Compared
from cutaway.narrate.coverage import checking
from cutaway.narrate.likely import Ranking
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
) -> tuple[Checked, Problems]:
    """Put every claim of the scripts and every sight of the drills to the standards that it is for.

    judging: verdicts that were found elsewhere (on a cluster, say), by claim; () for one that is not among them.
    """
    problems: Problems = ()
    claims_of = {(one.script, one.sentence.span): one.claims for one in parsed.sentences}
    sentences: list[CheckedSentence] = []
    folder = workshop.folder

    def judged(claim: Claim) -> JudgedClaim:
        found = judging(_only(claim, asking)) if judging is not None else None
        found = found or judge(_only(claim, asking), workshop, told, asking.rests, memory)
        mended = corrections(claim, found, workshop, told, memory) if asking.mending else ()
        return JudgedClaim(claim, found, mended)

    ranking = Ranking(folder) if folder.scripts else None
    later = Later(folder)
    comparer = Comparer(ranking) if ranking is not None else None
    for script in folder.scripts:
        if asking.script and script.name != asking.script:
            continue
        assert ranking is not None and comparer is not None
        for heard in ranking.heard(script):
            sentence = heard.sentence
            stated, at_odds = cite_verdict(sentence, ranking.folder)
            at_odds += words_and_claims(heard, claims_of[(script.name, sentence.span)], comparer)
            problems += at_odds
            claims = tuple(judged(claim) for claim in claims_of[(script.name, sentence.span)])
            one = CheckedSentence(script, sentence, claims, stated is not None, (), at_odds)
            if one.unchecked or (sentence.cites and not claims):
                compared = comparer.sentence(heard)
                problems += told_of(compared)
                likely = tuple(found.paragraph for found in compared.likely) if one.unchecked else ()
                one = _held(replace(one, likely=likely, compared=compared))
            if asking.mending:
                pairs = tuple((claim.claim, claim.judged) for claim in claims)
                one = replace(one, overtaken=overtaken(sentence, pairs, folder, later))
            sentences.append(one)
    steps: list[CheckedStep] = []
    for drill in folder.drills if not asking.script else ():
        for step, claims_here in drill_claims(drill, parsed):
            steps.append(CheckedStep(drill, step, tuple(judged(claim) for claim in claims_here)))
    return Checked(folder, tuple(sentences), tuple(steps), workshop.runs_made, _alone(workshop)), problems


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
