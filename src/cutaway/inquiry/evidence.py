"""What was seen: the readings and states a statement speaks of, at a moment of a run; and the paragraphs behind."""

import numpy as np

from cutaway.handbook.records import Cite, given_on
from cutaway.inquiry.course import said
from cutaway.inquiry.signals import Services, atoms, kind_on, position_signal, reading_of, state_of
from cutaway.inquiry.truth import reading_datum, reading_trace
from cutaway.inquiry.verdicts import Seen
from cutaway.language.syntax import (
    Action,
    AgainstScope,
    AtPosition,
    CanMove,
    ComesOnAt,
    Compare,
    Independent,
    InState,
    Move,
    Scope,
    Statement,
    Trend,
)
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Run


def seen_at(
    statement: Statement, run: Run, bound: Bound, services: Services, time: float, clock: float
) -> tuple[Seen, ...]:
    """Each part of the statement as it was at `time`, s of the run; told from the clock's start."""
    index = max(0, int(np.searchsorted(run.times, time + 1e-9, side="right")) - 1)
    out: list[Seen] = []
    for atom in atoms(statement, services):
        match atom:
            case InState(part=part, state=words):
                kind = kind_on(bound, part)
                state = state_of(kind, words) if kind is not None else None
                if state is not None:
                    on = run.column(names.signal_name(part, state.signal))[index] > 0.5
                    opposite = state.opposite or f"not {state.words}"
                    out.append(Seen(str(part), time - clock, None, "", state.words if on else opposite))
            case Compare(reading=ref):
                value = float(reading_trace(ref, run, bound)[index])
                kind = kind_on(bound, ref.part)
                reading = reading_of(kind, ref.reading) if kind is not None and not ref.port else None
                name = f"{ref.part}.{ref.port}" if ref.port else str(ref.part)
                dead = bool(np.isnan(value))
                out.append(
                    Seen(
                        name,
                        time - clock,
                        None if dead else value,
                        atom.quantity.dimension if reading is None else reading.dimension,
                        "dead" if dead else "",
                        reading_datum(ref, bound),
                    )
                )
            case AtPosition(control=control):
                slot = bound.controls[(control.part, control.control)]
                value = float(run.column(position_signal(control))[index])
                out.append(Seen(slot.input, time - clock, None, "", said(slot, value)))
            case _:
                pass
    return tuple(dict.fromkeys(out))


def cites_of(statement: Statement, scope: Scope, bound: Bound, services: Services) -> tuple[Cite, ...]:
    """The paragraphs behind the parts that the statement and the scope's actions speak of, on this subject."""
    parts: list[str] = []
    for atom in atoms(statement, services):
        match atom:
            case InState(part=part) | ComesOnAt(part=part):
                parts.append(str(part))
            case Compare(reading=ref):
                parts.append(str(ref.part))
            case Independent(part=part, controls=controls):
                parts.extend((str(part), *(str(c.part) for c in controls)))
            case Trend(reading=ref) | AgainstScope(reading=ref):
                parts.append(str(ref.part))
            case AtPosition(control=control) | CanMove(control=control):
                parts.append(str(control.part))
            case _:
                pass
    parts.extend(str(a.control.part) for a in scope.actions if isinstance(a, Move))
    parts.extend(str(f.part) for choice in scope.failures for f in choice.options)
    found: dict[tuple[str, str], Cite] = {}
    for name in dict.fromkeys(parts):
        record = bound.parts.get(name)
        if record is None:
            continue
        given = [g for v in record.values if (g := given_on(record, v.name, bound.subject.standard)) is not None]
        for cite in (*record.cites, *(cite for one in given for cite in one.cites)):
            found.setdefault((cite.source, cite.number), cite)
    return tuple(found.values())


def moved(actions: tuple[Action, ...], bound: Bound) -> frozenset[str]:
    """The inputs that actions move."""
    return frozenset(
        names.control_name(a.control.part, a.control.control)
        for a in actions
        if isinstance(a, Move) and (a.control.part, a.control.control) in bound.controls
    )
