"""Call-outs: labels where the best arrangement has them, no two on one another, letters that can be read, words."""

import base64
import io
import math
import random
from dataclasses import replace
from itertools import combinations, pairwise, permutations, product
from typing import Any

import numpy as np
import pytest
from PIL import Image as Pixels

from cutaway.draw.callout_labels import HIGHEST, NAME, WORDS
from cutaway.draw.callouts import DRAFT, STYLE, callouts_picture, whereabouts
from cutaway.draw.extent import Extent, extent_of, smallest_words
from cutaway.draw.margins import Margins, Placed, Wanted, cost, cross, place_labels
from cutaway.draw.measure import text_width
from cutaway.draw.shapes import Circle, Group, Image, Line, Picture, Rect
from cutaway.draw.theme import THEMES, Manner, contrast
from cutaway.handbook.records import AircraftType, Folder, Photograph, Point
from cutaway.problems.span import Span, TextFile
from cutaway.publish.stills import Size, still
from cutaway.quantities.which import Standard, StandardName, Which

MARGINS = Margins(-36.0, 1036.0, 0.0, 700.0, 14.0)
HERE = Span(TextFile("photographs.yaml", ""), 0, 0)
EVERY = Which("", frozenset((StandardName("Mk 1"),)))


def some(count: int, chance: random.Random, heights: tuple[float, ...] = (40.0, 58.0, 92.0)) -> list[Wanted]:
    sides = ("", "", "", "left", "right")
    if chance.random() < 0.5:
        # A row of switches: their labels stand far from their own heights.
        return [
            Wanted((chance.uniform(0, 1000), chance.uniform(600, 650)), chance.choice(heights), chance.choice(sides))  # type: ignore[arg-type]
            for _ in range(count)
        ]
    return [
        Wanted((chance.uniform(0, 1000), chance.uniform(0, 700)), chance.choice(heights), chance.choice(sides))  # type: ignore[arg-type]
        for _ in range(count)
    ]


def arrangement(placed: tuple[Placed, ...]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    left, right = (
        tuple(sorted((i for i, p in enumerate(placed) if p.side == side), key=lambda i: placed[i].middle))
        for side in ("left", "right")
    )
    return left, right


def least(wanted: list[Wanted]) -> float:
    """The cost of the best of all arrangements, by trying every one."""
    best = math.inf
    for sides in product(("left", "right"), repeat=len(wanted)):
        if any(one.side not in ("", side) for one, side in zip(wanted, sides, strict=True)):
            continue
        columns = [[i for i, side in enumerate(sides) if side == which] for which in ("left", "right")]
        for left, right in product(permutations(columns[0]), permutations(columns[1])):
            best = min(best, cost((left, right), wanted, MARGINS))
    return best


def test_no_arrangement_of_a_few_labels_is_better() -> None:
    chance = random.Random(1943)
    for count in (1, 2, 3, 3, 4, 4, 4, 5, 5, 5) * 3:
        wanted = some(count, chance)
        found = cost(arrangement(place_labels(wanted, MARGINS)), wanted, MARGINS)
        assert found == pytest.approx(least(wanted), rel=1e-9)


def test_many_labels_neither_touch_nor_cross() -> None:
    chance = random.Random(7)
    for count in (8, 10, 12, 12, 14):
        wanted = [replace(one, height=40.0) for one in some(count, chance)]
        placed = place_labels(wanted, MARGINS)
        assert all(one.side in ("", place.side) for one, place in zip(wanted, placed, strict=True))
        for column in arrangement(placed):
            tops = [placed[i].middle - wanted[i].height / 2 for i in column]
            ends = [placed[i].middle + wanted[i].height / 2 for i in column]
            assert all(end + MARGINS.gap <= top + 1e-6 for end, top in zip(ends, tops[1:], strict=False))
            assert not column or (tops[0] >= -1e-6 and ends[-1] <= MARGINS.bottom + 1e-6)
        # Sides that are asked for at random may leave no way without a crossing.
        wanted = [replace(one, side="") for one in wanted]
        placed = place_labels(wanted, MARGINS)
        leaders = [
            (one.point, (MARGINS.left if place.side == "left" else MARGINS.right, place.middle))
            for one, place in zip(wanted, placed, strict=True)
        ]
        assert not any(cross(*one, *other) for one, other in combinations(leaders, 2))


def folder() -> Folder:
    about = AircraftType(
        "Wren", "", "", ("Mk 1",), (), (Standard(StandardName("Mk 1"), "Mk 1"),), (), (), "For talks only.", HERE
    )
    return Folder("", about, (), (), (), (), (), (), (), (), (), (), (), (), (), frozenset())


def photograph(points: tuple[Point, ...], size: tuple[int, int] = (3000, 2000), rights: str = "Ours.") -> Photograph:
    return Photograph("cockpit", "c.jpg", size, "A cockpit.", "Pell", rights, "1939", "cockpit", EVERY, points, HERE)


def point(name: str, at: tuple[float, float], says: str = "") -> Point:
    return Point(name, (), at, says, "", HERE)


def spread(count: int) -> tuple[Point, ...]:
    return tuple(point(f"thing {i}", ((i * 0.37) % 1.0, (i * 0.61) % 1.0), "It is there.") for i in range(count))


def groups(picture: Picture, role: str) -> list[Group]:
    """The groups of a role; labels have none but a name."""
    found = [shape for shape in picture.shapes if isinstance(shape, Group)]
    return [one for one in found if one.role == role]


def meets(one: Extent, other: Extent) -> bool:
    return one.meets(other)


@pytest.mark.parametrize("size", [(3000, 2000), (2000, 3000), (2400, 2400), (6000, 900)])
@pytest.mark.parametrize("count", [0, 1, 7, 16])
def test_nothing_lies_on_anything_else(count: int, size: tuple[int, int]) -> None:
    picture, problems = callouts_picture(folder(), photograph(spread(count), size), "data:,")
    assert problems == ()
    shot = next(one for one in picture.shapes if isinstance(one, Image))
    labels = [extent_of(one.shapes) for one in groups(picture, "label")]
    assert len(labels) == count == len(groups(picture, "leader"))
    assert not any(meets(a, b) for a, b in combinations(labels, 2))
    assert not any(meets(one, extent_of((shot,))) for one in labels)
    assert shot.size[0] / shot.size[1] == pytest.approx(size[0] / size[1], rel=1e-3)
    whole = Extent(0.0, 0.0, *picture.size)
    for one in (*labels, extent_of(picture.shapes)):
        assert whole.left <= one.left and one.right <= whole.right + 0.1 and one.bottom <= whole.bottom
    # On A4 turned sideways, with edges of 10 mm.
    points = min(277 / picture.size[0], 190 / picture.size[1]) * 72 / 25.4
    assert smallest_words(picture.shapes) * points >= 7.0


def test_a_point_is_where_the_author_put_it() -> None:
    picture, _ = callouts_picture(folder(), photograph((point("corner", (1.0, 0.0)),)), "data:,")
    shot = next(one for one in picture.shapes if isinstance(one, Image))
    (leader,) = groups(picture, "leader")
    dot = next(one for one in leader.shapes if hasattr(one, "centre"))
    assert dot.centre == pytest.approx((shot.corner[0] + shot.size[0], shot.corner[1]))


def test_words_too_long_are_wrapped_then_told() -> None:
    """D111."""
    three = "undercarriage emergency selector valve indicator"
    long = "w" * 50
    six = " ".join(["undercarriage"] * 6)
    points = (point(three, (0.1, 0.1)), point(long, (0.1, 0.5)), point(six, (0.1, 0.9)))
    picture, problems = callouts_picture(folder(), photograph(points), "data:,")
    assert [p.code for p in problems] == ["D111", "D111"]
    assert "wider than a label and is broken" in problems[0].message and "takes 6 lines" in problems[1].message
    lines = [[text.words for text in one.shapes] for one in groups(picture, "label")]  # type: ignore[union-attr]
    assert " ".join(lines[0]) == three and " ".join(lines[2]) == six and len(lines[0]) > 1
    assert "".join(line.removesuffix("-") for line in lines[1]) == long and len(lines[1]) > 1
    assert all(text_width(line, NAME, bold=True) <= WORDS for one in lines for line in one)
    boxes = [extent_of(one.shapes) for one in groups(picture, "label")]
    assert not any(meets(a, b) for a, b in pairwise(boxes))


LONG = "It is there, and there is a good deal more to be said of it, all of it in this place."


def plates(picture: Picture) -> list[Group]:
    """The labels that lie on the photograph: each has a plate under its words."""
    return [one for one in groups(picture, "label") if isinstance(one.shapes[0], Rect)]


def test_where_the_margins_are_full_labels_lie_on_the_photograph() -> None:
    picture, problems = callouts_picture(
        folder(), photograph(tuple(replace(p, says=LONG) for p in spread(24))), "data:,"
    )
    assert problems == () and picture.size[1] <= HIGHEST
    assert 0 < len(plates(picture)) < len(groups(picture, "label")) == 24
    nothing_hidden(picture)


def test_too_many_labels_are_told() -> None:
    """D112."""
    points = tuple(replace(one, says=LONG) for one in spread(40))
    picture, problems = callouts_picture(folder(), photograph(points), "data:,")
    assert [p.code for p in problems] == ["D112"] and picture.size[1] > HIGHEST
    assert len(groups(picture, "label")) == 40
    nothing_hidden(picture)


@pytest.mark.parametrize("count", [1, 6, 14])
def test_labels_that_are_to_lie_on_the_photograph_do(count: int) -> None:
    points = tuple(replace(one, side="over") for one in spread(count))
    picture, problems = callouts_picture(folder(), photograph(points), "data:,")
    assert problems == () and len(plates(picture)) == count
    nothing_hidden(picture)
    shot = extent_of([one for one in picture.shapes if isinstance(one, Image)])
    for one in plates(picture):
        box = extent_of(one.shapes)
        assert shot.left < box.left and box.right < shot.right and shot.top < box.top and box.bottom < shot.bottom


def test_one_that_has_no_room_on_the_photograph_stands_in_a_margin() -> None:
    crowd = tuple(point(f"thing {x} {y}", (x / 8, y / 7)) for x in range(1, 8) for y in range(1, 7))
    points = (*crowd, replace(point("the long one", (0.52, 0.53), LONG), side="over"))
    picture, _ = callouts_picture(folder(), photograph(points, (900, 600)), "data:,")
    label = next(one for one in groups(picture, "label") if one.name == "label the long one")
    assert not isinstance(label.shapes[0], Rect)


def nothing_hidden(picture: Picture) -> None:
    """No label on another, none on a point, no words out of their plate."""
    labels = [extent_of(one.shapes) for one in groups(picture, "label")]
    assert not any(meets(a, b) for a, b in combinations(labels, 2))
    dots = [s for one in groups(picture, "leader") for s in one.shapes if isinstance(s, Circle)]
    assert not any(meets(extent_of((dot,)), label) for dot in dots for label in labels)
    for one in plates(picture):
        words = extent_of(one.shapes[1:])
        plate = extent_of(one.shapes[:1])
        assert plate.left <= words.left and words.right <= plate.right and words.bottom <= plate.bottom + 0.1


@pytest.mark.parametrize("manner", ["light", "dark"])
def test_words_and_leaders_are_seen_on_any_photograph(manner: Manner) -> None:
    """As drawn on a photograph half bright and half dark: words on their plate, a leader by its edge; contrast by the
    published formula."""
    file = io.BytesIO()
    halves = Pixels.new("RGB", (40, 20), (255, 255, 255))
    halves.paste((0, 0, 0), (20, 0, 40, 20))
    halves.save(file, "PNG")
    href = f"data:image/png;base64,{base64.b64encode(file.getvalue()).decode()}"
    points = (
        replace(point("horn", (0.25, 0.5), "Loud."), side="over"), point("lamp", (0.1, 0.3), "Red."),
        replace(point("bell", (0.75, 0.5), "Low."), side="over"), point("gong", (0.9, 0.3), "Deep."),
    )  # fmt: skip
    picture, _ = callouts_picture(folder(), photograph(points, (40, 20)), href)
    across, down = map(round, picture.size)
    png = still(picture, Size("", "", across, down), manner, style=STYLE)
    dots = np.asarray(Pixels.open(io.BytesIO(png)).convert("RGB"))
    for group in plates(picture):
        plate = extent_of(group.shapes[:1])
        inside = dots[int(plate.top) + 4 : int(plate.bottom) - 4, int(plate.left) + 4 : int(plate.right) - 4]
        shades, counts = np.unique(inside.reshape(-1, 3), axis=0, return_counts=True)
        ground = colour(shades[counts.argmax()])
        assert counts.max() > 0.4 * counts.sum() and ground == THEMES[manner].ink("band")
        assert max(contrast(colour(one), ground) for one in shades) >= 4.5
    for group in groups(picture, "leader"):
        line = next(one for one in group.shapes if isinstance(one, Line) and one.role == "thin")
        x, y = ((a + b) / 2 for a, b in zip(line.start, line.end, strict=True))
        found = {colour(one) for one in dots[int(y) - 5 : int(y) + 6, int(x) - 5 : int(x) + 6].reshape(-1, 3)}
        assert max(contrast(a, b) for a, b in product(found, found)) >= 4.5


def colour(dot: Any) -> str:
    return "#" + "".join(f"{int(part):02x}" for part in dot)


def test_the_words_name_all_that_is_pointed_at_and_whose_it_is() -> None:
    points = (point("horn", (0.9, 0.9), "Loud."), point("lamp", (0.1, 0.1)))
    picture, _ = callouts_picture(folder(), photograph(points), "data:,")
    told = " ".join(picture.description)
    assert "Pointed at: lamp (upper left); horn (lower right), Loud." in told
    assert "Photograph: Pell. Rights: Ours. Taken: 1939. Shows: cockpit." in told and "For talks only." in told
    draft, _ = callouts_picture(folder(), photograph(points, rights=""), "data:,")
    assert DRAFT in " ".join(draft.description) and DRAFT not in told
    assert whereabouts((0.5, 0.1)) == "upper middle"
