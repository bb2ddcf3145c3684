"""The box of a kind that has no symbol: its ports, and small marks for how its controls and states stand."""

from dataclasses import replace

from cutaway.draw.shapes import Circle, Line, Point, Rect, Shape
from cutaway.draw.symbols.symbol import Anchor, Look, Setting, Symbol
from cutaway.parts.kind import Kind, Port, Side

STEP = 0.17
"""From the mark of one position to that of the next."""

ROW = 0.22
"""From the marks of one control to those of the next."""

SIDES: tuple[Side, ...] = ("west", "east", "north", "south")


def box(kind: Kind, ports: tuple[Port, ...], look: Look) -> Symbol:
    """A plain box, large enough for its ports and marks.

    A row of rings stands for a control, the filled one for its position; a bar with a runner for one that moves through
    a range; below them a row of squares for what is so (filled) and what is not (open).
    """
    most = max(sum(1 for p in ports if p.side == side) for side in SIDES)
    rows = [look.controls[c.name] for c in kind.controls if c.name in look.controls]
    widest = max((_length(row) for row in rows), default=0.0)
    widest = max(widest, STEP * (len(kind.states) - 1))
    height = ROW * (len(rows) + bool(kind.states))
    size = (max(1.0, 0.4 * most, widest + 0.3), max(1.0, 0.4 * most, height + 0.3))
    y = (size[1] - height) / 2 + ROW / 2
    shapes: list[Shape] = [Rect((0.0, 0.0), size, "box", 0.06)]
    for row in rows:
        shapes += _range((size[0] / 2, y), row) if row.ranged else _places((size[0] / 2, y), row)
        y += ROW
    shapes += _facts((size[0] / 2, y), kind, look)
    return Symbol(size, (), tuple(shapes))


def _length(row: Setting) -> float:
    return 3 * STEP if row.ranged else STEP * (len(row.positions) - 1)


def _places(middle: Point, setting: Setting) -> tuple[Shape, ...]:
    """A ring for each position; filled where the control stands."""
    left = middle[0] - _length(setting) / 2
    here = None if setting.place is None else round(setting.place)
    return tuple(
        Circle((left + STEP * i, middle[1]), 0.065 if i == here else 0.05, "solid" if i == here else "edge")
        for i in range(len(setting.positions))
    )


def _range(middle: Point, setting: Setting) -> tuple[Shape, ...]:
    """A bar, and a runner as far along it as the control stands."""
    left, length = middle[0] - _length(setting) / 2, _length(setting)
    bar = Line((left, middle[1]), (left + length, middle[1]), "stroke")
    if setting.place is None:
        return (bar,)
    x = left + length * min(1.0, max(0.0, setting.place))
    return bar, Line((x, middle[1] - 0.09), (x, middle[1] + 0.09), "heavy")


def _facts(middle: Point, kind: Kind, look: Look) -> tuple[Shape, ...]:
    """A small square for each state that is known, filled and larger where it is so."""
    known = [look.states[s.words] for s in kind.states if s.words in look.states]
    shapes: list[Shape] = []
    for i, so in enumerate(known):
        half = 0.07 if so else 0.05
        x = middle[0] + STEP * (i - (len(known) - 1) / 2)
        shapes.append(Rect((x - half, middle[1] - half), (2 * half, 2 * half), "solid" if so else "edge"))
    return tuple(shapes)


def completed(symbol: Symbol, ports: tuple[Port, ...]) -> Symbol:
    """The symbol with an anchor, evenly placed along the side, for each port that it says nothing of."""
    told = {(a.port, a.side) for a in symbol.anchors}
    found = list(symbol.anchors)
    for side in SIDES:
        missing = [p for p in ports if p.side == side and (p.name, side) not in told]
        found += [
            Anchor(p.name, _along(symbol.size, side, (i + 1) / (len(missing) + 1)), side) for i, p in enumerate(missing)
        ]
    return replace(symbol, anchors=tuple(found))


def _along(size: Point, side: Side, part: float) -> Point:
    width, height = size
    return {
        "west": (0.0, height * part),
        "east": (width, height * part),
        "north": (width * part, 0.0),
        "south": (width * part, height),
    }[side]
