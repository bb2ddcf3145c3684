"""Words that are no name of the folder: how many of them belong together, as the name that was likely meant."""

from rapidfuzz import fuzz, process

from cutaway.language.name_index import Word
from cutaway.language.words import Words

_LIKE = 78.0


def misspelt(items: list[Word], at: int, stop: int, words: Words, amid_with: bool) -> tuple[int, bool]:
    """How many items from `at` on make one name, and whether that name is known.

    stop: where the next fixed word, mark or figure stands. amid_with: 'engine pump siezed' is then a part and what
    went wrong with it, elsewhere it is one name. At least one item is taken.
    """
    longer = _with_fixed_words(items, at, stop, words)
    if longer:
        return longer, False
    best, score = stop - at, 0.0
    for end in range(stop, at, -1):
        likeness = _likeness(_said(items, at, end), words)
        if likeness > score and _made_of_names(items, end, stop, words):
            best, score = end - at, likeness
    known = words.index.longest(items, at)
    if amid_with and known and at + known < stop and _likeness(_said(items, at + known, stop), words) >= score:
        return known, True
    return max(best, 1), False


def _said(items: list[Word], at: int, end: int) -> str:
    return " ".join(item.said for item in items[at:end])


def _likeness(text: str, words: Words) -> float:
    found = process.extractOne(text, words.index.names, scorer=fuzz.ratio, score_cutoff=_LIKE)
    return found[1] if found else 0.0


def _made_of_names(items: list[Word], at: int, stop: int, words: Words) -> bool:
    while at < stop:
        length = words.index.longest(items, at)
        if not length:
            return False
        at += length
    return True


def _with_fixed_words(items: list[Word], at: int, stop: int, words: Words) -> int:
    """How many items make a near miss of a name that itself holds fixed words ('petrol to the engine'), else 0."""
    best, score = 0, 85.0
    for name in words.services:
        count = len(name.split())
        if at + count > stop and at + count <= len(items):
            likeness = fuzz.ratio(_said(items, at, at + count), name)
            if likeness > score:
                best, score = count, likeness
    return best
