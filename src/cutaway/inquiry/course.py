"""What happens before a statement is looked at: the legs to a situation, then the course of the scope's actions."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import product

from cutaway.handbook.records import Folder, Situation
from cutaway.language.syntax import Action, Condition, ControlRef, FailureRef, Move, Scope, Wait
from cutaway.machine import names
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.records import Change, SetContent
from cutaway.quantities.si import low_high_si, to_si

# A hand needs a moment between one control and the next, and to press a knob and let it go, s: common practice, no
# source.
BETWEEN_ACTIONS = 1.0


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg of the way to a situation: inputs to set, then time to settle, then contents to put right."""

    changes: tuple[Change, ...]
    settle: float
    sets: tuple[SetContent, ...]


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
    """The change of input that puts a control somewhere; None where the subject has no such control or position."""
    slot = bound.controls.get((control.part, control.control))
    value = value_at(slot, position, level) if slot is not None else None
    return Change(time, slot.input, value) if slot is not None and value is not None else None


def value_at(slot: ControlSlot, position: str, level: float | None) -> float | None:
    """A control's input at a named position, or so far through its range; None where it cannot stand there."""
    if level is not None:
        return level if slot.ranged else None
    return slot.value(position) if position in slot.positions else None


def content_change(bound: Bound, part: str, si: float) -> SetContent | None:
    """The content to put into a part, no more than it holds; None where the subject has no such part."""
    slot = bound.contents.get(part)
    if slot is None:
        return None
    return SetContent(slot.element, slot.held(si if slot.full is None else min(si, slot.full)))


@dataclass(frozen=True, slots=True)
class Movement:
    """A control that comes to `position` (input `value`) at a time, s from the end of the last leg."""

    time: float
    control: ControlRef
    position: str
    input: str
    value: float

    @property
    def change(self) -> Change:
        """The same for a run."""
        return Change(self.time, self.input, self.value)


@dataclass(frozen=True, slots=True)
class Course:
    """The movements that actions make, in time; `clock` is when the last of them begins, or a wait after it ends."""

    movements: tuple[Movement, ...]
    clock: float


def course_of(actions: tuple[Action, ...], bound: Bound, start: float, placed: Mapping[str, float]) -> Course:
    """Actions one after another: each begins when the last is over (a held control is let go first) and a moment has
    passed; a wait at the end moves the clock on.

    placed: where the inputs stand before, 0 where nothing was said. A control that springs back is let go after a
    moment where the action does not say for how long it is held, and goes to its first position however it stood
    before; any other that is held goes back to where it was. A situation keeps such a control where it puts it.
    One that is held while others are moved is let go a moment after the last of them.
    """
    found: list[Movement] = []
    at, clock = start, start
    stands = dict(placed)
    hands: list[tuple[int, Movement]] = []
    for i, action in enumerate(actions):
        match action:
            case Wait(seconds=seconds):
                at += seconds
                clock = at
            case Move(control=control):
                if i and isinstance(actions[i - 1], Move):
                    at += BETWEEN_ACTIONS
                moved = _movements(action, bound.controls.get((control.part, control.control)), at, stands)
                if moved and action.through:
                    hands.append((i + action.through, moved[-1]))
                    moved = moved[:1]
                if moved:
                    found.extend(moved)
                    clock = at
                    at = moved[-1].time
                    stands[moved[-1].input] = moved[-1].value
        while hands and (hands[-1][0] <= i or i + 1 == len(actions)):
            at += BETWEEN_ACTIONS if isinstance(action, Move) else 0.0
            _, back = hands.pop()
            found.append(replace(back, time=at))
            stands[back.input] = back.value
    return Course(tuple(found), clock)


def _movements(move: Move, slot: ControlSlot | None, at: float, stands: Mapping[str, float]) -> tuple[Movement, ...]:
    """The movement of one action and, where the control is let go again, the one back."""
    value = value_at(slot, move.position, move.level) if slot is not None else None
    if slot is None or value is None:
        return ()
    away = Movement(at, move.control, said(slot, value), slot.input, value)
    if slot.springs_back and value != 0.0:
        held, home = (move.held if move.held is not None else BETWEEN_ACTIONS), 0.0
    elif move.held is not None or move.through:
        held, home = move.held or 0.0, stands.get(slot.input, 0.0)
    else:
        return (away,)
    return (away, Movement(at + held, move.control, said(slot, home), slot.input, home))


def said(slot: ControlSlot, value: float) -> str:
    """The position as the user says it."""
    if slot.ranged:
        ends = {0.0: slot.positions[0], 1.0: slot.positions[-1]} if slot.positions else {}
        return ends.get(value, f"{100 * value:.0f} %")
    return slot.positions[round(value)]


def failure_choices(scope: Scope) -> tuple[tuple[FailureRef, ...], ...]:
    """Every choice of one failure from each of the scope's lists."""
    return tuple(product(*(choice.options for choice in scope.failures)))


def lacking(scope: Scope, bound: Bound) -> tuple[str, ...]:
    """What a scope's failures and actions speak of and the subject does not have, each as the user would say it."""
    known = {slot.name for slot in bound.network.inputs}
    out: list[str] = []
    for failure in (f for choice in scope.failures for f in choice.options):
        if failure.part not in bound.parts:
            out.append(str(failure.part))
        elif names.failure_name(failure.part, failure.failure) not in known:
            out.append(f"{failure.failure} of {failure.part}")
    for action in scope.actions:
        if isinstance(action, Move) and input_change(bound, action.control, action.position, action.level, 0.0) is None:
            out.append(place_missing(bound, action.control, action.position))
    return tuple(out)


def place_missing(bound: Bound, control: ControlRef, position: str) -> str:
    """What is missing where a control cannot be put somewhere: the part, the control or the position."""
    if control.part not in bound.parts:
        return str(control.part)
    if (control.part, control.control) not in bound.controls:
        return f"a control of {control.part}"
    return f"{position or 'a range'} of {names.control_name(control.part, control.control)}"


def condition_choices(scope: Scope) -> tuple[tuple[tuple[Condition, float], ...], ...]:
    """Every choice of values, SI, for the scope's conditions: a range gives its middle and its ends."""
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
        one = input_change(bound, held.control, held.position, held.level, 0.0)
        if one is None:
            missing.append(place_missing(bound, held.control, held.position))
        else:
            changes.append(one)
    return tuple(changes), tuple(sets), tuple(missing)


def failure_change(failure: FailureRef) -> Change:
    """The failure, from the moment that the situation has been reached."""
    return Change(0.0, names.failure_name(failure.part, failure.failure), 1.0)
