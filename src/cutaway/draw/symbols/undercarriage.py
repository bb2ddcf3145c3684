"""Symbols of what the hydraulics lower and open: legs, doors, bolts, mechanical indicators."""

from cutaway.draw.shapes import Circle, Line, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import LOCKS, padlock, round_at, struck
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Look, Symbol, position


def leg(look: Look) -> Symbol:
    """A leg with its wheel, swung as far down as it is; a padlock by it, shut when a lock holds it."""
    down, up, free = (look.states.get(f) for f in ("locked down", "locked up", "unlocked"))
    gone = look.readings.get("position")
    if gone is None and (down or up):
        gone = 1.0 if down else 0.0
    pivot = (1.06, 0.24)
    shapes: list[Shape] = [Line((0.1, 0.1), (1.3, 0.1), "heavy"), Circle(pivot, 0.07, "solid")]
    if gone is not None:
        angle = 180 + 90 * min(1.0, max(0.0, gone))
        wheel = round_at(pivot, 0.72, angle)
        shapes += [Line(pivot, wheel, "heavy"), Circle(wheel, 0.22, "edge"), Circle(wheel, 0.07, "solid")]
    if down:
        shapes.append(Line((0.62, 0.12), round_at(pivot, 0.4, 270), "stroke"))
    if down or up:
        shapes += padlock((0.34, 0.98), True)
    elif free:
        shapes += padlock((0.34, 0.98), False)
    links = (Anchor(LINK_IN, (0.1, 0.6), "west"), Anchor(LINK_OUT, (1.3, 0.6), "east"))
    return Symbol((1.4, 1.22), links, tuple(shapes), signs=(LOCKS,))


def doors(look: Look) -> Symbol:
    """Two doors in the skin, hanging as far as they are open."""
    angle, full = look.readings.get("angle"), look.wants.get("full angle")
    part = min(1.0, max(0.0, angle / full)) if angle is not None and full else None
    if part is None and (look.states.get("open") or look.states.get("closed")):
        part = 1.0 if look.states.get("open") else 0.0
    y = 0.3
    left, right = (0.34, y), (1.16, y)
    shapes: list[Shape] = [Line((0.02, y), left, "heavy"), Line(right, (1.48, y), "heavy")]
    shapes += [Circle(at, 0.06, "solid") for at in (left, right)]
    if part is not None:
        swung = 88 * part
        shapes += [
            Line(left, round_at(left, 0.4, -swung), "heavy"),
            Line(right, round_at(right, 0.4, 180 + swung), "heavy"),
        ]
    links = (Anchor(LINK_IN, (0.02, y), "west"), Anchor(LINK_OUT, (1.48, y), "east"))
    return Symbol((1.5, 0.8), links, tuple(shapes))


def safety_bolt(look: Look) -> Symbol:
    """A bolt through a lever: across its way while it is locked, drawn back while it is held aside."""
    where = position(look)
    shapes: list[Shape] = [
        Line((0.8, 0.06), (0.8, 0.3), "heavy"),
        Line((0.8, 0.6), (0.8, 0.84), "heavy"),
        Rect((0.28, 0.33), (0.24, 0.24), "edge"),
    ]
    if where:
        tip, knob = (0.96, 0.22) if where == "locked" else (0.62, 0.04)
        shapes += [
            Rect((knob + 0.04, 0.39), (tip - knob - 0.04, 0.12), "solid"),
            Line((knob, 0.28), (knob, 0.62), "heavy"),
        ]
    return Symbol((1.0, 0.9), (Anchor(LINK_OUT, (0.96, 0.45), "east"),), tuple(shapes))


def mechanical_indicator(look: Look) -> Symbol:
    """A pin that stands out of the skin as far as what it shows has moved."""
    part = look.readings.get("position")
    shapes: list[Shape] = [Polyline(((0.06, 0.8), (0.3, 0.7), (0.7, 0.7), (0.94, 0.8)), "heavy")]
    shapes += [Line((0.62, y), (0.72, y), "thin") for y in (0.64, 0.5, 0.36, 0.22)]
    if part is not None:
        top = 0.64 - 0.44 * min(1.0, max(0.0, part))
        shapes += [Line((0.5, 0.74), (0.5, top), "heavy"), Circle((0.5, top), 0.08, "solid")]
    if look.states.get("working") is False:
        shapes += struck((0.5, 0.45), 0.3)
    return Symbol((1.0, 0.9), (Anchor(LINK_IN, (0.1, 0.76), "west"),), tuple(shapes))
