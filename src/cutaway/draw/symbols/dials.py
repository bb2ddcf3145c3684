"""Symbols of gauges and lamps: dials with needles, lamps with rays."""

from collections.abc import Callable

from cutaway.draw.shapes import Circle, Line, Shape
from cutaway.draw.symbols.strokes import arc, letters, needle, rays, round_at, share, struck, through
from cutaway.draw.symbols.symbol import Anchor, Draw, Look, Symbol

CENTRE = (0.5, 0.5)
FED = (Anchor("feed", (0.04, 0.5), "west"),)
PSI = 6894.76
"""About one lb/sq in, Pa: ends of scales, where exactness means nothing."""

AMPERES = 60.0
BRAKES = 150 * PSI
"""Ends of scales that nothing of the part says: choices of ours."""


def dial(
    letter: str,
    reading: str,
    full: Callable[[Look], float | None],
    anchors: tuple[Anchor, ...] = (),
    least: float = 0.0,
) -> Draw:
    """A gauge with a letter for what it shows. full, least: the ends of its scale, SI, so far as they are known."""

    def draw(look: Look) -> Symbol:
        part = share(look.readings.get(reading), least, full(look))
        return Symbol((1.0, 1.0), anchors, (*dial_face(letter), *needle(CENTRE, 0.34, part), *_flag(look)))

    return draw


def dial_face(letter: str) -> tuple[Shape, ...]:
    """A ring with ticks; long words are set smaller."""
    ticks = tuple(
        Line(round_at(CENTRE, 0.38, degrees), round_at(CENTRE, 0.45, degrees), "thin")
        for degrees in range(-45, 226, 45)
    )
    words = (letters(letter, (0.5, 0.79), 0.23),) if letter else ()
    return (Circle(CENTRE, 0.46, "edge"), *ticks, *words)


def _flag(look: Look) -> tuple[Shape, ...]:
    """A dead instrument is struck out."""
    return struck(CENTRE, 0.42) if look.states.get("working") is False else ()


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
    marks = (letters("E", (0.2, 0.72), 0.23), letters("F", (0.8, 0.72), 0.23))
    part = share(value, 0.0, look.wants.get("capacity"))
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


def ammeter(look: Look) -> Symbol:
    """A dial with nought in its middle: to the right what passes from west to east, to the left what comes back."""
    part = share(look.readings.get("current"), -AMPERES, AMPERES)
    face = (*dial_face("A"), letters("0", (0.5, 0.2), 0.23))
    return Symbol((1.0, 1.0), through(0.04, 0.96), (*face, *needle(CENTRE, 0.3, part)))


def triple_gauge(look: Look) -> Symbol:
    """One face with three small dials: the supply above, the brakes below."""
    shapes: list[Shape] = [Circle((0.6, 0.6), 0.58, "edge")]
    for reading, letter, at, full in (
        ("supply", "", (0.6, 0.3), 600 * PSI),
        ("port brake", "P", (0.34, 0.68), BRAKES),
        ("starboard brake", "S", (0.86, 0.68), BRAKES),
    ):
        shapes += [Circle(at, 0.2, "ring"), *needle(at, 0.16, share(look.readings.get(reading), 0.0, full))]
        if letter:
            shapes.append(letters(letter, (at[0], at[1] + 0.32), 0.23))
    return Symbol((1.2, 1.2), (), tuple(shapes))


def boost_gauge(look: Look) -> Symbol:
    """A dial with nought a third of the way round: boost below the standard atmosphere stands to the left of it."""
    part = share(look.readings.get("boost"), -10 * PSI, 20 * PSI)
    nought = letters("0", round_at(CENTRE, 0.28, 135), 0.23)
    return Symbol((1.0, 1.0), (), (*dial_face("B"), nought, *needle(CENTRE, 0.34, part)))
