"""A part's quantities for one standard, converted to SI: here and nowhere else."""

from dataclasses import dataclass, replace
from functools import lru_cache

from cutaway.handbook.records import Given, Part, given_on, table_on
from cutaway.parts.kind import Kind, Want
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity, Unit
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import figure, from_si, to_si
from cutaway.quantities.which import StandardName

# How far from one figure the range of another ends that must lie below or above it, as a share of what is between.
_CLEAR = 0.02


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value that no handbook gives: of which part, in SI with its range, and as written.

    because: the author's reason, or the library's for a default. default: nothing was said, the kind's own is used.
    unit: in which it was stated.
    """

    part: str
    value: str
    si: float
    low: float
    high: float
    stated: str
    between: str
    because: str
    default: bool
    unit: Unit


@lru_cache(maxsize=4096)
def library_quantity(text: str) -> Quantity:
    """A default or range of the part library, read; the library's own spelling is always good."""
    quantity, problems = read_quantity(text, whole(TextFile("part library", text)))
    assert quantity is not None, f"part library: {text!r}: {problems}"
    return quantity


def fitted(part: Part, kind: Kind, standard: StandardName) -> tuple[dict[str, float] | None, tuple[Assumption, ...]]:
    """Each of the kind's quantities in SI for one standard, and those among them that are assumed.

    None where one that has no default was not given: the reader of the folder has told that already.
    """
    si: dict[str, float] = {}
    assumed: list[Assumption] = []
    for want in kind.wants:
        given = given_on(part, want.name, standard)
        if given is not None:
            si[want.name] = to_si(given.quantity, want.datum)
            if given.assumed:
                assumed.append(_assumed(part, want, given))
        elif want.default:
            quantity = library_quantity(want.default)
            si[want.name] = to_si(quantity, want.datum)
            if want.between:
                assumed.append(_defaulted(part, want, quantity))
        else:
            return None, ()
    return si, tuple(_kept_apart(one, kind, si) for one in assumed)


def _kept_apart(one: Assumption, kind: Kind, si: dict[str, float]) -> Assumption:
    """The kind's own range of a quantity, no further than another allows that it must lie below or above.

    A range that the author states was held against the other when the folder was read.
    """
    low, high = one.low, one.high
    for order in kind.orders if one.default else ():
        clear = 0.0 if order.alike or order.share < 1.0 else _CLEAR * (si[order.upper] - si[order.lower])
        if one.value == order.lower:
            high = min(high, order.share * si[order.upper] - clear)
        elif one.value == order.upper:
            low = max(low, si[order.lower] / order.share + clear)
    if (low, high) == (one.low, one.high):
        return one
    ends = " to ".join(figure(from_si(end, one.unit)) for end in (low, high))
    return replace(one, low=low, high=high, between=f"{ends} {one.unit.name}")


def fitted_tables(part: Part, kind: Kind, standard: StandardName) -> dict[str, tuple[tuple[float, ...], ...]]:
    """The rows in SI of each table that was given for one standard, by name."""
    found: dict[str, tuple[tuple[float, ...], ...]] = {}
    for want in kind.tables:
        given = table_on(part, want.name, standard)
        if given is not None:
            found[want.name] = tuple(
                tuple(to_si(figure, column.datum) for figure, column in zip(row, want.columns, strict=True))
                for row in given.rows
            )
    return found


def _assumed(part: Part, want: Want, given: Given) -> Assumption:
    span = given.between if given.between is not None else given.quantity
    low, high = _range(span, want)
    words = given.between.text if given.between is not None else ""
    return Assumption(
        part.name,
        want.name,
        to_si(given.quantity, want.datum),
        low,
        high,
        given.quantity.text,
        words,
        given.because,
        default=False,
        unit=given.quantity.unit,
    )


def _defaulted(part: Part, want: Want, quantity: Quantity) -> Assumption:
    low, high = _range(library_quantity(want.between), want)
    return Assumption(
        part.name,
        want.name,
        to_si(quantity, want.datum),
        low,
        high,
        want.default,
        want.between,
        want.because,
        default=True,
        unit=quantity.unit,
    )


def _range(quantity: Quantity, want: Want) -> tuple[float, float]:
    ends = (
        to_si(end, want.datum)
        for end in (
            Quantity(quantity.text, quantity.low, quantity.low, quantity.low, quantity.unit, quantity.datum),
            Quantity(quantity.text, quantity.high, quantity.high, quantity.high, quantity.unit, quantity.datum),
        )
    )
    low, high = ends
    return low, high
