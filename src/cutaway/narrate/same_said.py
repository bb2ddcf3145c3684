"""Words that are said for one another and mean the same: 'revs' for 'revolutions per minute', 'mark' for 'Mk'."""

import re

# Each row is one thing said several ways; the first stands for all. Longer ways come first.
_ROWS = (
    ("revs", "revolutions per minute", "revolutions a minute", "revs per minute", "revs a minute", "r p m", "rpm"),
    ("miles an hour", "miles per hour", "m p h", "mph"),
    ("pounds per square inch", "pounds to the square inch", "pounds a square inch", "p s i", "psi"),
    ("horsepower", "brake horsepower", "brake horse power", "horse power", "b h p", "h p"),
    ("degrees centigrade", "degrees celsius"),
    ("feet per minute", "feet a minute"),
    ("gallons per hour", "gallons an hour"),
    ("mark", "mk"),
    ("nought", "zero"),
    ("paragraph", "para"),
    ("mod", "modification"),
)
_WAYS = tuple((re.compile(rf"\b{way}\b"), row[0]) for row in _ROWS for way in sorted(row[1:], key=len, reverse=True))


def same_said(written: str, said: str) -> bool:
    """Whether two stretches of speech, in small letters, say the same in the trade's other words.

    >>> same_said("eight hundred revolutions per minute", "eight hundred revs"), same_said("fifteen", "fifty")
    (True, False)
    """
    return bool(written) and _one_way(written) == _one_way(said)


def _one_way(words: str) -> str:
    words = words.replace("-", " ")
    for pattern, first in _WAYS:
        words = pattern.sub(first, words)
    return words.replace(" ", "")
