"""Symbols of the engine and what the crew works it with."""

from cutaway.draw.shapes import Circle, Line, Path, Polyline, Rect, Shape
from cutaway.draw.symbols.strokes import arc, letters, round_at, turning
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Look, Symbol, position


def engine(look: Look) -> Symbol:
    """Cylinders in a row and an airscrew; an arrow when it runs."""
    running = look.states.get("running")
    shapes: list[Shape] = [Rect((0.1, 0.42), (1.1, 0.5), "edge", 0.06)]
    for x in (0.2, 0.46, 0.72, 0.98):
        shapes.append(Rect((x, 0.16), (0.16, 0.28), "edge"))
    hub = (1.36, 0.6)
    shapes += [Line((1.2, 0.6), hub, "heavy"), *_airscrew(hub), Circle(hub, 0.07, "solid")]
    if running:
        shapes += [*turning(hub, 0.3), arc(hub, 0.3, 240, 330, "thin")]
    if position(look, "starter") == "pressed":
        shapes.append(letters("S", (0.65, 0.68), 0.28, "strong"))
    links = (Anchor(LINK_IN, (0.1, 0.67), "west"), Anchor(LINK_OUT, (1.46, 0.6), "east"))
    return Symbol((1.7, 1.15), links, tuple(shapes))


def _airscrew(hub: tuple[float, float]) -> tuple[Shape, ...]:
    x, y = hub
    upper = Path(
        (("M", (x, y)), ("Q", (x - 0.16, y - 0.3, x, y - 0.55)), ("Q", (x + 0.1, y - 0.3, x, y)), ("Z", ())), "solid"
    )
    lower = Path(
        (("M", (x, y)), ("Q", (x + 0.16, y + 0.3, x, y + 0.55)), ("Q", (x - 0.1, y + 0.3, x, y)), ("Z", ())), "solid"
    )
    return upper, lower


def throttle(look: Look) -> Symbol:
    """A lever on a quadrant: back is closed, forward is open."""
    return _quadrant(look, None)


def gated_throttle(look: Look) -> Symbol:
    """A lever on a quadrant with a gate across its way."""
    return _quadrant(look, GATE)


GATE = 0.9
"""Where the gate of a gated throttle is on its travel, 0 to 1."""


def _quadrant(look: Look, gate: float | None) -> Symbol:
    setting = look.controls.get("")
    pivot = (0.66, 0.95)
    shapes: list[Shape] = [
        arc(pivot, 0.62, 40, 140),
        Line((0.36, 0.95), (0.96, 0.95), "stroke"),
        Circle(pivot, 0.07, "solid"),
    ]
    shapes += [Line(round_at(pivot, 0.56, a), round_at(pivot, 0.68, a), "thin") for a in (40, 65, 90, 115, 140)]
    if gate is not None:
        degrees = 140 - 100 * (gate + 0.02)
        shapes.append(Line(round_at(pivot, 0.46, degrees), round_at(pivot, 0.68, degrees), "heavy"))
    if setting is not None and setting.place is not None:
        knob = round_at(pivot, 0.76, 140 - 100 * min(1.0, max(0.0, setting.place)))
        shapes += [Line(pivot, knob, "heavy"), Circle(knob, 0.09, "solid")]
    return Symbol((1.32, 1.1), (Anchor(LINK_OUT, (0.96, 0.95), "east"),), tuple(shapes))


def magneto_switch(look: Look) -> Symbol:
    """A knob with a pointer and a mark for each of its positions."""
    setting = look.controls.get("")
    positions = setting.positions if setting else ()
    centre = (0.5, 0.6)
    shapes: list[Shape] = [Circle(centre, 0.3, "edge")]
    step = 120.0 / max(1, len(positions) - 1)
    for i, word in enumerate(positions):
        shapes.append(letters(word[:1].upper(), round_at(centre, 0.45, 150 - step * i), 0.23))
    if setting is not None and setting.place is not None:
        tip = round_at(centre, 0.26, 150 - step * setting.place)
        shapes += [Line(round_at(centre, 0.2, 330 - step * setting.place), tip, "heavy"), Circle(centre, 0.07, "solid")]
    return Symbol((1.0, 1.0), (Anchor(LINK_OUT, (0.8, 0.6), "east"),), tuple(shapes))


def flaps(look: Look) -> Symbol:
    """The rear of a wing; the flap hangs at its angle."""
    angle = look.readings.get("angle")
    degrees = min(80.0, max(-10.0, (angle or 0.0) * 57.29577951))
    hinge = (1.0, 0.42)
    wing = Path(
        (
            ("M", hinge),
            ("L", (0.3, 0.5)),
            ("Q", (0.02, 0.5, 0.05, 0.38)),
            ("Q", (0.15, 0.2, 0.45, 0.2)),
            ("Q", (0.8, 0.22, 1.0, 0.34)),
            ("Z", ()),
        ),
        "edge",
    )
    tip = round_at(hinge, 0.52, -degrees)
    flap = Polyline(
        (round_at(hinge, 0.07, 90 - degrees), tip, round_at(hinge, 0.07, 270 - degrees)),
        "solid" if angle else "edge",
        closed=True,
    )
    return Symbol(
        (1.6, 0.9),
        (Anchor(LINK_IN, (0.04, 0.4), "west"), Anchor(LINK_OUT, (1.0, 0.34), "north")),
        (wing, flap, Circle(hinge, 0.06, "solid")),
    )
