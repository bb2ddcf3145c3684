"""The page around a drawing: title and situation above; below, what the lines mean, cautions and the notice."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.draw.pages import Room, readable_width, usual_width
from cutaway.draw.shapes import Group, Point, Shape, placed
from cutaway.draw.strip import MARGIN, Key, foot_shapes, head_shapes

LARGEST = 1.4
"""How much a small system is enlarged at most."""

GAP = 14.0
"""Between head and drawing, and drawing and foot, together."""

LEAST_FIT = 0.5
"""A page is not enlarged by more than this at once: on a small one head and foot may leave no room at all."""

TIMES = 6
"""How often a page is enlarged: what stands around a drawing grows with it, so that once is not enough."""


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around a drawing. shown: of the keys, those that its state needs (None: all)."""

    title: str
    says: str
    keys: tuple[Key, ...]
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]
    notice: str
    shown: tuple[Key, ...] | None = None

    def on(self, width: float) -> tuple[tuple[Shape, ...], float, tuple[Shape, ...], float]:
        """Head and foot for a page so wide, each with its height."""
        return (
            *head_shapes(self.title, self.says, width),
            *foot_shapes(self.keys, self.remarks, self.cautions, self.notice, width, self.shown),
        )


def _scale_of(width: float, shape: float) -> float:
    """How much larger than usual the words around a drawing are on a page so wide."""
    return math.sqrt(width / usual_width(shape))


def room_on(shape: float, around: Around) -> Room:
    """The room on the largest page of a shape whose smallest words can still be read.

    >>> from cutaway.draw.pages import SHAPES
    >>> around = Around("Fuel", "", (), (), (), "A notice.")
    >>> [round(side) for side in room_on(SHAPES["A4"], around).sides]
    [1682, 1072]
    """
    width = readable_width(shape)
    scale = _scale_of(width, shape)
    _, top, _, strip = around.on(width / scale)
    return Room(width - 2 * MARGIN * scale, width / shape - (top + strip + GAP) * scale)


def framed(inside: Sequence[Shape], size: Point, shape: float, around: Around) -> tuple[Point, tuple[Shape, ...]]:
    """The size of the page, and all that is on it. inside, size: the drawing.

    A large system is not made smaller, since its strokes would then run together: its page is made larger, and what
    stands around the drawing half as much.
    """
    width = usual_width(shape)
    page = (width, width / shape)
    for _ in range(TIMES):
        scale = _scale_of(page[0], shape)
        above, top, below, strip = around.on(page[0] / scale)
        room = (page[0] - 2 * MARGIN * scale, page[1] - (top + strip + GAP) * scale)
        fit = max(min(room[0] / size[0], room[1] / size[1]), LEAST_FIT)
        if fit >= 1:
            break
        across = math.ceil(page[0] / fit)
        page = (across, across / shape)
    enlarged = min(fit, LARGEST)
    x = (page[0] - size[0] * enlarged) / 2
    y = top * scale + (room[1] - size[1] * enlarged) / 2
    return page, (
        Group(placed(above, (0.0, 0.0), scale), "head"),
        Group(placed(inside, (x, y), enlarged), "drawing"),
        Group(placed(below, (0.0, page[1] - strip * scale), scale), "foot"),
    )
