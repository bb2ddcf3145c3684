"""What a picture is made of: frozen shapes in plain numbers, each with a role instead of a colour.

A role is one or more words ('pipe petrol live'); `theme.py` says how each looks and `svg.py` alone writes them down.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Literal

Point = tuple[float, float]
Command = tuple[str, tuple[float, ...]]
Align = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    start: Point
    end: Point
    role: str


@dataclass(frozen=True, slots=True)
class Polyline:
    """Strokes from point to point; `closed` joins the last to the first."""

    points: tuple[Point, ...]
    role: str
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    role: str


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle, its corner the upper left one."""

    corner: Point
    size: Point
    role: str
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Path:
    """Curves. commands: letter and numbers, all absolute: M x y, L x y, Q x1 y1 x y, A r r 0 large sweep x y, Z."""

    commands: tuple[Command, ...]
    role: str


@dataclass(frozen=True, slots=True)
class Text:
    """A run of words on one line. at: where its baseline starts, has its middle or ends. width: what it may take up."""

    at: Point
    words: str
    role: str
    size: float
    align: Align = "start"
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class Image:
    """A photograph, its corner the upper left one. href: the picture itself, as `data:image/jpeg;base64,…`."""

    corner: Point
    size: Point
    href: str


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes that belong together. name: the words that its id is made from, '' for none.

    part, reference, line: what it shows, for those who look the picture up by name. title: shown on pointing and read
    aloud. link: the name of the group of the picture that it leads to, '' for none.
    """

    shapes: tuple["Shape", ...]
    role: str = ""
    name: str = ""
    part: str = ""
    reference: str = ""
    line: str = ""
    title: str = ""
    link: str = ""


Shape = Line | Polyline | Circle | Rect | Path | Text | Image | Group


@dataclass(frozen=True, slots=True)
class Picture:
    """A whole picture. name: what its ids begin with. description: the text alternative."""

    size: Point
    shapes: tuple[Shape, ...]
    name: str
    title: str
    description: tuple[str, ...]


def placed(shapes: Iterable[Shape], shift: Point, scale: float = 1.0) -> tuple[Shape, ...]:
    """The shapes enlarged by `scale` and then moved by `shift`."""

    def put(point: Point) -> Point:
        return (point[0] * scale + shift[0], point[1] * scale + shift[1])

    return tuple(_placed(shape, put, scale) for shape in shapes)


def _placed(shape: Shape, put: Callable[[Point], Point], scale: float) -> Shape:
    match shape:
        case Line():
            return replace(shape, start=put(shape.start), end=put(shape.end))
        case Polyline():
            return replace(shape, points=tuple(put(p) for p in shape.points))
        case Circle():
            return replace(shape, centre=put(shape.centre), radius=shape.radius * scale)
        case Rect():
            size = (shape.size[0] * scale, shape.size[1] * scale)
            return replace(shape, corner=put(shape.corner), size=size, radius=shape.radius * scale)
        case Path():
            return replace(shape, commands=tuple(_placed_command(c, put, scale) for c in shape.commands))
        case Text():
            return replace(shape, at=put(shape.at), size=shape.size * scale, width=shape.width * scale)
        case Image():
            return replace(shape, corner=put(shape.corner), size=(shape.size[0] * scale, shape.size[1] * scale))
        case Group():
            return replace(shape, shapes=tuple(_placed(s, put, scale) for s in shape.shapes))


def _placed_command(command: Command, put: Callable[[Point], Point], scale: float) -> Command:
    letter, numbers = command
    if letter == "A":
        x, y = put((numbers[5], numbers[6]))
        return letter, (numbers[0] * scale, numbers[1] * scale, *numbers[2:5], x, y)
    pairs = [put((numbers[i], numbers[i + 1])) for i in range(0, len(numbers), 2)]
    return letter, tuple(n for pair in pairs for n in pair)
