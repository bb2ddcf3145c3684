"""Situations: settings looked up, figures read, circles and unknown beginnings told."""

from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.parts.library import KINDS
from tests.handbook.folders import at_fault, codes, load_sample

PARTS = """\
system: All
parts:
  tank: {kind: tank, capacity: 20 gal}
  fuel cock: {kind: cock}
  selector: {kind: selector cock, ways: [Port Tank, starboard tank]}
  lever: {kind: throttle}
  carburettor: {kind: carburettor}
  ignition: {kind: magneto switch}
  engine: {kind: engine, throttle: lever, fuel from: carburettor, ignition: ignition}
"""


def situations(tmp_path, text):
    files = {"systems/fuel.yaml": PARTS, "situations.yaml": f"situations:\n  parked: {{says: Still.}}\n{text}"}
    return load_sample(tmp_path, files)


@pytest.mark.parametrize(
    "key, value, name, position",
    [
        ("fuel cock", "on", "fuel cock", "on"),
        ("FUEL  COCK", "ON", "fuel cock", "on"),
        ("selector", "port tank", "selector", "Port Tank"),
        ("engine starter", "pressed", "engine.starter", "pressed"),
        ("engine.starter", "pressed", "engine.starter", "pressed"),
        ("engine", "pressed", "engine.starter", "pressed"),
        ("lever", "open", "lever", "open"),
        ("lever", "60 %", "lever", "60 %"),
    ],
)
def test_a_setting_is_looked_up(key, value, name, position, tmp_path):
    folder, problems = situations(tmp_path, f"  x: {{set: {{{key}: {value}}}}}\n")
    assert problems == ()
    (setting,) = folder.situations[1].sets
    assert (setting.name, setting.text) == (name, position)
    assert setting.name_span.file.text[setting.name_span.start : setting.name_span.end] == key
    assert (setting.quantity is not None) == ("%" in value)


@pytest.mark.parametrize(
    "body, code, place",
    [
        ("set: {fuel cok: on}", "H403", "fuel cok"),
        ("set: {tank: on}", "H403", "tank"),
        ("set: {engine.stater: pressed}", "H403", "engine.stater"),
        ("set: {fuel cock: half}", "H404", "half"),
        ("set: {fuel cock: 50 %}", "H404", "50 %"),
        ("set: {lever: 160 %}", "H404", "160 %"),
        ("set: {lever: 60 rpm}", "Q105", "rpm"),
        ("set: {selector: middle tank}", "H404", "middle tank"),
        ("given: {hight: 3000 ft}", "H405", "hight"),
        ("given: {height: 3000 kt}", "Q105", "kt"),
        ("given: {height: 3,000 ft}", "H106", "000 ft"),
        ("start: {fuel cock: 3 gal}", "H406", "fuel cock"),
        ("start: {tank: 3 lb}", "Q105", "lb"),
        ("start: {tnk: 3 gal}", "H310", "tnk"),
        ("settle: for ever", "Q101", "for ever"),
        ("settle: 3 weeks", "Q104", None),
        ("says: [a, b]", "H108", "[a, b]"),
        ("sets: {fuel cock: on}", "H110", "sets"),
    ],
)
def test_a_mistake_is_told_at_its_place_and_leaves_the_situation_out(body, code, place, tmp_path):
    folder, problems = situations(tmp_path, f"  x: {{{body}}}\n")
    assert codes(problems) == [code]
    if place:
        assert at_fault(problems, code) == place
    assert "x" in folder.left_out
    assert [one.name for one in folder.situations] == ["parked"]


def test_a_circle_is_told_once_with_all_its_places(tmp_path):
    folder, problems = situations(tmp_path, "  a: {from: b}\n  b: {from: c}\n  c: {from: a}\n  d: {from: a}\n")
    assert codes(problems) == ["H401"]
    assert len(problems[0].also) == 2
    assert [one.name for one in folder.situations] == ["parked"]
    assert {"a", "b", "c", "d"} <= folder.left_out


def test_a_situation_from_itself_is_a_circle(tmp_path):
    assert codes(situations(tmp_path, "  a: {from: a}\n")[1]) == ["H401"]


def test_an_unknown_beginning_is_told_once(tmp_path):
    folder, problems = situations(tmp_path, "  a: {from: parkd}\n  b: {from: a}\n")
    assert codes(problems) == ["H402"]
    assert problems[0].hint == "Did you mean parked?"
    assert [one.name for one in folder.situations] == ["parked"]


def test_figures_are_kept_as_written_with_their_quantity(tmp_path):
    text = "  x: {from: Parked, given: {Height: 3000 ft, airspeed: 110 kt}, start: {TANK: 18 gal}, settle: 2 min}\n"
    folder, problems = situations(tmp_path, text)
    assert problems == ()
    one = folder.situations[1]
    assert one.base == "parked"
    assert [(s.name, s.text, s.quantity.unit.name) for s in (*one.given, *one.starts) if s.quantity] == [
        ("height", "3000 ft", "ft"), ("airspeed", "110 kt", "kt"), ("tank", "18 gal", "gal"),
    ]  # fmt: skip
    assert one.settle == 120.0


def test_a_setting_of_a_part_left_out_is_dropped_in_silence(tmp_path):
    files = {
        "systems/fuel.yaml": PARTS.replace("kind: cock", "kind: cok"),
        "situations.yaml": "situations:\n  parked:\n  x: {from: parked, set: {fuel cock: on, lever: open}}\n",
    }
    folder, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["H301"]
    assert [setting.name for setting in folder.situations[1].sets] == ["lever"]


def test_a_folder_without_situations_is_told_how_one_is_written(sample: Path) -> None:
    (sample / "situations.yaml").unlink()
    (sample / "drills").mkdir(exist_ok=True)
    (sample / "drills" / "start.md").write_text("---\ntitle: Start\nfrom: parked\n---\n\n1. Look.\n", encoding="utf-8")
    (sample / "sheets").mkdir(exist_ok=True)
    (sample / "sheets" / "fuel.yaml").write_text("sheet: Petrol\nsystem: Fuel\nin: [parked]\n", encoding="utf-8")
    _, problems = load_folder(sample, KINDS)
    hints = {one.code: one.hint for one in problems}
    assert "situations: {parked: {says: …}}" in hints["H402"]
    assert "situations: {parked: {says: …}}" in hints["H943"]


def test_a_folder_without_books_is_told_where_they_go(sample: Path) -> None:
    for one in (sample / "sources").glob("*.md"):
        one.unlink()
    _, problems = load_folder(sample, KINDS)
    told = [one for one in problems if one.code == "H202"]
    assert told and all("sources/hb.md" in one.hint for one in told)
