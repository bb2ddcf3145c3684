"""Figures found in running prose, so that a sentence can be compared with the paragraph that it cites."""

import math
import re
from collections.abc import Iterator

from cutaway.quantities.figures import Figure, UnitFound, figure_at, unit_at
from cutaway.quantities.phrases import Phrase, made, phrase_at
from cutaway.quantities.quantity import Dimension, Quantity
from cutaway.quantities.units import NUMBER

_SMALL = (
    "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_VALUE = {
    **{word: float(n) for n, word in enumerate(_SMALL)},
    **{word: 10.0 * n for n, word in enumerate(_TENS, 2)},
    "zero": 0.0,
    "hundred": 100.0,
    "thousand": 1000.0,
}
_PART = {"half": 0.5, "quarter": 0.25, "third": 1 / 3, "three quarters": 0.75, "two thirds": 2 / 3}

_WORDS = "|".join(sorted(_VALUE, key=len, reverse=True))
_SPELT = re.compile(
    rf"(?P<whole>(?:a\s+(?=hundred|thousand))?(?:{_WORDS})\b(?:(?:[\s\-]+|(?<=d)\s+and\s+)(?:{_WORDS})\b)*)"
    r"(?:\s+and\s+(?:a\s+)?(?P<part>half|quarter|third|three[ -]quarters|two[ -]thirds)\b)?"
    r"|(?P<alone>half|quarter|third|three[ -]quarters|two[ -]thirds)(?:\s+of)?\s+an?\b",
    re.IGNORECASE,
)

# Where a figure may begin: not inside a word or a number.
_BEGIN = re.compile(rf"(?<![\w.,·/])(?=[+\-−–]?[0-9]|[+\-−]?[½⅓⅔¼¾⅛⅜⅝⅞]|(?:{_SPELT.pattern}))", re.IGNORECASE)
# A number that names a thing is not a figure: §21, Mk 2, mod 12, A.L. 3, No. 14.
_NAMES = re.compile(
    r"(?:§§?|\b(?:mk|mark|mod|modification|no|nos|number|a\.?\s?l|para|paragraph|fig|figure|step|page|chapter|section)s?)"
    r"\.?\s*$",
    re.IGNORECASE,
)
# 'in' is the unit only where no preposition can be meant: '4 in.', '4 in long', not 'the 4 in the wing'.
_INCHES = re.compile(r"\s*(?:$|[.,;:)]|(?:in\s+)?(?:diameter|bore|stroke|travel|long|wide|deep|high|thick|of\s))")
_BETWEEN = re.compile(r"\bbetween\s+$", re.IGNORECASE)
# What a rate is of, between its units.
_OF_WHAT = re.compile(
    r"\s+of\s+(?:(?!(?:an?|per|for|in|after|over|within)\b)\w+\s+){1,3}(?=(?:an?|per)\s+(?:second|minute|hour)\b)",
    re.IGNORECASE,
)
_DECADE = re.compile(r"(?:1[6-9]|20)[0-9]0s\b")


def figures_in(text: str, bare: bool = False) -> tuple[Quantity, ...]:
    """All figures with units in a text, in order; spelt ones too ('three lb/sq in', 'half a pint').

    bare: also plain numbers, as quantities without a unit. A number that names a thing ('Mk 2', '§21') never counts.

    >>> [q.text for q in figures_in("On the Mk 2 it lights below three lb/sq in, at 1,800 r.p.m. or less.")]
    ['three lb/sq in', '1,800 r.p.m.']
    """
    return tuple(
        quantity
        for phrase in _phrases(text)
        if (quantity := made(text, phrase)) is not None
        and math.isfinite(quantity.low)
        and math.isfinite(quantity.high)
        and (bare or quantity.unit != NUMBER)
    )


def states(text: str, quantity: Quantity) -> bool:
    """Whether a text holds this figure with this unit, in any spelling; either end of a range that it prints counts,
    and a rate may have between its units of what it is: '1½ cu. ft. of free air a minute'."""
    found = figures_in(text, bare=quantity.unit == NUMBER)
    if "/" in quantity.unit.name:
        found += figures_in(_OF_WHAT.sub(" ", text))
    return any(same_figure(one, quantity) or _is_end_of(quantity, one) for one in found)


def states_without_unit(text: str, quantity: Quantity) -> bool:
    """Whether a text holds this figure alone, beside another that has its unit: '900 lb. per sq. in., later 700'."""
    found = figures_in(text, bare=True)
    for at, one in enumerate(found):
        alone = one.unit == NUMBER and math.isclose(one.value, quantity.value, rel_tol=1e-9) and not one.is_range
        if alone and any(other.unit == quantity.unit for other in found[max(0, at - 1) : at + 2]):
            return True
    return False


def same_figure(one: Quantity, other: Quantity) -> bool:
    """Whether two quantities print the same figures in the same unit: '4½ lb. per sq. in.' is '4.5 lb/sq in'."""
    return (
        one.unit == other.unit
        and one.datum == other.datum
        and math.isclose(one.low, other.low, rel_tol=1e-9, abs_tol=1e-12)
        and math.isclose(one.high, other.high, rel_tol=1e-9, abs_tol=1e-12)
    )


def _is_end_of(single: Quantity, printed: Quantity) -> bool:
    if single.is_range or not printed.is_range or single.unit != printed.unit or single.datum != printed.datum:
        return False
    return any(math.isclose(single.value, end, rel_tol=1e-9) for end in (printed.low, printed.value, printed.high))


def _phrases(text: str) -> Iterator[Phrase]:
    at = 0
    while begin := _BEGIN.search(text, at):
        between = _BETWEEN.search(text, 0, begin.start())
        start = between.start() if between else begin.start()
        phrase = phrase_at(text, start, None, prose_figure_at, prose_unit_at)
        if phrase is None:
            at = begin.start() + 1
            continue
        decade = _DECADE.match(text, begin.start())
        if not decade and not _NAMES.search(text[: begin.start()]):
            yield phrase
        at = max(phrase.end, begin.start() + 1)


def prose_figure_at(text: str, at: int) -> Figure | None:
    """As `figure_at`, and spelt numbers too: 'twenty-two', 'four and a half', 'half a'."""
    figure = figure_at(text, at)
    if figure is not None:
        return figure
    start = at + len(text[at:]) - len(text[at:].lstrip())
    found = _SPELT.match(text, start)
    return Figure(_spelt(found), start, found.end()) if found else None


def _spelt(found: re.Match[str]) -> float:
    if found["alone"]:
        return _part(found["alone"])
    total = below = 0.0
    for word in re.findall(r"[a-z]+", found["whole"].lower()):
        if word == "thousand":
            total, below = total + (below or 1.0) * 1000.0, 0.0
        elif word == "hundred":
            below = (below or 1.0) * 100.0
        else:
            below += _VALUE.get(word, 0.0)
    return total + below + (_part(found["part"]) if found["part"] else 0.0)


def _part(words: str) -> float:
    return _PART[" ".join(words.lower().replace("-", " ").split())]


def prose_unit_at(text: str, at: int, dimension: Dimension | None = None) -> UnitFound | None:
    """As `unit_at`, but the preposition 'in' is not taken for inches."""
    found = unit_at(text, at, dimension)
    if found is None or text[found.start : found.end] != "in" or _INCHES.match(text, found.end):
        return found
    return None
