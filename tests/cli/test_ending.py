"""How the command ends when something is not as it should be: stopped, broken, not read, no room."""

import errno
import signal
import sys
import time
from pathlib import Path

import pytest

from cutaway.cli import exits, main
from tests.cli.running import cutaway, program


def ends(monkeypatch: pytest.MonkeyPatch, fault: BaseException, *arguments: str) -> int:
    """The exit code when the check of a folder raises something."""

    def broken(*_: object, **__: object) -> None:
        raise fault

    monkeypatch.setattr("cutaway.api.checking.check", broken)
    monkeypatch.setattr(sys, "argv", ["cutaway", "check", *arguments])
    with pytest.raises(SystemExit) as end:
        main.entry()
    assert isinstance(end.value.code, int)
    return end.value.code


def test_a_fault_of_ours_is_told_as_ours(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.delenv("CUTAWAY_TRACE", raising=False)
    assert ends(monkeypatch, ZeroDivisionError("by nought")) == exits.OUR_FAULT
    told = capsys.readouterr().err
    assert told.startswith("Cutaway itself broke (ZeroDivisionError: by nought).")
    assert "CUTAWAY_TRACE=1" in told and "Nothing of yours was changed" in told
    assert "Traceback" not in told


def test_and_where_it_was_when_that_is_asked_for(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("CUTAWAY_TRACE", "1")
    assert ends(monkeypatch, ZeroDivisionError("by nought")) == exits.OUR_FAULT
    told = capsys.readouterr().err
    assert "Traceback" in told and "in broken" in told and told.rstrip().endswith("ZeroDivisionError: by nought")


@pytest.mark.parametrize(
    "fault, told",
    [
        (OSError(errno.ENOSPC, "No space left on device"), "The machine would not do it: "),
        (MemoryError(), "The machine has no memory left for this."),
    ],
)
def test_what_the_machine_would_not_do_is_told_as_that(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], fault: Exception, told: str
) -> None:
    assert ends(monkeypatch, fault) == exits.OUR_FAULT
    assert capsys.readouterr().err.startswith(told)


def test_stopped_in_the_middle(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert ends(monkeypatch, KeyboardInterrupt()) == exits.STOPPED
    assert capsys.readouterr().err == "\nStopped. Nothing of yours was changed.\n"


def test_ctrl_c_while_it_works(sparrow: Path) -> None:
    """A real signal to a real program, sent when its runs have begun and before they are done. The first asks it to end
    with what is known; these runs never come to that, and the second ends it."""
    slow = """
import threading, cutaway.api.checking as checking, cutaway.inquiry.workshop as workshop
checking.memory_file = lambda: None
def endless(jobs, threads):
    print("begun", flush=True)
    threading.Event().wait(60)
workshop.run_jobs = endless
"""
    with program(slow, "check", sparrow) as started:
        assert started.stdout is not None
        assert started.stdout.readline() == "begun\n"
        started.send_signal(signal.SIGINT)
        time.sleep(1.0)
        assert started.poll() is None
        started.send_signal(signal.SIGINT)
        printed, told = started.communicate(timeout=30)
    assert started.returncode == exits.STOPPED
    assert printed == ""
    assert told == "\nStopped. Nothing of yours was changed.\n"


def test_a_reader_who_goes_away_is_no_fault() -> None:
    with program("", "explain") as started:
        assert started.stdout is not None and started.stderr is not None
        started.stdout.close()
        told = started.stderr.read()
        started.wait(30)
    assert (started.returncode, told) == (exits.FINE, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_told() -> None:
    with Path("/dev/full").open("w") as full, program("", "explain", stdout=full) as started:
        _, told = started.communicate(timeout=30)
    assert started.returncode == exits.OUR_FAULT
    assert told.startswith("The machine would not do it: ")


@pytest.mark.parametrize(
    "words",
    [
        ("make", "{}", "--out", "{}/out/pack"),
        ("explore", "Fuel", "-C", "{}", "--out", "{}/out/x.html"),
        ("quiz", "-C", "{}", "--out", "{}/out"),
        ("stills", "{}", "--svg", "--out", "{}/out"),
        ("handout", "{}", "--out", "{}/out"),
        ("panels", "running", "-C", "{}", "--out", "{}/out"),
    ],
)
def test_what_the_disk_refuses_is_said_before_any_work(
    sample: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    def refused(**_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    def worked(*_: object, **__: object) -> None:
        raise AssertionError("nothing need be worked out")

    monkeypatch.setattr("tempfile.TemporaryFile", refused)
    monkeypatch.setattr("cutaway.inquiry.workshop.Workshop.runs", worked)
    result = cutaway(*(one.format(sample) for one in words))
    assert result.exit_code == exits.OUR_FAULT and not (sample / "out").exists()
    assert "permission" in result.stderr.lower()
