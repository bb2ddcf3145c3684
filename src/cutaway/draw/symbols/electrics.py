"""Symbols of the electrical system: battery, generator, bus, switch, fuse, load."""

from cutaway.draw.shapes import Circle, Line, Rect, Shape
from cutaway.draw.symbols.strokes import letters, round_at, struck, through
from cutaway.draw.symbols.symbol import LINK_IN, Anchor, Look, Symbol, fraction, position


def battery(look: Look) -> Symbol:
    """Plates, long and short, and a bar for the charge; struck out when it is flat."""
    plates: list[Shape] = []
    for i in range(3):
        x = 0.2 + 0.24 * i
        plates += [Line((x, 0.5), (x, 0.86), "heavy"), Line((x + 0.12, 0.36), (x + 0.12, 1.0), "stroke")]
    shapes: list[Shape] = [
        *plates,
        letters("+", (0.96, 0.45), 0.28),
        letters("−", (0.06, 0.45), 0.28),
        *_charge(fraction(look, "charge", "capacity")),
    ]
    if look.states.get("flat"):
        shapes += struck((0.5, 0.68), 0.34)
    return Symbol((1.1, 1.1), (Anchor("positive", (0.8, 0.68), "east"),), tuple(shapes))


def _charge(part: float | None) -> tuple[Shape, ...]:
    """A bar above the plates, as full as the battery."""
    if part is None:
        return ()
    return Rect((0.14, 0.08), (0.74, 0.16), "ring"), Rect((0.14, 0.08), (0.74 * part, 0.16), "solid")


def generator(look: Look) -> Symbol:
    """A ring with G, and a plus at the output when it charges."""
    shapes: list[Shape] = [
        Circle((0.5, 0.5), 0.42, "edge"),
        letters("G", (0.5, 0.5), 0.4, "strong"),
    ]
    if look.states.get("charging"):
        shapes.append(letters("+", (1.02, 0.28), 0.3, "strong"))
    return Symbol(
        (1.1, 1.0),
        (Anchor("output", (0.92, 0.5), "east"), Anchor(LINK_IN, (0.08, 0.5), "west")),
        tuple(shapes),
        top=0.1,
    )


def bus(look: Look) -> Symbol:
    """A bar that lines join where they come; double when it is alive."""
    height = max(0.9, 0.45 * max(look.joined))
    bar: tuple[Shape, ...] = (Rect((0.0, 0.0), (0.24, height), "edge", 0.04),)
    if look.states.get("alive"):
        bar = (*bar, Rect((0.06, 0.06), (0.12, height - 0.12), "fluid current", 0.02))
    return Symbol(
        (0.24, height),
        (Anchor("any", (0.0, height / 2), "west"), Anchor("any", (0.24, height / 2), "east")),
        bar,
        spread=True,
    )


def switch(look: Look) -> Symbol:
    """A blade between two contacts."""
    where = position(look)
    hinge, contact = (0.2, 0.55), (0.8, 0.55)
    tip = contact if where == "on" else round_at(hinge, 0.58, 32)
    shapes: list[Shape] = [
        Circle(hinge, 0.06, "solid"),
        Circle(contact, 0.06, "edge" if where != "on" else "solid"),
    ]
    if where:
        shapes.append(Line(hinge, tip, "heavy"))
    return Symbol((1.0, 0.8), through(0.2, 0.8, 0.55), tuple(shapes))


def fuse(look: Look) -> Symbol:
    """A case with a wire through it; the wire has a gap when it is blown."""
    y = 0.4
    shapes: list[Shape] = [
        Rect((0.12, y - 0.17), (0.76, 0.34), "edge"),
    ]
    if look.states.get("blown"):
        shapes += [Line((0.12, y), (0.36, y - 0.08), "stroke"), Line((0.64, y + 0.08), (0.88, y), "stroke")]
    else:
        shapes.append(Line((0.12, y), (0.88, y), "stroke"))
    return Symbol((1.0, 0.8), through(0.12, 0.88, y), tuple(shapes))


def load(look: Look) -> Symbol:
    """A box with a winding; strokes above it while it works."""
    shapes: list[Shape] = [
        Rect((0.12, 0.34), (0.8, 0.52), "edge"),
        Line((0.12, 0.86), (0.92, 0.34), "stroke"),
        Line((0.12, 0.34), (0.92, 0.86), "stroke"),
    ]
    if look.states.get("working"):
        shapes += [Line((x, 0.24), (x, 0.08), "stroke") for x in (0.32, 0.52, 0.72)]
    return Symbol((1.0, 1.0), (Anchor("feed", (0.12, 0.6), "west"),), tuple(shapes))
