"""What docs/editors.md tells to do is done, on a new type folder."""

import re
import shlex
from os.path import normpath
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.checking import check_problems
from cutaway.api.finding import schemas
from cutaway.cli.main import app

PAGE = (Path(__file__).parent.parent / "docs" / "editors.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| (.+?) \| `(# yaml-language-server: \$schema=(.+?))` \|$", PAGE, re.MULTILINE)


def run(line: str) -> None:
    program, *arguments = shlex.split(line)
    assert program == "cutaway"
    result = CliRunner().invoke(app, arguments)
    assert result.exit_code == 0, result.output


@pytest.fixture
def stonechat(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    run("cutaway new stonechat")
    monkeypatch.chdir(tmp_path / "stonechat")
    return tmp_path / "stonechat"


def test_the_schemas_are_written_where_the_first_lines_look_for_them(stonechat: Path) -> None:
    for block in re.findall(r"```sh\n(.+?)\n```", PAGE, re.DOTALL):
        run(block)
    assert len(ROWS) == len(schemas())
    for files, first_line, schema in ROWS:
        within = re.fullmatch(r"every file in `(\w+)/`", files)
        path = stonechat / (f"{within[1]}/fuel.yaml" if within else files.strip("`"))
        folder = path.parent.relative_to(stonechat)
        assert (stonechat / normpath(folder / schema)).is_file(), files
        if path.exists():
            path.write_text(f"{first_line}\n{path.read_text(encoding='utf-8')}", encoding="utf-8")
    assert check_problems(stonechat) == ()


def test_the_other_command_that_the_page_names(stonechat: Path) -> None:
    assert "`cutaway schema systems/fuel.yaml`" in PAGE
    run("cutaway schema systems/fuel.yaml")
