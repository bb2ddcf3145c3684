"""A part as it stands on a sheet: its symbol with the words below it, as a box with pins."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from cutaway.draw.about import ABOUT_SIZE, About
from cutaway.draw.layout import Box, Pin
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.plan import Item, Tie
from cutaway.draw.shapes import Group, Line, Point, Rect, Shape, Text, placed
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, UNIT, Anchor, Symbol
from cutaway.handbook.records import Part
from cutaway.parts.kind import Side

NAME_SIZE = 16.0
NOTE_SIZE = 14.5
SMALL_SIZE = 14.5
STATION_SIZE = 14.5
LEADING = 1.18
NAME_WIDTH = 160.0
FLAG_WIDTH = 190.0
GAP = 6.0
BESIDE = 13.0
"""Between the words of a reference and its edges, and between words and a line that runs down beside them."""

DOUBLED = 5.0
"""Between the two strokes of a doubled edge."""

APART_IN = 0.26
"""Between the places where couplings from several parts come in, in units."""

UNNAMED = 0.3
"""A symbol smaller than this, in units, has no words beside it: its name is in its title."""


@dataclass(frozen=True, slots=True)
class Label:
    """Words to be set in a column below a symbol. reserved: the width that any state may need. station: named below
    them, on one of the parts of an area. about: said in grey between them."""

    names: tuple[str, ...]
    lines: int
    reserved: float
    station: str = ""
    about: About = field(default_factory=About)

    @property
    def height(self) -> float:
        """Of all lines that can ever stand here."""
        words = len(self.names) * NAME_SIZE + self.lines * NOTE_SIZE
        return (words + self.about.most * ABOUT_SIZE + bool(self.station) * STATION_SIZE) * LEADING


@dataclass(frozen=True, slots=True)
class Block:
    """box: for the layout. shift: the symbol's corner in the box. middle: of the words. top: where the words begin.

    targets: by pin, where on the box its wire really ends (at the symbol, not at the box's edge). leads: by pin, where
    the wire goes on from there within the symbol. links: by the name of a coupling, the pin at which it comes in.
    """

    item: Item
    box: Box
    symbol: Symbol | None
    shift: Point
    label: Label
    middle: float
    top: float
    targets: Mapping[str, Point]
    leads: Mapping[str, tuple[Point, ...]] = field(default_factory=dict)
    links: Mapping[str, str] = field(default_factory=dict)


def part_block(item: Item, symbol: Symbol, label: Label, ties: Iterable[Tie]) -> Block:
    """The block of a part of the sheet's own system."""
    here = [t for t in ties if item.key in (t.start.item, t.end.item) and not t.along]
    width, height = symbol.size[0] * UNIT, symbol.size[1] * UNIT
    small = max(symbol.size) < UNNAMED
    words = 0.0 if small else label.reserved
    south = max((a.at[0] * UNIT for a in symbol.anchors if a.side == "south"), default=None)
    if south is None:
        axis = width / 2 if symbol.axis is None else symbol.axis * UNIT
        left = max(0.0, words / 2 - axis)
        middle, full = left + axis, left + max(width, axis + words / 2)
    else:
        left, middle, full = 0.0, south + BESIDE + words / 2, max(width, south + BESIDE + words)
    size = (full, height if small else height + GAP + label.height)
    shift = (left, 0.0)
    if symbol.spread:
        return _bar_block(item, symbol, label, here)
    sources = _sources(item, here)
    anchors = _links_apart(
        (*symbol.anchors, *_link_anchors(item, symbol, here)), symbol, max(sources.values(), default=0)
    )
    pins, targets = _pins(anchors, size, shift)
    leads = {pin_name(a.port, a.side): tuple(_on_box(p, shift) for p in a.lead) for a in anchors if a.lead}
    side: Side = next((a.side for a in anchors if a.port == LINK_IN), "west")
    links = {tie: pin_name(_way_in(rank), side) for tie, rank in sources.items()}
    return Block(item, Box(item.key, size, pins), symbol, shift, label, middle, height + GAP, targets, leads, links)


def _bar_block(item: Item, symbol: Symbol, label: Label, ties: Iterable[Tie]) -> Block:
    """The block of a bar that lines join where they come: its words hang below it, out of their way."""
    width, height = symbol.size[0] * UNIT, symbol.size[1] * UNIT
    pins, targets = _spread_pins(item, symbol, ties)
    box = Box(item.key, (width, height), pins, (label.reserved, label.height + GAP))
    return Block(item, box, symbol, (0.0, 0.0), label, width / 2, height + GAP, targets)


def _on_box(point: Point, shift: Point) -> Point:
    """A point of a symbol on its box."""
    return (point[0] * UNIT + shift[0], point[1] * UNIT + shift[1])


def _pins(anchors: Iterable[Anchor], size: Point, shift: Point) -> tuple[tuple[Pin, ...], dict[str, Point]]:
    pins: list[Pin] = []
    targets: dict[str, Point] = {}
    for anchor in anchors:
        at = _on_box(anchor.at, shift)
        edge = {"west": (0.0, at[1]), "east": (size[0], at[1]), "north": (at[0], 0.0), "south": (at[0], size[1])}
        name = pin_name(anchor.port, anchor.side)
        pins.append(Pin(name, anchor.side, edge[anchor.side]))
        targets[name] = at
    return tuple(pins), targets


def _spread_pins(item: Item, symbol: Symbol, ties: Iterable[Tie]) -> tuple[tuple[Pin, ...], dict[str, Point]]:
    """One pin a tie, free along its side; the height of the target is the layout's."""
    pins: list[Pin] = []
    targets: dict[str, Point] = {}
    for tie in ties:
        for side, end in (("east", tie.start), ("west", tie.end)):
            if end.item == item.key:
                name = f"{side} of {tie.name}"
                pins.append(Pin(name, "east" if side == "east" else "west", None))
                targets[name] = (symbol.size[0] * UNIT if side == "east" else 0.0, 0.0)
    return tuple(pins), targets


def _link_anchors(item: Item, symbol: Symbol, ties: Iterable[Tie]) -> tuple[Anchor, ...]:
    """Where couplings that carry nothing come in and go out: on a side that has no port, else on top."""
    told = {a.port for a in symbol.anchors}
    sides = {a.side for a in symbol.anchors if a.port not in (LINK_IN, LINK_OUT)}
    width, height = symbol.size
    middle = width / 2 if symbol.axis is None else symbol.axis
    aside = (width - middle) * 0.16
    links = [t for t in ties if t.sort == "link"]
    found = []
    if LINK_IN not in told and any(t.end.item == item.key for t in links):
        beside = "west" not in sides
        at = (0.0, height / 2) if beside else (middle - aside, symbol.top)
        found.append(Anchor(LINK_IN, at, "west" if beside else "north"))
    if LINK_OUT not in told and any(t.start.item == item.key and not t.start.port for t in links):
        beside = "east" not in sides
        at = (width, height / 2) if beside else (middle + aside, symbol.top)
        found.append(Anchor(LINK_OUT, at, "east" if beside else "north"))
    return tuple(found)


def _sources(item: Item, ties: Iterable[Tie]) -> dict[str, int]:
    """By the name of each coupling that comes in, the number of its source. What comes from one place may branch; what
    comes from several must not run together, or nobody sees which of them does what."""
    ranks: dict[tuple[str, str], int] = {}
    found = {}
    for tie in ties:
        if tie.sort == "link" and tie.end.item == item.key:
            found[tie.name] = ranks.setdefault((tie.start.item, tie.start.port), len(ranks))
    return found


def _way_in(rank: int) -> str:
    return f"{LINK_IN} {rank + 1}" if rank else LINK_IN


def _links_apart(anchors: Iterable[Anchor], symbol: Symbol, last: int) -> tuple[Anchor, ...]:
    """The anchors, with one way in for each source: side by side about the place of the first."""
    found: list[Anchor] = []
    for anchor in anchors:
        if anchor.port != LINK_IN or not last:
            found.append(anchor)
            continue
        axis = 1 if anchor.side in ("west", "east") else 0
        room = min(anchor.at[axis], symbol.size[axis] - anchor.at[axis])
        step = min(APART_IN, 2 * room / (last + 1))
        for rank in range(last + 1):
            moved = anchor.at[axis] + (rank - last / 2) * step
            at = (anchor.at[0], moved) if axis else (moved, anchor.at[1])
            found.append(replace(anchor, port=_way_in(rank), at=at))
    return tuple(found)


def reference_block(item: Item, tie: Tie) -> Block:
    """The block of parts of another system: a box whose edge is doubled on the side where the tie joins it."""
    names = tuple(n for label in item.labels for n in wrapped(label, NOTE_SIZE, FLAG_WIDTH, bold=True, even=True))
    system = f"see {item.sheet}"
    words = max(*(text_width(n, NOTE_SIZE, bold=True) for n in names), text_width(system, SMALL_SIZE))
    label = Label(names, 1, words)
    size = (words + 2 * BESIDE, len(names) * NOTE_SIZE * LEADING + SMALL_SIZE * LEADING + 12.0)
    side: Side = "east" if tie.start.item == item.key else "west"
    at = (size[0] if side == "east" else 0.0, size[1] / 2)
    return Block(
        item, Box(item.key, size, (Pin("flag", side, at),)), None, (0.0, 0.0), label, size[0] / 2, 6.0, {"flag": at}
    )


def pin_of(block: Block, tie: Tie) -> str:
    """The pin of a block that a tie joins."""
    leaving = tie.start.item == block.item.key
    end = tie.start if leaving else tie.end
    if block.symbol is None:
        return "flag"
    if block.symbol.spread:
        return f"{'east' if leaving else 'west'} of {tie.name}"
    if not end.port:
        if not leaving and tie.name in block.links:
            return block.links[tie.name]
        name = LINK_OUT if leaving else LINK_IN
        return next(pin.name for pin in block.box.pins if pin.name.startswith(name))
    sides = [a.side for a in block.symbol.anchors if a.port == end.port]
    wanted: Side = "east" if leaving else "west"
    return pin_name(end.port, wanted if wanted in sides else sides[0])


def pin_name(port: str, side: Side) -> str:
    """The name of a pin: a port may have one on each of two sides."""
    return f"{port} {side}"


def part_shapes(block: Block, corner: Point, notes: tuple[str, ...]) -> Group:
    """The symbol with its words where the layout put it."""
    assert block.symbol is not None
    part = block.item.part
    at = (corner[0] + block.shift[0], corner[1] + block.shift[1])
    shapes: list[Shape] = list(placed(block.symbol.shapes, at, UNIT))
    if max(block.symbol.size) >= UNNAMED:
        shapes += _words(block, corner, notes)
    return Group(tuple(shapes), "part", name=part.name, part=part.name, title=part_title(part, notes))


def part_title(part: Part, notes: tuple[str, ...]) -> str:
    """Name and state, then where the part is and what is painted on it."""
    about = [words for words in (part.station, f"marked {part.marked}" if part.marked else "") if words]
    state = f": {', '.join(notes)}" if notes else ""
    return f"{part.name}{state}" + (f" ({'; '.join(about)})" if about else "")


def _words(block: Block, corner: Point, notes: tuple[str, ...]) -> list[Shape]:
    x, y = corner[0] + block.middle, corner[1] + block.top
    shapes: list[Shape] = []
    for name in block.label.names:
        y += NAME_SIZE * LEADING
        shapes.append(fitted_text((x, y - 4), name, "name", NAME_SIZE, block.label.reserved))
    for note in notes:
        y += NOTE_SIZE * LEADING
        shapes.append(fitted_text((x, y - 4), note, "note", NOTE_SIZE, block.label.reserved))
    for line in block.label.about.lines:
        y += ABOUT_SIZE * LEADING
        shapes.append(fitted_text((x, y - 4), line, "quiet", ABOUT_SIZE, block.label.reserved))
    return shapes


def fitted_text(at: Point, words: str, role: str, size: float, most: float) -> Text:
    """Words about a middle, told how wide they are so that no other font can make them wider than `most`."""
    width = min(text_width(words, size, bold=role == "name"), most)
    return Text(at, words, role, size, "middle", width)


def reference_shapes(block: Block, corner: Point) -> Group:
    """The flag where the layout put it."""
    (x, y), (width, height) = corner, block.box.size
    inner = x + width - DOUBLED if block.box.pins[0].side == "east" else x + DOUBLED
    middle = x + width / 2
    shapes: list[Shape] = [
        Rect((x, y), (width, height), "flag", 2.0),
        Line((inner, y), (inner, y + height), "rule"),
    ]
    line = y + 4.0
    for name in block.label.names:
        line += NOTE_SIZE * LEADING
        shapes.append(fitted_text((middle, line - 3), name, "name", NOTE_SIZE, block.label.reserved))
    system = f"see {block.item.sheet}"
    shapes.append(
        fitted_text((middle, line + SMALL_SIZE * LEADING - 2), system, "quiet", SMALL_SIZE, block.label.reserved)
    )
    names = list(dict.fromkeys(str(part.name) for part in block.item.parts))
    title = f"{', '.join(block.item.labels)}, on the sheet {block.item.sheet}"
    return Group(tuple(shapes), "reference", reference="; ".join(names), title=title)
