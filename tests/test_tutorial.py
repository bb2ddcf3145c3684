"""The tutorial is run from top to bottom: its commands, its files, and what it says that the commands print."""

import re
import shlex
from dataclasses import dataclass
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.cli.main import app

TUTORIAL = Path(__file__).parent.parent / "docs" / "tutorial.md"
FENCE = re.compile(r"^(?P<ticks>`{3,})(?P<info>[^\n`]*)\n(?P<body>.*?)^(?P=ticks)$", re.DOTALL | re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block: the words behind its fence, and its text."""

    info: tuple[str, ...]
    body: str

    def option(self, name: str) -> str:
        """What follows `name=`, '' if nothing does."""
        return next((word.partition("=")[2] for word in self.info if word.startswith(f"{name}=")), "")


def blocks() -> tuple[Block, ...]:
    """The fenced blocks of the tutorial, in order."""
    text = TUTORIAL.read_text(encoding="utf-8")
    return tuple(Block(tuple(found["info"].split()), found["body"]) for found in FENCE.finditer(text))


def run(block: Block) -> str:
    """Run the block's commands, each to the exit code that the block names, and return all that they print."""
    printed = ""
    for line in block.body.splitlines():
        verb, *arguments = shlex.split(line)
        assert verb == "cutaway", line
        result = CliRunner().invoke(app, arguments, prog_name="cutaway")
        assert result.exit_code == int(block.option("exits") or 0), f"{line}\n{result.output}"
        printed += result.output
    return printed


def test_the_tutorial_runs_as_it_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    printed = ""
    for block in blocks():
        if block.option("title"):
            Path(block.option("title")).write_text(block.body, encoding="utf-8")
        elif block.info[0] == "sh":
            printed = run(block)
        elif "shows" in block.info:
            missing = [line for line in block.body.splitlines() if line not in printed]
            assert missing == [], printed
        else:
            pytest.fail(f"a block that is neither a command, a file nor shown: {block.info}")
    assert Path("stonechat-pack/index.html").is_file()


def test_a_command_that_ends_otherwise_is_found_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(AssertionError, match="cutaway check"):
        run(Block(("sh",), "cutaway check nothing-here\n"))
