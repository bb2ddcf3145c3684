"""Expressions that name standards."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.which import Standard, StandardName, every, read_standard, read_which, standards_of

MARKS = ("Mk 1", "Mk 2", "Mk 3", "Mk 4")
MODS = ("mod 12", "mod 40")
STANDARDS = (
    Standard(StandardName("Mk 1"), "Mk 1"),
    Standard(StandardName("Mk 2"), "Mk 2"),
    Standard(StandardName("Mk 2 with mod 12"), "Mk 2", ("mod 12",)),
    Standard(StandardName("Mk 2 with mod 12 and mod 40"), "Mk 2", ("mod 12", "mod 40")),
    Standard(StandardName("Mk 3"), "Mk 3"),
    Standard(StandardName("Mk 4"), "Mk 4"),
    Standard(StandardName("Whinchat W-17"), "Mk 2"),
)
PLAIN, ONE, TWO, FRAME = "Mk 2", "Mk 2 with mod 12", "Mk 2 with mod 12 and mod 40", "Whinchat W-17"


def read(text):
    return read_which(text, whole(TextFile("test", text)), MARKS, MODS, STANDARDS)


@pytest.mark.parametrize(
    "text, names",
    [
        ("Mk 1", {"Mk 1"}),
        ("mk. 1", {"Mk 1"}),
        ("Mark 1", {"Mk 1"}),
        ("MK1", {"Mk 1"}),
        ("Mk 2", {PLAIN, ONE, TWO, FRAME}),
        ("Mk 2 with mod 12", {ONE, TWO}),
        ("Mk 2 with Mod. 12 and mod 40", {TWO}),
        ("Mk 2 with mod 12 without mod 40", {ONE}),
        ("Mk 2 without mod 12", {PLAIN, FRAME}),
        ("with mod 40", {TWO}),
        ("Mk 1 to Mk 3", {"Mk 1", PLAIN, ONE, TWO, FRAME, "Mk 3"}),
        ("Mk 3 to Mk 3", {"Mk 3"}),
        ("not Mk 2", {"Mk 1", "Mk 3", "Mk 4"}),
        ("not Mk 1 to Mk 3", {"Mk 4"}),
        ("not (Mk 1 or Mk 2)", {"Mk 3", "Mk 4"}),
        ("not not Mk 4", {"Mk 4"}),
        ("Mk 1 or Mk 4", {"Mk 1", "Mk 4"}),
        ("Mk 1, Mk 3 and Mk 4", {"Mk 1", "Mk 3", "Mk 4"}),
        ("whinchat  w-17", {FRAME}),
        ("Mk 4 or Whinchat W-17", {"Mk 4", FRAME}),
        ("all marks", {s.name for s in STANDARDS}),
    ],
)
def test_named(text, names) -> None:
    which, problems = read(text)
    assert problems == ()
    assert which.names == names
    assert which.words == " ".join(text.split())


@pytest.mark.parametrize(
    "text, code, at_fault, hint",
    [
        ("Mk 9", "Q120", "Mk 9", "Mk 1"),
        ("Mk 2A", "Q120", "Mk 2A", "Mk 2"),
        ("Mk 1 or Whinchat W-18", "Q120", "Whinchat W-18", "Did you mean Whinchat W-17?"),
        ("Mk 2 with mod 13", "Q120", "mod 13", "mod 12"),
        ("", "Q121", "", "Mk 1"),
        ("Mk 2 to", "Q121", "Mk 2 to", "Mk 1"),
        ("Mk 2 only", "Q121", "only", "Mk 2 to Mk 4"),
        ("(Mk 2", "Q121", "(Mk 2", ")"),
        ("Mk 4 to Mk 2", "Q123", "Mk 4 to Mk 2", "Write Mk 2 to Mk 4."),
    ],
)
def test_told(text, code, at_fault, hint) -> None:
    file = TextFile("fuel.yaml", f"on: {text}\n")
    which, problems = read_which(text, Span(file, 4, 4 + len(text)), MARKS, MODS, STANDARDS)
    assert which is None
    assert [problem.code for problem in problems] == [code]
    assert file.text[problems[0].span.start : problems[0].span.end] == at_fault
    assert hint in problems[0].hint


def test_what_matches_nothing_is_kept_with_a_warning() -> None:
    which, problems = read("Mk 1 with mod 12")
    assert which.names == frozenset()
    assert [(problem.code, problem.severity) for problem in problems] == [("Q122", "warning")]


def test_nothing_said_means_all() -> None:
    assert every(STANDARDS).names == {s.name for s in STANDARDS}
    assert every(STANDARDS).words == ""


def test_standards_of_a_type_that_lists_none() -> None:
    assert [(s.name, s.mark, s.mods) for s in standards_of(("Mk 1", "Mk 2"))] == [
        ("Mk 1", "Mk 1", ()),
        ("Mk 2", "Mk 2", ()),
    ]


def test_a_standard_has_one_name_however_it_is_written() -> None:
    read_one = [
        read_standard(text, whole(TextFile("test", text)), MARKS, MODS)
        for text in ("Mk 2 with mod 12 and mod 40", "mk2 with mod 40 and mod 12", "Mark 2 with Mod. 12 and Mod. 40")
    ]
    assert read_one == [(STANDARDS[3], ())] * 3


@pytest.mark.parametrize("text, code", [("Mk 7", "Q120"), ("Mk 1 with mod 7", "Q120"), ("Mk 1 or Mk 2", "Q121")])
def test_a_standard_that_is_not_one(text, code) -> None:
    standard, problems = read_standard(text, whole(TextFile("test", text)), MARKS, MODS)
    assert standard is None and [problem.code for problem in problems] == [code]


@given(st.sampled_from(MARKS), st.sampled_from(MARKS))
def test_not_is_the_rest(one: str, other: str) -> None:
    inside, outside = read(f"{one} or {other}")[0].names, read(f"not ({one} or {other})")[0].names
    assert inside | outside == every(STANDARDS).names and not inside & outside


@given(st.lists(st.sampled_from(["Mk 1", "mk", "with", "without", "mod 12", "to", "or", "not", "(", ")", "and", ","])))
def test_whatever_is_typed_gives_standards_or_one_problem(words: list[str]) -> None:
    which, problems = read(" ".join(words))
    assert len(problems) <= 1
    assert which is not None or len(problems) == 1


def test_a_mod_that_has_only_its_number_is_told_how_to_be_named() -> None:
    span = whole(TextFile("type.yaml", "Mk 2 with mod 12"))
    _, problems = read_which("Mk 2 with mod 12", span, ("Mk 1", "Mk 2"), ("12",), ())
    assert [problem.code for problem in problems] == ["Q120"]
    assert "mods: {mod 12: {says: …}}" in problems[0].hint and "'12'" in problems[0].hint


@pytest.mark.parametrize(
    "written, marks, meant",
    [
        ("Mk 2", ("Mk I", "Mk II"), "Mk II"),
        ("Mk. 2", ("Mk 1", "Mk II"), "Mk II"),
        ("Mk II", ("Mk 1", "Mk 2"), "Mk 2"),
        ("Mk XIV", ("Mk 4", "Mk 14"), "Mk 14"),
        ("Mark 9", ("Mk IV", "Mk IX"), "Mk IX"),
    ],
)
def test_a_mark_in_the_other_sort_of_figures_is_guessed_right(written: str, marks: tuple[str, ...], meant: str) -> None:
    found, problems = read_which(written, whole(TextFile("s", written)), marks, (), standards_of(marks))
    assert found is None and problems[0].hint == f"Did you mean {meant}?"
