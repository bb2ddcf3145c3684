"""Symbols of gauges and lamps: dials with needles, lamps with rays."""

from collections.abc import Callable

from cutaway.draw.shapes import Circle, Line, Shape
from cutaway.draw.symbols.strokes import arc, letters, needle, rays, round_at
from cutaway.draw.symbols.symbol import Anchor, Draw, Look, Symbol

CENTRE = (0.5, 0.5)
FED = (Anchor("feed", (0.04, 0.5), "west"),)


def dial(letter: str, reading: str, full: Callable[[Look], float | None], anchors: tuple[Anchor, ...] = ()) -> Draw:
    """A gauge with a letter for what it shows. full: the value at the end of its scale, SI, so far as it is known."""

    def draw(look: Look) -> Symbol:
        value, most = look.readings.get(reading), full(look)
        part = None if value is None or not most else min(1.0, max(0.0, value / most))
        return Symbol((1.0, 1.0), anchors, (*_dial_face(letter), *needle(CENTRE, 0.34, part), *_flag(look)))

    return draw


def _dial_face(letter: str) -> tuple[Shape, ...]:
    ticks = tuple(
        Line(round_at(CENTRE, 0.38, degrees), round_at(CENTRE, 0.45, degrees), "thin")
        for degrees in range(-45, 226, 45)
    )
    return (Circle(CENTRE, 0.46, "edge"), *ticks, letters(letter, (0.5, 0.78), 0.22))


def _flag(look: Look) -> tuple[Shape, ...]:
    """A dead instrument is struck out."""
    if look.states.get("working") is not False:
        return ()
    return Line((0.2, 0.2), (0.8, 0.8), "stroke"), Line((0.2, 0.8), (0.8, 0.2), "stroke")


def fixed(full: float) -> Callable[[Look], float | None]:
    """A scale that ends at one value. Needles show more or less, not figures: the figure stands in words below."""
    return lambda look: full


def wanted(name: str, times: float = 1.0) -> Callable[[Look], float | None]:
    """A scale that ends at a multiple of one of the part's quantities."""

    def full(look: Look) -> float | None:
        value = look.wants.get(name)
        return None if value is None else value * times

    return full


def lamp(look: Look) -> Symbol:
    """A cross in a ring; rays when it is lit."""
    lit = look.states.get("lit")
    centre = CENTRE
    reach = 0.3
    corners = [round_at(centre, reach, a) for a in (45, 225, 135, 315)]
    shapes: list[Shape] = [
        Circle(centre, reach, "glass lit" if lit else "glass out"),
        Line(corners[0], corners[1], "wire lit" if lit else "stroke"),
        Line(corners[2], corners[3], "wire lit" if lit else "stroke"),
    ]
    if lit:
        shapes += [ray for ray in rays(centre, 0.37, 0.49) if ray.end[0] > 0.1]  # its feed comes from the west
    return Symbol((1.0, 1.0), (Anchor("feed", (0.2, 0.5), "west"),), tuple(shapes), top=0.22)


def contents_gauge(look: Look) -> Symbol:
    """A dial from empty to full. The scale ends where the needle's value is full: not known here, so E and F only."""
    value = look.readings.get("contents")
    marks = (letters("E", (0.2, 0.72), 0.18), letters("F", (0.8, 0.72), 0.18))
    full = look.wants.get("capacity")
    part = None if value is None or not full else min(1.0, max(0.0, value / full))
    face = (Circle(CENTRE, 0.46, "edge"), arc(CENTRE, 0.34, 0, 180, "thin"), *marks)
    return Symbol((1.0, 1.0), FED, (*face, *needle(CENTRE, 0.3, part), *_flag(look)))


def position_indicator(look: Look) -> Symbol:
    """A dial with a wing's edge that drops with the angle."""
    angle = look.readings.get("angle")
    hinge = (0.42, 0.5)
    shapes: list[Shape] = [Circle(CENTRE, 0.46, "edge"), Line((0.14, 0.5), hinge, "heavy")]
    if angle is not None:
        shapes.append(Line(hinge, round_at(hinge, 0.36, -min(80.0, max(-10.0, angle * 57.29577951))), "stroke"))
    return Symbol((1.0, 1.0), FED, (*shapes, *_flag(look)))
