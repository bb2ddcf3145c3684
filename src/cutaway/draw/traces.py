"""Readings of one run against time: numbers as lines, states and positions as strips, what happened as numbered marks.

A record first (`Traces`), in the units in which it is shown; `traces_file` draws it. Lines differ by dash as well as by
colour and are named where they end, so that the chart can be read in grey.
"""

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from cutaway.draw.figure import INCH, Ending, figure_file, figure_words, in_lines, paper
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.theme import Theme

WIDE = 8.4
"""Inches: on A4 between usual margins its smallest letters are then of 7 points."""
SMALL, USUAL, TITLE = 8.0, 9.0, 13.0
_LEFT, _RIGHT = 0.095, 0.815
_PANEL, _STRIP = 2.1, 0.42
_MOST_LINES = 4
_TOGETHER = 0.025
"""Marks nearer than this share of the time axis have one number."""
_INKS = ("current", "petrol", "air", "oil")
_DASHES: tuple[Any, ...] = ("solid", (0, (7.0, 2.2)), (0, (2.2, 1.6)), (0, (7.0, 1.8, 1.6, 1.8)))


@dataclass(frozen=True, slots=True)
class Trace:
    """One line, in the chart's unit; not a number while an instrument is dead. words: what the values of a state or
    of a control with positions are called, () for numbers. flat: whether it does not change."""

    name: str
    unit: str
    values: tuple[float, ...]
    words: tuple[tuple[float, str], ...] = ()
    flat: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happened, s from the beginning."""

    time: float
    words: str


@dataclass(frozen=True, slots=True)
class Traces:
    """All that is drawn. times: s. caption: sources and what is assumed, one sentence each. description: the text
    alternative."""

    title: str
    heading: str
    times: tuple[float, ...]
    traces: tuple[Trace, ...]
    marks: tuple[Mark, ...]
    caption: tuple[str, ...]
    description: tuple[str, ...]


def traces_file(chart: Traces, ending: Ending, theme: str = "light") -> bytes:
    """The chart as an SVG or PNG file."""
    plan = _plan(chart)

    def draw(figure: Any, theme: Theme) -> None:
        _draw(figure, chart, plan, theme)

    return figure_file((WIDE, plan.high), draw, (f"{chart.title}: {chart.heading}", chart.description), ending, theme)


@dataclass(frozen=True, slots=True)
class _Plan:
    """What goes where. panels: traces of one unit together. heights: inches of the panels, the strips last."""

    panels: tuple[tuple[Trace, ...], ...]
    strips: tuple[Trace, ...]
    heights: tuple[float, ...]
    key: tuple[str, ...]
    caption: tuple[str, ...]
    heading: tuple[str, ...]
    title: tuple[str, ...]
    high: float

    @property
    def top(self) -> float:
        """Inches above the panels."""
        return 0.4 + 0.22 * len(self.title) + 0.17 * len(self.heading) + (0.14 if self.key else 0.0)

    @property
    def foot(self) -> float:
        """Inches below the panels."""
        return 0.62 + 0.165 * len(self.key) + 0.15 * len(self.caption)


def _plan(chart: Traces) -> _Plan:
    panels: list[tuple[Trace, ...]] = []
    numbers = [trace for trace in chart.traces if not trace.words]
    for unit in dict.fromkeys(trace.unit for trace in numbers):
        alike = tuple(trace for trace in numbers if trace.unit == unit)
        panels += [alike[i : i + _MOST_LINES] for i in range(0, len(alike), _MOST_LINES)]
    strips = tuple(trace for trace in chart.traces if trace.words)
    heights = tuple(_PANEL for _ in panels) + ((0.12 + _STRIP * len(strips),) if strips else ())
    inches = WIDE * (1.0 - _LEFT) - 0.2
    key = [line for number, _, words in _numbered(chart) for line in _key_lines(number, words, inches)]
    plan = _Plan(
        tuple(panels), strips, heights, tuple(key), tuple(in_lines(chart.caption, SMALL, inches)),
        tuple(in_lines((chart.heading,), USUAL, inches)), wrapped(chart.title, TITLE, inches * INCH, bold=True), 0.0,
    )  # fmt: skip
    high = plan.top + plan.foot + sum(heights) + 0.16 * max(0, len(heights) - 1)
    return replace(plan, high=high)


def _numbered(chart: Traces) -> list[tuple[int, float, str]]:
    """The marks with their numbers, those that would lie on one another together."""
    span = chart.times[-1] - chart.times[0]
    found: list[tuple[int, float, str]] = []
    for mark in chart.marks:
        if found and mark.time - found[-1][1] <= _TOGETHER * span:
            number, time, words = found[-1]
            found[-1] = (number, time, f"{words}; {mark.words}")
        else:
            found.append((len(found) + 1, mark.time, mark.words))
    return found


def _key_lines(number: int, words: str, inches: float) -> list[str]:
    first, *rest = in_lines((f"{number}.", words), SMALL, inches)
    return [first, *(f"     {line}" for line in rest)]


def _scale(seconds: float) -> tuple[float, str]:
    """The unit of the time axis, s, and its name."""
    if seconds <= 200.0:
        return 1.0, "s"
    return (60.0, "min") if seconds <= 3 * 3600.0 else (3600.0, "h")


def _draw(figure: Any, chart: Traces, plan: _Plan, theme: Theme) -> None:
    count = len(plan.heights)
    axes = figure.subplots(count, 1, sharex=True, squeeze=False, gridspec_kw={"height_ratios": plan.heights})[:, 0]
    between = 0.16 * count / sum(plan.heights)
    bottom, top = plan.foot / plan.high, 1.0 - plan.top / plan.high
    figure.subplots_adjust(left=_LEFT, right=_RIGHT, bottom=bottom, top=top, hspace=between)
    unit, name = _scale(chart.times[-1])
    times = [time / unit for time in chart.times]
    for one, traces in zip(axes, plan.panels, strict=False):
        _panel(one, times, traces, theme)
    if plan.strips:
        _strips(axes[-1], times, plan.strips, theme)
    for one in axes:
        one.set_xlim(times[0], times[-1])
    axes[-1].set_xlabel(f"time, {name}", color=theme.ink("ink"))
    axes[-1].xaxis.set_major_formatter(lambda value, _: figure_words(value))
    _marks(axes, [(number, time / unit) for number, time, _ in _numbered(chart)], theme)
    _words(figure, plan, theme)


def _panel(axes: Any, times: list[float], traces: tuple[Trace, ...], theme: Theme) -> None:
    paper(axes, theme)
    axes.yaxis.set_major_formatter(lambda value, _: figure_words(value))
    good = [value for trace in traces for value in trace.values if not math.isnan(value)]
    low, high = _limits(good)
    axes.set_ylim(low, high)
    # A line that seems to fall to the ground may have fallen by a tenth: the axis says so.
    axes.set_ylabel(f"{traces[0].unit or 'figure'}{', not from 0' if low > 0.0 else ''}", color=theme.ink("ink"))
    for trace, ink, dash in zip(traces, _INKS, _DASHES, strict=False):
        axes.plot(times, trace.values, color=theme.ink(ink), linestyle=dash, linewidth=1.9)
    _ends(axes, times[-1], traces, theme)


def _limits(values: list[float]) -> tuple[float, float]:
    """The ends of an axis: from nought where nought is not far, else close about the values."""
    low, high = (min(values), max(values)) if values else (0.0, 1.0)
    if low >= 0.0 and low <= 0.5 * high:
        low = 0.0
    room = 0.07 * (high - low) or max(1.0, 0.1 * abs(high))
    return (low - (room if low != 0.0 else 0.25 * room), high + room)


def _ends(axes: Any, end: float, traces: tuple[Trace, ...], theme: Theme) -> None:
    """The name of each line beside its end, moved apart where two would touch."""
    low, high = axes.get_ylim()
    wide = (1.0 - _RIGHT) * WIDE * INCH - 12.0
    rows = [(_last(trace), trace, ink) for trace, ink in zip(traces, _INKS, strict=False)]
    rows.sort(key=lambda row: row[0])
    line = (high - low) * 11.0 / (_PANEL * INCH)
    named = [(value, wrapped(_name(trace), USUAL, wide), ink) for value, trace, ink in rows]
    heights = [line * len(words) for _, words, _ in named]
    for (_, words, ink), at in zip(named, _apart([v for v, _, _ in named], heights, (low, high)), strict=True):
        axes.annotate("\n".join(words), (end, at), (6, 0), textcoords="offset points", fontsize=USUAL, va="center",
                      color=theme.ink(ink), annotation_clip=False, linespacing=1.15)  # fmt: skip


def _apart(wanted: list[float], heights: list[float], ends: tuple[float, float]) -> list[float]:
    """Where labels of some heights stand so that none touches the next, from the lowest; kept inside if they fit."""
    found: list[float] = []
    for value, height in zip(wanted, heights, strict=True):
        least = found[-1] + 0.55 * (heights[len(found) - 1] + height) if found else -math.inf
        found.append(max(value, least))
    over = found[-1] + 0.5 * heights[-1] - ends[1] if found else 0.0
    if over <= 0.0:
        return found
    found[-1] -= over
    for i in range(len(found) - 2, -1, -1):
        found[i] = min(found[i], found[i + 1] - 0.55 * (heights[i] + heights[i + 1]))
    return found


def _name(trace: Trace) -> str:
    # 'carburettor.inlet' is how a claim names it; on paper it is read aloud.
    name = trace.name.replace(".", " ")
    return f"{name} (unchanged)" if trace.flat else name


def _last(trace: Trace) -> float:
    return next((value for value in reversed(trace.values) if not math.isnan(value)), 0.0)


def _strips(axes: Any, times: list[float], strips: tuple[Trace, ...], theme: Theme) -> None:
    """States and positions: a row each, with what is so written along it."""
    paper(axes, theme)
    axes.grid(False)
    axes.set_yticks([])
    axes.set_ylim(-len(strips), 0.0)
    figure = WIDE * (_RIGHT - _LEFT) * INCH / (times[-1] - times[0])
    for row, trace in enumerate(strips):
        middle = -row - 0.5
        for start, end, value in _stretches(times, trace.values):
            on = value == max(level for level, _ in trace.words)
            axes.plot([start, end], [middle - 0.3] * 2, color=theme.ink("ink"), linewidth=5.0 if on else 1.4,
                      solid_capstyle="butt")  # fmt: skip
            word = _word(trace, value)
            if text_width(word, SMALL) + 6.0 < (end - start) * figure:
                ground = {"facecolor": theme.ink("face"), "edgecolor": "none", "pad": 1.0}
                axes.annotate(word, (start, middle), (5, 0), textcoords="offset points", fontsize=SMALL,
                              color=theme.ink("ink"), va="center", bbox=ground)  # fmt: skip
        wide = (1.0 - _RIGHT) * WIDE * INCH - 12.0
        axes.annotate("\n".join(wrapped(_name(trace), USUAL, wide)), (times[-1], middle), (6, 0), fontsize=USUAL,
                      textcoords="offset points", va="center", color=theme.ink("ink"), annotation_clip=False,
                      linespacing=1.15)  # fmt: skip


def _word(trace: Trace, value: float) -> str:
    return min(trace.words, key=lambda one: abs(one[0] - value))[1]


def _stretches(times: list[float], values: tuple[float, ...]) -> list[tuple[float, float, float]]:
    """From when to when a state has one value."""
    found: list[tuple[float, float, float]] = []
    start = times[0]
    for (before, after), time in zip(pairwise(values), times[1:], strict=True):
        if after != before:
            found.append((start, time, before))
            start = time
    return [one for one in (*found, (start, times[-1], values[-1])) if one[1] > one[0]]


def _marks(axes: Any, marks: list[tuple[int, float]], theme: Theme) -> None:
    for number, time in marks:
        for one in axes:
            one.axvline(time, color=theme.ink("quiet"), linewidth=0.9, linestyle=(0, (2.0, 2.0)), zorder=1)
        axes[0].annotate(str(number), (time, 1.0), (0, 5), xycoords=("data", "axes fraction"), ha="center",
                         textcoords="offset points", fontsize=SMALL, color=theme.ink("ink"), weight="bold",
                         annotation_clip=False)  # fmt: skip


def _words(figure: Any, plan: _Plan, theme: Theme) -> None:
    """Title, heading, the key of the marks and the caption."""
    high = plan.high
    at = high - 0.34
    for line in plan.title:
        figure.text(_LEFT, at / high, line, color=theme.ink("ink"), fontsize=TITLE, weight="bold")
        at -= 0.22
    for line in plan.heading:
        figure.text(_LEFT, at / high, line, color=theme.ink("quiet"), fontsize=USUAL)
        at -= 0.17
    at = plan.foot - 0.62
    for line in plan.key:
        figure.text(_LEFT, at / high, line, color=theme.ink("ink"), fontsize=SMALL)
        at -= 0.165
    for line in plan.caption:
        figure.text(_LEFT, (at - 0.04) / high, line, color=theme.ink("quiet"), fontsize=SMALL)
        at -= 0.15
