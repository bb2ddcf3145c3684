"""Tables: each a paragraph of its own, figures with their units, long ones in parts, notes kept."""

import csv
import io

import pytest

from cutaway.api.loading import load
from cutaway.taking.tables import as_markdown, csv_rows
from cutaway.taking.tables_apart import tables_in


def markdown(rows: list[list[str]]) -> list[str]:
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    return [as_markdown(table) for table in tables_in("T", csv_rows(text.getvalue()), "t.csv")[0]]


def test_two_tables_of_one_sheet_are_two_paragraphs(taken, tmp_path) -> None:
    (tmp_path / "data.csv").write_text(
        "Capacities,,\ntank,gal,\nport,11,\nstarboard,11,\n,,\nSettings,,\nvalve,set at,unit\nrelief,6,lb/sq in\n"
        "lamp,2,lb/sq in\nNote: all settings are those of a cold engine.,,\n",
        encoding="utf-8",
    )
    outcome, codes = taken(tmp_path / "data.csv")
    assert codes == [] and outcome.sources[0].paragraphs == 2
    loaded, problems = load(taken.folder)
    assert problems == ()
    one, two = next(s for s in loaded.folder.sources if s.key == "data").paragraphs
    assert (one.number, one.title) == ("§1", "data – Capacities")
    assert one.text == "| tank | gal |\n| --- | --- |\n| port | 11 |\n| starboard | 11 |"
    assert (two.number, two.title) == ("§2", "data – Settings")
    assert two.text == (
        "| valve | set at |\n| --- | --- |\n| relief | 6 lb/sq in |\n| lamp | 2 lb/sq in |\n\n"
        "Note: all settings are those of a cold engine."
    )


def test_a_unit_of_its_own_column_stands_with_its_figures() -> None:
    rows = [
        ["item", "least", "most", "Units", "on"],
        ["oil", "45", "80", "lb/sq in", "Mk 1"],
        ["fuel", "2½", "-", "psi", ""],
    ]
    assert markdown(rows) == [
        "| item | least | most | on |\n| --- | --- | --- | --- |\n| oil | 45 lb/sq in | 80 lb/sq in | Mk 1 |\n"
        "| fuel | 2½ psi | - |  |"
    ]


def test_a_column_of_units_before_its_figures_and_without_a_head() -> None:
    assert markdown([["tank", "", "holds"], ["port", "gal", "11"], ["oil", "pints", "12"]]) == [
        "| tank | holds |\n| --- | --- |\n| port | 11 gal |\n| oil | 12 pints |"
    ]


def test_a_row_of_units_under_the_head_is_joined_to_it() -> None:
    assert markdown([["speed", "boost", "mark"], ["r.p.m.", "(lb/sq in)", ""], ["1,850", "+2", "Mk 1"]]) == [
        "| speed (r.p.m.) | boost (lb/sq in) | mark |\n| --- | --- | --- |\n| 1,850 | +2 | Mk 1 |"
    ]


def test_units_in_the_head_are_kept() -> None:
    assert markdown([["tank", "Capacity (gal)"], ["port", "11"]])[0].startswith("| tank | Capacity (gal) |")


def test_a_narrow_table_without_a_head_loses_no_row_to_it() -> None:
    assert markdown([["tank holds", "11", "gal"], ["pump gives", "5", "lb/sq in"]]) == [
        "|  |  |\n| --- | --- |\n| tank holds | 11 gal |\n| pump gives | 5 lb/sq in |"
    ]


def test_a_long_table_is_parted_and_each_part_has_the_head() -> None:
    rows = [["height", "boost"], *([str(at * 100), f"+{at / 10:.1f}"] for at in range(1, 91))]
    tables, _ = tables_in("Boost", tuple(map(tuple, rows)), "boost.csv")
    assert [(t.title, len(t.rows)) for t in tables] == [
        ("Boost, rows 1 to 30", 31), ("Boost, rows 31 to 60", 31), ("Boost, rows 61 to 90", 31),
    ]  # fmt: skip
    assert all(table.rows[0] == ("height", "boost") for table in tables)
    assert [row for table in tables for row in table.rows[1:]] == [tuple(row) for row in rows[1:]]


def test_an_empty_row_inside_a_table_parts_nothing() -> None:
    (one,) = markdown([["speed", "boost"], ["1,850", "+2"], ["", ""], ["2,100", "+4"], ["2,200", "+5"]])
    assert one.count("\n") == 4


def test_an_unknown_unit_is_told_and_its_figures_are_kept(taken, tmp_path) -> None:
    (tmp_path / "odd.csv").write_text("thing,size,unit\nbridge,20,smoots\ntank,3,gal\n", encoding="utf-8")
    assert taken(tmp_path / "odd.csv")[1] == ["T216"]
    text = (taken.folder / "sources" / "odd.md").read_text(encoding="utf-8")
    assert "| bridge | 20 smoots |" in text and "| tank | 3 gal |" in text


@pytest.mark.parametrize(
    "rows", [[["a", "b"]], [["only"]], [["note"], ["one more"]], [["", "x"], ["y", ""]], [["1", "2"], ["3", "4"]]]
)
def test_odd_sheets_lose_no_cell(rows) -> None:
    tables, problems = tables_in("T", tuple(map(tuple, rows)), "t.csv")
    whole = " ".join([*map(as_markdown, tables), *(t.title for t in tables), *(n for t in tables for n in t.notes)])
    assert problems == () and all(cell in whole for row in rows for cell in row)
