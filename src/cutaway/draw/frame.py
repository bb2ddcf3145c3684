"""The page around a drawing: title and situation above; below it or beside it what the lines mean, cautions and the
notice."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.draw.pages import BETTER, Room, readable_width, usual_width
from cutaway.draw.shapes import Group, Point, Shape, placed
from cutaway.draw.strip import MARGIN, Key, foot_shapes, head_shapes, side_shapes

LARGEST = 1.4
"""How much a small system is enlarged at most."""

GAP = 14.0
"""Between head and drawing, and drawing and foot, together."""

SIDE = 400.0
"""How wide the words beside a drawing are set."""

LEAST_FIT = 0.5
"""A page is not enlarged by more than this at once: on a small one head and foot may leave no room at all."""

TIMES = 6
"""How often a page is enlarged: what stands around a drawing grows with it, so that once is not enough."""


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around a drawing. shown: of the keys, those that its state needs (None: all). beside: whether keys,
    cautions and notice stand to the right of the drawing and not below it. over: how far the areas of stations may
    reach beyond the layout, above and below together."""

    title: str
    says: str
    keys: tuple[Key, ...]
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]
    notice: str
    shown: tuple[Key, ...] | None = None
    beside: bool = False
    over: float = 0.0


@dataclass(frozen=True, slots=True)
class _Page:
    """A page of a size with what stands around its drawing. scale: how much larger than usual that is set. at: where
    the words below or beside the drawing are. top: where the room for the drawing begins."""

    width: float
    height: float
    scale: float
    head: tuple[Shape, ...]
    words: tuple[Shape, ...]
    at: Point
    top: float
    room: Room


def _page(width: float, shape: float, around: Around) -> _Page:
    scale = math.sqrt(width / usual_width(shape))
    height = width / shape
    head, top = head_shapes(around.title, around.says, width / scale)
    told = (around.keys, around.remarks, around.cautions, around.notice)
    inner = width - 2 * MARGIN * scale
    if around.beside:
        high = height / scale - top
        words, needed = side_shapes(*told, SIDE, around.shown)
        room = Room(inner - SIDE * scale, (high - GAP) * scale if needed <= high else 0.0)
        return _Page(width, height, scale, head, words, (width - SIDE * scale, top * scale), top * scale, room)
    words, strip = foot_shapes(*told, width / scale, around.shown)
    room = Room(inner, height - (top + strip + GAP) * scale)
    return _Page(width, height, scale, head, words, (0.0, height - strip * scale), top * scale, room)


def rooms_on(shape: float, around: Around) -> tuple[Room, ...]:
    """The room on the largest page of a shape whose smallest words can still be read: with the words below the drawing,
    and with the words beside it where the page is high enough for them.

    >>> from cutaway.draw.pages import SHAPES
    >>> around = Around("Fuel", "", (), (), (), "A notice.")
    >>> [[round(side) for side in room.sides] for room in rooms_on(SHAPES["A4"], around)]
    [[1682, 1072], [1240, 1152]]
    """
    pages = [_page(readable_width(shape), shape, replace(around, beside=beside)) for beside in (False, True)]
    return tuple(Room(p.room.width, p.room.height - around.over) for p in pages if p.room.height > 0)


def better_beside(size: Point, shape: float, around: Around) -> bool:
    """Whether a drawing comes out clearly larger on its page with the words beside it, or can be read only so.

    size: of the drawing.
    """
    high = (size[0], size[1] + around.over)
    (below, small), (beside, large) = (_grown(high, shape, replace(around, beside=one)) for one in (False, True))
    if beside.room.height <= 0:
        return False
    only = beside.width <= readable_width(shape) < below.width
    return only or large / beside.width > BETTER * small / below.width


def _grown(size: Point, shape: float, around: Around) -> tuple[_Page, float]:
    """The page that a drawing wants, and how much the drawing is enlarged on it.

    A large system is not made smaller, since its strokes would then run together: its page is made larger, and what
    stands around the drawing half as much.
    """
    width = usual_width(shape)
    for _ in range(TIMES):
        page = _page(width, shape, around)
        fit = max(min(page.room.width / size[0], page.room.height / size[1]), LEAST_FIT)
        if fit >= 1:
            break
        width = math.ceil(width / fit)
    return page, min(fit, LARGEST)


def framed(
    inside: Sequence[Shape], size: Point, shape: float, around: Around, reach: float = 0.0
) -> tuple[Point, tuple[Shape, ...]]:
    """The size of the page, and all that is on it. inside, size: the drawing. reach: how far it goes above its
    origin."""
    high = (size[0], size[1] + reach)
    page, enlarged = _grown(high, shape, around)
    x = MARGIN * page.scale + (page.room.width - high[0] * enlarged) / 2
    y = page.top + (page.room.height - high[1] * enlarged) / 2 + reach * enlarged
    return (page.width, page.height), (
        Group(placed(page.head, (0.0, 0.0), page.scale), "head"),
        Group(placed(inside, (x, y), enlarged), "drawing"),
        Group(placed(page.words, page.at, page.scale), "foot"),
    )
