"""The type folder is said last or with -C, at every verb alike."""

import os
from pathlib import Path

import pytest
import typer
from typer.core import TyperGroup

from cutaway.cli.folders import within
from cutaway.cli.main import app
from tests.cli.running import cutaway

ABOUT_NO_FOLDER = {"new", "explain", "schema"}
TAKE_ALL_WORDS = {"find", "take"}


def test_every_verb_that_is_about_a_folder_takes_it_both_ways() -> None:
    group = typer.main.get_command(app)
    assert isinstance(group, TyperGroup)
    options = {name: {o for p in one.params for o in p.opts} for name, one in group.commands.items()}
    assert {name for name, opts in options.items() if "-C" not in opts} == ABOUT_NO_FOLDER
    argued = {name for name, opts in options.items() if opts & {"folder", "place", "what", "scripts"}}
    assert set(options) - argued == TAKE_ALL_WORDS | (ABOUT_NO_FOLDER - {"new"})


@pytest.mark.parametrize(
    "said",
    [
        ("sources", "-C", "{}"),
        ("sources", "{}"),
        ("sources", "{}", "-C", "{}"),
        ("sources", "{}/", "-C", "{}/../sparrow"),
        ("run", "parked", "{}", "--for", "1 s"),
        ("desk", "-C", "{}", "01-first"),
        ("desk", "-C", "{}", "scripts/01-first.md"),
        ("desk", "{}/scripts/01-first.md", "-C", "{}"),
    ],
)
def test_the_same_folder_is_found(sparrow: Path, said: tuple[str, ...]) -> None:
    result = cutaway(*(one.format(sparrow) for one in said))
    assert result.exit_code == 0, result.output


def test_two_folders_are_refused(sparrow: Path, tmp_path: Path) -> None:
    for verb in (("check",), ("quiz",), ("desk",), ("run", "parked")):
        (tmp_path / "other").mkdir(exist_ok=True)
        (tmp_path / "other" / "type.yaml").write_text("name: Other\n")
        result = cutaway(*verb, sparrow, "-C", tmp_path / "other")
        assert result.exit_code == 2
        assert "Two folders are named" in result.output and "Leave out one" in " ".join(result.output.split())


def test_a_folder_in_the_place_of_what_may_be_left_out_is_the_folder(sparrow: Path) -> None:
    result = cutaway("failures", sparrow)
    assert result.exit_code == 2 and "Name one service or statement" in result.output
    assert "There is no" not in result.output


def test_a_folder_in_the_place_of_what_is_wanted_is_told(sparrow: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    result = cutaway("explore", sparrow)
    assert result.exit_code == 2
    assert "is a type folder" in result.output and "cutaway explore SYSTEM" in " ".join(result.output.split())
    # In a type folder it is the system's name that was written, whatever stands beside it.
    monkeypatch.chdir(sparrow)
    (sparrow / "inner").mkdir()
    (sparrow / "inner" / "type.yaml").write_text("name: Inner\n")
    assert "is a type folder" not in cutaway("explore", "inner").output


def test_a_place_in_a_folder(tmp_path: Path) -> None:
    (tmp_path / "wren").mkdir()
    wren = tmp_path / "wren"
    assert within(wren, Path("port engine")) == wren / "port engine"
    assert within(wren, wren / "port engine") == wren / "port engine"
    assert within(None, wren) == within(wren, None) == wren
    with pytest.raises(typer.BadParameter):
        within(wren, Path(os.sep, "elsewhere"))
