"""A drawing before any state: what stands on it and where, so that each state is only filled in."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.draw.about import About, about
from cutaway.draw.blocks import (
    NAME_SIZE,
    NAME_WIDTH,
    NOTE_SIZE,
    STATION_SIZE,
    UNNAMED,
    Block,
    Label,
    part_block,
    pin_of,
    reference_block,
)
from cutaway.draw.cautions import cautions_on
from cutaway.draw.elk import SECONDS, NoLayout, elk_layouts
from cutaway.draw.frame import Around, room_on
from cutaway.draw.layout import Layout, Request, Wire, keep, recalled
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.pages import Room, choose, fit, fits
from cutaway.draw.pipes import Routes, Used
from cutaway.draw.plain import plain_layout
from cutaway.draw.plan import Extract, Item, Plan, plan_of
from cutaway.draw.seen import Values, look_of, wants_of, widest_notes
from cutaway.draw.shapes import Point
from cutaway.draw.stations import Area, areas_of, block_extents, headed_areas, stations_shown
from cutaway.draw.stretches import segments
from cutaway.draw.strip import keys_for
from cutaway.draw.symbols.symbol import Look
from cutaway.draw.symbols.table import symbol_of
from cutaway.draw.theme import MEDIA
from cutaway.handbook.records import Folder, Part
from cutaway.machine.subjects import Subject, parts_of
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems

NOTICE = "An interpretation for talks on the ground. Not flight, maintenance or operating advice."
SYMBOLS_REMARK = "Symbols are our own and not those of the handbook; needles show more or less, not figures."
PLAIN_REMARK = "Plain layout: the layout library was not at hand."

PIPES_APART, WIRES_APART = 20.0, 14.0
"""How far the middles of two lines side by side are apart: those of pipes are drawn wide."""


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """A sheet without its state. extract: what it shows. shape: of its page, width by height."""

    folder: Folder
    subject: Subject
    kinds: Mapping[str, Kind]
    extract: Extract
    plan: Plan
    stations: Mapping[str, str]
    blocks: Mapping[str, Block]
    layout: Layout
    routes: Routes
    areas: tuple[Area, ...]
    shape: float

    @property
    def name(self) -> str:
        """Of the sheet."""
        return self.extract.name


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A draft whose page is not chosen yet. layouts: all that were found, the usual one first."""

    extract: Extract
    plan: Plan
    stations: Mapping[str, str]
    blocks: Mapping[str, Block]
    layouts: tuple[Layout, ...]
    around: Around

    def readable(self, shapes: Sequence[float], least: float = 1.0) -> bool:
        """Whether it keeps so much of the size that can be read on A4 on a page of one of the shapes."""
        rooms = [room_on(shape, self.around) for shape in shapes]
        return any(layout.sound and fit(layout, room) >= least for layout in self.layouts for room in rooms)


def placed_on(
    folder: Folder,
    subject: Subject,
    extract: Extract,
    kinds: Mapping[str, Kind],
    cache: Path,
    shapes: Sequence[float],
) -> tuple[Placed, Problems]:
    """The layouts of what a sheet shows, enough of them for pages of the shapes."""
    plan = plan_of(folder, subject, extract, kinds)
    stations = stations_shown(plan, extract.zones)
    blocks = blocks_of(folder, subject, plan, kinds, stations, None)
    request = request_of(extract, plan, blocks)
    # With all the words around it that it can ever have: where things stand must not hang on the state.
    said = max((f"{s.name}: {s.says}" for s in folder.situations), key=len, default="")
    around = around_of(folder, subject, extract, plan, kinds, said, True, bool(stations))
    layouts, problems = laid_out(request, [room_on(shape, around) for shape in shapes], cache)
    return Placed(extract, plan, stations, blocks, layouts, around), problems


def draft_on(folder: Folder, subject: Subject, kinds: Mapping[str, Kind], placed: Placed, shape: float) -> Draft:
    """The draft for a page of one shape."""
    layout = choose(placed.layouts, room_on(shape, placed.around))
    corners = dict(layout.corners)
    routes = routes_of(placed.plan, placed.blocks, layout)
    areas = headed_areas(
        areas_of(placed.plan.items, placed.blocks, corners),
        block_extents(placed.plan.items, placed.blocks, corners),
        [stretch for points in routes.values() for stretch in segments(points)],
        STATION_SIZE,
    )
    return Draft(
        folder,
        subject,
        kinds,
        placed.extract,
        placed.plan,
        placed.stations,
        placed.blocks,
        layout,
        routes,
        areas,
        shape,
    )


def around_of(
    folder: Folder,
    subject: Subject,
    extract: Extract,
    plan: Plan,
    kinds: Mapping[str, Kind],
    says: str,
    known: bool,
    areas: bool,
    plain: bool = False,
    used: Used | None = None,
) -> Around:
    """What stands around a sheet. known: whether a state is shown. areas: whether stations are. plain: its layout.
    used: what the state shows, None for all that any may."""
    media = [m for m in MEDIA if any(t.medium == m for t in plan.ties)]
    links = any(t.sort == "link" for t in plan.ties)
    flags = any(i.reference for i in plan.items)
    keys = keys_for(media, known, links, flags, areas)
    shown = None if used is None else keys_for(media, known, links, flags, areas, used)
    remarks = (*remarks_on(folder, subject, extract, plain), SYMBOLS_REMARK)
    title = f"{who_is(folder, subject)}: {extract.name}"
    return Around(title, says, keys, remarks, cautions_on(plan, kinds), folder.type.notice or NOTICE, shown)


def remarks_on(folder: Folder, subject: Subject, extract: Extract, plain: bool) -> tuple[str, ...]:
    """What a reader must know of a sheet: that its layout is plain, and what of the subject is left out of it."""
    there = {part.name for part in parts_of(folder, subject)}
    reasons: dict[str, list[str]] = {}
    for part, because in extract.hidden:
        if part in there:
            reasons.setdefault(because, []).append(part)
    out = tuple(f"Not shown here: {', '.join(parts)}. {because}" for because, parts in reasons.items())
    return ((PLAIN_REMARK,) if plain else ()) + out


def who_is(folder: Folder, subject: Subject) -> str:
    """Type and standard; an airframe often has the type's name in its own."""
    name = str(subject.name)
    return name if name.startswith(folder.type.name) else f"{folder.type.name} {name}"


# --- blocks ------------------------------------------------------------------------------------------------------


def looks_of(plan: Plan, kinds: Mapping[str, Kind], subject: Subject, values: Values | None) -> Mapping[str, Look]:
    """What is known of each item."""
    return {item.key: _look(item, plan, kinds, subject, values) for item in plan.items}


def blocks_of(
    folder: Folder,
    subject: Subject,
    plan: Plan,
    kinds: Mapping[str, Kind],
    stations: Mapping[str, str],
    values: Values | None,
) -> Mapping[str, Block]:
    """Each item as it is drawn; its box is the same in every state."""
    house = dict(folder.type.house_units)
    looks = looks_of(plan, kinds, subject, values)
    return {
        item.key: _block(
            item,
            plan,
            kinds[item.part.kind],
            looks[item.key],
            house,
            stations.get(item.key, ""),
            about(item.part, kinds[item.part.kind], looks[item.key], plan.ties, subject.standard, values is not None),
        )
        for item in plan.items
    }


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


def _block(
    item: Item, plan: Plan, kind: Kind, look: Look, house: Mapping[str, str], station: str, said: About
) -> Block:
    if item.reference:
        tie = next(t for t in plan.ties if item.key in (t.start.item, t.end.item))
        return reference_block(item, tie)
    symbol = symbol_of(kind, look)
    if max(symbol.size) < UNNAMED:
        station = ""
    names = wrapped(item.part.name, NAME_SIZE, NAME_WIDTH, bold=True)
    lines = widest_notes(kind, look, house)
    widest = [text_width(n, NAME_SIZE, bold=True) for n in names]
    widest += [text_width(w, NOTE_SIZE) for line in lines for w in line]
    widest += [text_width(station, STATION_SIZE), said.width]
    return part_block(item, symbol, Label(names, len(lines), max(widest), station, said), plan.ties)


# --- layout ------------------------------------------------------------------------------------------------------


def request_of(extract: Extract, plan: Plan, blocks: Mapping[str, Block]) -> Request:
    """What is asked of the layout library."""
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
    boxes = tuple(blocks[item.key].box for item in plan.items)
    pipes = any(tie.medium not in (None, "current") for tie in plan.ties)
    return Request(boxes, wires, extract.columns, extract.folded, PIPES_APART if pipes else WIRES_APART)


def laid_out(
    request: Request, rooms: Sequence[Room], cache: Path, seconds: float = SECONDS
) -> tuple[tuple[Layout, ...], Problems]:
    """The layouts of a request: kept from before, by the library, or a plain one with a problem that says why."""
    kept = recalled(request, cache)
    if any(fits(layout, room) for layout in kept for room in rooms):
        return kept, ()
    found = elk_layouts(request, rooms, len(kept), seconds)
    if not isinstance(found, NoLayout):
        if found:
            keep(request, kept + found, cache)
        return kept + found, ()
    if kept:
        return kept, ()
    if found.missing:
        words = "The layout library is not in this installation, so sheets are laid out plainly, with more crossings."
        hint = "Install the package again with a network, or run `python hatch_build.py` in its source folder."
        return (plain_layout(request),), (Diagnostic("D101", None, words, hint),)
    words = f"The layout library could not lay out this sheet ({found.words}), so it is laid out plainly."
    hint = "Split the system into two files of `systems/`."
    return (plain_layout(request),), (Diagnostic("D102", None, words, hint),)


def choose_layout(request: Request, shape: float, around: Around, cache: Path) -> tuple[Layout, Problems]:
    """The layout that suits a page best."""
    room = room_on(shape, around)
    layouts, problems = laid_out(request, (room,), cache)
    return choose(layouts, room), problems


def routes_of(plan: Plan, blocks: Mapping[str, Block], layout: Layout) -> Routes:
    """The layout's routes, led on from the box's edge to the symbol itself."""
    corners = dict(layout.corners)
    found = dict(layout.routes)
    routes = {}
    for tie in plan.ties:
        points = found.get(tie.name, ())
        if points:
            ends = [
                _within(blocks[end.item], corners[end.item], pin_of(blocks[end.item], tie), edge)
                for end, edge in ((tie.start, points[0]), (tie.end, points[-1]))
            ]
            routes[tie.name] = _without_idle_points((*reversed(ends[0]), *points, *ends[1]))
    return routes | {tie.name: routes[tie.along] for tie in plan.ties if tie.along in routes}


def _within(block: Block, corner: Point, pin: str, edge: Point) -> tuple[Point, ...]:
    """From the edge of a box to where a line ends in the symbol."""
    lead = tuple((corner[0] + x, corner[1] + y) for x, y in block.leads.get(pin, ()))
    return (_target(block, corner, pin, edge), *lead)


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
