"""Which words of changed sentences stand in which caption: each new word goes where the word that it replaces stood."""

from collections.abc import Mapping
from difflib import SequenceMatcher
from itertools import pairwise

from cutaway.narrate.captions import Cue


def words_in_place(cues: tuple[Cue, ...], shown: tuple[str, ...], new: Mapping[int, str]) -> tuple[str, ...]:
    """The words of each caption once some sentences read otherwise; captions without a changed word as they were.

    shown: the sentences as the captions have them. new: the changed ones by their number in `shown`, '' for one that
    is to be taken out.

    >>> cues = (Cue("a-1", 0, 2, ("The lamp lights at",), (0,), ()), Cue("a-2", 2, 4, ("two pounds.",), (0,), ()))
    >>> words_in_place(cues, ("The lamp lights at two pounds.",), {0: "The lamp lights at three or four pounds."})
    ('The lamp lights at', 'three or four pounds.')
    """
    there = [(word, at) for at, cue in enumerate(cues) for word in " ".join(cue.lines).split()]
    said = [(word, number) for number, text in enumerate(shown) for word in text.split()]
    instead = _instead(shown, new)
    becomes: dict[int, tuple[str, ...]] = {}
    words = SequenceMatcher(None, [word for word, _ in there], [word for word, _ in said], autojunk=False)
    for block in words.get_matching_blocks():
        for one in range(block.size):
            becomes[block.a + one] = instead[block.b + one]
    found: list[list[str]] = [[] for _ in cues]
    for place, (word, at) in enumerate(there):
        found[at].extend(becomes.get(place, (word,)))
    return tuple(" ".join(one) for one in found)


def _instead(shown: tuple[str, ...], new: Mapping[int, str]) -> list[tuple[str, ...]]:
    """For every word of the sentences what stands in its place: itself, other words, or nothing."""
    found: list[tuple[str, ...]] = []
    for number, text in enumerate(shown):
        words = text.split()
        found.extend(_replaced(words, new[number].split()) if number in new else [(word,) for word in words])
    return found


def _replaced(old: list[str], new: list[str]) -> list[tuple[str, ...]]:
    """For every old word the new ones in its place; words that were put in stay with the word before them."""
    found: list[tuple[str, ...]] = [()] * len(old)
    opening: tuple[str, ...] = ()
    for tag, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            found[a:b] = [(word,) for word in new[c:d]]
        elif tag == "replace":
            # Each old word gets its share of the new ones, so that a long change runs over several captions.
            edges = [c + at * (d - c) // (b - a) for at in range(b - a + 1)]
            found[a:b] = [tuple(new[one:other]) for one, other in pairwise(edges)]
        elif tag == "insert" and a > 0:
            found[a - 1] = (*found[a - 1], *new[c:d])
        elif tag == "insert":
            opening = tuple(new[c:d])
    return [(*opening, *found[0]), *found[1:]] if old else []
