"""Names of several words, found in running text: the longest that begins at a word."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

WORD = re.compile(r"[^\s,:();\"]+")
"""A word of a claim: everything but blanks and the marks that part one thing from the next."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word at `start` to `end` of a text; `said` is the form under which it is compared."""

    said: str
    start: int
    end: int


@dataclass(frozen=True, slots=True, eq=False)
class NameIndex:
    """Names as they are compared, and by their first word the numbers of words that names have, longest first."""

    names: frozenset[str]
    lengths: dict[str, tuple[int, ...]]

    def longest(self, words: tuple[Word, ...] | list[Word], at: int) -> int:
        """How many words the longest name has that begins at this word; 0 if none does."""
        for length in self.lengths.get(words[at].said, ()) if at < len(words) else ():
            if at + length <= len(words) and " ".join(w.said for w in words[at : at + length]) in self.names:
                return length
        return 0


def said(word: str) -> str:
    """A word as it is compared: without regard to case, a full stop behind it, or the shape of its apostrophe."""
    return word.casefold().replace("’", "'").rstrip(".") or word


def key(name: str) -> str:
    """A name as it is compared.

    >>> key("  No. 2  Fuel Cock ")
    'no 2 fuel cock'
    """
    return " ".join(said(word) for word in name.split())


def name_index(names: Iterable[str]) -> NameIndex:
    """The index of names already in the form in which they are compared."""
    known = frozenset(name for name in names if name)
    lengths: dict[str, set[int]] = {}
    for name in known:
        words = name.split()
        lengths.setdefault(words[0], set()).add(len(words))
    return NameIndex(known, {first: tuple(sorted(many, reverse=True)) for first, many in lengths.items()})


def words_in(text: str, start: int, end: int) -> Iterator[Word]:
    """The words between two offsets, each with its place; a full stop behind a word is not part of its place."""
    for found in WORD.finditer(text, start, end):
        word = found[0]
        stop = found.end() - (len(word) - len(word.rstrip(".")) if word.rstrip(".") else 0)
        yield Word(said(word), found.start(), stop)
