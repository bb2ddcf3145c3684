"""Charts of a pack: their values are the run's own and those worked by hand, the same bytes twice, flat lines told."""

import json
import math
import re
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from PIL import Image

from cutaway.api import running
from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.tracing import traces, traces_record
from cutaway.draw.theme import DARK, GROUNDS, LIGHT, contrast
from cutaway.draw.traces import _DASHES, _INKS, Mark, Trace, Traces, traces_file
from cutaway.inquiry.tracing import Course
from cutaway.inquiry.workshop import Workshop
from cutaway.problems.diagnostic import Problems
from cutaway.publish.charts import _asked, _page
from cutaway.publish.drawings import Desk
from cutaway.publish.traces import _picked

DEMO = Path(__file__).parents[2] / "demo"

# A tank that runs out through a cock with a head that hardly falls: 200 gallons in a tank of 20,000.
FILES = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\nnotice: For talks only.\nhouse units: {volume: gal}\n",
    "sources/hb.md": "---\ntitle: Wren handbook\n---\n\n## 21 Tank\n\nOne tank.\n",
    "systems/fuel.yaml": (
        "system: Fuel\nsource: hb\nparts:\n  tank: {kind: tank, capacity: 100 gal, cite: §21}\n"
        "  cock: {kind: cock}\n  carburettor: {kind: carburettor, on: Mk 1, cite: §21}\n"
        "lines:\n  - tank > cock\n  - {run: cock > carburettor, on: Mk 1}\n"
    ),
    "situations.yaml": "situations:\n  parked: {set: {cock: 'off'}, start: {tank: 60 gal}}\n",
    "charts.yaml": (
        "charts:\n"
        "  still: {in: parked, show: [tank], for: 20 s}\n"
        "  on both: {in: parked, on: [Mk 1, Mk 2], show: [carburettor.inlet, cock], do: cock to on, for: 20 s}\n"
    ),
}


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> tuple[Loaded, Workshop]:
    folder = tmp_path_factory.mktemp("wren")
    for name, text in FILES.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    loaded, problems = load(folder)
    assert loaded is not None and [p for p in problems if p.severity == "error"] == []
    return loaded, workshop_for(loaded)[0]


@pytest.fixture(scope="module")
def whinchat() -> tuple[Loaded, Workshop]:
    loaded, _ = load(DEMO / "whinchat")
    assert loaded is not None
    return loaded, workshop_for(loaded)[0]


def charted(of: tuple[Loaded, Workshop], *show: str, do: str = "", length: str = "30 s") -> tuple[Traces, Problems]:
    made, problems = traces(of[0], running.Asked("cruising", "Mk 1", (), do, length, show), of[1])
    assert made is not None, problems
    return made, problems


@pytest.fixture(scope="module")
def shut(whinchat: tuple[Loaded, Workshop]) -> Traces:
    """What a turned-off selector does."""
    show = ("carburettor.inlet", "engine", "fuel lamp", "tank selector")
    return charted(whinchat, *show, do="tank selector to off")[0]


def test_the_values_are_those_of_the_whole_run(shut: Traces, whinchat: tuple[Loaded, Workshop]) -> None:
    ran, _ = running.run(
        whinchat[0], running.Asked("cruising", "Mk 1", (), "tank selector to off", "30 s", ()), whinchat[1]
    )
    assert ran is not None
    by_name = {trace.name: trace for trace in shut.traces}
    for name, signal, unit in (
        ("carburettor.inlet", "carburettor.inlet", 6894.757293168),
        ("engine speed", "engine: rate of turn", 2 * math.pi / 60),
    ):
        moments = np.linspace(0.0, 30.0, 61)
        whole = np.interp(moments, ran.run.times, ran.run.column(signal)) / unit
        shown = np.interp(moments, shut.times, by_name[name].values)
        assert np.abs(whole - shown).max() < 0.01 * np.ptp(whole)
    assert (by_name["carburettor.inlet"].unit, by_name["engine speed"].unit) == ("lb/sq in", "rpm")


def test_a_tank_empties_at_the_rate_of_the_engine(whinchat: tuple[Loaded, Workshop]) -> None:
    """Ten minutes of cruise take from the tank what the carburettor drew: the integral of its flow."""
    made, problems = charted(whinchat, "port tank", "carburettor flow", length="10 min")
    tank, flow = made.traces
    assert (tank.unit, flow.unit) == ("gal", "gal/h") and np.ptp(flow.values) < 0.02 * max(flow.values)
    hours = np.array(made.times) / 3600.0
    wanted = tank.values[0] - np.array(flow.values).mean() * hours
    assert np.abs(np.array(tank.values) - wanted).max() < 0.01 * (tank.values[0] - tank.values[-1])
    assert tank.values[0] - tank.values[-1] > 0.5
    assert {p.code for p in problems} <= {"K612"}


def test_what_is_done_and_what_follows_is_marked(shut: Traces) -> None:
    words = [mark.words for mark in shut.marks]
    assert words[0] == "0 s: tank selector to off" and "1.7 s: fuel lamp: lit" in words
    assert [mark.time for mark in shut.marks] == sorted(mark.time for mark in shut.marks)
    lamp = next(trace for trace in shut.traces if trace.name == "fuel lamp")
    lit = next(time for time, value in zip(shut.times, lamp.values, strict=True) if value == 1.0)
    assert next(mark.time for mark in shut.marks if "lamp" in mark.words) == pytest.approx(lit)


def test_sources_assumptions_and_the_words_are_from_the_data(shut: Traces) -> None:
    caption = " ".join(shut.caption)
    assert (
        "hb §22" in caption and "The Whinchat Trainer" in caption and "Assumed, since no book gives them: " in caption
    )
    assert "engine starving time 6 s (3 to 10 s)" in caption and "interpretation" in caption
    told = "\n".join(shut.description)
    assert "fuel lamp: out at first, lit from 1.7 s." in told
    first = next(trace for trace in shut.traces if trace.name == "carburettor.inlet").values[0]
    assert f"carburettor.inlet: {first:.3g} lb/sq in at first" in told


def test_the_same_bytes_twice_no_date_and_words_inside(shut: Traces) -> None:
    for ending in ("svg", "png"):
        assert traces_file(shut, ending) == traces_file(shut, ending)  # type: ignore[arg-type]
    svg = traces_file(shut, "svg").decode()
    assert "<dc:date>" not in svg and 'role="img"' in svg
    assert "fuel lamp: out at first, lit from 1.7 s." in svg and "<title id=" in svg
    assert svg != traces_file(shut, "svg", "dark").decode()
    sizes = [float(size) for size in re.findall(r"font-size: ([\d.]+)px", svg)]
    # Points of a picture 8.4 inches wide, printed 190 mm wide.
    assert sizes and min(sizes) * 190 / 25.4 / 8.4 >= 7.0


def test_lines_can_be_told_apart_in_grey_and_seen() -> None:
    assert len({str(dash) for dash in _DASHES}) == len(_INKS)
    for theme in (LIGHT, DARK):
        for ink in _INKS:
            assert all(contrast(theme.ink(ink), theme.ink(ground)) >= 4.5 for ground in GROUNDS)


def test_many_lines_marks_and_long_words_fit(tmp_path: Path) -> None:
    times = tuple(float(t) for t in range(101))
    lines = tuple(
        Trace(f"a rather long name of a gauge number {i}", "lb/sq in", tuple(50.0 + i * 0.01 + 0.1 * t for t in times))
        for i in range(6)
    )
    dead = Trace("gauge", "V", (math.nan,) * 101)
    marks = tuple(
        Mark(float(t), f"{t} s: something of many words happens to a part with a long name") for t in range(12)
    )
    chart = Traces("T" * 20, "what is run " * 20, times, (*lines, dead), marks, ("Caption. " * 40,), ("words",))
    for theme in ("light", "dark"):
        (tmp_path / "one.png").write_bytes(traces_file(chart, "png", theme))
        picture = np.asarray(Image.open(tmp_path / "one.png").convert("L"), float)
        edge = picture[4, 4]
        # Nothing runs into the edge of the page.
        assert all(
            np.abs(side - edge).max() < 3 for side in (picture[:, :5], picture[:, -5:], picture[:5], picture[-5:])
        )


def test_a_flat_line_is_told_and_a_part_that_is_not_there_is_too(wren: tuple[Loaded, Workshop]) -> None:
    """K611 and K612."""
    loaded, workshop = wren
    drawn, problems = _asked(Desk(workshop, loaded.told, loaded.kinds, None))
    assert [one.title for one in drawn] == ["still, Mk 1", "on both, Mk 1"]
    still = next(p for p in problems if p.code == "K612" and "still" in p.message)
    assert still.message == "Nothing changes in the chart still on Mk 1: a flat line is drawn."
    assert still.span is not None and still.span.file.text[still.span.start : still.span.end] == "still"
    (missing,) = [p for p in problems if p.code == "K611"]
    assert missing.message == "Mk 2 has no carburettor, so that there is no chart on both of it."
    assert isinstance(drawn[0].of, Traces) and drawn[0].of.traces[0].flat
    assert "tank contents: 60 gal throughout." in drawn[0].words
    page = _page(loaded.folder, drawn)
    assert 'srcset="charts/still-mk-1-dark.svg"' in page and "60 gal throughout" in page


def test_of_very_many_moments_those_are_drawn_that_can_be_told_apart() -> None:
    times = np.linspace(0.0, 100.0, 20_001)
    step = Course("lamp", "lamp", "state", "", "", (times > 33.333).astype(float), ((0.0, "out"), (1.0, "lit")))
    slow = Course("tank", "tank", "reading", "volume", "", np.sin(times / 20.0))
    dead = Course("gauge", "gauge", "reading", "voltage", "", np.where(times < 50.001, np.nan, 24.0))
    picked = _picked(SimpleNamespace(times=times, courses=(step, slow, dead)))  # type: ignore[arg-type]
    assert len(picked) < 1300 and {0, len(times) - 1} <= set(picked)
    for course in (step, dead):
        (jump,) = np.flatnonzero(np.diff(np.nan_to_num(course.values, nan=-1.0)) != 0)
        assert {int(jump), int(jump) + 1} <= set(picked)
    assert np.abs(np.interp(times, times[picked], slow.values[picked]) - slow.values).max() < 1e-4


def test_a_dead_instrument_is_nothing_in_json() -> None:
    chart = Traces("", "", (0.0, 1.0), (Trace("gauge", "V", (math.nan, 1.0)),), (), (), ())
    assert json.loads(json.dumps(traces_record(chart)))["traces"][0]["values"] == [None, 1.0]
