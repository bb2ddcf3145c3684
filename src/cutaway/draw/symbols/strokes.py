"""Marks that several symbols share: arcs, triangles, needles, springs, levers."""

import math

from cutaway.draw.shapes import Circle, Line, Path, Point, Polyline, Rect, Shape, Text
from cutaway.draw.symbols.symbol import Anchor


def through(west: float, east: float, y: float = 0.5) -> tuple[Anchor, Anchor]:
    """The anchors of a part that is passed from west to east, at the edges of its body."""
    return Anchor("inlet", (west, y), "west"), Anchor("outlet", (east, y), "east")


def round_at(centre: Point, radius: float, degrees: float) -> Point:
    """A point on a circle; 0 is east, 90 is north (up)."""
    angle = math.radians(degrees)
    return centre[0] + radius * math.cos(angle), centre[1] - radius * math.sin(angle)


def arc(centre: Point, radius: float, start: float, end: float, role: str = "stroke") -> Path:
    """A piece of a circle from `start` degrees anticlockwise to `end`."""
    large = 1.0 if (end - start) % 360 > 180 else 0.0
    first, last = round_at(centre, radius, start), round_at(centre, radius, end)
    return Path((("M", first), ("A", (radius, radius, 0.0, large, 0.0, *last))), role)


def triangle(tip: Point, degrees: float, length: float, width: float, role: str = "solid") -> Polyline:
    """A triangle with its tip at a point, pointing in a direction."""
    back = round_at(tip, length, degrees + 180)
    left, right = round_at(back, width / 2, degrees + 90), round_at(back, width / 2, degrees - 90)
    return Polyline((tip, left, right), role, closed=True)


def arrow(start: Point, end: Point, role: str = "stroke", head: float = 0.12) -> tuple[Shape, ...]:
    """A stroke with a solid head."""
    degrees = math.degrees(math.atan2(start[1] - end[1], end[0] - start[0]))
    return Line(start, round_at(end, head * 0.7, degrees + 180), role), triangle(end, degrees, head, head * 0.9)


def spring(start: Point, end: Point, turns: int = 3, width: float = 0.12) -> Polyline:
    """A zigzag between two points."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    across = (-dy / length * width / 2, dx / length * width / 2)
    points = [start]
    for i in range(2 * turns):
        along = (i + 0.5) / (2 * turns)
        way = 1.0 if i % 2 == 0 else -1.0
        points.append((start[0] + dx * along + across[0] * way, start[1] + dy * along + across[1] * way))
    return Polyline((*points, end), "thin")


def needle(centre: Point, length: float, part: float | None) -> tuple[Shape, ...]:
    """A gauge's needle: from lower left (0) over the top to lower right (1); none where nothing is read."""
    if part is None:
        return ()
    degrees = 225.0 - 270.0 * part
    return Line(centre, round_at(centre, length, degrees), "stroke"), Circle(centre, 0.05, "solid")


def letters(words: str, at: Point, size: float = 0.23, role: str = "mark") -> Text:
    """Letters within a symbol, their middle at a point."""
    return Text((at[0], at[1] + size * 0.36), words, role, size, "middle")


def turning(centre: Point, radius: float) -> tuple[Shape, ...]:
    """An arc with a head: this part turns."""
    end = round_at(centre, radius, 60)
    return arc(centre, radius, 60, 150, "thin"), triangle(round_at(end, 0.05, -30), -35, 0.12, 0.1)


def rays(centre: Point, inner: float, outer: float) -> tuple[Line, ...]:
    """Light that goes out from a lamp."""
    angles = range(0, 360, 45)
    return tuple(Line(round_at(centre, inner, a), round_at(centre, outer, a), "stroke") for a in angles)


def blocked(at: Point, degrees: float, length: float = 0.12) -> tuple[Shape, ...]:
    """A way that ends in a bar: nothing passes. degrees: the direction in which it comes in."""
    tip = round_at(at, length, degrees)
    return (
        Line(at, tip, "stroke"),
        Line(round_at(tip, 0.09, degrees + 90), round_at(tip, 0.09, degrees - 90), "stroke"),
    )


def bow_tie(west: float, east: float, y: float, height: float = 0.5, role: str = "edge") -> tuple[Shape, ...]:
    """Two triangles tip to tip: a body that can be shut."""
    middle = ((west + east) / 2, y)
    return tuple(Polyline(((x, y - height / 2), middle, (x, y + height / 2)), role, closed=True) for x in (west, east))


def ball_valve(west: float, y: float, size: float = 0.3, lifted: bool = False) -> tuple[Shape, ...]:
    """A ball in a seat that lets pass to the east only; lifted: the ball is off its seat."""
    reach = 0.84 * size
    seat = Polyline(((west + size, y - reach), (west, y), (west + size, y + reach)), "stroke")
    ball = Circle((west + size * (1.3 if lifted else 0.84), y), 0.45 * size, "edge")
    return seat, ball


def contact(hinge: Point, fixed: Point, made: bool | None, opens: float = 28.0) -> tuple[Shape, ...]:
    """Two contacts and a blade, level: closed, open, or dashed where that is not known."""
    length = math.dist(hinge, fixed)
    dots = Circle(hinge, 0.055, "solid"), Circle(fixed, 0.055, "solid" if made else "edge")
    if made is None:
        return (*dots, Line(hinge, round_at(hinge, length, opens / 2), "dashed"))
    return (*dots, Line(hinge, fixed if made else round_at(hinge, length, opens), "heavy"))


def coil(corner: Point, size: Point) -> tuple[Shape, ...]:
    """The winding of a relay or a solenoid: a box with a stroke from corner to corner."""
    (x, y), (width, height) = corner, size
    return Rect(corner, size, "edge"), Line((x, y + height), (x + width, y), "stroke")


LOCKS = "A shut padlock: locked. An open one: not locked."
LET_OUT = "An open triangle at an edge: there air goes out, or comes in, from outside."
"""What the two signs below mean, for the symbols that have them."""


def exhaust(at: Point, degrees: float = 270.0) -> Polyline:
    """An open triangle on an edge: air goes out here. at: the middle of its base."""
    return triangle(round_at(at, 0.15, degrees), degrees, 0.15, 0.2, "edge")


def padlock(at: Point, shut: bool) -> tuple[Shape, ...]:
    """A lock, shut or with its shackle swung open. at: the middle of its body."""
    x, y = at
    body = Rect((x - 0.1, y - 0.06), (0.2, 0.16), "solid", 0.02)
    if shut:
        return body, Path(
            (("M", (x - 0.06, y - 0.06)), ("A", (0.06, 0.08, 0.0, 0.0, 1.0, x + 0.06, y - 0.06))), "stroke"
        )
    bow = Path((("M", (x + 0.06, y - 0.06)), ("A", (0.06, 0.08, 0.0, 0.0, 1.0, x + 0.18, y - 0.06))), "stroke")
    return body, bow


def struck(centre: Point, reach: float = 0.3) -> tuple[Shape, ...]:
    """A cross over something that is dead."""
    ends = [round_at(centre, reach, a) for a in (45, 225, 135, 315)]
    return Line(ends[0], ends[1], "stroke"), Line(ends[2], ends[3], "stroke")


def wave(start: Point, length: float, height: float = 0.06, role: str = "thin") -> Path:
    """A wavy stroke to the east: warmth, or a current that goes to and fro."""
    x, y = start
    half = length / 2
    return Path(
        (
            ("M", start),
            ("Q", (x + half / 2, y - 2 * height, x + half, y)),
            ("Q", (x + half * 1.5, y + 2 * height, x + length, y)),
        ),
        role,
    )


def drops(at: Point, count: int = 3, step: float = 0.13) -> tuple[Shape, ...]:
    """Drops that fall or fly, in a row to the east."""
    return tuple(Circle((at[0] + step * i, at[1]), 0.035, "solid") for i in range(count))


def fan(at: Point, degrees: float, inner: float, outer: float, spread: float = 28.0) -> tuple[Line, ...]:
    """Three strokes that spread out from a mouth: spray, jet or blast."""
    return tuple(
        Line(round_at(at, inner, degrees + a), round_at(at, outer, degrees + a), "thin") for a in (spread, 0.0, -spread)
    )


def throat(centre: Point, role: str = "stroke") -> tuple[Shape, ...]:
    """Two bows back to back: a narrow hole."""
    x, y = centre
    return tuple(
        Path((("M", (x - 0.2, y + way * 0.24)), ("Q", (x, y - way * 0.12, x + 0.2, y + way * 0.24))), role)
        for way in (1.0, -1.0)
    )


def small_dial(centre: Point, radius: float, part: float | None) -> tuple[Shape, ...]:
    """A little gauge on a vessel."""
    return (Circle(centre, radius, "edge"), *needle(centre, radius * 0.78, part))


def capsule(corner: Point, size: Point) -> Rect:
    """A closed vessel with round ends."""
    return Rect(corner, size, "edge", min(size) / 2)


def share(value: float | None, least: float, most: float | None) -> float | None:
    """Where a value stands between two ends of a scale, held to 0 to 1; None where it is not known."""
    if value is None or most is None or most <= least:
        return None
    return min(1.0, max(0.0, (value - least) / (most - least)))
