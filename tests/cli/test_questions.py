"""why, failures and suspects as commands: what they print, how they end, Ctrl-C with what is known."""

import json
import signal
import time
from pathlib import Path

import pytest

from cutaway.cli import exits
from tests.cli.running import cutaway, program

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        (("why", "fuel lamp is out", "--in", "cruising", "--size", "1"), "Whether it is so, and why, on Mk 1"),
        (
            ("failures", "flying instruments", "--in", "cruising", "--size", "1"),
            "What must fail, on Mk 1 (the",
        ),
        (("suspects", "--seen", "fuel lamp is lit", "--in", "cruising", "--size", "1"), "What could be behind it, on"),
    ],
)
def test_a_question_is_answered_as_text_and_for_a_program(words: tuple[str, ...], begins: str) -> None:
    said = cutaway(*words, "-C", WHINCHAT)
    assert said.exit_code == exits.FINE and said.stdout.startswith(begins)
    record = json.loads(cutaway(*words, "-C", WHINCHAT, "--json").stdout)
    assert record["question"] == words[0] and record["subject"] == "Mk 1"
    assert record["bound"]["size done"] == 1


@pytest.mark.parametrize("verb", ["why", "failures"])
def test_a_name_that_is_not_there_is_wrong_use(verb: str) -> None:
    said = cutaway(verb, "fuel lmp is out", "-C", WHINCHAT)
    assert said.exit_code == exits.WRONG_USE and "Did you mean fuel lamp?" in said.stderr and not said.stdout


def test_a_limit_that_is_no_time_is_wrong_use() -> None:
    said = cutaway("failures", "fuel lamp is out", "-C", WHINCHAT, "--limit", "3 gal")
    assert said.exit_code == exits.WRONG_USE and not said.stdout


def test_a_limit_that_is_over_tells_what_is_known() -> None:
    said = cutaway("failures", "flying instruments", "--in", "cruising", "-C", WHINCHAT, "--limit", "0.001 s")
    assert said.exit_code == exits.FINE
    assert "The search ended early (the time limit)" in said.stdout and "To narrow it" in said.stdout


def test_stopped_it_tells_what_is_known() -> None:
    slow = (
        "import cutaway.inquiry.search.trying as trying, time\n"
        "outcomes = trying.outcomes\n"
        "def slowly(base, sets):\n"
        "    print('trying', flush=True) if len(sets) > 1 else None\n"
        "    time.sleep(1.0 if len(sets) > 1 else 0.0)\n"
        "    return outcomes(base, sets)\n"
        "trying.outcomes = slowly\n"
    )
    arguments = ("failures", "fuel lamp is out", "--in", "cruising", "-C", str(WHINCHAT), "--size", "3")
    running = program(slow, *arguments)
    assert running.stdout is not None
    assert running.stdout.readline() == "trying\n"
    time.sleep(0.2)
    running.send_signal(signal.SIGINT)
    said, _ = running.communicate(timeout=120)
    assert running.returncode == exits.STOPPED
    assert "What must fail" in said and "The search ended early (you stopped it)" in said
