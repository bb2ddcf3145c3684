"""Symbols of the air system: compressor, bottles, valves for air."""

from cutaway.draw.shapes import Circle, Line, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import (
    LET_OUT,
    arrow,
    ball_valve,
    blocked,
    capsule,
    coil,
    exhaust,
    fan,
    letters,
    share,
    small_dial,
    spring,
    through,
    triangle,
)
from cutaway.draw.symbols.symbol import LINK_IN, Anchor, Draw, Look, Symbol, position

BOTTLE_SCALE = 600 * 6894.76
"""End of the little dial on a bottle, Pa: a choice of ours, a third above what such bottles are charged to."""


def compressor(look: Look) -> Symbol:
    """A ring with an open triangle, for air, towards the delivery; it breathes in from below."""
    shapes = (
        Circle((0.5, 0.5), 0.46, "edge"),
        triangle((0.96, 0.5), 0, 0.42, 0.48, "edge"),
        Line((0.24, 0.3), (0.24, 0.7), "heavy"),
        Line((0.24, 0.5), (0.54, 0.5), "stroke"),
        triangle((0.5, 0.97), 90, 0.16, 0.22, "edge"),
    )
    return Symbol((1.0, 1.14), (Anchor("outlet", (0.96, 0.5), "east"), Anchor(LINK_IN, (0.04, 0.5), "west")), shapes)


def unloader(pump: str, air: bool) -> Draw:
    """A valve that lets the pump's delivery go, and a ball that keeps what the system has.

    Charging, an arrow leads on to the system and the way out is barred; idling, the arrow leads out.
    """

    def draw(look: Look) -> Symbol:
        idling = look.states.get("idling")
        y, x = 0.34, 0.5
        shapes: list[Shape] = [
            Rect((0.1, 0.06), (1.4, 1.06), "edge"),
            Line((0.1, y), (0.94, y), "stroke"),
            *ball_valve(0.94, y, 0.2, idling is False),
            Line((1.22, y), (1.5, y), "stroke"),
            Rect((x - 0.17, 0.54), (0.34, 0.36), "edge"),
            spring((x + 0.17, 0.82), (x + 0.42, 0.82), 2, 0.12),
            Polyline(((1.36, y), (1.36, 0.64), (x + 0.17, 0.64)), "dashed"),
            Circle((x, y), 0.05, "joint"),
        ]
        if idling:
            shapes += arrow((x, y), (x, 1.12), head=0.16)
        elif idling is False:
            shapes += [*blocked((x, y), 270, 0.34), *arrow((0.56, y), (0.88, y), head=0.16)]
            shapes += [Line((x, 0.9), (x, 1.12), "stroke")]
        if air:
            shapes.append(exhaust((x, 1.12)))
        ports = [Anchor(pump, (0.1, y), "west"), Anchor("system", (1.5, y), "east")]
        if not air:
            ports.append(Anchor("return", (x, 1.12), "south"))
        return Symbol((1.6, 1.28 if air else 1.14), tuple(ports), tuple(shapes), signs=(LET_OUT,) if air else ())

    return draw


def water_trap(look: Look) -> Symbol:
    """A diamond with what it has caught at the bottom, and its drain."""
    shapes = (
        Polyline(((0.0, 0.5), (0.5, 0.0), (1.0, 0.5), (0.5, 1.0)), "edge", closed=True),
        Line((0.24, 0.74), (0.76, 0.74), "stroke"),
        Line((0.5, 1.0), (0.5, 1.12), "stroke"),
        Line((0.4, 1.12), (0.6, 1.12), "stroke"),
    )
    return Symbol((1.0, 1.15), through(0.0, 1.0), shapes)


def air_bottle(look: Look) -> Symbol:
    """A closed vessel with a little dial."""
    part = share(look.readings.get("pressure"), 0.0, BOTTLE_SCALE)
    shapes = (capsule((0.08, 0.1), (1.24, 0.7)), *small_dial((0.7, 0.45), 0.25, part))
    return Symbol((1.4, 0.9), (Anchor("any", (0.08, 0.45), "west"),), shapes)


def charging_connection(look: Look) -> Symbol:
    """Half a coupling with a ball behind it; the other half is on it while it is connected, else a cap."""
    where, y = position(look), 0.45
    shapes: list[Shape] = [
        Polyline(((0.46, 0.2), (0.6, 0.2), (0.6, 0.7), (0.46, 0.7)), "stroke"),
        Line((0.6, y), (0.74, y), "stroke"),
        *ball_valve(0.74, y, 0.28, where == "connected"),
        Line((1.12, y), (1.24, y), "stroke"),
    ]
    if where == "connected":
        shapes += [Rect((0.2, 0.26), (0.38, 0.38), "solid", 0.04), Line((0.0, y), (0.24, y), "heavy")]
    elif where:
        shapes.append(Line((0.38, 0.2), (0.38, 0.7), "heavy"))
    return Symbol((1.3, 0.9), (Anchor("outlet", (1.24, y), "east"),), tuple(shapes))


def maintaining_valve(look: Look) -> Symbol:
    """A square with an arrow that the pressure before it (dashed) brings into line against a spring."""
    return _pressure_valve(look.states.get("open"), 0.06)


def reducing_valve(look: Look) -> Symbol:
    """A square with an arrow in line, which the pressure behind it (dashed) pushes out of line."""
    return _pressure_valve(True, 0.94)


def _pressure_valve(in_line: bool | None, pilot: float) -> Symbol:
    y = 0.62
    level = {True: y, False: 0.8, None: 0.71}[in_line]
    shapes: tuple[Shape, ...] = (
        Line((0.06, y), (0.2, y), "stroke"),
        Line((0.8, y), (0.94, y), "stroke"),
        Rect((0.2, 0.34), (0.6, 0.58), "edge"),
        spring((0.5, 0.34), (0.5, 0.04)),
        Line((0.38, 0.04), (0.62, 0.04), "thin"),
        *arrow((0.25, level), (0.77, level), head=0.16),
        Polyline(((pilot, y), (pilot, 1.08), (0.5, 1.08), (0.5, 0.92)), "dashed"),
    )
    return Symbol((1.0, 1.1), through(0.06, 0.94, y), shapes)


def air_selector(look: Look) -> Symbol:
    """A square with the ways that are open: supply to one side, the other side, or both, out to the air."""
    where = position(look)
    supply, down, up, out = (0.2, 0.6), (1.1, 0.35), (1.1, 0.85), (0.65, 1.1)
    shapes: list[Shape] = [Rect((0.2, 0.1), (0.9, 1.0), "edge"), exhaust(out)]
    if where in ("down", "up"):
        fed, freed = (down, up) if where == "down" else (up, down)
        shapes += [*arrow(supply, (fed[0] - 0.03, fed[1]), head=0.16), *arrow(freed, (0.65, 1.08), head=0.16)]
    elif where:
        shapes += [*blocked(supply, 0, 0.16), *arrow(down, (0.65, 1.08), head=0.16), Line(up, (0.65, 1.08), "stroke")]
    shapes += [letters("D", (1.2, 0.24), 0.23), letters("U", (1.2, 0.74), 0.23), letters("P", (0.1, 0.48), 0.23)]
    ports = (Anchor("supply", supply, "west"), Anchor("down", down, "east"), Anchor("up", up, "east"))
    return Symbol((1.3, 1.28), ports, tuple(shapes), signs=(LET_OUT,))


def air_service(look: Look) -> Symbol:
    """A nozzle; a jet from it while it works."""
    shapes: list[Shape] = [
        Rect((0.1, 0.24), (0.42, 0.52), "edge"),
        Polyline(((0.52, 0.34), (0.74, 0.44), (0.74, 0.56), (0.52, 0.66)), "edge", closed=True),
    ]
    if look.states.get("working"):
        shapes += fan((0.7, 0.5), 0, 0.12, 0.46)
    return Symbol((1.2, 1.0), (Anchor("inlet", (0.1, 0.5), "west"),), tuple(shapes), top=0.24)


def solenoid_valve(look: Look) -> Symbol:
    """A square above a coil: energised, air goes through; at rest the supply is barred and the outlet breathes out."""
    on = look.states.get("energised")
    supply, outlet = (0.26, 0.56), (0.94, 0.56)
    shapes: list[Shape] = [
        Rect((0.26, 0.22), (0.68, 0.56), "edge"),
        exhaust((0.6, 0.22), 90),
        Line((0.6, 0.78), (0.6, 0.9), "stroke"),
        *coil((0.38, 0.9), (0.44, 0.3)),
    ]
    if on:
        shapes += arrow(supply, (0.9, 0.56), head=0.17)
    elif on is False:
        shapes += [*blocked(supply, 0, 0.16), *arrow(outlet, (0.6, 0.26), head=0.16)]
    ports = (Anchor("supply", supply, "west"), Anchor("outlet", outlet, "east"), Anchor("feed", (0.6, 1.2), "south"))
    return Symbol((1.2, 1.22), ports, tuple(shapes), signs=(LET_OUT,))
