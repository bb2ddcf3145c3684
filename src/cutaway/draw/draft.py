"""A drawing before any state: what stands on it and where, so that each state is only filled in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from cutaway.draw.blocks import STATION_SIZE, Block
from cutaway.draw.filled import blocks_of
from cutaway.draw.frame import Around, better_beside, rooms_on
from cutaway.draw.laying import in_own_lanes, laid_out, request_of, without_steps
from cutaway.draw.layout import Layout
from cutaway.draw.pages import choose, filling, least_on
from cutaway.draw.pipes import Routes
from cutaway.draw.plan import Extract, Plan, plan_of
from cutaway.draw.routes import routes_of
from cutaway.draw.signs import signs_on
from cutaway.draw.stations import Area, areas_of, block_extents, headed_areas, stations_shown
from cutaway.draw.stretches import segments
from cutaway.draw.surroundings import around_of
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """A sheet without its state. extract: what it shows. shape: of its page, width by height. beside: whether the words
    around it stand at its right and not below it."""

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
    beside: bool = False

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
        rooms = [room for shape in shapes for room in rooms_on(shape, self.around)]
        return any(layout.sound and filling(layout, room) >= least for layout in self.layouts for room in rooms)


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
    around = around_of(
        folder, subject, extract, plan, kinds, said, True, bool(stations), signs=signs_on(plan, blocks, kinds)
    )
    layouts, problems = laid_out(request, [room for shape in shapes for room in rooms_on(shape, around)], cache)
    layouts = tuple(in_own_lanes(layout, request, plan) for layout in layouts)
    return Placed(extract, plan, stations, blocks, layouts, around), problems


def draft_on(folder: Folder, subject: Subject, kinds: Mapping[str, Kind], placed: Placed, shape: float) -> Draft:
    """The draft for a page of one shape."""
    request = request_of(placed.extract, placed.plan, placed.blocks)
    chosen = choose(placed.layouts, rooms_on(shape, placed.around), least_on(shape))
    layout = without_steps(chosen, request, placed.plan, placed.blocks)
    corners = dict(layout.corners)
    routes = routes_of(placed.plan, placed.blocks, layout)
    lines = [stretch for points in routes.values() for stretch in segments(points)]
    items = placed.plan.items
    areas = headed_areas(
        areas_of(items, placed.blocks, corners, lines),
        block_extents(items, placed.blocks, corners),
        lines,
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
        better_beside(layout.size, shape, placed.around),
    )
