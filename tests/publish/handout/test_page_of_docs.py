"""What the page on handouts tells to type can be typed."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from tests.cli.running import cutaway

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "handout.md").read_text(encoding="utf-8").replace("\\\n", " ")
SAID = [line for block in re.findall(r"```\n(.*?)```", PAGE, re.S) for line in block.splitlines()]
QUICK = [line for line in SAID if line.startswith(("cutaway stills", "cutaway overlay"))]


def test_the_page_has_something_to_type() -> None:
    assert len(QUICK) == 3 and sum(line.startswith("cutaway handout") for line in SAID) == 2


@pytest.mark.parametrize("line", QUICK, ids=lambda line: " ".join(line.split()[:2]))
def test_it_can_be_typed(line: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(ROOT / "demo" / "whinchat", tmp_path / "demo" / "whinchat", ignore=shutil.ignore_patterns("pack"))
    monkeypatch.chdir(tmp_path)
    quicker = ["--hold", "0.2"] if "overlay" in line else []
    result = cutaway(*shlex.split(line)[1:], *quicker)
    assert result.exit_code == 0, result.output
    assert any(tmp_path.rglob("*.png")) or any(tmp_path.rglob("*.mov"))
