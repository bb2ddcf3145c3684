"""Symbols of the hydraulic system: reservoir, selector valve, jack."""

from cutaway.draw.shapes import Line, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import arrow, blocked, letters
from cutaway.draw.symbols.symbol import LINK_OUT, Anchor, Look, Symbol, fraction, position


def reservoir(look: Look) -> Symbol:
    """An open vessel; the return comes in at the top."""
    full = fraction(look, "contents", "capacity")
    shapes: list[Shape] = [Polyline(((0.0, 0.05), (0.0, 1.0), (1.1, 1.0), (1.1, 0.05)), "stroke")]
    if full:
        depth = 0.85 * full
        shapes.append(Rect((0.05, 0.95 - depth), (1.0, depth), "fluid oil"))
    ports = (Anchor("outlet", (1.1, 0.78), "east"), Anchor("return", (0.0, 0.22), "west"))
    return Symbol((1.1, 1.0), ports, tuple(shapes))


def selector_valve(look: Look) -> Symbol:
    """A square with the two ways that are open in this position, or bars where nothing passes."""
    return selector_body(position(look), 0.0)


def selector_body(where: str, above: float) -> Symbol:
    """The square of a selector valve, with room above it. where: the position, '' where it is not known."""
    near, far = 0.35 + above, 0.85 + above
    p, r, d, u = (0.2, near), (0.2, far), (1.1, near), (1.1, far)
    shapes: list[Shape] = [Rect((0.2, 0.1 + above), (0.9, 1.0), "edge")]
    if where == "down":
        shapes += [*arrow(p, (d[0] - 0.04, d[1]), head=0.16), *arrow(u, (r[0] + 0.04, r[1]), head=0.16)]
    elif where == "up":
        shapes += [*arrow(p, (u[0] - 0.04, u[1] - 0.02), head=0.16), *arrow(d, (r[0] + 0.04, r[1] - 0.02), head=0.16)]
    elif where:
        shapes += [s for at, way in ((p, 0), (r, 0), (d, 180), (u, 180)) for s in blocked(at, way, 0.16)]
    for word, (x, y) in (("P", p), ("R", r), ("D", d), ("U", u)):
        shapes.append(letters(word, (x - 0.11 if x < 0.5 else x + 0.11, y - 0.19), 0.23))
    ports = (
        Anchor("pressure", p, "west"),
        Anchor("return", r, "west"),
        Anchor("down", d, "east"),
        Anchor("up", u, "east"),
    )
    return Symbol((1.3, 1.2 + above), ports, tuple(shapes))


def jack(look: Look) -> Symbol:
    """A cylinder with its piston and rod where they stand; the pipe that retracts it runs below to the rod's end."""
    travel = fraction(look, "travel", "stroke")
    out = travel or 0.0
    x = 0.14 + 0.66 * out
    shapes: list[Shape] = [
        Rect((0.08, 0.15), (0.96, 0.5), "edge"),
        Line((x, 0.17), (x, 0.63), "heavy"),
        Rect((x, 0.36), (1.1 + 0.5 * out - x, 0.08), "edge"),
        Rect((1.08 + 0.5 * out, 0.3), (0.1, 0.2), "solid", 0.03),
        Line((1.18 + 0.5 * out, 0.4), (1.7, 0.4), "link"),
    ]
    ports = (
        Anchor("extend", (0.08, 0.4), "west"),
        Anchor("retract", (0.0, 0.9), "west", ((0.94, 0.9), (0.94, 0.66))),
        Anchor(LINK_OUT, (1.7, 0.4), "east"),
    )
    return Symbol((1.7, 1.0), ports, tuple(shapes))
