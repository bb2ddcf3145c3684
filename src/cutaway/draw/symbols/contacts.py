"""Symbols of what makes and breaks a circuit: buttons, breakers, relays, switches that something moves."""

from cutaway.draw.shapes import Circle, Line, Path, Point, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import (
    LOCKS,
    arrow,
    coil,
    contact,
    letters,
    padlock,
    round_at,
    spring,
    struck,
    through,
)
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Draw, Look, Symbol, position


def push_button(look: Look) -> Symbol:
    """A plunger with a bridge that lies on both contacts while it is pressed."""
    where = position(look)
    y = 0.62
    shapes: list[Shape] = [Circle((x, y), 0.055, "solid" if where == "pressed" else "edge") for x in (0.2, 0.8)]
    if where:
        bridge = y if where == "pressed" else y - 0.2
        shapes += [
            Line((0.14, bridge), (0.86, bridge), "heavy"),
            Line((0.5, bridge), (0.5, bridge - 0.32), "stroke"),
            Line((0.34, bridge - 0.34), (0.66, bridge - 0.34), "heavy"),
        ]
    return Symbol((1.0, 0.8), through(0.2, 0.8, y), tuple(shapes))


def interlocked_switch(look: Look) -> Symbol:
    """A blade with a toggle of its own, and a dashed rod by which another switch can close it."""
    where = position(look)
    made = look.over if look.over is not None else (where == "on" if where else None)
    blade = contact((0.2, 0.8), (0.8, 0.8), made)
    rod = (0.62, 0.8 if made else 0.6)
    shapes: list[Shape] = [*blade, Line((0.62, 0.2), rod, "dashed"), Rect((0.53, 0.06), (0.18, 0.18), "ring")]
    shapes.append(Circle((0.24, 0.3), 0.05, "solid"))
    if where:
        tip = round_at((0.24, 0.3), 0.26, 45 if where == "on" else 135)
        shapes += [Line((0.24, 0.3), tip, "heavy"), Circle(tip, 0.05, "solid")]
    return Symbol((1.0, 1.0), through(0.2, 0.8, 0.8), tuple(shapes), top=0.06)


def ground_flight_switch(look: Look) -> Symbol:
    """A blade from the bus to one of two contacts: F, the battery, or G, the supply from outside."""
    where = position(look)
    hinge, flight, ground = (0.94, 0.4), (0.2, 0.4), (0.5, 0.9)
    shapes: list[Shape] = [
        Circle(hinge, 0.06, "solid"),
        Circle(flight, 0.06, "solid" if where == "flight" else "edge"),
        Circle(ground, 0.06, "solid" if where == "ground" else "edge"),
        letters("F", (0.24, 0.16), 0.23),
        letters("G", (0.24, 0.88), 0.23),
    ]
    if where:
        shapes.append(Line(hinge, flight if where == "flight" else ground, "heavy"))
    ports = (Anchor("battery", flight, "west"), Anchor("external", ground, "south"), Anchor("bus", hinge, "east"))
    return Symbol((1.1, 1.0), ports, tuple(shapes))


def circuit_breaker(look: Look) -> Symbol:
    """A blade with the strip that warms, and a button that stands out of its panel when it is out or has tripped."""
    where, tripped = position(look), look.states.get("tripped")
    made = False if tripped or where == "out" else (where == "in" or None)
    shapes: list[Shape] = [
        *contact((0.42, 0.72), (0.88, 0.72), made),
        Polyline(((0.12, 0.72), (0.18, 0.72), (0.18, 0.56), (0.34, 0.56), (0.34, 0.72), (0.42, 0.72)), "stroke"),
        Line((0.3, 0.32), (0.74, 0.32), "stroke"),
    ]
    if where:
        out = bool(tripped) or where == "out"
        shapes.append(Rect((0.42, 0.02 if out else 0.2), (0.2, 0.3 if out else 0.12), "solid" if not out else "edge"))
    if tripped:
        shapes += struck((0.88, 0.72), 0.13)
    return Symbol((1.0, 0.9), through(0.12, 0.88, 0.72), tuple(shapes))


def relay(look: Look) -> Symbol:
    """A coil below, a contact above, and the rod between them."""
    made = look.states.get("made")
    rod = {True: 0.3, False: 0.13, None: 0.22}[made]
    shapes: tuple[Shape, ...] = (
        *contact((0.16, 0.3), (1.04, 0.3), made, 22.0),
        Line((0.6, rod), (0.6, 0.66), "dashed"),
        *coil((0.36, 0.66), (0.48, 0.32)),
    )
    return Symbol((1.2, 1.0), (*through(0.16, 1.04, 0.3), Anchor("feed", (0.6, 0.98), "south")), shapes)


def solenoid(look: Look) -> Symbol:
    """A coil with a plunger: drawn in while it is pulled, pushed out by its spring when it is released."""
    pulled = look.states.get("pulled")
    head = {True: 0.84, False: 1.2, None: 1.02}[pulled]
    y = 0.45
    shapes: list[Shape] = [
        *coil((0.1, 0.2), (0.56, 0.5)),
        spring((0.66, y), (head, y), 3, 0.34),
        Line((0.66, y), (head, y), "dashed" if pulled is None else "stroke"),
        Line((head, y - 0.24), (head, y + 0.24), "heavy"),
    ]
    ports = (Anchor("feed", (0.1, y), "west"), Anchor(LINK_OUT, (1.3, y), "east"))
    return Symbol((1.3, 0.9), ports, tuple(shapes))


def dimmer(look: Look) -> Symbol:
    """A resistor with a blade across it: closed for bright, open for dim."""
    where = position(look)
    made = where == "bright" if where else None
    left, right = (0.24, 0.5), (0.96, 0.5)
    shapes: list[Shape] = [
        Line((0.1, 0.5), left, "stroke"),
        Line(right, (1.1, 0.5), "stroke"),
        Polyline((left, (0.24, 0.3), (0.36, 0.3)), "stroke"),
        Polyline(((0.84, 0.3), (0.96, 0.3), right), "stroke"),
        Polyline((left, (0.24, 0.76), (0.38, 0.76)), "stroke"),
        Polyline(((0.82, 0.76), (0.96, 0.76), right), "stroke"),
        Rect((0.38, 0.66), (0.44, 0.2), "edge"),
        *contact((0.36, 0.3), (0.84, 0.3), made),
        Circle(left, 0.05, "joint"),
        Circle(right, 0.05, "joint"),
    ]
    return Symbol((1.2, 0.95), through(0.1, 1.1, 0.5), tuple(shapes))


def generator_cut_out(look: Look) -> Symbol:
    """A contact that the current itself holds by the winding before it."""
    closed = look.states.get("closed")
    y = 0.5
    turns = Path(
        (("M", (0.1, y)), *(("A", (0.07, 0.1, 0.0, 0.0, 1.0, 0.1 + 0.14 * i, y)) for i in (1, 2, 3))), "stroke"
    )
    shapes: tuple[Shape, ...] = (
        turns,
        *contact((0.56, y), (1.1, y), closed),
        Line((0.31, 0.34), (0.31, 0.14), "dashed"),
        Line((0.31, 0.14), (0.76, 0.14), "dashed"),
        Line((0.76, 0.14), (0.76, y if closed else 0.38), "dashed"),
    )
    ports = (Anchor("generator", (0.1, y), "west"), Anchor("bus", (1.1, y), "east"))
    return Symbol((1.2, 0.8), ports, shapes)


def thermostat(look: Look) -> Symbol:
    """A contact with the bulb that works it."""
    made = look.states.get("made")
    shapes: tuple[Shape, ...] = (
        *contact((0.2, 0.34), (0.8, 0.34), made),
        Line((0.5, 0.34 if made else 0.2), (0.5, 0.56), "dashed"),
        Rect((0.45, 0.54), (0.1, 0.3), "edge", 0.05),
        Circle((0.5, 0.9), 0.11, "solid"),
    )
    return Symbol((1.0, 1.05), through(0.2, 0.8, 0.34), shapes)


WHICH_LOCK = "An arrow beside one: the lock that holds it down, or up."


def lock_switch(up: bool) -> Draw:
    """A two-way contact on a lock: the blade lies on the contact with the padlock while the leg is locked."""

    def draw(look: Look) -> Symbol:
        hinge: Point = (0.2, 0.55)
        locked, unlocked = (0.8, 0.3), (0.8, 0.8)
        over = look.over
        tips = {True: locked, False: unlocked, None: (0.8, 0.55)}
        shapes: list[Shape] = [
            Circle(hinge, 0.06, "solid"),
            Circle(locked, 0.06, "solid" if over else "edge"),
            Circle(unlocked, 0.06, "solid" if over is False else "edge"),
            Line(hinge, tips[over], "dashed" if over is None else "heavy"),
            *padlock((0.52, 0.16), True),
            *padlock((0.5, 0.96), False),
            *arrow(*(((0.2, 0.34), (0.2, 0.08)) if up else ((0.2, 0.08), (0.2, 0.34))), head=0.15),
        ]
        ports = (Anchor("inlet", hinge, "west"), Anchor("locked", locked, "east"), Anchor("unlocked", unlocked, "east"))
        return Symbol((1.0, 1.1), ports, tuple(shapes), signs=(LOCKS, WHICH_LOCK))

    return draw


def microswitch(look: Look) -> Symbol:
    """A contact with the roller that something runs against; where it is pressed down, what presses it reaches down."""
    made = look.states.get("made")
    y, top = 0.7, 0.05
    foot = (0.56, {True: y, False: y - 0.18, None: y - 0.09}[made])
    roller = (0.56, foot[1] - 0.36)
    shapes: tuple[Shape, ...] = (
        *contact((0.2, y), (0.8, y), made),
        Line(foot, roller, "stroke"),
        Circle(roller, 0.11, "edge"),
        Circle(roller, 0.03, "solid"),
        *((Line((0.56, top), (0.56, roller[1] - 0.12), "link"),) if made else ()),
    )
    ports = (*through(0.2, 0.8, y), Anchor(LINK_IN, (0.56, top), "north"))
    return Symbol((1.0, 0.85), ports, shapes)
