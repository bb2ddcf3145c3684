"""Figures and units found in text: the letters of the reader, which knows nothing yet of ranges or tolerances."""

import math
import re
from dataclasses import dataclass

from cutaway.quantities.quantity import Datum, Dimension, Unit
from cutaway.quantities.units import spelling_key, unit_spelled

VULGAR = {
    "½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5, "⅘": 4 / 5,
    "⅙": 1 / 6, "⅚": 5 / 6, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8,
}  # fmt: skip

_VULGAR = "[" + "".join(VULGAR) + "]"
_SLASHED = r"(?P<top>[0-9]{1,2})\s?[/⁄]\s?(?P<bottom>[0-9]{1,2})(?![0-9/])"
_DECIMAL = r"[0-9]{1,3}(?:,[0-9]{3})+(?![0-9])(?:[.·][0-9]+)?|[0-9]+(?:[.·][0-9]+)?|[.·][0-9]+"
_FIGURE = re.compile(
    rf"""(?P<sign>[+\-−–]\s?)?(?:
        (?P<whole>[0-9]+)(?:\s*(?P<after>{_VULGAR})|[ \-]{_SLASHED.replace("top", "top2").replace("bottom", "bottom2")})
      | (?P<alone>{_VULGAR})
      | {_SLASHED}
      | (?P<decimal>{_DECIMAL})(?P<power>[eE][+\-]?[0-9]+)?(?![A-Za-z0-9]*[0-9])
    )""",
    re.VERBOSE,
)
_ABSURD = re.compile(r"[+\-−–]?(nan|inf|infinity|∞)(?![A-Za-z])", re.IGNORECASE)
# The words of a unit: what may follow a figure, taken as long as it makes one.
_UNIT_WORD = re.compile(r"\s*(?:per\s+cent|[^\W\d_]+[²³]?(?:\^?[23](?![0-9]))?\.?|[/%°º′″\"]|-(?=[A-Za-z]))")
_DATUM_WORD = re.compile(r"[\s,]*\(?(?P<word>absolute|abs|gauge|gage)\b\.?\)?", re.IGNORECASE)
_LONGEST_UNIT = 9


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure at `start` to `end` of a text. signed: a plus or minus was written."""

    value: float
    start: int
    end: int
    signed: bool = False


@dataclass(frozen=True, slots=True)
class UnitFound:
    """A unit at `start` to `end` of a text, with what its spelling or a word behind it says of the datum."""

    unit: Unit
    start: int
    end: int
    datum: Datum = ""


def figure_at(text: str, at: int) -> Figure | None:
    """The figure that begins at `at`, after blanks: '1,800', '4½', '2 1/2', '4·5', '-4', '1e3', 'inf'.

    >>> figure_at("2 1/2 pints", 0).value, figure_at("1,800 r.p.m.", 0).value, figure_at("4½", 0).value
    (2.5, 1800.0, 4.5)
    """
    start = at + len(text[at:]) - len(text[at:].lstrip())
    absurd = _ABSURD.match(text, start)
    if absurd:
        return Figure(math.nan, start, absurd.end())
    found = _FIGURE.match(text, start)
    if found is None:
        return None
    size = _size(found)
    if size is None:
        return None
    minus = (found["sign"] or "").strip() in ("-", "−", "–")
    return Figure(-size if minus else size, start, found.end(), bool(found["sign"]))


def _size(found: re.Match[str]) -> float | None:
    if found["whole"] is not None:
        part = VULGAR[found["after"]] if found["after"] else _fraction(found["top2"], found["bottom2"])
        return None if part is None else float(found["whole"]) + part
    if found["alone"]:
        return VULGAR[found["alone"]]
    if found["top"]:
        return _fraction(found["top"], found["bottom"])
    return float(found["decimal"].replace(",", "").replace("·", ".") + (found["power"] or ""))


def _fraction(top: str, bottom: str) -> float | None:
    return int(top) / int(bottom) if int(bottom) else None


def unit_at(text: str, at: int, dimension: Dimension | None = None) -> UnitFound | None:
    """The longest unit that begins at `at`, after blanks, with the word 'absolute' or 'gauge' if one follows.

    >>> unit_at("6 lb. per sq. in. at the pump", 1).unit.name
    'lb/sq in'
    """
    ends = [at]
    while len(ends) <= _LONGEST_UNIT and (word := _UNIT_WORD.match(text, ends[-1])):
        ends.append(word.end())
    start = at + len(text[at:]) - len(text[at:].lstrip())
    for end in reversed(ends[1:]):
        if text[start:end].rstrip(". ").lower().endswith(" of"):
            continue  # 'of' may stand inside a unit ('in. of mercury'), never behind it
        unit = unit_spelled(text[start:end], dimension)
        if unit is not None:
            return _with_datum(text, unit, start, end)
    return None


def _with_datum(text: str, unit: Unit, start: int, end: int) -> UnitFound:
    said: Datum = _DATUM_IN_SPELLING.get(spelling_key(text[start:end]), "")
    word = _DATUM_WORD.match(text, end) if unit.dimension == "pressure" else None
    if word is None:
        return UnitFound(unit, start, end, said)
    return UnitFound(unit, start, word.end(), "absolute" if word["word"].lower().startswith("a") else "gauge")


_DATUM_IN_SPELLING: dict[str, Datum] = {"psia": "absolute", "psig": "gauge"}


def unit_words(text: str, at: int) -> tuple[int, int]:
    """Where the words stand that ought to be a unit: from the first letter after `at` to the end of the phrase."""
    rest = text[at:]
    start = at + len(rest) - len(rest.lstrip())
    stop = re.search(r"\s+(?:to|and|or|±|\+/-|plus|abs(?:olute)?|gauge)\b|\s*[±,;()–]|\s+[+\-]?[0-9]", text[start:])
    return start, start + (stop.start() if stop else len(text[start:].rstrip()))
