"""How the tests of the command line run it: in this process where that is enough, as a program where it is not."""

import os
import subprocess
import sys
from pathlib import Path

from click.testing import Result
from typer.testing import CliRunner

from cutaway.cli.main import app


def cutaway(*arguments: str | Path) -> Result:
    """Run the command in this process; a fault of our own is raised, as no test of use expects one."""
    result = CliRunner().invoke(app, [str(one) for one in arguments], prog_name="cutaway")
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def program(code: str = "", *arguments: str | Path, **options: object) -> "subprocess.Popen[str]":
    """Start the command as a program of its own; code: what is done in it before it begins."""
    start = f"{code}\nfrom cutaway.cli.main import entry\nentry()"
    said = [sys.executable, "-c", start, *(str(one) for one in arguments)]
    here = {**os.environ, "NO_COLOR": "1"}
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **options}
    return subprocess.Popen(said, text=True, env=here, **pipes)  # type: ignore[call-overload,no-any-return]
