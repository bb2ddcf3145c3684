"""Drawings on paper: no word too small, every part whole on one of the pages, nothing lost between them."""

import itertools
import re

from hypothesis import given
from hypothesis import strategies as st

from cutaway.draw.extent import extent_of, smallest_words
from cutaway.draw.shapes import Circle, Group, Line, Picture, Polyline, Rect, Shape, Text
from cutaway.publish.handout.plates import Space, plate, windows


def picture(across: int, down: int, size: float = 14.0) -> Picture:
    """Boxes of 100 in a grid of 150, each with its name."""
    shapes: list[Shape] = []
    for x in range(across):
        for y in range(down):
            at = (150.0 * x, 150.0 * y)
            words = Text((at[0] + 50, at[1] + 50), f"part {x} {y}", "name", size, "middle")
            shapes.append(Group((Rect(at, (100.0, 100.0), "box"), words), part=f"part {x} {y}"))
    key = (
        Rect((0, 0), (9, 9), "strip"),
        Line((0, 0), (9, 0), "rule"),
        Polyline(((0.0, 0.0), (54.0, 0.0)), "pipe oil dead"),
        Text((60, 0), "oil", "note", 14),
        Rect((6.0, 12.0), (40.0, 16.0), "flag"),
        Line((41.0, 12.0), (41.0, 28.0), "rule"),
        Text((60, 20), "part on another sheet", "note", 14),
    )
    head = Group((Text((0, 0), "Wren Mk 1: Oil", "title", 28),), "head")
    return Picture(
        (1600, 900), (head, Group(tuple(shapes), "drawing"), Group(key, "foot")), "oil", "Wren Mk 1: Oil", ("Told.",)
    )


def on(paper: Space, drawn: Picture, smallest: float = 7.0, most: int = 12):  # type: ignore[no-untyped-def]
    return plate([(drawn, paper)], smallest, "Parked.", (), most)


def test_a_small_drawing_is_not_blown_up() -> None:
    made = on(Space(480.0, 600.0), picture(2, 2))
    assert len(made.tiles) == 1 and not made.whole
    assert 7.0 <= made.smallest <= 11.01


def test_a_large_one_goes_over_pages_with_every_part_whole_on_one() -> None:
    space = Space(480.0, 400.0)
    made = on(space, picture(14, 9))
    assert len(made.tiles) == made.columns * made.rows > 1 and made.whole
    assert abs(made.smallest - 7.0) < 1e-9
    whole: set[str] = set()
    for tile in made.tiles:
        assert tile.width <= space.width + 0.01 and tile.height <= space.height + 0.01
        width, height = (float(n) for n in re.findall(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', tile.svg)[0])
        for name, box in re.findall(r'data-part="([^"]+)">\n<rect class="box" ([^/]+)/>', tile.svg):
            x, y = (float(re.findall(rf'{axis}="(-?[\d.]+)"', box)[0]) for axis in ("x", "y"))
            if x >= 0 and x + 100 <= width and y >= 0 and y + 100 <= height:
                whole.add(name)
    assert whole == {f"part {x} {y}" for x in range(14) for y in range(9)}


def test_too_many_pages_are_none() -> None:
    assert on(Space(480.0, 400.0), picture(14, 9), most=2) is None


def test_the_way_with_fewest_pages_is_taken_then_the_upright_one() -> None:
    wide = picture(9, 1)
    made = plate([(wide, Space(480.0, 600.0)), (wide, Space(730.0, 400.0, flipped=True))], 7.0, "", (), 12)
    assert made is not None and made.flipped and len(made.tiles) == 1
    small = picture(2, 1)
    made = plate([(small, Space(730.0, 400.0, flipped=True)), (small, Space(480.0, 600.0))], 7.0, "", (), 12)
    assert made is not None and not made.flipped


def test_the_key_is_taken_from_the_foot() -> None:
    made = on(Space(480.0, 600.0), picture(2, 2))
    assert [key.words for key in made.key] == ["oil", "part on another sheet"]
    assert "pipe oil dead" in made.key[0].svg and 'class="rule"' not in made.key[0].svg
    assert all(f'class="{role}"' in made.key[1].svg for role in ("flag", "rule"))


def test_sheets_that_look_the_same_are_known() -> None:
    space = Space(480.0, 600.0)
    assert on(space, picture(2, 2)).looks == on(space, picture(2, 2)).looks != on(space, picture(2, 3)).looks


@given(
    st.floats(200.0, 5000.0),
    st.floats(120.0, 900.0),
    st.lists(st.tuples(st.floats(0.0, 1.0), st.floats(5.0, 100.0)), max_size=30),
)
def test_windows_cover_all_and_keep_boxes_whole(length: float, room: float, boxes: list[tuple[float, float]]) -> None:
    kept = [(at * (length - size), at * (length - size) + size) for at, size in boxes]
    found = windows(0.0, length, room, kept)
    assert found[0][0] == 0.0 and abs(found[-1][1] - length) < 1e-6
    for (_, end), (start, _) in itertools.pairwise(found):
        assert start <= end + 1e-9
    assert all(high - low <= room + 1e-6 for low, high in found)
    for low, high in kept:
        short = high - low < room * 0.74
        assert not short or any(start - 1e-6 <= low and high <= end + 1e-6 for start, end in found)


def test_extents() -> None:
    shapes = (Circle((10.0, 10.0), 5.0, "ring"), Text((50.0, 40.0), "ww", "note", 10.0, "end", 30.0))
    box = extent_of(shapes)
    assert (box.left, box.top, box.right, box.bottom) == (5.0, 5.0, 50.0, 42.5)
    assert smallest_words(shapes) == 10.0 and smallest_words(()) == float("inf")
    assert extent_of(()).width == 0.0
