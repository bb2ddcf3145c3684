"""Tables in a paragraph read row by row: each row becomes a line of words in which every figure has its unit."""

import re
from collections.abc import Iterator
from functools import lru_cache

from cutaway.quantities.units import unit_spelled

_RULE = re.compile(r"^\|?[\s:|\-]*-[\s:|\-]*\|?$")
_CELLS = re.compile(r"(?<!\\)\|")
# A cell that is nothing but a figure, a range or a tolerance.
_NUMBER = re.compile(
    r"^[+\-−–]?\d[\d,.·]*(?:\s?[½¼¾⅓⅔⅛⅜⅝⅞]|\s\d+/\d+)?(?:\s*(?:-|–|—|to|±)\s*\d[\d,.·]*)?$|^[½¼¾⅓⅔⅛⅜⅝⅞]$"
)
_UNIT_HEAD = re.compile(r"^(?:units?|measured in|in|u\.)$", re.IGNORECASE)
# A head that names no thing and so is not read out: 'Value' of a table of items and values.
_VALUE_HEAD = re.compile(r"^(?:values?|figures?|readings?|amounts?|quantit(?:y|ies)|settings?)$", re.IGNORECASE)
# The unit of a head: 'Capacity (gal)', 'Capacity [gal]', 'Capacity, gal', 'Capacity in gal', 'Capacity / gal'.
_OF_HEAD = re.compile(r"^(?P<name>.*?)\s*(?:[(\[](?P<closed>[^)\]]+)[)\]]|(?:,|/|\bin)\s+(?P<open>[^,()]+))\s*$")


@lru_cache(maxsize=4096)
def plain_text(text: str) -> str:
    """A paragraph's text with each table told row by row, each row a block of its own; other text stays as it is.

    >>> plain_text("| Tank | Capacity (gal) |\\n| --- | --- |\\n| Port | 11 |\\n| Starboard | 12 |")
    'Port: Capacity 11 gal\\n\\nStarboard: Capacity 12 gal'
    """
    if "|" not in text:
        return text
    blocks: list[str] = []
    for block in text.split("\n\n"):
        lines = [line.strip() for line in block.split("\n")]
        at = next((place for place, line in enumerate(lines) if line.startswith("|")), None)
        if at is None:
            blocks.append(block)
            continue
        table = [line for line in lines[at:] if line.startswith("|")]
        rest = [line for line in lines[at:] if not line.startswith("|")]
        blocks += [" ".join(lines[:at])] * bool(at) + list(_rows(table)) + [" ".join(rest)] * bool(rest)
    return "\n\n".join(blocks)


def _rows(lines: list[str]) -> Iterator[str]:
    """The rows of a table as words. A table without a rule under its first row is read as one with a head all the same,
    unless that row holds figures."""
    rows = [_cells(line) for line in lines if not _RULE.match(line)]
    if not rows:
        return
    ruled = any(_RULE.match(line) for line in lines)
    headed = ruled or not any(_NUMBER.match(cell) for cell in rows[0])
    heads = rows[0] if headed else [""] * len(rows[0])
    body = rows[1:] if headed else rows
    units = _unit_column(heads, body)
    for row in body:
        words = _row(row, heads, units)
        if words:
            yield words


def _row(row: list[str], heads: list[str], units: int | None) -> str:
    """One row: what it is of, then each cell under its head, figures with their unit."""
    cells = [cell for at, cell in enumerate(row) if at != units]
    names = [heads[at] if at < len(heads) else "" for at in range(len(row)) if at != units]
    own = row[units] if units is not None and units < len(row) else ""
    labelled = bool(cells) and bool(cells[0]) and not _NUMBER.match(cells[0])
    told: list[str] = []
    for head, cell in list(zip(names, cells, strict=True))[1 if labelled else 0 :]:
        if not cell:
            continue
        name, unit = _name_and_unit(head)
        if _NUMBER.match(cell):
            cell = f"{cell} {unit or own}".strip()
        told.append(cell if _VALUE_HEAD.match(name) else f"{name} {cell}".strip())
    label = cells[0] if labelled else ""
    return f"{label}: {'; '.join(told)}" if label and told else label or "; ".join(told)


def _name_and_unit(head: str) -> tuple[str, str]:
    """'Capacity (gal)' as 'Capacity' and 'gal'; a head without a unit as itself and ''."""
    found = _OF_HEAD.match(head)
    unit = (found["closed"] or found["open"] or "").strip() if found else ""
    if found and unit and unit_spelled(unit) is not None:
        return found["name"], unit
    return ("", head) if head and unit_spelled(head) is not None else (head, "")


def _unit_column(heads: list[str], body: list[list[str]]) -> int | None:
    """The column in which units stand by themselves: by its head, or because every cell of it is a unit."""
    for at, head in enumerate(heads):
        column = [row[at] for row in body if at < len(row) and row[at]]
        known = [cell for cell in column if unit_spelled(cell) is not None]
        if column and (len(known) == len(column) or (_UNIT_HEAD.match(head) and known)):
            return at
    return None


def _cells(line: str) -> list[str]:
    inner = line.strip().removeprefix("|")
    inner = inner[:-1] if inner.endswith("|") and not inner.endswith("\\|") else inner
    return [" ".join(cell.replace("\\|", "|").split()) for cell in _CELLS.split(inner)]
