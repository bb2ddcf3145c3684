"""`cutaway quiz` and `cutaway panels`: each command of their page runs, nothing is written over, wrong use is told."""

import json
import re
import shlex
from pathlib import Path

import pytest

from tests.cli.running import cutaway

ROOT = Path(__file__).parents[2]
FENCE = re.compile(r"^```sh\n(.*?)^```$", re.DOTALL | re.MULTILINE)
PAGE = (ROOT / "docs" / "quiz.md").read_text(encoding="utf-8")
COMMANDS = [line.split("#")[0] for block in FENCE.findall(PAGE) for line in block.splitlines() if line]


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder from which the demo is reached as in the documents, and into which files may be written."""
    (tmp_path / "demo").symlink_to(ROOT / "demo")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("line", COMMANDS)
def test_each_command_of_the_page_runs(line: str) -> None:
    verb, *arguments = shlex.split(line)
    assert verb == "cutaway"
    # Two questions of each are enough to see that it runs; what assumed values do to them is tested elsewhere.
    short = ["--count", "2", "--no-rests"] if arguments[0] == "quiz" else []
    said = cutaway(*arguments, *short)
    assert said.exit_code == 0 and said.stdout, said.stderr


def test_a_quiz_is_written_once_and_not_over_what_is_there(here: Path) -> None:
    asked = ("quiz", "-C", "demo/whinchat", "--count", "2", "--no-rests", "--out", "quiz")
    assert cutaway(*asked).exit_code == 0
    names = {path.name for path in (here / "quiz").iterdir()}
    assert names - {"quiz-sheet.pdf"} == {"quiz-sheet.html", "quiz.html", "quiz.json"}
    again = cutaway(*asked)
    assert again.exit_code == 1 and "is there already" in again.stderr
    assert cutaway(*asked, "--replace").exit_code == 0


def test_a_quiz_for_a_program_is_the_one_that_is_written(here: Path) -> None:
    asked = ("quiz", "-C", "demo/whinchat", "--count", "2", "--no-rests")
    printed = json.loads(cutaway(*asked, "--json").stdout)
    assert cutaway(*asked, "--out", "quiz").exit_code == 0
    assert json.loads((here / "quiz" / "quiz.json").read_text(encoding="utf-8")) == printed
    assert len(printed["questions"]) == 2


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("quiz", "--system", "Feul"), "Fuel"),
        (("quiz", "--sort", "riddle"), "failure"),
        (("quiz", "--count", "0"), "--count 12"),
        (("quiz", "--count", "1", "--no-rests", "--out", "quiz", "--paper", "foolscap"), "letter"),
        (("panels", "crusing"), "cruising"),
        (("panels", "cruising", "--on", "Mk 7"), "Mk 1"),
    ],
)
def test_what_there_is_not_is_wrong_use(arguments: tuple[str, ...], words: str) -> None:
    said = cutaway(*arguments, "-C", "demo/whinchat")
    assert said.exit_code == 2 and words in said.stderr


def test_panels_tell_what_was_done(here: Path) -> None:
    asked = ("panels", "cruising", "-C", "demo/whinchat", "--on", "Mk 1", "--do", "tank selector to off", "--words")
    told = cutaway(*asked).stdout
    assert "after tank selector to off, 60 s on." in told and "fuel lamp (marked FUEL PRESS): lit" in told
    assert "engine: stopped" in told and not (here / "panels").exists()
