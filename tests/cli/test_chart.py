"""`cutaway chart`: figures from the model, ratings with their paragraphs, the same bytes twice, named mistakes."""

import json
import re
from pathlib import Path

import pytest

from tests.cli.running import cutaway
from tests.parts.powerplants import powerplant

BOOK = """---
title: Wren handbook
---

## 7 Ratings in M gear

In M gear: +9 lb/sq in at 2850 rpm up to 1500 m, 1180 hp.

## 8 Ratings in S gear

In S gear: +9 lb/sq in at 2850 rpm up to 4300 m, 1070 hp.
"""
BLOWER = (
    "{kind: two-speed supercharger, M boost: {is: 9 lb/sq in, cite: hb §7}, M speed: {is: 2850 rpm, cite: hb §7}, "
    "M full-throttle height: {is: 1500 m, cite: hb §7}, M power: {is: 1180 hp, cite: hb §7}, "
    "S boost: {is: 9 lb/sq in, cite: hb §8}, S speed: {is: 2850 rpm, cite: hb §8}, "
    "S full-throttle height: {is: 4300 m, cite: hb §8}, S power: {is: 1070 hp, cite: hb §8}}"
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented engine, its ratings cited."""
    path = tmp_path_factory.mktemp("wren")
    (path / "sources").mkdir()
    (path / "sources/hb.md").write_text(BOOK, encoding="utf-8")
    (path / "type.yaml").write_text("name: Wren\nmarks: [Mk 1]\nnotice: For talks only.\n", encoding="utf-8")
    powerplant(path, without=("mixture",), blower=BLOWER)
    (path / "type.yaml").write_text("name: Wren\nmarks: [Mk 1]\nnotice: For talks only.\n", encoding="utf-8")
    return path


def record(folder: Path, *more: str) -> dict:  # type: ignore[type-arg]
    result = cutaway("chart", folder / "engine", "--json", *more)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)  # type: ignore[no-any-return]


def value(curve: dict, what: str, height: float) -> float:  # type: ignore[type-arg]
    """A curve at one of its heights."""
    index = min(range(len(curve["heights"])), key=lambda i: abs(curve["heights"][i] - height))
    assert curve["heights"][index] == pytest.approx(height, abs=0.5)
    return float(curve[what][index])


def test_curves_are_those_of_the_model(folder: Path) -> None:
    chart = record(folder)
    assert chart["units"] == ["m", "lb/sq in", "hp"]
    assert [(c["gear"], c["lever"]) for c in chart["curves"]] == [
        (gear, lever) for gear in "MS" for lever in ("open", "gate", "60 %")
    ]
    curves = {(c["gear"], c["lever"]): c for c in chart["curves"]}
    assert value(curves["M", "open"], "powers", 1500.0) == pytest.approx(1180.0, abs=0.01)
    assert value(curves["S", "open"], "powers", 4300.0) == pytest.approx(1070.0, abs=0.01)
    assert value(curves["M", "open"], "powers", 0.0) == pytest.approx(1143.0, abs=0.5)
    assert value(curves["S", "gate"], "boosts", 0.0) == pytest.approx(7.0, abs=1e-6)
    assert value(curves["S", "60 %"], "boosts", 4300.0) < 7.0


def test_the_table_worked_beforehand_at_another_speed(folder: Path) -> None:
    (curve,) = [c for c in record(folder, "--speed", "2650 rpm", "--lever", "45 %")["curves"] if c["gear"] == "S"]
    # Half-way to the gate: opening 0.5. At 4300 m, between the table's 3.23 at 4000 m and 1.20 at 5000 m.
    assert 2.4 < value(curve, "boosts", 4300.0) < 2.8
    assert curve["printed"] is None and curve["speed"] == "2,650 rpm"


def test_ratings_are_apart_with_their_paragraphs(folder: Path) -> None:
    chart = record(folder)
    assert [(r["gear"], r["height"], r["cites"]) for r in chart["ratings"]] == [
        ("M", pytest.approx(1500.0), "hb §7"),
        ("S", pytest.approx(4300.0), "hb §8"),
    ]
    printed = {(c["gear"], c["lever"]): c["printed"] for c in chart["curves"]}
    # Only through the gate does the control let the rated boost through.
    assert printed["M", "open"] == pytest.approx(1500.0) and printed["M", "gate"] is None
    assert all(curve["beyond"] == pytest.approx(4500.0) for curve in chart["curves"] if curve["gear"] == "M")
    assert chart["beyond"] == pytest.approx(7300.0)
    caption = " ".join(chart["caption"])
    assert "hb §7 and hb §8 (Wren handbook)" in caption and "For talks only." in caption
    assert "throttle loss 4 % (2 to 8 %)" in caption


def test_a_rating_that_nobody_printed_says_so(tmp_path: Path) -> None:
    powerplant(tmp_path, without=("mixture",))
    assert [r["cites"] for r in record(tmp_path)["ratings"]] == ["no paragraph given"] * 2


def test_the_same_bytes_twice_and_no_date(folder: Path, tmp_path: Path) -> None:
    for ending in ("svg", "png"):
        files = [tmp_path / f"{name}.{ending}" for name in ("one", "two")]
        for file in files:
            assert cutaway("chart", folder / "blower", "--out", file, "--lever", "open").exit_code == 0
        assert files[0].read_bytes() == files[1].read_bytes()
    svg = (tmp_path / "one.svg").read_text(encoding="utf-8")
    assert "<dc:date>" not in svg and re.search(r"\b20[0-9]{2}-", svg) is None
    words = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", svg))
    assert "printed in the handbook" in words and "inferred, lever open" in words
    assert "inferred, beyond the ratings" in words and "hb §7" in words and "beyond" in words


def test_light_and_dark_differ(folder: Path, tmp_path: Path) -> None:
    for name, more in (("light", ()), ("dark", ("--dark",))):
        assert (
            cutaway("chart", folder / "engine", "--lever", "open", "--out", tmp_path / f"{name}.svg", *more).exit_code
            == 0
        )
    assert (tmp_path / "light.svg").read_bytes() != (tmp_path / "dark.svg").read_bytes()


def test_the_table_marks_what_lies_beyond(folder: Path) -> None:
    result = cutaway("chart", folder / "engine", "--lever", "open")
    assert result.exit_code == 0
    rows = [line for line in result.stdout.splitlines() if " · " in line]
    assert "*" not in rows[0] and "*" in rows[-1]
    assert "Printed, M gear: +9 and 1,180 at 1,500 (hb §7)." in result.stdout


@pytest.mark.parametrize(
    ("part", "more", "code", "words"),
    [
        ("tank", (), "C121", "'tank' is no engine that can be charted."),
        ("engin", (), "C121", "Did you mean engine?"),
        ("engine", ("--lever", "halfway"), "C122", "'halfway' is no position of the throttle."),
        ("engine", ("--lever", "140 %"), "C122", "'140 %'"),
        ("engine", ("--speed", "fast"), "Q1", "fast"),
    ],
)
def test_what_cannot_be_charted(folder: Path, part: str, more: tuple[str, ...], code: str, words: str) -> None:
    result = cutaway("chart", folder / part, *more)
    assert result.exit_code == 1
    assert code in result.stderr and words in result.stderr


def test_a_file_that_is_neither(folder: Path) -> None:
    assert cutaway("chart", folder / "engine", "--out", "chart.pdf").exit_code == 2


def test_a_place_that_refuses(folder: Path) -> None:
    result = cutaway("chart", folder / "engine", "--lever", "open", "--out", folder / "nowhere" / "chart.svg")
    assert result.exit_code == 1 and "cannot be written" in result.stderr
