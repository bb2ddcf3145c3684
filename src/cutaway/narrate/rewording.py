"""Which sentence of today is which sentence of then: the same, the same in other words, gone, or new."""

from dataclasses import dataclass
from difflib import SequenceMatcher

from rapidfuzz import fuzz

# Below this likeness (0 to 100) two sentences are held to be different ones. A choice of ours.
_SAME_SENTENCE = 55.0


@dataclass(frozen=True, slots=True)
class Pair:
    """A sentence then and now, by number from 0; None where it is not there."""

    then: int | None
    now: int | None


def paired(then: tuple[str, ...], now: tuple[str, ...]) -> tuple[Pair, ...]:
    """The sentences of two versions of a script, brought together in order.

    >>> then = ("It lights.", "At two pounds.", "So there.")
    >>> [(pair.then, pair.now) for pair in paired(then, ("It lights.", "At three pounds.", "Off.", "So there."))]
    [(0, 0), (1, 1), (None, 2), (2, 3)]
    """
    found: list[Pair] = []
    for tag, a, b, c, d in SequenceMatcher(None, then, now, autojunk=False).get_opcodes():
        if tag == "equal":
            found.extend(Pair(a + at, c + at) for at in range(b - a))
        else:
            found.extend(_aligned(then[a:b], now[c:d], a, c))
    return tuple(found)


def _aligned(then: tuple[str, ...], now: tuple[str, ...], first: int, second: int) -> list[Pair]:
    """The likeliest pairs of two stretches, in order: the alignment with the greatest likeness in all."""
    like = [[max(0.0, fuzz.ratio(one, other) - _SAME_SENTENCE) for other in now] for one in then]
    best = [[0.0] * (len(now) + 1) for _ in range(len(then) + 1)]
    for a in range(len(then) - 1, -1, -1):
        for b in range(len(now) - 1, -1, -1):
            joined = like[a][b] + best[a + 1][b + 1] if like[a][b] > 0.0 else 0.0
            best[a][b] = max(joined, best[a + 1][b], best[a][b + 1])
    found: list[Pair] = []
    a = b = 0
    while a < len(then) or b < len(now):
        if a < len(then) and b < len(now) and like[a][b] > 0.0 and best[a][b] == like[a][b] + best[a + 1][b + 1]:
            found.append(Pair(first + a, second + b))
            a, b = a + 1, b + 1
        elif b == len(now) or (a < len(then) and best[a][b] == best[a + 1][b]):
            found.append(Pair(first + a, None))
            a += 1
        else:
            found.append(Pair(None, second + b))
            b += 1
    return found
