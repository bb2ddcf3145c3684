"""Labels of points set in the two margins of a picture, with straight leaders that do not cross.

Each label stands as near the height of its point as its neighbours let it. Which side it goes to, and in what order the
labels of a side stand, is improved step by step from several beginnings until no exchange makes the leaders shorter;
two leaders that cross are always longer than the same two exchanged. Sides that the author asks for may leave no way
without a crossing.
"""

import math
from collections.abc import Callable, Iterator, Sequence
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
"""Of so few labels the best exchange is looked for each time, of more the next that helps."""
STARTS, MANY = 6, 20
"""So many beginnings are improved, the best of all that are tried; of more labels than `MANY` only one."""
MOST = 2500
"""So many exchanges are looked at from each beginning; fewer of more labels than `CROWD`: each takes longer then."""
CROWD = 30


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
    scales = _Scales(wanted, margins)
    starts = sorted(set(_starts(wanted)), key=lambda one: (scales.weigh(one), one))
    starts = starts[: STARTS if len(wanted) <= MANY else 1]
    improved = [_improved(one, scales) for one in starts]
    best = min(improved, key=scales.weigh)
    found: dict[int, Placed] = {}
    for side, order in zip(("left", "right"), best, strict=True):
        for number, middle in zip(order, stacked(order, wanted, margins), strict=True):
            found[number] = Placed("left" if side == "left" else "right", middle)
    return tuple(found[i] for i in range(len(wanted)))


def cost(arrangement: _Arrangement, wanted: Sequence[Wanted], margins: Margins) -> float:
    """How bad an arrangement is: the length of its leaders, their crossings, what they run over, what does not fit."""
    return _Scales(wanted, margins).weigh(arrangement)


_Leader = tuple[Place, Place]


class _Scales:
    """Weighs arrangements of the same labels; keeps what it found of each order of a side, since most exchanges change
    one side alone."""

    def __init__(self, wanted: Sequence[Wanted], margins: Margins) -> None:
        self.wanted, self.margins = wanted, margins
        self._highs = [one.height + margins.gap for one in wanted]
        self._wishes = [one.point[1] - one.height / 2 for one in wanted]
        self._sides: dict[tuple[int, tuple[int, ...]], tuple[list[_Leader], float]] = {}
        self._tangled: dict[tuple[int, tuple[int, ...]], float] = {}

    def leaders(self, side: int, order: tuple[int, ...]) -> tuple[list[_Leader], float]:
        """The leaders of a side, and what their length and what does not fit count."""
        found = self._sides.get((side, order))
        if found is None:
            x = self.margins.left if side == 0 else self.margins.right
            tops = _tops(order, self._highs, self._wishes, self.margins)
            wanted = [self.wanted[i] for i in order]
            leaders = [(one.point, (x, top + one.height / 2)) for one, top in zip(wanted, tops, strict=True)]
            room = self.margins.bottom - self.margins.top
            over = sum([self._highs[i] for i in order]) - self.margins.gap - room
            whole = sum([math.dist(point, end) for point, end in leaders]) + OVERFLOW * max(0.0, over)
            found = self._sides[side, order] = (leaders, whole)
        return found

    def weigh(self, arrangement: _Arrangement, bound: float = math.inf) -> float:
        """The cost of an arrangement; where it is above a bound, some number above it."""
        left, whole = self.leaders(0, arrangement[0])
        right, more = self.leaders(1, arrangement[1])
        whole += more
        for side, order, leaders in ((0, arrangement[0], left), (1, arrangement[1], right)):
            if whole >= bound:
                return whole
            tangled = self._tangled.get((side, order))
            if tangled is None:
                tangled = self._tangled[side, order] = sum(_tangle(a, b) for a, b in combinations(leaders, 2))
            whole += tangled
        for one in left:
            if whole >= bound:
                return whole
            reach = one[0][0] + NEAR
            # What begins further right than this one ends has nothing to do with it.
            whole += sum(_tangle(one, other) for other in right if other[0][0] <= reach)
        return whole


def _tangle(one: _Leader, other: _Leader) -> float:
    """What two leaders count that cross, or of which one runs over the point of the other."""
    (a, b), (c, d) = one, other
    high, low = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
    if (c[1] > low + NEAR and d[1] > low + NEAR) or (c[1] < high - NEAR and d[1] < high - NEAR):
        return 0.0
    found = CROSSING * cross(a, b, c, d)
    if math.dist(a, c) > NEAR:
        found += PASSING * ((distance(c, a, b) < NEAR) + (distance(a, c, d) < NEAR))
    return found


def stacked(order: Sequence[int], wanted: Sequence[Wanted], margins: Margins) -> list[float]:
    """The middles of labels in their order from the top, each as near its point's height as that leaves it.

    Labels that would touch are gathered into blocks, and a block stands where its members together want it: at the mean
    of where each wants the block's top, kept inside the margin.
    """
    highs = [one.height + margins.gap for one in wanted]
    wishes = [one.point[1] - one.height / 2 for one in wanted]
    tops = _tops(order, highs, wishes, margins)
    return [top + wanted[i].height / 2 for i, top in zip(order, tops, strict=True)]


def _tops(order: Sequence[int], highs: Sequence[float], wishes: Sequence[float], margins: Margins) -> list[float]:
    """The tops of labels. highs, wishes: how high each is with its gap, and where it wants its top.

    This is where most of the time goes, so that it calls nothing and sums up as it goes.
    """
    first, last = margins.top, margins.bottom + margins.gap
    blocks: list[tuple[float, int, float, float]] = []  # top, how many, how high, the sum of their wishes for the top
    for i in order:
        count, high, wish = 1, highs[i], wishes[i]
        top = last - high if wish > last - high else wish
        top = first if top < first else top
        while blocks and blocks[-1][0] + blocks[-1][2] > top:
            _, before, above, wished = blocks.pop()
            wish = wished + wish - count * above
            count, high = count + before, high + above
            top = wish / count
            top = last - high if top > last - high else top
            top = first if top < first else top
        blocks.append((top, count, high, wish))
    found: list[float] = []
    for top, count, _, _ in blocks:
        for i in order[len(found) : len(found) + count]:
            found.append(top)
            top += highs[i]
    return found


def _starts(wanted: Sequence[Wanted]) -> Iterator[_Arrangement]:
    """The labels parted by how far left their points are, at every place, of very many at fewer; each side in several
    orders."""
    free = sorted((i for i, one in enumerate(wanted) if not one.side), key=lambda i: wanted[i].point)
    for count in range(0, len(free) + 1, 1 + len(wanted) // CROWD):
        left = [*(i for i, one in enumerate(wanted) if one.side == "left"), *free[:count]]
        right = [*(i for i, one in enumerate(wanted) if one.side == "right"), *free[count:]]
        yield from product(_orders(left, wanted), _orders(right, wanted))


def _orders(side: Sequence[int], wanted: Sequence[Wanted]) -> tuple[tuple[int, ...], ...]:
    """The labels of a side as their points stand from the top; and as the leaders of a row of points do not cross,
    where the labels are below the row or above it."""
    from_the_left = tuple(sorted(side, key=lambda i: wanted[i].point))
    by_height = tuple(sorted(side, key=lambda i: (wanted[i].point[1], wanted[i].point[0], i)))
    return (by_height, from_the_left, from_the_left[::-1])


def _improved(best: _Arrangement, scales: _Scales) -> _Arrangement:
    """The arrangement after the exchanges that make it better: of crossed leaders first, then of any."""
    for neighbours in (_uncrossed, _neighbours):
        best = _settled(best, scales, neighbours)
    return best


def _settled(
    best: _Arrangement, scales: _Scales, neighbours: Callable[[_Arrangement, _Scales], Iterator[_Arrangement]]
) -> _Arrangement:
    """The arrangement that no exchange of a sort makes better. Of few labels the best exchange is made each time; of
    more the next that helps, and it is looked on from there, until all have been looked at in vain."""
    least = scales.weigh(best)
    looked = begin = 0
    most = MOST * CROWD**2 // max(CROWD, len(scales.wanted)) ** 2
    while looked < most:
        moves = list(neighbours(best, scales))
        found: tuple[float, int] | None = None
        for step in range(len(moves)):
            number = (begin + step) % len(moves)
            looked += 1
            worth = scales.weigh(moves[number], least)
            if worth < least - 1e-9:
                least, found = worth, (worth, number)
                if len(scales.wanted) > FEW:
                    break
            if looked >= most:
                break
        if found is None:
            break
        best, begin = moves[found[1]], found[1]
    return best


def _uncrossed(now: _Arrangement, scales: _Scales) -> Iterator[_Arrangement]:
    """All that exchanging two labels of one side comes to whose leaders cross."""
    for side in (0, 1):
        order = now[side]
        leaders, _ = scales.leaders(side, order)
        for a, b in combinations(range(len(order)), 2):
            if cross(*leaders[a], *leaders[b]):
                swapped = list(order)
                swapped[a], swapped[b] = swapped[b], swapped[a]
                yield _both(side, swapped, now[1 - side])


def _neighbours(now: _Arrangement, scales: _Scales) -> Iterator[_Arrangement]:
    """All that one exchange or one change of place comes to."""
    wanted = scales.wanted
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
