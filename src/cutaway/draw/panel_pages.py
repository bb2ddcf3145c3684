"""Where the stations of a panel go: side by side on shelves, the shelves on pages."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cutaway.draw.panel_stations import GAP, Placed, Station, alike, framed, planned, single
from cutaway.draw.shapes import Shape, placed

STRETCH = 160.0
"""How much a station is widened at most, to fill its row."""
RISE = 90.0
"""How much a station is made higher at most, to fill its page."""
SPREADS = (1.2, 1.6, 1.9, 2.4, 3.0, 4.0, 5.0, 9.0)
"""How much wider than high stations are tried."""
SCALES = (1.6, 1.48, 1.36, 1.26, 1.16, 1.08, 1.0, 0.96, 0.93)
"""How much larger stations are tried; at the last the smallest words are of 7 points on A4."""
CONTINUED = ", continued"


@dataclass(frozen=True, slots=True)
class Shelf:
    """Stations side by side, stretched to one height and to the width of the page. top: on its page."""

    top: float
    height: float
    stations: tuple[Placed, ...]


Line = tuple[Placed, ...]
"""Stations side by side."""
Book = list[list[Line]]
"""Pages of rows."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A page of panels. width: between its edges. free: the height that is left for some stations between the head and
    their own cautions."""

    width: float
    free: Callable[[Sequence[Station]], float]


@dataclass(frozen=True, slots=True)
class Pages:
    """The shelves of each page, and by how much they are drawn larger."""

    scale: float
    shelves: tuple[tuple[Shelf, ...], ...]


def pages_of(stations: Sequence[Station], paper: Paper) -> Pages:
    """The stations in shelves, on as few pages as may be, and on these as large as goes."""
    tried = [(scale, _paged(stations, paper, scale)) for scale in SCALES]
    scale, pages = min(tried, key=lambda one: (_over(one[1], paper, one[0]), len(one[1]), -one[0]))
    return Pages(scale, tuple(_set(rows) for rows in _balanced(pages, paper, scale)))


def _paged(stations: Sequence[Station], paper: Paper, scale: float) -> Book:
    """The stations on the pages that they need at a scale, these as little filled as may be."""
    room = paper.width / scale
    fitting = [piece for one in stations for piece in _split(one, paper, scale)]
    ways = [_shelved([planned(one, room, spread) for one in fitting], paper, scale) for spread in SPREADS]
    return min(ways, key=lambda pages: (_over(pages, paper, scale), len(pages), sum(map(_filled, pages))))


def _over(pages: Book, paper: Paper, scale: float) -> int:
    """How many pages hold more than they have room for: a row may be too high by itself."""
    return sum(not _fits(page, paper, scale) for page in pages)


def _fits(rows: Sequence[Line], paper: Paper, scale: float) -> bool:
    """Whether rows fit on a page, with the cautions of all that is on it."""
    everything = tuple(one.station for row in rows for one in row)
    return _filled(rows) * scale <= paper.free(everything) + 0.1


def _filled(rows: Sequence[Line]) -> float:
    return sum(_height(row) for row in rows) + GAP * max(0, len(rows) - 1)


def _balanced(pages: Book, paper: Paper, scale: float) -> Book:
    """The pages with rows moved to the last one, as long as it then is not the fullest."""
    while len(pages) > 1:
        give = max(
            (i for i, page in enumerate(pages[:-1]) if len(page) > 1), key=lambda i: _filled(pages[i]), default=0
        )
        row, last = pages[give][-1], [pages[give][-1], *pages[-1]]
        torn = any(_continues(other, row) for page in pages for line in page for other in line)
        if len(pages[give]) < 2 or torn or _filled(last) > _filled(pages[give]) or not _fits(last, paper, scale):
            break
        pages = [*(page[:-1] if i == give else page for i, page in enumerate(pages[:-1])), last]
    return pages


def _set(rows: Sequence[Line]) -> tuple[Shelf, ...]:
    """Rows one under the other."""
    return tuple(Shelf(_filled(rows[:i]) + GAP * (i > 0), _height(row), row) for i, row in enumerate(rows))


def _split(station: Station, paper: Paper, scale: float) -> tuple[Station, ...]:
    """A station; in several pieces where it is too high for a page."""

    def fits(one: Station) -> bool:
        return planned(one, paper.width / scale, SPREADS[-1]).size[1] * scale <= paper.free((one,))

    if fits(station):
        return (station,)
    units = [unit for row in station.rows for unit in single(row)]
    found: list[Station] = []
    for unit in units:
        last = found[-1] if found else None
        longer = replace(last, rows=(*last.rows, unit)) if last is not None else None
        if longer is not None and fits(longer):
            found[-1] = longer
        else:
            found.append(Station(f"{station.name}{CONTINUED}" if found else station.name, (unit,)))
    return tuple(found)


def _shelved(stations: Sequence[Placed], paper: Paper, scale: float) -> Book:
    """Each station on the first shelf that it goes well with, each shelf on the first page that has room for it; the
    last station, which is that of what has no place, comes last."""
    rows: list[list[Placed]] = []
    for one in stations:
        # What is continued does not stand before what it continues.
        begin = max((i for i, row in enumerate(rows) if _continues(one, row)), default=0)
        fits = [row for row in rows[begin:] if _width(row) + GAP + one.size[0] <= paper.width / scale + 0.1]
        last = one is stations[-1]
        like = [row for row in fits if alike(_height(row), one.size[1]) and (row is rows[-1] or not last)]
        if like:
            like[0].append(one)
        else:
            rows.append([one])
    pages: Book = []
    for row in rows:
        line = tuple(row)
        begun = (i for i, page in enumerate(pages) for before in page if any(_continues(one, before) for one in row))
        after = max(begun, default=0)
        after = max(after, len(pages) - 1) if row is rows[-1] else after
        page = next((page for page in pages[after:] if _fits([*page, line], paper, scale)), None)
        if page is None:
            page = []
            pages.append(page)
        page.append(line)
    return pages


def _continues(one: Placed, row: Sequence[Placed]) -> bool:
    """Whether a station is a later piece of one in a row."""
    whole = one.station.name.removesuffix(CONTINUED)
    return whole != one.station.name and any(o.station.name.removesuffix(CONTINUED) == whole for o in row)


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
        # In the middle of what height the heading leaves, and never up against it.
        station = framed(one, size, min(higher, (size[1] - one.size[1]) / 2))
        found.append(replace(station, shapes=placed(station.shapes, (x, y))))
        x += size[0] + GAP
    return tuple(found)
