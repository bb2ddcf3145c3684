"""Where the stations of a panel go: their cells in rows, the stations on shelves, the shelves on pages."""

from collections.abc import Iterator, Sequence
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
STRETCH = 160.0
"""How much a station is widened at most, to fill its row."""
RISE = 60.0
"""How much a station is made higher at most, to fill its page."""
LIKE = 0.6
"""A station joins an earlier shelf if it is at least so much of its height."""
SPREADS = (1.2, 1.9, 3.0, 5.0, 9.0)
"""How much wider than high stations are tried."""
SCALES = (1.6, 1.5, 1.4, 1.32, 1.25, 1.18, 1.12, 1.06, 1.0, 0.96, 0.93)
"""How much larger stations are tried; at the last the smallest words are of 7 points on A4."""
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
    """A station as it is to be drawn, its corner at 0, 0. heading: its name line by line. blocks: where each row is."""

    station: Station
    size: Point
    heading: tuple[str, ...]
    blocks: tuple[tuple[Point, Row], ...]
    room: float


def _planned(station: Station, room: float, spread: float) -> Placed:
    """A station with its rows: what is of one group in a frame of its own, each other cell by itself, each in the first
    row that has room for it. spread: how much wider than high it is to be, about."""
    inner = room - 2 * GAP
    blocks = [row for one in station.rows for row in _single(one)]
    sizes = [_block_size(row, inner) for row in blocks]
    area = sum(wide * high for wide, high in sizes)
    wanted = max(*(wide for wide, _ in sizes), min(inner, (area * spread) ** 0.5), 0.0)
    rows = _rows(sizes, wanted)
    heading = wrapped(capital(station.name), HEADING, max(NARROWEST, *(width for width, _, _ in rows)), bold=True)
    found: list[tuple[Point, Row]] = []
    y = len(heading) * HEADING * 1.25 + 14.0
    for _, high, members in rows:
        x = GAP
        for number in members:
            found.append(((x, y), blocks[number]))
            x += sizes[number][0] + GAP / 2
        y += high + GAP / 2
    widths = [*(width for width, _, _ in rows), *(text_width(line, HEADING, bold=True) for line in heading)]
    return Placed(station, (max(widths) + 2 * GAP, y), heading, tuple(found), inner)


def _single(row: Row) -> list[Row]:
    """A group as it is; of what has no group the cells of each part by themselves."""
    if row.group:
        return [row]
    parts = dict.fromkeys(str(cell.part.name) for cell in row.cells)
    return [Row("", tuple(cell for cell in row.cells if cell.part.name == name)) for name in parts]


def _rows(sizes: Sequence[Point], wanted: float) -> list[tuple[float, float, list[int]]]:
    """Blocks in rows no wider than wanted: the width and height of each row and the blocks in it."""
    rows: list[tuple[float, float, list[int]]] = []
    for number, (wide, high) in enumerate(sizes):
        fits = (i for i, row in enumerate(rows) if row[0] + GAP / 2 + wide <= wanted + 0.1 and _like(row[1], high))
        i = next(fits, None)
        if i is None:
            rows.append((wide, high, [number]))
        else:
            rows[i] = (rows[i][0] + GAP / 2 + wide, max(rows[i][1], high), [*rows[i][2], number])
    return rows


def _like(one: float, other: float) -> bool:
    """Whether two heights go well in one row."""
    return min(one, other) >= LIKE * max(one, other)


def _framed_group(row: Row) -> bool:
    return bool(row.group) and len(row.cells) > 1


def _cells_placed(row: Row, room: float) -> Iterator[tuple[Point, Cell]]:
    """The cells of a row, in several rows where they are too many for one."""
    x, y, high = 0.0, GROUP + 12.0 if _framed_group(row) else 0.0, 0.0
    for cell in row.cells:
        if x and x + cell.size[0] > room:
            x, y, high = 0.0, y + high, 0.0
        yield (x, y), cell
        x, high = x + cell.size[0], max(high, cell.size[1])


def _block_size(row: Row, room: float) -> Point:
    corners = [(x + cell.size[0], y + cell.size[1]) for (x, y), cell in _cells_placed(row, room)]
    return max(x for x, _ in corners), max(y for _, y in corners)


def _block(row: Row, room: float) -> tuple[Shape, ...]:
    """The cells of a row; framed and named if they are a group."""
    shapes: list[Shape] = []
    if _framed_group(row):
        frame = Rect((0.0, 0.0), _block_size(row, room), "blank", 8.0)
        shapes += [frame, text_at((12.0, GROUP + 7.0), capital(row.group), "quiet", GROUP)]
    for number, (corner, cell) in enumerate(_cells_placed(row, room)):
        name = f"{cell.part.name} {number}" if number and cell.part == row.cells[number - 1].part else cell.part.name
        shapes.append(cell_at(cell, corner, str(name)))
    return tuple(shapes)


@dataclass(frozen=True, slots=True)
class Shelf:
    """Stations side by side, stretched to one height and to the width of the page. top: on its page."""

    top: float
    height: float
    stations: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Pages:
    """The shelves of each page, and by how much they are drawn larger."""

    scale: float
    shelves: tuple[tuple[Shelf, ...], ...]


def pages_of(stations: Sequence[Station], room: Point) -> Pages:
    """The stations in shelves, on as few pages as may be, and on these as large as goes."""
    fewest = min(len(_paged(stations, room, scale)) for scale in (SCALES[-1], 1.0))
    for scale in SCALES:
        pages = _paged(stations, room, scale)
        if len(pages) <= fewest:
            break
    return Pages(scale, tuple(tuple(page) for page in pages))


def _paged(stations: Sequence[Station], room: Point, scale: float) -> list[list[Shelf]]:
    """The stations on the pages that they need at a scale, these as little filled as may be."""
    inner = (room[0] / scale, room[1] / scale)
    fitting = [piece for one in stations for piece in _split(one, inner)]
    ways = [_shelved([_planned(one, inner[0], spread) for one in fitting], inner) for spread in SPREADS]
    return min(ways, key=lambda pages: (len(pages), sum(shelf.height for page in pages for shelf in page)))


def _split(station: Station, room: Point) -> tuple[Station, ...]:
    """A station; in several pieces where it is too high for a page."""
    if _planned(station, room[0], SPREADS[-1]).size[1] <= room[1]:
        return (station,)
    units = [unit for row in station.rows for unit in _single(row)]
    found: list[Station] = []
    for unit in units:
        last = found[-1] if found else None
        longer = replace(last, rows=(*last.rows, unit)) if last is not None else None
        if longer is not None and _planned(longer, room[0], SPREADS[-1]).size[1] <= room[1]:
            found[-1] = longer
        else:
            found.append(Station(f"{station.name}{CONTINUED}" if found else station.name, (unit,)))
    return tuple(found)


def _shelved(stations: Sequence[Placed], room: Point) -> list[list[Shelf]]:
    """Each station on the first shelf that it goes well with, each shelf on the first page that has room for it."""
    rows: list[list[Placed]] = []
    for one in stations:
        fits = [row for row in rows if _width(row) + GAP + one.size[0] <= room[0] + 0.1]
        like = [row for row in fits if row is rows[-1] or _like(_height(row), one.size[1])]
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


def stretched(page: Sequence[Shelf], wide: float, high: float) -> tuple[Shape, ...]:
    """The shelves of a page one under the other; what height is left goes to all alike, up to a measure."""
    used = page[-1].top + page[-1].height
    more = max(0.0, min((high - used) / len(page), RISE))
    return tuple(shape for i, shelf in enumerate(page) for shape in _framed(shelf, wide, shelf.top + i * more, more))


def _framed(shelf: Shelf, room: float, y: float, higher: float) -> tuple[Shape, ...]:
    """The stations of a shelf in their frames; what room is left goes to all alike, up to a measure."""
    more = min((room - _width(shelf.stations)) / len(shelf.stations), STRETCH)
    found: list[Shape] = []
    x = 0.0
    for one in shelf.stations:
        size = (one.size[0] + more, shelf.height + higher)
        frame = Rect((0.0, 0.0), size, "strip", 10.0)
        # In the middle of what height the heading leaves, and never up against it.
        down = min(higher, (size[1] - one.size[1]) / 2)
        inside = [s for (x0, y0), row in one.blocks for s in placed(_block(row, one.room), (x0 + more / 2, y0 + down))]
        drawn = (frame, *_heading(one.heading), *inside)
        found.append(Group(placed(drawn, (x, y)), "station", name=f"station {one.station.name}"))
        x += size[0] + GAP
    return tuple(found)


def _heading(lines: Sequence[str]) -> Iterator[Shape]:
    for i, line in enumerate(lines):
        yield text_at((GAP, HEADING * (0.95 + 1.25 * i) + 9.0), line, "title", HEADING)


def capital(words: str) -> str:
    """Words with a large letter first."""
    return f"{words[:1].upper()}{words[1:]}"
