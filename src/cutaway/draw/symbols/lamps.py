"""Symbols of lamps at the end of their own circuit: their light as rays, the longer the brighter."""

from cutaway.draw.shapes import Circle, Line, Path, Point, Shape
from cutaway.draw.symbols.strokes import rays
from cutaway.draw.symbols.symbol import Anchor, Look, Symbol

CENTRE = (0.5, 0.5)


def filament_lamp(look: Look) -> Symbol:
    """A glass with a filament; rays when it is lit."""
    lit = look.states.get("lit")
    shapes = (*_glass(lit, 0.3), *_filament((0.5, 0.5), 0.3, lit), *_light(look))
    return Symbol((1.0, 1.0), (Anchor("feed", (0.2, 0.5), "west"),), shapes, top=0.2)


def twin_filament_lamp(look: Look) -> Symbol:
    """A glass with two filaments, one above the other, each with its own feed; rays when it is lit."""
    lit = look.states.get("lit")
    shapes = (*_glass(lit, 0.3), *_filament((0.5, 0.4), 0.28, lit), *_filament((0.5, 0.6), 0.28, lit), *_light(look))
    ports = (Anchor("first", (0.22, 0.4), "west"), Anchor("second", (0.22, 0.6), "west"))
    return Symbol((1.0, 1.0), ports, shapes, top=0.2)


def _glass(lit: bool | None, radius: float) -> tuple[Shape, ...]:
    return (Circle(CENTRE, radius, "glass lit" if lit else "glass out"),)


def _filament(centre: Point, reach: float, lit: bool | None) -> tuple[Shape, ...]:
    """A wire across the glass with a loop in its middle."""
    x, y = centre
    role = "wire lit" if lit else "stroke"
    loop = Path((("M", (x - 0.07, y)), ("A", (0.07, 0.1, 0.0, 0.0, 1.0, x + 0.07, y))), role)
    return Line((x - reach, y), (x - 0.07, y), role), loop, Line((x + 0.07, y), (x + reach, y), role)


def _light(look: Look) -> tuple[Shape, ...]:
    """Rays, but none to the west, where the feed comes from."""
    if not look.states.get("lit"):
        return ()
    bright = min(1.0, max(0.0, look.readings.get("brightness", 1.0)))
    return tuple(ray for ray in rays(CENTRE, 0.36, 0.42 + 0.08 * bright) if ray.end[0] > 0.12)
