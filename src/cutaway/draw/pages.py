"""The pages that sheets are made for, and how large a drawing comes out on each."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.draw.extent import smallest_words
from cutaway.draw.layout import Layout
from cutaway.draw.shapes import Picture

SHAPE = 16 / 9
SHAPES = {"16:9": SHAPE, "A4": 297 / 210, "A4 upright": 210 / 297, "square": 1.0}
"""Width by height of the pages that sheets are made for."""

SMALLEST = 14.5
"""The smallest words on a sheet, in its own units."""

A4_LONG, A4_SHORT = 297 / 25.4 * 72, 210 / 25.4 * 72
"""The sides of A4 in points."""

LEAST_POINTS = 7.0
"""The smallest words that may be printed, on A4."""

AREA = A4_LONG * A4_SHORT * (SMALLEST / LEAST_POINTS) ** 2
"""How large a page may be, in units of the sheet, before its smallest words are too small. It is the same for pages of
any shape, as if each had as much paper as A4."""

WIDTH = 1600.0
"""Of a page of 16:9 whose drawing does not ask for more."""

BETTER = 1.08
"""How much larger a sheet must come out for another layout than the usual: small gains are not worth a new picture."""

BEND = 0.01
"""How much larger it must come out for each corner more that its lines have: a line that turns is harder to follow."""

ON_SCREEN = 0.72
"""How small words may be on a page that is not for printing, as a share of what can be read on so much paper: some 10
pixels on a film of 1920 by 1080. Divided further, a system is told in shreds."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a drawing may take up. Anything larger would have to be made too small to read."""

    width: float
    height: float

    @property
    def sides(self) -> tuple[float, float]:
        """Both."""
        return self.width, self.height


def readable_width(shape: float) -> float:
    """Of the largest page of a shape whose smallest words can still be read.

    >>> round(readable_width(SHAPES["A4"])), round(readable_width(SHAPES["square"]))
    (1744, 1466)
    """
    return math.sqrt(AREA * shape)


def usual_width(shape: float) -> float:
    """Of a page whose drawing does not ask for more; pages of all shapes are as large.

    >>> usual_width(SHAPE)
    1600.0
    """
    return round(WIDTH * math.sqrt(shape / SHAPE), 2)


def fit(layout: Layout, room: Room) -> float:
    """How much of its size a layout keeps in a room, 1 at most: what fits is large enough."""
    return min(1.0, filling(layout, room))


def filling(layout: Layout, room: Room) -> float:
    """How much larger a layout could be to fill a room."""
    return min(room.width / layout.size[0], room.height / layout.size[1])


def fits(layout: Layout, room: Room) -> bool:
    """Whether a layout can be read in a room."""
    return layout.sound and fit(layout, room) >= 1.0


def least_on(shape: float) -> float:
    """How much of the size that can be read on A4 a sheet must keep on a page of a shape."""
    return 1.0 if shape in (SHAPES["A4"], SHAPES["A4 upright"]) else ON_SCREEN


def choose(layouts: Sequence[Layout], rooms: Sequence[Room], least: float = 1.0) -> Layout:
    """The layout that suits the rooms of a page best: the first, unless another can be read and it cannot, or is
    clearly larger for the corners that it has more. least: how much of its size it must keep to be read.

    One in which a wire runs through a box is passed over if there is another.
    """
    sound = [one for one in layouts if one.sound] or list(layouts)
    chosen = sound[0]
    for one in sound[1:]:
        now, then = (max(fit(layout, room) for room in rooms) for layout in (one, chosen))
        more = max(0, _corners(one) - _corners(chosen))
        if now > BETTER * then * (1.0 + BEND * more) or (now >= least > then):
            chosen = one
    return chosen


def _corners(layout: Layout) -> int:
    """Of all lines."""
    return sum(max(0, len(points) - 2) for _, points in layout.routes)


def smallest_points(picture: Picture) -> float:
    """How large the smallest words of a sheet are when it is printed as large as A4 allows, in points."""
    width, height = picture.size
    long, short = max(width, height), min(width, height)
    return smallest_words(picture.shapes) * min(A4_LONG / long, A4_SHORT / short)
