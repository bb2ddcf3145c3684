"""Symbols of the valves between the oil supply and the jacks."""

from cutaway.draw.shapes import Circle, Line, Polyline, Rect, Shape
from cutaway.draw.symbols.oil import selector_body
from cutaway.draw.symbols.strokes import LOCKS, arc, arrow, ball_valve, letters, padlock, round_at, throat, through
from cutaway.draw.symbols.symbol import LINK_IN, Anchor, Look, Symbol, position


def two_position_selector(look: Look) -> Symbol:
    """The square of a selector valve under a lever with two notches and nothing between them."""
    where = position(look)
    symbol = selector_body(where, 0.3)
    pivot = (0.65, 0.4)
    shapes: list[Shape] = [arc(pivot, 0.36, 50, 130, "thin")]
    shapes += [Line(round_at(pivot, 0.31, a), round_at(pivot, 0.41, a), "thin") for a in (50, 130)]
    if where:
        knob = round_at(pivot, 0.32, 130 if where == "up" else 50)
        shapes += [Line(pivot, knob, "heavy"), Circle(knob, 0.06, "solid")]
    return Symbol(symbol.size, symbol.anchors, (*shapes, *symbol.shapes))


def sequence_valve(look: Look) -> Symbol:
    """A square with an arrow that a roller brings into line, a plate across the way while it is shut; a ball beside it
    lets oil come back."""
    passing = look.states.get("open")
    y = 0.62
    way = (
        (Rect((0.43, 0.44), (0.14, 0.4), "solid"),)
        if passing is False
        else arrow((0.25, y if passing else 0.71), (0.77, y if passing else 0.71), head=0.16)
    )
    sunk = 0.1 if passing else 0.0
    shapes: tuple[Shape, ...] = (
        Line((0.04, y), (0.2, y), "stroke"),
        Line((0.8, y), (0.96, y), "stroke"),
        Rect((0.2, 0.36), (0.6, 0.56), "edge"),
        *way,
        Line((0.5, 0.36), (0.5, 0.2 + sunk), "stroke"),
        Circle((0.5, 0.1 + sunk), 0.1, "edge"),
        Polyline(((0.1, y), (0.1, 1.12), (0.36, 1.12)), "stroke"),
        Polyline(((0.66, 1.12), (0.9, 1.12), (0.9, y)), "stroke"),
        Polyline(((0.44, 0.98), (0.64, 1.12), (0.44, 1.26)), "stroke"),
        Circle((0.48, 1.12), 0.1, "edge"),
        Circle((0.1, y), 0.045, "joint"),
        Circle((0.9, y), 0.045, "joint"),
    )
    ports = (*through(0.04, 0.96, y), Anchor(LINK_IN, (0.5, 0.0), "north"))
    return Symbol((1.0, 1.28), ports, shapes)


def restrictor(look: Look) -> Symbol:
    """A narrow hole, the same both ways."""
    return Symbol((1.0, 0.7), through(0.1, 0.9, 0.35), (Line((0.1, 0.35), (0.9, 0.35), "stroke"), *throat((0.5, 0.35))))


def one_way_restrictor(look: Look) -> Symbol:
    """A narrow hole, and beside it a ball that lets oil pass to the east."""
    y = 0.4
    shapes = (
        Line((0.06, y), (1.14, y), "stroke"),
        *throat((0.6, y)),
        Polyline(((0.2, y), (0.2, 0.92), (0.46, 0.92)), "stroke"),
        *ball_valve(0.46, 0.92, 0.2),
        Polyline(((0.72, 0.92), (1.0, 0.92), (1.0, y)), "stroke"),
        Circle((0.2, y), 0.045, "joint"),
        Circle((1.0, y), 0.045, "joint"),
    )
    return Symbol((1.2, 1.12), through(0.06, 1.14, y), shapes)


def hydraulic_lock(look: Look) -> Symbol:
    """A ball towards the jack in a case, with the pilot pipe (dashed) that lifts it; a padlock tells which it is."""
    is_open, locked = look.states.get("open"), look.states.get("open") is False
    y = 0.42
    shapes: list[Shape] = [
        Rect((0.1, 0.06), (1.1, 0.74), "edge"),
        Line((0.1, y), (0.34, y), "stroke"),
        *ball_valve(0.34, y, 0.3, bool(is_open)),
        Line((0.74 if not is_open else 0.88, y), (1.2, y), "stroke"),
        Polyline(((0.65, 1.06), (0.65, 0.92), (0.22, 0.92), (0.22, y + 0.04)), "dashed"),
    ]
    if is_open is not None:
        shapes += padlock((0.98, 0.22), locked)
    ports = (
        Anchor("supply", (0.1, y), "west"),
        Anchor("jack", (1.2, y), "east"),
        Anchor("pilot", (0.65, 1.06), "south"),
    )
    return Symbol((1.3, 1.08), ports, tuple(shapes), signs=(LOCKS,))


def shuttle_valve(look: Look) -> Symbol:
    """A ball that shuts whichever of the two ways in has less pressure: N, the normal one, or E, the emergency one."""
    over = look.states.get("over")
    ball = {True: (0.32, 0.45), False: (0.65, 0.72), None: (0.56, 0.5)}[over]
    shapes: list[Shape] = [
        Rect((0.1, 0.14), (1.1, 0.7), "edge"),
        Polyline(((0.36, 0.26), (0.22, 0.45), (0.36, 0.64)), "stroke"),
        Polyline(((0.46, 0.68), (0.65, 0.82), (0.84, 0.68)), "stroke"),
        Circle(ball, 0.12, "ring" if over is None else "solid"),
        letters("N", (0.24, 0.24), 0.23),
        letters("E", (0.96, 0.74), 0.23),
    ]
    if over is True:
        shapes += arrow((0.65, 0.74), (1.14, 0.45), "thin", 0.14)
    elif over is False:
        shapes += arrow((0.24, 0.45), (1.14, 0.45), "thin", 0.14)
    ports = (
        Anchor("normal", (0.1, 0.45), "west"),
        Anchor("emergency", (0.65, 0.84), "south"),
        Anchor("outlet", (1.2, 0.45), "east"),
    )
    return Symbol((1.3, 0.9), ports, tuple(shapes))
