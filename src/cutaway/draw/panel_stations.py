"""The stations of a panel: their cells in rows, what is of one group in a frame, under the station's name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.panel_cells import Cell, cell_at
from cutaway.draw.shapes import Group, Point, Rect, Shape, placed
from cutaway.draw.strip import text_at

GAP = 14.0
HEADING = 17.0
GROUP = 14.5
NARROWEST = 232.0
"""How narrow a station may be before its heading goes on two lines."""
LIKE = 0.6
"""What stands in one row is at least so much of its height."""


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


def planned(station: Station, room: float, spread: float) -> Placed:
    """A station with its rows: what is of one group in a frame of its own, each other cell by itself, each in the first
    row that has room for it. spread: how much wider than high it is to be, about."""
    inner = room - 2 * GAP
    blocks = [row for one in station.rows for row in single(one)]
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


def single(row: Row) -> list[Row]:
    """A group as it is; of what has no group the cells of each part by themselves."""
    if row.group:
        return [row]
    parts = dict.fromkeys(str(cell.part.name) for cell in row.cells)
    return [Row("", tuple(cell for cell in row.cells if cell.part.name == name)) for name in parts]


def _rows(sizes: Sequence[Point], wanted: float) -> list[tuple[float, float, list[int]]]:
    """Blocks in rows no wider than wanted: the width and height of each row and the blocks in it."""
    rows: list[tuple[float, float, list[int]]] = []
    for number, (wide, high) in enumerate(sizes):
        fits = (i for i, row in enumerate(rows) if row[0] + GAP / 2 + wide <= wanted + 0.1 and alike(row[1], high))
        i = next(fits, None)
        if i is None:
            rows.append((wide, high, [number]))
        else:
            rows[i] = (rows[i][0] + GAP / 2 + wide, max(rows[i][1], high), [*rows[i][2], number])
    return rows


def alike(one: float, other: float) -> bool:
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
    """How large the cells of a row are together."""
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


def framed(one: Placed, size: Point, down: float) -> Group:
    """A station in a frame of a size. down: how much lower than usual its rows stand."""
    frame = Rect((0.0, 0.0), size, "strip", 10.0)
    aside = (size[0] - one.size[0]) / 2
    inside = [s for (x, y), row in one.blocks for s in placed(_block(row, one.room), (x + aside, y + down))]
    return Group((frame, *_heading(one.heading), *inside), "station", name=f"station {one.station.name}")


def _heading(lines: Sequence[str]) -> Iterator[Shape]:
    for i, line in enumerate(lines):
        yield text_at((GAP, HEADING * (0.95 + 1.25 * i) + 9.0), line, "title", HEADING)


def capital(words: str) -> str:
    """Words with a large letter first."""
    return f"{words[:1].upper()}{words[1:]}"
