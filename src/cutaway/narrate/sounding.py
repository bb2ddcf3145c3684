"""How alike two stretches of words sound and look, from 0 to 1: for finding what a machine misheard."""

from collections.abc import Mapping
from dataclasses import dataclass

from rapidfuzz.distance import Levenshtein
from rapidfuzz.fuzz import ratio

_VOWELS = frozenset(["AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"])
# Phones that a listener takes for each other, each group as one letter.
_ALIKE = {
    phone: letter
    for letter, phones in {
        "p": "P B", "t": "T D TH DH", "k": "K G", "f": "F V", "s": "S Z", "x": "SH ZH CH JH", "m": "M",
        "n": "N NG", "l": "L", "r": "R", "w": "W", "y": "Y",
    }.items()
    for phone in phones.split()
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Sound:
    """Words as they sound. phones: with all vowels as one; skeleton: consonants alone, those alike as one letter;
    letters: as written, without blanks."""

    phones: tuple[str, ...]
    exact: tuple[str, ...]
    skeleton: str
    letters: str


def sound_of(words: tuple[str, ...], said: Mapping[str, str]) -> Sound:
    """What some words sound like. said: the phones of each."""
    exact = tuple(phone for word in words for phone in said[word].split())
    phones = tuple("V" if phone in _VOWELS else phone for phone in exact)
    return Sound(phones, exact, "".join(_ALIKE.get(phone, "") for phone in exact), "".join(words).replace("'", ""))


def alike(one: Sound, other: Sound) -> float:
    """The mean of three measures: phones, consonants, letters.

    >>> carb = Sound(("K", "V", "P"), ("K", "AA", "P"), "kp", "cap")
    >>> alike(carb, carb)
    1.0
    """
    phones = Levenshtein.normalized_similarity(one.phones, other.phones)
    skeleton = Levenshtein.normalized_similarity(one.skeleton, other.skeleton)
    return (phones + skeleton + ratio(one.letters, other.letters) / 100.0) / 3.0
