"""Slips of somebody who types a page of a handbook in: each is told once, as what it is, and where it stands."""

import pytest

from cutaway.api.loading import load
from cutaway.problems.diagnostic import Diagnostic
from tests.handbook.folders import codes, fuel, load_sample, sample_with

OIL = """\
system: Oil
source: hb
parts:
  reservoir: {kind: reservoir, capacity: 2 pints}
  pump: {kind: hydraulic hand pump}
  lever: {kind: two-position selector}
  jack: {kind: jack, area: 1 sq in, stroke: 8 in}
  wheel: {kind: leg, moved by: jack}
lines:
  - reservoir > pump > lever > reservoir
  - lever.down > jack.extend
  - lever.up > jack.retract
"""
SCRIPT = """\
# Wheel

It is locked.

```claim
wheel is locked up
```

The pump is there.

```claim
pump is fitted
```
"""


def told(tmp_path, oil=OIL, **files: str) -> tuple[Diagnostic, ...]:
    """All that loading tells of the sample folder with an oil system and a script of its own."""
    folder = sample_with(tmp_path, {"systems/oil.yaml": oil, "scripts/02-wheel.md": SCRIPT, **files})
    loaded, problems = load(folder)
    assert loaded is not None
    return problems


def only(tmp_path, *slip: str, **files: str) -> Diagnostic:
    """The one thing that is told of the oil system with something else in it."""
    assert slip[0] in OIL
    problems = told(tmp_path, OIL.replace(slip[0], slip[1], 1), **files)
    assert len(problems) == 1, codes(problems)
    return problems[0]


def test_the_page_itself_is_right(tmp_path) -> None:
    assert told(tmp_path) == ()


def marked(problem: Diagnostic) -> str:
    assert problem.span is not None
    return problem.span.words


def test_a_brace_that_is_not_closed_is_marked_where_it_opens(tmp_path) -> None:
    problem = only(tmp_path, "wheel: {kind: leg, moved by: jack}", "wheel: {kind: leg, moved by: jack,")
    assert problem.code == "H101" and "The brace { that opens here is not closed" in problem.message
    assert marked(problem) == "{kind: leg, moved by: jack,"


@pytest.mark.parametrize("arrow", ["->", "-->", "=>", "→"])
def test_another_arrow_in_a_line(tmp_path, arrow) -> None:
    problem = only(tmp_path, "lever.up > jack.retract", f"lever.up {arrow} jack.retract")
    assert problem.code == "H316" and problem.message == f"The parts of a line are joined by >, not by {arrow}."
    assert problem.hint == "Write lever.up > jack.retract"


def test_a_colon_in_a_name(tmp_path) -> None:
    problem = only(tmp_path, "reservoir: {kind", "oil: reservoir: {kind")
    assert problem.code == "H105" and problem.hint == "Write oil reservoir: {kind: reservoir, capacity: 2 pints}"


def test_what_is_said_of_a_part_that_was_left_out_is_not_told_again(tmp_path) -> None:
    problem = only(tmp_path, "moved by: jack", "moved by: jakc")
    assert problem.code == "H310" and "Did you mean jack?" in problem.hint


def test_a_part_written_twice_is_told_once_though_another_kind_stands_first(tmp_path) -> None:
    air = "system: Air\nparts:\n  pump: {kind: air cock}\n"
    (problem,) = told(tmp_path, **{"systems/air.yaml": air})
    assert problem.code == "H306" and marked(problem) == "pump"


def test_a_source_that_is_not_there_is_told_once_a_file(tmp_path) -> None:
    oil = OIL.replace("source: hb", "source: leaflet").replace("stroke: 8 in", "stroke: 8 in, cite: [§3, §4]")
    (problem,) = told(tmp_path, oil)
    assert problem.code == "H202" and marked(problem) == "leaflet"


def test_a_block_that_is_not_closed_before_the_next(tmp_path) -> None:
    script = SCRIPT.replace("up\n```\n", "up\n")
    (problem,) = told(tmp_path, **{"scripts/02-wheel.md": script})
    assert problem.code == "H602" and marked(problem) == "```claim"


@pytest.mark.parametrize(
    "start, told_of",
    [("jack: 12 in", "jack cannot begin with 12 in: its stroke is 8 in."), ("jack: 8 in", ""), ("reservoir: 1 qt", "")],
)
def test_a_start_beyond_the_end(tmp_path, start, told_of) -> None:
    problems = told(tmp_path, **{"situations.yaml": f"situations:\n  parked: {{start: {{{start}}}}}\n"})
    assert [problem.message for problem in problems] == ([told_of] if told_of else [])
    assert all(problem.code == "H409" and problem.severity == "warning" for problem in problems)


def test_a_start_beyond_the_end_on_one_mark(tmp_path) -> None:
    oil = OIL.replace("stroke: 8 in", "stroke: [{is: 8 in, on: Mk 1}, {is: 12 in, on: Mk 2}]")
    (problem,) = told(tmp_path, oil, **{"situations.yaml": "situations:\n  parked: {start: {jack: 10 in}}\n"})
    assert problem.message == "jack cannot begin with 10 in: its stroke is 8 in on Mk 1."


@pytest.mark.parametrize(
    "text, stands",
    [
        ("It is let off at 900 lb. per sq. in. and called back at 700.", True),
        ("It is let off at 900, and called back at 700 lb. per sq. in.", True),
        ("It is let off at 900 lb. per sq. in. There are 700 of them and 2 gallons.", True),  # doubtful, and not told
        ("It holds 2 gallons, in 700 aeroplanes.", False),
        ("It is let off at 900 lb. per sq. in. Two pumps, and 700 built.", False),
    ],
)
def test_a_figure_whose_unit_the_book_leaves_out(tmp_path, text, stands) -> None:
    book = f"---\ntitle: Handbook\n---\n\n## 1 Fuel tank\n\n{text}\n\n## 2 Fuel cock\n\nOn the left wall.\n"
    part = "fuel cock: {kind: cock, cite: §2}\nrelief valve: {kind: oil relief valve, set at: 700 lb/sq in, cite: §1}\n"
    _, problems = load_sample(tmp_path, fuel(part) | {"sources/hb.md": book})
    assert ("H209" in codes(problems)) is not stands, codes(problems)


def test_a_movement_without_its_to(tmp_path) -> None:
    """'lever up' is a port too, so that it reads as a name of its own."""
    script = SCRIPT.replace("pump is fitted", "after lever up: pump is fitted")
    (problem,) = told(tmp_path, **{"scripts/02-wheel.md": script})
    assert problem.hint == "Write lever to up."


def test_a_figure_of_something_else_that_the_part_has(tmp_path) -> None:
    script = SCRIPT.replace("pump is fitted", "jack is above 500 lb/sq in")
    (problem,) = told(tmp_path, **{"scripts/02-wheel.md": script})
    assert problem.code == "Q105" and problem.message == "'500 lb/sq in' is a pressure; jack travel is a length."
    assert problem.hint == "Write a length in inches, or name what is meant: jack.extend or jack.retract."


def test_a_list_of_marks_without_its_brackets(tmp_path) -> None:
    (problem,) = told(tmp_path, **{"type.yaml": "name: Sparrow\nmarks: Mk 1, Mk 2\n"})
    assert problem.code == "H802" and problem.hint == "Write marks: [Mk 1, Mk 2]"
