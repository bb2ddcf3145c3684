"""One quantity as a phrase of text: a figure and its unit, alone, as a range, or with a tolerance.

`phrase_at` only takes the phrase apart; whether it makes sense is judged by `reading.py`.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from cutaway.quantities.figures import Figure, UnitFound, figure_at, unit_at
from cutaway.quantities.quantity import Dimension, Quantity, Unit
from cutaway.quantities.units import NUMBER

FigureAt = Callable[[str, int], Figure | None]
UnitAt = Callable[[str, int, Dimension | None], UnitFound | None]
Joint = Literal["", "to", "±"]

# Feet and inches, minutes and seconds: a larger and a smaller unit that make one figure.
_COMPOUND: tuple[Dimension, ...] = ("time", "length", "volume", "mass")
_RANGE = re.compile(r"\s*(?:\bto\b|[–—]|-(?!\s*-))\s*|\s+and\s+", re.IGNORECASE)
TOLERANCE = re.compile(r"\s*(?:±|\+\s*/\s*[-−–]|\+[-−–]|\+\s*or\s*[-−–]|plus\s+or\s+minus\b)\s*", re.IGNORECASE)
_LEAD = re.compile(r"\s*(?:(?P<between>between)|(?:suction|vacuum)(?:\s+of)?)?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Term:
    """A figure with its unit, if it has one; start to end in the text."""

    value: float
    unit: UnitFound | None
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Phrase:
    """One term, or two joined as a range or as a tolerance; start to end in the text."""

    first: Term
    joint: Joint
    second: Term | None
    start: int
    end: int


def phrase_at(
    text: str,
    at: int,
    dimension: Dimension | None = None,
    figure: FigureAt = figure_at,
    unit: UnitAt = unit_at,
) -> Phrase | None:
    """The phrase that begins at `at`, or None where no figure stands."""
    lead = _LEAD.match(text, at)
    between = bool(lead and lead["between"])
    first = _term(text, lead.end() if lead else at, dimension, figure, unit)
    if first is None:
        return None
    for joint, pattern in _JOINTS:
        found = pattern.match(text, first.end)
        if found is None or (found[0].strip() == "and" and not between):
            continue
        second = _term(text, found.end(), dimension, figure, unit)
        if second is not None:
            return Phrase(first, joint, second, at, second.end)
    return Phrase(first, "", None, at, first.end)


_JOINTS: tuple[tuple[Joint, re.Pattern[str]], ...] = (("±", TOLERANCE), ("to", _RANGE))


def _term(text: str, at: int, dimension: Dimension | None, figure: FigureAt, unit: UnitAt) -> Term | None:
    number = figure(text, at)
    if number is None:
        return None
    found = unit(text, number.end, dimension)
    term = Term(number.value, found, number.start, found.end if found else number.end)
    return _compounded(text, term, figure, unit)


def _compounded(text: str, term: Term, figure: FigureAt, unit: UnitAt) -> Term:
    """'1 min' followed by '30 s' is one term of 90 s."""
    large = term.unit
    if large is None or large.unit.dimension not in _COMPOUND or not re.match(r"\s*[0-9½¼¾]", text[term.end :]):
        return term
    number = figure(text, term.end)
    small = unit(text, number.end, large.unit.dimension) if number else None
    if number is None or small is None or small.unit.dimension != large.unit.dimension:
        return term
    if small.unit.size >= large.unit.size:
        return term
    # The ratio of two such units is a whole number, which the division of two floats may miss by a hair.
    ratio = round(large.unit.size / small.unit.size, 9)
    return _compounded(text, Term(term.value * ratio + number.value, small, term.start, small.end), figure, unit)


def made(text: str, phrase: Phrase) -> Quantity | None:
    """The quantity that a phrase means; None where its two units do not go together. Order is not judged."""
    found = (phrase.second.unit if phrase.second else None) or phrase.first.unit
    unit = found.unit if found else NUMBER
    datum = (found.datum or unit.datum) if found else ""
    words = text[phrase.start : phrase.end].strip()
    if phrase.joint == "±" and phrase.second and phrase.first.unit:
        return _with_tolerance(words, phrase.first, phrase.second)
    value = _in_unit(phrase.first, unit)
    if value is None:
        return None
    if phrase.second is None:
        return Quantity(words, value, value, value, unit, datum)
    if phrase.joint == "±":
        return Quantity(words, value, value - phrase.second.value, value + phrase.second.value, unit, datum)
    return Quantity(words, value / 2 + phrase.second.value / 2, value, phrase.second.value, unit, datum)


def _with_tolerance(words: str, first: Term, second: Term) -> Quantity | None:
    """'7 lb/sq in ± 0.5', '7 lb/sq in ± 0.5 lb/sq in', '7 lb/sq in ± 5 %'."""
    assert first.unit is not None
    unit = first.unit.unit
    by = second.value
    if second.unit and second.unit.unit != unit:
        other = second.unit.unit
        if other.dimension == "fraction":
            by = abs(first.value) * second.value * other.size
        elif other.dimension == unit.dimension:
            by = second.value * other.size / unit.size
        else:
            return None
    datum = (second.unit.datum if second.unit else "") or first.unit.datum or unit.datum
    return Quantity(words, first.value, first.value - by, first.value + by, unit, datum)


def _in_unit(term: Term, unit: Unit) -> float | None:
    """The term's figure in another unit of its dimension; a figure without a unit is taken to be in that unit."""
    if term.unit is None or term.unit.unit == unit:
        return term.value
    own = term.unit.unit
    if own.dimension != unit.dimension:
        return None
    return (term.value * own.size + own.zero - unit.zero) / unit.size
