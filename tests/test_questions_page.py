"""The page of questions: every command on it runs, and every question has its place."""

import re
import shlex
from pathlib import Path

import pytest

from tests.cli.running import cutaway

PAGE = Path(__file__).parents[1] / "docs" / "questions.md"
FENCE = re.compile(r"^```sh\n(.*?)^```$", re.DOTALL | re.MULTILINE)
COMMANDS = [line for block in FENCE.findall(PAGE.read_text(encoding="utf-8")) for line in block.splitlines() if line]


@pytest.mark.parametrize("line", COMMANDS)
def test_each_command_runs(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(PAGE.parents[1])
    verb, *arguments = shlex.split(line)
    assert verb == "cutaway"
    said = cutaway(*arguments)
    assert said.exit_code == 0 and said.stdout, said.stderr


def test_each_question_of_this_page_has_a_command() -> None:
    assert {"why", "failures", "suspects"} <= {line.split()[1] for line in COMMANDS}
