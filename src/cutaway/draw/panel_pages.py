"""Where the stations of a panel go: their cells in rows, the stations on shelves, the shelves on pages."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.panel_cells import Cell, cell_at
from cutaway.draw.shapes import Group, Point, Rect, Shape, placed
from cutaway.draw.strip import text_at

GAP = 14.0
HEADING = 17.0
GROUP = 14.5
NARROWEST = 232.0
"""How narrow a station may be before its heading goes on two lines."""
STRETCH = 120.0
"""How much a station is widened at most, to fill its row."""
LIKE = 0.6
"""A station joins an earlier shelf if it is at least so much of its height."""
SPREADS = (1.2, 1.9, 3.0, 5.0, 9.0)
"""How much wider than high stations are tried."""
CONTINUED = ", continued"


@dataclass(frozen=True, slots=True)
class Row:
    """Cells side by side. group: what they are called together, '' where they have no name."""

    group: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Station:
    """All that stands at one place."""

    name: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """A station as it is drawn, without its frame, its corner at 0, 0. heading: its name."""

    station: Station
    size: Point
    heading: tuple[Shape, ...]
    shapes: tuple[Shape, ...]


def _drawn(station: Station, room: float, spread: float) -> Placed:
    """A station with its rows: what is of one group in a frame of its own, the rest in a row as it comes. spread: how
    much wider than high it is to be, about."""
    inner = room - 2 * GAP
    blocks = [_block(row, inner) for row in station.rows]
    area = sum(size[0] * size[1] for size, _ in blocks)
    wanted = max(*(size[0] for size, _ in blocks), min(inner, (area * spread) ** 0.5), 0.0)
    shapes: list[Shape] = []
    x = y = high = widest = 0.0
    for size, drawn in blocks:
        if x and x + size[0] > wanted + 0.1:
            x, y, high = 0.0, y + high + GAP / 2, 0.0
        shapes += placed(drawn, (GAP + x, y))
        widest, high = max(widest, x + size[0]), max(high, size[1])
        x += size[0] + GAP / 2
    heading = wrapped(capital(station.name), HEADING, max(widest, NARROWEST), bold=True)
    top = len(heading) * HEADING * 1.25 + 14.0
    width = max(widest, *(text_width(line, HEADING, bold=True) for line in heading)) + 2 * GAP
    lines = tuple(
        text_at((GAP, HEADING * (0.95 + 1.25 * i) + 9.0), line, "title", HEADING) for i, line in enumerate(heading)
    )
    return Placed(station, (width, top + y + high + GAP / 2), lines, placed(tuple(shapes), (0.0, top)))


def _block(row: Row, room: float) -> tuple[Point, tuple[Shape, ...]]:
    """Cells of one row, or several rows where they are too many for one; framed and named if they are a group."""
    top = GROUP + 12.0 if row.group and len(row.cells) > 1 else 0.0
    shapes: list[Shape] = []
    x, y, high, widest = 0.0, top, 0.0, 0.0
    for number, cell in enumerate(row.cells):
        if x and x + cell.size[0] > room:
            x, y, high = 0.0, y + high, 0.0
        name = f"{cell.part.name} {number}" if number and cell.part == row.cells[number - 1].part else cell.part.name
        shapes.append(cell_at(cell, (x, y), str(name)))
        x, high = x + cell.size[0], max(high, cell.size[1])
        widest = max(widest, x)
    size = (widest, y + high)
    if top:
        frame = Rect((0.0, 0.0), size, "blank", 8.0)
        return size, (frame, text_at((12.0, GROUP + 7.0), capital(row.group), "quiet", GROUP), *shapes)
    return size, tuple(shapes)


@dataclass(frozen=True, slots=True)
class Shelf:
    """Stations side by side, stretched to one height and to the width of the page. top: on its page."""

    top: float
    height: float
    stations: tuple[Placed, ...]


def pages_of(stations: Sequence[Station], room: Point) -> list[list[Shelf]]:
    """The stations in shelves, on as few pages as may be, and these as little filled."""
    fitting = [piece for one in stations for piece in _split(one, room)]
    ways = [_shelved([_drawn(one, room[0], spread) for one in fitting], room) for spread in SPREADS]
    return min(ways, key=lambda pages: (len(pages), sum(shelf.height for page in pages for shelf in page)))


def _split(station: Station, room: Point) -> tuple[Station, ...]:
    """A station; in several pieces where it is too high for a page."""
    if _drawn(station, room[0], SPREADS[-1]).size[1] <= room[1]:
        return (station,)
    units = [unit for row in station.rows for unit in _units(row, room[0] - 2 * GAP)]
    found: list[Station] = []
    for unit in units:
        last = found[-1] if found else None
        longer = replace(last, rows=(*last.rows, unit)) if last is not None else None
        if longer is not None and _drawn(longer, room[0], SPREADS[-1]).size[1] <= room[1]:
            found[-1] = longer
        else:
            found.append(Station(f"{station.name}{CONTINUED}" if found else station.name, (unit,)))
    return tuple(found)


def _units(row: Row, room: float) -> list[Row]:
    """A group as it is; what has no group in rows of one page's width."""
    if row.group:
        return [row]
    found: list[list[Cell]] = [[]]
    for cell in row.cells:
        if found[-1] and sum(one.size[0] for one in found[-1]) + cell.size[0] > room:
            found.append([])
        found[-1].append(cell)
    return [Row("", tuple(cells)) for cells in found]


def _shelved(stations: Sequence[Placed], room: Point) -> list[list[Shelf]]:
    """Each station on the first shelf that it goes well with, each shelf on the first page that has room for it."""
    rows: list[list[Placed]] = []
    for one in stations:
        fits = [row for row in rows if _width(row) + GAP + one.size[0] <= room[0] + 0.1]
        like = [row for row in fits if row is rows[-1] or LIKE * _height(row) <= one.size[1] <= _height(row)]
        if like:
            like[0].append(one)
        else:
            rows.append([one])
    pages: list[list[Shelf]] = []
    for row in rows:
        high = _height(row)
        # What is continued does not stand before what it continues.
        after = max((i for i, page in enumerate(pages) if any(_continues(one, page) for one in row)), default=0)
        roomy = (page for page in pages[after:] if page[-1].top + page[-1].height + GAP + high <= room[1])
        page = next(roomy, None)
        if page is None:
            page = []
            pages.append(page)
        page.append(Shelf(page[-1].top + page[-1].height + GAP if page else 0.0, high, tuple(row)))
    return pages


def _continues(one: Placed, page: Sequence[Shelf]) -> bool:
    """Whether a station is a later piece of one on a page."""
    whole = one.station.name.removesuffix(CONTINUED)
    return whole != one.station.name and any(other.station.name == whole for s in page for other in s.stations)


def _width(row: Sequence[Placed]) -> float:
    return sum(one.size[0] for one in row) + GAP * (len(row) - 1)


def _height(row: Sequence[Placed]) -> float:
    return max(one.size[1] for one in row)


def framed(shelf: Shelf, room: float, corner: Point) -> tuple[Shape, ...]:
    """The stations of a shelf in their frames; what room is left goes to all alike, up to a measure."""
    more = min((room - _width(shelf.stations)) / len(shelf.stations), STRETCH)
    found: list[Shape] = []
    x, y = corner[0], corner[1] + shelf.top
    for one in shelf.stations:
        size = (one.size[0] + more, shelf.height)
        frame = Rect((0.0, 0.0), size, "strip", 10.0)
        drawn = (frame, *one.heading, *placed(one.shapes, (more / 2, 0.0)))
        found.append(Group(placed(drawn, (x, y)), "station", name=f"station {one.station.name}"))
        x += size[0] + GAP
    return tuple(found)


def capital(words: str) -> str:
    """Words with a large letter first."""
    return f"{words[:1].upper()}{words[1:]}"
