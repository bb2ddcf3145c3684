"""Charts: nothing on anything else, letters that can be read on A4, inks of contrast, the same in two renderers."""

import math
import re
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest

from cutaway.draw.chart import Chart, Curve, Rating, chart_file
from cutaway.draw.measure import text_width
from cutaway.draw.theme import THEMES, contrast
from cutaway.draw.traces import Mark, Trace, Traces, traces_file
from tests.draw.two_renderers import by_chromium, by_resvg, drawn_alike

SVG = "{http://www.w3.org/2000/svg}"
PRINTED = 7.87  # inches between usual margins of A4, upright


def curve(gear: str, lever: str, full: float, top: float, least: float) -> Curve:
    """A boost that is held up to a height and falls from there."""
    heights = tuple(float(h) for h in range(0, 28_001, 500))
    boosts = tuple(top if h <= full else top - 14.0 * (h - full) / 20_000 for h in heights)
    powers = tuple(1000.0 + 20.0 * (b - least) + h / 90 if h <= full else 1000.0 + 20 * (b - least)
                   for h, b in zip(heights, boosts, strict=True))  # fmt: skip
    return Curve(gear, lever, "2,850 rpm", heights, boosts, powers, full if lever == "gate" else None, full + 9800)


def boost(gears: tuple[str, ...], title: str, cites: str = "hb §101 and hb §103") -> Chart:
    curves, ratings = [], []
    for i, gear in enumerate(gears):
        full = 4000.0 + 5000.0 * i
        curves += [curve(gear, lever, full - less, top, 3.0) for lever, top, less in
                   (("open", 12.0, 2000.0), ("gate", 9.0, 0.0), ("60 %", 9.0, 2500.0))]  # fmt: skip
        ratings.append(Rating(gear, full, 9.0, curves[-2].powers[curves[-2].heights.index(full)], cites))
    caption = ("Ratings: as printed. " * 4, "Curves: inferred by the model. " * 6, "A notice of some length. " * 8)
    return Chart(title, "Mk 1, Mk 2", ("ft", "lb/sq in", "hp"), tuple(curves), tuple(ratings), 23_800.0, caption)


TIMES = tuple(float(t) for t in range(31))
LONG = "Turnstone with a long name: port engine and starboard engine, boost and power by height in the atmosphere"
TRACED = Traces(
    LONG,
    "Mk 1, in cruising, after tank selector to off. What the crew sees, and when.",
    TIMES,
    (
        Trace("carburettor.inlet", "lb/sq in", tuple(5.0 * math.exp(-t) for t in TIMES)),
        Trace("accumulator pressure", "lb/sq in", tuple(4.9 * math.exp(-t) for t in TIMES)),
        Trace("oil pressure gauge", "lb/sq ft", tuple(800.0 + t for t in TIMES)),
        Trace("fuel lamp", "", tuple(float(t > 2) for t in TIMES), ((0.0, "out"), (1.0, "lit"))),
        Trace("tank selector", "", tuple(0.0 for _ in TIMES), ((0.0, "off"), (1.0, "port tank")), True),
    ),
    (Mark(0.0, "0 s: tank selector to off"), Mark(0.2, "0.2 s: pump starved"), Mark(6.9, "6.9 s: engine stopped")),
    ("Inferred by the model. " * 9,),
    ("Words.",),
)
CHARTS: dict[str, Any] = {
    "one gear": lambda theme: chart_file(boost(("",), "Wren: engine"), "svg", theme),
    "two gears": lambda theme: chart_file(boost(("M", "S"), LONG), "svg", theme),
    "three gears": lambda theme: chart_file(boost(("low", "middle", "high"), LONG, "assumed"), "svg", theme),
    "traces": lambda theme: traces_file(TRACED, "svg", theme),
}


@cache
def drawn(name: str, theme: str) -> str:
    return str(CHARTS[name](theme).decode())


@pytest.fixture(scope="module", params=sorted(CHARTS))
def light(request: pytest.FixtureRequest) -> str:
    return drawn(request.param, "light")


@dataclass(frozen=True)
class Words:
    """Words as they stand on a chart. box: left, top, right, bottom."""

    text: str
    size: float
    box: tuple[float, float, float, float]


def words_of(svg: str) -> list[Words]:
    """All words of a chart with the room that they take; lines of one label each by themselves."""
    found: list[Words] = []
    for text in ElementTree.fromstring(svg).iter(f"{SVG}text"):
        style = text.get("style", "")
        size = float(re.findall(r"font-size: ([\d.]+)px", style)[0])
        words = text.text or ""
        wide = text_width(words, size, "font-weight: 700" in style)
        # Words stand at x and y, turned or not; of several lines each is moved to its place.
        moved = re.match(r"(rotate|translate)\((.*)\)", text.get("transform", ""))
        assert moved is not None
        numbers = [float(number) for number in moved[2].split()]
        x, y = numbers[-2:]
        left = x - {"middle": wide / 2, "end": wide}.get("".join(re.findall(r"text-anchor: (\w+)", style)), 0.0)
        box = (left, y - 0.75 * size, left + wide, y + 0.22 * size)
        if moved[1] == "rotate" and numbers[0] == -90.0:
            box = (x - 0.75 * size, y - wide / 2, x + 0.22 * size, y + wide / 2)
        found.append(Words(words, size, box))
    return found


def size_of(svg: str) -> tuple[float, float]:
    _, _, wide, high = (float(n) for n in ElementTree.fromstring(svg).get("viewBox", "").split())
    return wide, high


def test_no_words_lie_on_others_or_reach_out_of_the_page(light: str) -> None:
    words, (wide, high) = words_of(light), size_of(light)
    assert len(words) > 20
    for one in words:
        left, top, right, bottom = one.box
        assert left >= 0.0 and top >= 0.0 and right <= wide and bottom <= high, one
    for one, other in combinations(words, 2):
        apart = (
            one.box[2] <= other.box[0] or other.box[2] <= one.box[0]
            or one.box[3] <= other.box[1] or other.box[3] <= one.box[1]
        )  # fmt: skip
        assert apart, (one, other)


def test_the_smallest_letters_are_of_seven_points_on_a4(light: str) -> None:
    wide, high = size_of(light)
    scale = min(PRINTED * 72 / wide, 10.7 * 72 / high)
    assert min(one.size for one in words_of(light)) * scale >= 7.0


@pytest.mark.parametrize("name", ["two gears", "traces"])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_ink_of_words_has_contrast(name: str, theme: str) -> None:
    inks = set(re.findall(r"<text[^>]*fill: (#\w{6})", drawn(name, theme)))
    assert len(inks) >= 4 and drawn(name, theme).count("<text") == len(
        re.findall("<text[^>]*fill: #", drawn(name, theme))
    )
    for ink in inks:
        for ground in ("paper", "face", "band"):
            assert contrast(ink, THEMES[theme].ink(ground)) >= 4.5, (ink, ground)


@pytest.mark.parametrize(("name", "theme"), [("two gears", "dark"), ("traces", "light")])
def test_both_renderers_draw_a_chart_alike(name: str, theme: str, browser: Any) -> None:
    drawn_alike(by_resvg(drawn(name, theme)), by_chromium(drawn(name, theme), browser), 0.012, 0.45)


def test_each_gear_has_its_own_ink() -> None:
    svg = drawn("three gears", "light")
    inks = [THEMES["light"].ink(name) for name in ("current", "petrol", "air")]
    assert all(len(re.findall(f"stroke: {ink}", svg)) >= 6 for ink in inks)


def test_an_axis_that_does_not_begin_at_nought_says_so() -> None:
    labels = [one.text for one in words_of(drawn("traces", "light"))]
    assert "lb/sq ft, not from 0" in labels and "lb/sq in" in labels
    assert "carburettor inlet" in labels
