"""The tables of a part: a heading of columns with their units, then rows of figures; a table that falls is refused.

Short: a list whose first item is the heading. Long: the same under `rows`, with `on` and `cite`, or a list of those.
"""

from cutaway.handbook.door import several_of, wrong_form
from cutaway.handbook.doubts import Owner
from cutaway.handbook.head import Head, read_cites, read_on
from cutaway.handbook.names import fold, listed
from cutaway.handbook.nodes import Block, Entry, Faulty, Items, Node, Words
from cutaway.handbook.records import GivenTable, TableValue
from cutaway.parts.kind import Column, TableWant
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.quantity import Quantity, Unit
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.quantities.units import unit_spelled, units_of
from cutaway.quantities.which import Which

Row = tuple[Quantity, ...]


def read_table(want: TableWant, entry: Entry, owner: Owner, head: Head) -> tuple[TableValue | None, Problems]:
    """All that was given of one table of a part; None where any of it was written wrongly."""
    givens: list[GivenTable] = []
    problems: Problems = ()
    for node in _blocks(entry.value):
        given, more = _given(want, node, owner, head)
        problems += more
        if given is None:
            return None, problems
        twice = [names for other in givens if (names := given.on.names & other.on.names)]
        if twice:
            message = f"'{want.name}' of {owner.name} is given twice for {listed(sorted(twice[0]))}."
            return None, (*problems, Diagnostic("H343", node.span, message, "Say with 'on' which is for which mark."))
        givens.append(given)
    return TableValue(want.name, tuple(givens)), problems


def _blocks(node: Node) -> tuple[Node, ...]:
    """A list of blocks is several tables; a list of lists is one."""
    if isinstance(node, Items) and any(isinstance(item, Block) for item in node.items):
        return node.items
    return (node,)


def _given(want: TableWant, node: Node, owner: Owner, head: Head) -> tuple[GivenTable | None, Problems]:
    on: Which | None = owner.on
    cites = owner.cites
    problems: Problems = ()
    rows_at: Node | None = node
    if isinstance(node, Block):
        rows_at = node.get("rows")
        on, problems = read_on(node.get("on"), head)
        own, more = read_cites(node.get("cite"), head, owner.source)
        problems += more
        cites = own if node.get("cite") is not None else owner.cites
        strange = next((e.key for e in node.entries if fold(e.key.text) not in ("rows", "on", "cite")), None)
        if strange is not None:
            message = f"'{want.name}' of {owner.name} has no entry '{strange.text}'."
            return None, (*problems, Diagnostic("H110", strange.span, message, "It has rows, on and cite."))
    if on is None or isinstance(rows_at, Faulty):
        return None, problems
    rows, more = _rows(want, rows_at if rows_at is not None else node, owner)
    if rows is None:
        return None, (*problems, *more)
    return GivenTable(rows, Which(on.words, on.names & owner.on.names), cites, node.span), (*problems, *more)


def _rows(want: TableWant, node: Node, owner: Owner) -> tuple[tuple[Row, ...] | None, Problems]:
    what = f"'{want.name}' of {owner.name}"
    lines = several_of(node)
    if not isinstance(node, Items) or len(lines) < 2 or not all(isinstance(line, Items | Faulty) for line in lines):
        return None, (wrong_form(node, what, f"a list: first {_heading(want)}, then rows of figures"),)
    units, problems = _units(want, lines[0], what)
    if units is None:
        return None, problems
    rows: list[Row] = []
    for line in lines[1:]:
        row, more = _row(want, units, line, what)
        problems += more
        rows += (row,) if row is not None else ()
    if problems:
        return None, problems
    falling = _falls(want, rows)
    if falling is not None:
        return None, (_falling(want, falling, lines, rows, what),)
    return tuple(rows), ()


def _heading(want: TableWant) -> str:
    return "[" + ", ".join(f"{c.name} {units_of(c.dimension)[0].name}" for c in want.columns) + "]"


def _units(want: TableWant, line: Node, what: str) -> tuple[tuple[Unit, ...] | None, Problems]:
    cells = several_of(line)
    units = [_unit(column, cell) for column, cell in zip(want.columns, cells, strict=False)]
    if len(cells) == len(want.columns) and all(units):
        return tuple(unit for unit in units if unit is not None), ()
    message = f"The first row of {what} does not say which column is which, and in what unit."
    return None, (Diagnostic("H340", line.span, message, f"Write {_heading(want)} above the figures."),)


def _unit(column: Column, cell: Node) -> Unit | None:
    """The unit in a cell of the heading: 'rpm', 'speed rpm', 'speed, rpm' or 'speed (rpm)'."""
    if not isinstance(cell, Words):
        return None
    text = " ".join(cell.text.split())
    if fold(text).startswith(fold(column.name)):
        text = text[len(column.name) :].strip(" ,()")
    unit = unit_spelled(text, column.dimension)
    return unit if unit is not None and unit.dimension == column.dimension else None


def _row(want: TableWant, units: tuple[Unit, ...], line: Node, what: str) -> tuple[Row | None, Problems]:
    cells = several_of(line)
    if isinstance(line, Faulty):
        return None, ()
    if len(cells) != len(units):
        message = f"A row of {what} has {len(cells)} figures; the heading has {len(units)} columns."
        return None, (Diagnostic("H341", line.span, message, f"Write one figure a column: {_heading(want)}"),)
    row: list[Quantity] = []
    for cell, unit, column in zip(cells, units, want.columns, strict=True):
        figure = _figure(cell, unit)
        if figure is None:
            text = cell.text if isinstance(cell, Words) else "this"
            message = f"'{text}' in {what} is no figure for {column.name}."
            hint = f"Write the figure alone; its unit, {unit.name}, stands in the heading."
            return None, (Diagnostic("H341", cell.span, message, hint),)
        row.append(figure)
    return tuple(row), ()


def _figure(cell: Node, unit: Unit) -> Quantity | None:
    if not isinstance(cell, Words) or cell.empty:
        return None
    quantity, _ = read_quantity(f"{cell.text} {unit.name}", cell.span, unit.dimension)
    return None if quantity is None or quantity.is_range or quantity.unit != unit else quantity


def _falls(want: TableWant, rows: list[Row]) -> tuple[int, int] | None:
    """Two rows of which the second asks for no less in every column but the last, and gives less there; or one that
    says something else for the very same."""
    si = [tuple(to_si(f, c.datum) for f, c in zip(row, want.columns, strict=True)) for row in rows]
    for i, first in enumerate(si):
        for j, second in enumerate(si):
            if i != j and all(a <= b for a, b in zip(first[:-1], second[:-1], strict=True)) and first[-1] > second[-1]:
                return i, j
    return None


def _falling(want: TableWant, pair: tuple[int, int], lines: tuple[Node, ...], rows: list[Row], what: str) -> Diagnostic:
    low, high = (rows[i] for i in pair)
    names = listed([column.name for column in want.columns[:-1]])
    last = want.columns[-1].name
    return Diagnostic(
        "H342",
        lines[pair[1] + 1].span,
        f"In {what} the {last} falls from {low[-1].text} at {_at(low)} to {high[-1].text} at {_at(high)}, "
        f"though neither {names.replace(' and ', ' nor ')} has fallen.",
        f"Look whether both rows are as the book has them: with more {names.replace(' and ', ' or ')} the {last} "
        "cannot be less.",
        ((lines[pair[0] + 1].span, "the other row:"),),
    )


def _at(row: Row) -> str:
    return " and ".join(figure.text for figure in row[:-1])
