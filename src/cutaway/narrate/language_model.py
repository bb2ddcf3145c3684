"""What the recogniser may expect to hear: the script's own sequences of words, and common words so that a departure
from the script can win. Written in the ARPA form that recognisers read."""

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence

_DISCOUNT = 0.4
# What share of the first-order probability goes to words that the script does not have.
_OTHERS = 0.1
_NEVER = -99.0

Gram = tuple[str, ...]
Chance = Callable[[Gram], float]


def arpa_text(sentences: Iterable[Sequence[str]], others: Iterable[str] = ()) -> str:
    """A model of up to three words in sequence, with absolute discounting.

    Source of the method: Ney, Essen and Kneser, On structuring probabilistic dependences (1994), backing off.
    """
    counts: tuple[Counter[Gram], ...] = (Counter(), Counter(), Counter())
    for sentence in sentences:
        padded = ("<s>", *sentence, "</s>")
        for size in (1, 2, 3):
            counts[size - 1].update(tuple(padded[at : at + size]) for at in range(len(padded) - size + 1))
    ones = _first_order(counts[0], frozenset(others))
    twos, weights_one = _higher_order(counts[1], lambda gram: ones[gram])
    threes, weights_two = _higher_order(counts[2], lambda gram: twos[gram])
    lines = ["\\data\\", *(f"ngram {size}={len(table)}" for size, table in ((1, ones), (2, twos), (3, threes)))]
    lines += _section(1, ones, weights_one) + _section(2, twos, weights_two) + _section(3, threes, {})
    return "\n".join((*lines, "", "\\end\\", ""))


def _first_order(counts: Counter[Gram], others: frozenset[str]) -> dict[Gram, float]:
    spoken = {gram: count for gram, count in counts.items() if gram != ("<s>",)}
    more = sorted(others - {gram[0] for gram in spoken})
    share = _OTHERS if more else 0.0
    total = sum(spoken.values())
    chances = {gram: (1.0 - share) * count / total for gram, count in spoken.items()}
    chances |= {(word,): share / len(more) for word in more}
    return chances | {("<s>",): 0.0}


def _higher_order(counts: Counter[Gram], lower: Chance) -> tuple[dict[Gram, float], dict[Gram, float]]:
    """The discounted chances, and for each context the weight with which the order below stands in for the rest."""
    followers: defaultdict[Gram, list[Gram]] = defaultdict(list)
    for gram in counts:
        followers[gram[:-1]].append(gram)
    chances: dict[Gram, float] = {}
    weights: dict[Gram, float] = {}
    for context, grams in followers.items():
        total = sum(counts[gram] for gram in grams)
        chances |= {gram: (counts[gram] - _DISCOUNT) / total for gram in grams}
        seen = sum(lower(gram[1:]) for gram in grams)
        weights[context] = _DISCOUNT * len(grams) / total / max(1e-9, 1.0 - seen)
    return chances, weights


def _section(size: int, chances: Mapping[Gram, float], weights: Mapping[Gram, float]) -> list[str]:
    lines = ["", f"\\{size}-grams:"]
    for gram in sorted(chances):
        weight = f" {_log(weights.get(gram, 1.0)):.4f}" if size < 3 else ""
        lines.append(f"{_log(chances[gram]):.4f} {' '.join(gram)}{weight}")
    return lines


def _log(chance: float) -> float:
    return math.log10(chance) if chance > 0.0 else _NEVER
