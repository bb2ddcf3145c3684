"""What is set up before a statement is looked at: a scene, and its course in time."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

from cutaway.handbook.records import Folder, Situation
from cutaway.inquiry.verdicts import Setup
from cutaway.language.syntax import Action, Condition, ControlRef, FailureRef, Held, Move, Scope, Wait
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Change, SetContent
from cutaway.quantities.si import low_high_si, to_si

# A hand needs a moment between one control and the next: common practice, no source.
BETWEEN_ACTIONS = 1.0


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg of the way to a situation: inputs to set, then time to settle, then contents to put right."""

    changes: tuple[Change, ...]
    settle: float
    sets: tuple[SetContent, ...]


@dataclass(frozen=True, slots=True)
class Scene:
    """All that decides a run: the legs to the situation, what happens from then on, when the clock starts.

    changes: failures at 0 s, positions tried at 0 s, actions after. clock: the time from which 'within' and its like
    count, s from the end of the last leg. chosen: in words, what this scene tries beyond its scope.
    """

    legs: tuple[Leg, ...]
    changes: tuple[Change, ...]
    clock: float
    chosen: Setup


def legs_to(folder: Folder, situation: str, bound: Bound, settings: "Settings") -> tuple[Leg, ...]:
    """The legs to a situation, that of its base first; conditions and held controls of the scope join the last."""
    by_name = {s.name: s for s in folder.situations}
    chain: list[Situation] = []
    at = by_name.get(situation)
    while at is not None:
        chain.append(at)
        at = by_name.get(at.base)
    legs = [_leg(s, bound, settings) for s in reversed(chain)]
    if not legs:
        legs = [Leg((), 0.0, ())]
    last = legs[-1]
    extra = settings.scope_changes
    legs[-1] = Leg(
        _override(last.changes, extra), last.settle or (60.0 if extra else 0.0), (*last.sets, *settings.scope_sets)
    )
    return tuple(legs)


def _override(changes: tuple[Change, ...], later: tuple[Change, ...]) -> tuple[Change, ...]:
    """The changes, those of `later` in place of earlier ones of the same input."""
    taken = {change.input for change in later}
    return (*(c for c in changes if c.input not in taken), *later)


@dataclass(frozen=True, slots=True)
class Settings:
    """What a folder's situations and a scope set, as inputs: by situation name, and for the scope itself."""

    situations: tuple[tuple[str, tuple[Change, ...], tuple[SetContent, ...]], ...]
    scope_changes: tuple[Change, ...]
    scope_sets: tuple[SetContent, ...]


def _leg(situation: Situation, bound: Bound, settings: Settings) -> Leg:
    for name, changes, sets in settings.situations:
        if name == situation.name:
            return Leg(changes, situation.settle, sets)
    return Leg((), situation.settle, ())


def input_change(bound: Bound, control: ControlRef, position: str, level: float | None, time: float) -> Change | None:
    """The change of input that puts a control somewhere; None where the subject has no such control."""
    slot = bound.controls.get((control.part, control.control))
    if slot is None or (level is None and position not in slot.positions):
        return None
    return Change(time, slot.input, level if level is not None else slot.value(position))


def content_change(bound: Bound, part: str, si: float) -> SetContent | None:
    """The content to put into a part, no more than it holds; None where the subject has no such part."""
    slot = bound.contents.get(part)
    if slot is None:
        return None
    return SetContent(slot.element, si if slot.full is None else min(si, slot.full))


@dataclass(frozen=True, slots=True)
class Course:
    """The changes that actions make, in time; `clock` is when the last of them begins, `end` when all is done."""

    changes: tuple[Change, ...]
    clock: float
    end: float


def course_of(actions: tuple[Action, ...], bound: Bound, start: float, placed: Mapping[str, float]) -> Course:
    """Actions one after another: each begins when the last is over (a held control is let go first) and a moment has
    passed; a wait at the end moves the clock on. placed: where the inputs stand before, 0 where nothing was said."""
    changes: list[Change] = []
    at, clock = start, start
    placed = dict(placed)
    for i, action in enumerate(actions):
        match action:
            case Wait(seconds=seconds):
                at += seconds
                clock = at
            case Move(control=control, position=position, level=level, held=held):
                if i and isinstance(actions[i - 1], Move):
                    at += BETWEEN_ACTIONS
                change = input_change(bound, control, position, level, at)
                if change is None:
                    continue
                changes.append(change)
                clock = at
                if held is not None:
                    at += held
                    changes.append(Change(at, change.input, placed.get(change.input, 0.0)))
                else:
                    placed[change.input] = change.value
    return Course(tuple(changes), clock, at)


def failure_choices(scope: Scope) -> tuple[tuple[FailureRef, ...], ...]:
    """Every choice of one failure from each of the scope's lists."""
    return tuple(product(*(choice.options for choice in scope.failures)))


def condition_choices(scope: Scope) -> tuple[tuple[tuple[Condition, float], ...], ...]:
    """Every choice of values for the scope's conditions: a range gives its ends and its middle."""
    options: list[tuple[tuple[Condition, float], ...]] = []
    for condition in scope.conditions:
        quantity = condition.quantity
        if quantity.is_range:
            low, high = low_high_si(quantity)
            options.append(tuple((condition, value) for value in (to_si(quantity), low, high)))
        else:
            options.append(((condition, to_si(quantity)),))
    return tuple(product(*options))


def scope_settings(
    scope: Scope, conditions: tuple[tuple[Condition, float], ...], bound: Bound
) -> tuple[tuple[Change, ...], tuple[SetContent, ...], tuple[str, ...]]:
    """The scope's conditions and held controls as inputs and contents, and the names that the subject lacks."""
    changes: list[Change] = []
    sets: list[SetContent] = []
    missing: list[str] = []
    for condition, value in conditions:
        if condition.part:
            content = content_change(bound, condition.part, value)
            if content is None:
                missing.append(condition.part)
            else:
                sets.append(content)
        else:
            changes.append(Change(0.0, condition.name, value))
    for held in scope.held:
        one = _held(bound, held)
        if one is None:
            missing.append(str(held.control.part))
        else:
            changes.append(one)
    return tuple(changes), tuple(sets), tuple(missing)


def _held(bound: Bound, held: Held) -> Change | None:
    return input_change(bound, held.control, held.position, held.level, 0.0)


def failure_change(failure: FailureRef) -> Change:
    """The failure, from the moment that the situation has been reached."""
    return Change(0.0, names.failure_name(failure.part, failure.failure), 1.0)
