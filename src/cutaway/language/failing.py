"""A part and what goes wrong with it, told from a longer name that begins with the same words."""

from collections.abc import Sequence

from cutaway.language.name_index import Word, key
from cutaway.language.words import Words


def part_that_fails(items: Sequence[Word], at: int, longest: int, words: Words) -> int:
    """How many items name a part, where what follows is a failure of it that ends behind the longest name; else 0.

    'green lamp first filament' is the lamp and its first filament, though the lamp has a terminal 'first' too.
    """
    for length in words.index.lengths.get(items[at].said, ()):
        part = words.parts.get(_said(items, at, at + length)) if length < longest else None
        for failure in part.failures if part else ():
            end = at + length + len(key(failure).split())
            if end > at + longest and _said(items, at + length, end) == key(failure):
                return length
    return 0


def _said(items: Sequence[Word], at: int, end: int) -> str:
    return " ".join(item.said for item in items[at:end])
