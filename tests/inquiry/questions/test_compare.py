"""What differs between two standards: for the crew, and in the records."""

from pathlib import Path

import pytest

from cutaway.api.asking import opened
from cutaway.api.compare import Compared, compare, compared_record, compared_rows, compared_text
from cutaway.inquiry.questions.compare_records import Moment
from tests.inquiry.folders import folder_at, system

ELECTRICS = system(
    """
battery: {kind: battery, voltage: 12 V, capacity: 30 Ah}
main switch: {kind: switch, at: left wall}
lamp: {kind: filament lamp}
port lamp: {kind: filament lamp, on: Mk 2, cite: hb §2}
starboard lamp: {kind: filament lamp, on: Mk 2, cite: hb §2}
dash lamp: {kind: filament lamp}
spare switch: {kind: switch, on: Mk 1 with mod 3, cite: hb §3}
""",
    """
{run: battery > main switch > lamp, on: Mk 1}
{run: battery > lamp, on: Mk 2, cite: hb §2}
{run: battery > port lamp, on: Mk 2, cite: hb §2}
{run: battery > starboard lamp, on: Mk 2, cite: hb §2}
battery > main switch > dash lamp
{run: battery > spare switch > dash lamp, on: Mk 1 with mod 3, cite: hb §3}
""",
)
FILES = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\nmods: {mod 3: {fitted to: Mk 1}}\n"
    "standards: [Mk 1, Mk 1 with mod 3, Mk 2]\n",
    "sources/hb.md": "---\ntitle: Handbook\namendments: {A.L. 1: {date: May 1939, says: Adds.}}\n---\n\n"
    "## 1 Lamp\n\nA lamp.\n\n## 2 Lamps\n{on: Mk 2, amendment: A.L. 1}\n\nThree lamps.\n\n## 3 Spare\n\nA switch.\n",
    "systems/electrics.yaml": ELECTRICS,
    "situations.yaml": "situations:\n  dark: {set: {main switch: off}}\n"
    "  bright: {from: dark, set: {main switch: on}}\n",
    "drills/going.md": "---\ntitle: Going\nfrom: dark\n---\n\n"
    "1. On: `main switch to on`.\n2. Off: `main switch to off`.\n",
    "drills/alone.md": "---\ntitle: Alone\nfrom: dark\non: Mk 2\n---\n\n1. On: `main switch to on`.\n",
}


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("wren")
    folder_at(place, FILES)
    return place


@pytest.fixture(scope="module")
def marks(wren: Path) -> Compared:
    found, problems = compare(wren, "Mk 1", "Mk 2")
    assert found is not None and problems == ()
    return found


def test_what_the_crew_has(wren: Path, marks: Compared) -> None:
    assert marks.found.controls == ()
    assert [(i.part, i.has) for i in marks.found.indications] == [("port lamp", "other"), ("starboard lamp", "other")]
    modded, _ = compare(wren, "Mk 1", "Mk 1 with mod 3")
    assert modded is not None
    ((control,), indications) = modded.found.controls, modded.found.indications
    assert (control.name, control.one, control.other) == ("spare switch", (), ("off", "on")) and indications == ()


def test_what_the_crew_sees(marks: Compared) -> None:
    """Off, the lamp is out on Mk 1 and lit on Mk 2; a difference that was there before a step is not told again."""
    seen = [(b.at, b.one.what, b.one.state, b.other.state) for b in marks.found.behaviours]
    assert seen == [
        (Moment("dark"), "lamp", "out", "lit"),
        (Moment("dark", "going", "Going", 2), "lamp", "out", "lit"),
    ]
    assert marks.found.moments == 2 + 2
    (left,) = marks.found.unanswered
    assert (left.at.drill, left.on) == ("alone", "Mk 1")


def test_what_differs_underneath(wren: Path, marks: Compared) -> None:
    under = {(r.what, r.part): r for r in marks.found.underneath}
    assert {what for what, _ in under} == {"part", "line"}
    lamp = under[("part", "port lamp")]
    assert (lamp.one, lamp.other, lamp.amendments, lamp.mods) == ("", "filament lamp", ("A.L. 1",), ())
    modded, _ = compare(wren, "Mk 1", "Mk 1 with mod 3")
    assert modded is not None
    assert {r.mods for r in modded.found.underneath} == {("mod 3",)}


def test_the_same_and_itself(wren: Path) -> None:
    found, _ = compare(wren, "Mk 1", "Mk 1")
    assert found is not None
    assert (found.found.controls, found.found.indications, found.found.behaviours) == ((), (), ())
    assert "no difference" in compared_text(found) and "the records are the same" in compared_text(found)


def test_text_table_and_record_tell_the_same(marks: Compared) -> None:
    text = compared_text(marks)
    assert "Only Mk 2 has the port lamp" in text and "Likewise to starboard." in text
    assert "In dark and after step 2 of 'Going', the lamp is out on Mk 1, and is lit on Mk 2." in text
    assert "since A.L. 1" in text
    rows = compared_rows(marks)
    record = compared_record(marks)
    parts = ("controls", "indications", "behaviours", "underneath")
    assert len(rows) == sum(len(record[name]) for name in parts)  # type: ignore[arg-type]


def test_what_goes_on_in_every_situation_is_told_once(tmp_path: Path) -> None:
    tanks = "tank: {kind: tank, capacity: [{is: 15 gal, on: Mk 1}, {is: 20 gal, on: Mk 2}]}\n"
    gauge = "gauge: {kind: contents gauge, reads: tank}\ncock: {kind: cock}"
    situations = "situations:\n  shut: {settle: 1 s}\n  open: {from: shut, set: {cock: on}}\n"
    files = {"type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n", "situations.yaml": situations}
    folder_at(tmp_path, {**files, "systems/fuel.yaml": system(tanks + gauge, "tank > cock")})
    found, problems = compare(tmp_path, "Mk 1", "Mk 2", moves=0)
    assert found is not None and problems == () and len(found.found.behaviours) == 2
    assert "In every situation, the gauge reads 15 gal on Mk 1, and 20 gal on Mk 2." in compared_text(found)
    assert [row for row in compared_rows(found) if "gauge" in row[0]] == [
        ("in every situation: gauge", "15 gal", "20 gal", "")
    ]
    alone, _ = compare(tmp_path, "Mk 1", "Mk 2", "open", moves=0)
    assert alone is not None and "every situation" not in compared_text(alone)


def test_one_situation_alone(wren: Path) -> None:
    here, _ = opened(wren)
    assert here is not None
    found, _ = compare(here, "Mk 1", "Mk 2", "bright")
    assert found is not None and found.found.moments == 1 and found.found.behaviours == ()


def test_bad_words_are_told(wren: Path) -> None:
    for one, other, where, code in (("Mk 9", "Mk 2", "", "Q120"), ("Mk 1", "Mk 2", "brigt", "L")):
        found, problems = compare(wren, one, other, where)
        assert found is None and any(p.code.startswith(code) for p in problems)


def test_a_stop_is_told(wren: Path) -> None:
    found, _ = compare(wren, "Mk 1", "Mk 2", stop=lambda: True)
    assert found is not None and found.found.moments == 0 and len(found.found.unanswered) == 4
    assert "it was stopped before that" in compared_text(found)


def test_the_whinchat(monkeypatch: pytest.MonkeyPatch) -> None:
    found, _ = compare(Path(__file__).parents[3] / "demo" / "whinchat", "Mk 1", "Mk 2", "parked")
    assert found is not None
    assert [c.name for c in found.found.controls] == ["hand pump"]
    lamp = next(r for r in found.found.underneath if r.part == "fuel lamp" and r.what == "value")
    assert (lamp.one, lamp.other, lamp.amendments) == ("2 lb/sq in", "3 lb/sq in", ("A.L. 1",))


HORN = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
    "systems/warning.yaml": system(
        """
battery: {kind: battery, voltage: 12 V, capacity: 30 Ah}
horn switch: {kind: switch}
test switch: {kind: switch}
guard: [{on: Mk 1, kind: switch}, {on: Mk 2, kind: switch, rules: [{to: "on", only when: test switch is on}]}]
lamp: {kind: filament lamp}
""",
        """
battery > horn switch
battery > test switch
{run: horn switch > lamp, on: Mk 1}
{run: test switch > lamp, on: Mk 2}
battery > guard
""",
    ),
    "situations.yaml": "situations:\n  dark: {set: {horn switch: off, test switch: off, guard: off}}\n",
}


def test_what_only_a_movement_shows(tmp_path: Path) -> None:
    """In the situation all is alike; one switch lights the lamp on one mark only, the other on the other only, and a
    rule holds the guard on one."""
    folder_at(tmp_path, HORN)
    found, problems = compare(tmp_path, "Mk 1", "Mk 2")
    assert found is not None and not problems
    assert found.found.behaviours == ()
    moved = found.found.moved
    seen = {(b.at.move, b.one.what, b.one.state, b.other.state) for b in moved.behaviours}
    assert seen == {
        (("horn switch", "on"), "lamp", "lit", "out"),
        (("test switch", "on"), "lamp", "out", "lit"),
        (("guard", "on"), "guard", "free to move", "held back by a rule"),
    }
    assert (moved.tried, moved.possible, moved.nothing) == (3, 3, 0)
    text = compared_text(found)
    assert "When dark" in text or "In dark, with the horn switch put to on, the lamp is lit on Mk 1" in text
    few, _ = compare(tmp_path, "Mk 1", "Mk 2", moves=1)
    assert few is not None and few.found.moved.tried == 1 and "1 of 3 such movements" in compared_text(few)
    none, _ = compare(tmp_path, "Mk 1", "Mk 2", moves=0)
    assert none is not None and none.found.moved.possible == 0 and "such movements" not in compared_text(none)
