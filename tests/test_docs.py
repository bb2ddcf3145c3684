"""The reference pages: fresh, and with a place for everything that is live."""

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest
import typer

from cutaway.cli.main import app
from cutaway.parts.library import KINDS
from cutaway.problems.catalogue import CATALOGUE
from cutaway.quantities.units import UNITS

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def build() -> ModuleType:
    spec = importlib.util.spec_from_file_location("docs_build", ROOT / "docs" / "build.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_pages_are_fresh(build) -> None:
    assert build.stale() == []


def test_a_stale_a_missing_and_a_foreign_page_are_told(build, tmp_path) -> None:
    build.write(tmp_path)
    assert build.stale(tmp_path) == []
    (tmp_path / "reference" / "units.md").write_text("# Units\n")
    (tmp_path / "parts" / "tank.md").unlink()
    (tmp_path / "reference" / "old.md").write_text("# Old\n")
    assert build.stale(tmp_path) == ["parts/tank.md", "reference/old.md", "reference/units.md"]


def test_everything_live_is_on_its_page(build) -> None:
    pages = {name: make() for name, make in build.pages().items()}
    commands = typer.main.get_command(app).commands
    assert commands and all(f"\n## {name}\n" in pages["reference/commands.md"] for name in commands)
    assert all(f"\n### {code} {entry.title}\n" in pages["reference/problems.md"] for code, entry in CATALOGUE.items())
    assert all(f"| `{unit.name}` |" in pages["reference/units.md"] for unit in UNITS if unit.name)
    assert KINDS and all(kind in pages["parts/README.md"] for kind in KINDS)


def test_every_verb_says_what_it_does_and_gives_an_example() -> None:
    for name, command in typer.main.get_command(app).commands.items():
        assert command.help, name
        assert f"cutaway {name}" in (command.epilog or ""), name
        for parameter in command.params:
            assert getattr(parameter, "help", ""), f"{name} {parameter.name}"


def test_every_decision_is_numbered_and_has_its_headings() -> None:
    pages = sorted((ROOT / "docs" / "decisions").glob("*.md"))
    assert [page.name[:4] for page in pages] == [f"{n:04}" for n in range(1, len(pages) + 1)]
    for page in pages:
        text = page.read_text(encoding="utf-8")
        assert text.startswith(f"# {int(page.name[:4])} "), page.name
        for heading in ("**Asked.**", "**Chosen.**", "**Else thought of.**", "**Would change our mind.**"):
            assert heading in text, f"{page.name} lacks {heading}"


def test_every_library_has_its_line() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    page = (ROOT / "docs" / "dependencies.md").read_text(encoding="utf-8")
    wanted = project["dependencies"] + project["optional-dependencies"]["test"]
    for requirement in wanted:
        name = requirement.split(">")[0].split("=")[0]
        assert name in page, name
