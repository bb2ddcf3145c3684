"""One thing on a panel: how it looks, what is painted on it, its name, how it stands; measured before it is placed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from cutaway.draw.blocks import part_title
from cutaway.draw.extent import extent_of
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.seen import notes_of, setting_words, unit_of
from cutaway.draw.shapes import Group, Point, Rect, Shape, Text, placed
from cutaway.draw.strip import text_at
from cutaway.draw.symbols.handles import ACROSS, Form, form_of, handle, levels
from cutaway.draw.symbols.positions import as_they_lie
from cutaway.draw.symbols.strokes import triangle
from cutaway.draw.symbols.symbol import Look, Setting
from cutaway.draw.symbols.table import symbol_of
from cutaway.handbook.records import Part
from cutaway.parts.kind import Kind

FACE = 78.0
"""How large the face of a thing is drawn."""
BROADEST = 112.0
"""How broad a face may be that is broader than high."""
LENS = 1.15
"""How much larger than on a sheet a lamp is drawn."""
WORDS = 15.0
NAME = 15.5
LEADING = 1.24
PAD = 8.0
BETWEEN = 14.0
"""What is kept between positions that stand side by side."""
WIDTH = 150.0
"""The least width of a cell, so that what stands above one another is in line."""
WIDEST = 300.0


@dataclass(frozen=True, slots=True)
class Panelled:
    """A part on a panel, with all that is known of it. notes: how it stands, in words. ever: the same in each
    state that asks for the most room, so that a panel is the same size in all."""

    part: Part
    kind: Kind
    look: Look
    notes: tuple[str, ...]
    ever: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """A part as it is drawn, its corner at 0, 0. told: the same in words."""

    part: Part
    size: Point
    shapes: tuple[Shape, ...]
    told: str
    title: str


def panelled(part: Part, kind: Kind, look: Look, house: Mapping[str, str], known: bool) -> Panelled:
    """A part with its words; none where no state is known."""
    if any(state.words in ("lit", "sounding") for state in kind.states):
        kind = replace(kind, readings=())  # nobody reads amperes off a lamp or a horn
    elif any(state.words == "running" for state in kind.states):
        # Of an engine only what is heard of it: what else it does stands on its gauges.
        kind = replace(kind, readings=tuple(reading for reading in kind.readings if reading.main))
    elif len({reading.dimension for reading in kind.readings}) < len(kind.readings):
        # Of several needles each is named, the first too.
        kind = replace(kind, readings=tuple(replace(reading, main=False) for reading in kind.readings))
    ever = tuple(notes_of(kind, one, house) for one in _extremes(kind, look, house))
    return Panelled(part, kind, look, notes_of(kind, look, house) if known else (), ever)


def _extremes(kind: Kind, look: Look, house: Mapping[str, str]) -> Iterator[Look]:
    """The part with all that can be so or not, and with readings of four digits or none."""
    for so in (True, False):
        for read in (True, False):
            states = {state.words: so for state in kind.states}
            units = {one.name: unit_of(one, house) for one in kind.readings} if read else {}
            readings = {name: 1234.0 * unit.size + unit.zero for name, unit in units.items()}
            yield replace(look, controls={}, states=states, readings=readings)


def cells_of(one: Panelled, known: bool) -> tuple[Cell, ...]:
    """The cells of a part: one for what it shows, one for each of its controls."""
    controls = one.look.controls
    found: list[Cell] = []
    if one.kind.indicates and not _is_mere_control(one):
        notes = tuple(note for note in one.notes if not _of_control(note, controls))
        found.append(_cell(one, _symbol(one), str(one.part.name), notes, one.ever))
    for name, setting in controls.items():
        label = f"{one.part.name} {name}" if name and name not in str(one.part.name) else str(one.part.name)
        stands = setting_words(setting) if known else ""
        # What a button can be needs no list: one word below it, as with a lamp.
        plain = form_of(one.kind.name, setting) == "button"
        below = (stands,) if plain and stands else ()
        ever = tuple((word,) for word in setting.positions) if plain else ()
        found.append(_cell(one, _control(one, setting, known), label, below, ever, stands))
    return tuple(found)


def _is_mere_control(one: Panelled) -> bool:
    """Whether all that it shows is how its control stands, as with a breaker."""
    return bool(one.look.controls) and one.kind.name == "circuit breaker"


def _of_control(note: str, controls: Mapping[str, Setting]) -> bool:
    return note.startswith("set to ") or any(name and note.startswith(f"{name}: ") for name in controls)


def _symbol(one: Panelled) -> tuple[tuple[Shape, ...], float]:
    """The face of what shows something, and its width."""
    symbol = symbol_of(one.kind, one.look)
    scale = min(FACE / symbol.size[1], BROADEST / symbol.size[0])
    if any(state.words == "lit" for state in one.kind.states):
        # On a sheet a lamp is small beside its wires; on a panel it is what is looked for.
        wide = symbol.size[0] * scale
        return placed(symbol.shapes, (wide * (1 - LENS) / 2, FACE * (1 - LENS) / 2), scale * LENS), wide
    return placed(symbol.shapes, (0.0, 0.0), scale), symbol.size[0] * scale


def _control(one: Panelled, given: Setting, known: bool) -> tuple[tuple[Shape, ...], float]:
    """A handle, and its positions as they lie, with a mark at the one where it stands: below it those that lie from
    left to right, beside it those that lie from the foot up."""
    setting = as_they_lie(given if known else _unknown(given), one.part.marked)
    form = form_of(one.kind.name, setting)
    here = setting_words(setting)
    if form == "button":
        return placed(handle(form, setting), (0.0, 0.0), FACE), FACE
    drawn, broad = (placed(handle(form, setting), (0.0, 0.0), FACE), FACE) if form != "symbol" else _symbol(one)
    if form in ACROSS:
        words, wide = _in_a_row(setting.positions, here)
        if wide <= WIDEST - 2 * PAD:
            broad = max(FACE, wide)
            return (*placed(drawn, ((broad - FACE) / 2, 0.0)), *placed(words, ((broad - wide) / 2, FACE))), broad
    more, wide = _in_a_column(form, setting, here)
    return (*drawn, *placed(more, (broad, 0.0))), broad + wide


def _in_a_row(words: tuple[str, ...], here: str) -> tuple[tuple[Shape, ...], float]:
    """Positions side by side, under the foot of a handle, and how wide they are; each has room to be the bold one."""
    shapes: list[Shape] = []
    x = 0.0
    for word in words:
        wide = text_width(word, WORDS, bold=True)
        role = "strong" if word == here else "quiet"
        shapes.append(_centred(word, (x + wide / 2, 12.0 + WORDS), role, WORDS))
        if word == here:
            shapes.append(triangle((x + wide / 2, 3.0), 90.0, 9.0, 9.0))
        x += wide + BETWEEN
    return tuple(shapes), x - BETWEEN


def _in_a_column(form: Form, setting: Setting, here: str) -> tuple[tuple[Shape, ...], float]:
    """Positions under one another, to stand beside a handle: from the last to the first, so that they lie as it moves;
    those that lie from left to right are read from above."""
    words = list(setting.positions if form in ACROSS else reversed(setting.positions))
    if setting.ranged and here and here not in words:
        words.insert(next((i for i, word in enumerate(words) if _level(setting, word) < (setting.place or 0.0)),
                          len(words)), here)  # fmt: skip
    step = WORDS * LEADING
    lines = [(FACE - step * len(words)) / 2 + WORDS * 0.86 + step * i for i in range(len(words))]
    if form == "quadrant":
        lines = [FACE * level + WORDS * 0.34 for level in reversed(levels(setting))]
    shapes: list[Shape] = []
    for word, y in zip(words, lines, strict=True):
        shapes.append(text_at((18.0, y), word, "strong" if word == here else "quiet", WORDS))
        if word == here:
            shapes.append(triangle((13.0, y - WORDS * 0.34), 0.0, 10.0, 10.0))
    words += ["100 %"] if setting.ranged else []
    return tuple(shapes), 18.0 + max((text_width(word, WORDS, bold=True) for word in words), default=0.0)


def _level(setting: Setting, word: str) -> float:
    """Where a named position of a control that moves through a range stands, evenly."""
    return setting.positions.index(word) / max(1, len(setting.positions) - 1)


def _unknown(setting: Setting) -> Setting:
    return Setting(setting.positions, None, setting.ranged)


def _cell(
    one: Panelled,
    face: tuple[tuple[Shape, ...], float],
    label: str,
    notes: tuple[str, ...],
    ever: tuple[tuple[str, ...], ...],
    stands: str = "",
) -> Cell:
    """Face, plate, name and notes, one under the other about the middle of the cell."""
    drawn, wide = face
    room = max(WIDTH - 2 * PAD, min(wide, WIDEST))
    plate = wrapped(one.part.marked, WORDS, room - 16.0, bold=True) if one.part.marked else ()
    names = wrapped(label, NAME, room, bold=True)
    lines = tuple(line for note in notes for line in wrapped(note, WORDS, room))
    widest = [text_width(line, NAME, bold=True) for line in names]
    widest += [text_width(line, WORDS, bold=True) + 16.0 for line in plate]
    widest += [text_width(line, WORDS) for line in lines]
    possible = [[line for note in notes for line in wrapped(note, WORDS, room)] for notes in ever]
    widest += [text_width(line, WORDS) for some in possible for line in some]
    most = max((len(some) for some in possible), default=0)
    width = max(room, *widest) + 2 * PAD
    middle = width / 2
    shapes: list[Shape] = list(placed(drawn, (middle - wide / 2, PAD)))
    # The rays of a lit lamp reach further, but not into the name.
    y = PAD + max(FACE, extent_of(shape for shape in drawn if isinstance(shape, Text)).bottom) + 8.0
    if plate:
        high = len(plate) * WORDS * LEADING + 8.0
        broad = max(text_width(line, WORDS, bold=True) for line in plate) + 16.0
        shapes.append(Rect((middle - broad / 2, y), (broad, high), "flag", 3.0))
        for i, line in enumerate(plate):
            shapes.append(_centred(line, (middle, y + 4.0 + WORDS * (0.92 + LEADING * i)), "strong", WORDS))
        y += high + 5.0
    for line in names:
        y += NAME * LEADING
        shapes.append(_centred(line, (middle, y - 4.0), "name", NAME))
    for line in lines:
        y += WORDS * LEADING
        shapes.append(_centred(line, (middle, y - 4.0), "note", WORDS))
    y += max(0, most - len(lines)) * WORDS * LEADING
    marked = f" (marked {one.part.marked})" if one.part.marked else ""
    state = f" {stands}" if stands else f" {', '.join(notes)}" if notes else ""
    title = part_title(one.part, one.notes)
    return Cell(one.part, (width, y + PAD), tuple(shapes), f"{label}{marked}{':' if state else ''}{state}", title)


def _centred(words: str, at: Point, role: str, size: float) -> Text:
    return Text(at, words, role, size, "middle", text_width(words, size, bold=role in ("name", "strong")))


def cell_at(cell: Cell, corner: Point, name: str) -> Group:
    """The cell where the panel has it."""
    return Group(placed(cell.shapes, corner), "part", name=name, part=str(cell.part.name), title=cell.title)
