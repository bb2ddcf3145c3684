"""How far shapes reach."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import assert_never

from cutaway.draw.measure import text_width
from cutaway.draw.shapes import Circle, Group, Image, Line, Path, Point, Polyline, Rect, Shape, Text

BOLD = frozenset({"name", "title", "strong"})
DESCENT = 0.25  # of a letter's size, below its base line


@dataclass(frozen=True, slots=True)
class Extent:
    """An upright box round shapes."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    def widened(self, by: float) -> "Extent":
        """The box with an edge all round."""
        return Extent(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: "Extent") -> bool:
        """Whether two boxes have anything in common."""
        across = self.left <= other.right and other.left <= self.right
        return across and self.top <= other.bottom and other.top <= self.bottom


def extent_of(shapes: Iterable[Shape]) -> Extent:
    """The box round all shapes; of nothing, a box of no size at the origin."""
    points = [point for shape in shapes for point in _points(shape)] or [(0.0, 0.0)]
    across, down = [x for x, _ in points], [y for _, y in points]
    return Extent(min(across), min(down), max(across), max(down))


def smallest_words(shapes: Iterable[Shape]) -> float:
    """The size of the smallest words among shapes; infinite where there are none."""
    return min((text.size for text in _texts(shapes) if text.words.strip()), default=float("inf"))


def _texts(shapes: Iterable[Shape]) -> Iterator[Text]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield from _texts(shape.shapes)
        elif isinstance(shape, Text):
            yield shape


def _points(shape: Shape) -> Iterator[Point]:
    match shape:
        case Group():
            for one in shape.shapes:
                yield from _points(one)
        case Line():
            yield from (shape.start, shape.end)
        case Polyline():
            yield from shape.points
        case Circle(centre, radius):
            yield from ((centre[0] - radius, centre[1] - radius), (centre[0] + radius, centre[1] + radius))
        case Rect(corner, size) | Image(corner, size):
            yield from (corner, (corner[0] + size[0], corner[1] + size[1]))
        case Path():
            for letter, numbers in shape.commands:
                own = numbers[5:] if letter == "A" else numbers
                yield from ((own[i], own[i + 1]) for i in range(0, len(own) - 1, 2))
        case Text():
            wide = shape.width or text_width(shape.words, shape.size, shape.role in BOLD)
            left = shape.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[shape.align]
            yield from ((left, shape.at[1] - shape.size), (left + wide, shape.at[1] + shape.size * DESCENT))
        case _:
            assert_never(shape)
