"""Which standards a text names in passing: 'On the Mark Two …', 'Mk 1 only', 'those with Mod. 12', 'both marks'."""

import re
from dataclasses import dataclass

from cutaway.handbook.records import AircraftType
from cutaway.quantities.prose import prose_unit_at
from cutaway.quantities.which import StandardName

_ROMAN = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")
_SPELT = (
    "", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_ALL = re.compile(r"\b(?:both|all|either|every|each)\s+(?:the\s+)?(?:marks?|mks?)\b", re.IGNORECASE)

_JOINED = re.compile(r"\s*(?:,|and|or|to|/|&|,\s*and)\s*(?:on\s+)?(?:the\s+|both\s+)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Named:
    """The standards that a text names, with the places of the names in it; names is None where it names none."""

    names: frozenset[StandardName] | None
    places: tuple[tuple[int, int], ...]


# A mark in any spelling, whether the type has it or not. 'mark two inches' is something to do, so that the word written
# out counts only with a figure, or with capitals.
_ANY_MARK = re.compile(
    r"(?<!\w)(?P<word>[Mm][Kk]s?\.?|MK|[Mm]arks?)\s*(?P<number>\d+[A-Za-z]?|[IVX]+|"
    r"(?i:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve))(?!\w)"
)
_ANY_MOD = re.compile(r"\b(?i:mod|modification)s?\.?\s*(?:[Nn]o\.?\s*)?(?P<number>\d+)(?!\w)")
# What joins a mark to a mod that it has: 'Mk 1 with mod 12', 'the Mk 1s that carry Mod. 12'.
_HAVING = re.compile(r"^s?\s+(?:\w+\s+){0,2}(?:with|having|carrying|carry|carries|has|have|had)\s+$", re.IGNORECASE)


_SECOND = re.compile(r"\w\s*(?:,|\band\b|\bor\b|\bto\b)\s*\w+$", re.IGNORECASE)


class MarkNames:
    """Finds the marks and mods of one type in texts. It lives as long as its owner."""

    def __init__(self, about: AircraftType) -> None:
        self._about = about
        self._own_words = {word for name in (about.name, about.maker) for word in name.lower().split()}
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

    def places_in(self, text: str) -> tuple[tuple[int, int], ...]:
        """Where a text names marks, mods or all of them, in order; names with only 'and' between are one place."""
        _, marks = _found(self._marks, text)
        _, mods = _found(self._mods, text)
        joined: list[tuple[int, int]] = []
        for start, end in sorted({*marks, *mods, *(one.span() for one in _ALL.finditer(text))}):
            if joined and (start < joined[-1][1] or _JOINED.fullmatch(text[joined[-1][1] : start])):
                joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
            else:
                joined.append((start, end))
        return tuple(joined)

    def strange_in(self, text: str) -> tuple[str, ...]:
        """The marks and mods that a text names and the type does not have: 'Mk 3', 'mod 40', 'Mk 1 with mod 12'.

        A mark behind another thing's name ('Merlin Mk III') is not the aeroplane's.
        """
        _, marks = _found(self._marks, text)
        _, mods = _found(self._mods, text)
        found = [
            one.group()
            for one in _ANY_MARK.finditer(text)
            if _is_written_as_mark(one)
            and not any(start <= one.start() < end for start, end in marks)
            and not self._is_of_another(text[: one.start()])
        ]
        if self._about.mods:
            found += [one.group() for one in _ANY_MOD.finditer(text) if not any(s <= one.start() < e for s, e in mods)]
        for start, end in marks:
            for begin, stop in mods:
                if _HAVING.match(text[end:begin]) and self.named_in(text[start:stop]).names is None:
                    found.append(text[start:stop])
        return tuple(dict.fromkeys(found))

    def _is_of_another(self, before: str) -> bool:
        """Whether a text ends with a name that is not the type's or its maker's."""
        word = re.search(r"([A-Z][\w’']*)\s*$", before)
        if word is None or word.start() == 0 or re.search(r"[.!?:]\s*$", before[: word.start()]):
            return False
        return word[1].lower() not in self._own_words


def _is_written_as_mark(found: re.Match[str]) -> bool:
    word, number = found["word"], found["number"]
    if word.lower().startswith("mk") or number[0].isdigit():
        return True
    return word[0] == "M" and number[0].isupper()


def _found(known: tuple[tuple[str, re.Pattern[str]], ...], text: str) -> tuple[set[str], tuple[tuple[int, int], ...]]:
    found: list[tuple[str, tuple[int, int]]] = []
    for name, pattern in known:
        for match in pattern.finditer(text):
            second = _SECOND.search(match[0])
            if second is None or not _is_a_figure(text, match.end()):
                found.append((name, match.span()))
            elif one := pattern.match(text, match.start(), match.start() + second.start() + 1):
                found.append((name, one.span()))
    return {name for name, _ in found}, tuple(place for _, place in found)


def _is_a_figure(text: str, end: int) -> bool:
    """Whether the second number of 'Mk. I and 1,820 lb.', which ends there, is a figure and no mark."""
    return re.match(r"[,.·]\d|\s*[½¼¾]", text[end:]) is not None or prose_unit_at(text, end) is not None


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
