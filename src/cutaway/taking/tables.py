"""Tables: CSV, and the sheets of a workbook, with figures as they are shown."""

import csv
import datetime
import io
import re
import zipfile
from typing import Any

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.pdf import missing_library
from cutaway.taking.records import Table

_DECIMALS = re.compile(r"^#?[#,]*0(?:\.(?P<decimals>0+))?$")


Rows = tuple[tuple[str, ...], ...]


def csv_rows(text: str) -> Rows:
    """The rows of a CSV file, whatever parts its cells."""
    sample = text[:20_000]
    try:
        dialect: Any = csv.Sniffer().sniff(sample, delimiters=",;\t|")
    except csv.Error:
        dialect = csv.excel_tab if "\t" in sample else csv.excel
    return tuple(tuple(" ".join(cell.split()) for cell in row) for row in csv.reader(io.StringIO(text), dialect))


def workbook_rows(data: bytes, shown: str) -> tuple[tuple[tuple[str, Rows], ...], Problems]:
    """Each sheet of a workbook that holds anything, by its title. A formula whose value was never saved is told and
    left empty."""
    try:
        import openpyxl
        from openpyxl.utils.exceptions import InvalidFileException
    except ImportError:
        return (), (missing_library("openpyxl", shown, "a workbook"),)
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), data_only=True)
        formulas = openpyxl.load_workbook(io.BytesIO(data))
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, OSError, TypeError):
        return (), (
            Diagnostic(
                "T105",
                None,
                f"'{shown}' begins as a workbook but cannot be opened: it is damaged, locked, or of another program.",
                "Open it in the program that made it, save the sheet as CSV, and take that.",
            ),
        )
    sheets: list[tuple[str, Rows]] = []
    unknown: list[str] = []
    for sheet in book.worksheets:
        rows = tuple(tuple(_shown(cell) for cell in row) for row in sheet.iter_rows())
        unknown += [
            f"{sheet.title} {cell.coordinate}"
            for row in formulas[sheet.title].iter_rows()
            for cell in row
            if cell.data_type == "f" and sheet[cell.coordinate].value is None
        ]
        if any(any(row) for row in rows):
            sheets.append((sheet.title, rows))
    return tuple(sheets), _without_values(shown, unknown)


def as_markdown(table: Table) -> str:
    """The table with upright bars, its first row as its head."""
    width = max(len(row) for row in table.rows)
    rows = ["| " + " | ".join(cell.replace("|", "\\|") for cell in full(row, width)) + " |" for row in table.rows]
    return "\n".join([rows[0], "|" + " --- |" * width, *rows[1:]])


def full(row: tuple[str, ...], width: int) -> tuple[str, ...]:
    """A row with empty cells to its end."""
    return (*row, *("" for _ in range(width - len(row))))


def _shown(cell: Any) -> str:
    """A cell's value with the decimals that its format shows."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return value.date().isoformat()
    if isinstance(value, (int, float)):
        form = _DECIMALS.match(str(cell.number_format))
        if form:
            return f"{value:.{len(form['decimals'] or '')}f}"
        return str(int(value)) if float(value).is_integer() and abs(value) < 1e15 else f"{value:.12g}"
    return " ".join(str(value).split())


def _without_values(shown: str, cells: list[str]) -> Problems:
    if not cells:
        return ()
    some = ", ".join(cells[:5]) + (" and others" if len(cells) > 5 else "")
    return (
        Diagnostic(
            "T211",
            None,
            f"'{shown}' has formulas whose values were never saved: {some}. Those cells are empty.",
            "Open the workbook in a spreadsheet program, save it, and take it again.",
        ),
    )
