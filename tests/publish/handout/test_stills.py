"""Stills: which there are, what they are called, that only what differs is written; bad input is told plainly."""

import json
from pathlib import Path

import pytest
from PIL import Image

import cutaway.api.stills as room
from cutaway.api.sequence import Wanted, sequences
from cutaway.api.stills import Look, stills
from tests.cli.running import cutaway

WHINCHAT = Path(__file__).parents[3] / "demo" / "whinchat"
SHUT = "tank selector to off"


def wanted(*at: str, do: str = SHUT, **more: object) -> Wanted:
    return Wanted("cruising", "Mk 1", (), do, ("fuel",), at, **more)  # type: ignore[arg-type]


def test_each_moment_is_that_of_the_run() -> None:
    (found,), folder, problems = sequences(WHINCHAT, wanted("before", "0 s", "5 s", "end"))
    assert folder is not None and problems == ()
    assert found.times == (-1.0, 0.0, 5.0, 60.0)
    assert [one.words for one in found.moments] == ["before", "at once", "at 5 s", "at 60 s"]
    told = [" ".join(one.picture.description) for one in found.moments]
    assert ["tank selector: set to off" in words for words in told] == [False, True, True, True]
    assert ["fuel lamp: lit" in words for words in told] == [False, False, True, True]


def test_events_are_those_of_the_system_and_seen() -> None:
    (found,), _, problems = sequences(WHINCHAT, wanted("before", events=True))
    assert problems == () and len(found.times) == 3
    told = [" ".join(one.picture.description) for one in found.moments]
    assert ["carburettor: starved" in words for words in told] == [False, True, True]
    assert ["fuel lamp: lit" in words for words in told] == [False, False, True]


def test_without_moments_the_situation_as_it_settles(tmp_path: Path) -> None:
    (one,), problems = stills(WHINCHAT, wanted(do=""), Look(size="square"), tmp_path)
    assert problems == () and one.path.name == "fuel-mk-1-cruising-square.png" and one.moment == ""
    assert Image.open(one.path).size == (2160, 2160)
    assert "tank selector: set to port tank" in " ".join(one.words)


def test_only_what_differs_is_written(tmp_path: Path) -> None:
    at = wanted("before", "5 s")
    first, problems = stills(WHINCHAT, at, Look(moving=True), tmp_path)
    assert problems == () and [one.path.name for one in first] == [
        "fuel-mk-1-cruising-01.png", "fuel-mk-1-cruising-02.png", "fuel-mk-1-cruising-moving.svg",
    ]  # fmt: skip
    assert [one.fresh for one in first] == [True] * 3
    first[1].path.write_bytes(b"mine")
    again, problems = stills(WHINCHAT, at, Look(moving=True), tmp_path)
    assert [p.code for p in problems] == ["K402"] and first[1].path.read_bytes() == b"mine"
    assert [one.fresh for one in again] == [False] * 2
    third, problems = stills(WHINCHAT, at, Look(moving=True), tmp_path, replace=True)
    assert problems == () and [one.fresh for one in third] == [False, True, False]


@pytest.mark.parametrize(
    "asked, look, code",
    [
        (wanted("5 s"), Look(size="a0"), "K505"),
        (wanted(), Look(moving=True), "K502"),
        (Wanted("cruising", "Mk 1", (), "", ("fule",)), Look(), "K501"),
        (wanted(every="0.1 s"), Look(), "K503"),
        (wanted(*(f"{n} s" for n in range(1, 300))), Look(), "K503"),
        (wanted("-5 s"), Look(), "C106"),
        (Wanted("cruising", "Mk 1", (), "", ("flaps",), events=True), Look(), "K502"),
        (Wanted("crusing", "Mk 1", (), "", ("fuel",)), Look(), "L203"),
        (Wanted("cruising", "Mk 1", (), "tank selector to offf", ("fuel",)), Look(), "L205"),
    ],
)
def test_what_cannot_be_drawn_is_told(asked: Wanted, look: Look, code: str, tmp_path: Path) -> None:
    found, problems = stills(WHINCHAT, asked, look, tmp_path)
    assert found == () and [p.code for p in problems] == [code]
    assert problems[0].hint and not list(tmp_path.iterdir())


def test_k504_the_library_is_not_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(room, "find_spec", lambda name: None)
    found, problems = stills(WHINCHAT, wanted("5 s"), Look(), tmp_path)
    assert found == () and [p.code for p in problems] == ["K504"] and "-e '.[handout]'" in problems[0].hint
    drawn, problems = stills(WHINCHAT, wanted("5 s"), Look(svg=True), tmp_path)
    assert problems == () and drawn[0].path.suffix == ".svg"


def test_the_verb(tmp_path: Path) -> None:
    said = ("--system", "fuel", "--in", "cruising", "--on", "Mk 1", "--do", SHUT, "--at", "5 s", "--svg")
    result = cutaway("stills", WHINCHAT, *said, "--out", tmp_path, "--json")
    record = json.loads(result.stdout)
    assert result.exit_code == 0 and record["problems"] == []
    assert record["stills"][0]["moment"] == "at 5 s" and any(
        "fuel lamp: lit" in w for w in record["stills"][0]["words"]
    )
    assert cutaway("stills", WHINCHAT, "--system", "fule", "--out", tmp_path).exit_code == 2
