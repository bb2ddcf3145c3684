"""Labels that lie on a picture itself, each near its point: off every other point, off one another, off the leaders.

Each label tries places all round its point, the nearest first, and takes the one that is in the way of least. When all
have a place, each may move once more, now that it knows the others.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cutaway.draw.margins import CROSSING, NEAR, PASSING, Place, cross, distance

FROM_POINT = 16.0
"""How near another point, or the edge of the picture, a label may come."""
APART = 8.0
"""What is kept between two labels."""
WAYS = 16
STEPS = (30.0, 48.0, 66.0, 84.0, 104.0, 130.0, 165.0, 210.0, 280.0)
"""In how many directions, and how far from its point, places are tried."""
ABOUT = 62.0
"""What is pointed at is seldom larger than this to either side."""
HIDING = 4.0
"""What each unit counts by which a label comes nearer to a point than that."""
COVERED = 400.0
"""What a leader counts that runs under a label, in lengths of leader."""
SWEEPS = 2

Leader = tuple[Place, Place]


@dataclass(frozen=True, slots=True)
class Over:
    """A label that wants a place on the picture: its point, and how wide and high it is."""

    point: Place
    size: Place


@dataclass(frozen=True, slots=True)
class Ground:
    """What is there already: the size of the picture, every point on it, the leaders to labels in the margins."""

    size: Place
    points: tuple[Place, ...]
    leaders: tuple[Leader, ...]


def lay_over(wanted: Sequence[Over], ground: Ground) -> tuple[Place | None, ...]:
    """The upper left corner of each label, in the order given; None for one that has no place left."""
    corners: list[Place | None] = [None] * len(wanted)
    for _ in range(SWEEPS):
        for number, one in enumerate(wanted):
            others = [(wanted[i], corner) for i, corner in enumerate(corners) if corner is not None and i != number]
            weighed = ((_cost(one, corner, others, ground), corner) for corner in _places(one))
            best = min(weighed, key=lambda pair: pair[0])
            corners[number] = best[1] if best[0] < math.inf else None
    return tuple(corners)


def _places(one: Over) -> Iterator[Place]:
    """The corners that are tried."""
    for step in STEPS:
        for way in range(WAYS):
            across, down = math.cos(2 * math.pi * way / WAYS), math.sin(2 * math.pi * way / WAYS)
            middle = (
                one.point[0] + across * (step + one.size[0] / 2),
                one.point[1] + down * (step + one.size[1] / 2),
            )
            yield (round(middle[0] - one.size[0] / 2, 2), round(middle[1] - one.size[1] / 2, 2))


def leader_of(one: Over, corner: Place) -> Leader:
    """From the point to where the label is nearest to it."""
    x = min(max(one.point[0], corner[0]), corner[0] + one.size[0])
    y = min(max(one.point[1], corner[1]), corner[1] + one.size[1])
    return (one.point, (x, y))


def _cost(one: Over, corner: Place, others: Sequence[tuple[Over, Place]], ground: Ground) -> float:
    """How bad a place is; infinite where the label would lie on something or out of the picture."""
    (left, top), (wide, high) = corner, one.size
    if left < FROM_POINT or top < FROM_POINT:
        return math.inf
    if left + wide > ground.size[0] - FROM_POINT or top + high > ground.size[1] - FROM_POINT:
        return math.inf
    gaps = [math.dist(*leader_of(Over(point, one.size), corner)) for point in ground.points]
    if min(gaps) < FROM_POINT:
        return math.inf
    own = leader_of(one, corner)
    whole = math.dist(*own) + HIDING * sum(max(0.0, ABOUT - gap) for gap in gaps)
    for other, at in others:
        if _meet(corner, one.size, at, other.size):
            return math.inf
        theirs = leader_of(other, at)
        whole += COVERED * (_under(own, at, other.size) + _under(theirs, corner, one.size)) + CROSSING * cross(
            *own, *theirs
        )
    for leader in ground.leaders:
        whole += COVERED * _under(leader, corner, one.size) + CROSSING * cross(*own, *leader)
    whole += PASSING * sum(math.dist(p, own[0]) > NEAR and distance(p, *own) < NEAR for p in ground.points)
    return whole


def _meet(corner: Place, size: Place, other: Place, its: Place) -> bool:
    return (
        corner[0] < other[0] + its[0] + APART
        and other[0] < corner[0] + size[0] + APART
        and corner[1] < other[1] + its[1] + APART
        and other[1] < corner[1] + size[1] + APART
    )


def _under(leader: Leader, corner: Place, size: Place) -> bool:
    """Whether a leader runs under a label."""
    (left, top), (right, bottom) = corner, (corner[0] + size[0], corner[1] + size[1])
    if any(left < x < right and top < y < bottom for x, y in leader):
        return True
    falling, rising = ((left, top), (right, bottom)), ((left, bottom), (right, top))
    return cross(*leader, *falling) or cross(*leader, *rising)
