"""Symbols of what air moves: brakes, the valve that shares it among them, rams."""

from cutaway.draw.shapes import Circle, Line, Path, Point, Rect, Shape
from cutaway.draw.symbols.strokes import LET_OUT, arc, arrow, blocked, exhaust, letters, round_at, spring
from cutaway.draw.symbols.symbol import LINK_OUT, Anchor, Look, Symbol, fraction, position


def brake(look: Look) -> Symbol:
    """A drum with two blocks in it, which bear on it while the brake is on and stand off while it is off."""
    on = look.states.get("on")
    centre = (0.56, 0.5)
    reach = 0.36 if on else 0.27
    shapes: list[Shape] = [Circle(centre, 0.44, "edge"), Circle(centre, 0.12, "edge")]
    if on is not None:
        shapes += [arc(centre, reach, start, start + 100, "heavy") for start in (40, 220)]
        shapes += [arc(centre, reach - 0.07, start, start + 100, "heavy") for start in (40, 220)]
    if on:
        shapes += [
            s for a in (90, 270) for s in arrow(round_at(centre, 0.14, a), round_at(centre, 0.29, a), "thin", 0.1)
        ]
    return Symbol((1.0, 1.0), (Anchor("air", (0.12, 0.5), "west"),), tuple(shapes))


def brake_relay_valve(look: Look) -> Symbol:
    """A box with the brake lever and the rudder bar above it; inside, an arrow to each brake that is given air."""
    lever, bar = look.controls.get("lever"), position(look, "rudder bar")
    supply: Point = (0.3, 1.05)
    outlets = {"port": (1.3, 0.8), "starboard": (1.3, 1.3)}
    shapes: list[Shape] = [
        Rect((0.3, 0.62), (1.0, 0.86), "edge"),
        *_lever((0.52, 0.62), lever.place if lever else None),
    ]
    shapes += _rudder_bar((1.1, 0.38), bar)
    if lever is not None and lever.place is not None and bar:
        for side, at in outlets.items():
            if lever.place > 0.001 and bar in ("central", side):
                shapes += arrow((supply[0] + 0.06, supply[1]), (at[0] - 0.05, at[1]), head=0.16)
            else:
                shapes += blocked(at, 180, 0.16)
    shapes += [letters("P", (1.42, 0.68), 0.23), letters("S", (1.42, 1.18), 0.23), exhaust((0.8, 1.48))]
    ports = (
        Anchor("supply", supply, "west"),
        Anchor("port brake", outlets["port"], "east"),
        Anchor("starboard brake", outlets["starboard"], "east"),
    )
    return Symbol((1.5, 1.66), ports, tuple(shapes), signs=(LET_OUT,))


def _lever(pivot: Point, place: float | None) -> tuple[Shape, ...]:
    """The brake lever: upright while it is off, pulled over while it is on."""
    ends = tuple(Line(round_at(pivot, 0.5, a), round_at(pivot, 0.58, a), "thin") for a in (90, 145))
    marks: tuple[Shape, ...] = (arc(pivot, 0.54, 90, 145, "thin"), *ends)
    if place is None:
        return marks
    knob = round_at(pivot, 0.46, 90 + 55 * min(1.0, max(0.0, place)))
    return (*marks, Line(pivot, knob, "heavy"), Circle(knob, 0.07, "solid"))


def _rudder_bar(pivot: Point, where: str) -> tuple[Shape, ...]:
    """The bar from above: the foot of the side of the turn is forward."""
    if not where:
        return (Circle(pivot, 0.05, "solid"),)
    turned = {"central": 0.0, "port": -28.0, "starboard": 28.0}.get(where, 0.0)
    ends = round_at(pivot, 0.32, 180 + turned), round_at(pivot, 0.32, turned)
    feet = tuple(Line((x, y), (x, y - 0.09), "heavy") for x, y in ends)
    return (Line(*ends, "heavy"), *feet, Circle(pivot, 0.05, "solid"), Line(pivot, (pivot[0], 0.62), "dashed"))


def ram(look: Look) -> Symbol:
    """A cylinder with air on one side of the piston and a spring on the other."""
    travel = fraction(look, "travel", "stroke")
    out = (1.0 if look.states.get("out") else 0.0) if travel is None else travel
    x, y, end = 0.22 + 0.52 * out, 0.42, 1.06
    shapes: tuple[Shape, ...] = (
        Rect((0.1, 0.16), (end - 0.1, 0.52), "edge"),
        spring((x, y + 0.14), (end, y + 0.14), 4, 0.16),
        Line((x, 0.18), (x, 0.66), "heavy"),
        Rect((x, y - 0.04), (end + 0.06 + 0.4 * out - x, 0.08), "edge"),
        Rect((end + 0.04 + 0.4 * out, y - 0.1), (0.1, 0.2), "solid", 0.03),
        Line((end + 0.14 + 0.4 * out, y), (1.66, y), "link"),
    )
    ports = (Anchor("chamber", (0.1, y), "west"), Anchor(LINK_OUT, (1.66, y), "east"))
    return Symbol((1.66, 0.84), ports, shapes)


def changeover_cock(look: Look) -> Symbol:
    """A round body with two ways through it, the way the air goes: side by side, crossed, or joined."""
    where = position(look)
    centre, radius = (0.6, 0.6), 0.56
    left = [(0.15, 0.34), (0.15, 0.86)]
    right = [(1.05, 0.34), (1.05, 0.86)]
    shapes: list[Shape] = [Circle(centre, radius, "edge")]
    shapes += [Circle(at, 0.055, "solid") for at in (*left, *right)]
    if where == "changed over":
        bridge = Path(
            (("M", left[1]), ("L", (0.5, 0.66)), ("A", (0.14, 0.14, 0.0, 0.0, 1.0, 0.7, 0.54)), ("L", right[0])),
            "heavy",
        )
        shapes += [Line(left[0], right[1], "heavy"), bridge]
    elif where:
        shapes += [Line(a, b, "heavy") for a, b in zip(left, right, strict=True)]
    if where == "joined":
        shapes.append(Line((0.6, 0.34), (0.6, 0.86), "heavy"))
    ports = (
        Anchor("instruments", (0.1, 0.34), "west"),
        Anchor("other", (0.1, 0.86), "west"),
        Anchor("port pump", (1.1, 0.34), "east"),
        Anchor("starboard pump", (1.1, 0.86), "east"),
    )
    return Symbol((1.2, 1.2), ports, tuple(shapes))
