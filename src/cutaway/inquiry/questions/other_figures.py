"""Other figures, names and numbers for a statement that fails by one of them alone."""

import math
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from cutaway.handbook.records import given_on
from cutaway.inquiry.verdicts import Fails, Seen
from cutaway.language.syntax import And, Built, ComesOnAt, Compare, Not, Statement
from cutaway.machine.bind import Bound
from cutaway.problems.diagnostic import has_error
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import from_si


def other_figures(statement: Statement, fails: Fails, bound: Bound) -> Iterator[Statement]:
    """Statements that differ from one in a figure, a place, a marking or a number, as the run or the records have it;
    each still has to be judged."""
    match statement:
        case Compare(negated=False):
            yield from _compared(statement, fails.seen)
        case ComesOnAt():
            yield from _thresholds(statement, bound)
        case Built(negated=False):
            yield from _built(statement, fails.found, bound)
        case And(of=several):
            for i, one in enumerate(several):
                for other in other_figures(one, fails, bound):
                    yield replace(statement, of=(*several[:i], other, *several[i + 1 :]))
        case Not():
            return
        case _:
            return


# --- what a run shows ----------------------------------------------------------------------------------------------


def _compared(statement: Compare, seen: tuple[Seen, ...]) -> Iterator[Compare]:
    """The figure that was read instead, with as many digits and the tolerance that the claim has."""
    ref, asked = statement.reading, statement.quantity
    name = f"{ref.part}.{ref.port}" if ref.port else str(ref.part)
    for one in seen:
        if one.what != name or one.value is None:
            continue
        value = from_si(one.value, asked.unit)
        yield from _rounded(statement, value)
        finer = 0 if statement.op == "is" else 1
        for digits in range(_decimals(asked) + finer, _decimals(asked) + 3):
            quantity = _quantity(_told(statement, value, digits), asked)
            if quantity is not None:
                yield replace(statement, quantity=quantity)


def _rounded(statement: Compare, value: float) -> Iterator[Compare]:
    """The figure no finer than its tolerance wants: '1900 rpm ± 150', not '1873 rpm ± 150'."""
    asked = statement.quantity
    around = asked.high - asked.value if asked.is_range else 0.0
    if statement.op != "is" or around <= 0.0:
        return
    step = _plain_step(around)
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    told = f"{round(value / step) * step:.{decimals}f} {asked.unit.name}".rstrip()
    quantity = _quantity(f"{told} ± {around:.4g}", asked)
    if quantity is not None:
        yield replace(statement, quantity=quantity)


def _plain_step(most: float) -> float:
    """The greatest step of one, two or five that is no more than so much.

    >>> _plain_step(75.0), _plain_step(0.15), _plain_step(4.0)
    (50.0, 0.1, 2.0)
    """
    ten = 10.0 ** math.floor(math.log10(most))
    return round(max(step * ten for step in (1.0, 2.0, 5.0) if step * ten <= most * (1.0 + 1e-9)), 12)


def _told(statement: Compare, value: float, decimals: int) -> str:
    """The figure that makes the comparison true: rounded for 'is', down for 'above', up for 'below'."""
    scale, asked = 10.0**decimals, statement.quantity
    around = asked.high - asked.value if asked.is_range else 0.0
    match statement.op:
        case "is":
            told = round(value * scale) / scale
        case "above":
            told = (math.ceil(value * scale - 1e-9) - 1) / scale
        case "at least":
            told = math.floor(value * scale) / scale
        case "below":
            told = (math.floor(value * scale + 1e-9) + 1) / scale
        case "at most":
            told = math.ceil(value * scale) / scale
    text = f"{told:.{decimals}f} {asked.unit.name}".rstrip()
    return f"{text} ± {around:.4g}" if around and statement.op == "is" else text


def _decimals(quantity: Quantity) -> int:
    """How many digits stand behind the point of a figure as it was written."""
    exponent = Decimal(f"{quantity.value:.6g}").normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def _quantity(text: str, like: Quantity) -> Quantity | None:
    """A figure on the datum of another."""
    said = f" {like.datum}" if like.datum and like.datum != like.unit.datum else ""
    quantity, problems = read_quantity(f"{text}{said}", whole(TextFile("", f"{text}{said}")), like.dimension)
    return None if has_error(problems) else quantity


# --- what the records say ------------------------------------------------------------------------------------------


def _thresholds(statement: ComesOnAt, bound: Bound) -> Iterator[ComesOnAt]:
    """The figures that the books give for the part in the same dimension."""
    for quantity in _givens(str(statement.part), statement.quantity, bound):
        yield replace(statement, quantity=quantity)


def _givens(part: str, asked: Quantity, bound: Bound) -> Iterator[Quantity]:
    record = bound.parts.get(part)
    if record is None:
        return
    for value in record.values:
        given = given_on(record, value.name, bound.subject.standard)
        if given is not None and given.quantity.dimension == asked.dimension:
            yield given.quantity


def _built(statement: Built, found: str, bound: Bound) -> Iterator[Built]:
    """How it is built instead."""
    part = bound.parts.get(statement.subject)
    match statement.what:
        case "count":
            number = sum(1 for one in bound.parts.values() if one.name in statement.words)
            yield replace(statement, number=number)
        case "fitted":
            yield replace(statement, negated=True)
        case "at" | "marked" | "worked by" if part is not None and found:
            yield replace(statement, words=(found,))
        case "positions" if part is not None:
            slot = bound.controls.get((str(part.name), statement.value))
            if slot is not None:
                yield replace(statement, words=slot.positions)
        case "set at" if statement.quantity is not None:
            for quantity in _givens(statement.subject, statement.quantity, bound):
                yield replace(statement, quantity=quantity)
        case "driven by" if part is not None:
            for link in part.links:
                if link.name == "driven by" and bound.subject.standard in link.on.names:
                    yield replace(statement, words=(str(link.target.part),))
        case _:
            return
