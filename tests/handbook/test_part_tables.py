"""Tables of parts: headings with units, rows, standards; what cannot be a table is refused with its place."""

from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.handbook.records import table_on
from cutaway.problems.codes_handbook import _engine
from cutaway.quantities.si import to_si
from cutaway.quantities.which import StandardName

HEADING = "[speed rpm, boost lb/sq in, flow gal/h]"
RPM, POUND, GALLON_AN_HOUR = 0.104_719_755, 6_894.757, 4.54609e-3 / 3600.0


def loaded(path: Path, system: str, marks: str = "[Mk 1, Mk 2]"):  # type: ignore[no-untyped-def]
    (path / "systems").mkdir()
    (path / "type.yaml").write_text(f"name: Wren\nmarks: {marks}\n")
    (path / "systems" / "fuel.yaml").write_text(
        system.replace("source: hb\n", "").replace(", cite: §1", "").replace(", cite: §2", "")
    )
    return load(path)


def codes(path: Path, *lines: str) -> list[str]:
    _, problems = loaded(path, _engine(*lines))
    return [problem.code for problem in problems]


@pytest.mark.parametrize("heading", [HEADING, "[rpm, lb/sq in, gal/h]", '["Speed (rpm)", "boost, lb./sq. in.", gph]'])
def test_a_table_is_read_with_its_units(tmp_path: Path, heading: str) -> None:
    folder, problems = loaded(tmp_path, _engine(heading, "[1800, -2, 30]", "[1800, +4, 42½]", '["2,400", 4, 58]'))
    assert folder is not None and problems == ()
    engine = next(part for part in folder.folder.parts if part.name == "engine")
    table = table_on(engine, "cruise table", StandardName("Mk 2"))
    assert table is not None
    rows = [tuple(to_si(figure) for figure in row) for row in table.rows]
    assert rows[0] == pytest.approx((1800 * RPM, -2 * POUND, 30 * GALLON_AN_HOUR))
    assert rows[1] == pytest.approx((1800 * RPM, 4 * POUND, 42.5 * GALLON_AN_HOUR))
    assert rows[2][0] == pytest.approx(2400 * RPM)


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("[1800, 0, 30]", "[1800, 4, 40]"), "H340"),
        (("[rpm, gal/h, lb/sq in]", "[1800, 0, 30]"), "H340"),
        (("[rpm, lb/sq in]", "[1800, 0]"), "H340"),
        ((HEADING, "[1800, 0]"), "H341"),
        ((HEADING, "[1800, 0, about 30]"), "H341"),
        ((HEADING, "[1800, 0, 30 to 32]"), "H341"),
        ((HEADING, "[1800, 0, 30]", "[1800, 0, 31]"), "H342"),
        ((HEADING, "[1800, 0, 30]", "[1900, 0, 29]"), "H342"),
        ((HEADING, "[1800, 4, 40]", "[1900, 4, 44]", "[1900, 6, 43]"), "H342"),
        (("just words",), "H108"),
    ],
)
def test_what_is_no_table(tmp_path: Path, lines: tuple[str, ...], code: str) -> None:
    assert codes(tmp_path, *lines) == [code]


def test_more_speed_with_less_boost_may_take_less(tmp_path: Path) -> None:
    assert codes(tmp_path, HEADING, "[1800, 6, 50]", "[2000, 2, 44]", "[2000, 6, 50]") == []


def test_a_table_for_each_mark(tmp_path: Path) -> None:
    long = _engine("{on: Mk 1, rows: [[rpm, lb/sq in, gal/h], [1800, 0, 30]]}",
                   "{on: Mk 2, rows: [[rpm, lb/sq in, gal/h], [1800, 0, 36]]}")  # fmt: skip
    folder, problems = loaded(tmp_path, long)
    assert folder is not None and problems == ()
    engine = next(part for part in folder.folder.parts if part.name == "engine")
    flows = [table_on(engine, "cruise table", StandardName(mark)).rows[0][-1].value for mark in ("Mk 1", "Mk 2")]  # type: ignore[union-attr]
    assert flows == [30.0, 36.0]


def test_two_tables_for_one_mark_are_told(tmp_path: Path) -> None:  # H343
    both = ("{on: Mk 1, rows: [[rpm, lb/sq in, gal/h], [1800, 0, 30]]}",
            "{rows: [[rpm, lb/sq in, gal/h], [1800, 0, 36]]}")  # fmt: skip
    assert codes(tmp_path, *both) == ["H343"]


def test_the_falling_rows_are_named(tmp_path: Path) -> None:
    _, problems = loaded(tmp_path, _engine(HEADING, "[1800, 4, 42]", "[2400, 4, 38]"))
    assert problems[0].message == (
        "In 'cruise table' of engine the flow falls from 42 gal/h at 1800 rpm and 4 lb/sq in to 38 gal/h at 2400 rpm "
        "and 4 lb/sq in, though neither speed nor boost has fallen."
    )
