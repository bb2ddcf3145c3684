"""What the recogniser may expect to hear: the script's own sequences of words, and common words so that a departure
from the script can win. Written in the ARPA form that recognisers read."""

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import product

_DISCOUNT = 0.4
# What share of the first-order probability goes to words that the script does not have.
_OTHERS = 0.1
_NEVER = -99.0

Gram = tuple[str, ...]
Chance = Callable[[Gram], float]
# Who expects only what is written hears 'fifteen' where 'fifty' was said, and a figure that is read wrongly is what a
# listener most needs to be told. So any figure is expected where the script has one, each as much as its own.
_SMALL = """
one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen
nineteen twenty thirty forty fifty sixty seventy eighty ninety
"""
_FIGURES: Mapping[str, tuple[str, ...]] = {
    "<small>": tuple(_SMALL.split()),
    "<large>": ("hundred", "thousand"),
}
NUMBER_WORDS = frozenset(word for words in _FIGURES.values() for word in words)
_CLASS_OF = {word: name for name, words in _FIGURES.items() for word in words}
# Of what a figure is expected, so much for each: more than an even part, or common words would win over all of them.
_EACH = 0.2
# How much more the script's own figure is expected in its place than another.
_OWN = 2.0


def arpa_text(sentences: Sequence[Sequence[str]], others: Iterable[str] = ()) -> str:
    """A model of up to three words in sequence, with absolute discounting; all figures are one word to it.

    Source of the method: Ney, Essen and Kneser, On structuring probabilistic dependences (1994), backing off.
    """
    counts: tuple[Counter[Gram], ...] = (Counter(), Counter(), Counter())
    for sentence in sentences:
        padded = ("<s>", *(_CLASS_OF.get(word, word) for word in sentence), "</s>")
        for size in (1, 2, 3):
            counts[size - 1].update(tuple(padded[at : at + size]) for at in range(len(padded) - size + 1))
    figures = {word for word, name in _CLASS_OF.items() if (name,) in counts[0]}
    ones = _first_order(counts[0], frozenset(others) - figures)
    twos, weights_one = _higher_order(counts[1], lambda gram: ones[gram])
    threes, weights_two = _higher_order(counts[2], lambda gram: twos[gram])
    ones, twos, threes = (_each_figure(table, _EACH) for table in (ones, twos, threes))
    own = _grams(sentences)
    threes = {
        gram: value * (_OWN if gram in own and NUMBER_WORDS & set(gram) else 1.0) for gram, value in threes.items()
    }
    weights_one, weights_two = (_each_figure(table, 1.0) for table in (weights_one, weights_two))
    lines = ["\\data\\", *(f"ngram {size}={len(table)}" for size, table in ((1, ones), (2, twos), (3, threes)))]
    lines += _section(1, ones, weights_one) + _section(2, twos, weights_two) + _section(3, threes, {})
    return "\n".join((*lines, "", "\\end\\", ""))


def _grams(sentences: Sequence[Sequence[str]]) -> frozenset[Gram]:
    """The sequences of three words that the script itself has."""
    padded = (("<s>", *sentence, "</s>") for sentence in sentences)
    return frozenset(one[at : at + 3] for one in padded for at in range(len(one) - 2))


def _each_figure(table: Mapping[Gram, float], share: float) -> dict[Gram, float]:
    """The same with every figure in the place of the sort of figure. share: of its chance, for each that comes last."""
    found: dict[Gram, float] = {}
    for gram, value in table.items():
        each = value * share if gram[-1] in _FIGURES else value
        found |= dict.fromkeys(product(*(_FIGURES.get(word, (word,)) for word in gram)), each)
    return found


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
