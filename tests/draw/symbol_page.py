"""A page of all symbols in all their states, to be looked at, and to be tested for words that lie over each other."""

from collections.abc import Iterable, Mapping
from itertools import chain

from cutaway.draw.measure import text_width
from cutaway.draw.shapes import Picture, Point, Rect, Shape, Text, placed
from cutaway.draw.symbols.symbol import UNIT, Look, Setting, Symbol
from cutaway.draw.symbols.table import symbol_of
from cutaway.parts.kind import Kind

NAMES = ("port tank", "starboard tank", "reserve")
WIDTH = 1900.0
CAPTION = 12.0
NAME = 15.0
GAP = 26.0
ENDS: Mapping[str, tuple[float, float]] = {
    "pressure": (0.0, 4.0e6),
    "current": (-40.0, 40.0),
    "temperature": (283.15, 393.15),
    "angular speed": (0.0, 300.0),
    "voltage": (0.0, 28.0),
    "angle": (0.0, 1.0),
}
"""Low and high readings, SI, where those of the part's quantities give none."""


def look_at(
    kind: Kind,
    places: Mapping[str, float | None] | float | None = 0.0,
    states: Mapping[str, bool] | None = None,
    share: float | None = None,
    moved: float | None = None,
) -> Look:
    """A part of a kind in some state. share: every reading as a part of its scale."""
    lists = dict.fromkeys(kind.lists, NAMES)
    controls = {
        c.name: Setting(
            c.positions + (NAMES if c.each else ()),
            places.get(c.name, 0.0) if isinstance(places, Mapping) else places,
            c.ranged,
        )
        for c in kind.controls
    }
    readings = {}
    if share is not None:
        for reading in kind.readings:
            low, high = ENDS.get(reading.dimension, (0.0, 1.0))
            readings[reading.name] = low + share * (high - low)
    wants = {w.name: ENDS.get(w.dimension, (0.0, 1.0))[1] for w in kind.wants} | {"capacity": 1.0}
    if "air pressure" in wants:
        wants["air pressure"] = 1.0e6
    return Look(lists, controls, states or {}, readings, wants, moved=share if moved is None else moved)


def states_of(kind: Kind) -> Iterable[tuple[str, Look]]:
    """Each state that is worth a picture, with its words."""
    found: list[tuple[str, Look]] = [("not known", look_at(kind, None))]
    for c in kind.controls:
        positions = c.positions + (NAMES if c.each else ())
        stops = (0.0, 0.5, 1.0) if c.ranged else tuple(float(i) for i in range(len(positions)))
        words = ("0 %", "50 %", "100 %") if c.ranged else positions
        others = {o.name: 1.0 if o.ranged else 0.0 for o in kind.controls}
        found += [(w, look_at(kind, {**others, c.name: s})) for w, s in zip(words, stops, strict=True)]
    every = chain.from_iterable(
        ((s.words, s.words, True), (s.opposite or f"not {s.words}", s.words, False)) for s in kind.states
    )
    found += [(words, look_at(kind, states={name: so}, share=0.7)) for words, name, so in every]
    if kind.readings and not kind.states:
        found += [(f"{100 * s:.0f} % of scale", look_at(kind, share=s)) for s in (0.0, 0.4, 0.9)]
    if not kind.controls and not kind.states and not kind.readings:
        found += [("position 1", look_at(kind, moved=1.0)), ("position 0", look_at(kind, moved=0.0))]
    return found


def different(cells: Iterable[tuple[str, Symbol]]) -> list[tuple[str, Symbol]]:
    """The cells, those that look the same as one; what has one look only needs no word."""
    found: dict[Symbol, list[str]] = {}
    for words, symbol in cells:
        found.setdefault(symbol, []).append(words)
    return [(" / ".join(words) if len(found) > 1 else "always", symbol) for symbol, words in found.items()]


def page(kinds: Iterable[Kind], name: str) -> Picture:
    """One row after the other: the kind's name, then its symbol in each state with the state's word below."""
    shapes: list[Shape] = []
    x, y, deepest = GAP, 40.0, 0.0
    for kind in kinds:
        cells = different((words, symbol_of(kind, look)) for words, look in states_of(kind))
        widths = [max(s.size[0] * UNIT, text_width(w, CAPTION)) + 12 for w, s in cells]
        wide = max(sum(widths), text_width(kind.name, NAME, bold=True)) + GAP
        high = max(s.size[1] for _, s in cells) * UNIT + NAME + CAPTION + 46
        if x + wide > WIDTH and x > GAP:
            x, y, deepest = GAP, y + deepest, 0.0
        shapes.append(_words((x, y), kind.name, "name", NAME, "start"))
        at = x
        for (words, symbol), width in zip(cells, widths, strict=True):
            corner = (at + (width - symbol.size[0] * UNIT) / 2, y + 12)
            shapes += placed(symbol.shapes, corner, UNIT)
            shapes.append(
                _words((at + width / 2, y + 12 + symbol.size[1] * UNIT + CAPTION + 4), words, "note", CAPTION, "middle")
            )
            at += width
        shapes.append(Rect((x - 8, y - 20), (wide - 10, high - 10), "none"))
        x, deepest = x + wide, max(deepest, high)
    return Picture(
        (WIDTH, y + deepest),
        tuple(s for s in shapes if not (isinstance(s, Rect) and s.role == "none")),
        name,
        name,
        (name,),
    )


def _words(at: Point, words: str, role: str, size: float, align: str) -> Text:
    width = text_width(words, size, bold=role == "name")
    return Text(at, words, role, size, "start" if align == "start" else "middle", width)
