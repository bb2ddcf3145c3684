"""Symbols of a large engine and what governs it: supercharger, boost control, airscrew, mixture, heat."""

from cutaway.draw.shapes import Circle, Line, Path, Point, Polyline, Rect, Shape
from cutaway.draw.symbols.machines import spinning
from cutaway.draw.symbols.strokes import arc, letters, round_at, share, wave
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Draw, Look, Symbol, position

FREEZING = 273.15


def supercharged_engine(look: Look) -> Symbol:
    """A block with two rows of cylinders, its blower behind and the airscrew shaft before; an arrow when it runs."""
    shapes: list[Shape] = [
        Circle((0.3, 0.6), 0.24, "edge"),
        Circle((0.3, 0.6), 0.07, "solid"),
        Rect((0.5, 0.46), (0.98, 0.28), "edge", 0.04),
    ]
    for x in (0.56, 0.8, 1.04, 1.28):
        shapes += [Rect((x, 0.2), (0.15, 0.27), "edge"), Rect((x, 0.73), (0.15, 0.27), "edge")]
    shapes += [Line((1.48, 0.6), (1.7, 0.6), "heavy"), Line((1.7, 0.42), (1.7, 0.78), "heavy")]
    if look.states.get("running"):
        shapes += spinning((1.7, 0.6), 0.28)
    links = (Anchor(LINK_IN, (0.06, 0.6), "west"), Anchor(LINK_OUT, (1.72, 0.6), "east"))
    return Symbol((1.96, 1.1), links, tuple(shapes))


def supercharger(gears: bool) -> Draw:
    """A blower in its snail of a case; one of two speeds has a lever between M and S, and says which gear is in."""

    def draw(look: Look) -> Symbol:
        left = 0.5 if gears else 0.06
        centre = (left + 0.42, 0.58)
        x, y = centre
        case = Path(
            (
                ("M", (x + 0.86, y - 0.5)),
                ("L", (x, y - 0.5)),
                ("A", (0.46, 0.46, 0.0, 1.0, 0.0, x + 0.44, y - 0.12)),
                ("L", (x + 0.86, y - 0.12)),
                ("Z", ()),
            ),
            "edge",
        )
        shapes: list[Shape] = [case, Circle(centre, 0.28, "ring")]
        in_s = look.states.get("in S gear")
        if gears and in_s is not None:
            shapes.append(letters("S" if in_s else "M", centre, 0.34, "strong"))
        else:
            shapes += [_blade(centre, a) for a in range(0, 360, 60)]
        if gears:
            shapes += _gear_lever(position(look, "gear"))
        links = (
            Anchor(LINK_IN, (0.04 if gears else left, 0.62), "west"),
            Anchor(LINK_OUT, (x + 0.86, y - 0.31), "east"),
        )
        return Symbol((left + 1.3, 1.1), links, tuple(shapes))

    return draw


def _blade(centre: Point, degrees: float) -> Path:
    out, bend = round_at(centre, 0.26, degrees), round_at(centre, 0.18, degrees + 28)
    return Path((("M", centre), ("Q", (*bend, *out))), "stroke")


def _gear_lever(where: str) -> tuple[Shape, ...]:
    """A lever with a notch for each gear."""
    pivot = (0.12, 0.62)
    marks = (letters("M", (0.38, 0.14), 0.23), letters("S", (0.38, 1.02), 0.23), Circle(pivot, 0.06, "solid"))
    if not where:
        return marks
    knob = round_at(pivot, 0.3, 52 if where == "M" else -52)
    return (*marks, Line(pivot, knob, "heavy"), Circle(knob, 0.06, "solid"))


def airscrew(look: Look) -> Symbol:
    """A speed lever on its bow; the governor's balls fly out while it governs; the blades lie flat on the fine stop."""
    setting = look.controls.get("")
    pivot = (0.58, 1.0)
    shapes: list[Shape] = [arc(pivot, 0.46, 40, 140, "thin"), Line((0.36, 1.0), (0.8, 1.0), "stroke")]
    shapes += [Line(round_at(pivot, 0.42, a), round_at(pivot, 0.5, a), "thin") for a in (40, 90, 140)]
    if setting is not None and setting.place is not None:
        knob = round_at(pivot, 0.56, 140 - 100 * min(1.0, max(0.0, setting.place)))
        shapes += [Line(pivot, knob, "heavy"), Circle(knob, 0.07, "solid")]
    shapes += [*_governor((1.26, 0.2), look.states.get("on fine stop")), *_blades((1.84, 0.62), look)]
    links = (Anchor(LINK_IN, (0.36, 1.0), "west"), Anchor(LINK_OUT, (1.96, 0.62), "east"))
    return Symbol((2.04, 1.24), links, tuple(shapes))


def _governor(top: Point, on_stop: bool | None) -> tuple[Shape, ...]:
    """Two balls on arms: far out while they hold the speed, hanging down while there is too little of it."""
    swing = {True: 20.0, False: 55.0, None: 38.0}[on_stop]
    balls = [round_at(top, 0.36, 270 + way * swing) for way in (1, -1)]
    role = "ring" if on_stop is None else "solid"
    arms = tuple(Line(top, ball, "stroke") for ball in balls)
    return (Line((top[0], 0.14), (top[0], 0.9), "thin"), *arms, *(Circle(ball, 0.09, role) for ball in balls))


def _blades(hub: Point, look: Look) -> tuple[Shape, ...]:
    """Two blades; a bar at either root where they lie against the fine stop."""
    x, y = hub
    shapes: list[Shape] = []
    for way in (1.0, -1.0):
        blade: Path = Path(
            (
                ("M", (x, y)),
                ("Q", (x - 0.18 * way, y - 0.3 * way, x, y - 0.56 * way)),
                ("Q", (x + 0.11 * way, y - 0.3 * way, x, y)),
                ("Z", ()),
            ),
            "solid",
        )
        shapes.append(blade)
        if look.states.get("on fine stop"):
            shapes.append(Line((x - 0.14, y - 0.17 * way), (x + 0.14, y - 0.17 * way), "heavy"))
    return (*shapes, Circle(hub, 0.09, "solid"))


def boost_control(look: Look) -> Symbol:
    """A capsule whose rod turns the throttle; beside it the cut-out's knob, pushed home or pulled."""
    where = position(look, "cut-out")
    shapes: list[Shape] = [Rect((0.3, 0.1), (0.56, 0.8), "edge")]
    shapes += [Rect((0.4, 0.26 + 0.16 * i), (0.36, 0.14), "edge", 0.07) for i in range(3)]
    shapes += [
        Line((0.58, 0.26), (0.58, 0.16), "stroke"),
        Line((0.58, 0.74), (0.58, 0.82), "stroke"),
        Line((0.58, 0.82), (1.2, 0.62), "stroke"),
        Line((1.02, 0.3), (1.56, 0.3), "stroke"),
        Line((1.02, 0.82), (1.56, 0.82), "stroke"),
        Line((1.14, 0.38), (1.42, 0.74), "heavy"),
        Circle((1.28, 0.56), 0.05, "solid"),
    ]
    if where:
        knob = 0.03 if where == "pulled" else 0.2
        shapes += [Line((0.3, 0.5), (knob, 0.5), "stroke"), Line((knob, 0.38), (knob, 0.62), "heavy")]
    links = (Anchor(LINK_IN, (0.46, 0.1), "north"), Anchor(LINK_OUT, (1.56, 0.56), "east"))
    return Symbol((1.6, 1.0), links, tuple(shapes))


def automatic_mixture(look: Look) -> Symbol:
    """A capsule with a pointer between R, rich, and W, weak."""
    weak = look.states.get("weak")
    shapes: list[Shape] = [Rect((0.1, 0.3), (0.44, 0.6), "edge")]
    shapes += [Rect((0.16, 0.38 + 0.16 * i), (0.32, 0.13), "edge", 0.06) for i in range(3)]
    pivot = (0.76, 0.62)
    shapes += [Line((0.48, 0.62), pivot, "stroke"), Circle(pivot, 0.05, "solid")]
    shapes += [letters("R", (1.12, 0.22), 0.23), letters("W", (1.12, 1.0), 0.23), arc(pivot, 0.3, -50, 50, "thin")]
    if weak is not None:
        shapes.append(Line(pivot, round_at(pivot, 0.34, -42 if weak else 42), "heavy"))
    return Symbol(
        (1.3, 1.15), (Anchor(LINK_IN, (0.1, 0.6), "west"), Anchor(LINK_OUT, (1.06, 0.62), "east")), tuple(shapes)
    )


def hot_air_intake(look: Look) -> Symbol:
    """Two ways in, cold above and warm below, with a flap that shuts one; frost or warmth is marked behind it."""
    where = position(look)
    shapes: list[Shape] = [
        Polyline(((0.06, 0.14), (0.62, 0.14), (0.8, 0.32), (1.36, 0.32)), "stroke"),
        Polyline(((0.06, 1.0), (0.62, 1.0), (0.8, 0.82), (1.36, 0.82)), "stroke"),
        Polyline(((0.06, 0.5), (0.5, 0.5), (0.6, 0.57), (0.5, 0.64), (0.06, 0.64)), "edge"),
        wave((0.1, 0.78), 0.24),
        wave((0.1, 0.88), 0.24),
    ]
    if where:
        shapes.append(Line((0.6, 0.57), (0.66, 0.18) if where == "hot" else (0.66, 0.96), "heavy"))
    if look.states.get("iced"):
        shapes += [
            Line(round_at((0.96, 0.57), 0.16, a), round_at((0.96, 0.57), 0.16, a + 180), "stroke")
            for a in (30, 90, 150)
        ]
    if look.states.get("warmed"):
        shapes += [wave((1.12, 0.5), 0.22, 0.06, "stroke"), wave((1.12, 0.64), 0.22, 0.06, "stroke")]
    return Symbol((1.4, 1.1), (Anchor(LINK_OUT, (1.36, 0.57), "east"),), tuple(shapes))


def coolant_circuit(look: Look) -> Symbol:
    """Jacket and radiator in a ring with a thermometer between them, full where it boils; bubbles when it does."""
    part = share(look.readings.get("temperature"), FREEZING, look.wants.get("boils at"))
    shapes: list[Shape] = [
        Line((0.42, 0.28), (1.1, 0.28), "stroke"),
        Line((0.42, 0.88), (1.1, 0.88), "stroke"),
        Rect((0.08, 0.16), (0.36, 0.84), "edge"),
        Rect((1.08, 0.16), (0.42, 0.84), "edge"),
        *(Line((1.08 + 0.105 * i, 0.16), (1.08 + 0.105 * i, 1.0), "thin") for i in (1, 2, 3)),
        Rect((0.71, 0.2), (0.12, 0.58), "edge", 0.06),
        Circle((0.77, 0.86), 0.12, "solid"),
    ]
    if part is not None:
        shapes.append(Rect((0.735, 0.76 - 0.52 * part), (0.07, 0.52 * part + 0.04), "solid"))
    if look.states.get("boiling"):
        shapes += [Circle((0.26, y), r, "edge") for y, r in ((0.8, 0.05), (0.58, 0.07), (0.34, 0.09))]
    links = (Anchor(LINK_IN, (0.08, 0.58), "west"), Anchor(LINK_OUT, (1.5, 0.58), "east"))
    return Symbol((1.56, 1.1), links, tuple(shapes))


def radiator_shutter(look: Look) -> Symbol:
    """Slats behind a radiator: in line with the air when they are open, across it when they are shut."""
    is_open = look.states.get("open")
    turned = look.moved if look.moved is not None else (None if is_open is None else float(is_open))
    shapes: list[Shape] = [Rect((0.1, 0.1), (0.34, 0.84), "edge")]
    shapes += [Line((0.1 + 0.085 * i, 0.1), (0.1 + 0.085 * i, 0.94), "thin") for i in (1, 2, 3)]
    for y in (0.24, 0.52, 0.8):
        shapes.append(Circle((0.78, y), 0.04, "solid"))
        if turned is not None:
            angle = 86 - 86 * min(1.0, max(0.0, turned))
            shapes.append(Line(round_at((0.78, y), 0.14, angle), round_at((0.78, y), 0.14, angle + 180), "heavy"))
    return Symbol(
        (1.0, 1.0), (Anchor(LINK_IN, (0.1, 0.52), "west"), Anchor(LINK_OUT, (0.94, 0.52), "east")), tuple(shapes)
    )
