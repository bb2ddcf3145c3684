"""What the letters and signs of a sheet are said to be, and what names stand in a symbol."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.draw.about import about
from cutaway.draw.extent import extent_of
from cutaway.draw.filled import blocks_of
from cutaway.draw.plan import Plan, make_plan
from cutaway.draw.seen import look_of, notes_of
from cutaway.draw.shapes import Text
from cutaway.draw.signs import signs_on
from cutaway.draw.symbols.symbol import Look, Setting
from cutaway.draw.symbols.table import symbol_of
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.library import KINDS
from cutaway.quantities.which import StandardName

TURNSTONE, _ = load_folder(Path(__file__).parents[2] / "demo" / "turnstone", KINDS)
assert TURNSTONE is not None
MK_2 = next(s for s in subjects(TURNSTONE) if s.name == StandardName("Mk 2"))


def plan(system: str, folder: Folder = TURNSTONE, subject: Subject = MK_2) -> Plan:
    return make_plan(folder, subject, system, KINDS)


@pytest.mark.parametrize(
    ("system", "told"),
    [
        ("Undercarriage", "Letters: D down, E emergency, N normal, P pressure, R return, U up."),
        ("Pneumatics", "Letters: P port brake, S starboard brake."),
        ("Vacuum", "Letters: S suction."),
        ("Fuel", "Letters: E empty, F full, M motor."),
    ],
)
def test_letters_are_told_of(system: str, told: str) -> None:
    here = plan(system)
    assert told in signs_on(here, blocks_of(TURNSTONE, MK_2, here, KINDS, {}, None), KINDS)


def test_a_padlock_is_told_of_once() -> None:
    here = plan("Lamps and horns")
    found = signs_on(here, blocks_of(TURNSTONE, MK_2, here, KINDS, {}, None), KINDS)
    assert [words for words in found if "padlock" in words] == ["A shut padlock: locked. An open one: not locked."]


def test_what_a_rule_asks_about_is_joined_to_what_it_holds() -> None:
    told = {tie.told for tie in plan("Undercarriage").ties if tie.sort == "link"}
    assert "undercarriage lever interlocked with safety bolt" in told
    doors = plan("Bow doors")
    assert "bow door lever interlocked with float lever" in {tie.told for tie in doors.ties}
    lever = next(item.part for item in doors.items if item.key == "bow door lever")
    look = look_of(lever, KINDS[lever.kind], MK_2, None)
    said = about(lever, KINDS[lever.kind], look, doors.ties, MK_2.standard, False)
    assert "interlocked with float lever" in " ".join(said.lines)


def selector(*ways: str, place: float = 0.0) -> Look:
    return Look({"ways": ways}, {"": Setting(("off", *ways), place)}, {}, {}, {})


@pytest.mark.parametrize(
    "ways", [("port tank", "hull tank"), ("port", "a rather long name", "starboard"), tuple("abcd")]
)
def test_each_way_of_a_selector_is_named_at_its_pipe(ways: tuple[str, ...]) -> None:
    drawn = symbol_of(KINDS["selector cock"], selector(*ways, place=1.0))
    words = {shape.words: extent_of((shape,)) for shape in drawn.shapes if isinstance(shape, Text)}
    assert tuple(words) == ways
    for anchor in (a for a in drawn.anchors if a.port in ways):
        near = {way: min(abs(box.top - anchor.at[1]), abs(box.bottom - anchor.at[1])) for way, box in words.items()}
        assert min(near, key=near.__getitem__) == anchor.port
        for box in words.values():
            assert not box.top + 0.02 < anchor.at[1] < box.bottom - 0.02
            assert (
                box.left >= 0.0 and box.right < anchor.at[0] and box.top >= -0.01 and box.bottom <= drawn.size[1] + 0.06
            )


def test_a_share_says_of_what_it_is() -> None:
    kind = KINDS["filament lamp"]
    look = replace(selector(), lists={}, controls={}, readings={"brightness": 0.6})
    assert "brightness 60 %" in notes_of(kind, look, {})
