"""Sheets of the author's own: what is shown, in which columns, and what is left out with the reason."""

from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

from cutaway.draw.draft import Draft
from cutaway.draw.sheet import drawn
from cutaway.draw.steered import extract_of, steered
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, LeftOut, PartName, Sheet
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Problems
from cutaway.quantities.which import every
from tests.draw import by_hand

SUBJECT = subjects(by_hand.FUEL)[0]
TURNSTONE, _ = load_folder(Path(__file__).parents[2] / "demo" / "turnstone", KINDS)
assert TURNSTONE is not None
PLAIN = Sheet(
    "Petrol", "", ("Fuel",), (), (), every(by_hand.FUEL.type.standards), "", False, True, (), (), by_hand.SPAN
)


def names(*words: str) -> tuple[PartName, ...]:
    return tuple(PartName(word) for word in words)


def made(cache: Path, **changes: Any) -> tuple[Draft, Problems]:
    found, problems = steered(by_hand.FUEL, SUBJECT, replace(PLAIN, **changes), KINDS, cache)
    assert len(found) == 1
    return found[0], problems


def own(draft: Draft) -> set[str]:
    return {item.key for item in draft.plan.items if not item.reference}


def test_the_system_or_some_parts(layouts: Path) -> None:
    whole, _ = made(layouts)
    assert own(whole) == {str(p.name) for p in by_hand.FUEL.parts if p.system == "Fuel"}
    few, problems = made(layouts, systems=(), parts=names("engine pump", "carburettor", "engine"))
    assert own(few) == {"engine pump", "carburettor", "engine"} and problems == ()
    assert any("filter" in item.labels for item in few.plan.items if item.reference)


def test_columns_stand_from_left_to_right_and_from_top_to_bottom(layouts: Path) -> None:
    columns = (names("hand pump", "engine pump"), names("carburettor"), names("filter"))
    draft, problems = made(layouts, systems=(), parts=tuple(p for c in columns for p in c), columns=columns)
    at = dict(draft.layout.corners)
    assert problems == ()
    assert max(at["hand pump"][0], at["engine pump"][0]) < at["carburettor"][0] < at["filter"][0]
    assert at["hand pump"][1] < at["engine pump"][1]
    turned = (names("engine pump", "hand pump"), *columns[1:])
    draft, _ = made(layouts, systems=(), parts=tuple(p for c in columns for p in c), columns=turned)
    at = dict(draft.layout.corners)
    assert at["engine pump"][1] < at["hand pump"][1]


def test_what_is_left_out_is_told_with_its_reason(layouts: Path) -> None:
    out = (LeftOut(PartName("hand pump"), "It stands by."),)
    draft, _ = made(layouts, left_out=out)
    assert "hand pump" not in own(draft) and not any("hand pump" in tie.name for tie in draft.plan.ties)
    assert "Not shown here: hand pump. It stands by." in drawn(draft, None).description


def test_stations_and_shape(layouts: Path) -> None:
    assert TURNSTONE is not None
    subject = next(s for s in subjects(TURNSTONE) if s.name == "Mk 2")
    sheet = next(s for s in TURNSTONE.sheets if s.shape == "A4 upright")
    (draft,), problems = steered(TURNSTONE, subject, sheet, KINDS, layouts)
    assert problems == () and draft.areas == () and draft.shape < 1
    (with_them,), _ = steered(TURNSTONE, subject, replace(sheet, stations=True), KINDS, layouts)
    assert {area.station for area in with_them.areas} >= {"pilot's panel"}


def test_every_sheet_of_the_demo_shows_something(layouts: Path) -> None:
    assert TURNSTONE is not None and len(TURNSTONE.sheets) == 2
    for sheet in TURNSTONE.sheets:
        for subject in subjects(TURNSTONE):
            if subject.name in sheet.on.names:
                assert extract_of(TURNSTONE, subject, sheet).own


def test_a_sheet_of_what_a_standard_lacks_is_a_problem(layouts: Path) -> None:
    found, problems = steered(by_hand.FUEL, SUBJECT, replace(PLAIN, systems=("Oil",)), KINDS, layouts)
    assert found == () and [p.code for p in problems] == ["D106"]


def test_columns_that_are_too_wide_are_a_problem(layouts: Path) -> None:
    folder, columns = long_way(16)
    sheet = replace(PLAIN, columns=columns)
    found, problems = steered(folder, subjects(folder)[0], sheet, KINDS, layouts)
    assert len(found) == 1 and [p.code for p in problems] == ["D107"]
    found, problems = steered(folder, subjects(folder)[0], PLAIN, KINDS, layouts)
    assert problems == ()


def long_way(count: int) -> tuple[Folder, tuple[tuple[PartName, ...], ...]]:
    """Filters one behind the other."""
    parts = [by_hand.part(f"filter number {n}", "fuel filter") for n in range(count)]
    lines = [by_hand.line(f"{a.name}.outlet", f"{b.name}.inlet") for a, b in pairwise(parts)]
    return by_hand.folder(parts, lines), tuple((part.name,) for part in parts)


def test_what_is_too_large_is_divided_and_every_part_stands_on_one_sheet(layouts: Path) -> None:
    folder, _ = long_way(16)
    sheets, _ = steered(folder, subjects(folder)[0], replace(PLAIN, shape="A4"), KINDS, layouts)
    assert sorted(key for draft in sheets for key in own(draft)) == sorted(str(p.name) for p in folder.parts)
