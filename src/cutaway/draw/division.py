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
    total = sum(weight[name] for name in own)
    best: tuple[float, tuple[str, ...]] | None = None
    pairs = _side_words(own)

    def cost_of(side: Side) -> float:
        return _cost(side, ties, weight, total) + MIXED * _mixed(side, own, pairs)

    for first in _beginnings(own, ties, weight, pairs):
        side = _bettered(first, own, cost_of)
        cost = cost_of(side)
        found = (cost, tuple(name for name in own if name in side))
        if best is None or found[0] < best[0] - 1e-9:
            best = found
    assert best is not None
    one = frozenset(best[1])
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


def _cost(side: Side, ties: Sequence[Tie], weight: Mapping[str, float], total: float) -> float:
    """How many ties are cut, and a little for halves that differ; far too much for one that is nearly the whole."""
    cut = sum(1 for t in ties if (t.start.item in side) != (t.end.item in side))
    share = sum(weight[name] for name in side) / total
    larger = max(share, 1 - share)
    return cut + 8.0 * (larger - 0.5) + (1000.0 * (larger - LARGEST_SHARE) if larger > LARGEST_SHARE else 0.0)


def _mixed(side: Side, own: Sequence[str], pairs: Sequence[tuple[str, str]]) -> int:
    """How many parts of one side of the aircraft stand with those of the other."""
    misplaced = 0
    for one, other in pairs:
        wrong = sum((name in side) != (_first(name) == one) for name in own if _first(name) in (one, other))
        among = sum(_first(name) in (one, other) for name in own)
        misplaced += min(wrong, among - wrong)
    return misplaced


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
