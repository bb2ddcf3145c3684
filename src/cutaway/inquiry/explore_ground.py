"""What an exploration stands on: one subject from one situation, some controls, and how one movement is run.

Every stop of an exploration is a situation that a user could write: `from` the last one, `set` one control, `settle`
for a time, then `start` with what is kept. So a walk through it can be made again by the engine, leg after leg.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cutaway.inquiry.course import BETWEEN_ACTIONS, Leg, course_of
from cutaway.inquiry.positions import elsewhere
from cutaway.inquiry.questions.watched import Watched, watched_in, watching
from cutaway.inquiry.rules import rules_for
from cutaway.inquiry.signals import needed
from cutaway.inquiry.told import Told
from cutaway.inquiry.truth import true_at_end
from cutaway.inquiry.workshop import Made, Workshop
from cutaway.language.claims import ParsedRule
from cutaway.language.print_back import printed
from cutaway.language.syntax import ControlRef
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job, Run, SetContent, State
from cutaway.parts.recipe import Content, Expr
from cutaway.problems.span import Span

# How long after it was reached a stop is looked at, s, as a situation is.
LOOK = 0.05
# For how long a control that springs back is held besides a moment, s: long enough for an engine to be turned.
HELD_LONG = 10.0
# What is burnt or drawn is kept, since no movement brings it back and no walk would ever come to where another did.
SPENT = frozenset({"petrol", "current"})


@dataclass(frozen=True, slots=True)
class Movement:
    """A control is put somewhere, and then things are let settle. back: after how many seconds it is let go; 0 where it
    is left there. A movement of no part is a wait."""

    part: str = ""
    control: str = ""
    input: str = ""
    value: float = 0.0
    words: str = ""
    back: float = 0.0

    @property
    def waits(self) -> bool:
        """Whether nothing is moved."""
        return not self.part


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """made: the subject's whole machine. watching, leaves: the same, which also tells what it is made of; what of it.
    within: all that can reach what is shown. legs: to the situation. controls: those that are moved. settle: s after
    each movement. kept: contents that are put right after each movement."""

    workshop: Workshop
    told: Told
    bound: Bound
    made: Made
    watching: Made
    leaves: Mapping[str, Expr]
    within: Network
    legs: tuple[Leg, ...]
    controls: tuple[ControlSlot, ...]
    settle: float
    kept: tuple[SetContent, ...]
    span: Span


@dataclass(frozen=True, slots=True, eq=False)
class Here:
    """Where one stands: the state, and the last moment of the look at it, which tells everything."""

    state: State
    look: Run

    @property
    def values(self) -> dict[str, float]:
        """Every signal by name, SI."""
        return dict(zip(self.look.names, map(float, self.look.values[-1]), strict=True))


def ground_for(
    workshop: Workshop,
    told: Told,
    bound: Bound,
    legs: tuple[Leg, ...],
    shown: frozenset[str],
    settle: float,
    span: Span,
) -> Ground:
    """The ground of an exploration with no control chosen yet. shown: the signals that its reader sees. span: where
    the exploration is asked for."""
    every = frozenset(name for name, _ in bound.network.signals)
    made = workshop.made(bound, every)
    over, leaves = watching(workshop, bound, bound.network, every)
    within = workshop.made(bound, shown).network
    return Ground(workshop, told, bound, made, over, leaves, within, legs, (), settle, (), span)


def kept_at(ground: Ground, here: Here) -> tuple[SetContent, ...]:
    """The contents that a walk would spend, as they are at a stop."""
    media = {node.name: node.medium for node in ground.bound.network.nodes}
    first = {element.name: element.at[0] for element in ground.bound.network.elements}
    leaf = {expression: name for name, expression in ground.leaves.items()}
    at = here.values
    spent = [s.element for s in ground.bound.contents.values() if media[first[s.element]] in SPENT]
    return tuple(SetContent(element, at[leaf[Content(element)]]) for element in dict.fromkeys(spent))


def seen_at(ground: Ground, here: Here) -> Watched:
    """All that is so at a stop."""
    return watched_in(ground.bound, ground.bound.network, ground.leaves, here.look, -1)


# --- movements ---------------------------------------------------------------------------------------------------


def movements(ground: Ground, placed: Mapping[str, float]) -> tuple[Movement, ...]:
    """Every movement that is ever offered, and the wait. placed: where the inputs stand at the beginning."""
    found = [Movement()]
    for slot in ground.controls:
        for value in _values(slot, placed.get(slot.input, 0.0)):
            one = Movement(slot.part, slot.control, slot.input, value, place_words(slot, value))
            if slot.springs_back and value != 0.0:
                found += [replace(one, back=BETWEEN_ACTIONS), replace(one, back=HELD_LONG)]
            elif slot.ranged or slot.springs_back:
                found.append(one)
            else:
                found += [one, replace(one, back=BETWEEN_ACTIONS)]
    return tuple(found)


def _values(slot: ControlSlot, stands: float) -> tuple[float, ...]:
    """Where a control can be put: its positions; of a range both ends, the middle, its named points and where it stood
    at the beginning."""
    nowhere = {slot.input: -1.0}
    points = (*slot.points, stands) if slot.ranged else ()
    return tuple(sorted(dict.fromkeys(round(v, 6) for v in (*elsewhere(slot, nowhere), *points))))


def place_words(slot: ControlSlot, value: float) -> str:
    """Where a control stands, by its name for that place if it has one."""
    if not slot.ranged:
        return slot.positions[round(value)]
    name = next((p for p in slot.positions if abs(slot.value(p) - value) < 1e-6), "")
    level = f"{100 * value:.0f} %"
    return name if name and value in (0.0, 1.0) else f"{name} ({level})" if name else level


def stands_there(movement: Movement, placed: Mapping[str, float]) -> bool:
    """Whether a control is where a movement would put it, so that there is nothing to move."""
    return not movement.waits and abs(placed.get(movement.input, 0.0) - movement.value) < 1e-6


def leg_of(ground: Ground, movement: Movement, placed: Mapping[str, float]) -> Leg:
    """A movement with its letting go and what its rules move with it, as a leg to a further situation."""
    if movement.waits:
        return Leg((), ground.settle, ground.kept)
    changes = [Change(0.0, movement.input, movement.value)]
    for rule in _rules(ground, movement):
        changes += [one.change for one in course_of(rule.then, ground.bound, 0.0, {}).movements]
    if movement.back:
        slot = ground.bound.controls[(movement.part, movement.control)]
        home = 0.0 if slot.springs_back else placed.get(movement.input, 0.0)
        changes.append(Change(movement.back, movement.input, home))
    return Leg(tuple(changes), movement.back + ground.settle, ground.kept)


def against(ground: Ground, movement: Movement, here: Here) -> tuple[str, ...]:
    """What the rules that hold a movement back ask, in the words of the folder; none where it is let through."""
    services = ground.told.services
    asked = [
        rule.only_when
        for rule in _rules(ground, movement)
        if rule.only_when is not None and not true_at_end(rule.only_when, here.look, ground.bound, services)
    ]
    return tuple(dict.fromkeys(printed(one) for one in asked))


def signals_of_rules(told: Told, bound: Bound) -> frozenset[str]:
    """The signals that tell what any rule of the subject asks."""
    asked = [r.only_when for r in told.rules if r.only_when is not None and bound.subject.standard in r.part.on.names]
    return frozenset(name for one in asked for name in needed(one, bound, told.services).signals)


def _rules(ground: Ground, movement: Movement) -> tuple[ParsedRule, ...]:
    if movement.waits:
        return ()
    control = ControlRef(movement.part, movement.control)  # type: ignore[arg-type]
    return rules_for(ground.told.rules, ground.bound, control, _plain_place(ground, movement))


def _plain_place(ground: Ground, movement: Movement) -> str:
    slot = ground.bound.controls[(movement.part, movement.control)]
    return next((p for p in slot.positions if abs(slot.value(p) - movement.value) < 1e-6), movement.words)


# --- runs --------------------------------------------------------------------------------------------------------


def settled(ground: Ground, wanted: Sequence[tuple[State, Leg]]) -> tuple[Run, ...]:
    """The runs of legs from states, each until nothing moves any more or its time is over."""
    machine = ground.made.machine
    jobs = [Job(machine, state, ground.kept, leg.changes, leg.settle, until_rest=True) for state, leg in wanted]
    return ground.workshop.gone_on(jobs)


def looked(ground: Ground, states: Sequence[State]) -> tuple[Here, ...]:
    """What there is to see at states."""
    jobs = [Job(ground.watching.machine, state, ground.kept, (), LOOK) for state in states]
    runs = ground.workshop.gone_on(jobs)
    return tuple(Here(state, run.at_its_end()) for state, run in zip(states, runs, strict=True))
