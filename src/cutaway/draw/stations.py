"""Stations as areas behind the parts: where in the aircraft a part is fitted, as its entry says.

A layout is not bent to bring a station together, since it would then be a worse drawing of how the system works: parts
of a station that came to stand side by side share an area, and a station may have several.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.draw.blocks import Block
from cutaway.draw.extent import Extent
from cutaway.draw.measure import text_width
from cutaway.draw.plan import Item, Plan
from cutaway.draw.shapes import Group, Point, Rect, Shape, Text
from cutaway.draw.stretches import Segment

EDGE = 6.0
"""How far an area reaches beyond what stands in it."""

APART = 2 * EDGE + 1.0
"""How far the parts of two areas must be apart, so that the areas are too."""

HEADING = 1.25
"""How high the place for a name above the parts is, in sizes of its letters."""

FILLED = 0.3
"""How much of an area must be parts, so that none is drawn about a great empty place."""


@dataclass(frozen=True, slots=True)
class Area:
    """Parts of one station that stand together. members: keys of items. headed: whether its name stands above them, for
    which the extent then has room."""

    station: str
    members: tuple[str, ...]
    extent: Extent
    headed: bool = False


def stations_shown(plan: Plan, zones: bool) -> Mapping[str, str]:
    """The station of each item that has one; nothing where the sheet has fewer than two."""
    found = {item.key: item.part.station for item in plan.items if not item.reference and item.part.station}
    return found if zones and len(set(found.values())) > 1 else {}


def areas_of(
    items: Sequence[Item], blocks: Mapping[str, Block], corners: Mapping[str, Point], stretches: Sequence[Segment] = ()
) -> tuple[Area, ...]:
    """The areas of a layout: parts of one station are put together as long as nothing else stands among them, and no
    line runs right through. stretches: of all lines."""
    extents = block_extents(items, blocks, corners)
    areas = [
        Area(blocks[item.key].label.station, (item.key,), extents[item.key])
        for item in items
        if blocks[item.key].label.station
    ]
    while True:
        pairs = [
            (_distance(one.extent, other.extent), i, j)
            for i, one in enumerate(areas)
            for j, other in enumerate(areas[:i])
            if one.station == other.station
        ]
        for _, i, j in sorted(pairs):
            joined = _joined(areas[i], areas[j])
            if _clear(joined, areas, extents) and not any(_parts(stretch, joined.extent) for stretch in stretches):
                areas = [*(a for k, a in enumerate(areas) if k not in (i, j)), joined]
                break
        else:
            return tuple(sorted(areas, key=lambda a: (a.extent.top, a.extent.left)))


def block_extents(
    items: Sequence[Item], blocks: Mapping[str, Block], corners: Mapping[str, Point]
) -> Mapping[str, Extent]:
    """What each item covers."""
    return {item.key: _extent(blocks[item.key], corners[item.key]) for item in items}


def _extent(block: Block, corner: Point) -> Extent:
    """What a block covers, with the words that hang below it."""
    (x, y), (width, height) = corner, block.box.size
    below = block.box.below or (0.0, 0.0)
    side = max(0.0, (below[0] - width) / 2)
    return Extent(x - side, y, x + width + side, y + height + below[1])


def _distance(one: Extent, other: Extent) -> float:
    across = max(one.left, other.left) - min(one.right, other.right)
    down = max(one.top, other.top) - min(one.bottom, other.bottom)
    return max(0.0, across) + max(0.0, down)


def _joined(one: Area, other: Area) -> Area:
    a, b = one.extent, other.extent
    extent = Extent(min(a.left, b.left), min(a.top, b.top), max(a.right, b.right), max(a.bottom, b.bottom))
    return Area(one.station, (*one.members, *other.members), extent)


def _clear(area: Area, areas: Sequence[Area], extents: Mapping[str, Extent]) -> bool:
    """Whether nothing else stands in an area, no other area is too near, and it is not mostly empty."""
    around = area.extent.widened(APART)
    own = set(area.members)
    if any(around.meets(extent) for key, extent in extents.items() if key not in own):
        return False
    if any(around.meets(other.extent) for other in areas if not own.issuperset(other.members)):
        return False
    filled = sum(extents[key].width * extents[key].height for key in area.members)
    return filled >= FILLED * area.extent.width * area.extent.height


def _parts(stretch: Segment, extent: Extent) -> bool:
    """Whether a line runs through a box from one side to the other."""
    line = _around(stretch)
    level = line.left <= extent.left and line.right >= extent.right and extent.top < line.top < extent.bottom
    upright = line.top <= extent.top and line.bottom >= extent.bottom and extent.left < line.left < extent.right
    return level or upright


def headed_areas(
    areas: Sequence[Area], extents: Mapping[str, Extent], stretches: Iterable[Segment], size: float
) -> tuple[Area, ...]:
    """The areas, those of several parts with their name above them all where there is room and no line runs there:
    below the last of them it would seem to tell of that one only. extents: of all items. stretches: of all lines."""
    lines = [_around(stretch) for stretch in stretches]
    found = list(areas)
    for i, area in enumerate(areas):
        box = area.extent
        wide = text_width(area.station, size)
        taller = Extent(box.left, box.top - size * HEADING, max(box.right, box.left + wide), box.bottom)
        words = Extent(box.left, taller.top, box.left + wide, box.top)
        one = Area(area.station, area.members, taller, headed=True)
        if len(area.members) > 1 and not any(words.meets(line) for line in lines) and _apart(one, found, extents):
            found[i] = one
    return tuple(found)


def _around(stretch: Segment) -> Extent:
    (ax, ay), (bx, by) = stretch
    return Extent(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))


def _apart(area: Area, areas: Sequence[Area], extents: Mapping[str, Extent]) -> bool:
    """Whether an area made larger still keeps off all that is not in it."""
    around = area.extent.widened(APART)
    if any(around.meets(extent) for key, extent in extents.items() if key not in area.members):
        return False
    return not any(around.meets(other.extent) for other in areas if not set(area.members) & set(other.members))


def area_shapes(areas: Sequence[Area]) -> tuple[Shape, ...]:
    """Each area as a ground for what stands in it."""
    boxes = [(area, area.extent.widened(EDGE)) for area in areas]
    return tuple(
        Group((Rect((b.left, b.top), (b.width, b.height), "area", 9.0),), "station", title=area.station)
        for area, b in boxes
    )


def area_names(
    areas: Sequence[Area], blocks: Mapping[str, Block], corners: Mapping[str, Point], size: float
) -> tuple[Text, ...]:
    """The name of each area: above its parts, or in the place that the lowest block in it keeps
    for that; over the lines, whose edges of
    paper reach as far as words do."""
    names: list[Text] = []
    for area in areas:
        if area.headed:
            at = (area.extent.left, area.extent.top + size * 0.8)
            names.append(Text(at, area.station, "station", size, "start", text_width(area.station, size)))
            continue
        key = max(area.members, key=lambda key: (_extent(blocks[key], corners[key]).bottom, -corners[key][0]))
        at = (corners[key][0] + blocks[key].middle, area.extent.bottom - size * 0.3)
        names.append(Text(at, area.station, "station", size, "middle", text_width(area.station, size)))
    return tuple(names)
