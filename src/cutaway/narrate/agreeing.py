"""Whether a figure as it is spoken is the figure that a book prints: short forms, round figures, other units."""

import math
import re
from dataclasses import replace

from cutaway.handbook.records import Paragraph
from cutaway.handbook.tables import plain_text
from cutaway.quantities.prose import figures_in, same_figure
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER

# What a speaker may say for short: 'two pounds' of a pressure, 'four inches' of suction, 'eighty degrees' of heat.
_SHORT = frozenset([("lb", "lb/sq in"), ("in", "in Hg"), ("deg", "°C"), ("deg", "°F")])
# How far off a figure may be that is called round, as a share of the printed one. A choice of ours.
_ROUND = 0.1
# Where a clause ends behind a figure.
_ENDS = re.compile(r"\s*(?:[.;:!?]?\s*$|[;:!?]|[.,](?!\d)|\bon the\s*$)")
_ABOUT = re.compile(
    r"\b(?:about|around|some|nearly|almost|roughly|approximately|round|near|just (?:over|under))\s+(?:an?\s+)?$",
    re.IGNORECASE,
)


def asserted(text: str) -> tuple[Quantity, ...]:
    """The figures that a sentence asserts: those with a unit, and plain numbers where they are written in figures."""
    return tuple(
        spoken
        for quantity, spoken in zip(figures_in(text, bare=True), spoken_in(text), strict=True)
        if quantity.unit != NUMBER or any(letter.isdigit() for letter in quantity.text)
    )


def spoken_in(text: str) -> tuple[Quantity, ...]:
    """All figures of a text. One without a unit at the end of what is said takes that of the figure before it: 'it is
    tested at 1,600 revs, and the drop must not be more than 80'."""
    found: list[Quantity] = []
    at = 0
    for one in figures_in(text, bare=True):
        start = text.find(one.text, at)
        at = max(start, at) + len(one.text)
        before = next((other for other in reversed(found) if other.unit != NUMBER), None)
        if one.unit == NUMBER and before is not None and start >= 0 and _ENDS.match(text, at):
            one = replace(one, unit=before.unit, datum=before.datum)
        found.append(one)
    return tuple(found)


def figures_of(paragraph: Paragraph) -> tuple[Quantity, ...]:
    """The figures that a paragraph prints in its title, text and cautions."""
    return figures_in("\n".join((paragraph.title, plain_text(paragraph.text), *paragraph.cautions)), bare=True)


def is_round(text: str, quantity: Quantity) -> bool:
    """Whether a sentence says a figure only roughly: 'about five pounds'."""
    at = text.find(quantity.text)
    return at >= 0 and _ABOUT.search(text[:at]) is not None


def agrees(said: Quantity, printed: Quantity, roughly: bool = False) -> bool:
    """Whether what is said is what is printed: the same figure, its short form, the same size in another unit, or with
    `roughly` near it. Either end of a printed range counts."""
    if same_figure(said, printed):
        return True
    if same_unit(said, printed):
        ends = (printed.value, printed.low, printed.high)
        return any(_near(said.value, end, roughly) for end in ends) and not said.is_range
    if said.dimension != printed.dimension or said.unit == NUMBER:
        return False
    return any(_near(_si(said, said.value), _si(printed, end), roughly) for end in (printed.low, printed.high))


def same_unit(said: Quantity, printed: Quantity) -> bool:
    """Whether two figures are in one unit, or the one said is short for the other."""
    return said.unit == printed.unit or (said.unit.name, printed.unit.name) in _SHORT


def comparable(said: Quantity, printed: Quantity) -> bool:
    """Whether two figures measure the same sort of thing, as far as their units tell."""
    return said.dimension == printed.dimension or same_unit(said, printed)


def _near(one: float, other: float, roughly: bool) -> bool:
    return math.isclose(one, other, rel_tol=_ROUND if roughly else 1e-6, abs_tol=1e-12)


def _si(quantity: Quantity, value: float) -> float:
    return value * quantity.unit.size + quantity.unit.zero
