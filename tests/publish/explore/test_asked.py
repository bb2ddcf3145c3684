"""Pages to be explored as they are asked for: by the verb, as its page of documentation says, and by explore.yaml."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from cutaway.api.asking import Opened, opened
from cutaway.api.loading import load
from cutaway.narrate.checked import Checked
from cutaway.publish.drawings import Desk
from cutaway.publish.explore.product import EXPLORE
from tests.cli.running import cutaway

ROOT = Path(__file__).parents[3]
FLAPS = ROOT / "tests" / "trade" / "01-flaps-and-accumulator"
PAGE = (ROOT / "docs" / "explorable.md").read_text(encoding="utf-8")
ASKED = """explore:
  waiting flaps: {system: flaps, in: flying, move: [flap selector], settle: 60 s, states: 6, says: They wait.}
  nothing: {system: Flapps, in: flying}
  nobody: {system: Flaps, in: flying, on: Mk 9}
"""


def block(sort: str) -> str:
    found = re.search(rf"^```{sort}\n(.*?)^```$", PAGE, re.DOTALL | re.MULTILINE)
    assert found is not None
    return found[1]


def test_the_command_of_the_documentation_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    first, second = (shlex.split(line)[1:] for line in block("sh").splitlines())
    first[-1] = str(tmp_path / first[-1])
    told = cutaway(*first)
    assert told.exit_code == 0, told.output
    assert "Moved: tank selector, hand pump" in told.output
    assert "All that can come of these movements is here: 6 settled states." in told.output
    assert (tmp_path / "fuel.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    again = cutaway(*first)
    assert again.exit_code == 1 and "is there already" in again.output
    assert second[-1] == "--json"
    wrong = cutaway(*second, "--control", "tank selectr")
    assert wrong.exit_code == 2 and "Did you mean tank selector?" in wrong.output


def test_the_entry_of_the_documentation_is_the_demos_own_but_for_its_words(tmp_path: Path) -> None:
    folder = tmp_path / "whinchat"
    shutil.copytree(ROOT / "demo" / "whinchat", folder, ignore=shutil.ignore_patterns("pack", "handout"))
    mine, _ = load(folder)
    (folder / "explore.yaml").write_text(block("yaml"), encoding="utf-8")
    found, problems = load(folder)
    assert found is not None and mine is not None and problems == mine.problems
    (one,), (other,) = found.folder.explorables, mine.folder.explorables
    assert (one.system, one.on, one.controls, one.states) == (other.system, other.on, other.controls, other.states)


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    folder = tmp_path_factory.mktemp("asked") / "flaps"
    shutil.copytree(FLAPS, folder)
    (folder / "explore.yaml").write_text(ASKED, encoding="utf-8")
    here, _ = opened(folder)
    assert here is not None
    return here


def test_a_pack_has_a_page_for_each_entry_that_can_be_made(asked: Opened) -> None:
    folder = asked.loaded.folder
    desk = Desk(asked.workshop, asked.loaded.told, asked.loaded.kinds, None)
    files, problems = EXPLORE.make(desk, Checked(folder, (), (), 0))
    assert list(files) == ["explore/waiting-flaps.html"]
    assert b"They wait." in files["explore/waiting-flaps.html"]
    assert b"6 settled states are here" in files["explore/waiting-flaps.html"]
    assert problems == ()
    told = [problem for problem in asked.loaded.problems if problem.span and problem.span.file.path == "explore.yaml"]
    assert [problem.code for problem in told] == ["L220", "L220"]
