"""Symbols of the vacuum system."""

from cutaway.draw.shapes import Circle, Line, Rect, Shape
from cutaway.draw.symbols.strokes import arrow, round_at, spring, triangle
from cutaway.draw.symbols.symbol import Anchor, Look, Symbol


def vacuum_pump(look: Look) -> Symbol:
    """A ring with an open triangle, for air; it blows out to the east."""
    return Symbol(
        (1.2, 1.0),
        (Anchor("suction", (0.04, 0.5), "west"),),
        (
            Circle((0.5, 0.5), 0.46, "edge"),
            triangle((0.94, 0.5), 0, 0.4, 0.46, "edge"),
            Line((0.24, 0.3), (0.24, 0.7), "heavy"),
            Line((0.24, 0.5), (0.54, 0.5), "stroke"),
            *arrow((0.96, 0.5), (1.2, 0.5), "thin"),
        ),
    )


def suction_relief_valve(look: Look) -> Symbol:
    """A plate held on its seat by a spring; an arrow from the west for the air that comes in, unless it is shut."""
    open_now = look.states.get("open")
    x = 0.56 if open_now else 0.34
    shapes: list[Shape] = [
        Rect((0.3, 0.15), (0.6, 0.7), "edge"),
        Line((0.3, 0.3), (0.3, 0.7), "blank"),
        Line((x, 0.26), (x, 0.74), "heavy"),
        spring((x, 0.5), (0.9, 0.5), 3, 0.2),
        *(arrow((0.0, 0.5), (0.26, 0.5), "thin") if open_now is not False else ()),
    ]
    return Symbol((1.0, 1.0), (Anchor("line", (0.9, 0.5), "east"),), tuple(shapes))


def gyro_instrument(look: Look) -> Symbol:
    """A rotor in its rings, upright while it can be trusted and fallen over while it cannot."""
    working = look.states.get("working")
    centre = (0.5, 0.5)
    tilt = 35.0 if working is False else 90.0
    ends = round_at(centre, 0.34, tilt), round_at(centre, 0.34, tilt + 180)
    rim = round_at(centre, 0.24, tilt + 90), round_at(centre, 0.24, tilt - 90)
    shapes: list[Shape] = [
        Circle(centre, 0.46, "edge"),
        Circle(centre, 0.34, "ring"),
        Line(ends[0], ends[1], "stroke"),
        Line(rim[0], rim[1], "heavy"),
    ]
    if working is False:
        shapes.append(Line((0.2, 0.8), (0.8, 0.8), "dashed"))
    return Symbol((1.0, 1.0), (Anchor("line", (0.96, 0.5), "east"),), tuple(shapes))
