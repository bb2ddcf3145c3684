"""A statement of what it does, in a scope, on one subject: the runs that it needs, and what they come to.

A plan is made first and concluded later, so that many plans (claims, ends of assumed ranges) can be run as one batch.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from cutaway.inquiry.deciding import Decision, decide, further, horizon
from cutaway.inquiry.evidence import cites_of, moved, seen_at
from cutaway.inquiry.positions import (
    MOST_COMBINATIONS,
    all_combinations,
    free_controls,
    held_by_premise,
    how_many,
    said,
)
from cutaway.inquiry.scenes import (
    Leg,
    condition_choices,
    course_of,
    failure_change,
    failure_choices,
    scope_settings,
)
from cutaway.inquiry.signals import needed
from cutaway.inquiry.told import Told, legs_for, placed_at_end
from cutaway.inquiry.truth import truth
from cutaway.inquiry.verdicts import Empty, Fails, Holds, NotModelled, Setup, Undecided, Verdict
from cutaway.inquiry.workshop import Made, Request, Workshop
from cutaway.language.syntax import Condition, FailureRef, If, Move, Scope, Statement
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.names import control_name
from cutaway.machine.records import Change, Outcome, Run

Results = Sequence[Run | Outcome]


@dataclass(frozen=True, slots=True)
class Plan:
    """requests: the runs wanted. conclude: the verdict from them, with the margin of the scene that decides."""

    requests: tuple[Request, ...]
    conclude: Callable[[Results], "tuple[Verdict, float | None]"]


@dataclass(frozen=True, slots=True)
class Scene:
    """One course of things to look at: the way there, what happens, when the clock starts, what it tries, in words."""

    legs: tuple[Leg, ...]
    changes: tuple[Change, ...]
    clock: float
    chosen: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Question:
    """A statement in a scope on one subject."""

    statement: Statement
    scope: Scope
    bound: Bound
    told: Told
    workshop: Workshop


def settled_plan(verdict: Verdict) -> Plan:
    """A plan that needs no run."""
    return Plan((), lambda _: (verdict, None))


def plan(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Plan:
    """The plan over a given machine (that of the stated values, or one with a value at an end of its range).

    most: how many combinations of positions to go through, the nearest first.
    """
    scenes = scenes_of(question, made, most)
    if isinstance(scenes, NotModelled):
        return settled_plan(scenes)
    seconds = [horizon(question.scope.when, scene.clock) for scene in scenes.all]
    requests = tuple(
        Request(made, scene.legs, scene.changes, length, rest)
        for scene, (length, rest) in zip(scenes.all, seconds, strict=True)
    )
    return Plan(requests, lambda results: _conclude(question, made, scenes, results))


@dataclass(frozen=True, slots=True)
class Scenes:
    """The scenes that a scope asks for, the plainest first. beyond: what was left out for its number, '' if nothing."""

    all: tuple[Scene, ...]
    beyond: str


def scenes_of(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Scenes | NotModelled:
    """Every scene that the scope asks for, up to a bound; or what the subject lacks for it."""
    scope, bound = question.scope, question.bound
    missing = [str(f.part) for c in scope.failures for f in c.options if f.part not in bound.parts]
    missing += [
        str(a.control.part)
        for a in scope.actions
        if isinstance(a, Move) and (a.control.part, a.control.control) not in bound.controls
    ]
    out: list[Scene] = []
    beyond = ""
    for conditions in condition_choices(scope):
        changes, sets, lacking = scope_settings(scope, conditions, bound)
        missing += lacking
        legs = legs_for(question.workshop.folder, question.told, bound, scope, changes, sets)
        base = placed_at_end(legs)
        slots, pushed = _free(question, made, base)
        count = how_many(slots)
        if count > most:
            beyond = _too_many(slots, count, most, base)
        near = {**base, **pushed}
        for failures in failure_choices(scope):
            for combination in islice(all_combinations(slots, near), most):
                out.append(_scene(question, legs, base, failures, conditions, pushed, combination))
    if missing:
        return NotModelled(tuple(dict.fromkeys(missing)))
    return Scenes(tuple(out), beyond)


Combination = tuple[tuple[ControlSlot, float], ...]


def _free(
    question: Question, made: Made, base: Mapping[str, float]
) -> tuple[tuple[ControlSlot, ...], dict[str, float]]:
    """The controls to go through, and where a condition of the statement puts others."""
    scope, bound = question.scope, question.bound
    if not scope.modality:
        return (), {}
    acted = moved(scope.actions, bound)
    pushed = {k: v for k, v in held_by_premise(question.statement, bound).items() if k not in acted}
    held = {control_name(h.control.part, h.control.control) for h in scope.held}
    stays = {**{name: base[name] for name in held if name in base}, **pushed}
    return free_controls(bound, made.network, made.signals, stays, acted), pushed


def _too_many(slots: tuple[ControlSlot, ...], count: int, most: int, base: Mapping[str, float]) -> str:
    names = ", ".join(slot.input for slot in slots)
    first = f"with {slots[0].input} at {said(slots[0], base.get(slots[0].input, 0.0))}"
    return (
        f"of {count} combinations of positions ({names}) the {most} nearest were gone through; "
        f"fix some of them in the scope, for instance: {first}"
    )


def _scene(
    question: Question,
    legs: tuple[Leg, ...],
    base: Mapping[str, float],
    failures: tuple[FailureRef, ...],
    conditions: tuple[tuple[Condition, float], ...],
    pushed: Mapping[str, float],
    combination: Combination,
) -> Scene:
    put = {**pushed, **{slot.input: value for slot, value in combination}}
    changes = [failure_change(f) for f in failures]
    changes += [Change(0.0, name, value) for name, value in put.items()]
    placed = {**base, **put}
    start = 1.0 if question.scope.actions and changes else 0.0
    course = course_of(question.scope.actions, question.bound, start, placed)
    chosen = [(slot.input, said(slot, value)) for slot, value in combination]
    chosen += [(str(f.part), f.failure) for choice, f in _several(question.scope, failures) if choice]
    chosen += [(c.part or c.name, c.quantity.text) for c, _ in conditions if c.quantity.is_range]
    return Scene(legs, (*changes, *course.changes), course.clock, tuple(chosen))


def _several(scope: Scope, failures: tuple[FailureRef, ...]) -> list[tuple[bool, FailureRef]]:
    return [(len(choice.options) > 1, f) for choice, f in zip(scope.failures, failures, strict=True)]


def _conclude(question: Question, made: Made, scenes: Scenes, results: Results) -> tuple[Verdict, float | None]:
    cites = cites_of(question.statement, question.scope, question.bound, question.told.services)
    sometimes = question.scope.modality == "sometimes"
    tightest: float | None = None
    best: tuple[Scene, Run, Decision] | None = None
    arose = 0
    for scene, result in zip(scenes.all, results, strict=True):
        if isinstance(result, Outcome) or result.outcome.kind != "done":
            outcome = result if isinstance(result, Outcome) else result.outcome
            return Undecided(outcome.sentence), None
        decision = _decision(question, made, scene, result)
        if isinstance(decision, Undecided):
            return decision, None
        arose += _arises(question, result, scene)
        if decision.holds != sometimes:
            # 'sometimes' looks for a scene that is true, everything else for one that is not.
            if best is None:
                best = (scene, result, decision)
            if decision.margin is not None and (tightest is None or abs(decision.margin) < abs(tightest)):
                tightest = decision.margin
            continue
        if sometimes:
            seen = _seen(question, scene, result, decision)
            return Holds(decision.at, seen, cites, len(scenes.all), Setup(scene.chosen)), decision.margin
        return _failing(question, made, scene, result, decision, cites, len(scenes.all)), decision.margin
    if scenes.beyond:
        return Undecided(scenes.beyond), None
    assert best is not None
    scene, result, decision = best
    if isinstance(question.statement, If) and not arose and question.statement.kind != "exactly when":
        return Empty(_condition_words(question.statement), len(scenes.all)), None
    seen = _seen(question, scene, result, decision)
    if sometimes:
        return Fails(decision.at, "no case", seen, cites, tried=len(scenes.all)), tightest
    return Holds(decision.at, seen, cites, len(scenes.all)), tightest


def _decision(question: Question, made: Made, scene: Scene, run: Run) -> Decision | Undecided:
    times = truth(question.statement, run, question.bound, question.told.services)
    if question.scope.when.kind == "settled" and run.certificate.rest < 0.0:
        # Not at rest, yet the answer has long been the same: that is settled enough to say.
        quiet = times.until * 0.5
        if any(quiet < edge < times.until for stretch in times.stretches for edge in stretch):
            return Undecided(f"it does not come to rest within {times.until:.0f} s")
    return decide(question.scope.when, times, scene.clock)


def _arises(question: Question, run: Run, scene: Scene) -> int:
    statement = question.statement
    if not isinstance(statement, If):
        return 1
    premise = statement.then if statement.kind == "only if" else statement.condition
    times = truth(premise, run, question.bound, question.told.services)
    if question.scope.when.kind == "settled":
        return int(times.holds_at(times.until))
    return int(times.first(scene.clock) is not None)


def _condition_words(statement: If) -> str:
    premise = statement.then if statement.kind == "only if" else statement.condition
    return premise.span.file.text[premise.span.start : premise.span.end]


def _seen(question: Question, scene: Scene, run: Run, decision: Decision):  # type: ignore[no-untyped-def]
    moment = min(scene.clock + decision.at, float(run.times[-1]))
    return seen_at(question.statement, run, question.bound, question.told.services, moment, scene.clock)


def _failing(  # type: ignore[no-untyped-def]
    question: Question, made: Made, scene: Scene, run: Run, decision: Decision, cites, tried: int
) -> Verdict:
    if decision.why == "never came" and question.scope.when.kind in ("within", "takes"):
        length = further(question.scope.when, scene.clock)
        (later,) = question.workshop.runs([Request(made, scene.legs, scene.changes, length)])
        if isinstance(later, Run) and later.outcome.kind == "done":
            times = truth(question.statement, later, question.bound, question.told.services)
            since = times.first(scene.clock)
            if since is not None:
                run, decision = later, Decision(False, since - scene.clock, "too late", None)
    assert decision.why
    counter = Setup(scene.chosen) if scene.chosen or question.scope.modality else None
    return Fails(decision.at, decision.why, _seen(question, scene, run, decision), cites, counter, tried=tried)


def machine_for(question: Question) -> Made | NotModelled:
    """The machine of the stated values over all that can reach the statement, or what is missing for it."""
    need = needed(question.statement, question.bound, question.told.services)
    if need.missing:
        return NotModelled(need.missing)
    return question.workshop.made(question.bound, need.signals)
