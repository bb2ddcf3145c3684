"""Where the name of a station stands."""

from cutaway.draw.extent import Extent
from cutaway.draw.stations import Area, headed_areas

EXTENTS = {"a": Extent(0.0, 0.0, 100.0, 80.0), "b": Extent(0.0, 100.0, 100.0, 180.0)}
BOTH = Area("panel", ("a", "b"), Extent(0.0, 0.0, 100.0, 180.0))
ALONE = Area("panel", ("a",), EXTENTS["a"])


def test_the_name_of_several_parts_stands_above_them() -> None:
    (area,) = headed_areas((BOTH,), EXTENTS, (), 14.5)
    assert area.headed and area.extent.top < BOTH.extent.top and area.extent.bottom == BOTH.extent.bottom


def test_not_where_a_line_runs_or_a_part_stands_or_of_one_part() -> None:
    line = ((20.0, -40.0), (20.0, 0.0))
    near = {**EXTENTS, "c": Extent(0.0, -60.0, 100.0, -20.0)}
    assert headed_areas((BOTH,), EXTENTS, (line,), 14.5) == (BOTH,)
    assert headed_areas((BOTH,), near, (), 14.5) == (BOTH,)
    assert headed_areas((ALONE,), EXTENTS, (), 14.5) == (ALONE,)
