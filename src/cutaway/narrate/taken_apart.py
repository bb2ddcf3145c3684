"""A clause taken apart: its telling words, figures with their limits, counts, duty, denial and order of two things."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.handbook.stems import EMPTY, WORD, Stems
from cutaway.narrate.agreeing import spoken_in
from cutaway.narrate.limits_said import Side, side_of
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER

Duty = Literal["", "must", "may"]

# Words that a sentence may have or lack without saying anything else of an aeroplane. Whatever is not in this list
# must stand in the book.
_LIGHT = frozenset(
    re.findall(
        r"\S+",
        """he she him her his hers we our ours us i me my mine them one ones s t re ve ll d who whose whom what how why
        here now very just also too even quite rather thus therefore then again itself themselves yourself
        be been being am do does did done having had will would shall such same own well say says said
        hold holds held carry carries carried fit fits fitted fitting give gives gave given get gets got gotten go goes
        come comes came take takes taken took make makes made stand stands stood lie lies lay sit sits find finds found
        provide provides provided install installed see sees put puts weigh weighs read reads
        must may can could might should ought need needs needed optional allowed free
        not never none nobody nothing neither nor cannot no without with but however though although
        all every each any always both either times everything everywhere some
        aeroplane aeroplanes aircraft machine machines airframe mark marks mk mks model type
        kind sort than as per about around roughly nearly almost approximately some only
        because since after before until till once soon during""",
    )
)
_IRREGULAR = {
    "swung": "swing", "driven": "drive", "drove": "drive", "kept": "keep", "fed": "feed", "rose": "rise",
    "risen": "rise", "fell": "fall", "fallen": "fall", "broken": "break", "broke": "break", "wound": "wind",
    "drawn": "draw", "drew": "draw", "shown": "show", "ran": "run", "begun": "begin", "began": "begin",
    "blown": "blow", "blew": "blow", "worn": "wear", "flown": "fly", "flew": "fly", "flies": "fly", "sent": "send",
    "spun": "spin", "hung": "hang", "bled": "bleed", "built": "build", "led": "lead", "lit": "light", "used": "use",
}  # fmt: skip
# What stands beside what: one word for each place.
_SAME_PLACE = {
    "beneath": "below", "under": "below", "underneath": "below", "over": "above", "alongside": "beside",
    "abaft": "behind", "aft": "behind", "adjacent": "beside", "forward": "front", "fore": "front", "top": "upper",
    "bottom": "lower", "whenever": "when",
}  # fmt: skip
# 'on' and 'in' as what a switch or an undercarriage is, not as where something stands.
_ON = re.compile(
    r"\bon\b(?=\s*(?:$|[.,;:!?)]|(?:before|after|when|while|whenever|if|until|unless|once|and|or|for|during|at|without|"
    r"with|by|so|then|again|whatever)\b))|\b(?:turn(?:s|ed)?|switch(?:es|ed)?) on\b|\bON\b"
)
_IN = re.compile(r"\bin\b(?=\s*(?:$|[.,;:!?)]|before\b|after\b))", re.IGNORECASE)
_NEED_NOT = re.compile(r"\bneed(?:s|ed)? not\b|\bneedn['’]t\b", re.IGNORECASE)
_MUST = re.compile(
    r"\b(?:must|shall|(?:is|are) (?:always |never |not )?to be|has to|have to|should|ought to|needs? to)\b",
    re.IGNORECASE,
)
_MAY = re.compile(
    r"\b(?:may|can|cannot|could|might|optional|(?:is|are) (?:free|allowed) to)\b|\bcan['’]t\b", re.IGNORECASE
)
_NEGATION = re.compile(
    r"\b(?:not|never|no|none|nobody|nothing|neither|cannot|lacks?|lacking)\b|n['’]t\b", re.IGNORECASE
)
_NO_NEGATION = re.compile(r"\bnot only\b|\bnothing but\b|\bno sooner\b|\bno doubt\b|\bnot less\b", re.IGNORECASE)
_EVERY = re.compile(
    r"\b(?:all|every|each|any|always|both|everything|everywhere|at all times|whatever)\b", re.IGNORECASE
)
_ONLY = re.compile(r"\b(?:only|alone|solely|except|nothing but)\b", re.IGNORECASE)
_CONDITION = re.compile(r"\b(?:if|unless|except|without|provided that|only when|only after|only if)\b", re.IGNORECASE)
_BEFORE = re.compile(r"\b(?:before|until|till)\b", re.IGNORECASE)
_AFTER = re.compile(r"\b(?:after|once|as soon as)\b", re.IGNORECASE)
_HEAD_ENDS = re.compile(
    r"\b(?:the|a|an|it|they|he|she|you|we|he|there|this|these)\b|\b(?:must|may|can|should|is|are|has|have|will)\b",
    re.IGNORECASE,
)
_COUNTED = {
    "single": 1.0, "sole": 1.0, "twin": 2.0, "pair": 2.0, "double": 2.0, "dual": 2.0, "couple": 2.0, "triple": 3.0,
    "twice": 2.0, "thrice": 3.0,
}  # fmt: skip
_ORDINAL = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_ROMAN_VALUE = {
    "I": 1.0, "II": 2.0, "III": 3.0, "IV": 4.0, "V": 5.0, "VI": 6.0, "VII": 7.0, "VIII": 8.0, "IX": 9.0, "X": 10.0,
    "XI": 11.0, "XII": 12.0, "XIII": 13.0, "XIV": 14.0, "XV": 15.0, "XVI": 16.0,
}  # fmt: skip
_ROMAN = re.compile(r"(?<=[A-Za-z] )(?:X{0,1}(?:IX|IV|V?I{1,3}|V)|X)(?![\w.])")
_COUNT_WORD = re.compile(rf"\b(?:{'|'.join((*_COUNTED, *_ORDINAL))})\b", re.IGNORECASE)
# 'the other one', 'a 24-volt one': no count.
_PRONOUN_ONE = re.compile(r"\b(?:the|that|this|which|other|another|a|an)\s+(?:\S+\s+)?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Word:
    """A telling word: its stem, as written, and where it stands."""

    stem: str
    text: str
    at: int


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure with a unit, or one that counts things. side: whether it is a limit. of: stems of what is counted, ()
    for a figure with a unit. ordinal: whether it is a place in an order."""

    quantity: Quantity
    side: Side
    at: int
    of: tuple[str, ...] = ()
    ordinal: bool = False

    @property
    def counts(self) -> bool:
        """Whether it has no unit."""
        return self.quantity.unit == NUMBER


@dataclass(frozen=True, slots=True)
class Order:
    """What comes first and what after it, as stems; from 'A before B', 'not A until B', 'A only after B'."""

    earlier: frozenset[str]
    later: frozenset[str]
    word: str


@dataclass(frozen=True, slots=True)
class Apart:
    """A clause taken apart. denied: whether it says that something is not so, an even number of times not counted.
    negated: the same before a 'not' was counted in a limit or in the order of two things. condition: the word that
    makes it hold only in some case, '' if none."""

    text: str
    words: tuple[Word, ...]
    figures: tuple[Figure, ...]
    denied: bool
    negated: bool
    duty: Duty
    every: bool
    only: bool
    condition: str
    order: Order | None

    @property
    def stems(self) -> frozenset[str]:
        """The stems of its telling words."""
        return frozenset(word.stem for word in self.words)

    def beside(self, stem: str) -> frozenset[str]:
        """The stems of the words next to any place of a stem."""
        places = [at for at, word in enumerate(self.words) if word.stem == stem]
        return frozenset(self.words[at + by].stem for at in places for by in (-1, 1) if 0 <= at + by < len(self.words))

    def ahead(self, stem: str) -> frozenset[str]:
        """The stems of the words that stand before any place of a stem."""
        places = [at for at, word in enumerate(self.words) if at and word.stem == stem]
        return frozenset(self.words[at - 1].stem for at in places)

    def behind(self, stem: str) -> frozenset[str]:
        """The stems of the words that follow any place of a stem."""
        places = [at for at, word in enumerate(self.words[:-1]) if word.stem == stem]
        return frozenset(self.words[at + 1].stem for at in places)


def take_apart(text: str, stems: Stems, ignored: frozenset[str] = frozenset()) -> Apart:
    """A clause taken apart. The marks that it names must have been taken out of it. ignored: words that mean the
    aeroplane itself."""
    figures, rest = _figures(text, stems, ignored)
    duty: Duty = "may" if _MAY.search(rest) or _NEED_NOT.search(rest) else "must" if _MUST.search(rest) else ""
    rest_no = _NO_NEGATION.sub(lambda found: " " * len(found[0]), rest)
    denied = len(_NEGATION.findall(rest_no)) % 2 == 1
    negated = len(_NEGATION.findall(text)) % 2 == 1 and not _NEED_NOT.search(text)
    figures, denied = _absorbed(figures, denied, rest_no)
    order = _order(rest, stems, ignored, denied)
    condition = _CONDITION.search(rest)
    return Apart(
        text,
        tuple(_words(rest, stems, ignored)),
        figures,
        denied and order is None,
        negated,
        duty,
        _EVERY.search(rest) is not None,
        _ONLY.search(rest) is not None,
        condition[0].lower() if condition else "",
        order,
    )


def _figures(text: str, stems: Stems, ignored: frozenset[str]) -> tuple[tuple[Figure, ...], str]:
    """The figures of a text, and the text with blanks in their places and in those of the limits before them."""
    rest = text
    found: list[Figure] = []
    at = 0
    for quantity in spoken_in(text):
        start = text.find(quantity.text, at)
        if start < 0:
            continue
        at = start + len(quantity.text)
        if quantity.unit == NUMBER and quantity.text.lower() == "one" and not _is_count(text, start, at):
            continue
        side, words = side_of(rest[:start])
        blank_from = start
        if side:
            place = rest.rfind(words, 0, start)
            blank_from = place if place >= 0 else start
        rest = rest[:blank_from] + " " * (at - blank_from) + rest[at:]
        of = _counted(text[at:], stems, ignored) if quantity.unit == NUMBER else ()
        found.append(Figure(quantity, side, start, of))
    for one in (*_ROMAN.finditer(rest), *_COUNT_WORD.finditer(rest)):
        word = one[0].lower()
        value = _ROMAN_VALUE.get(one[0]) or _COUNTED.get(word) or float(_ORDINAL.index(word) + 1)
        quantity = Quantity(one[0], value, value, value, NUMBER)
        of = _counted(text[one.end() :], stems, ignored)
        if one[0] in _ROMAN_VALUE:
            of = tuple(f"roman {w}" for w in WORD.findall(text[: one.start()].lower())[-1:])
        found.append(Figure(quantity, "", one.start(), of, word in _ORDINAL))
        rest = rest[: one.start()] + " " * len(one[0]) + rest[one.end() :]
    return tuple(sorted(found, key=lambda one: one.at)), rest


def _is_count(text: str, start: int, end: int) -> bool:
    """Whether a 'one' counts something."""
    follows = re.match(r"\s*-?\s*([A-Za-z]+)", text[end:])
    if follows is None or follows[1].lower() in EMPTY | _LIGHT | {"of"}:
        return False
    return not re.search(r"\b(?:the|that|this|which|other|another)\s+$", text[:start], re.IGNORECASE)


def _counted(behind: str, stems: Stems, ignored: frozenset[str]) -> tuple[str, ...]:
    """The stems of what a number stands before: the next words up to where the name of a thing ends."""
    found: list[str] = []
    for one in re.finditer(r"[^\W\d_]+|[.,;:()]", behind[:60]):
        word = one[0].lower()
        if (word in EMPTY and word not in ("of", "the")) or not word.isalpha() or word in _MAKES_AN_END:
            break
        if word in ignored or word in EMPTY or word in _LIGHT:
            continue
        found.append(_stem(word, stems))
        if len(found) == 3:
            break
    return tuple(found)


_MAKES_AN_END = frozenset(
    ("must", "may", "can", "should", "will", "gives", "give", "holds", "hold", "carries", "drives", "drive", "each")
) | frozenset(("before", "after"))


def _absorbed(figures: tuple[Figure, ...], denied: bool, rest: str) -> tuple[tuple[Figure, ...], bool]:
    """'must not be left on for more than 2 hours' is a limit like 'for at most 2 hours'."""
    least = [one for one in figures if one.side == "least"]
    if not denied or len(least) != 1:
        return figures, denied
    negations = [one.end() for one in _NEGATION.finditer(rest)]
    between = rest[negations[0] : least[0].at]
    if negations[0] > least[0].at or re.search(r"\b(?:if|when|while|unless|until|before|after)\b|[,;]", between):
        return figures, denied
    return tuple(replace(one, side="most") if one is least[0] else one for one in figures), False


def _order(rest: str, stems: Stems, ignored: frozenset[str], denied: bool) -> Order | None:
    found = [*_BEFORE.finditer(rest), *_AFTER.finditer(rest)]
    if len(found) != 1:
        return None
    at = found[0]
    first, second = rest[: at.start()], rest[at.end() :]
    if not WORD.search(first):
        first, second = _headed(second)
    one, other = ({word.stem for word in _words(part, stems, ignored)} for part in (first, second))
    if not one or not other:
        return None
    before = _BEFORE.match(at[0]) is not None
    if denied:
        before = not before
    earlier, later = (one, other) if before else (other, one)
    both = one & other
    return Order(frozenset(earlier - both), frozenset(later - both), at[0].lower())


def _headed(behind: str) -> tuple[str, str]:
    """'Before take-off it must …': the main clause and what stands behind the 'before'."""
    comma = behind.find(",")
    if comma > 0:
        return behind[comma + 1 :], behind[:comma]
    for one in _HEAD_ENDS.finditer(behind):
        if WORD.search(behind[: one.start()]) and not re.fullmatch(r"\s*(?:the|a|an)\s*", behind[: one.start()], re.I):
            return behind[one.start() :], behind[: one.start()]
    return "", behind


def _words(rest: str, stems: Stems, ignored: frozenset[str]) -> Iterator[Word]:
    particles = {one.end() - 2 for one in _ON.finditer(rest)} | {one.start() for one in _IN.finditer(rest)}
    for one in WORD.finditer(rest):
        word = one[0].lower()
        if word in ("off", "up", "down", "out") or one.start() in particles:
            yield Word(word, one[0], one.start())
        elif word == "without" or word in _PLACES:
            yield Word(_SAME_PLACE.get(word, word), one[0], one.start())
        elif word not in EMPTY and word not in _LIGHT and word not in ignored:
            yield Word(_stem(word, stems), one[0], one.start())


_PLACES = frozenset(
    ["above", "over", "below", "under", "beneath", "beside", "behind", "between", "inside", "outside", "through"]
) | frozenset(["unless", "except", "while", "against"])


def _stem(word: str, stems: Stems) -> str:
    word = _IRREGULAR.get(word, word)
    word = _SAME_PLACE.get(word, word)
    return stems.one(word)
