"""The chart of an engine: boost and power against height, what the handbook gives marked apart from what is inferred.

A chart is a record first (`Chart`), in the units in which it is shown; `chart_file` draws it. A printed rating is a
full mark with its paragraph and, as far as the model holds the printed boost up to it, a full line. All other curves
are inferred and broken. Beyond the ratings they are dotted, on a ground of another shade that says so. The same chart
gives the same bytes: ids are salted with a word of our own and no date is written.
"""

import math
from dataclasses import dataclass
from typing import Any

from cutaway.draw.figure import Ending, figure_file, figure_words, in_lines, paper
from cutaway.draw.theme import Theme

# How far above the full-throttle height of a gear its curves may go before they are marked as beyond the ratings, m.
BEYOND = 3000.0
_BEYOND_DASH = (0, (0.8, 2.2))
_DASHES = ((7.0, 2.5), (4.0, 2.0), (2.2, 2.0), (7.0, 2.0, 1.5, 2.0))


@dataclass(frozen=True, slots=True)
class Curve:
    """One gear at one position of the lever, in the chart's units. printed: up to which height it is the rating's own
    boost, None where it is not. beyond: from which height it lies beyond the ratings."""

    gear: str
    lever: str
    speed: str
    heights: tuple[float, ...]
    boosts: tuple[float, ...]
    powers: tuple[float, ...]
    printed: float | None
    beyond: float


@dataclass(frozen=True, slots=True)
class Rating:
    """What the handbook gives for one gear. cites: 'hb §101', or how it was come by where it is no book's."""

    gear: str
    height: float
    boost: float
    power: float
    cites: str


@dataclass(frozen=True, slots=True)
class Chart:
    """All that is drawn. units: of height, boost and power, as they are printed. caption: sources, one sentence each.

    beyond: from which height nothing on the chart is near a rating any more.
    """

    title: str
    standard: str
    units: tuple[str, str, str]
    curves: tuple[Curve, ...]
    ratings: tuple[Rating, ...]
    beyond: float
    caption: tuple[str, ...]


def chart_file(chart: Chart, ending: Ending, theme: str = "light") -> bytes:
    """The chart as an SVG or PNG file."""

    def draw(figure: Any, theme: Theme) -> None:
        _draw(figure, chart, theme)

    return figure_file((8.4, 9.4), draw, (f"{chart.title}, {chart.standard}", told(chart)), ending, theme)


def told(chart: Chart) -> tuple[str, ...]:
    """The chart in words, for those who cannot see it: each curve where it begins, at its highest and where it ends."""
    height, boost, power = chart.units
    out = [f"{chart.title}, {chart.standard}."]
    for curve in chart.curves:
        name = " ".join(word for word in (f"{curve.gear} gear," if curve.gear else "", f"lever {curve.lever}") if word)
        top = max(range(len(curve.powers)), key=lambda i: curve.powers[i])
        out.append(
            f"{name}: boost {curve.boosts[0]:+.3g} {boost} and {curve.powers[0]:,.0f} {power} at "
            f"{curve.heights[0]:,.0f} {height}; most power {curve.powers[top]:,.0f} {power} at "
            f"{curve.heights[top]:,.0f} {height}; {curve.powers[-1]:,.0f} {power} at {curve.heights[-1]:,.0f} {height}."
        )
    out += [
        f"Printed{f', {one.gear} gear' if one.gear else ''}: {one.boost:+.4g} {boost} and {one.power:,.0f} {power} at "
        f"{one.height:,.0f} {height} ({one.cites})."
        for one in chart.ratings
    ]
    return (*out, *(line for line in chart.caption if line))


def _draw(figure: Any, chart: Chart, theme: Theme) -> None:
    lines = in_lines(chart.caption, 8, 7.1)
    keys = -(-(len(_levers(chart)) + 4) // 3)
    foot = 0.03 + 0.0165 * len(lines)
    upper, lower = figure.subplots(2, 1, sharex=True, gridspec_kw={"height_ratios": (1, 1)})
    figure.subplots_adjust(left=0.09, right=0.86, top=0.915, bottom=foot + 0.075 + 0.022 * keys, hspace=0.08)
    figure.text(0.09, 0.968, chart.title, color=theme.ink("ink"), fontsize=14, weight="bold")
    figure.text(0.09, 0.942, chart.standard, color=theme.ink("quiet"))
    height, boost, power = chart.units
    for axes, name in ((upper, f"boost, {boost}"), (lower, f"power, {power}")):
        _paper(axes, name, chart, theme)
    lower.set_xlabel(f"height in the standard atmosphere, {height}", color=theme.ink("ink"))
    # The longest printed line first, so that those it runs along lie on it and are seen.
    for curve in sorted(chart.curves, key=lambda one: -(one.printed or 0.0)):
        _curve(upper, curve, curve.boosts, chart, theme)
        _curve(lower, curve, curve.powers, chart, theme)
    for rating in chart.ratings:
        _rating(upper, rating, rating.boost, f"{rating.boost:+.4g}", theme)
        _rating(lower, rating, rating.power, f"{rating.power:,.0f}", theme)
    _ends(upper, [(c, c.boosts[-1]) for c in chart.curves], theme)
    _ends(lower, [(c, c.powers[-1]) for c in chart.curves], theme)
    _legend(figure, chart, theme, foot)
    for i, line in enumerate(lines):
        figure.text(0.09, foot - 0.0165 * (i + 1), line, color=theme.ink("quiet"), fontsize=8)


def _paper(axes: Any, name: str, chart: Chart, theme: Theme) -> None:
    paper(axes, theme)
    axes.set_ylabel(name, color=theme.ink("ink"))
    top = max(curve.heights[-1] for curve in chart.curves)
    axes.set_xlim(chart.curves[0].heights[0], top)
    axes.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    axes.yaxis.set_major_formatter(lambda value, _: figure_words(value))
    if top > chart.beyond:
        axes.axvspan(chart.beyond, top, color=theme.ink("band"), zorder=0)
        axes.text(0.5 * (chart.beyond + top), 0.95, "beyond\nthe ratings", color=theme.ink("quiet"), fontsize=8,
                  ha="center", va="top", transform=axes.get_xaxis_transform())  # fmt: skip


def _ink(gear: str, theme: Theme) -> str:
    return theme.ink("petrol" if gear == "S" else "current")


def _levers(chart: Chart) -> list[str]:
    return list(dict.fromkeys(curve.lever for curve in chart.curves))


def _apart(curve: Curve, chart: Chart) -> list[bool]:
    """Where the curve is not that of a lever drawn before it: two broken lines on one another would look whole."""
    before = [c for c in chart.curves[: chart.curves.index(curve)] if (c.gear, c.speed) == (curve.gear, curve.speed)]
    alone = [all(not _same(curve, other, i) for other in before) for i in range(len(curve.heights))]
    # Each stretch begins and ends on the other line.
    return [any(alone[max(0, i - 1) : i + 2]) for i in range(len(alone))]


def _same(curve: Curve, other: Curve, i: int) -> bool:
    return abs(curve.boosts[i] - other.boosts[i]) < 1e-3 and abs(curve.powers[i] - other.powers[i]) < 0.1


def _curve(axes: Any, curve: Curve, values: tuple[float, ...], chart: Chart, theme: Theme) -> None:
    colour, dash = _ink(curve.gear, theme), _DASHES[_levers(chart).index(curve.lever) % len(_DASHES)]
    own = _apart(curve, chart)
    ys = [value if mine else math.nan for value, mine in zip(values, own, strict=True)]
    inside = [i for i, h in enumerate(curve.heights) if h <= curve.beyond]
    past = [i for i, h in enumerate(curve.heights) if h >= curve.beyond]
    for points, style, strength in ((inside, (0, dash), 0.85), (past, _BEYOND_DASH, 0.7)):
        axes.plot([curve.heights[i] for i in points], [ys[i] for i in points], color=colour, linestyle=style,
                  linewidth=1.5, alpha=strength)  # fmt: skip
    if curve.printed is not None and values is curve.boosts:
        given = [i for i, h in enumerate(curve.heights) if h <= curve.printed]
        axes.plot([curve.heights[i] for i in given], [values[i] for i in given], color=colour, linewidth=2.6)


def _rating(axes: Any, rating: Rating, value: float, words: str, theme: Theme) -> None:
    colour = _ink(rating.gear, theme)
    axes.plot([rating.height], [value], marker="o", markersize=8, color=colour, markeredgecolor=theme.ink("face"),
              markeredgewidth=1.2, linestyle="none", zorder=5)  # fmt: skip
    axes.annotate(f"{words}\n{rating.cites}", (rating.height, value), (7, 7), textcoords="offset points",
                  color=theme.ink("ink"), fontsize=8.5, zorder=6,
                  bbox={"facecolor": theme.ink("face"), "edgecolor": "none", "pad": 1.0, "alpha": 0.85})  # fmt: skip


def _ends(axes: Any, curves: list[tuple[Curve, float]], theme: Theme) -> None:
    """The name of each curve at its right end, one for those that end alike, moved apart where two would touch."""
    named: dict[tuple[str, float], list[str]] = {}
    for curve, value in curves:
        named.setdefault((curve.gear, round(value, 3)), []).append(curve.lever)
    low, high = axes.get_ylim()
    room, last = 0.045 * (high - low), low - (high - low)
    end = curves[0][0].heights[-1]
    for (gear, value), levers in sorted(named.items(), key=lambda one: one[0][1]):
        last = max(value, last + room)
        words = f"{gear} {', '.join(levers)}".strip()
        axes.annotate(words, (end, last), (5, -3), textcoords="offset points", fontsize=8.5, color=_ink(gear, theme),
                      annotation_clip=False)  # fmt: skip


def _legend(figure: Any, chart: Chart, theme: Theme, foot: float) -> None:
    from matplotlib.lines import Line2D

    ink = theme.ink("ink")
    speeds = dict.fromkeys(f"{c.gear} gear, {c.speed}" if c.gear else c.speed for c in chart.curves)
    colours = dict.fromkeys(_ink(c.gear, theme) for c in chart.curves)
    handles = [Line2D([], [], color=ink, marker="o", markersize=7, linewidth=2.4)]
    words = ["printed in the handbook"]
    for lever, dash in zip(_levers(chart), _DASHES * len(_levers(chart)), strict=False):
        handles.append(Line2D([], [], color=ink, linewidth=1.5, linestyle=(0, dash)))
        words.append(f"inferred, lever {lever}")
    handles.append(Line2D([], [], color=ink, linewidth=1.5, linestyle=_BEYOND_DASH, alpha=0.7))
    words.append("inferred, beyond the ratings")
    for name, colour in zip(speeds, colours, strict=False):
        handles.append(Line2D([], [], color=colour, linewidth=5))
        words.append(name)
    figure.legend(handles, words, loc="lower left", bbox_to_anchor=(0.08, foot), ncols=3, frameon=False,
                  labelcolor=ink, fontsize=8.5, handlelength=3.6)  # fmt: skip
