"""What a hand finds on a panel: tumblers, buttons, cocks, levers, slides, each in a unit square.

These are not the symbols of the sheets, which show what a part does with a line; they show how it stands. The positions
of a setting come here in the order in which they lie.
"""

from collections.abc import Mapping
from typing import Literal

from cutaway.draw.shapes import Circle, Line, Rect, Shape
from cutaway.draw.symbols.positions import stands_upright
from cutaway.draw.symbols.strokes import round_at
from cutaway.draw.symbols.symbol import Setting

Form = Literal["tumbler", "button", "cock", "lever", "quadrant", "slide", "symbol"]
"""A quadrant is a lever that moves up and down; a symbol is what the sheets have."""

FORMS: Mapping[str, Form] = {
    "switch": "tumbler",
    "interlocked switch": "tumbler",
    "ground/flight switch": "tumbler",
    "dimmer": "tumbler",
    "push-button": "button",
    "circuit breaker": "button",
    "cock": "cock",
    "selector cock": "cock",
    "cross-feed cock": "cock",
    "air cock": "cock",
    "air selector": "cock",
    "vacuum changeover cock": "cock",
    "magneto switch": "cock",
    "emergency air bottle": "cock",
    "external supply socket": "symbol",
}
"""How a control of each kind looks on a panel; one that is not named here is a slide if it is ranged, a button if it is
pressed, else a lever: in a quadrant if it is moved up and down."""

PRESSED = frozenset({"pressed", "in"})
"""Where a button is in: that of a breaker is left so, and comes out by itself."""
SPREAD = 120.0
LEAN = 74.0
"""Over how many degrees the positions of a cock, and of a lever, are spread on a drawing. Choices of ours."""


RISE = 32.0
"""How far a lever in a quadrant stands above or below the level at the ends of its way, degrees."""
ACROSS: frozenset[Form] = frozenset({"cock", "lever"})
"""The forms whose positions lie from left to right; those of all others lie from the foot up."""


def form_of(kind: str, setting: Setting) -> Form:
    """How a control of a kind looks."""
    if setting.ranged:
        return "slide"
    if kind in FORMS:
        return FORMS[kind]
    if "pressed" in setting.positions:
        return "button"
    return "quadrant" if stands_upright(setting) else "lever"


def handle(form: Form, setting: Setting) -> tuple[Shape, ...]:
    """A control as it stands; without a handle where that is not known. A symbol is none of ours."""
    match form:
        case "tumbler":
            return _tumbler(setting)
        case "button":
            return _button(setting)
        case "cock":
            return _cock(setting)
        case "lever":
            return _lever(setting)
        case "quadrant":
            return _quadrant(setting)
        case "slide":
            return _slide(setting)
        case "symbol":
            return ()


def _share(setting: Setting) -> float | None:
    """How far along its positions a control stands, 0 at the first and 1 at the last."""
    if setting.place is None or setting.ranged:
        return setting.place
    index = round(setting.place)
    if not 0 <= index < len(setting.positions):
        return None
    return index / max(1, len(setting.positions) - 1)


def _tumbler(setting: Setting) -> tuple[Shape, ...]:
    """A plate with a ball-ended tumbler: down at the first position, up at the last."""
    plate: tuple[Shape, ...] = (Rect((0.22, 0.08), (0.56, 0.84), "edge", 0.08), Circle((0.5, 0.5), 0.16, "ring"))
    part = _share(setting)
    if part is None:
        return plate
    tip = (0.5, 0.76 - 0.52 * part)
    return (*plate, Line((0.5, 0.5), tip, "heavy"), Circle(tip, 0.11, "solid"))


def _button(setting: Setting) -> tuple[Shape, ...]:
    """A button in its ring: it fills the ring when it is out, and is small and solid when it is pressed in."""
    ring: tuple[Shape, ...] = (Circle((0.5, 0.5), 0.4, "edge"),)
    if _share(setting) is None:
        return ring
    pressed = setting.positions[round(setting.place or 0.0)] in PRESSED
    return (*ring, Circle((0.5, 0.5), 0.2, "solid") if pressed else Circle((0.5, 0.5), 0.3, "ring"))


def _cock(setting: Setting) -> tuple[Shape, ...]:
    """A disc with a mark for each position and a pointer, first to the left, last to the right."""
    count = len(setting.positions)
    angles = [_angle(i / max(1, count - 1)) for i in range(count)]
    marks = [Line(round_at((0.5, 0.55), 0.38, a), round_at((0.5, 0.55), 0.48, a), "thin") for a in angles]
    face: tuple[Shape, ...] = (*marks, Circle((0.5, 0.55), 0.34, "edge"))
    part = _share(setting)
    if part is None:
        return face
    tip, tail = round_at((0.5, 0.55), 0.3, _angle(part)), round_at((0.5, 0.55), 0.2, _angle(part) + 180)
    return (*face, Line(tail, tip, "heavy"), Circle(tip, 0.07, "solid"))


def _lever(setting: Setting) -> tuple[Shape, ...]:
    """A lever out of a slot: towards the left at its first position, over to the right at its last."""
    count = len(setting.positions)
    foot = (0.5, 0.86)
    marks = [
        Line(round_at(foot, 0.72, a), round_at(foot, 0.8, a), "thin")
        for a in (_angle(i / max(1, count - 1), LEAN) for i in range(count))
    ]
    base: tuple[Shape, ...] = (*marks, Rect((0.26, 0.8), (0.48, 0.12), "edge", 0.04))
    part = _share(setting)
    if part is None:
        return base
    tip = round_at(foot, 0.6, _angle(part, LEAN))
    return (*base, Line(foot, tip, "heavy"), Circle(tip, 0.11, "solid"))


def levels(setting: Setting) -> tuple[float, ...]:
    """How far down each position of a lever in a quadrant is marked, the first at the foot."""
    count = max(1, len(setting.positions) - 1)
    return tuple(round_at((0.16, 0.5), 0.76, _rise(i / count))[1] for i in range(len(setting.positions)))


def _quadrant(setting: Setting) -> tuple[Shape, ...]:
    """A lever hinged at the left that moves up and down: down at its first position, up at its last."""
    hinge = (0.16, 0.5)
    count = max(1, len(setting.positions) - 1)
    turns = [_rise(i / count) for i in range(len(setting.positions))]
    marks = [Line(round_at(hinge, 0.72, a), round_at(hinge, 0.8, a), "thin") for a in turns]
    base: tuple[Shape, ...] = (*marks, Rect((0.06, 0.24), (0.13, 0.52), "edge", 0.04))
    part = _share(setting)
    if part is None:
        return base
    tip = round_at(hinge, 0.58, _rise(part))
    return (*base, Line(hinge, tip, "heavy"), Circle(tip, 0.11, "solid"))


def _rise(part: float) -> float:
    return RISE * (2.0 * part - 1.0)


def _slide(setting: Setting) -> tuple[Shape, ...]:
    """A knob in an upright slot: at the foot when closed, at the head when open."""
    slot: tuple[Shape, ...] = (Rect((0.42, 0.08), (0.16, 0.84), "edge", 0.08),)
    part = _share(setting)
    if part is None:
        return slot
    y = 0.84 - 0.68 * min(1.0, max(0.0, part))
    return (*slot, Rect((0.22, y - 0.09), (0.56, 0.18), "solid", 0.06))


def _angle(part: float, spread: float = SPREAD) -> float:
    """The direction of a share of the way from the first position to the last."""
    return 90.0 + spread / 2 - spread * part
