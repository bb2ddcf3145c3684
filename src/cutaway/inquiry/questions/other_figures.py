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

# How near a limit of so many digits must lie to what was read, and what counts as nothing beside a figure that was
# asked for, as shares. Choices of ours.
NEAR = {1: 0.101, 2: 0.02, 3: 1.0}
NOTHING = 0.002


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
        if statement.op != "is" and (value < 0.0 <= asked.value or abs(value) <= NOTHING * abs(asked.value)):
            # That a thing which stands still turns at more than -0.1 rpm is nothing to say.
            statement = replace(statement, op="is")
        if statement.op != "is":
            yield from _limits(statement, value)
            return
        yield from _rounded(statement, value)
        for digits in range(_decimals(asked), _decimals(asked) + 3):
            quantity = _quantity(_told(statement, value, digits), asked)
            if quantity is not None:
                yield replace(statement, quantity=quantity)


def _limits(statement: Compare, value: float) -> Iterator[Compare]:
    """Limits beyond a figure as it is told, of as few digits as bring it near enough."""
    told = value if value == 0.0 else round(value, 2 - math.floor(math.log10(abs(value))))
    size = abs(told) * (1.0 - 1e-6 if statement.op == "above" else 1.0)  # what lies next below 1 is 0.9
    for digits, near in NEAR.items():
        decimals = digits - 1 - (math.floor(math.log10(size)) if size else 0)
        step = 10.0**-decimals
        match statement.op:
            case "above":
                limit = (math.ceil(told / step - 1e-6) - 1) * step
            case "below":
                limit = (math.floor(told / step + 1e-6) + 1) * step
            case "at least":
                limit = math.floor(min(told, value) / step + 1e-6) * step
            case _:
                limit = math.ceil(max(told, value) / step - 1e-6) * step
        quantity = _quantity(
            f"{limit:.{max(0, decimals)}f} {statement.quantity.unit.name}".rstrip(), statement.quantity
        )
        if quantity is not None and abs(limit - value) <= near * abs(value):
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
    """The figure rounded, with the tolerance that the claim has."""
    asked = statement.quantity
    around = asked.high - asked.value if asked.is_range else 0.0
    text = f"{round(value, decimals) + 0.0:.{decimals}f} {asked.unit.name}".rstrip()
    return f"{text} ± {around:.4g}" if around else text


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
