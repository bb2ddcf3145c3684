"""When a statement is true in a run."""

import re
from dataclasses import replace
from decimal import Decimal
from functools import reduce

import numpy as np

from cutaway.inquiry.signals import Services, kind_on, position_signal, reading_of, stands_for, state_of
from cutaway.inquiry.spans_of_time import Times, both, complement, either, of_flags, of_positive
from cutaway.language.syntax import (
    And,
    AtPosition,
    Compare,
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
from cutaway.machine.records import Floats, Run
from cutaway.parts.laws.atmosphere import isa_pressure
from cutaway.quantities.quantity import Datum, Quantity
from cutaway.quantities.si import low_high_si, to_si


def truth(statement: Statement, run: Run, bound: Bound, services: Services) -> Times:
    """The times at which the statement is true, from the beginning of the run to its end."""
    until = float(run.times[-1])
    match statement:
        case InState(part=part, state=words, negated=negated):
            kind = kind_on(bound, part)
            state = state_of(kind, words) if kind is not None else None
            assert state is not None, f"{part} has no state {words}"
            times = of_flags(run.times, run.column(names.signal_name(part, state.signal)), until)
            return complement(times) if negated == stands_for(state, words) else times
        case AtPosition(negated=negated):
            times = _at_position(statement, run, bound, until)
            return complement(times) if negated else times
        case Compare(negated=negated):
            times = of_positive(run.times, margin(statement, run, bound), until)
            return complement(times) if negated else times
        case Served(service=name, negated=negated):
            times = truth(services[name], run, bound, services)
            return complement(times) if negated else times
        case Not(of=one):
            return complement(truth(one, run, bound, services))
        case And(of=several):
            return reduce(both, (truth(one, run, bound, services) for one in several), Times(((0.0, until),), until))
        case Or(of=several):
            return reduce(either, (truth(one, run, bound, services) for one in several), Times((), until))
        case If(then=then, condition=condition, kind=kind_of_if):
            a, b = truth(then, run, bound, services), truth(condition, run, bound, services)
            if kind_of_if == "if":
                return either(a, complement(b))
            if kind_of_if == "only if":
                return either(complement(a), b)
            return either(both(a, b), both(complement(a), complement(b)))
        case _:
            raise AssertionError(f"not read off one run: {type(statement).__name__}")


def true_at_end(statement: Statement, run: Run, bound: Bound, services: Services) -> bool:
    """Whether the statement is true in the last moment of the run, after all that changes in it."""
    last = replace(run, times=np.zeros(1), values=run.values[-1:])
    return truth(statement, last, bound, services).holds_at(0.0)


def _at_position(statement: AtPosition, run: Run, bound: Bound, until: float) -> Times:
    slot = bound.controls[(statement.control.part, statement.control.control)]
    trace = run.column(position_signal(statement.control))
    level = statement.level if statement.level is not None else slot.value(statement.position)
    if statement.op == "above":
        flags = trace > level
    elif statement.op == "below":
        flags = trace < level
    else:
        flags = np.abs(trace - level) < 1e-6
    return of_flags(run.times, flags.astype(np.float64), until)


def reading_trace(ref: ReadingRef, run: Run, bound: Bound) -> Floats:
    """A reading over the run in SI, not a number while its instrument is dead. A port of an air part is read as the
    suction below the air outside, since that is how the trade speaks of it."""
    if ref.port:
        trace = run.column(names.node_name(ref.part, ref.port))
        if _medium(ref, bound) == "air":
            height = run.column(names.set_name("height"))
            outside: Floats = np.array([isa_pressure(float(h)) for h in height])
            return outside - trace
        return trace
    kind = kind_on(bound, ref.part)
    reading = reading_of(kind, ref.reading) if kind is not None else None
    assert reading is not None, f"{ref.part} has no reading {ref.reading}"
    trace = run.column(names.signal_name(ref.part, reading.signal))
    if reading.alive:
        alive = run.column(names.signal_name(ref.part, reading.alive)) > 0.5
        return np.where(alive, trace, np.nan)
    return trace


def _medium(ref: ReadingRef, bound: Bound) -> str:
    node = bound.wiring.joined[names.node_name(ref.part, ref.port)]
    return bound.wiring.media[node]


def reading_datum(ref: ReadingRef, bound: Bound) -> Datum:
    """Gauge or absolute, as the reading is meant."""
    if ref.port:
        return "gauge" if _medium(ref, bound) in ("petrol", "oil") else ""
    kind = kind_on(bound, ref.part)
    reading = reading_of(kind, ref.reading) if kind is not None else None
    return reading.datum if reading is not None else ""


def margin(statement: Compare, run: Run, bound: Bound) -> Floats:
    """How far the reading is inside what the statement allows, SI, negative outside."""
    trace = reading_trace(statement.reading, run, bound)
    low, high = limits(statement, bound)
    inside: Floats = np.minimum(trace - low, high - trace)
    return inside


def leeway(statement: Statement, run: Run, bound: Bound, services: Services, time: float) -> float | None:
    """How far from turning over a statement of readings is at a time, as a share of its limits, above 0 where it is
    true; None where it speaks of anything but readings. For ranking what has influence."""
    match statement:
        case Compare(negated=negated):
            index = max(0, int(np.searchsorted(run.times, time + 1e-9, side="right")) - 1)
            scale = max(abs(end) for end in limits(statement, bound) if np.isfinite(end))
            inside = float(margin(statement, run, bound)[index]) / max(scale, 1e-9)
            return None if np.isnan(inside) else -inside if negated else inside
        case Served(service=name, negated=negated):
            inner = leeway(services[name], run, bound, services, time)
            return None if inner is None else -inner if negated else inner
        case Not(of=one):
            inner = leeway(one, run, bound, services, time)
            return None if inner is None else -inner
        case And(of=several) | Or(of=several):
            found = [leeway(one, run, bound, services, time) for one in several]
            known = [one for one in found if one is not None]
            if not known or len(known) < len(found):
                return None
            return min(known) if isinstance(statement, And) else max(known)
        case _:
            return None


def limits(statement: Compare, bound: Bound) -> tuple[float, float]:
    """The least and the greatest reading, SI, for which the statement is true."""
    datum = reading_datum(statement.reading, bound)
    quantity = statement.quantity
    if statement.op in ("above", "at least"):
        return low_high_si(quantity, datum)[1], np.inf
    if statement.op in ("below", "at most"):
        return -np.inf, low_high_si(quantity, datum)[0]
    if quantity.is_range:
        return low_high_si(quantity, datum)
    half = half_step(quantity)
    return to_si(quantity, datum) - half, to_si(quantity, datum) + half


def half_step(quantity: Quantity) -> float:
    """Half a unit of the last digit that is printed, SI: '4.5 in Hg' means 4.45 to 4.55; '4½' means a quarter each
    way."""
    printed = re.search(r"\d[\d,]*(?:\.\d+)?", quantity.text)
    if any(fraction in quantity.text for fraction in "½¼¾⅓⅔⅛"):
        step = 0.25
    elif printed is None:
        step = 0.5
    else:
        exponent = Decimal(printed.group().replace(",", "")).as_tuple().exponent
        step = 0.5 * 10.0 ** int(exponent)
    return step * quantity.unit.size
