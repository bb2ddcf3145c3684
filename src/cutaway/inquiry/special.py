"""Statements that one run cannot settle: order, trend, independence, comparison of scopes, thresholds, movement."""

from dataclasses import replace

import numpy as np

from cutaway.inquiry.bench import bench_verdict
from cutaway.inquiry.deciding import LONGEST_REST, horizon
from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.judging import Question, machine_for, scenes_of
from cutaway.inquiry.positions import all_combinations, said
from cutaway.inquiry.signals import kind_on, reading_of
from cutaway.inquiry.told import Told, legs_for, placed_at_end
from cutaway.inquiry.truth import reading_datum, reading_trace, truth
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, Seen, Setup, Undecided, Verdict
from cutaway.inquiry.workshop import Request
from cutaway.language.syntax import (
    AgainstScope,
    And,
    CanMove,
    ComesOnAt,
    Compare,
    Condition,
    Earlier,
    Independent,
    ReadingRef,
    Scope,
    Statement,
    Trend,
)
from cutaway.machine import names
from cutaway.machine.records import Change, Outcome, Run
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import unit_named

# A reading counts as changed when it moves by more than this share: a choice of ours, well above the solver's error.
SAME = 2e-3

Special = Earlier | Trend | Independent | AgainstScope | ComesOnAt | CanMove


def is_special(statement: Statement) -> bool:
    """Whether one run does not settle it."""
    return isinstance(statement, Special)


def special_verdict(question: Question) -> Verdict:
    """The verdict on such a statement."""
    match question.statement:
        case Earlier():
            return _earlier(question, question.statement)
        case Trend():
            return _trend(question, question.statement)
        case Independent():
            return _independent(question, question.statement)
        case AgainstScope():
            return _against(question, question.statement)
        case ComesOnAt():
            return bench_verdict(question, question.statement)
        case CanMove():
            return _can_move(question, question.statement)
        case _:
            raise AssertionError(type(question.statement).__name__)


def _first_run(question: Question, seconds: float | None = None) -> tuple[Run, float] | Verdict:
    """The run of the plainest scene of a question, and its clock; or why there is none."""
    made = machine_for(question)
    if isinstance(made, NotModelled):
        return made
    scenes = scenes_of(question, made)
    if isinstance(scenes, NotModelled):
        return scenes
    scene = scenes.all[0]
    length, rest = horizon(question.scope.when, scene.clock) if seconds is None else (scene.clock + seconds, True)
    (run,) = question.workshop.runs([Request(made, scene.legs, scene.changes, length, rest)])
    if isinstance(run, Outcome):
        return Undecided(run.sentence)
    if run.outcome.kind != "done":
        return Undecided(run.outcome.sentence)
    return run, scene.clock


def _earlier(question: Question, statement: Earlier) -> Verdict:
    both = replace(question, statement=And((statement.first, statement.second), statement.span))
    found = _first_run(both, LONGEST_REST)
    if not isinstance(found, tuple):
        return found
    run, clock = found
    services = question.told.services
    first = truth(statement.first, run, question.bound, services).first(clock)
    second = truth(statement.second, run, question.bound, services).first(clock)
    cites = cites_of(both.statement, question.scope, question.bound, services)
    if first is None:
        return Fails(0.0, "never came", (), cites)
    if second is None or first < second:
        return Holds(first - clock, (), cites)
    return Fails(second - clock, "order", (), cites)


def _reading_at_end(question: Question, ref: ReadingRef) -> float | Verdict:
    """A reading once the scope's plainest scene has come to rest."""
    found = _first_run(replace(question, statement=_as_compare(ref, question)))
    if not isinstance(found, tuple):
        return found
    return float(reading_trace(ref, found[0], question.bound)[-1])


def _as_compare(ref: ReadingRef, question: Question) -> Statement:
    none = Quantity("0", 0.0, 0.0, 0.0, unit_named("number"))
    return Compare(ref, "above", none, False, False, question.statement.span)


def _seen(question: Question, ref: ReadingRef, value: float) -> Seen:
    kind = kind_on(question.bound, ref.part)
    reading = reading_of(kind, ref.reading) if kind is not None and not ref.port else None
    name = f"{ref.part}.{ref.port}" if ref.port else str(ref.part)
    dimension = "pressure" if reading is None else reading.dimension
    return Seen(name, 0.0, value, dimension, "", reading_datum(ref, question.bound))


def _trend(question: Question, statement: Trend) -> Verdict:
    values: list[float] = []
    for level in np.linspace(statement.start, statement.stop, 5):
        told = _with_change(question, statement.condition, float(level))
        value = _reading_at_end(replace(question, told=told), statement.reading)
        if not isinstance(value, float):
            return value
        values.append(value)
    steps = np.diff(values)
    small = SAME * max(abs(v) for v in values) if values else 0.0
    so = bool(np.all(steps > small / 5)) if statement.rises else bool(np.all(steps < -small / 5))
    ends = tuple(_seen(question, statement.reading, v) for v in (values[0], values[-1]))
    return Holds(0.0, ends, (), len(values)) if so else Fails(0.0, "trend", ends, (), tried=len(values))


def _with_change(question: Question, condition: str, value: float) -> Told:
    """The folder's situations with one condition of the world at another value, SI."""
    unit = unit_named({"height": "m", "airspeed": "m/s", "temperature": "K"}[condition])
    one = Condition("", condition, Quantity(str(value), value, value, value, unit), question.scope.span)
    name = question.scope.situation
    here = question.told.situations.get(name)
    if here is None:
        return question.told
    changed = replace(here, given=(*(c for c in here.given if c.name != condition), one))
    return replace(question.told, situations={**question.told.situations, name: changed})


def _independent(question: Question, statement: Independent) -> Verdict:
    kind = kind_on(question.bound, statement.part)
    if kind is None:
        return NotModelled((str(statement.part),))
    watched = [s.signal for s in kind.states] + [r.signal for r in kind.readings]
    signals = frozenset(names.signal_name(statement.part, name) for name in watched)
    made = question.workshop.made(question.bound, signals)
    inputs = {names.control_name(c.part, c.control) for c in statement.controls}
    slots = tuple(s for s in question.bound.controls.values() if s.input in inputs)
    legs = legs_for(question.workshop.folder, question.told, question.bound, question.scope)
    base = placed_at_end(legs)
    combinations = tuple(all_combinations(slots, base))
    requests = [
        Request(made, legs, tuple(Change(0.0, s.input, v) for s, v in combination), LONGEST_REST, True)
        for combination in combinations
    ]
    results = question.workshop.runs(requests)
    ends = []
    for result in results:
        if isinstance(result, Outcome) or result.outcome.kind != "done":
            outcome = result if isinstance(result, Outcome) else result.outcome
            return Undecided(outcome.sentence)
        ends.append(result.values[-1])
    scale = np.maximum(np.abs(np.array(ends)).max(axis=0), 1e-9)
    for combination, end in zip(combinations, ends, strict=True):
        if np.any(np.abs(end - ends[0]) > SAME * scale):
            chosen = Setup(tuple((s.input, said(s, v)) for s, v in combination))
            if statement.negated:
                return Holds(0.0, (), (), len(ends), chosen)
            return Fails(0.0, "depends", (), (), chosen, tried=len(ends))
    return Fails(0.0, "not so", (), (), tried=len(ends)) if statement.negated else Holds(0.0, (), (), len(ends))


def _against(question: Question, statement: AgainstScope) -> Verdict:
    here = _reading_at_end(question, statement.reading)
    other_scope = _merged(question.scope, statement.other)
    there = _reading_at_end(replace(question, scope=other_scope), statement.reading)
    if not isinstance(here, float):
        return here
    if not isinstance(there, float):
        return there
    small = SAME * max(abs(here), abs(there), 1e-9)
    so = {"higher": here > there + small, "lower": here < there - small, "same": abs(here - there) <= small}
    seen = (_seen(question, statement.reading, here), _seen(question, statement.reading, there))
    if so[statement.op]:
        return Holds(0.0, seen, (), 2)
    match statement.op:
        case "higher":
            return Fails(0.0, "not higher", seen, (), tried=2)
        case "lower":
            return Fails(0.0, "not lower", seen, (), tried=2)
        case "same":
            return Fails(0.0, "not the same", seen, (), tried=2)


def _merged(base: Scope, other: Scope) -> Scope:
    return replace(
        base,
        situation=other.situation or base.situation,
        failures=(*base.failures, *other.failures),
        conditions=(*base.conditions, *other.conditions),
        held=(*base.held, *other.held),
        actions=(*base.actions, *other.actions),
    )


def _can_move(question: Question, statement: CanMove) -> Verdict:
    """A movement is refused where a rule for that control and position has a condition that is not so."""
    bound = question.bound
    slot = bound.controls.get((statement.control.part, statement.control.control))
    if slot is None:
        return NotModelled((str(statement.control.part),))
    cites = bound.parts[str(statement.control.part)].cites
    for rule in question.told.rules:
        if rule.control != statement.control or rule.to != statement.position or rule.only_when is None:
            continue
        found = _first_run(replace(question, statement=rule.only_when))
        if not isinstance(found, tuple):
            return found
        times = truth(rule.only_when, found[0], bound, question.told.services)
        if not times.holds_at(times.until):
            return Holds(0.0, (), cites) if statement.negated else Fails(0.0, "refused", (), cites)
    return Fails(0.0, "moved", (), cites) if statement.negated else Holds(0.0, (), cites)
