"""Symbols of what gives and takes current: dynamos, motors, inverters, sockets, horns, transmitters."""

from cutaway.draw.shapes import Circle, Line, Point, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import arc, arrow, fan, letters, round_at, struck, triangle, wave
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Look, Symbol, position


def spinning(centre: Point, radius: float) -> tuple[Shape, ...]:
    """An arc with a head over the top of something that runs."""
    tip = round_at(centre, radius, 40)
    return arc(centre, radius, 48, 140, "stroke"), triangle(tip, -44, 0.16, 0.16)


def dynamo(look: Look) -> Symbol:
    """A ring with G between its brushes, and a plus at the output when it charges."""
    shapes: list[Shape] = [
        Rect((0.4, 0.0), (0.2, 0.12), "solid"),
        Rect((0.4, 0.88), (0.2, 0.12), "solid"),
        Circle((0.5, 0.5), 0.42, "edge"),
        letters("G", (0.5, 0.46), 0.4, "strong"),
        Line((0.38, 0.74), (0.62, 0.74), "thin"),
    ]
    if look.states.get("charging"):
        shapes.append(letters("+", (1.02, 0.28), 0.3, "strong"))
    ports = (Anchor("output", (0.92, 0.5), "east"), Anchor(LINK_IN, (0.08, 0.5), "west"))
    return Symbol((1.1, 1.0), ports, tuple(shapes))


def voltage_regulator(look: Look) -> Symbol:
    """A box with V and the arrow of something that is set."""
    shapes = (
        Rect((0.1, 0.12), (0.8, 0.66), "edge"),
        letters("V", (0.5, 0.45), 0.38, "strong"),
        *arrow((0.06, 0.9), (0.96, 0.02), "thin", 0.14),
    )
    return Symbol((1.0, 0.95), (Anchor(LINK_IN, (0.1, 0.45), "west"), Anchor(LINK_OUT, (0.9, 0.45), "east")), shapes)


def external_supply_socket(look: Look) -> Symbol:
    """A round socket with three pins; the plug is in it while it is connected, and sparks mark that it is alive."""
    where, alive = position(look), look.states.get("alive")
    centre = (0.86, 0.5)
    pins = tuple(
        Circle((centre[0] + x, centre[1] + y), r, "solid" if alive else "edge")
        for x, y, r in ((-0.02, -0.17, 0.07), (-0.02, 0.17, 0.07), (0.18, 0.0, 0.05))
    )
    shapes: list[Shape] = [Circle(centre, 0.36, "edge"), *pins]
    if where == "connected":
        shapes += [Rect((0.26, 0.26), (0.24, 0.48), "solid", 0.05), Line((0.0, 0.5), (0.28, 0.5), "heavy")]
    elif where:
        shapes += [Rect((0.08, 0.26), (0.16, 0.48), "edge", 0.05), Line((0.0, 0.5), (0.08, 0.5), "heavy")]
    if alive:
        shapes += [Line((1.1, 0.12), (1.2, 0.02), "thin"), Line((1.17, 0.22), (1.28, 0.14), "thin")]
    return Symbol((1.3, 1.0), (Anchor("outlet", (1.22, 0.5), "east"),), tuple(shapes))


def electric_motor(look: Look) -> Symbol:
    """A ring with M; an arrow over it while it runs."""
    centre = (0.5, 0.58)
    shapes: list[Shape] = [Circle(centre, 0.38, "edge"), letters("M", centre, 0.36, "strong")]
    if look.states.get("running"):
        shapes += spinning(centre, 0.5)
    ports = (Anchor("feed", (0.12, 0.58), "west"), Anchor(LINK_OUT, (0.88, 0.58), "east"))
    return Symbol((1.0, 1.0), ports, tuple(shapes))


def inverter(look: Look) -> Symbol:
    """A box in two halves: a steady current comes in, one that goes to and fro comes out."""
    shapes: list[Shape] = [
        Rect((0.1, 0.32), (1.0, 0.66), "edge"),
        Line((0.1, 0.98), (1.1, 0.32), "stroke"),
        Line((0.2, 0.46), (0.44, 0.46), "stroke"),
        Line((0.2, 0.56), (0.44, 0.56), "dashed"),
        wave((0.72, 0.8), 0.28, 0.08, "stroke"),
    ]
    if look.states.get("running"):
        shapes += spinning((0.6, 0.62), 0.5)
    ports = (Anchor("feed", (0.1, 0.65), "west"), Anchor("outlet", (1.1, 0.65), "east"))
    return Symbol((1.2, 1.05), ports, tuple(shapes), top=0.32)


def electric_starter(look: Look) -> Symbol:
    """A motor with a pinion, which is in the teeth of the engine's ring while it is engaged."""
    engaged = look.states.get("engaged")
    pinion = 1.16 if engaged else 0.98
    teeth = [(1.36, 0.2)]
    for i in range(5):
        teeth += [(1.26, 0.24 + 0.12 * i), (1.36, 0.3 + 0.12 * i)]
    shapes: list[Shape] = [
        Circle((0.48, 0.5), 0.38, "edge"),
        letters("M", (0.48, 0.5), 0.36, "strong"),
        Line((0.86, 0.5), (pinion, 0.5), "heavy"),
        Rect((pinion - 0.02, 0.34), (0.12, 0.32), "solid" if engaged else "edge", 0.02),
        Polyline((*teeth, (1.46, 0.84), (1.46, 0.2)), "edge", closed=True),
    ]
    if engaged:
        shapes += spinning((0.48, 0.52), 0.5)
    ports = (Anchor("feed", (0.1, 0.5), "west"), Anchor(LINK_OUT, (1.46, 0.5), "east"))
    return Symbol((1.5, 1.0), ports, tuple(shapes))


def horn(look: Look) -> Symbol:
    """A trumpet; bows before its mouth while it sounds."""
    bell = Polyline(
        ((0.12, 0.4), (0.36, 0.4), (0.76, 0.16), (0.76, 0.84), (0.36, 0.6), (0.12, 0.6)), "edge", closed=True
    )
    shapes: list[Shape] = [bell]
    if look.states.get("sounding"):
        shapes += [arc((0.66, 0.5), r, -40, 40, "stroke") for r in (0.26, 0.38, 0.5)]
    return Symbol((1.2, 1.0), (Anchor("feed", (0.12, 0.5), "west"),), tuple(shapes), top=0.4)


def transmitter(look: Look) -> Symbol:
    """A winding in a bow with a wiper on it, as far round as what it follows has moved."""
    pivot = (0.5, 0.72)
    shapes: list[Shape] = [Rect((0.08, 0.12), (0.84, 0.72), "edge", 0.06), arc(pivot, 0.42, 30, 150, "heavy")]
    if look.moved is not None:
        tip = round_at(pivot, 0.44, 150 - 120 * min(1.0, max(0.0, look.moved)))
        shapes += [Line(pivot, tip, "stroke"), Circle(pivot, 0.06, "solid")]
    if look.states.get("working") is False:
        shapes += struck((0.5, 0.48), 0.36)
    ports = (Anchor("feed", (0.08, 0.48), "west"), Anchor(LINK_OUT, (0.92, 0.48), "east"))
    return Symbol((1.0, 0.9), ports, tuple(shapes), top=0.12)


def fire_bottle(look: Look) -> Symbol:
    """A bottle with a cartridge at its neck: full while it is charged, a blast from its nozzle once it is fired."""
    fired = look.states.get("fired")
    shapes: list[Shape] = [
        Rect((0.3, 0.42), (0.6, 0.72), "edge", 0.2),
        Rect((0.46, 0.18), (0.28, 0.24), "edge"),
        Line((0.74, 0.3), (0.94, 0.3), "heavy"),
    ]
    if fired is False:
        shapes.append(Rect((0.38, 0.5), (0.44, 0.56), "solid", 0.14))
    if fired:
        shapes += [*fan((0.86, 0.3), 0, 0.16, 0.44), *struck((0.6, 0.3), 0.15)]
    return Symbol((1.3, 1.2), (Anchor("feed", (0.46, 0.3), "west"),), tuple(shapes), top=0.18)
