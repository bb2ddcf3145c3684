"""Marks that several symbols share: arcs, triangles, needles, springs, levers."""

import math

from cutaway.draw.shapes import Circle, Line, Path, Point, Polyline, Shape, Text
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


def letters(words: str, at: Point, size: float = 0.2, role: str = "mark") -> Text:
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
