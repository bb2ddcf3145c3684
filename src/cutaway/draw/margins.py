"""Labels of points set in the two margins of a picture, with straight leaders that do not cross.

Each label stands as near the height of its point as its neighbours let it. Which side it goes to, and in what order the
labels of a side stand, is improved step by step from several beginnings until no exchange makes the leaders shorter;
two leaders that cross are always longer than the same two exchanged. Sides that the author asks for may leave no way
without a crossing.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import Literal

Side = Literal["", "left", "right"]
Place = tuple[float, float]

CROSSING = 1000.0
"""What a crossing counts, in lengths of leader: more than any detour."""
PASSING = 150.0
"""What a leader that runs over the point of another counts."""
NEAR = 9.0
"""A leader that comes as near to another point as this runs over it."""
OVERFLOW = 20.0
"""What each unit counts by which the labels of a side are higher than its margin."""
FEW = 8
"""Of few labels the best exchange is looked for each time, of more the next that helps."""
STARTS, MANY = 6, 20
"""So many beginnings are improved, the best of all that are tried; of more labels than `MANY` only one."""
MOST = 2500
"""So many exchanges are looked at from each beginning."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A label that wants a place: its point, how high it is, the side it must stand on ('' for either)."""

    point: Place
    height: float
    side: Side = ""


@dataclass(frozen=True, slots=True)
class Margins:
    """Where labels may stand: the x at which the leaders end on the left and on the right, the y from `top` to
    `bottom`, and what is kept between two labels."""

    left: float
    right: float
    top: float
    bottom: float
    gap: float


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label stands: its side and the y of its middle, where its leader ends."""

    side: Literal["left", "right"]
    middle: float


_Arrangement = tuple[tuple[int, ...], tuple[int, ...]]
"""The labels of the left and of the right margin by number, from the top."""


def place_labels(wanted: Sequence[Wanted], margins: Margins) -> tuple[Placed, ...]:
    """A place for each label, in the order given."""
    starts = sorted(set(_starts(wanted)), key=lambda one: (cost(one, wanted, margins), one))
    starts = starts[: STARTS if len(wanted) <= MANY else 1]
    improved = [_improved(one, wanted, margins) for one in starts]
    best = min(improved, key=lambda one: cost(one, wanted, margins))
    found: dict[int, Placed] = {}
    for side, order in zip(("left", "right"), best, strict=True):
        for number, middle in zip(order, stacked(order, wanted, margins), strict=True):
            found[number] = Placed("left" if side == "left" else "right", middle)
    return tuple(found[i] for i in range(len(wanted)))


def cost(arrangement: _Arrangement, wanted: Sequence[Wanted], margins: Margins, bound: float = math.inf) -> float:
    """How bad an arrangement is: the length of its leaders, their crossings, what they run over, what does not fit.

    bound: of one that is longer than this nothing more is looked at, since it is worse already.
    """
    leaders: list[tuple[Place, Place]] = []
    whole = 0.0
    for x, order in ((margins.left, arrangement[0]), (margins.right, arrangement[1])):
        middles = stacked(order, wanted, margins)
        leaders += [(wanted[i].point, (x, middle)) for i, middle in zip(order, middles, strict=True)]
        room = margins.bottom - margins.top
        over = sum(wanted[i].height + margins.gap for i in order) - margins.gap - room
        whole += OVERFLOW * max(0.0, over)
    whole += sum(math.dist(*leader) for leader in leaders)
    if whole >= bound:
        return whole
    for one, other in combinations(leaders, 2):
        if _apart(one, other):
            continue
        whole += CROSSING * cross(*one, *other)
        if math.dist(one[0], other[0]) > NEAR:
            whole += PASSING * ((distance(other[0], *one) < NEAR) + (distance(one[0], *other) < NEAR))
        if whole >= bound:
            return whole
    return whole


def _apart(one: tuple[Place, Place], other: tuple[Place, Place]) -> bool:
    """Whether one leader is so far above the other that they have nothing to do with one another."""
    (_, a), (_, b) = one
    (_, c), (_, d) = other
    return max(a, b) + NEAR < min(c, d) or max(c, d) + NEAR < min(a, b)


def stacked(order: Sequence[int], wanted: Sequence[Wanted], margins: Margins) -> list[float]:
    """The middles of labels in their order from the top, each as near its point's height as that leaves it.

    Labels that would touch are gathered into blocks, and a block stands where its members together want it.
    """
    blocks: list[list[int]] = []
    tops: list[float] = []
    for i in order:
        blocks.append([i])
        tops.append(_wish(blocks[-1], wanted, margins))
        while len(blocks) > 1 and tops[-2] + _high(blocks[-2], wanted, margins) > tops[-1]:
            last = blocks.pop()
            tops.pop()
            blocks[-1] += last
            tops[-1] = _wish(blocks[-1], wanted, margins)
    middles: list[float] = []
    for block, top in zip(blocks, tops, strict=True):
        y = top
        for i in block:
            middles.append(y + wanted[i].height / 2)
            y += wanted[i].height + margins.gap
    return middles


def _high(block: Sequence[int], wanted: Sequence[Wanted], margins: Margins) -> float:
    return sum(wanted[i].height + margins.gap for i in block)


def _wish(block: Sequence[int], wanted: Sequence[Wanted], margins: Margins) -> float:
    """The top of a block of labels that touch one another, kept inside the margin."""
    offset, wishes = 0.0, []
    for i in block:
        wishes.append(wanted[i].point[1] - offset - wanted[i].height / 2)
        offset += wanted[i].height + margins.gap
    lowest = margins.bottom - (offset - margins.gap)
    return max(margins.top, min(sum(wishes) / len(wishes), lowest))


def _starts(wanted: Sequence[Wanted]) -> Iterator[_Arrangement]:
    """The labels parted by how far left their points are, at every place; each side in several orders."""
    free = sorted((i for i, one in enumerate(wanted) if not one.side), key=lambda i: wanted[i].point)
    for count in range(len(free) + 1):
        left = [*(i for i, one in enumerate(wanted) if one.side == "left"), *free[:count]]
        right = [*(i for i, one in enumerate(wanted) if one.side == "right"), *free[count:]]
        yield from product(_orders(left, wanted), _orders(right, wanted))


def _orders(side: Sequence[int], wanted: Sequence[Wanted]) -> tuple[tuple[int, ...], ...]:
    """The labels of a side as their points stand from the top; and as the leaders of a row of points do not cross,
    where the labels are below the row or above it."""
    from_the_left = tuple(sorted(side, key=lambda i: wanted[i].point))
    by_height = tuple(sorted(side, key=lambda i: (wanted[i].point[1], wanted[i].point[0], i)))
    return (by_height, from_the_left, from_the_left[::-1])


def _improved(best: _Arrangement, wanted: Sequence[Wanted], margins: Margins) -> _Arrangement:
    """The arrangement after the exchanges that make it better: of crossed leaders first, then of any."""
    least = cost(best, wanted, margins)
    looked = 0
    for neighbours in (_uncrossed, _neighbours):
        before = math.inf
        while least < before and looked < MOST:
            before = least
            for one in neighbours(best, wanted, margins):
                looked += 1
                worth = cost(one, wanted, margins, least)
                if worth < least - 1e-9:
                    least, best = worth, one
                    if len(wanted) > FEW:
                        break
                if looked >= MOST:
                    break
    return best


def _uncrossed(now: _Arrangement, wanted: Sequence[Wanted], margins: Margins) -> Iterator[_Arrangement]:
    """All that exchanging two labels of one side comes to whose leaders cross."""
    for side, x in ((0, margins.left), (1, margins.right)):
        order = now[side]
        middles = stacked(order, wanted, margins)
        for a, b in combinations(range(len(order)), 2):
            one, other = (wanted[order[a]].point, (x, middles[a])), (wanted[order[b]].point, (x, middles[b]))
            if cross(*one, *other):
                swapped = list(order)
                swapped[a], swapped[b] = swapped[b], swapped[a]
                yield _both(side, swapped, now[1 - side])


def _neighbours(now: _Arrangement, wanted: Sequence[Wanted], margins: Margins) -> Iterator[_Arrangement]:
    """All that one exchange or one change of place comes to."""
    for side in (0, 1):
        order, other = now[side], now[1 - side]
        for a, b in combinations(range(len(order)), 2):
            swapped = list(order)
            swapped[a], swapped[b] = swapped[b], swapped[a]
            yield _both(side, swapped, other)
        for a, i in enumerate(order):
            rest = (*order[:a], *order[a + 1 :])
            for b in range(len(rest) + 1):
                if b != a:
                    yield _both(side, (*rest[:b], i, *rest[b:]), other)
            if not wanted[i].side:
                for b in range(len(other) + 1):
                    yield _both(side, rest, (*other[:b], i, *other[b:]))
    for a, i in enumerate(now[0]):
        for b, j in enumerate(now[1]):
            if not wanted[i].side and not wanted[j].side:
                yield (*now[0][:a], j, *now[0][a + 1 :]), (*now[1][:b], i, *now[1][b + 1 :])


def _both(side: int, order: Sequence[int], other: Sequence[int]) -> _Arrangement:
    return (tuple(order), tuple(other)) if side == 0 else (tuple(other), tuple(order))


def cross(a: Place, b: Place, c: Place, d: Place) -> bool:
    """Whether the straight lines from a to b and from c to d cross.

    >>> cross((0, 0), (2, 2), (0, 2), (2, 0)), cross((0, 0), (2, 0), (0, 1), (2, 1))
    (True, False)
    """

    def turn(p: Place, q: Place, r: Place) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0.0 and turn(c, d, a) * turn(c, d, b) < 0.0


def distance(point: Place, start: Place, end: Place) -> float:
    """How near a straight line comes to a point.

    >>> distance((1.0, 2.0), (0.0, 0.0), (4.0, 0.0))
    2.0
    """
    across, down = end[0] - start[0], end[1] - start[1]
    whole = across * across + down * down
    share = 0.0 if whole == 0.0 else ((point[0] - start[0]) * across + (point[1] - start[1]) * down) / whole
    share = max(0.0, min(1.0, share))
    return math.dist(point, (start[0] + share * across, start[1] + share * down))
