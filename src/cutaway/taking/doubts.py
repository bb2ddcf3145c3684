"""Which words of a reading a person should look at, and the few confusions of letters that are put right, and told."""

import functools
import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from cutaway.quantities.units import UNITS
from cutaway.taking.records import Line, Word

DOUBTFUL = 80.0
"""Confidence below which a word is listed."""

_EDGES = "()[]{}.,;:!?'\"“”‘’—–-"
_DIGIT = re.compile(r"[\d½¼¾⅓⅔⅛⅜⅝⅞]")
_NUMBER = re.compile(r"\d[\d.,·/]*\d|\d|[½¼¾⅓⅔⅛⅜⅝⅞]")
_LIKE_DIGITS = re.compile(r"[lIi|OoQZSB]{1,4}")
_WORDS_LIKE_DIGITS = frozenset(
    {"I", "Is", "is", "ii", "so", "So", "SO", "IS", "SOS", "oil", "Oil", "OIL", "SB", "lo", "Bob"}
)
_NOT_FIGURES = frozenset(
    (
        "a", "an", "the", "in", "per", "its", "this", "that", "each", "every", "any",
        "no", "which", "these", "those", "full", "imperial", "square", "cubic",
    )
)  # fmt: skip
_NOT_UNITS = frozenset(("in", "at", "per", "to", "us", "long", "united", "american", "fluid", "metric", "ch"))
"""What some unit's name begins with, but prose is full of."""
_POUND = re.compile(r"^(?P<before>\d*)(?:[I|]b(?P<rest>s?(?:[.,;:)\]].*)?)|[I|1]b(?P<over>s?/.*))$")
_STOPS = frozenset((".", ",", "-", "–", "—"))
_MIXED = re.compile(r"^(?=.*\d)[\dlI|Oo]+(?:[.,][\dlI|Oo]+)*$")
_TO_DIGITS = str.maketrans("lI|Oo", "11100")


@functools.cache
def _unit_words() -> frozenset[str]:
    """What a unit begins with, as one word: 'lb', 'gal', 'gallons', 'in', 'r.p.m'."""
    first: set[str] = set()
    for unit in UNITS:
        for name in (unit.name, *unit.spellings, *unit.spoken):
            word = name.partition(" ")[0].partition("/")[0].strip(_EDGES).lower()
            if len(word) > 1 and word not in _NOT_UNITS:
                first.add(word)
    return frozenset(first)


def put_right(word: Word) -> Word:
    """A word with letters that readers take for others: 'Ib/sq' is 'lb/sq', 'l2' is 12.

    What was read is kept in `was`.
    """
    pound = _POUND.match(word.text)
    if pound:
        return replace(word, text=f"{pound['before']}lb{pound['over'] or pound['rest'] or ''}", was=word.text)
    bare = word.text.strip(_EDGES)
    if bare and not bare.isdigit() and _MIXED.match(bare) and len(_DIGIT.findall(bare)) * 2 >= len(bare) - 1:
        right = bare.translate(_TO_DIGITS)
        if right != bare:
            return replace(word, text=word.text.replace(bare, right, 1), was=word.text)
    return word


def reason(words: Sequence[Word], at: int) -> str:
    """Why a person should look at the word, '' where nobody need to."""
    word = words[at]
    bare = word.text.strip(_EDGES)
    if word.was:
        return "put right"
    if _DIGIT.search(word.text):
        return "figure"
    if _LIKE_DIGITS.fullmatch(bare) and bare not in _WORDS_LIKE_DIGITS:
        return "figure"
    if any(letter.isalnum() for letter in bare) and at + 1 < len(words):
        following = words[at + 1].text.split("/")[0].strip(_EDGES).lower()
        if following in _unit_words() and bare.lower() not in _NOT_FIGURES and not bare.endswith(("ing", "ly")):
            return "before a unit"
    if word.confidence < DOUBTFUL and word.text not in _STOPS:
        return "hard to read"
    return ""


def doubtful(line: Line) -> bool:
    """Whether a person should look at anything in the line."""
    return any(reason(line.words, at) for at in range(len(line.words)))


def agreement(word: Word, second: str) -> Literal["", "agrees", "differs"]:
    """Whether the other reader has the same figures (or, without figures, the same letters) somewhere in the strip."""
    if not second:
        return ""
    figures = _NUMBER.findall(word.text)
    if figures:
        others = _NUMBER.findall(second)
        found = [_plain(figure) for figure in others]
        return "agrees" if all(_plain(figure) in found for figure in figures) else "differs"
    bare = "".join(letter for letter in word.text.lower() if letter.isalnum())
    return "agrees" if bare in "".join(letter for letter in second.lower() if letter.isalnum()) else "differs"


def _plain(figure: str) -> str:
    return figure.replace(",", "").replace("·", ".").rstrip("./")
