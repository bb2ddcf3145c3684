"""Reading a quantity that a user wrote, and printing it back."""

import math
import re
from dataclasses import dataclass

from rapidfuzz import fuzz, process

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.figures import figure_at, unit_words
from cutaway.quantities.phrases import TOLERANCE, Phrase, made, phrase_at
from cutaway.quantities.quantity import Dimension, Quantity, Unit
from cutaway.quantities.units import NUMBER, UNITS, spellings_of, units_of

# A unit of which only the beginning is known: 'lb' in 'lb per sqr inch'.
_GOES_ON = re.compile(r"\s*(?:/|per\b)", re.IGNORECASE)
_CLOSE_ENOUGH = 60.0


@dataclass(frozen=True, slots=True)
class Wanted:
    """What hints propose: the dimension (None for anything), its unit, and the usual figure if it is known."""

    dimension: Dimension | None
    unit: str
    usual: Quantity | None


def _wanted(dimension: Dimension | None, like: Quantity | Unit | None) -> Wanted:
    if isinstance(like, Quantity):
        return Wanted(dimension, like.unit.name, like)
    if like is not None:
        return Wanted(dimension, like.name, None)
    return Wanted(dimension, units_of(dimension)[0].name if dimension else "lb/sq in", None)


def read_quantity(
    text: str, span: Span, dimension: Dimension | None = None, like: Quantity | Unit | None = None
) -> tuple[Quantity | None, Problems]:
    """The quantity that a whole text says: '4½ lb. per sq. in.', '6.5 to 6.75 gal', '7 ± 0.5 lb/sq in', '1 min 30 s'.

    span: where the text stands; problems point at the words at fault inside it. dimension: what is wanted, or None
    where anything will do. A figure without a unit is a number. Suction is written as a positive difference. like: what
    is usual there, or its unit, for hints to propose: an air bottle is measured in cubic feet and not in gallons.
    """
    wanted = _wanted(dimension, like)
    phrase = phrase_at(text, 0, dimension)
    if phrase is None:
        return None, (_no_figure(text, span, wanted),)
    problem = _left_over(text, span, phrase, wanted)
    quantity = None if problem else made(text, phrase)
    if quantity is None:
        return None, (problem or _two_dimensions(text, span, phrase, wanted),)
    problem = _not_finite(text, span, phrase, quantity) or _wrong_kind(text, span, phrase, quantity, wanted)
    problem = problem or _backwards(text, span, phrase, quantity)
    return (None, (problem,)) if problem else (quantity, ())


def printed(quantity: Quantity) -> str:
    """The quantity in the house spelling; reading it again gives the same.

    >>> from cutaway.problems.span import TextFile, whole
    >>> printed(read_quantity("4½ lb. per sq. in.", whole(TextFile("", "")))[0])
    '4.5 lb/sq in'
    """
    unit = quantity.unit.name
    said = f" {quantity.datum}" if quantity.datum != quantity.unit.datum else ""
    return f"{_figures(quantity)} {unit}".rstrip() + said


def _figures(quantity: Quantity) -> str:
    if not quantity.is_range:
        return _plain(quantity.value)
    if not TOLERANCE.search(quantity.text):
        return f"{_plain(quantity.low)} to {_plain(quantity.high)}"
    return f"{_plain(quantity.value)} ± {_plain(quantity.high - quantity.value)}"


def _plain(value: float) -> str:
    return f"{value:.12g}"


# --- what can be wrong -------------------------------------------------------------------------------------------


def _part(text: str, span: Span, start: int, end: int) -> Span:
    """The place of `text[start:end]`. Where the file spells the text otherwise (quotes, folds) it is the whole span."""
    if span.end - span.start != len(text) or start >= end:
        return span
    return Span(span.file, span.start + start, span.start + end)


def _example(wanted: Wanted, value: float | None = None) -> str:
    if value is None or not math.isfinite(value):
        value = 6.0 if wanted.usual is None else _round_figure(wanted.usual)
    return f"{_plain(value)} {wanted.unit}".rstrip()


def _round_figure(usual: Quantity) -> float:
    """A round figure that is usual: the one that is given, or one in the middle of a range."""
    if not usual.is_range:
        return usual.value
    middle = math.sqrt(usual.low * usual.high) if usual.low > 0.0 else usual.value
    return float(f"{middle:.1g}")


def _a(dimension: Dimension) -> str:
    return f"an {dimension}" if dimension[0] in "aeiou" else f"a {dimension}"


def _no_figure(text: str, span: Span, wanted: Wanted) -> Diagnostic:
    said = f"'{text.strip()}' has no figure." if text.strip() else "A figure is missing here."
    return Diagnostic("Q101", span, said, f"Write a figure and its unit, for instance {_example(wanted)}.")


def _left_over(text: str, span: Span, phrase: Phrase, wanted: Wanted) -> Diagnostic | None:
    rest = text[phrase.end :]
    if not rest.strip().strip("."):
        return None
    start = phrase.end + len(rest) - len(rest.lstrip())
    last = phrase.second or phrase.first
    if rest[0] == "," and rest[1:2].isdigit():
        return _comma(text, span, phrase)
    if _GOES_ON.match(rest):
        return _unknown_unit(text, span, last.value, last.unit.start if last.unit else last.end, wanted)
    if last.unit is None and not rest.lstrip()[0].isdigit() and not rest.lstrip().startswith((",", ";", "or ", "and ")):
        return _unknown_unit(text, span, last.value, last.end, wanted)
    if figure_at(rest.lstrip(" ,;andor"), 0):
        unit_name = units_of(last.unit.unit.dimension)[0].name if last.unit and not wanted.dimension else wanted.unit
        return Diagnostic(
            "Q102",
            _part(text, span, start, len(text)),
            f"'{text.strip()}' has two figures where one is wanted.",
            f"Write one of them, or a range such as {f'6 to 8 {unit_name}'.rstrip()}.",
        )
    kept = text[: phrase.end].strip()
    words = rest.strip()
    return Diagnostic(
        "Q110",
        _part(text, span, start, len(text)),
        f"'{words}' does not belong to the figure '{kept}'.",
        f"Write {kept}.",
    )


def _comma(text: str, span: Span, phrase: Phrase) -> Diagnostic:
    return Diagnostic(
        "Q108",
        _part(text, span, phrase.end, phrase.end + 1),
        f"The comma in '{text.strip()}' is neither a decimal point nor a mark between thousands.",
        f"Write {text.strip().replace(',', '.')}.",
    )


def _unknown_unit(text: str, span: Span, value: float, at: int, wanted: Wanted) -> Diagnostic:
    start, end = unit_words(text, at)
    words = text[start:end]
    near = nearest_unit(words, wanted.dimension)
    if near is not None:
        hint = f"Did you mean {near.name} ({near.spoken[1]})? Write {_plain(value)} {near.name}."
    else:
        hint = f"Write {_example(wanted, value)}."
    return Diagnostic("Q104", _part(text, span, start, end), f"The unit '{words}' is not known.", hint)


def nearest_unit(words: str, dimension: Dimension | None = None) -> Unit | None:
    """The known unit spelt most like these words, or None if none is like them."""
    units = units_of(dimension) if dimension else UNITS
    choices = {spelling: unit for unit in reversed(units) for spelling in spellings_of(unit) if spelling}
    best = process.extractOne(words, choices.keys(), scorer=fuzz.ratio, processor=str.lower, score_cutoff=_CLOSE_ENOUGH)
    return choices[best[0]] if best else None


def _two_dimensions(text: str, span: Span, phrase: Phrase, wanted: Wanted) -> Diagnostic:
    assert phrase.second is not None and phrase.second.unit is not None and phrase.first.unit is not None
    first, second = phrase.first.unit.unit, phrase.second.unit.unit
    return Diagnostic(
        "Q105",
        _part(text, span, phrase.second.unit.start, phrase.second.unit.end),
        f"'{text.strip()}' joins {_a(first.dimension)} and {_a(second.dimension)}.",
        f"Write both in {wanted.unit if wanted.dimension else first.name}.",
    )


def _not_finite(text: str, span: Span, phrase: Phrase, quantity: Quantity) -> Diagnostic | None:
    unit = quantity.unit
    if all(math.isfinite(v * unit.size + unit.zero) for v in (quantity.low, quantity.value, quantity.high)):
        return None
    bad = phrase.first if phrase.second is None or not math.isfinite(phrase.first.value) else phrase.second
    return Diagnostic(
        "Q106",
        _part(text, span, bad.start, bad.end),
        f"'{text.strip()}' is not a figure that anything can have.",
        "Write the figure as the book prints it.",
    )


def _wrong_kind(text: str, span: Span, phrase: Phrase, quantity: Quantity, wanted: Wanted) -> Diagnostic | None:
    dimension = wanted.dimension
    if dimension is None or quantity.dimension == dimension:
        return None
    figures = _figures(quantity)
    proposed = f"{figures} {wanted.unit}".rstrip()
    if quantity.unit == NUMBER:
        return Diagnostic(
            "Q103", span, f"'{text.strip()}' has no unit; {_a(dimension)} is wanted.", f"Write {proposed}."
        )
    found = (phrase.second.unit if phrase.second else None) or phrase.first.unit
    place = _part(text, span, found.start, found.end) if found else span
    said = f"'{text.strip()}' is {_a(quantity.dimension)}; {_a(dimension)} is wanted."
    if not _may_be(quantity, wanted.usual):
        proposed = _example(wanted)
    hint = f"Write {_a(dimension)}, for instance {proposed}." if dimension != "number" else f"Write {figures}."
    return Diagnostic("Q105", place, said, hint)


def _may_be(quantity: Quantity, usual: Quantity | None) -> bool:
    """Whether the figures that were written would do with the unit that is wanted."""
    return usual is None or not usual.is_range or (usual.low <= quantity.low and quantity.high <= usual.high)


def _backwards(text: str, span: Span, phrase: Phrase, quantity: Quantity) -> Diagnostic | None:
    if quantity.low <= quantity.high:
        return None
    unit = quantity.unit.name
    if phrase.joint == "±":
        by = abs(quantity.high - quantity.value)
        hint = f"Write {_plain(quantity.value)} ± {_plain(by)} {unit}".rstrip() + "."
        return Diagnostic("Q109", span, f"The tolerance in '{text.strip()}' is below nothing.", hint)
    hint = f"Write {_plain(quantity.high)} to {_plain(quantity.low)} {unit}".rstrip() + "."
    return Diagnostic("Q107", span, f"The range '{text.strip()}' runs backwards.", hint)
