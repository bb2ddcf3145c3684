"""sheets/*.yaml: what a sheet names is there, and each mistake is told at its place."""

from pathlib import Path

import pytest

from cutaway.handbook.records import Sheet
from cutaway.problems.diagnostic import Diagnostic
from tests.handbook.folders import load_sample

HEAD = "sheet: Petrol\nsystem: Fuel\n"


def sheets(folder: Path, *texts: str) -> tuple[tuple[Sheet, ...], tuple[Diagnostic, ...]]:
    loaded, problems = load_sample(folder, {f"sheets/{n}.yaml": text for n, text in enumerate(texts)})
    return loaded.sheets, problems


def test_a_sheet_as_it_is_written(tmp_path: Path) -> None:
    text = (
        f"{HEAD}says: The way of  the petrol.\nleave out: {{part: FUEL COCK, because: It is always open.}}\n"
        "in: parked\nshape: A4 upright\nstations: no\nfolded: yes\ncolumns: [[fuel tank], fuel cock]\n"
    )
    (sheet,), problems = sheets(tmp_path, text)
    assert problems == ()
    assert (sheet.name, sheet.says, sheet.systems, sheet.parts) == ("Petrol", "The way of the petrol.", ("Fuel",), ())
    assert [(one.part, one.because) for one in sheet.left_out] == [("fuel cock", "It is always open.")]
    assert (sheet.shape, sheet.stations, sheet.folded, sheet.situations) == ("A4 upright", False, True, ("parked",))
    assert sheet.columns == (("fuel tank",), ("fuel cock",))


def test_without_more_a_sheet_is_drawn_for_all(tmp_path: Path) -> None:
    loaded, problems = load_sample(tmp_path, {"sheets/0.yaml": HEAD})
    (sheet,) = loaded.sheets
    assert problems == () and sheet.stations and not sheet.folded and sheet.situations == ()
    assert sheet.on.names == {standard.name for standard in loaded.type.standards}


@pytest.mark.parametrize(
    ("text", "code", "marked", "hint"),
    [
        (f"{HEAD}parts: [fuel tank, fuel cok]\n", "H940", "fuel cok", "Did you mean fuel cock?"),
        ("sheet: Petrol\nsystem: Feul\n", "H942", "Feul", "Did you mean Fuel?"),
        (f"{HEAD}in: parkd\n", "H943", "parkd", "Did you mean parked?"),
        ("sheet: Petrol\n", "H941", "Petrol", "Write system:"),
        (f"sheet: {'Petrol ' * 14}\nsystem: Fuel\n", "H945", "Petrol Petrol", "no more than 90 letters"),
        (f"{HEAD}columns: [[fuel tank], [fuel tank]]\n", "H946", "", "Name each part once."),
    ],
)
def test_mistakes(text: str, code: str, marked: str, hint: str, tmp_path: Path) -> None:
    _, problems = sheets(tmp_path, text)
    assert [p.code for p in problems] == [code]
    span = problems[0].span
    assert span is not None and marked in span.file.text[span.start : span.end] and hint in problems[0].hint


def test_of_two_sheets_of_one_name_the_first_is_drawn(tmp_path: Path) -> None:
    found, problems = sheets(tmp_path, HEAD, "sheet: PETROL\nparts: fuel cock\n")
    assert [sheet.systems for sheet in found] == [("Fuel",)]
    assert [p.code for p in problems] == ["H944"] and problems[0].also


def test_one_slip_is_told_once(tmp_path: Path) -> None:
    """A situation that could not be read is not missed again by a sheet."""
    files = {
        "situations.yaml": "situations:\n  parked: {says: On the ground., from: nowhere at all}\n",
        "sheets/a.yaml": f"{HEAD}in: parked\n",
    }
    _, problems = load_sample(tmp_path, files)
    assert "H943" not in [p.code for p in problems] and problems
