"""charts.yaml in the language: what a name shows, what is told of one that is not there."""

from pathlib import Path

import pytest

from cutaway.api.loading import Loaded, load
from cutaway.language.charts import StateRef, parse_shown
from cutaway.language.syntax import ControlRef, Move, ReadingRef
from cutaway.problems.span import TextFile, whole

DEMO = Path(__file__).parents[2] / "demo"


@pytest.fixture(scope="module")
def whinchat() -> Loaded:
    loaded, _ = load(DEMO / "whinchat")
    assert loaded is not None
    return loaded


def shown(words: str, loaded: Loaded) -> tuple[list[object], list[tuple[str, str]]]:
    found, problems = parse_shown(whole(TextFile("--show", words)), loaded.words)
    return [one.of for one in found or ()], [(p.code, p.hint) for p in problems]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("port tank", [ReadingRef("port tank", "contents", "")]),  # type: ignore[arg-type]
        ("Port Tank contents", [ReadingRef("port tank", "contents", "")]),  # type: ignore[arg-type]
        ("carburettor.inlet", [ReadingRef("carburettor", "", "inlet")]),  # type: ignore[arg-type]
        ("tank selector", [ControlRef("tank selector", "")]),  # type: ignore[arg-type]
        # A lamp's light as a share says less than that it is lit.
        ("fuel lamp", [StateRef("fuel lamp", "lit", "out")]),  # type: ignore[arg-type]
    ],
)
def test_what_a_name_shows(words: str, wanted: list[object], whinchat: Loaded) -> None:
    assert shown(words, whinchat) == (wanted, [])


def test_what_is_not_there_or_shows_nothing(whinchat: Loaded) -> None:
    assert shown("fule lamp", whinchat) == ([], [("L218", "Did you mean fuel lamp?")])
    found, told = shown("filter", whinchat)
    assert found == [] and told == [("L219", "Name a port of it, for instance filter.inlet")]


def charts(folder: Path, text: str) -> tuple[Loaded, list[tuple[str, str, str]]]:
    (folder / "charts.yaml").write_text(f"charts:\n  petrol: {text}\n", encoding="utf-8")
    loaded, problems = load(folder)
    assert loaded is not None
    marked = [p.span.file.text[p.span.start : p.span.end] if p.span else "" for p in problems]
    return loaded, [(p.code, words, p.hint) for p, words in zip(problems, marked, strict=True)]


def test_a_chart_is_resolved(sample: Path) -> None:
    text = "{in: running, do: fuel cock to off, for: 2 min, show: [fuel tank, fuel cock], on: Mk 2, says: It stops.}"
    loaded, problems = charts(sample, text)
    assert problems == []
    (chart,) = loaded.charts
    (move,) = chart.scope.actions
    assert isinstance(move, Move) and move.position == "off" and chart.scope.situation == "running"
    assert [type(one.of) for one in chart.shown] == [ReadingRef, ControlRef]
    assert chart.chart.length.text == "2 min" and chart.chart.on is not None and chart.chart.on.words == "Mk 2"


@pytest.mark.parametrize(
    ("text", "code", "marked", "hint"),
    [
        ("{in: runing, show: [fuel tank]}", "L203", "runing", "Did you mean running?"),
        ("{in: parked, show: [fuel tnak]}", "L218", "fuel tnak", "Did you mean fuel tank?"),
        ("{in: parked, show: [fuel tank], do: fuel cock to shut}", "L205", "shut", "It can be off or on."),
        ("{in: parked, show: [fuel tank], for: -1 s}", "H921", "-1 s", None),
        ("{in: parked, show: [fuel tank], with: fuel cock choked}", None, None, None),
        ("{in: parked, showing: [fuel tank]}", "H110", "showing", None),
        ("{in: parked}", "H111", None, None),
    ],
)
def test_what_is_wrong_has_its_place(
    sample: Path, text: str, code: str | None, marked: str | None, hint: str | None
) -> None:
    _, problems = charts(sample, text)
    assert problems and (code is None or code in [p[0] for p in problems]), problems
    if marked is not None:
        assert marked in [p[1] for p in problems]
    if hint is not None:
        assert hint in [p[2] for p in problems]
