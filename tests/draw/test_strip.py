"""The strip at the foot of a sheet: only what the sheet shows, cautions once."""

from itertools import combinations

import pytest

from cutaway.draw.cautions import cautions_on
from cutaway.draw.extent import extent_of
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.pipes import Used, strokes
from cutaway.draw.plan import make_plan
from cutaway.draw.seen import lines_seen
from cutaway.draw.shapes import Text
from cutaway.draw.strip import foot_shapes, head_shapes, keys_for
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from cutaway.quantities.prose import figures_in
from tests.draw import by_hand


def test_the_key_tells_only_what_a_state_shows() -> None:
    used = Used(frozenset({strokes("air", True), strokes("current", False)}), flows=False)
    words = [words for _, words in keys_for(("air", "current"), True, True, False, used=used)]
    assert words == ["air under suction or pressure", "wire, dead", "works, drives or is read by"]


def test_the_key_tells_suction_from_pressure() -> None:
    for air, told in (("suction", "air under suction"), ("pressure", "air under pressure")):
        used = Used(frozenset({strokes("air", True)}), False, frozenset({air}))
        assert [words for _, words in keys_for(("air",), True, False, False, used=used)] == [told]


def test_air_below_that_outside_is_under_suction() -> None:
    folder = by_hand.folder(
        (by_hand.part("bottle", "air bottle"), by_hand.part("brake", "brake")),
        (by_hand.line("bottle.any", "brake.air"),),
    )
    plan = make_plan(folder, subjects(folder)[0], "Fuel", KINDS)
    (tie,) = plan.ties
    for pascals, suction in ((85_000.0, True), (300_000.0, False)):
        values = {"set height": 0.0, "bottle.any": pascals, "brake.air": pascals}
        assert lines_seen(plan, values, 24.0)[tie.name].suction == suction


def test_the_strip_is_as_high_in_every_state() -> None:
    keys = keys_for(("petrol", "oil", "air", "current"), True, True, True, True)
    heights = {foot_shapes(keys, (), ("A caution.",), "Notice.", 800.0, shown)[1] for shown in (None, (), keys[:3])}
    assert len(heights) == 1


def test_a_caution_begins_with_a_bullet_under_one_heading() -> None:
    shapes, _ = foot_shapes((), (), ("Petrol vapour burns and poisons.",), "Notice.", 900.0)
    words = [(s.role, s.words) for s in shapes if isinstance(s, Text)]
    assert words[:3] == [("strong", "Cautions"), ("strong", "•"), ("note", "Petrol vapour burns and poisons.")]


@pytest.mark.parametrize(
    ("short", "long", "kept"),
    [
        ("Vapour collects in the hull.", "Vapour collects under the wing and in the hull.", 1),
        ("Feel for a leak.", "Never feel for a leak.", 2),
        ("Let the oil off.", "Let the air off.", 2),
    ],
)
def test_what_another_caution_says_as_well_is_left_out(short: str, long: str, kept: int) -> None:
    parts = [by_hand.part(f"filter {i}", "fuel filter", caution=words) for i, words in enumerate((short, long))]
    folder = by_hand.folder(parts, ())
    found = cautions_on(make_plan(folder, subjects(folder)[0], "Fuel", KINDS), KINDS)
    assert len(found) == kept and long in found


def test_a_long_title_goes_on_in_the_next_line() -> None:
    words = "The way of the petrol from the tank in the wing to the carburettor, and what is read off on it"
    short, low = head_shapes("Petrol", "Cruising.", 900.0)
    long, high = head_shapes(words, "Cruising.", 900.0)
    lines = [s for s in long if isinstance(s, Text) and s.role == "title"]
    assert len(lines) == 2 and " ".join(line.words for line in lines) == words and high > low
    assert all(line.at[0] + line.width <= 900.0 for line in lines)
    assert len(short) == 2 and not any(
        extent_of((a,)).widened(-2.0).meets(extent_of((b,)).widened(-2.0)) for a, b in combinations(long, 2)
    )


MANY = tuple(f"Caution {i}: keep clear of what moves while there is pressure in the pipes." for i in range(5))


def test_cautions_stand_in_two_columns_where_that_is_less_high() -> None:
    narrow, wide = (foot_shapes((), (), MANY, "Notice.", width) for width in (800.0, 1600.0))
    assert len({s.at[0] for s in narrow[0] if isinstance(s, Text) and s.role == "strong"}) == 1
    columns = [s for s in wide[0] if isinstance(s, Text) and s.words.startswith("Caution ")]
    assert len({s.at[0] for s in columns}) == 2 and wide[1] < narrow[1]
    assert [s.words[8] for s in columns] == ["0", "1", "2", "3", "4"]  # down the first column, then the second
    for one, other in combinations([s for s in wide[0] if isinstance(s, Text)], 2):
        assert not extent_of((one,)).widened(-2.0).meets(extent_of((other,)).widened(-2.0))


@pytest.mark.parametrize(
    "words", ["starboard brake 0 lb/sq in", "set at 4.5 in Hg", "lights below 2½ lb. per sq. in. at 20 °C"]
)
@pytest.mark.parametrize("even", [False, True])
def test_a_figure_is_not_parted_from_its_unit(words: str, even: bool) -> None:
    figures = [quantity.text for quantity in figures_in(words)]
    assert figures
    for width in range(20, 400, 20):
        lines = wrapped(words, 14.5, float(width), even=even)
        assert " ".join(lines) == words
        assert all(any(figure in line for line in lines) for figure in figures)


def test_lines_of_about_one_length() -> None:
    words, wide = "moved by starboard float jack", 180.0
    uneven, even = wrapped(words, 14.5, wide), wrapped(words, 14.5, wide, even=True)
    widest = [max(text_width(line, 14.5) for line in lines) for lines in (even, uneven)]
    assert len(even) == len(uneven) and widest[0] < widest[1]
    assert wrapped("short", 14.5, wide, even=True) == ("short",) and wrapped("", 14.5, wide, even=True) == ()
