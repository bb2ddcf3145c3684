"""Which signals of a machine a statement speaks of, and what is missing on a subject."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from cutaway.inquiry.course import place_missing, value_at
from cutaway.language.syntax import (
    AgainstScope,
    And,
    AtPosition,
    CanMove,
    ComesOnAt,
    Compare,
    ControlRef,
    Earlier,
    If,
    Independent,
    InState,
    Not,
    Or,
    ReadingRef,
    Served,
    Statement,
    Trend,
)
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.parts.kind import Kind, Reading, State
from cutaway.parts.recipe import Medium
from cutaway.quantities.quantity import Dimension

Services = Mapping[str, Statement]


@dataclass(frozen=True, slots=True)
class Needed:
    """signals: names to record. missing: what the subject lacks, each as the user would say it."""

    signals: frozenset[str]
    missing: tuple[str, ...]


def atoms(statement: Statement, services: Services) -> Iterator[Statement]:
    """The statements inside that are not joined of others; a service stands for what it asks."""
    match statement:
        case And(of=inner) | Or(of=inner):
            for one in inner:
                yield from atoms(one, services)
        case Not(of=one):
            yield from atoms(one, services)
        case If(then=then, condition=condition):
            yield from atoms(then, services)
            yield from atoms(condition, services)
        case Earlier(first=first, second=second):
            yield from atoms(first, services)
            yield from atoms(second, services)
        case Served(service=name):
            if name in services:
                yield from atoms(services[name], services)
            else:
                yield statement
        case _:
            yield statement


def services_in(statement: Statement, services: Services) -> frozenset[str]:
    """The services that a statement speaks of, and those that these are made of."""
    match statement:
        case And(of=inner) | Or(of=inner):
            return frozenset(name for one in inner for name in services_in(one, services))
        case Not(of=one):
            return services_in(one, services)
        case If(then=then, condition=condition):
            return services_in(then, services) | services_in(condition, services)
        case Earlier(first=first, second=second):
            return services_in(first, services) | services_in(second, services)
        case Served(service=name) if name in services:
            return services_in(services[name], services) | {name}
        case _:
            return frozenset()


def needed(statement: Statement, bound: Bound, services: Services) -> Needed:
    """The signals that the statement's truth is read from."""
    found: set[str] = set()
    missing: list[str] = []
    for atom in atoms(statement, services):
        match atom:
            case InState(part=part, state=state) | ComesOnAt(part=part, state=state):
                _state_signal(bound, part, state, found, missing)
            case Independent(part=part, controls=controls):
                seen = watched(bound, part)
                found |= seen
                if not seen:
                    missing.append(f"a state or a reading of {part}" if part in bound.parts else str(part))
                missing += [str(c.part) for c in controls if (c.part, c.control) not in bound.controls]
            case Compare(reading=reading, quantity=quantity):
                _reading_signals(bound, reading, found, missing)
                if dimension_of(bound, reading) not in (None, quantity.dimension):
                    missing.append(f"a reading of {reading.part} such as {quantity.text}")
            case Trend(reading=reading) | AgainstScope(reading=reading):
                _reading_signals(bound, reading, found, missing)
            case AtPosition(control=control):
                if _can_stand(bound, atom):
                    found.add(position_signal(control))
                else:
                    missing.append(place_missing(bound, control, atom.position))
            case CanMove(control=control):
                missing.append(place_missing(bound, control, ""))
            case Served(service=service):
                missing.append(f"what {service} means")
            case _:
                pass
    return Needed(frozenset(found), tuple(dict.fromkeys(missing)))


def watched(bound: Bound, part: str) -> frozenset[str]:
    """The signals of all states and readings of a part."""
    kind = kind_on(bound, part)
    if kind is None:
        return frozenset()
    states = {names.signal_name(part, state.signal) for state in kind.states}
    return frozenset(states | {names.signal_name(part, reading.signal) for reading in kind.readings})


def _can_stand(bound: Bound, statement: AtPosition) -> bool:
    """Whether the subject's control has the position, or a range, that a statement speaks of."""
    slot = bound.controls.get((statement.control.part, statement.control.control))
    return slot is not None and value_at(slot, statement.position, statement.level) is not None


def position_signal(control: ControlRef) -> str:
    """The signal with a control's position."""
    return names.set_name(names.control_name(control.part, control.control))


def kind_on(bound: Bound, part: str) -> Kind | None:
    """The kind that a part is on this subject, or None where it has no such part."""
    here = bound.parts.get(part)
    return bound.kinds[here.kind] if here is not None else None


def state_of(kind: Kind, words: str) -> State | None:
    """The kind's state that goes by these words."""
    for state in kind.states:
        if words.casefold() in (state.words.casefold(), state.opposite.casefold()):
            return state
    return None


def stands_for(state: State, words: str) -> bool:
    """Whether the words are the state's own, rather than its opposite's."""
    return words.casefold() == state.words.casefold()


def reading_of(kind: Kind, name: str) -> Reading | None:
    """The kind's reading of that name; '' is the main one."""
    for reading in kind.readings:
        if reading.name.casefold() == name.casefold() or (not name and reading.main):
            return reading
    return kind.readings[0] if kind.readings and not name else None


_ACROSS: Mapping[Medium, Dimension] = {"current": "voltage", "heat": "temperature"}


def dimension_of(bound: Bound, ref: ReadingRef) -> Dimension | None:
    """What a reading is measured in on this subject; None where it has none of it."""
    kind = kind_on(bound, ref.part)
    if ref.port:
        medium = bound.wiring.media.get(bound.wiring.joined.get(names.node_name(ref.part, ref.port), ""))
        return _ACROSS.get(medium, "pressure") if medium is not None and kind is not None else None
    reading = reading_of(kind, ref.reading) if kind is not None else None
    return reading.dimension if reading is not None else None


def _state_signal(bound: Bound, part: str, words: str, found: set[str], missing: list[str]) -> None:
    kind = kind_on(bound, part)
    state = state_of(kind, words) if kind is not None else None
    if kind is None:
        missing.append(part)
    elif state is None:
        missing.append(f"'{words}' of {part}")
    else:
        found.add(names.signal_name(part, state.signal))


def _reading_signals(bound: Bound, ref: ReadingRef, found: set[str], missing: list[str]) -> None:
    kind = kind_on(bound, ref.part)
    if kind is None:
        missing.append(str(ref.part))
    elif ref.port:
        if names.node_name(ref.part, ref.port) not in bound.wiring.joined:
            missing.append(f"{ref.port} of {ref.part}")
            return
        found.add(names.node_name(ref.part, ref.port))
        found.add(names.set_name("height"))
    else:
        reading = reading_of(kind, ref.reading)
        if reading is None:
            missing.append(f"{ref.reading or 'a reading'} of {ref.part}")
            return
        found.add(names.signal_name(ref.part, reading.signal))
        if reading.alive:
            found.add(names.signal_name(ref.part, reading.alive))
