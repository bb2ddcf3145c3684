"""Figures that no aeroplane has: a clear word on each, and an answer in the end."""

import shutil
from pathlib import Path

import pytest

from cutaway.api.checking import check
from cutaway.narrate.checked import Checked

WHINCHAT = Path(__file__).parent.parent / "demo" / "whinchat"
SCRIPT = """\
# What is asked of every odd aeroplane

She does this and that.

```claim
in parked: port tank reads 11 gal
in parked, after battery switch to on then landing light switch to on, within 5 s: landing light is working
in parked, after flap selector to down then flap pump to pumping, within 60 s: flaps are down
in cruising: engine is running and carburettor is fed
in cruising: suction gauge reads 4.5 in Hg ± 0.4
in cruising, after tank selector to off, within 40 s: fuel lamp is lit
```
"""


@pytest.fixture
def whinchat(tmp_path: Path, nothing_remembered: None) -> Path:
    """The demo with all its parts and one short script."""
    folder = tmp_path / "whinchat"
    shutil.copytree(
        WHINCHAT, folder, ignore=shutil.ignore_patterns("drills", "scripts", "sheets", "glossary.yaml", "letters.yaml")
    )
    (folder / "scripts").mkdir()
    (folder / "scripts" / "01-odd.md").write_text(SCRIPT, encoding="utf-8")
    return folder


def put(folder: Path, file: str, old: str, new: str) -> None:
    """Put one figure for another."""
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text, old
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")


def checked(folder: Path) -> tuple[Checked, list[str]]:
    found, problems = check(folder, on="Mk 1", rests=False)
    assert found is not None
    return found, sorted({problem.code for problem in problems})


@pytest.mark.parametrize(
    "file, old, new",
    [
        ("fuel", "capacity: 11 gal", "capacity: 1e300 gal"),
        ("fuel", "pressure: 5 lb/sq in", "pressure: 0.0001 lb/sq in"),
        ("fuel", "delivery: 24 gal/h", "delivery: 1e9 gal/h"),
        ("flaps", "set at: 300 lb/sq in", "set at: 0.0001 lb/sq in"),
        ("flaps", "area: 1.2 sq in", "area: 1e9 sq in"),
        ("flaps", "capacity: 3 pt", "capacity: 1e-12 pt"),
        ("flaps", "stroke: 7 in", "stroke: 1e9 in"),
        ("vacuum", "4.5 in Hg", "0.0001 in Hg"),
        ("electrics", "current: 8 A", "current: 1e30 A"),
    ],
)
def test_a_figure_far_from_the_usual_is_doubted_and_run(whinchat: Path, file: str, old: str, new: str) -> None:
    put(whinchat, f"systems/{file}.yaml", old, new)
    found, codes = checked(whinchat)
    # What the pump gives, and the suction that the valve lets be, then defeat what hangs on them.
    defeats = ["M114"] if new in ("pressure: 0.0001 lb/sq in", "0.0001 in Hg") else []
    assert codes == ["H209", "H304", *defeats]
    assert len(found.verdicts()) == 6


@pytest.mark.parametrize(
    "file, old, new",
    [
        ("fuel", "capacity: 11 gal", "capacity: 0 gal"),
        ("fuel", "capacity: 11 gal", "capacity: -11 gal"),
        ("fuel", "between: 0.05 to 0.6 lb/sq in", "between: -5 to 0.6 lb/sq in"),
        ("flaps", "area: 1.2 sq in", "area: 0 sq in"),
        ("electrics", "rating: 5 A", "rating: 0 A"),
        ("electrics", "voltage: 12 V", "voltage: -12 V"),
        ("engine", "rated speed: 2350 rpm", "rated speed: 0 rpm"),
    ],
)
def test_a_figure_that_cannot_be_is_told_once(whinchat: Path, file: str, old: str, new: str) -> None:
    put(whinchat, f"systems/{file}.yaml", old, new)
    _, codes = checked(whinchat)
    assert codes == ["H323"]
