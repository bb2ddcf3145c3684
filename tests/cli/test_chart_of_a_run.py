"""`cutaway chart --run` and `--name`: drawn, in words, for a program; what is wrong is told."""

import json
from pathlib import Path

import pytest

from tests.cli.running import cutaway

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"
RUN = ("chart", WHINCHAT, "--run", "cruising", "--do", "tank selector to off", "--for", "10 s")


def test_in_words_and_for_a_program() -> None:
    result = cutaway(*RUN, "--show", "fuel lamp", "--json")
    assert result.exit_code == 0
    record = json.loads(result.stdout)
    assert [(one["name"], one["unit"]) for one in record["traces"]] == [("fuel lamp", "")]
    assert record["marks"][0] == {"time": 0.0, "words": "0 s: tank selector to off"}
    words = cutaway(*RUN, "--show", "fuel lamp").stdout
    assert words.splitlines()[0] == "Whinchat. Mk 1, in cruising, after tank selector to off."
    assert "fuel lamp: out at first, lit from 1.7 s." in words


def test_a_chart_of_the_file_is_drawn(tmp_path: Path) -> None:
    out = tmp_path / "one.svg"
    result = cutaway("chart", WHINCHAT, "--name", "Selector off", "--on", "Mk 2", "--out", out)
    assert (result.exit_code, result.stdout.strip()) == (0, str(out))
    assert "Mk 2, in cruising, after tank selector to off" in out.read_text(encoding="utf-8")
    assert cutaway(*RUN, "--show", "fuel lamp", "--out", tmp_path / "no" / "one.svg").exit_code == 1


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        ((*RUN, "--show", "fule lamp"), 2, "Did you mean fuel lamp?"),
        ((*RUN, "--show", "carburettor.outlt"), 2, "Did you mean"),
        (RUN, 2, "--show"),
        (("chart", WHINCHAT, "--name", "selector of"), 2, "Did you mean selector off?"),
        (("chart", WHINCHAT, "--run", "cruisin", "--show", "fuel lamp"), 2, "cruising"),
        (("chart", WHINCHAT, "--run", "cruising", "--show", "fuel lamp", "--for", "0 s"), 2, "C106"),
        (("chart", WHINCHAT, "--run", "cruising", "--show", "hand pump", "--on", "Mk 1"), 1, "Mk 1 has no hand pump"),
        (("chart", WHINCHAT, "--run", "parked", "--show", "port tank"), 0, "Nothing changes"),
    ],
)
def test_what_is_wrong_is_told(arguments: tuple[str | Path, ...], code: int, words: str) -> None:
    """C123 among others."""
    result = cutaway(*arguments)
    assert words in result.stderr and result.exit_code == code, result.stderr
