"""One system of one standard as a sheet: what is live, how everything is set, what lamps and gauges show."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from cutaway.draw.alternative import description
from cutaway.draw.blocks import STATION_SIZE, UNNAMED, Block, part_shapes, reference_shapes
from cutaway.draw.division import halves
from cutaway.draw.draft import Draft, Placed, draft_on, placed_on
from cutaway.draw.filled import blocks_of, looks_of
from cutaway.draw.frame import framed, rooms_on
from cutaway.draw.layout import cache_folder
from cutaway.draw.pages import SHAPE, SHAPES, filling, least_on
from cutaway.draw.pipes import Used, branches, joint_shapes, link_shapes, pipe_shapes, used_on
from cutaway.draw.plan import Extract, whole_system
from cutaway.draw.seen import LineSeen, Values, lines_seen, nominal_volts, notes_of
from cutaway.draw.shapes import Circle, Picture, Point, Shape
from cutaway.draw.signs import signs_on
from cutaway.draw.stations import EDGE, area_names, area_shapes
from cutaway.draw.surroundings import NOTICE as NOTICE  # for the pictures that are framed otherwise
from cutaway.draw.surroundings import around_of, remarks_on, who_is
from cutaway.draw.svg import write_svg
from cutaway.draw.theme import Manner
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.which import StandardName

PAPERS = (SHAPES["A4"], SHAPES["A4 upright"])
"""The papers of which that is taken on which a sheet is larger."""

IDLE = 1.6
"""How large a junction is at which nothing branches."""

SPARE = 1.06
"""How much more room a sheet must have where another division had too little: once a system is divided, the names of
its sheets are longer than it was known before."""

MOST_SHEETS = 8
"""A system is divided over no more sheets than this."""


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
    used: Used | None = None,
) -> tuple[Picture | None, Problems]:
    """One system's sheet, undivided however large it is; None where there is nothing to draw.

    standard: a standard or an airframe. values: signal names of a run (`machine/names.py`) with their values at one
    instant, or None for the system at rest with no state. says: the situation in words. cache: where layouts are kept
    (None: the user's own cache folder). name: what ids begin with; sheets on one page need different ones. shape: the
    page's width by its height. used: what its key tells of, where that is more than what this state shows
    (`used_in_all`).
    """
    draft, problems = whole_draft(folder, standard, system, kinds, cache, shape)
    return (drawn(draft, values, says, name, used) if draft is not None else None), problems


def whole_draft(
    folder: Folder,
    standard: StandardName,
    system: str,
    kinds: Mapping[str, Kind],
    cache: Path | None = None,
    shape: float = SHAPE,
) -> tuple[Draft | None, Problems]:
    """A system as one sheet however large it is, into which any state is drawn; arguments as for `sheet_picture`."""
    found, problems = _system_of(folder, standard, system)
    if found is None:
        return None, problems
    subject, extract = found
    placed, problems = placed_on(folder, subject, extract, kinds, cache or cache_folder(), (shape,))
    return draft_on(folder, subject, kinds, placed, shape), problems


def used_in_all(
    folder: Folder,
    standard: StandardName,
    system: str,
    several: Iterable[Values],
    kinds: Mapping[str, Kind],
    cache: Path | None = None,
    shape: float = SHAPE,
) -> Used | None:
    """What any of several states of a sheet shows, so that its key stays as it is from one to the next; None where
    there is no such sheet."""
    draft, _ = whole_draft(folder, standard, system, kinds, cache, shape)
    return used_in(draft, several) if draft is not None else None


def drafts(
    folder: Folder,
    standard: StandardName,
    system: str,
    kinds: Mapping[str, Kind],
    cache: Path | None = None,
    shape: str = "16:9",
) -> tuple[tuple[Draft, ...], Problems]:
    """A system as one sheet, or as several where its smallest words would be too small.

    They are on A4 if they are below seven points. A page of another shape is for a screen, which can be looked at more
    closely: there a system stays together until its words are down to `pages.ON_SCREEN` of that.
    shape: a name of `pages.SHAPES`; 'A4' takes each sheet upright if it is larger so. `drawn` fills in a state.
    """
    found, problems = _system_of(folder, standard, system)
    if found is None:
        return (), problems
    return drafts_of(folder, *found, kinds, cache or cache_folder(), shape)


def drafts_of(
    folder: Folder, subject: Subject, extract: Extract, kinds: Mapping[str, Kind], cache: Path, shape: str
) -> tuple[tuple[Draft, ...], Problems]:
    """What is shown as one sheet, or as several that can be read."""
    pages = PAPERS if shape == "A4" else (SHAPES[shape],)
    least = least_on(pages[0])
    for spare in (1.0, SPARE):
        sheets = _divided(folder, subject, extract, kinds, cache, pages, least * spare)
        every = [placed_on(folder, subject, sheet, kinds, cache, pages) for sheet in sheets]
        if len(sheets) == 1 or all(placed.readable(pages, least) for placed, _ in every):
            break
    found: list[Draft] = []
    problems: Problems = ()
    for placed, more in every:
        problems += more
        ways = [draft_on(folder, subject, kinds, placed, page) for page in pages]
        found.append(max(ways, key=lambda draft: _largeness(draft, placed)))
    return tuple(found), tuple(dict.fromkeys(problems))


def _largeness(draft: Draft, placed: Placed) -> float:
    """How large a sheet comes out on its page."""
    return max(filling(draft.layout, room) for room in rooms_on(draft.shape, placed.around))


def _divided(
    folder: Folder,
    subject: Subject,
    extract: Extract,
    kinds: Mapping[str, Kind],
    cache: Path,
    pages: Sequence[float],
    least: float,
) -> tuple[Extract, ...]:
    """The sheets that something is shown on, each told where the parts of the others are."""
    waiting, done = [extract], list[Extract]()
    while waiting:
        one = waiting.pop(0)
        placed, _ = placed_on(folder, subject, one, kinds, cache, pages)
        full = len(waiting) + len(done) + 2 > MOST_SHEETS
        parts = None if full or placed.readable(pages, least) else halves(placed.plan, _weights(placed))
        if parts is None:
            done.append(one)
        else:
            waiting = [*(replace(one, own=part) for part in parts), *waiting]
    if len(done) == 1:
        return (extract,)
    names = [f"{extract.name}, sheet {i}" for i in range(1, len(done) + 1)]
    elsewhere = tuple((part, name) for name, one in zip(names, done, strict=True) for part in sorted(one.own))
    total = len(done)
    return tuple(
        replace(one, name=f"{name} of {total}", elsewhere=(*extract.elsewhere, *elsewhere))
        for name, one in zip(names, done, strict=True)
    )


def _weights(placed: Placed) -> Mapping[str, float]:
    """How much room each part takes, with the flags that go with it."""
    found = {item.key: 0.0 for item in placed.plan.items if not item.reference}
    for item in placed.plan.items:
        width, height = placed.blocks[item.key].box.size
        area = (width + 40.0) * (height + 30.0)
        if not item.reference:
            found[item.key] += area
            continue
        tie = next(t for t in placed.plan.ties if item.key in (t.start.item, t.end.item))
        found[tie.end.item if tie.start.item == item.key else tie.start.item] += area
    return found


def _system_of(folder: Folder, standard: StandardName, system: str) -> tuple[tuple[Subject, Extract] | None, Problems]:
    """A subject with the whole of one of its systems; None where there is nothing to draw."""
    subject, problems = _subject(folder, standard, system)
    if subject is None:
        return None, problems
    extract = whole_system(folder, subject, system)
    return ((subject, extract), ()) if extract.own else (None, (_nothing_there(folder, standard, system),))


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


# --- a state filled in -------------------------------------------------------------------------------------------


def used_in(draft: Draft, several: Iterable[Values]) -> Used:
    """What any of several states of a draft shows."""
    volts = nominal_volts(draft.folder, draft.subject, draft.kinds)
    found = [used_on(draft.plan, draft.routes, lines_seen(draft.plan, values, volts)) for values in several]
    looks = frozenset(look for one in found for look in one.looks)
    return Used(looks, any(one.flows for one in found), frozenset(sort for one in found for sort in one.air))


def drawn(draft: Draft, values: Values | None, says: str = "", name: str = "", told: Used | None = None) -> Picture:
    """A sheet in one state; values, says and name as for `sheet_picture`, told as its `used`."""
    folder, subject, plan, kinds = draft.folder, draft.subject, draft.plan, draft.kinds
    house = dict(folder.type.house_units)
    blocks = blocks_of(folder, subject, plan, kinds, draft.stations, values)
    looks = looks_of(plan, kinds, subject, values)
    notes = {i.key: notes_of(kinds[i.part.kind], looks[i.key], house) for i in plan.items if values is not None}
    seen = lines_seen(plan, values, nominal_volts(folder, subject, kinds))
    plain = draft.layout.manner == "plain"
    used = (told or used_on(plan, draft.routes, seen)) if values is not None else None
    known, areas = values is not None, bool(draft.areas)
    signs = signs_on(plan, draft.blocks, kinds)
    around = around_of(folder, subject, draft.extract, plan, kinds, says, known, areas, plain, used, signs)
    head = f"Sheet of the system {draft.name} on the {who_is(folder, subject)}."
    remarks = remarks_on(folder, subject, draft.extract, plain)
    words = description(head, says, plan, notes, seen, around.cautions, remarks, around.notice)
    inside = _drawing(draft, blocks, notes, seen)
    reach = max((EDGE - area.extent.top for area in draft.areas), default=0.0)
    around = replace(around, beside=draft.beside)
    size, shapes = framed(inside, draft.layout.size, draft.shape, around, max(0.0, reach))
    return Picture(size, shapes, name or f"{draft.name} {subject.name}", around.title, words)


def _drawing(
    draft: Draft,
    blocks: Mapping[str, Block],
    notes: Mapping[str, tuple[str, ...]],
    seen: Mapping[str, LineSeen],
) -> tuple[Shape, ...]:
    plan, corners = draft.plan, dict(draft.layout.corners)
    shapes: list[Shape] = list(area_shapes(draft.areas))
    shapes += [*link_shapes(plan, draft.routes), *pipe_shapes(plan, draft.routes, seen)]
    shapes += joint_shapes(plan, draft.routes, draft.layout.joints)
    shapes += area_names(draft.areas, blocks, corners, STATION_SIZE)
    for item in plan.items:
        block, corner = blocks[item.key], corners[item.key]
        if item.reference:
            shapes.append(reference_shapes(block, corner))
        else:
            part = part_shapes(block, corner, notes.get(item.key, ()))
            dot = _idle_dot(block, corner, draft)
            shapes.append(part if dot is None else replace(part, shapes=(dot,)))
    return tuple(shapes)


def _idle_dot(block: Block, corner: Point, draft: Draft) -> Circle | None:
    """A junction from which the line goes on undivided, as hardly more than a point: the line branches further on,
    with a dot of its own, and two dots side by side would be taken for two branches."""
    if block.symbol is None or max(block.symbol.size) >= UNNAMED:
        return None
    x, y = next(iter(block.targets.values()))
    at = (corner[0] + x, corner[1] + y)
    return None if branches(draft.plan, draft.routes, at) else Circle(at, IDLE, "joint")
