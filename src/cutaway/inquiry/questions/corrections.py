"""What a claim that fails would have to say to be true: the smallest changes, each judged by the model in its turn."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.inquiry.check import Judged, verdict_for
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.other_figures import other_figures
from cutaway.inquiry.questions.other_moments import other_moments
from cutaway.inquiry.questions.remembered import Remembered
from cutaway.inquiry.questions.standards_named import named_shortly
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import base_of
from cutaway.inquiry.search.changes import Put, put
from cutaway.inquiry.search.minimal import Bound as Limit
from cutaway.inquiry.search.minimal import Search, minimal_sets
from cutaway.inquiry.search.trying import Trying
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.signals import atoms
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, RestsOn, Stated, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import AtPosition, Claim, ControlRef, Held, Scope
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import Subject, subjects
from cutaway.quantities.which import Standard, StandardName, Which

# How many sets of one or two controls elsewhere are tried for one claim, how many corrections of a sort are told,
# and how many controls are held at once for what is to be so always. Choices of ours: a check must stay quick.
MOST_TRIES = 240
MOST_TOLD = 2
MOST_HELD = 3

Sort = Literal["standards", "figure", "time", "control"]


@dataclass(frozen=True, slots=True)
class Correction:
    """One way to mend a claim. claim: as it would then read. standards: for which it was judged, and holds.

    put: the controls that must stand elsewhere, each with its position, () for the other sorts. only: whether there
    is one such control, and none of its other positions does.
    """

    sort: Sort
    claim: Claim
    standards: tuple[StandardName, ...]
    put: tuple[tuple[str, str], ...] = ()
    only: bool = False


def corrections(
    claim: Claim, judged: Sequence[Judged], workshop: Workshop, told: Told, memory: Memory | None = None
) -> tuple[Correction, ...]:
    """The smallest corrections of a claim that fails on one standard or more; () where none is found, or none fails.

    Tried are other standards, other figures and times, and one control elsewhere. Whatever is told has been put to the
    model and holds.
    """
    failing = tuple((one.subject, fails) for one in judged if (fails := failed(one.verdict)) is not None)
    if not failing:
        return ()
    bench = _Bench(workshop, told, memory)
    found: list[Correction] = []
    found.extend(_other_standards(claim, judged, bench))
    mended: dict[tuple[Sort, Claim], Correction] = {}
    for subject, fails in failing:
        known = [one for one in mended.values() if bench.so(one.claim, subject)]
        for one in known or _on_subject(claim, subject, fails, bench):
            key = (one.sort, one.claim)
            before = mended.get(key)
            standards = (*before.standards, subject.name) if before is not None else (subject.name,)
            mended[key] = replace(before or one, standards=standards)
    return (*found, *mended.values())


def failed(verdict: Verdict) -> Fails | None:
    """The failure in a verdict, with the stated values; None where it does not fail."""
    if isinstance(verdict, RestsOn):
        return verdict.nominal if isinstance(verdict.nominal, Fails) else None
    return verdict if isinstance(verdict, Fails) else None


@dataclass(frozen=True, slots=True, eq=False)
class _Bench:
    """What a corrected claim is put to."""

    workshop: Workshop
    told: Told
    memory: Memory | None

    def so(self, claim: Claim, subject: Subject) -> bool:
        """Whether a claim is true on a subject, with the stated values."""
        return isinstance(self.verdict(claim, subject), Holds | Stated)

    def verdict(self, claim: Claim, subject: Subject) -> Verdict:
        """The verdict with the stated values."""
        return verdict_for(claim, subject, self.workshop, self.told, False, self.memory)


def _on_subject(claim: Claim, subject: Subject, fails: Fails, bench: _Bench) -> Iterator[Correction]:
    """The corrections for one subject: those that keep the scope first."""
    bound, _ = bench.workshop.bound(subject)
    at_last = False
    for statement in other_figures(claim.statement, fails, bound):
        one = replace(claim, statement=statement)
        if bench.so(one, subject):
            at_last = True
            yield Correction("figure", one, (subject.name,))
            break
    for when in other_moments(claim, fails, lambda one: bench.verdict(one, subject)):
        one = replace(claim, scope=replace(claim.scope, when=when))
        if bench.so(one, subject):
            at_last = True
            yield Correction("time", one, (subject.name,))
            break
    if not at_last:
        yield from _controls(claim, subject, fails, bound, bench)


# --- other standards -----------------------------------------------------------------------------------------------


def _other_standards(claim: Claim, judged: Sequence[Judged], bench: _Bench) -> Iterator[Correction]:
    """The standards on which the claim is true as it stands: those of its own, or else all others."""
    everyone = tuple(s for s in subjects(bench.workshop.folder) if s.name == s.standard)
    if any(one.subject.name != one.subject.standard for one in judged):
        return  # of an airframe it is the airframe that the sentence is about
    so = {one.subject.name for one in judged if isinstance(one.verdict, Holds | Stated)}
    if not so:
        asked = {one.subject.name for one in judged}
        so = {subject.name for subject in everyone if subject.name not in asked and bench.so(claim, subject)}
    if not so:
        return
    standards: tuple[Standard, ...] = bench.workshop.folder.type.standards
    words = named_shortly(standards, frozenset(so))
    names = tuple(standard.name for standard in standards if standard.name in so)
    which = Which(words, frozenset(so))
    yield Correction("standards", replace(claim, scope=replace(claim.scope, on=which)), names)


# --- a control elsewhere -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Place:
    """Where a control may stand. level: for one that moves through a range. alone: whether none of its other positions
    that were tried will do."""

    control: ControlRef
    position: str
    level: float | None
    alone: bool

    @property
    def words(self) -> tuple[str, str]:
        """The control and its position as they are told."""
        name = f"{self.control.part} {self.control.control}" if self.control.control else str(self.control.part)
        return name, self.position or f"{100.0 * (self.level or 0.0):.0f} %"


def _controls(claim: Claim, subject: Subject, fails: Fails, bound: Bound, bench: _Bench) -> Iterator[Correction]:
    """One control elsewhere from the situation on, or two; where every position was gone through, those that the
    smallest counterexample moved, held where the situation has them. Of each control the first position that does."""
    told: set[frozenset[ControlRef]] = set()
    tried: dict[Place, bool] = {}
    for found in _candidates(claim, subject, fails, bound, bench):
        places = found
        if len(found) > 1 and not claim.scope.modality:
            # A search moves controls at the situation's end; the claim holds them from its beginning, where one of
            # them may do by itself.
            for place in found:
                if place not in tried:
                    tried[place] = bench.so(_with(claim, (place,)), subject)
            places = next(((replace(one, alone=False),) for one in found if tried[one]), found)
        which = frozenset(place.control for place in places)
        if any(known <= which for known in told):
            continue
        one = _with(claim, places)
        if bench.so(one, subject):
            only = len(places) == 1 and places[0].alone
            yield Correction("control", one, (subject.name,), tuple(place.words for place in places), only)
            told.add(which)
            if len(told) == MOST_TOLD:
                return


def _holding(scope: Scope, held: Held) -> Scope:
    return replace(scope, held=(*(h for h in scope.held if h.control != held.control), held))


def _candidates(
    claim: Claim, subject: Subject, fails: Fails, bound: Bound, bench: _Bench
) -> Iterator[tuple[Place, ...]]:
    question = Question(claim.statement, claim.scope, bound, bench.told, bench.workshop)
    spoken = {
        (str(a.control.part), a.control.control)
        for a in atoms(claim.statement, bench.told.services)
        if isinstance(a, AtPosition)
    }
    if claim.scope.modality:
        alone = list(_of_counterexample(question, fails, spoken))
        yield from alone
        if not any(bench.so(_with(claim, places), subject) for places in alone):
            yield from _held_together(claim, fails, bound, subject, bench, spoken)
        return
    base = base_of(question)
    if isinstance(base, NotModelled):
        return
    puts = tuple(
        one
        for one in universe(base, frozenset({"control"}))
        if isinstance(one, Put) and (one.part, one.control) not in spoken
    )
    by_size: dict[int, list[frozenset[Put]]] = {}
    does = Remembered(Trying(base, True), base, True, bench.memory)
    for found in minimal_sets(puts, does, Limit(size=2, tries=MOST_TRIES), Search()):
        if len(found) > 1 and 1 in by_size:
            break  # one control does it, so that two are not wanted
        by_size.setdefault(len(found), []).append(found)
    does.keep()
    for sets in by_size.values():
        count = Counter(p.input for one in sets for p in one)
        for one in sets:
            yield tuple(_place(p, bound, count[p.input] == 1) for p in sorted(one, key=puts.index))


def _of_counterexample(
    question: Question, fails: Fails, spoken: set[tuple[str, str]], so_far: tuple[Place, ...] = ()
) -> Iterator[tuple[Place, ...]]:
    """Each control that the counterexample moved, where the situation has it; besides those that are held there."""
    from_input = {slot.input: slot for slot in question.bound.controls.values()}
    stands = _stands(question)
    held = {place.control for place in so_far}
    for name, _ in fails.counterexample.chosen if fails.counterexample is not None else ():
        slot = from_input.get(name)
        if slot is not None and (slot.part, slot.control) not in spoken:
            there = put(slot, stands.get(name, 0.0), "")
            place = _place(there, question.bound, not so_far and len(slot.positions) == 2 and not slot.ranged)
            if place.control not in held:
                yield (*so_far, place)


def _held_together(
    claim: Claim, fails: Fails, bound: Bound, subject: Subject, bench: _Bench, spoken: set[tuple[str, str]]
) -> Iterator[tuple[Place, ...]]:
    """For what is to be so always: controls held where the situation has them, one more for each counterexample that is
    left, to the most that a sentence can name. Only the whole of them is offered."""
    places: tuple[Place, ...] = ()
    while len(places) < MOST_HELD:
        question = Question(claim.statement, claim.scope, bound, bench.told, bench.workshop)
        places = next(_of_counterexample(question, fails, spoken, places), ())
        if not places:
            return
        verdict = failed(bench.verdict(_with(claim, places), subject))
        if verdict is None:
            yield places
            return
        fails = verdict


def _with(claim: Claim, places: tuple[Place, ...]) -> Claim:
    """The claim with controls held elsewhere."""
    scope = claim.scope
    for place in places:
        scope = _holding(scope, Held(place.control, place.position, place.level, claim.scope.span))
    return replace(claim, scope=scope)


def _stands(question: Question) -> dict[str, float]:
    base = base_of(replace(question, scope=replace(question.scope, modality="", actions=())))
    return {} if isinstance(base, NotModelled) else dict(base.stands)


def _place(there: Put, bound: Bound, alone: bool) -> Place:
    slot = bound.controls[(there.part, there.control)]
    ref = ControlRef(bound.parts[there.part].name, there.control)
    named = next((p for p in slot.positions if abs(slot.value(p) - there.value) < 1e-9), None)
    return Place(ref, named or "", None if named is not None else there.value, alone)
