"""What is told while long work goes on, into a file or a pipe: a line now and then, with how long it may take."""

import sys

import pytest

from cutaway.cli.showing import EVERY, Counter


def test_a_line_every_ten_seconds_and_no_more(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "__stderr__", sys.stderr)
    now = [0.0]
    counter = Counter(words="Checking whinchat", hint="--no-rests leaves them out", clock=lambda: now[0])
    for now[0] in (1.0, EVERY - 0.1):
        counter(10)
    assert capsys.readouterr().err == ""
    now[0] = EVERY + 1.0
    counter(10)
    assert capsys.readouterr().err == "Checking whinchat · 30 runs\n"
    counter.tried(0, 200)
    for done, now[0] in ((1, 15.0), (5, 16.0), (20, 61.0)):
        counter.tried(done, 200)
    # 20 in 50 s: 180 more in 450 s.
    line = "assumed values tried for 20 of 200 verdicts, about 8 min to go; --no-rests leaves them out"
    assert capsys.readouterr().err == f"Checking whinchat · 30 runs · {line}\n"


def test_silent_where_standard_error_is_taken_by_somebody_else(capsys: pytest.CaptureFixture[str]) -> None:
    now = [0.0]
    counter = Counter(words="Checking whinchat", clock=lambda: now[0])
    now[0] = 60.0
    counter(10)
    assert capsys.readouterr().err == ""
