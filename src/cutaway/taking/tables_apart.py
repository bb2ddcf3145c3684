"""A sheet of rows as tables that can be compared: each table by itself, with a head, and its units at its figures."""

import re
from collections.abc import Iterator
from itertools import groupby

from cutaway.handbook.names import listed
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.units import unit_spelled
from cutaway.taking.records import Table
from cutaway.taking.tables import Rows, full

_LONGEST = 40
"""Rows of one table; a longer one becomes several paragraphs, so that a citation still says where. A choice of ours."""

_FIGURE = re.compile(
    r"^[<>≤≥±+\-−~≈£$]{0,2}\s*\d[\d,. ]*[½¼¾⅓⅔⅛]?(?:\s*(?:to|–|-|/|±)\s*[+\-−]?\d[\d,.]*[½¼¾]?)?$|^[½¼¾⅓⅔⅛]$"
)
_UNIT_HEAD = re.compile(r"^(?:units?|uom|unit of measure(?:ment)?|in)\.?$", re.IGNORECASE)
_NOTE = re.compile(r"^(?:\*|†|note|n\.b\.|source)", re.IGNORECASE)


def tables_in(title: str, rows: Rows, shown: str) -> tuple[tuple[Table, ...], Problems]:
    """The tables of a sheet. Figures keep their units: one in a column or a row of its own is joined to them."""
    tables: list[Table] = []
    unknown: list[str] = []
    for part in _parts(rows):
        name, body, notes = _named(_trimmed(part))
        if not body:
            continue
        body, strange = _with_units(_headed(body))
        unknown += strange
        whole = " – ".join(words for words in (title, name) if words)
        tables += _split(Table(whole, body, notes))
    return tuple(tables), _unknown(list(dict.fromkeys(unknown)), shown)


# --- where one table ends -----------------------------------------------------------------------------------------


def _parts(rows: Rows) -> Iterator[Rows]:
    """The rows of each table: empty rows part them, where what follows begins as a table does."""
    stretches = [
        tuple(some) for filled, some in groupby(rows, key=lambda row: any(cell.strip() for cell in row)) if filled
    ]
    now: Rows = ()
    for stretch in stretches:
        if now and len(now) > 1 and _begins(stretch):
            yield now
            now = ()
        now += stretch
    if now:
        yield now


def _begins(stretch: Rows) -> bool:
    """Whether some rows begin with a title, or with a head over figures."""
    if len(stretch) < 2 or _NOTE.match(next(cell for cell in stretch[0] if cell.strip())):
        return False
    return len(_filled(stretch[0])) == 1 or (
        not _has_figure(stretch[0]) and any(_has_figure(row) for row in stretch[1:])
    )


def _named(rows: Rows) -> tuple[str, Rows, tuple[str, ...]]:
    """A table's own title, its rows, and notes under it: lines of one cell where the others have several."""
    several = [at for at, row in enumerate(rows) if len(_filled(row)) > 1]
    if not several:
        return "", rows, ()
    first = several[0]
    above = [_filled(row)[0] for row in rows[:first]]
    last = len(rows)
    while last - 1 > several[-1] and _is_note(_filled(rows[last - 1])[0]):
        last -= 1
    notes = tuple(_filled(row)[0] for row in rows[last:])
    return " – ".join(above), _trimmed(rows[first:last]), notes


def _is_note(cell: str) -> bool:
    return bool(_NOTE.match(cell)) or len(cell.split()) > 4


def _filled(row: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(cell for cell in row if cell.strip())


def _has_figure(row: tuple[str, ...]) -> bool:
    return any(re.search(r"\d", cell) for cell in row)


def _trimmed(rows: Rows) -> Rows:
    """Without empty rows and empty columns."""
    width = max((len(row) for row in rows), default=0)
    filled = [full(row, width) for row in rows if any(cell.strip() for cell in row)]
    columns = [at for at in range(width) if any(row[at].strip() for row in filled)]
    return tuple(tuple(row[at] for at in columns) for row in filled)


def _headed(rows: Rows) -> Rows:
    """With an empty head, where a narrow table begins at once with a figure beside its name."""
    first = rows[0]
    named = len(first) in (2, 3) and re.search(r"[A-Za-z]", first[0]) and any(re.search(r"\d", c) for c in first[1:])
    headless = named and (len(rows) == 1 or any(_has_figure(row[1:]) for row in rows[1:]))
    return (("",) * len(first), *rows) if headless else rows


# --- units --------------------------------------------------------------------------------------------------------


def _with_units(rows: Rows) -> tuple[Rows, list[str]]:
    """A unit beside a figure stands with it; units of a row under the head stand in the head. And unknown units."""
    rows = _units_into_head(rows)
    column = _unit_column(rows)
    if column is None:
        return rows, []
    figures = _columns_of(rows, column)
    if not figures:
        return rows, []
    strange = [row[column] for row in rows[1:] if row[column] and unit_spelled(row[column].strip("()[]")) is None]
    joined = [rows[0]] + [
        tuple(
            f"{cell} {row[column].strip('()[]')}" if at in figures and row[column] and _FIGURE.match(cell) else cell
            for at, cell in enumerate(row)
        )
        for row in rows[1:]
    ]
    return tuple(tuple(cell for at, cell in enumerate(row) if at != column) for row in joined), strange


def _units_into_head(rows: Rows) -> Rows:
    """A second row of nothing but units is joined to the head: 'pressure' over 'lb/sq in'."""
    if len(rows) < 3 or not any(rows[1]) or _has_figure(rows[0]):
        return rows
    units = [cell.strip("()[] ") for cell in rows[1]]
    if not all(unit_spelled(unit) is not None for unit in units if unit and unit not in "-–—"):
        return rows
    head = tuple(
        f"{name} ({unit})" if unit and unit not in "-–—" else name for name, unit in zip(rows[0], units, strict=True)
    )
    return (head, *rows[2:])


def _unit_column(rows: Rows) -> int | None:
    """The column that holds nothing but units: by its head, or by what stands in it."""
    for at, head in enumerate(rows[0]):
        cells = [row[at] for row in rows[1:] if row[at]]
        if not cells or any(_FIGURE.match(cell) for cell in cells):
            continue
        known = sum(unit_spelled(cell.strip("()[]")) is not None for cell in cells)
        if _UNIT_HEAD.match(head.strip()) or (known == len(cells) and at > 0):
            return at
    return None


def _columns_of(rows: Rows, column: int) -> frozenset[int]:
    """The columns of figures that lie beside the column of units: before it, else behind it."""

    def is_figures(at: int) -> bool:
        cells = [row[at] for row in rows[1:] if row[at]]
        return bool(cells) and sum(bool(_FIGURE.match(cell)) for cell in cells) * 2 >= len(cells)

    for step, end in ((-1, -1), (1, len(rows[0]))):
        found = []
        for at in range(column + step, end, step):
            if not is_figures(at):
                break
            found.append(at)
        if found:
            return frozenset(found)
    return frozenset()


def _unknown(units: list[str], shown: str) -> Problems:
    if not units:
        return ()
    some = listed(f"'{unit}'" for unit in units[:5])
    return (
        Diagnostic(
            "T216",
            None,
            f"'{shown}' has {'units that are' if len(units) > 1 else 'a unit that is'} not known: {some}. The figures "
            "are kept as they stand, and cannot be compared.",
            "Write a unit that is known, such as lb/sq in or gal, in the source.",
        ),
    )


# --- long tables --------------------------------------------------------------------------------------------------


def _split(table: Table) -> tuple[Table, ...]:
    """A long table in parts of about the same length, each with its head; the notes stand under the last."""
    rows = table.rows[1:]
    if len(rows) <= _LONGEST:
        return (table,)
    parts = -(-len(rows) // _LONGEST)
    size = -(-len(rows) // parts)
    starts = range(0, len(rows), size)
    return tuple(
        Table(
            f"{table.title}, rows {start + 1} to {min(start + size, len(rows))}",
            (table.rows[0], *rows[start : start + size]),
            table.notes if start == starts[-1] else (),
        )
        for start in starts
    )
