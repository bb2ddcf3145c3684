"""Which standards a text names in passing: 'On the Mark Two …', 'Mk 1 only', 'those with Mod. 12', 'both marks'."""

import re
from dataclasses import dataclass

from cutaway.handbook.records import AircraftType
from cutaway.quantities.which import StandardName

_ROMAN = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")
_SPELT = (
    "", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_ALL = re.compile(r"\b(?:both|all|either|every|each)\s+(?:the\s+)?(?:marks?|mks?)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Named:
    """The standards that a text names, with the places of the names in it; names is None where it names none."""

    names: frozenset[StandardName] | None
    places: tuple[tuple[int, int], ...]


class MarkNames:
    """Finds the marks and mods of one type in texts. It lives as long as its owner."""

    def __init__(self, about: AircraftType) -> None:
        self._about = about
        self._marks = tuple((mark, _pattern(mark)) for mark in about.marks)
        self._mods = tuple((mod.name, _pattern(mod.name)) for mod in about.mods)

    def named_in(self, text: str) -> Named:
        """A mark means all its standards; a mod narrows them to those that carry it."""
        marks, places = _found(self._marks, text)
        mods, more = _found(self._mods, text)
        every = _ALL.search(text)
        standards = self._about.standards
        if not marks and not mods:
            names = frozenset(one.name for one in standards) if every else None
            return Named(names, tuple([every.span()] if every else []))
        chosen = {s.name for s in standards if not marks or s.mark in marks or every}
        if mods:
            chosen &= {s.name for s in standards if mods & set(s.mods)}
        return Named(frozenset(chosen) or None, (*places, *more))


def _found(known: tuple[tuple[str, re.Pattern[str]], ...], text: str) -> tuple[set[str], tuple[tuple[int, int], ...]]:
    found = [(name, match.span()) for name, pattern in known for match in pattern.finditer(text)]
    return {name for name, _ in found}, tuple(place for _, place in found)


def _pattern(name: str) -> re.Pattern[str]:
    """A mark or mod in any of its spellings: 'Mk 2' is 'Mark Two', 'Mk. II', 'Mks 1 and 2'."""
    word, _, number = name.rpartition(" ")
    numbers = [re.escape(number)]
    if number.isdigit() and int(number) < len(_SPELT):
        numbers += [_SPELT[int(number)], *([_ROMAN[int(number)]] if word else [])]
    number_words = "|".join(numbers)
    if word.lower() in ("mk", "mark"):
        # 'Mks 1 and 2': the second number stands without its word.
        lead = r"(?:(?:mk|mark)s?\.?\s*)(?:[\w]+\s*(?:,|and|or|to)\s*)?"
        return re.compile(rf"\b{lead}(?:{number_words})(?!\w)", re.IGNORECASE)
    if word.lower() in ("mod", "modification"):
        return re.compile(rf"\b(?:mod|modification)s?\.?\s*(?:no\.?\s*)?(?:{number_words})(?!\w)", re.IGNORECASE)
    return re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)
