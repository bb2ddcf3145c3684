"""Symbols of the petrol system: tanks, cocks, filters, pumps, valves, the carburettor."""

import math

from cutaway.draw.measure import text_width
from cutaway.draw.shapes import Circle, Line, Path, Polyline, Rect, Shape, Text
from cutaway.draw.symbols.strokes import arc, arrow, blocked, round_at, spring, through, triangle
from cutaway.draw.symbols.symbol import UNIT, Anchor, Look, Symbol, fraction, position


def tank(look: Look) -> Symbol:
    """A vessel with its level."""
    full = fraction(look, "contents", "capacity")
    shapes: list[Shape] = [Rect((0.0, 0.05), (1.3, 0.9), "edge", 0.12)]
    if full:
        shapes.append(Rect((0.05, 0.10 + 0.8 * (1 - full)), (1.2, 0.8 * full), "fluid petrol", 0.06))
    if full is not None and full < 1:
        top = 0.10 + 0.8 * (1 - full)
        shapes.append(Line((0.05, min(top, 0.9)), (1.25, min(top, 0.9)), "thin"))
    shapes.append(Rect((0.5, 0.0), (0.3, 0.06), "solid"))
    return Symbol((1.3, 1.0), (Anchor("outlet", (1.3, 0.72), "east"),), tuple(shapes))


WAY_NAME = 14.5 / UNIT
"""The size of the name of a way: that of the smallest words of a sheet."""

WAY_ABOVE, WAY_BELOW = 0.18, 0.13
"""How far the name of a way is from its pipe, above it and below it: clear of the head of an arrow."""

TWO_APART, WAYS_APART = 0.406, 0.58
"""How far the pipes of two ways are apart, named above and below; and those of more, each named above its pipe."""


def selector_cock(look: Look) -> Symbol:
    """A round body; the channel within joins the chosen way to the outlet, or a bar shuts it off. The name of each way,
    which is that of the handle's position, stands at its pipe."""
    ways = look.lists.get("ways", ())
    apart = WAYS_APART if len(ways) > 2 else TWO_APART
    radius = max(0.46, 0.24 * len(ways), (len(ways) - 1) / 2 * apart / 0.9)
    heights = [(i - (len(ways) - 1) / 2) * apart for i in range(len(ways))]
    angles = [180.0 + math.degrees(math.asin(height / radius)) for height in heights]
    beside = max((text_width(way, WAY_NAME) for way in ways), default=0.0) + 0.1
    highest = radius + min(heights, default=0.0)
    centre = (beside + radius, radius + max(0.1, WAY_ABOVE + WAY_NAME - highest))
    edge = {way: round_at(centre, radius, angle) for way, angle in zip(ways, angles, strict=True)}
    out = (centre[0] + radius, centre[1])
    ports = (*(Anchor(way, at, "west") for way, at in edge.items()), Anchor("outlet", out, "east"))
    shapes: list[Shape] = [Circle(centre, radius, "edge")]
    inner = radius - 0.08
    chosen = position(look)
    for way, at in edge.items():
        stub = (centre[0] + (at[0] - centre[0]) * inner / radius, centre[1] + (at[1] - centre[1]) * inner / radius)
        shapes.append(Circle(stub, 0.06, "solid" if way == chosen else "edge"))
        below = at[1] > centre[1] and len(ways) < 3
        line = at[1] + (WAY_BELOW + WAY_NAME * 0.78 if below else -WAY_ABOVE)
        shapes.append(Text((0.0, line), way, "note", WAY_NAME, width=text_width(way, WAY_NAME)))
    shapes.append(Circle((centre[0] + inner, centre[1]), 0.06, "solid" if chosen in edge else "edge"))
    if chosen in edge:
        shapes.append(Polyline((edge[chosen], centre, out), "heavy"))
    elif chosen:
        shapes.append(Line((centre[0], centre[1] - 0.3), (centre[0], centre[1] + 0.3), "heavy"))
    shapes.append(Circle(centre, 0.09, "solid"))
    under = 0.0 if len(ways) > 2 else max(0.0, WAY_BELOW + WAY_NAME - highest)
    size = (out[0], centre[1] + radius + under)
    return Symbol(size, ports, tuple(shapes), top=centre[1] - radius, axis=centre[0])


def cock(look: Look) -> Symbol:
    """Two triangles tip to tip with a handle: along the pipe when on, across it when off."""
    where = position(look)
    role = "solid" if where == "off" else "edge"
    left = Polyline(((0.1, 0.3), (0.5, 0.55), (0.1, 0.8)), role, closed=True)
    right = Polyline(((0.9, 0.3), (0.5, 0.55), (0.9, 0.8)), role, closed=True)
    stem: tuple[Shape, ...] = (Line((0.5, 0.55), (0.5, 0.2), "stroke"),)
    handles: dict[str, tuple[Shape, ...]] = {
        "on": (Line((0.28, 0.2), (0.72, 0.2), "heavy"),),
        "off": (Line((0.5, 0.35), (0.5, 0.02), "heavy"),),
    }
    return Symbol((1.0, 1.0), through(0.1, 0.9, 0.55), (left, right, *stem, *handles.get(where, ())))


def fuel_filter(look: Look) -> Symbol:
    """A diamond with a gauze across it."""
    return Symbol(
        (1.0, 1.0),
        through(0.0, 1.0),
        (
            Polyline(((0.0, 0.5), (0.5, 0.0), (1.0, 0.5), (0.5, 1.0)), "edge", closed=True),
            Line((0.5, 0.06), (0.5, 0.94), "dashed"),
        ),
    )


def engine_pump(look: Look) -> Symbol:
    """A ring with a solid triangle towards the delivery, and the shaft's coupling."""
    return Symbol(
        (1.0, 1.0),
        through(0.04, 0.96),
        (
            Circle((0.5, 0.5), 0.46, "edge"),
            triangle((0.96, 0.5), 0, 0.42, 0.48),
            Line((0.24, 0.3), (0.24, 0.7), "heavy"),
            Line((0.24, 0.5), (0.54, 0.5), "stroke"),
        ),
    )


def hand_pump(look: Look) -> Symbol:
    """A ring with a triangle and a lever; the lever swings while it is worked."""
    where = position(look)
    centre = (0.5, 0.6)
    shapes: list[Shape] = [
        Circle(centre, 0.36, "edge"),
        triangle((0.86, 0.6), 0, 0.26, 0.32),
        Circle(centre, 0.06, "solid"),
    ]
    handle = round_at(centre, 0.56, 110 if where == "pumping" else 60)
    shapes += [Line(centre, handle, "heavy"), Circle(handle, 0.06, "solid")]
    if where == "pumping":
        shapes += [arc(centre, 0.54, 62, 100, "thin"), triangle(round_at(centre, 0.54, 54), -30, 0.14, 0.12)]
        shapes += [triangle(round_at(centre, 0.54, 152), 232, 0.14, 0.12), arc(centre, 0.54, 120, 145, "thin")]
    return Symbol((1.0, 1.0), through(0.14, 0.86, 0.6), tuple(shapes))


def non_return_valve(look: Look) -> Symbol:
    """A ball in a seat that opens to the east."""
    return Symbol(
        (0.9, 0.8),
        through(0.18, 0.67, 0.4),
        (
            Polyline(((0.56, 0.08), (0.18, 0.4), (0.56, 0.72)), "stroke"),
            Circle((0.5, 0.4), 0.17, "edge"),
        ),
    )


def relief_valve(look: Look) -> Symbol:
    """A square under a spring: an arrow through it when it is open, a plate across the way when it is shut; an arrow
    out of line where that is not known."""
    passing = look.states.get("open")
    shapes: list[Shape] = [
        Rect((0.18, 0.34), (0.64, 0.62), "edge"),
        spring((0.5, 0.34), (0.5, 0.02)),
        Line((0.38, 0.02), (0.62, 0.02), "thin"),
    ]
    if passing is False:
        shapes += [Line((0.18, 0.62), (0.42, 0.62), "stroke"), Rect((0.42, 0.42), (0.16, 0.46), "solid")]
    else:
        y = 0.62 if passing else 0.78
        shapes += arrow((0.24, y), (0.78, y), head=0.16)
    return Symbol((1.0, 1.0), through(0.18, 0.82, 0.62), tuple(shapes))


def carburettor(look: Look) -> Symbol:
    """A float chamber beside a choke; the float is up when it is fed and on the floor when it is starved."""
    fed = look.states.get("fed")
    shapes: list[Shape] = [
        Rect((0.1, 0.2), (0.6, 0.7), "edge", 0.05),
        Path((("M", (0.86, 0.0)), ("Q", (1.06, 0.5, 0.86, 1.0))), "stroke"),
        Path((("M", (1.4, 0.0)), ("Q", (1.2, 0.5, 1.4, 1.0))), "stroke"),
        Line((0.7, 0.62), (1.12, 0.62), "stroke"),
        Line((1.12, 0.62), (1.12, 0.44), "stroke"),
    ]
    if fed:
        shapes.append(Rect((0.14, 0.5), (0.52, 0.36), "fluid petrol", 0.03))
    if fed is not None:
        shapes.append(Rect((0.24, 0.4 if fed else 0.74), (0.32, 0.14), "edge", 0.05))
    if fed is False:
        shapes.extend(blocked((0.4, 0.22), -90, 0.12))
    return Symbol((1.44, 1.0), (Anchor("inlet", (0.1, 0.35), "west"),), tuple(shapes))


def junction(look: Look) -> Symbol:
    """Where lines meet: a dot."""
    at = (0.1, 0.1)
    return Symbol((0.2, 0.2), (Anchor("any", at, "west"), Anchor("any", at, "east")), (Circle(at, 0.085, "joint"),))
