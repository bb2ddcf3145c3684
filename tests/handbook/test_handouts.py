"""handouts.yaml: what is asked for, what is made where nothing is, and each mistake at its place."""

from pathlib import Path

import pytest

from cutaway.handbook.records import AskedHandout
from cutaway.problems.diagnostic import Diagnostic
from tests.handbook.folders import load_sample


def handouts(folder: Path, text: str) -> tuple[tuple[AskedHandout, ...], tuple[Diagnostic, ...]]:
    loaded, problems = load_sample(folder, {"handouts.yaml": text})
    return loaded.handouts, problems


def asked(one: AskedHandout) -> tuple[object, ...]:
    on = one.on.words if one.on is not None else None
    return one.name, one.kinds, one.papers, one.system, on, one.situation


def test_without_the_file_there_are_the_usual_two(tmp_path: Path) -> None:
    loaded, problems = load_sample(tmp_path, {})
    assert problems == ()
    assert [asked(one) for one in loaded.handouts] == [("", ("visitor", "large"), ("A4",), "", None, "")]


def test_a_handout_as_it_is_written(tmp_path: Path) -> None:
    text = (
        "paper: letter\nhandouts:\n  the  cock: {kind: [LARGE, visitor], system: fuel, on: Mk 2, in: Parked}\n"
        "  the story: {kind: booklet, paper: [A4, Letter]}\n  a page:\n"
    )
    found, problems = handouts(tmp_path, text)
    assert problems == ()
    assert [asked(one) for one in found] == [
        ("the cock", ("visitor", "large"), ("Letter",), "Fuel", "Mk 2", "parked"),
        ("the story", ("booklet",), ("A4", "Letter"), "", None, ""),
        ("a page", ("visitor",), ("Letter",), "", None, ""),
    ]


@pytest.mark.parametrize(
    ("on", "names"),
    [("Mk 2", {"Mk 2"}), ("[Mk 1, Mk 2 with mod 12]", {"Mk 1", "Mk 2 with mod 12"}),
     ("Mk 1 to Mk 2", {"Mk 1", "Mk 2", "Mk 2 with mod 12"}), ("S-3", {"S-3"})],
)  # fmt: skip
def test_a_standard_by_its_name_is_that_one_alone(on: str, names: set[str], tmp_path: Path) -> None:
    head = (
        "name: Sparrow\nmarks: [Mk 1, Mk 2]\nmods: {mod 12: {fitted to: Mk 2}}\n"
        "standards: [Mk 1, Mk 2, Mk 2 with mod 12]\nairframes: {S-3: {standard: Mk 2}}\n"
    )
    text = f"handouts:\n  one: {{on: {on}}}\n"
    loaded, problems = load_sample(tmp_path, {"type.yaml": head, "handouts.yaml": text})
    assert problems == () and [one.on and one.on.names for one in loaded.handouts] == [names]


@pytest.mark.parametrize(
    ("text", "count", "papers"),
    [("paper: Letter\n", 1, ("Letter",)), ("handouts: {}\n", 0, ()), ("handouts:\n", 0, ()), ("\n", 1, ("A4",))],
)
def test_the_paper_alone_and_none_at_all(text: str, count: int, papers: tuple[str, ...], tmp_path: Path) -> None:
    found, problems = handouts(tmp_path, text)
    assert problems == () and len(found) == count and all(one.papers == papers for one in found)


@pytest.mark.parametrize(
    ("text", "code", "marked", "hint"),
    [
        ("{kind: poster}", "H950", "poster", "Write visitor, large or booklet."),
        ("{paper: [A4, A5]}", "H950", "A5", "Write A4 or Letter."),
        ("{system: Feul}", "H951", "Feul", "Did you mean Fuel?"),
        ("{in: parkd}", "H951", "parkd", "Did you mean parked?"),
        ("{on: Mk 3}", "Q120", "Mk 3", ""),
        ("{kinds: visitor}", "H110", "kinds", "Did you mean kind?"),
        ("[visitor]", "H108", "visitor", ""),
    ],
)
def test_mistakes(text: str, code: str, marked: str, hint: str, tmp_path: Path) -> None:
    found, problems = handouts(tmp_path, f"handouts:\n  petrol: {text}\n  another: {{kind: large}}\n")
    assert [p.code for p in problems] == [code] and [one.name for one in found] == ["another"]
    span = problems[0].span
    assert span is not None and marked in span.file.text[span.start : span.end] and hint in problems[0].hint


def test_a_paper_of_all_that_is_not_there(tmp_path: Path) -> None:
    found, problems = handouts(tmp_path, "paper: foolscap\n")
    assert [p.code for p in problems] == ["H950"] and [one.papers for one in found] == [("A4",)]
