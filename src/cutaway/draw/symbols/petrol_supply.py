"""Symbols of what stands about the petrol system: cross-feed, pumps at tanks, vents, priming, cut-outs."""

from cutaway.draw.shapes import Circle, Line, Path, Polyline, Rect, Shape
from cutaway.draw.symbols.dials import dial_face
from cutaway.draw.symbols.machines import spinning
from cutaway.draw.symbols.petrol import cock
from cutaway.draw.symbols.strokes import (
    blocked,
    bow_tie,
    drops,
    fan,
    letters,
    needle,
    share,
    through,
    triangle,
)
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Look, Symbol, position


def cross_feed_cock(look: Look) -> Symbol:
    """A cock with a head at either side, since it passes both ways: none when it is shut."""
    plain = cock(look)
    if position(look) == "off":
        return Symbol((1.0, 1.06), plain.anchors, plain.shapes)
    heads = triangle((0.14, 0.96), 180, 0.2, 0.18), triangle((0.86, 0.96), 0, 0.2, 0.18)
    return Symbol((1.0, 1.06), plain.anchors, (*plain.shapes, *heads, Line((0.3, 0.96), (0.7, 0.96), "stroke")))


def immersed_pump(look: Look) -> Symbol:
    """A pump's ring with M, in the foot of a tank; an arrow over it while it runs."""
    centre = (0.58, 0.6)
    shapes: list[Shape] = [
        Polyline(((0.06, 0.14), (0.06, 1.06), (1.1, 1.06), (1.1, 0.14)), "thin"),
        Circle(centre, 0.36, "edge"),
        triangle((0.94, 0.6), 0, 0.22, 0.3),
        letters("M", (0.48, 0.6), 0.3, "strong"),
        Line((0.06, 0.6), (0.22, 0.6), "stroke"),
        Line((0.94, 0.6), (1.1, 0.6), "stroke"),
        Line((0.58, 0.96), (0.58, 1.06), "stroke"),
    ]
    if look.states.get("running"):
        shapes += spinning(centre, 0.47)
    ports = (
        Anchor("inlet", (0.06, 0.6), "west"),
        Anchor("outlet", (1.1, 0.6), "east"),
        Anchor("feed", (0.58, 1.06), "south"),
    )
    return Symbol((1.16, 1.1), ports, tuple(shapes))


def vent(look: Look) -> Symbol:
    """A pipe with a bent neck, open to the air."""
    neck = Path(
        (("M", (0.3, 0.98)), ("L", (0.3, 0.42)), ("A", (0.2, 0.2, 0.0, 0.0, 1.0, 0.7, 0.42)), ("L", (0.7, 0.54))),
        "heavy",
    )
    shapes = (neck, triangle((0.7, 0.64), 90, 0.16, 0.2, "edge"), Line((0.1, 0.98), (0.9, 0.98), "stroke"))
    return Symbol((1.0, 1.0), (Anchor(LINK_OUT, (0.76, 0.42), "east"),), shapes)


def collector_box(look: Look) -> Symbol:
    """A box that narrows to its outlet, with a flap inside each way that opens inwards."""
    ways = look.lists.get("ways", ())
    height = 0.36 + 0.44 * max(2, len(ways))
    middle, bottom = 0.5 * height, height - 0.08
    heights = {way: 0.18 + (i + 0.5) * (height - 0.36) / len(ways) for i, way in enumerate(ways)}
    outline = ((0.16, 0.08), (0.7, 0.08), (1.1, middle - 0.14), (1.1, middle + 0.14), (0.7, bottom), (0.16, bottom))
    shapes: list[Shape] = [
        Polyline(outline, "edge", closed=True),
        Line((1.1, middle), (1.26, middle), "stroke"),
    ]
    for y in heights.values():
        shapes += [Line((0.0, y), (0.16, y), "stroke"), Line((0.16, y - 0.14), (0.36, y + 0.08), "heavy")]
        shapes.append(Circle((0.16, y - 0.14), 0.04, "solid"))
    ports = (*(Anchor(way, (0.0, y), "west") for way, y in heights.items()), Anchor("outlet", (1.26, middle), "east"))
    return Symbol((1.26, height), ports, tuple(shapes))


def jettison_valve(look: Look) -> Symbol:
    """A valve over an open pipe; drops fall from it while it is open."""
    where = position(look)
    y = 0.4
    shapes: list[Shape] = [
        *bow_tie(0.1, 0.7, y, 0.44, "solid" if where == "closed" else "edge"),
        Polyline(((0.7, y), (0.98, y), (0.98, 0.62)), "stroke"),
        Line((0.84, 0.62), (1.12, 0.62), "stroke"),
        Line((0.4, y), (0.4, 0.16), "stroke"),
    ]
    if where == "closed":
        shapes.append(Line((0.4, 0.24), (0.4, 0.02), "heavy"))
    elif where:
        shapes += [Line((0.2, 0.14), (0.6, 0.14), "heavy"), *drops((0.85, 0.74)), *drops((0.91, 0.86), 2)]
    return Symbol((1.2, 0.95), (Anchor("inlet", (0.1, y), "west"),), tuple(shapes), top=0.16)


def priming_pump(look: Look) -> Symbol:
    """A barrel with a plunger, drawn out while it is worked; drops from its nozzle once the engine is primed."""
    where = position(look)
    y = 0.62
    piston = 0.3 if where == "pumping" else 0.52
    shapes: list[Shape] = [
        Rect((0.14, 0.36), (0.62, 0.52), "edge"),
        Polyline(((0.76, y), (0.9, y)), "stroke"),
        Polyline(((0.9, y - 0.08), (1.02, y), (0.9, y + 0.08)), "edge", closed=True),
    ]
    if where:
        shapes += [
            Line((piston, 0.38), (piston, 0.86), "heavy"),
            Polyline(((piston, 0.46), (piston - 0.16, 0.46), (piston - 0.16, 0.1)), "stroke"),
        ]
        shapes.append(Line((piston - 0.28, 0.1), (piston - 0.04, 0.1), "heavy"))
    if look.states.get("primed"):
        shapes += fan((1.0, y), 0, 0.1, 0.34)
    ports = (Anchor("inlet", (0.14, y), "west"), Anchor(LINK_OUT, (1.02, y), "east"))
    return Symbol((1.4, 0.95), ports, tuple(shapes))


def fuel_flowmeter(look: Look) -> Symbol:
    """A dial in the pipe, with the pipe's arrow under its pivot."""
    part = share(look.readings.get("flow"), 0.0, look.wants.get("flow"))
    face = (*dial_face(""), triangle((0.66, 0.8), 0, 0.14, 0.16), Line((0.34, 0.8), (0.54, 0.8), "stroke"))
    return Symbol((1.0, 1.0), through(0.04, 0.96), (*face, *needle((0.5, 0.5), 0.34, part)))


def injection_carburettor(look: Look) -> Symbol:
    """A choke with a nozzle that sprays while it is fed; a bar at the inlet while it is starved."""
    fed = look.states.get("fed")
    shapes: list[Shape] = [
        Rect((0.1, 0.26), (0.5, 0.48), "edge", 0.05),
        Path((("M", (0.78, 0.0)), ("Q", (0.98, 0.5, 0.78, 1.0))), "stroke"),
        Path((("M", (1.4, 0.0)), ("Q", (1.2, 0.5, 1.4, 1.0))), "stroke"),
        Line((0.6, 0.5), (1.0, 0.5), "heavy"),
    ]
    if fed:
        shapes += [*fan((1.0, 0.5), 0, 0.06, 0.26, 40.0), Rect((0.16, 0.32), (0.38, 0.36), "fluid petrol", 0.03)]
    if fed is False:
        shapes += blocked((0.1, 0.5), 0, 0.2)
    return Symbol(
        (1.44, 1.0), (Anchor("inlet", (0.1, 0.5), "west"), Anchor(LINK_OUT, (1.4, 0.3), "east")), tuple(shapes)
    )


def slow_running_cut_out(look: Look) -> Symbol:
    """A needle over a jet: in the jet while it cuts, lifted while it is clear."""
    cutting = look.states.get("cutting")
    tip = {True: 0.72, False: 0.44, None: 0.58}[cutting]
    shapes: list[Shape] = [
        Polyline(((0.18, 0.62), (0.4, 0.62), (0.46, 0.94)), "stroke"),
        Polyline(((0.82, 0.62), (0.6, 0.62), (0.54, 0.94)), "stroke"),
        Line((0.5, tip - 0.2), (0.5, 0.06 if cutting is False else 0.14), "stroke"),
        Polyline(
            ((0.5, tip), (0.42, tip - 0.2), (0.58, tip - 0.2)), "ring" if cutting is None else "solid", closed=True
        ),
        Line((0.36, 0.06 if cutting is False else 0.14), (0.64, 0.06 if cutting is False else 0.14), "heavy"),
    ]
    if cutting is False:
        shapes += [Line((0.38, 0.72), (0.46, 0.56), "thin"), Line((0.62, 0.72), (0.54, 0.56), "thin")]
    ports = (Anchor(LINK_IN, (0.18, 0.5), "west"), Anchor(LINK_OUT, (0.82, 0.5), "east"))
    return Symbol((1.0, 1.0), ports, tuple(shapes))
