"""A folder's scripts and drills put to the model: a verdict for every claim, as `check` and the pack want them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from cutaway.handbook.records import Folder, Script
from cutaway.inquiry.check import Judged, not_yet, subjects_of, verdict_for
from cutaway.inquiry.many import UNHURRIED, Pace, Waiting, tried
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.corrections import Correction, corrections
from cutaway.inquiry.together import run_together
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Undecided, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import ParsedClaims
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject, subjects
from cutaway.machine.wiring import alone
from cutaway.narrate.checked import Asking, Checked, CheckedSentence, CheckedStep, JudgedClaim, Keep, found_here
from cutaway.narrate.citing import cite_verdict
from cutaway.narrate.claimed import words_and_claims
from cutaway.narrate.compared import Compared
from cutaway.narrate.drill_claims import drill_claims
from cutaway.narrate.likely import Heard, Ranking
from cutaway.narrate.obsolete import overtaken
from cutaway.narrate.sentence_first import Comparer
from cutaway.narrate.sentence_first import told as told_of
from cutaway.narrate.superseding import Later
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import StandardName, Which


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
    room = _Room(workshop, parsed, told, memory, asking, judging, keep, pace)
    sentences, steps, problems = _gone_through(folder, room)
    if room.waiting() and not pace.stop():
        room.try_assumed()
        sentences, steps, problems = _gone_through(folder, room)
    alone = keep("alone", "", lambda: _alone(workshop))
    return Checked(folder, sentences, steps, workshop.runs_made, alone), problems


def _gone_through(
    folder: Folder, room: "_Room"
) -> tuple[tuple[CheckedSentence, ...], tuple[CheckedStep, ...], Problems]:
    """What is found of every script that is asked for, and of the drills."""
    asking = room.asking
    problems: Problems = ()
    sentences: list[CheckedSentence] = []
    for script in folder.scripts:
        if not asking.script or script.name == asking.script:
            found, more = room.keep("script", script.name, partial(room.script, script))
            sentences += found
            problems += more
    steps = room.keep("drills", "", room.steps) if folder.drills and not asking.script else ()
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
    keep: Keep
    pace: Pace
    _beside: list[Claim] = field(default_factory=list)
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
        self._beside[:] = [claim for one in script.sentences for claim in self._claims[(script.name, one.span)]]
        found = [self._sentence(script, heard) for heard in self._comparer.ranking.heard(script)]
        return tuple(one for one, _ in found), tuple(problem for _, problems in found for problem in problems)

    def steps(self) -> tuple[CheckedStep, ...]:
        """The steps of all drills."""
        steps = [(d, *one) for d in self.workshop.folder.drills for one in drill_claims(d, self.parsed)]
        self._beside[:] = [claim for _, _, claims in steps for claim in claims]
        return tuple(CheckedStep(d, step, tuple(self._judged(claim) for claim in claims)) for d, step, claims in steps)

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
        return self.keep("verdict", (claim, subject.name), partial(self._found, claim, subject))

    def _found(self, claim: Claim, subject: Subject) -> Verdict:
        if self.pace.stop():
            return Undecided("it was stopped before that was looked at")
        self._run_together()
        rests = self.asking.rests
        return verdict_for(claim, subject, self.workshop, self.told, rests, self.memory, stop=lambda: rests)

    def _run_together(self) -> None:
        """Run what the claims beside this one will want too, on all processors: where one is new, mostly others are."""
        everyone = subjects(self.workshop.folder)
        asked = dict.fromkeys(_only(claim, self.asking) for claim in self._beside)
        self._beside.clear()
        put = [
            (claim, subject)
            for claim in asked
            if self.judging is None or not self.judging(claim)
            for subject in subjects_of(claim, everyone)
            if (claim, subject.name) not in self._verdicts
        ]
        run_together(put, self.workshop, self.told, self.asking.rests, self.memory)

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
    """The parts that no line joins to anything, each with the standards of which that is true; not where
    that may come of what is left out for a mistake."""
    found: dict[str, list[str]] = {}
    if workshop.folder.unread or workshop.folder.lost:
        return ()
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
