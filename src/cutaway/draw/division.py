"""A system that is too large for one page, divided over several: which parts stay together.

What a fitter would keep on one sheet is what is joined by lines, and what belongs to one side of the aircraft. Each tie
that a division cuts costs a flag on both sheets, so that as few as may be are cut, on halves of about one size.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import combinations

from cutaway.draw.plan import Plan, Tie

LARGEST_SHARE = 0.66
"""How much of a whole the larger half may have."""

MIXED = 0.4
"""What it costs, in ties cut, to have a part on the sheet of the other side of the aircraft."""

PAIRS = 2
"""How many parts must be there twice, once for each side, before a system is divided by sides."""

Side = frozenset[str]


def halves(plan: Plan, weight: Mapping[str, float]) -> tuple[Side, Side] | None:
    """The parts of a plan in two, the half where the flow begins first; None where there is one part or none.

    weight: by part, how much room it takes.
    """
    own = [item.key for item in plan.items if not item.reference]
    if len(own) < 2:
        return None
    ties = [tie for tie in plan.ties if tie.start.item in weight and tie.end.item in weight]
    pairs = _side_words(own)
    cost_of = _cost_of(own, ties, weight, pairs)
    best: tuple[float, Side] | None = None
    for first in _beginnings(own, ties, weight, pairs):
        side = _bettered(first, own, cost_of)
        cost = cost_of(side)
        if best is None or cost < best[0] - 1e-9:
            best = (cost, side)
    assert best is not None
    one = best[1]
    other = frozenset(own) - one
    return (one, other) if own[0] in one else (other, one)


def _beginnings(
    own: Sequence[str], ties: Sequence[Tie], weight: Mapping[str, float], pairs: Sequence[tuple[str, str]]
) -> Iterable[Side]:
    """Halves to begin with: the sides of the aircraft, and the flow cut at each place."""
    for words in pairs:
        yield _by_side(words, own, ties, weight)
    total, so_far = sum(weight[name] for name in own), 0.0
    for i, name in enumerate(own[:-1]):
        so_far += weight[name]
        if 1 - LARGEST_SHARE <= so_far / total <= LARGEST_SHARE:
            yield frozenset(own[: i + 1])
    yield frozenset(own[: len(own) // 2])


def _side_words(own: Sequence[str]) -> list[tuple[str, str]]:
    """Pairs of first words that several parts share but for them: 'port', 'starboard'."""
    rest: dict[str, list[str]] = {}
    for name in own:
        first, _, after = name.partition(" ")
        if after:
            rest.setdefault(after, []).append(first)
    found = Counter(pair for words in rest.values() for pair in combinations(sorted(words), 2))
    return [pair for pair, count in found.items() if count >= PAIRS]


def _by_side(words: tuple[str, str], own: Sequence[str], ties: Sequence[Tie], weight: Mapping[str, float]) -> Side:
    """The parts of the first word's side; what belongs to neither goes where it is joined, else to the lighter."""
    sides: tuple[set[str], set[str]] = (set(), set())
    left = []
    for name in own:
        if _first(name) in words:
            sides[words.index(_first(name))].add(name)
        else:
            left.append(name)
    for name in left:
        joined = [sum(1 for t in ties if _other(t, name) in side) for side in sides]
        heavy = [sum(weight[one] for one in side) for side in sides]
        lighter = 0 if heavy[0] <= heavy[1] else 1
        sides[lighter if joined[0] == joined[1] else joined.index(max(joined))].add(name)
    return frozenset(sides[0])


def _other(tie: Tie, name: str) -> str:
    if tie.start.item == name:
        return tie.end.item
    return tie.start.item if tie.end.item == name else ""


def _cost_of(
    own: Sequence[str], ties: Sequence[Tie], weight: Mapping[str, float], pairs: Sequence[tuple[str, str]]
) -> Callable[[Side], float]:
    """What a half costs: the ties that are cut, parts among those of the other side of the aircraft, and a little for
    halves that differ in size; far too much for one that is nearly the whole."""
    joined = [(tie.start.item, tie.end.item) for tie in ties]
    total = sum(weight[name] for name in own)
    sided = [
        ([name for name in own if _first(name) == one], [name for name in own if _first(name) == other])
        for one, other in pairs
    ]

    def cost(side: Side) -> float:
        cut = sum((a in side) != (b in side) for a, b in joined)
        share = sum(weight[name] for name in side) / total
        larger = max(share, 1 - share)
        far = 1000.0 * (larger - LARGEST_SHARE) if larger > LARGEST_SHARE else 0.0
        return cut + MIXED * sum(_mixed(side, *both) for both in sided) + 8.0 * (larger - 0.5) + far

    return cost


def _mixed(side: Side, one: Sequence[str], other: Sequence[str]) -> int:
    """How many parts of one side of the aircraft stand with those of the other."""
    wrong = sum(name not in side for name in one) + sum(name in side for name in other)
    return min(wrong, len(one) + len(other) - wrong)


def _first(name: str) -> str:
    return name.partition(" ")[0]


def _bettered(side: Side, own: Sequence[str], cost_of: Callable[[Side], float]) -> Side:
    """The half after moving one part at a time across, so long as that makes it better."""
    cost = cost_of(side)
    while True:
        moves = [one for one in (side ^ {name} for name in own) if 0 < len(one) < len(own)]
        better = min(moves, key=cost_of, default=side)
        least = cost_of(better)
        if least >= cost - 1e-9:
            return side
        side, cost = better, least
