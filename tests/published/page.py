"""The page of published checks, as text; `python -m tests.published.page` writes it."""

from itertools import groupby
from pathlib import Path

from tests.machine.behaviours import BEHAVIOURS, NOT_SUPPORTED, ONCE_NOT_RUN, Row
from tests.published.checked import KINDS, listed

PAGE = Path(__file__).parents[2] / "docs" / "published-checks.md"

HEAD = """\
# What the model is checked against

Made by `python -m tests.published.page` from the tests themselves; a test compares it. A row is a test, its cases are
the figures that it holds our parts, laws, machine and units to. The tolerance is half a unit of the last printed digit,
unless the test says what else and why.
"""

NOT_COMPUTED = """\
## Printed values that nothing here computes

So there is no check of them, and none is claimed.

- Friction factors and pressure lost along a pipe, laminar or turbulent: a pipe here costs what its parts cost.
- Orifice plates and choked valves by the standards for meters; critical flow of gas (our law of air has no choking
  limit, and how far that puts it out is one of the checks).
- Accumulators worked quickly: the gas is kept at one temperature, and gauge pressures are taken as the trade does.
- Wire gauges and the resistance of wires; life, light and colour of lamps by voltage.
- Differential equations of textbooks (van der Pol, Robertson) and a bouncing ball: the machine runs networks of parts.
- The suction at which gyro instruments are right (4.5 to 5.5 in Hg is often said, and no page was found): an assumption
  with a range.
"""

MISPRINTS = """\
## Printed figures that are wrong or cut, and how they are held

- A much-copied imperial table heads its column 'geopotential' and prints geometric feet; it is used as geometric.
- A table of inches of mercury by height drops the third decimal; it is held from one side.
- One temperature of the same imperial table (20,000 ft) is out in its last digit: held to a whole unit.
- A list of boosts prints +25 lb/sq in as 80.9 in Hg; it is 80.8. +6 and +9 are rounded upwards. Held to a whole unit.
- The levels of EPANET's example tank belong to steps of an hour; ours are held to steps of a minute.
- An examination cuts its last digits instead of rounding them: held to a whole unit.
"""


def cell(text: str) -> str:
    """Text that stays in its cell."""
    return text.replace("|", "\\|")


def checks() -> str:
    """The checks, a table for each area."""
    found = listed()
    counted = sum(c.cases for c in found if c.evidence != "N")
    lines = [f"{counted} figures are obeyed.", "", "| evidence | meaning |", "|---|---|"]
    lines += [f"| {kind} | {meaning} |" for kind, meaning in KINDS.items()]
    for area, rows in groupby(found, key=lambda c: (c.module, c.area)):
        lines += ["", f"### {area[1]}", "", "| check | cases | evidence | source |", "|---|---|---|---|"]
        lines += [f"| {cell(c.what)} | {c.cases} | {c.evidence} | {cell(c.source)} |" for c in rows]
    return "\n".join(lines) + "\n"


def table(rows: tuple[Row, ...]) -> str:
    """Behaviours, what each is held against, and where."""
    lines = ["| behaviour | held against | tests |", "|---|---|---|"]
    for row in rows:
        where = "<br>".join(f"`{test}`" for test in row.tests)
        lines.append(f"| {cell(row.what)} | {cell(row.reference)} | {where} |")
    return "\n".join(lines) + "\n"


def page() -> str:
    """The whole page."""
    return "\n".join(
        (
            HEAD,
            "## Figures",
            "",
            checks(),
            NOT_COMPUTED,
            MISPRINTS,
            "## Behaviours of whole systems",
            "",
            "Held to: the order of events exactly; moments within 0.05 s, or landmarks within 1 % of a travel or",
            "set-point; a blow-down within 1 %; slow progress within 2.5 %.",
            "",
            table(BEHAVIOURS),
            "## Ways that are seldom gone",
            "",
            table(ONCE_NOT_RUN),
            "Not supported: " + " ".join(NOT_SUPPORTED),
            "",
        )
    )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
