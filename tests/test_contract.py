"""The layers: the contract holds for the source as it is, and breaks as soon as an import goes up."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def broken(folder: Path) -> str:
    """What the layer check prints for the source tree in `folder`; '' where every contract is kept."""
    # A program of its own: the check imports the package by name, and here `cutaway` is already the real one.
    command = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"
    found = subprocess.run(
        [sys.executable, "-c", command],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder / "src")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Contracts: " in found.stdout, found.stdout + found.stderr
    return "" if found.returncode == 0 else found.stdout


@pytest.fixture
def copy_of_source(tmp_path: Path) -> Path:
    leave_out = shutil.ignore_patterns("__pycache__", "vendor")
    shutil.copytree(ROOT / "src", tmp_path / "src", ignore=leave_out)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_the_source_keeps_its_layers(copy_of_source) -> None:
    assert broken(copy_of_source) == ""


@pytest.mark.parametrize(
    "room, above",
    [
        ("problems", "quantities"),
        ("quantities", "parts"),
        ("parts", "handbook"),
        ("handbook", "language"),
        ("language", "machine"),
        ("machine", "inquiry"),
        ("draw", "inquiry"),
        ("draw", "narrate"),
        ("wording", "publish"),
        ("publish", "api"),
        ("api", "cli"),
    ],
)
def test_an_import_from_above_breaks_the_contract(copy_of_source, room, above) -> None:
    (copy_of_source / f"src/cutaway/{room}/trespass.py").write_text(f"import cutaway.{above}\n")
    assert f"cutaway.{room}.trespass -> cutaway.{above}" in broken(copy_of_source).replace("\n", " ")


def test_a_room_without_a_place_breaks_the_contract(copy_of_source) -> None:
    (copy_of_source / "src/cutaway/attic").mkdir()
    (copy_of_source / "src/cutaway/attic/__init__.py").write_text('"""A room that nobody placed."""\n')
    assert "cutaway.attic" in broken(copy_of_source)


def test_a_circle_inside_a_room_breaks_the_contract(copy_of_source) -> None:
    room = copy_of_source / "src/cutaway/quantities"
    (room / "hen.py").write_text("import cutaway.quantities.egg\n")
    (room / "egg.py").write_text("import cutaway.quantities.hen\n")
    assert "cutaway.quantities" in broken(copy_of_source)
