"""Symbols of what gives and keeps oil under pressure: the accumulator, the emergency bottle."""

from cutaway.draw.shapes import Line, Rect, Shape
from cutaway.draw.symbols.strokes import bow_tie, capsule, share, small_dial, triangle
from cutaway.draw.symbols.symbol import Anchor, Look, Symbol, position

ATMOSPHERE = 101325.0


def accumulator(look: Look) -> Symbol:
    """A closed vessel: air above (open triangle), oil below the floating piston, as much as the air's pressure says."""
    oil = _oil_in(look)
    floor, lid = 1.04, 0.34
    shapes: list[Shape] = [capsule((0.16, 0.0), (0.72, 1.14))]
    if oil is not None:
        y = floor - (floor - lid) * oil
        if oil > 0.02:
            shapes.append(Rect((0.22, y), (0.6, floor + 0.02 - y), "fluid oil", 0.16))
        shapes.append(Line((0.18, y), (0.86, y), "heavy"))
    shapes.append(triangle((0.52, 0.28), 270, 0.16, 0.2, "edge"))
    return Symbol((1.04, 1.16), (Anchor("oil", (0.52, 1.14), "south"),), tuple(shapes))


def _oil_in(look: Look) -> float | None:
    """How much of the vessel is oil: air as warm as it was takes up less room in proportion to its pressure."""
    pressure, at_first = look.readings.get("pressure"), look.wants.get("air pressure")
    if pressure is not None and at_first is not None:
        return min(1.0, max(0.0, 1.0 - (at_first + ATMOSPHERE) / max(1.0, pressure + ATMOSPHERE)))
    charged = look.states.get("charged")
    return None if charged is None else 0.5 * charged


def emergency_bottle(look: Look) -> Symbol:
    """A bottle of air with a little dial and a sealed valve; an arrow beyond the valve once it has been used."""
    where = position(look)
    full = look.wants.get("pressure")
    part = share(look.readings.get("pressure"), 0.0, None if full is None else 1.25 * full)
    y = 0.5
    shapes: list[Shape] = [capsule((0.02, 0.16), (0.86, 0.68)), *small_dial((0.44, y), 0.24, part)]
    shapes += [Line((0.88, y), (0.98, y), "stroke")]
    shapes += bow_tie(0.98, 1.38, y, 0.36, "solid" if where == "closed" else "edge")
    if where == "closed":
        shapes.append(Line((1.18, y), (1.18, 0.1), "heavy"))
    elif where:
        shapes += [Line((1.18, y), (1.18, 0.26), "stroke"), Line((0.98, 0.26), (1.38, 0.26), "heavy")]
    if look.states.get("used"):
        shapes.append(triangle((1.62, y), 0, 0.18, 0.2, "edge"))
    shapes.append(Line((1.38, y), (1.64, y), "stroke"))
    return Symbol((1.66, 0.95), (Anchor("outlet", (1.64, y), "east"),), tuple(shapes))
