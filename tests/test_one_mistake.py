"""One slip is told once: whatever part of a whole type folder is written wrongly, nothing else is complained of."""

import shutil
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from cutaway.api.checking import check_problems

WHINCHAT = Path(__file__).parent.parent / "demo" / "whinchat"
PARTS = [
    (path.name, str(name), block if isinstance(block, dict) else block[0])
    for path in sorted((WHINCHAT / "systems").glob("*.yaml"))
    for name, block in YAML(typ="safe").load(path.read_text(encoding="utf-8"))["parts"].items()
]


@pytest.fixture
def whinchat(tmp_path: Path) -> Path:
    return Path(shutil.copytree(WHINCHAT, tmp_path / "whinchat"))


def changed(file: Path, after: str, old: str, new: str) -> None:
    """Replace the first `old` that stands after some text."""
    text = file.read_text(encoding="utf-8")
    at = text.index(old, text.index(after))
    file.write_text(text[:at] + new + text[at + len(old) :], encoding="utf-8")


@pytest.mark.parametrize("file, name, block", PARTS, ids=[name for _, name, _ in PARTS])
def test_a_part_of_an_unknown_kind(whinchat: Path, file: str, name: str, block: dict[str, object]) -> None:
    changed(whinchat / "systems" / file, f"\n  {name}:", f"kind: {block['kind']}", "kind: what is it")
    assert [problem.code for problem in check_problems(whinchat)] == ["H301"]


@pytest.mark.parametrize(
    "file, after, old, new, codes",
    [
        ("situations.yaml", "parked:", "settle: 1 min", "settle: 1 mn", ["Q104"]),
        ("situations.yaml", "starting:", "settle: 8 s", "settle: eight", ["Q101"]),
        ("situations.yaml", "cruising:", "throttle: 70 %", "throtle: 70 %", ["H403"]),
        ("situations.yaml", "cruising:", "from: running up", "from: runing up", ["H402"]),
        ("services.yaml", "petrol", "carburettor is fed", "carburettor is fedd", ["L213"]),
        ("type.yaml", "marks", "[Mk 1, Mk 2]", "[Mk 1, Mk 2, Mk 2]", ["H802"]),
        ("type.yaml", "standard", "standard: Mk 2", "standard: Mk 3", ["H804"]),
        ("systems/fuel.yaml", "capacity", "11 gal", "11 galons", ["Q104"]),
        ("systems/fuel.yaml", "capacity", "11 gal", "-11 gal", ["H323"]),
        ("systems/engine.yaml", "rated speed", "2350 rpm", "0 rpm", ["H323"]),
        ("drills/starting.md", "from", "parked", "parkd", ["H402"]),
        # Two places that are at odds with each other are two places to look at.
        ("sources/hb.md", "## 22 ", "## 22 ", "## 21 ", ["H205", "H201"]),
        ("glossary.yaml", "W-17", "means", "meaning", ["H110", "H111"]),
    ],
)
def test_another_slip(whinchat: Path, file: str, after: str, old: str, new: str, codes: list[str]) -> None:
    changed(whinchat / file, after, old, new)
    assert [problem.code for problem in check_problems(whinchat)] == codes
