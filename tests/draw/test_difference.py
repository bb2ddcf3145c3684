"""Two standards on one sheet: what only one has is marked by frame, mark, colour and words, and nothing else is."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from cutaway.draw.difference import PART, difference_pictures
from cutaway.draw.pages import smallest_points
from cutaway.draw.plan import Plan, plan_of, whole_system
from cutaway.draw.shapes import Circle, Group, Picture, Polyline, Rect, Shape, Text
from cutaway.draw.theme import INKED_RULES
from cutaway.draw.union import united
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import PartName
from cutaway.machine.subjects import parts_of, subjects
from cutaway.parts.library import KINDS
from cutaway.quantities.which import StandardName

TURNSTONE, _ = load_folder(Path(__file__).parents[2] / "demo" / "turnstone", KINDS)
assert TURNSTONE is not None


def of(on: str, against: str, system: str, cache: Path) -> Picture:
    assert TURNSTONE is not None
    (picture,), problems = difference_pictures(TURNSTONE, StandardName(on), StandardName(against), system, KINDS, cache)
    assert problems == ()
    return picture


@pytest.fixture(scope="module")
def sheet(layouts: Path) -> Picture:
    return of("Mk 1", "Mk 2", "Flaps and floats", layouts)


def every(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    for shape in shapes:
        yield shape
        if isinstance(shape, Group):
            yield from every(shape.shapes)


def parts(standard: str, system: str) -> set[tuple[str, str]]:
    """Names and kinds: a part of another kind is another."""
    assert TURNSTONE is not None
    subject = next(s for s in subjects(TURNSTONE) if s.name == standard)
    return {(str(p.name), p.kind) for p in parts_of(TURNSTONE, subject) if p.system == system}


def test_every_part_of_either_is_drawn_where_it_can_be_read(layouts: Path) -> None:
    whole = of("Mk 1", "Mk 2", "Hydraulics", layouts)
    drawn = {g.part for g in every(whole.shapes) if isinstance(g, Group) and g.part}
    assert drawn == {name for one in ("Mk 1", "Mk 2") for name, _ in parts(one, "Hydraulics")}
    assert PART not in whole.description


def test_where_the_whole_could_not_be_read_what_differs_is_drawn(sheet: Picture) -> None:
    drawn = {g.part for g in every(sheet.shapes) if isinstance(g, Group) and g.part}
    one, other = parts("Mk 1", "Flaps and floats"), parts("Mk 2", "Flaps and floats")
    assert {name for name, _ in one ^ other} <= drawn < {name for name, _ in one | other}
    assert PART in sheet.description and smallest_points(sheet) >= 7.0


def test_what_differs_takes_several_sheets_where_it_must(layouts: Path) -> None:
    assert TURNSTONE is not None
    mk_1, mk_2 = StandardName("Mk 1"), StandardName("Mk 2")
    pictures, problems = difference_pictures(TURNSTONE, mk_1, mk_2, "Fuel", KINDS, layouts, "fuel")
    assert problems == () and len(pictures) > 1
    assert [p.name for p in pictures] == [f"fuel {i}" for i in range(1, len(pictures) + 1)]
    drawn = [g.part for p in pictures for g in every(p.shapes) if isinstance(g, Group) and g.part]
    only = {name for name, _ in parts("Mk 1", "Fuel") ^ parts("Mk 2", "Fuel")}
    assert only <= set(drawn) and all(drawn.count(name) == 1 for name in only)
    for i, picture in enumerate(pictures, 1):
        assert picture.title.endswith(f", sheet {i} of {len(pictures)}") and smallest_points(picture) >= 7.0


@pytest.mark.parametrize(("here", "there"), [("Mk 1", "Mk 2"), ("Mk 2", "Mk 1")])
def test_what_only_one_has_says_so(here: str, there: str, sheet: Picture) -> None:
    told = {g.part for g in every(sheet.shapes) if isinstance(g, Group) and g.part and says(g, f"only on {here}")}
    only = parts(here, "Flaps and floats") - parts(there, "Flaps and floats")
    assert told == {name for name, _ in only} and told
    sentence = next(w for w in sheet.description if w.startswith(f"Parts only on {here}"))
    assert all(name in sentence for name in told)


def says(group: Group, words: str) -> bool:
    return any(isinstance(t, Text) and t.words == words for t in group.shapes)


def test_each_has_a_mark_of_its_own(sheet: Picture) -> None:
    frames = [g for g in every(sheet.shapes) if isinstance(g, Group) and g.role == "only"]
    marks = {(type(g.shapes[0]), g.shapes[0].role, type(g.shapes[1])) for g in frames if isinstance(g.shapes[0], Rect)}
    assert marks == {(Rect, "only first", Polyline), (Rect, "only second", Circle)}


def test_frames_differ_without_colour() -> None:
    first, second = (
        dict(rule.rest) for role in ("only first", "only second") for rule in INKED_RULES if rule.role == role
    )
    assert "stroke-dasharray" not in first and "stroke-dasharray" in second
    assert float(first["stroke-width"]) > float(second["stroke-width"])


def plan(standard: str, system: str) -> Plan:
    assert TURNSTONE is not None
    subject = next(s for s in subjects(TURNSTONE) if s.name == standard)
    return plan_of(TURNSTONE, subject, whole_system(TURNSTONE, subject, system), KINDS)


@pytest.mark.parametrize("system", ["Fuel", "Electrics", "Undercarriage", "Vacuum"])
def test_the_other_way_round_first_and_second_change_places(system: str) -> None:
    turned = {"first": "second", "second": "first", "both": "both"}
    one = united(plan("Mk 1", system), plan("Mk 2", system), "Mk 2").side
    other = united(plan("Mk 2", system), plan("Mk 1", system), "Mk 1").side
    assert dict(one) == {name: turned[side] for name, side in other.items()}
    assert set(one.values()) == ({"both"} if system == "Vacuum" else {"both", "first", "second"})


def test_a_part_of_another_kind_stands_there_twice() -> None:
    both = united(plan("Mk 2", "Fuel"), plan("Mk 4", "Fuel"), "Mk 4")
    there = [item.part.name for item in both.plan.items if not item.reference]
    assert there.count(PartName("port carburettor")) == 2 and there.count(PartName("port filter")) == 1


def test_where_both_are_alike_nothing_is_marked(layouts: Path) -> None:
    sheet = of("Mk 1", "Mk 2", "Vacuum", layouts)
    assert not [s for s in every(sheet.shapes) if isinstance(s, Group) and s.role == "only"]
    assert "Nothing on this sheet is on one of them only." in sheet.description


@pytest.mark.parametrize(("on", "system", "code"), [("Mk 9", "Fuel", "D103"), ("Mk 2", "Fule", "D104")])
def test_an_unknown_name_is_a_problem(on: str, system: str, code: str, layouts: Path) -> None:
    assert TURNSTONE is not None
    pictures, problems = difference_pictures(TURNSTONE, StandardName(on), StandardName("Mk 1"), system, KINDS, layouts)
    assert pictures == () and [p.code for p in problems] == [code]
