"""What a claim's scope asks to be looked at: its scenes, each a course of things on one subject."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import islice

from cutaway.inquiry.course import (
    Leg,
    Movement,
    condition_choices,
    course_of,
    failure_change,
    failure_choices,
    lacking,
    said,
    scope_settings,
)
from cutaway.inquiry.evidence import moved
from cutaway.inquiry.positions import (
    MOST_COMBINATIONS,
    Combination,
    all_combinations,
    free_controls,
    held_by_premise,
    how_many,
)
from cutaway.inquiry.told import Told, legs_for, placed_at_end
from cutaway.inquiry.verdicts import NotModelled, Seen
from cutaway.inquiry.workshop import Made, Workshop
from cutaway.language.syntax import Condition, FailureRef, Move, Scope, Statement
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.names import control_name
from cutaway.machine.records import Change
from cutaway.quantities.si import shown


@dataclass(frozen=True, slots=True, eq=False)
class Question:
    """A statement in a scope on one subject."""

    statement: Statement
    scope: Scope
    bound: Bound
    told: Told
    workshop: Workshop


@dataclass(frozen=True, slots=True)
class Scene:
    """One course of things to look at.

    legs: the way to the situation. changes: failures and positions tried at 0 s from the end of the last leg, then
    what the actions move (`movements`, which rules have not been put to yet). clock: the time from which 'within' and
    its like count. moves: how many controls are tried elsewhere than the situation has them. chosen: in words, what
    this scene tries beyond its scope. refused: movements that a rule forbade.
    """

    legs: tuple[Leg, ...]
    changes: tuple[Change, ...]
    movements: tuple[Movement, ...]
    clock: float
    moves: int
    chosen: tuple[tuple[str, str], ...]
    refused: tuple[Seen, ...] = ()


@dataclass(frozen=True, slots=True)
class Scenes:
    """The scenes that a scope asks for, the plainest first. beyond: what was left out for its number, '' if nothing."""

    all: tuple[Scene, ...]
    beyond: str


def planned(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Scenes | NotModelled:
    """Every scene that the scope asks for, up to a bound; or what the subject lacks for it. Rules of movement have not
    been put to them yet."""
    scope, bound = question.scope, question.bound
    missing = list(lacking(scope, bound))
    out: list[Scene] = []
    beyond = ""
    for conditions in condition_choices(scope):
        changes, sets, lacked = scope_settings(scope, conditions, bound)
        missing += lacked
        legs = legs_for(question.workshop.folder, question.told, bound, scope, changes, sets)
        base = placed_at_end(legs)
        slots, pushed = _free(question, made, base)
        near = {**base, **pushed}
        count = how_many(slots, near)
        if count > most:
            beyond = _too_many(slots, count, most, base)
        for failures in failure_choices(scope):
            for combination in islice(all_combinations(slots, near), most):
                out.append(_scene(question, legs, base, failures, conditions, pushed, combination))
    if missing:
        return NotModelled(tuple(dict.fromkeys(missing)))
    return Scenes(tuple(sorted(out, key=lambda scene: scene.moves)), beyond)


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
    # A control that the scope holds is not tried elsewhere; one that actions or rules move does not stay where it is.
    pushed = {name: value for name, value in pushed.items() if name not in held}
    stays = {**{name: base[name] for name in held if name in base}, **pushed}
    by_rules = frozenset(
        control_name(a.control.part, a.control.control)
        for rule in question.told.rules
        for a in rule.then
        if isinstance(a, Move)
    )
    certain = {name: value for name, value in stays.items() if name not in acted | by_rules}
    gone_wrong = {failure_change(f).input for choice in scope.failures for f in choice.options}
    sound = {i.name: 0.0 for i in bound.network.inputs if i.sort == "failure" and i.name not in gone_wrong}
    free = free_controls(bound, made.network, made.signals, {**sound, **certain}, acted)
    return tuple(slot for slot in free if slot.input not in stays), pushed


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
    start = 1.0 if question.scope.actions and changes else 0.0
    course = course_of(question.scope.actions, question.bound, start, {**base, **put})
    chosen = [(slot.input, said(slot, value)) for slot, value in combination]
    several = zip(question.scope.failures, failures, strict=True)
    chosen += [(str(f.part), f.failure) for choice, f in several if len(choice.options) > 1]
    chosen += [(c.part or c.name, shown(si, c.quantity.unit)) for c, si in conditions if c.quantity.is_range]
    return Scene(legs, tuple(changes), course.movements, course.clock, len(combination), tuple(chosen))
