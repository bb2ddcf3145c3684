"""Every folder with a `command.txt` is a case: its files are copied, the command is run there, the output compared.

command.txt    one command line a line, each beginning with `cutaway`; blank lines and lines with # are skipped
expected.txt   what is printed (problems first, then the answer), each command under its own line, and how it ended;
               `pytest --accept` writes it anew
demo.txt       names a type folder of the demo, which is copied beside the case's files
expected-to-fail    says why the case is not met yet; it is then expected to differ, and --accept leaves it alone
"""

import shlex
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.cli.main import app

HERE = Path(__file__).parent
DEMO = HERE.parents[1] / "demo"
OURS = ("command.txt", "demo.txt", "expected.txt", "expected-to-fail")
CASES = sorted(path.parent for path in HERE.rglob("command.txt"))


def commands(case: Path) -> list[str]:
    lines = (case / "command.txt").read_text(encoding="utf-8").splitlines()
    return [line.strip() for line in lines if line.strip() and not line.startswith("#")]


def printed(case: Path, folder: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """What the commands of a case print, run in a copy of its files."""
    shutil.copytree(case, folder, symlinks=True, ignore=shutil.ignore_patterns(*OURS))
    if (case / "demo.txt").exists():
        name = (case / "demo.txt").read_text(encoding="utf-8").strip()
        shutil.copytree(DEMO / name, folder / name)
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("COLUMNS", "110")
    return "\n".join(outcome(line) for line in commands(case))


def outcome(line: str) -> str:
    program, *arguments = shlex.split(line)
    assert program == "cutaway", f"a case runs cutaway, not {program}"
    result = CliRunner().invoke(app, arguments)
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception  # a fault of our own is never what a case expects
    printed = f"{result.stderr}\n{result.stdout}" if result.stderr and result.stdout else result.output
    shown = "\n".join(part.rstrip() for part in printed.rstrip().splitlines())
    return f"$ {line}\n{shown}\n(exit {result.exit_code})\n"


@pytest.mark.usefixtures("nothing_remembered")
@pytest.mark.parametrize("case", CASES, ids=lambda case: case.relative_to(HERE).as_posix())
def test_case(case: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> None:
    found = printed(case, tmp_path / "case", monkeypatch)
    expected = case / "expected.txt"
    pending = case / "expected-to-fail"
    if request.config.getoption("--accept") and not pending.exists():
        expected.write_text(found, encoding="utf-8")
    wanted = expected.read_text(encoding="utf-8") if expected.exists() else ""
    if pending.exists():
        assert found != wanted, f"the case is met now: delete {pending.name}"
        pytest.xfail(pending.read_text(encoding="utf-8").strip())
    assert found == wanted


def test_there_are_cases() -> None:
    assert CASES
