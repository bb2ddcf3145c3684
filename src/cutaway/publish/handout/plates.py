"""Drawings on paper: as large as their page allows, and over several pages where words would be too small on one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import sha256

from cutaway.draw.extent import Extent, extent_of, smallest_words
from cutaway.draw.shapes import Group, Line, Picture, Polyline, Rect, Shape, Text, placed
from cutaway.draw.svg import write_svg
from cutaway.publish.handout.records import Key, Plate, Tile

EDGE = 8.0
"""Kept free round a drawing, in its own units."""

GROWN = 11.0
"""A drawing is not enlarged beyond where its smallest words have this size, pt."""

LONGEST_BOX = 0.75
"""Of a page: what is longer may be cut between two, or pages would hardly get on."""

OWN_PAGE = 0.62
"""A drawing that takes up more than this part of the height of its page gets the page."""


@dataclass(frozen=True, slots=True)
class Space:
    """Room for a drawing on a page, pt. flipped: on the page lying on its long side."""

    width: float
    height: float
    flipped: bool = False

    @property
    def shape(self) -> float:
        """Width by height."""
        return self.width / self.height


@dataclass(frozen=True, slots=True)
class Way:
    """One way to bring a drawing to paper: enlarged by `scale`, from these places on in each direction."""

    picture: Picture
    space: Space
    scale: float
    across: tuple[tuple[float, float], ...]
    down: tuple[tuple[float, float], ...]

    @property
    def pages(self) -> int:
        """How many pages it takes."""
        return len(self.across) * len(self.down)


def plate(
    ways: Sequence[tuple[Picture, Space]], smallest: float, says: str, cautions: tuple[str, ...], most: int
) -> Plate | None:
    """The best of several layouts of one sheet, each with the space that it was made for; None where all need too much.

    smallest: no word of it is smaller, pt. most: how many pages it may take.
    """
    found = [_way(picture, space, smallest) for picture, space in ways]
    best = min(found, key=lambda way: (way.pages, way.space.flipped, -way.scale))
    return _plate(best, says, cautions) if best.pages <= most else None


def least_pages(picture: Picture, spaces: Sequence[Space], smallest: float) -> float:
    """How many times the largest of some spaces a drawing is, where its smallest words have a size, pt."""
    shapes = _drawing(picture)
    extent = extent_of(shapes).widened(EDGE)
    scale = smallest / smallest_words(shapes)
    return extent.width * extent.height * scale**2 / max(space.width * space.height for space in spaces)


def _way(picture: Picture, space: Space, smallest: float) -> Way:
    shapes = _drawing(picture)
    extent = extent_of(shapes).widened(EDGE)
    least = smallest / smallest_words(shapes)
    fit = min(space.width / extent.width, space.height / extent.height)
    if fit >= least:
        scale = min(fit, least * GROWN / smallest if smallest < GROWN else least)
        return Way(picture, space, scale, ((extent.left, extent.right),), ((extent.top, extent.bottom),))
    boxes = [extent_of((shape,)) for shape in shapes if isinstance(shape, Group) and (shape.part or shape.reference)]
    across = windows(extent.left, extent.right, space.width / least, [(b.left, b.right) for b in boxes])
    down = windows(extent.top, extent.bottom, space.height / least, [(b.top, b.bottom) for b in boxes])
    return Way(picture, space, least, across, down)


def windows(
    first: float, last: float, room: float, boxes: Iterable[tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    """Stretches no longer than `room` that cover all, so that each box up to three quarters of that is whole in one.

    >>> windows(0.0, 100.0, 60.0, [(50.0, 70.0)])
    ((0.0, 50.0), (50.0, 100.0))
    >>> windows(0.0, 100.0, 60.0, [(40.0, 62.0)])
    ((0.0, 60.0), (40.0, 100.0))
    """
    kept = tuple(boxes)
    starts = _starts(first, last, room, kept)
    for part in range(20):  # as even as can be, with no page more
        shorter = (last - first) / len(starts) + (room - (last - first) / len(starts)) * part / 20
        even = _starts(first, last, shorter, kept)
        if len(even) == len(starts) and all(hi - lo <= shorter * LONGEST_BOX for lo, hi in kept):
            return tuple((start, min(start + shorter, last)) for start in even)
    return tuple((start, min(start + room, last)) for start in starts)


def _starts(first: float, last: float, room: float, boxes: Sequence[tuple[float, float]]) -> list[float]:
    starts = [first]
    while starts[-1] + room < last - 1e-6:
        end = starts[-1] + room
        least = starts[-1] + room * (1.0 - LONGEST_BOX)
        starts.append(min((low for low, high in boxes if least < low < end < high), default=end))
    return starts


def _plate(way: Way, says: str, cautions: tuple[str, ...]) -> Plate:
    shapes = _drawing(way.picture)
    tiles = tuple(_tile(way, shapes, column, row) for row in range(len(way.down)) for column in range(len(way.across)))
    whole = way.pages > 1 or way.space.flipped or tiles[0].height > way.space.height * OWN_PAGE
    looks = sha256(repr(shapes).encode()).hexdigest()
    return Plate(
        way.picture.title, says, way.picture.description, tiles, len(way.across), len(way.down), way.space.flipped,
        whole, smallest_words(shapes) * way.scale, _keys(way.picture), cautions, looks,
    )  # fmt: skip


def _tile(way: Way, shapes: tuple[Shape, ...], column: int, row: int) -> Tile:
    (left, right), (top, bottom) = way.across[column], way.down[row]
    window = Extent(left, top, right, bottom)
    inside = tuple(shape for shape in shapes if extent_of((shape,)).meets(window))
    size = (right - left, bottom - top)
    name = f"{way.picture.name} {column + 1} {row + 1}"
    piece = Picture(size, placed(inside, (-left, -top)), name, way.picture.title, ())
    return Tile(write_svg(piece, "print"), size[0] * way.scale, size[1] * way.scale, column, row)


def _drawing(picture: Picture) -> tuple[Shape, ...]:
    return next(shape.shapes for shape in picture.shapes if isinstance(shape, Group) and shape.role == "drawing")


def _keys(picture: Picture) -> tuple[Key, ...]:
    """What the lines mean, taken from the foot of the sheet: samples, each followed by its words."""
    foot = next(shape.shapes for shape in picture.shapes if isinstance(shape, Group) and shape.role == "foot")
    found: list[Key] = []
    sample: list[Shape] = []
    for shape in foot:
        boxed = isinstance(shape, Rect) and shape.role in _BOXES
        # A line by itself is the upper edge of the foot; behind a box it is the mark on a flag.
        if isinstance(shape, Polyline) or boxed or (isinstance(shape, Line) and sample):
            sample.append(shape)
        elif isinstance(shape, Text) and shape.role == "note" and sample:
            found.append(Key(_sample(tuple(sample), picture.name, len(found)), shape.words))
            sample = []
    return tuple(found)


_BOXES = ("flag", "area")
"""The roles of what else than a line is explained below a sheet: flags and stations."""


def _sample(shapes: tuple[Shape, ...], name: str, number: int) -> str:
    extent = extent_of(shapes)
    middle = (extent.top + extent.bottom) / 2
    left = extent.left if extent.width > 40 else extent.left - (54.0 - extent.width) / 2
    size = (58.0, 22.0)
    moved = placed(shapes, (2.0 - left, size[1] / 2 - middle))
    return write_svg(Picture(size, moved, f"{name} key {number}", "", ()), "print", "paper")
