"""Figures, units, marks and abbreviations as they are read aloud."""

import math
import re
from collections.abc import Mapping
from types import MappingProxyType

from num2words import num2words

from cutaway.quantities.figures import Figure, figure_at, unit_at
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER

# What stands before the number of a thing.
REFERENCES = MappingProxyType(
    {
        r"\bNo\.\s?(?=[0-9])": "number ",
        r"\bNos\.\s?(?=[0-9])": "numbers ",
        r"\bFig\.\s?(?=[0-9])": "figure ",
        r"\bA\.\s?L\.\s?(?=[0-9])": "amendment list ",
        r"§§?\s?(?=[0-9])": "paragraph ",
        r"\bpara\.\s?(?=[0-9])": "paragraph ",
        r"\bMods?\.\s?(?=[0-9])": "mod ",
    }
)
# Longest first; each is a pattern for the written form. What is not a unit behind a figure stands here.
ABBREVIATIONS = MappingProxyType(
    {
        r"\bi\.\s?e\.": "that is",
        r"\be\.\s?g\.": "for example",
        r"\betc\.": "and so on",
        r"\bviz\.": "namely",
        r"\bapprox\.": "approximately",
        r"\bmax\.": "maximum",
        r"\bmin\.(?=\s+[a-z])": "minimum",
        r"\br\.p\.m\.|\brpm\b": "revs per minute",
        r"\bm\.p\.h\.|\bmph\b": "miles an hour",
        r"\bb\.h\.p\.|\bbhp\b": "brake horsepower",
        r"\blb\.?\s?/\s?sq\.?\s?in\b\.?": "pounds per square inch",
        r"\bin\.?\s?Hg\b\.?": "inches of mercury",
        r"\bSTBD\b|\bstbd\b\.?": "starboard",
        r"\bR\.A\.F\.|\bRAF\b": "R A F",
        r"\s&\s": " and ",
        r"°": " degrees",
    }
)

_MARK = re.compile(
    r"\b(?P<lead>mk|mks|mark|marks)\.?\s+(?P<number>[0-9]{1,9}|[IVX]+)(?P<letter>[A-Za-z]?)\b", re.IGNORECASE
)
_ROMAN = {"I": 1, "V": 5, "X": 10}
_LETTERED = re.compile(r"(?<=paragraph )(?P<number>[0-9]{1,9})(?P<letter>[a-z])\b")
_ORDINAL = re.compile(r"\b(?P<number>[0-9]{1,9})(?:st|nd|rd|th)\b")
_YEAR = re.compile(r"(?<![\w.,+\-])(?P<year>1[6-9][0-9]{2}|20[0-9]{2})(?P<decade>s)?(?![\w]|[.,][0-9]|\s?[%°/])")
_BEGIN = re.compile(r"(?<![A-Za-z])(?=(?:[+\-−–]\s?)?(?:[0-9]|[½⅓⅔¼¾⅛⅜⅝⅞]))")
_RANGE = re.compile(r"(?P<low>[0-9½¼¾])\s?[–—]\s?(?=[0-9])|(?P<low2>[0-9½¼¾])-(?=[0-9]+(?:[.,][0-9]+)?\s?[a-z%°])")
_TOLERANCE = re.compile(r"\s*(?:±|\+/-)\s*")
LARGEST_SAID = 1e15
"""Beyond this a float is no longer the figure that was written, and nobody would say it."""
_FRACTIONS = MappingProxyType({0.5: "half", 0.25: "quarter", 0.75: "three quarters"})


def spoken(text: str) -> str:
    """A whole sentence as it is read aloud.

    >>> spoken("On the Mk 2 the lamp lights below 4½ lb/sq in, see §25a.")
    'On the Mark Two the lamp lights below four and a half pounds per square inch, see paragraph twenty-five A.'
    """
    text = _MARK.sub(_mark, text)
    text = _ORDINAL.sub(lambda m: str(num2words(int(m["number"]), to="ordinal", lang="en_GB")), text)
    text = _TOLERANCE.sub(" plus or minus ", text)
    text = _RANGE.sub(lambda m: f"{m['low'] or m['low2']} to ", text)
    text = _replaced(text, REFERENCES)
    text = _LETTERED.sub(lambda m: f"{_whole(int(m['number']))} {m['letter'].upper()}", text)
    text = _replaced(_figures(text), ABBREVIATIONS)
    return re.sub(r"[ \t]{2,}", " ", text.replace("a half a ", "half a "))


def unsayable(text: str) -> tuple[str, ...]:
    """The figures of a text that are too large to be said, as written.

    >>> unsayable("It holds 1e400 gallons, and 22 pints.")
    ('1e400',)
    """
    found: list[str] = []
    at = 0
    while begin := _BEGIN.search(text, at):
        figure = figure_at(text, begin.start())
        at = figure.end if figure else begin.start() + 1
        if figure and (not math.isfinite(figure.value) or abs(figure.value) > LARGEST_SAID):
            found.append(text[figure.start : figure.end])
    return tuple(found)


def _replaced(text: str, table: Mapping[str, str]) -> str:
    for pattern, words in table.items():
        text = re.sub(pattern, words, text)
    return text


def spoken_quantity(quantity: Quantity) -> str:
    """A quantity as it is read aloud: 'four and a half pounds per square inch', 'seven plus or minus half a volt'."""
    unit = quantity.unit
    one, many = unit.spoken
    if not quantity.is_range:
        return _with_unit(quantity.value, one, many)
    if re.search(r"±|\+\s?/", quantity.text):
        ends = f"{in_words(quantity.value)} plus or minus {in_words(quantity.high - quantity.value)}"
    else:
        ends = f"{in_words(quantity.low)} to {in_words(quantity.high)}"
    return f"{ends} {many}".strip()


def in_words(value: float) -> str:
    """A figure in words: 4.5 is 'four and a half', 0.05 'nought point nought five', -4 'minus four'. One that is too
    large to be said is read digit by digit."""
    if not math.isfinite(value) or abs(value) > LARGEST_SAID:
        return _digit_by_digit(f"{value:g}")
    if value < 0:
        return f"minus {in_words(-value)}"
    whole, part = int(value), round(value - int(value), 9)
    if part in _FRACTIONS:
        fraction = _FRACTIONS[part]
        article = "" if fraction.startswith("three") else "a "
        return f"{_whole(whole)} and {article}{fraction}" if whole else (f"{article}{fraction}")
    if part == 0.0:
        return _whole(whole)
    decimals = f"{value:.9f}".rstrip("0").partition(".")[2]
    return f"{_whole(whole)} point {' '.join(_whole(int(digit)) for digit in decimals)}"


def _digit_by_digit(figure: str) -> str:
    words = re.sub(r"[0-9]", lambda digit: f" {_whole(int(digit[0]))} ", figure)
    return " ".join(words.replace("+", " plus ").replace("-", " minus ").split())


def _whole(number: int) -> str:
    words = str(num2words(number, lang="en_GB"))
    return words.replace(",", "").replace("zero", "nought")


def _with_unit(value: float, one: str, many: str) -> str:
    if not many:
        return in_words(value)
    if abs(value) in (0.5, 0.25, 0.75) and value > 0 and one != "per cent" and not one.startswith("degree"):
        part = _FRACTIONS[value]
        article = "an" if one[0] in "aeiou" or one.startswith("hour") else "a"
        lead = {"half": "half", "quarter": "a quarter of", "three quarters": "three quarters of"}[part]
        return f"{lead} {article} {one}"
    return f"{in_words(value)} {one if value == 1 else many}"


# --- the parts of a sentence -------------------------------------------------------------------------------------


def _mark(found: re.Match[str]) -> str:
    number = found["number"]
    value = int(number) if number.isdigit() else _roman(number.upper())
    plural = "s" if found["lead"].lower().endswith("s") and found["lead"].lower() != "mks" else ""
    lead = "Marks" if plural or found["lead"].lower() == "mks" else "Mark"
    letter = f" {found['letter'].upper()}" if found["letter"] else ""
    return f"{lead} {_whole(value).title()}{letter}"


def _roman(letters: str) -> int:
    values = [_ROMAN[letter] for letter in letters]
    return sum(-v if after > v else v for v, after in zip(values, [*values[1:], 0], strict=True))


def _figures(text: str) -> str:
    done: list[str] = []
    at = 0
    while begin := _BEGIN.search(text, at):
        start = begin.start()
        figure = figure_at(text, start)
        if figure is None:
            done.append(text[at : start + 1])
            at = start + 1
            continue
        done.append(text[at:start])
        year = _YEAR.match(text, start)
        words, at = (_year(year), year.end()) if year and not _has_unit(text, year.end()) else _figure(text, figure)
        done.append(words)
    done.append(text[at:])
    return "".join(done)


def _has_unit(text: str, at: int) -> bool:
    return unit_at(text, at) is not None and not re.match(r"\s+in\b(?!\.)", text[at:])


def _year(found: re.Match[str]) -> str:
    year = str(num2words(int(found["year"]), to="year", lang="en_GB")).replace("oh-", "oh ")
    if not found["decade"]:
        return year
    return year[:-1] + "ies" if year.endswith("y") else year + "s"


def _figure(text: str, figure: Figure) -> tuple[str, int]:
    if not math.isfinite(figure.value) or abs(figure.value) > LARGEST_SAID:
        return _digit_by_digit(text[figure.start : figure.end]), figure.end  # `unsayable` tells it
    plus = "plus " if figure.signed and figure.value >= 0 else ""
    unit = unit_at(text, figure.end)
    if unit is None or unit.unit == NUMBER or re.match(r"\s+in\s+(?!long|diameter|bore)[a-z]", text[figure.end :]):
        return plus + in_words(figure.value), figure.end
    one, many = unit.unit.spoken
    end = unit.end
    # The stop of an abbreviation at the end of a sentence is the sentence's own.
    if text[end - 1 : end] == "." and re.match(r"\s*$|\s+[A-Z\"'“‘]", text[end:]):
        end -= 1
    datum = f" {unit.datum}" if unit.datum else ""
    if text[unit.start] == "-":
        return f"{plus}{in_words(figure.value)}-{one}", end  # the 12-volt battery
    return plus + _with_unit(figure.value, one, many) + datum, end
