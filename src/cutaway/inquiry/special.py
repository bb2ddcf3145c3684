"""Statements that compare several runs: a trend, a reading here and in another scope, independence of controls."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import product

import numpy as np

from cutaway.inquiry.course import said
from cutaway.inquiry.deciding import LONGEST_REST, horizon
from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.judging import Concluded, Plan, Results, scenes_of, settled_plan, unanswered
from cutaway.inquiry.positions import all_combinations
from cutaway.inquiry.scenes import Question, Scene
from cutaway.inquiry.signals import dimension_of, kind_on, watched
from cutaway.inquiry.told import placed_at_end
from cutaway.inquiry.truth import reading_datum, reading_trace
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, Seen, Setup, Undecided, Verdict
from cutaway.inquiry.workshop import Made, Request
from cutaway.language.syntax import AgainstScope, Condition, Independent, ReadingRef, Scope, Trend
from cutaway.machine import names
from cutaway.machine.records import Change, Run
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import unit_named

# A reading counts as changed when it moves by more than this share of it, and by more than an instrument shows: choices
# of ours, well above the solver's error.
SAME = 2e-3
TOO_SMALL = {
    "pressure": 50.0,
    "voltage": 0.02,
    "current": 0.01,
    "angular speed": 0.05,
    "volume": 1e-6,
    "volume flow": 1e-9,
}
# At how many values of the condition a trend is looked at.
STEPS = 5

Special = Trend | Independent | AgainstScope


def special_plan(question: Question, statement: Special, made: Made) -> Plan:
    """The plan for such a statement over a given machine."""
    if question.scope.modality and not isinstance(statement, Independent):
        return settled_plan(NotModelled(("a trend or a comparison over all combinations of positions",)))
    match statement:
        case Trend():
            return _trend(question, statement, made)
        case Independent():
            return _independent(question, statement, made)
        case AgainstScope():
            return _against(question, statement, made)


# --- readings in several scopes -------------------------------------------------------------------------------------


def _over_scopes(
    question: Question,
    made: Made,
    scopes: Sequence[Scope],
    decide: Callable[[list[list[float]]], Verdict],
    ref: ReadingRef,
) -> Plan:
    """The plan that reads `ref` at the end of every scene of every scope, and decides from the readings by scope."""
    requests: list[Request] = []
    counts: list[int] = []
    for scope in scopes:
        scenes = scenes_of(replace(question, scope=scope), made)
        if isinstance(scenes, (NotModelled, Undecided)):
            return settled_plan(scenes)
        counts.append(len(scenes.all))
        requests.extend(_request(scope, made, scene) for scene in scenes.all)

    def conclude(results: Results) -> Concluded:
        readings: list[float] = []
        for result in results:
            nothing = unanswered(result)
            if nothing is not None:
                return nothing, None
            assert isinstance(result, Run)
            readings.append(float(reading_trace(ref, result, question.bound)[-1]))
        ends = np.cumsum(counts)
        return decide([readings[end - count : end] for end, count in zip(ends, counts, strict=True)]), None

    return Plan(tuple(requests), conclude)


def _request(scope: Scope, made: Made, scene: Scene) -> Request:
    seconds, until = horizon(scope.when, scene.clock)
    return Request(made, scene.legs, scene.changes, seconds, until)


def _small(ref: ReadingRef, question: Question, values: Sequence[float]) -> float:
    """Below what two readings are the same."""
    return max(
        SAME * max((abs(v) for v in values), default=0.0), TOO_SMALL.get(dimension_of(question.bound, ref) or "", 0.0)
    )


def _seen(question: Question, ref: ReadingRef, value: float) -> Seen:
    name = f"{ref.part}.{ref.port}" if ref.port else str(ref.part)
    if np.isnan(value):
        return Seen(name, 0.0, None, "", "dead")
    return Seen(name, 0.0, value, dimension_of(question.bound, ref) or "", "", reading_datum(ref, question.bound))


def _trend(question: Question, statement: Trend, made: Made) -> Plan:
    levels = np.linspace(statement.start, statement.stop, STEPS)
    scopes = [_at_level(question.scope, statement.condition, float(level)) for level in levels]
    cites = cites_of(statement, question.scope, question.bound, question.told.services)

    def decide(by_level: list[list[float]]) -> Verdict:
        for values in zip(*by_level, strict=True):
            small = _small(statement.reading, question, values)
            whole, steps = values[-1] - values[0], np.diff(values)
            way = 1.0 if statement.rises else -1.0
            ends = tuple(_seen(question, statement.reading, v) for v in (values[0], values[-1]))
            # Over all it must move by what can be seen, and on the way never back by so much.
            if not (way * whole > small and np.all(way * steps > -small)):
                return Fails(0.0, "trend", ends, cites, tried=len(values))
        return Holds(0.0, ends, cites, sum(len(v) for v in by_level))

    return _over_scopes(question, made, scopes, decide, statement.reading)


def _at_level(scope: Scope, condition: str, value: float) -> Scope:
    """The scope with a condition of the world at a value, SI, whatever it says of it."""
    unit = unit_named({"height": "m", "airspeed": "m/s", "temperature": "K", "load factor": ""}[condition])
    one = Condition("", condition, Quantity(f"{value:g} {unit.name}".strip(), value, value, value, unit), scope.span)
    others = tuple(c for c in scope.conditions if c.part or c.name != condition)
    return replace(scope, conditions=(*others, one))


def _against(question: Question, statement: AgainstScope, made: Made) -> Plan:
    ref = statement.reading
    cites = cites_of(statement, question.scope, question.bound, question.told.services)

    def decide(by_scope: list[list[float]]) -> Verdict:
        tried = sum(len(values) for values in by_scope)
        for here, there in product(*by_scope):
            small = _small(ref, question, (here, there))
            seen = (_seen(question, ref, here), _seen(question, ref, there))
            if statement.op == "higher" and not here > there + small:
                return Fails(0.0, "not higher", seen, cites, tried=tried)
            if statement.op == "lower" and not here < there - small:
                return Fails(0.0, "not lower", seen, cites, tried=tried)
            if statement.op == "same" and not abs(here - there) <= small:
                return Fails(0.0, "not the same", seen, cites, tried=tried)
        return Holds(0.0, seen, cites, tried)

    return _over_scopes(question, made, (question.scope, merged(question.scope, statement.other)), decide, ref)


def merged(base: Scope, other: Scope) -> Scope:
    """A scope with what another adds to it or says instead."""
    taken = {(c.part, c.name) for c in other.conditions}
    held = {h.control for h in other.held}
    return replace(
        base,
        situation=other.situation or base.situation,
        failures=(*base.failures, *other.failures),
        conditions=(*(c for c in base.conditions if (c.part, c.name) not in taken), *other.conditions),
        held=(*(h for h in base.held if h.control not in held), *other.held),
        actions=(*base.actions, *other.actions),
        when=other.when if other.when.kind != "settled" else base.when,
    )


# --- independence ---------------------------------------------------------------------------------------------------


def _independent(question: Question, statement: Independent, made: Made) -> Plan:
    """Every combination of the controls' positions in the scope's plainest scene, looked at once nothing moves."""
    scenes = scenes_of(replace(question, scope=replace(question.scope, modality="")), made)
    if isinstance(scenes, (NotModelled, Undecided)):
        return settled_plan(scenes)
    scene = scenes.all[0]
    slots = tuple(question.bound.controls[(c.part, c.control)] for c in dict.fromkeys(statement.controls))
    combinations = tuple(all_combinations(slots, placed_at_end(scene.legs)))
    requests = tuple(
        Request(
            made,
            scene.legs,
            (*(Change(0.0, s.input, v) for s, v in combination), *scene.changes),
            scene.clock + LONGEST_REST,
            "rest",
        )
        for combination in combinations
    )
    cites = cites_of(statement, question.scope, question.bound, question.told.services)

    def conclude(results: Results) -> Concluded:
        ends: list[Run] = []
        for result in results:
            nothing = unanswered(result)
            if nothing is not None:
                return nothing, None
            assert isinstance(result, Run)
            ends.append(result)
        for combination, end in zip(combinations, ends, strict=True):
            if _differ(question, statement, ends[0], end):
                chosen = Setup(tuple((s.input, said(s, v)) for s, v in combination))
                if statement.negated:
                    return Holds(0.0, (), cites, len(ends), chosen), None
                return Fails(0.0, "depends", (), cites, chosen, tried=len(ends)), None
        if statement.negated:
            return Fails(0.0, "not so", (), cites, tried=len(ends)), None
        return Holds(0.0, (), cites, len(ends)), None

    return Plan(requests, conclude)


def _differ(question: Question, statement: Independent, one: Run, other: Run) -> bool:
    """Whether a state or a reading of the part is another at the end of another run."""
    kind = kind_on(question.bound, statement.part)
    assert kind is not None
    dimensions = {names.signal_name(statement.part, r.signal): r.dimension for r in kind.readings}
    for name in watched(question.bound, statement.part):
        a, b = float(one.column(name)[-1]), float(other.column(name)[-1])
        small = TOO_SMALL.get(dimensions.get(name, ""), 0.0)
        if abs(a - b) > max(SAME * max(abs(a), abs(b)), small):
            return True
    return False
