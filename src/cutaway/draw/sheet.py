"""One system of one standard as a sheet: what is live, how everything is set, what lamps and gauges show."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.draw.alternative import description
from cutaway.draw.blocks import (
    NAME_SIZE,
    NAME_WIDTH,
    NOTE_SIZE,
    Block,
    Label,
    part_block,
    part_shapes,
    pin_of,
    reference_block,
    reference_shapes,
)
from cutaway.draw.elk import SECONDS, NoLayout, elk_layout
from cutaway.draw.layout import Layout, Request, Wire, cache_folder, keep, recalled
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.pipes import Routes, joint_shapes, link_shapes, pipe_shapes
from cutaway.draw.plain import plain_layout
from cutaway.draw.plan import Item, Plan, make_plan
from cutaway.draw.seen import LineSeen, Values, lines_seen, look_of, nominal_volts, notes_of, wants_of, widest_notes
from cutaway.draw.shapes import Group, Picture, Point, Shape, placed
from cutaway.draw.strip import MARGIN, foot_shapes, head_shapes, keys_for
from cutaway.draw.svg import write_svg
from cutaway.draw.symbols.symbol import Look
from cutaway.draw.symbols.table import symbol_of
from cutaway.draw.theme import MEDIA, Manner
from cutaway.handbook.records import Folder, Part
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.which import StandardName

WIDTH = 1600.0
SHAPE = 16 / 9
SHAPES = {"16:9": SHAPE, "A4": 297 / 210, "square": 1.0}
"""The shapes of pages that sheets are made for."""
LARGEST = 1.4
"""How much a small system is enlarged at most."""

NOTICE = "An interpretation for talks on the ground. Not flight, maintenance or operating advice."
SYMBOLS_REMARK = "Symbols are our own and not those of the handbook; needles show more or less, not figures."


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing before its words: the plan, where it went, what is known of each part."""

    plan: Plan
    blocks: Mapping[str, Block]
    layout: Layout
    routes: Routes
    notes: Mapping[str, tuple[str, ...]]


def make_sheet(
    folder: Folder,
    standard: StandardName,
    system: str,
    values: Values | None,
    kinds: Mapping[str, Kind],
    theme: Manner = "light",
    says: str = "",
    cache: Path | None = None,
    shape: float = SHAPE,
) -> tuple[str, Problems]:
    """One system's sheet as an SVG file; '' where there is nothing to draw. The same arguments give the same bytes."""
    picture, problems = sheet_picture(folder, standard, system, values, kinds, says, cache, shape=shape)
    return write_svg(picture, theme) if picture is not None else "", problems


def sheet_picture(
    folder: Folder,
    standard: StandardName,
    system: str,
    values: Values | None,
    kinds: Mapping[str, Kind],
    says: str = "",
    cache: Path | None = None,
    name: str = "",
    shape: float = SHAPE,
) -> tuple[Picture | None, Problems]:
    """One system's sheet; None where there is nothing to draw.

    standard: a standard or an airframe. values: signal names of a run (`machine/names.py`) with their values at one
    instant, or None for the system at rest with no state. says: the situation in words. cache: where layouts are kept
    (None: the user's own cache folder). name: what ids begin with; sheets on one page need different ones. shape: the
    page's width by its height.
    """
    subject, problems = _subject(folder, standard, system)
    if subject is None:
        return None, problems
    plan = make_plan(folder, subject, system, kinds)
    if not any(not item.reference for item in plan.items):
        return None, (_nothing_there(folder, standard, system),)
    house = dict(folder.type.house_units)
    looks = {item.key: _look(item, plan, kinds, subject, values) for item in plan.items}
    blocks = {i.key: _block(i, plan, kinds[i.part.kind], looks[i.key], house) for i in plan.items}
    layout, problems = laid_out(_request(plan, blocks), cache or cache_folder())
    notes = {i.key: notes_of(kinds[i.part.kind], looks[i.key], house) for i in plan.items if values is not None}
    drawn = Drawn(plan, blocks, layout, _routes(plan, blocks, layout), notes)
    picture = _picture(folder, subject, system, drawn, values, kinds, says, shape)
    return replace(picture, name=name or picture.name), problems


def _subject(folder: Folder, standard: StandardName, system: str) -> tuple[Subject | None, Problems]:
    every = {s.name: s for s in subjects(folder)}
    if standard not in every:
        known = ", ".join(every)
        return None, (
            Diagnostic("D103", None, f"There is no standard '{standard}' to draw.", f"Write one of {known}."),
        )
    if system not in {s.name for s in folder.systems}:
        known = ", ".join(s.name for s in folder.systems)
        return None, (Diagnostic("D104", None, f"There is no system '{system}' to draw.", f"Write one of {known}."),)
    return every[standard], ()


def _nothing_there(folder: Folder, standard: str, system: str) -> Diagnostic:
    words = f"The system '{system}' has no parts on {standard}, so there is no sheet of it."
    return Diagnostic("D105", None, words, "Draw it for a standard that has it.")


def _look(item: Item, plan: Plan, kinds: Mapping[str, Kind], subject: Subject, values: Values | None) -> Look:
    lines = [t for t in plan.ties if t.sort == "line"]
    joined = (sum(t.end.item == item.key for t in lines), sum(t.start.item == item.key for t in lines))
    look = look_of(item.part, kinds[item.part.kind], subject, values, joined)
    return replace(look, wants={**_wants_of_coupled(item.part, plan, kinds, subject), **look.wants})


def _wants_of_coupled(part: Part, plan: Plan, kinds: Mapping[str, Kind], subject: Subject) -> dict[str, float]:
    """The quantities of what a part is coupled to: a contents gauge's scale ends at its tank's capacity."""
    others = {t.start.part for t in plan.all_ties if t.sort == "link" and t.end.part == part.name}
    found: dict[str, float] = {}
    for other in (item.part for item in plan.items if item.part.name in others):
        found |= wants_of(other, kinds[other.kind], subject)
    return found


def _block(item: Item, plan: Plan, kind: Kind, look: Look, house: Mapping[str, str]) -> Block:
    if item.reference:
        tie = next(t for t in plan.ties if item.key in (t.start.item, t.end.item))
        return reference_block(item, tie)
    symbol = symbol_of(kind, look)
    names = wrapped(item.part.name, NAME_SIZE, NAME_WIDTH, bold=True)
    lines = widest_notes(kind, look, house)
    widest = [text_width(n, NAME_SIZE, bold=True) for n in names]
    widest += [text_width(w, NOTE_SIZE) for line in lines for w in line]
    return part_block(item, symbol, Label(names, len(lines), max(widest)), plan.ties)


def _request(plan: Plan, blocks: Mapping[str, Block]) -> Request:
    wires = tuple(
        Wire(
            tie.name,
            (tie.start.item, pin_of(blocks[tie.start.item], tie)),
            (tie.end.item, pin_of(blocks[tie.end.item], tie)),
            tie.sort == "line",
        )
        for tie in plan.ties
        if not tie.along
    )
    return Request(tuple(blocks[item.key].box for item in plan.items), wires)


def laid_out(request: Request, cache: Path, seconds: float = SECONDS) -> tuple[Layout, Problems]:
    """The layout of a request: kept from before, by the library, or plain with a problem that says why."""
    kept = recalled(request, cache)
    if kept is not None:
        return kept, ()
    found = elk_layout(request, seconds)
    if not isinstance(found, NoLayout):
        keep(request, found, cache)
        return found, ()
    if found.missing:
        words = "The layout library is not in this installation, so sheets are laid out plainly, with more crossings."
        hint = "Install the package again with a network, or run `python hatch_build.py` in its source folder."
        return plain_layout(request), (Diagnostic("D101", None, words, hint),)
    words = f"The layout library could not lay out this sheet ({found.words}), so it is laid out plainly."
    return plain_layout(request), (Diagnostic("D102", None, words, "Split the system into two files of `systems/`."),)


def _routes(plan: Plan, blocks: Mapping[str, Block], layout: Layout) -> Routes:
    """The layout's routes, led on from the box's edge to the symbol itself."""
    corners = dict(layout.corners)
    found = dict(layout.routes)
    routes = {}
    for tie in plan.ties:
        points = found.get(tie.name, ())
        if points:
            start = _target(
                blocks[tie.start.item], corners[tie.start.item], pin_of(blocks[tie.start.item], tie), points[0]
            )
            end = _target(blocks[tie.end.item], corners[tie.end.item], pin_of(blocks[tie.end.item], tie), points[-1])
            routes[tie.name] = _without_idle_points((start, *points, end))
    return routes | {tie.name: routes[tie.along] for tie in plan.ties if tie.along in routes}


def _target(block: Block, corner: Point, pin: str, edge: Point) -> Point:
    x, y = block.targets[pin]
    side = next(p.side for p in block.box.pins if p.name == pin)
    return (corner[0] + x, edge[1]) if side in ("west", "east") else (edge[0], corner[1] + y)


def _without_idle_points(points: Sequence[Point]) -> tuple[Point, ...]:
    """The route without points at which it does not turn."""
    kept: list[Point] = []
    for i, point in enumerate(points):
        if kept and math.dist(kept[-1], point) < 0.01:
            continue
        if kept and i + 1 < len(points):
            after = next((p for p in points[i + 1 :] if math.dist(p, point) >= 0.01), None)
            if after is not None and any(abs(kept[-1][a] - point[a]) + abs(point[a] - after[a]) < 0.01 for a in (0, 1)):
                continue
        kept.append(point)
    return tuple(kept)


def _picture(
    folder: Folder,
    subject: Subject,
    system: str,
    drawn: Drawn,
    values: Values | None,
    kinds: Mapping[str, Kind],
    says: str,
    shape: float,
) -> Picture:
    plan = drawn.plan
    seen = lines_seen(plan, values, nominal_volts(folder, subject, kinds))
    who = _who(folder, subject)
    title = f"{who}: {system}"
    cautions = _cautions(plan, kinds)
    notice = folder.type.notice or NOTICE
    plain = ("Plain layout: the layout library was not at hand.",) if drawn.layout.manner == "plain" else ()
    remarks = (*plain, SYMBOLS_REMARK)
    media = [m for m in MEDIA if any(t.medium == m for t in plan.ties)]
    links = any(t.sort == "link" for t in plan.ties)
    flags = any(i.reference for i in plan.items)
    keys = keys_for(media, values is not None, links, flags)
    head = f"Sheet of the system {system} on the {who}."
    words = description(head, says, plan, drawn.notes, seen, cautions, plain, notice)
    inside = _drawing(drawn, seen)
    size = (WIDTH, WIDTH / shape)
    # A large system is not made smaller, since its strokes would then run together: its page is made larger, and what
    # stands around the drawing half as much.
    for _ in range(6):
        around = math.sqrt(size[0] / WIDTH)
        above, top = head_shapes(title, says, size[0] / around)
        below, strip = foot_shapes(keys, remarks, cautions, notice, size[0] / around)
        room = (size[0] - 2 * MARGIN * around, size[1] - (top + strip + 16.0) * around)
        fit = min(room[0] / drawn.layout.size[0], room[1] / drawn.layout.size[1])
        if fit >= 1:
            break
        size = (math.ceil(size[0] / fit), math.ceil(size[0] / fit) / shape)
    scale = min(fit, LARGEST)
    x = (size[0] - drawn.layout.size[0] * scale) / 2
    y = top * around + (room[1] - drawn.layout.size[1] * scale) / 2
    shapes: tuple[Shape, ...] = (
        Group(placed(above, (0.0, 0.0), around), "head"),
        Group(placed(inside, (x, y), scale), "drawing"),
        Group(placed(below, (0.0, size[1] - strip * around), around), "foot"),
    )
    return Picture(size, shapes, f"{system} {subject.name}", title, words)


def _who(folder: Folder, subject: Subject) -> str:
    """Type and standard; an airframe often has the type's name in its own."""
    name = str(subject.name)
    return name if name.startswith(folder.type.name) else f"{folder.type.name} {name}"


def _drawing(drawn: Drawn, seen: Mapping[str, LineSeen]) -> tuple[Shape, ...]:
    plan, corners = drawn.plan, dict(drawn.layout.corners)
    shapes: list[Shape] = [*link_shapes(plan, drawn.routes), *pipe_shapes(plan, drawn.routes, seen)]
    shapes += joint_shapes(plan, drawn.routes, drawn.layout.joints)
    for item in plan.items:
        block, corner = drawn.blocks[item.key], corners[item.key]
        if item.reference:
            shapes.append(reference_shapes(block, corner))
        else:
            shapes.append(part_shapes(block, corner, drawn.notes.get(item.key, ())))
    return tuple(shapes)


def _cautions(plan: Plan, kinds: Mapping[str, Kind]) -> tuple[str, ...]:
    """Each caution of a part on the sheet, or of its kind, once."""
    own = [item.part for item in plan.items if not item.reference]
    found = [c for part in own for c in (part.caution, kinds[part.kind].caution) if c]
    return tuple(dict.fromkeys(found))
