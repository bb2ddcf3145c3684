"""The panels of an aeroplane in one situation: every control and indicator at its station, as it stands and shows.

A type with many of them takes several pages; what stands at one station is kept together, and in it what is of one
group.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.draw.panel_cells import Cell, cells_of, panelled
from cutaway.draw.panel_pages import Pages, Paper, pages_of, stretched
from cutaway.draw.panel_stations import GAP, Row, Station, capital
from cutaway.draw.seen import Values, look_of, wants_of
from cutaway.draw.shapes import Group, Picture, placed
from cutaway.draw.strip import MARGIN, foot_shapes, head_shapes
from cutaway.draw.surroundings import who_is
from cutaway.draw.symbols.symbol import Look
from cutaway.handbook.records import Folder, Part
from cutaway.machine.subjects import Subject, parts_of
from cutaway.parts.kind import Kind

WIDTH = 1600.0
SHAPE = 297 / 210
"""Panels are drawn for A4 on its long side, where no word of theirs is smaller than 7 pt."""
NOWHERE = "no place is given in the folder (at)"
REMARK = "Faces are our own and not those of the aeroplane; needles show more or less, and the figure stands below."

_ACROSS = {"left": 0, "port": 0, "middle": 1, "centre": 1, "right": 2, "starboard": 2}


def panel_pictures(
    folder: Folder,
    subject: Subject,
    values: Values | None,
    kinds: Mapping[str, Kind],
    says: str = "",
    name: str = "",
) -> tuple[Picture, ...]:
    """The panels of a subject, a picture a page; none where it has nothing to move or to see.

    values: signal names with their values at one instant, or None for no state. says: the situation in words. name:
    what ids begin with; pictures on one page need different ones.
    """
    stations = _stations(folder, subject, values, kinds)
    if not stations:
        return ()
    title = f"{who_is(folder, subject)}: panels"
    about = _About(title, says, folder.type.notice, values is not None, name or f"panels {subject.name}", kinds)
    pages = pages_of(stations, Paper(WIDTH - 2 * MARGIN, _free(about)))
    return tuple(_picture(about, pages, number) for number in range(len(pages.shelves)))


@dataclass(frozen=True, slots=True, eq=False)
class _About:
    """What all pages of one set of panels share. name: what their ids begin with."""

    title: str
    says: str
    notice: str
    known: bool
    name: str
    kinds: Mapping[str, Kind]


def _free(about: _About) -> Callable[[Sequence[Station]], float]:
    """What height a page leaves to some stations: what is neither head nor foot, in which their cautions stand."""
    _, top = head_shapes(f"{about.title}, page 9 of 9", about.says, WIDTH)
    feet: dict[tuple[str, ...], float] = {}

    def free(stations: Sequence[Station]) -> float:
        cautions = _cautions(about, stations)
        if cautions not in feet:
            feet[cautions] = foot_shapes((), (REMARK,), cautions, about.notice, WIDTH)[1]
        return WIDTH / SHAPE - top - feet[cautions] - GAP

    return free


def _cautions(about: _About, stations: Sequence[Station]) -> tuple[str, ...]:
    """The cautions of all parts of some stations, each once."""
    parts = {cell.part.name: cell.part for one in stations for row in one.rows for cell in row.cells}
    return tuple(dict.fromkeys(c for p in parts.values() for c in (p.caution, about.kinds[p.kind].caution) if c))


def _picture(about: _About, pages: Pages, number: int) -> Picture:
    """One page."""
    page, of, scale = pages.shelves[number], len(pages.shelves), pages.scale
    title = f"{about.title}, page {number + 1} of {of}" if of > 1 else about.title
    stations = [one.station for shelf in page for one in shelf.stations]
    cautions = _cautions(about, stations)
    above, top = head_shapes(title, about.says, WIDTH)
    below, strip = foot_shapes((), (REMARK,), cautions, about.notice, WIDTH)
    filled = max(shelf.top + shelf.height for shelf in page) * scale
    height = max(WIDTH / SHAPE, top + filled + GAP + strip)
    spare = (height - strip - GAP - top) / scale
    inside = placed(stretched(page, (WIDTH - 2 * MARGIN) / scale, spare), (MARGIN, top), scale)
    shapes = (Group(above, "head"), Group(inside, "drawing"), Group(placed(below, (0.0, height - strip)), "foot"))
    told = _told(title, about.says, stations, about.known, cautions, about.notice)
    return Picture((WIDTH, height), shapes, f"{about.name} {number + 1}" if of > 1 else about.name, title, told)


# --- what stands where ---------------------------------------------------------------------------------------------


def _stations(
    folder: Folder, subject: Subject, values: Values | None, kinds: Mapping[str, Kind]
) -> tuple[Station, ...]:
    """The stations in order, those of one place from left to right; what has no place comes last."""
    house = dict(folder.type.house_units)
    by_name: dict[str, dict[str, list[Cell]]] = {}
    own = parts_of(folder, subject)
    by_part = {str(part.name): part for part in own}
    for part in own:
        kind = kinds.get(part.kind)
        if kind is None or not (kind.controls or kind.indicates):
            continue
        look = _look(part, kind, subject, values, kinds, by_part)
        cells = cells_of(panelled(part, kind, look, house, values is not None), values is not None)
        by_name.setdefault(part.station or NOWHERE, {}).setdefault(part.group, []).extend(cells)
    whose = list(dict.fromkeys(_whose(name) for name in by_name))
    places = list(dict.fromkeys(_place(name) for name in by_name))
    names = sorted(
        by_name,
        key=lambda name: (name == NOWHERE, whose.index(_whose(name)), places.index(_place(name)), _across(name)),
    )
    return tuple(Station(name, tuple(Row(g, tuple(cells)) for g, cells in by_name[name].items())) for name in names)


def _place(station: str) -> str:
    """'instrument board' of 'instrument board, left'."""
    return station.split(",")[0].strip().casefold()


def _whose(station: str) -> str:
    """'pilot' of 'pilot's panel': what is one person's stands together; any other place is by itself."""
    person, apostrophe, _ = _place(station).partition("'s ")
    return person if apostrophe else _place(station)


def _across(station: str) -> int:
    """Where in its place a station is, from left to right, so far as its words say so."""
    return next((_ACROSS[word] for word in station.partition(",")[2].split() if word in _ACROSS), 1)


def _look(
    part: Part,
    kind: Kind,
    subject: Subject,
    values: Values | None,
    kinds: Mapping[str, Kind],
    parts: Mapping[str, Part],
) -> Look:
    """All that is known of a part; the end of a scale may be a figure of what it is coupled to."""
    look = look_of(part, kind, subject, values)
    wants: dict[str, float] = {}
    for link in part.links:
        other = parts.get(link.target.part)
        if other is not None and subject.standard in link.on.names:
            wants |= wants_of(other, kinds[other.kind], subject)
    return Look(look.lists, look.controls, look.states, look.readings, {**wants, **look.wants}, look.joined, look.moved)


# --- in words ------------------------------------------------------------------------------------------------------


def _told(
    title: str, says: str, stations: Sequence[Station], known: bool, cautions: Sequence[str], notice: str
) -> tuple[str, ...]:
    """The page in words, station by station."""
    sentences = [f"{title}.", *([says] if says else [])]
    for station in stations:
        cells = [cell.told for row in station.rows for cell in row.cells]
        sentences.append(f"{capital(station.name)}: {'; '.join(cells)}.")
    return (*sentences, *(() if known else ("No state is shown.",)), *(f"Caution: {c}" for c in cautions), notice)
