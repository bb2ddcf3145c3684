"""How a problem is shown: the place in the file, the mark under the words, the order."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.problems.diagnostic import Diagnostic, has_error, in_order
from cutaway.problems.printing import as_records, as_text
from cutaway.problems.span import Span, TextFile, place, whole

FUEL = TextFile("systems/fuel.yaml", "system: Fuel\nparts:\n  port tank: {kind: tank, capacity: 22 galons}\n")
TYPE = TextFile("type.yaml", "name: Wren\n")


def at(words: str, file: TextFile = FUEL) -> Span:
    start = file.text.index(words)
    return Span(file, start, start + len(words))


def test_a_problem_as_text() -> None:
    unit = Diagnostic(
        "Q104", at("galons"), "The unit 'galons' is not known.", "Write 22 gal.", ((at("Fuel"), "Here:"),)
    )
    assert as_text((unit,)) == (
        "The unit 'galons' is not known.\n"
        "    systems/fuel.yaml, line 3, column 40\n"
        "        port tank: {kind: tank, capacity: 22 galons}\n"
        "                                             ^^^^^^\n"
        "    Here:\n"
        "    systems/fuel.yaml, line 1, column 9\n"
        "        system: Fuel\n"
        "                ^^^^\n"
        "    Write 22 gal.  [Q104]"
    )


def test_a_warning_is_a_note_and_a_problem_without_a_place_has_none() -> None:
    assert as_text((Diagnostic("Q122", None, "Nothing matches."),)) == "Note: Nothing matches.\n    [Q122]"


def test_the_order_is_file_place_code_each_once() -> None:
    late, early = Diagnostic("Q104", at("galons"), "late"), Diagnostic("Q104", at("Fuel"), "early")
    other, none = Diagnostic("Q101", at("Wren", TYPE), "other"), Diagnostic("Q122", None, "none")
    same_place = Diagnostic("Q101", at("galons"), "before late, by code")
    assert in_order((late, none, early, other, late, same_place)) == (other, early, same_place, late, none)


def test_causes_come_before_what_follows_from_them() -> None:
    """A type before the systems built on it, systems before scripts, all that is written before what is asked of it."""
    paths = ("type.yaml", "sources/hb.md", "systems/fuel.yaml", "situations.yaml", "scripts/01.md", "command line")
    told = [Diagnostic("Q104", whole(TextFile(path, "galons")), "unit") for path in paths]
    missing = Diagnostic("H006", None, "no type.yaml")
    assert list(in_order((*reversed(told), missing))) == [missing, *told]


def test_severity_comes_from_the_catalogue() -> None:
    assert has_error((Diagnostic("Q122", None, "a note"), Diagnostic("Q104", None, "an error")))
    assert not has_error((Diagnostic("Q122", None, "a note"),))


def test_a_problem_as_a_record() -> None:
    (record,) = as_records((Diagnostic("Q104", at("galons"), "Not known.", "Write gal.", ((at("Fuel"), "Here"),)),))
    assert json.loads(json.dumps(record)) == {
        "code": "Q104",
        "severity": "error",
        "message": "Not known.",
        "hint": "Write gal.",
        "place": {"file": "systems/fuel.yaml", "start": 59, "end": 65, "line": 3, "column": 40},
        "related": [
            {"place": {"file": "systems/fuel.yaml", "start": 8, "end": 12, "line": 1, "column": 9}, "words": "Here"}
        ],
    }


@pytest.mark.parametrize("before", ["", "x" * 300 + " "])
def test_the_mark_stands_under_the_words_in_a_long_line(before) -> None:
    file = TextFile("scripts/01.md", f"{before}22 galons in it, and so on" + " y" * 200)
    lines = as_text((Diagnostic("Q104", at("galons", file), "Not known."),)).splitlines()
    shown, marks = lines[2], lines[3]
    assert [shown[n] for n, mark in enumerate(marks) if mark == "^"] == list("galons")


@given(st.text(alphabet="ab \t\n\r", max_size=60), st.integers(0, 60), st.integers(0, 60))
def test_any_place_can_be_shown(text: str, one: int, other: int) -> None:
    start, end = sorted((min(one, len(text)), min(other, len(text))))
    span = Span(TextFile("a.md", text), start, end)
    here = place(span)
    assert here.line == text.count("\n", 0, start) + 1
    assert here.column == start - (text.rfind("\n", 0, start) + 1) + 1
    assert here.width >= 1
    assert as_text((Diagnostic("Q101", span, "Said."),)).startswith("Said.\n    a.md, line ")
