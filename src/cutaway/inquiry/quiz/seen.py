"""Questions of what is seen: what lamps and pointers show together, and what one dial reads, in a case of a talk."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import product

from cutaway.handbook.doubts import not_borne_out
from cutaway.handbook.records import given_on
from cutaway.inquiry.questions.indications import LEAST, Indication, alike, indications
from cutaway.inquiry.quiz.candidates import (
    Candidate,
    SaidClaim,
    case_of,
    parts_in,
    plain_scope,
    said_claims,
    subjects_for,
    system_of,
)
from cutaway.inquiry.quiz.proving import Setter, arranged, cause_of, claim_text, option, order_of
from cutaway.inquiry.quiz.records import Asked, Option, QuizQuestion, Sort, Trap, WhatReads, WhatShows
from cutaway.inquiry.quiz.showing import Variant, shown, variants
from cutaway.inquiry.verdicts import Seen
from cutaway.language.print_back import printed_scope
from cutaway.language.syntax import Scope
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Reading, State
from cutaway.quantities.quantity import Unit
from cutaway.quantities.si import figure, from_si, to_si
from cutaway.quantities.units import unit_named

APART = 0.05
"""How near figures may lie, of the larger, and still count as the same reading of a dial. A choice of ours."""

Shown = Mapping[Indication, Seen]


@dataclass(frozen=True, slots=True, eq=False)
class Case:
    """A course of things in a talk on one subject, with one moment to look at. parts: what the talk says of it."""

    setter: Setter
    said: SaidClaim
    subject: Subject
    scope: Scope
    parts: tuple[str, ...]
    key: str

    @property
    def bound(self) -> Bound:
        """The subject's network."""
        return self.setter.workshop.bound(self.subject)[0]


def seen_candidates(setter: Setter, among: tuple[Subject, ...]) -> Iterator[Candidate]:
    """A question of states and one of figures for each case of a talk and what it says of it."""
    sorts: tuple[tuple[Sort, Callable[[Case], QuizQuestion | None]], ...] = (("shows", _states), ("reads", _figures))
    known: set[str] = set()
    for said in said_claims(setter):
        scope = plain_scope(said.claim)
        parts = parts_in(said.claim.statement, setter)
        if scope is None or not parts:
            continue
        words = printed_scope(replace(scope, on=None))
        for subject in subjects_for(said.claim, setter, among):
            for sort, make in sorts:
                key = f"{sort}; {subject.name}; {words}; {parts[0]}"
                if key not in known:
                    known.add(key)
                    case = Case(setter, said, subject, scope, parts, key)
                    place = (system_of(setter, parts), partial(make, case), said.script, said.sentence.chapter)
                    yield Candidate(key, sort, subject, *place)


# --- states --------------------------------------------------------------------------------------------------------


def _states(case: Case) -> QuizQuestion | None:
    """What two lamps, horns or engines show together."""
    looked = _looked(case, State)
    if looked is None:
        return None
    here, others = looked
    chosen = _telling(case, here, others)
    if not chosen:
        return None
    right = tuple(here[one] for one in chosen)
    wrong: dict[tuple[str, ...], tuple[tuple[Seen, ...], Trap]] = {}
    for trap, there in others:
        if all(one in there for one in chosen):
            _put(wrong, tuple(there[one] for one in chosen), trap)
    for flipped in product(*((here[one], _flipped(one, here[one])) for one in chosen)):
        _put(wrong, flipped, Trap("opposite"))
    wrong.pop(tuple(one.state for one in right), None)
    answer = _shows(case, right, Trap(""))
    false = [_shows(case, seen, trap) for seen, trap in wrong.values()]
    return _question(case, "shows", WhatShows(case.scope, tuple(one.what for one in right)), answer, false)


def _put(wrong: dict[tuple[str, ...], tuple[tuple[Seen, ...], Trap]], seen: tuple[Seen, ...], trap: Trap) -> None:
    """The first reason to believe something is the one that is told."""
    wrong.setdefault(tuple(one.state for one in seen), (tuple(replace(one, time=0.0) for one in seen), trap))


def _flipped(one: Indication, seen: Seen) -> Seen:
    assert isinstance(one.shows, State)
    opposite = one.shows.opposite or f"not {one.shows.words}"
    return replace(seen, state=opposite if seen.state == one.shows.words else one.shows.words)


def _telling(case: Case, here: Shown, others: list[tuple[Trap, Shown]]) -> tuple[Indication, ...]:
    """A state that somebody could be wrong about, of what the talk speaks of or of its system, and beside it the one
    with which it makes the most different showings; () where there is no such state, or nothing is done."""
    systems = {str(part.name): part.system for part in case.setter.folder.parts}
    system = system_of(case.setter, case.parts)

    def rank(one: Indication) -> tuple[bool, bool, str]:
        return (one.part not in case.parts, systems[one.part] != system, order_of(case.key, one.part))

    def kinds_of(*several: Indication) -> int:
        """How many different showings there are of them together."""
        seen = [there for _, there in others if all(one in there for one in several)]
        return len({tuple(there[one].state for one in several) for there in (here, *seen)})

    near = [one for one in here if one.part in case.parts or systems[one.part] == system]
    telling = [one for one in near if any(_by_itself(case, trap) and one in there and not alike(here[one], there[one])
                                          for trap, there in others)]  # fmt: skip
    if not telling:
        return ()
    first = min(telling, key=rank)
    rest = [one for one in here if one.part != first.part and kinds_of(first, one) > 2]
    beside = systems[first.part]
    second = min(rest, key=lambda one: (systems[one.part] != beside, -kinds_of(first, one), *rank(one)), default=None)
    return (first,) if second is None else (first, second)


def _by_itself(case: Case, trap: Trap) -> bool:
    """Whether a trap makes a question worth asking; where nothing is done, another situation alone does not."""
    done = case.scope.actions or case.scope.failures or case.scope.held or case.scope.conditions
    return bool(done) or trap.sort == "other mark"


def _shows(case: Case, seen: tuple[Seen, ...], trap: Trap) -> Option | None:
    words = " and ".join(f"{one.what} is {one.state}" for one in seen)
    text = claim_text(case.setter.folder, case.subject, case.scope, words)
    return option(case.setter, case.subject, text, seen, trap)


# --- figures -------------------------------------------------------------------------------------------------------


def _figures(case: Case) -> QuizQuestion | None:
    """What one dial reads."""
    looked = _looked(case, Reading)
    if looked is None:
        return None
    here, others = looked
    chosen = _dial(case, here, others)
    if chosen is None:
        return None
    dial, right = chosen, here[chosen]
    assert isinstance(dial.shows, Reading)
    unit = _unit(case, dial.shows)
    found: list[tuple[Seen, Trap]] = [(there[dial], trap) for trap, there in others if dial in there]
    found += [(replace(right, value=si), trap) for si, trap in _settings(case, dial.shows)]
    answer = _reads(case, right, unit, Trap(""))
    kept: list[Seen] = [right]
    false: list[Option | None] = []
    for seen, trap in found:
        if not any(_same(seen, one) for one in kept):
            kept.append(seen)
            false.append(_reads(case, seen, unit, trap))
    if len([one for one in false if one is not None]) < 2:
        return None  # a choice between two figures tells nobody anything
    return _question(case, "reads", WhatReads(case.scope, right.what), answer, false)


def _dial(case: Case, here: Shown, others: list[tuple[Trap, Shown]]) -> Indication | None:
    """A dial of what the talk speaks of, or of its system, that shows something else in some other case."""
    systems = {str(part.name): part.system for part in case.setter.folder.parts}
    system = system_of(case.setter, case.parts)
    telling = [
        one
        for one, seen in here.items()
        if (one.part in case.parts or systems[one.part] == system)
        and seen.value is not None
        and any(_by_itself(case, trap) and one in there and not _same(seen, there[one]) for trap, there in others)
    ]
    return min(telling, key=lambda one: (one.part not in case.parts, order_of(case.key, one.part)), default=None)


def _same(one: Seen, other: Seen) -> bool:
    """Whether two readings are too near to be two options."""
    if one.value is None or other.value is None:
        return one.value is other.value and one.state == other.state
    return abs(one.value - other.value) <= 2.5 * _leeway(one.dimension, max(abs(one.value), abs(other.value)))


def _leeway(dimension: str, value: float) -> float:
    share = 0.0 if dimension == "temperature" else APART * abs(value)
    return max(LEAST.get(dimension, 0.0), share)


def _settings(case: Case, reading: Reading) -> Iterator[tuple[float, Trap]]:
    """Figures that the books print of parts that the case is about, of the dial's own dimension."""
    standard = case.subject.standard
    named = (*case.parts, *(str(one.part) for choice in case.scope.failures for one in choice.options))
    for name in named:
        part = case.bound.parts.get(name)
        for want in case.bound.kinds[part.kind].wants if part is not None else ():
            given = given_on(part, want.name, standard) if part is not None else None
            if given is None or want.dimension != reading.dimension or given.assumed:
                continue
            if not not_borne_out(given, want, standard, case.setter.folder):
                trap = Trap("figure of", f"the {name} ({want.name})", given.cites)
                yield to_si(given.quantity, want.datum), trap


def _unit(case: Case, reading: Reading) -> Unit:
    """The house's unit; a suction, on no datum, keeps that of its dial."""
    house = dict(case.setter.folder.type.house_units)
    own = reading.dimension == "pressure" and reading.datum == ""
    return unit_named(reading.unit if own else house.get(reading.dimension, reading.unit))


def _reads(case: Case, seen: Seen, unit: Unit, trap: Trap) -> Option | None:
    """The claim that a dial reads so much, as near as a reader of dials would say it."""
    if seen.value is None:
        text = claim_text(case.setter.folder, case.subject, case.scope, f"{seen.what} is {seen.state}")
        return option(case.setter, case.subject, text, (replace(seen, time=0.0),), trap)
    near = 0.0 if abs(seen.value) < LEAST.get(seen.dimension, 0.0) else seen.value
    words, leeway = figure(from_si(near, unit), 2).replace(",", ""), _leeway(seen.dimension, seen.value) / unit.size
    statement = f"{seen.what} reads {words} {unit.name} ± {figure(leeway, 2)}"
    text = claim_text(case.setter.folder, case.subject, case.scope, statement)
    return option(case.setter, case.subject, text, (replace(seen, value=near, time=0.0),), trap)


# --- both ----------------------------------------------------------------------------------------------------------


def _looked(case: Case, sort: type[State] | type[Reading]) -> tuple[Shown, list[tuple[Trap, Shown]]] | None:
    """What is shown in the case, and in every other case that somebody could take it for."""
    every = [one for one in indications(case.bound) if isinstance(one.shows, sort)]
    here = shown(case.setter, case.subject, case.scope, every)
    if not here:
        return None
    others: list[tuple[Trap, Shown]] = []
    for variant in variants(case.setter, Variant(Trap(""), case.subject, case.scope)):
        steady = variant.trap.sort == "other situation"
        there = shown(case.setter, variant.subject, variant.scope, every, steady)
        if there:
            others.append((variant.trap, there))
    return here, others


def _question(
    case: Case, sort: Sort, asked: Asked, answer: Option | None, false: list[Option | None]
) -> QuizQuestion | None:
    if answer is None:
        return None
    options = arranged(case.key, answer, [one for one in false if one is not None])
    if options is None:
        return None
    what = asked.parts[0] if isinstance(asked, WhatShows) else asked.what if isinstance(asked, WhatReads) else ""
    system = system_of(case.setter, (what, *case.parts))
    place = (case.said.script, case.said.sentence.chapter)
    cause = cause_of(case.setter, answer)
    return QuizQuestion(case.key, sort, case.subject, system, asked, options, *place, cause, case_of(case.scope))
