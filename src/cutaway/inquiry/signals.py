"""Which signals of a machine a statement speaks of, and what is missing on a subject."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from cutaway.language.syntax import (
    And,
    AtPosition,
    Compare,
    ControlRef,
    If,
    InState,
    Not,
    Or,
    ReadingRef,
    Served,
    Statement,
)
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.parts.kind import Kind, Reading, State

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
        case Served(service=name):
            if name in services:
                yield from atoms(services[name], services)
        case _:
            yield statement


def needed(statement: Statement, bound: Bound, services: Services) -> Needed:
    """The signals that the statement's truth is read from."""
    found: set[str] = set()
    missing: list[str] = []
    for atom in atoms(statement, services):
        match atom:
            case InState(part=part, state=state):
                _state_signal(bound, part, state, found, missing)
            case Compare(reading=reading):
                _reading_signals(bound, reading, found, missing)
            case AtPosition(control=control):
                if (control.part, control.control) in bound.controls:
                    found.add(position_signal(control))
                else:
                    missing.append(str(control.part))
            case _:
                pass
    return Needed(frozenset(found), tuple(dict.fromkeys(missing)))


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


def reading_of(kind: Kind, name: str) -> Reading | None:
    """The kind's reading of that name; '' is the main one."""
    for reading in kind.readings:
        if reading.name.casefold() == name.casefold() or (not name and reading.main):
            return reading
    return kind.readings[0] if kind.readings and not name else None


def _state_signal(bound: Bound, part: str, words: str, found: set[str], missing: list[str]) -> None:
    kind = kind_on(bound, part)
    state = state_of(kind, words) if kind is not None else None
    if state is None:
        missing.append(part)
    else:
        found.add(names.signal_name(part, state.signal))


def _reading_signals(bound: Bound, ref: ReadingRef, found: set[str], missing: list[str]) -> None:
    kind = kind_on(bound, ref.part)
    if kind is None:
        missing.append(str(ref.part))
    elif ref.port:
        found.add(names.node_name(ref.part, ref.port))
        found.add(names.set_name("height"))
    else:
        reading = reading_of(kind, ref.reading)
        if reading is None:
            missing.append(f"{ref.part}'s {ref.reading}")
            return
        found.add(names.signal_name(ref.part, reading.signal))
        if reading.alive:
            found.add(names.signal_name(ref.part, reading.alive))
