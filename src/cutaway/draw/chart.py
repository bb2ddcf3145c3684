"""The chart of an engine: boost and power against height, what the handbook gives marked apart from what is inferred.

A chart is a record first (`Chart`), in the units in which it is shown; `chart_file` draws it. A printed rating is a
full mark with its paragraph and, as far as the model holds the printed boost up to it, a full line. All other curves
are inferred and broken. Beyond the ratings they are dotted, on a ground of another shade that says so. The same chart
gives the same bytes: ids are salted with a word of our own and no date is written.
"""

import math
from dataclasses import dataclass
from typing import Any

from cutaway.draw.beside import OFF, least_covering
from cutaway.draw.figure import INCH, Ending, figure_file, figure_words, in_lines, paper
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.theme import Theme

WIDE = 8.4
"""Inches: on A4 between usual margins its smallest letters are then of 7 points."""
TITLE, USUAL, LABEL, SMALL = 14.0, 9.5, 8.5, 8.0
_LEFT, _RIGHT = 0.09, 0.86
HEADROOM = 0.09
_PANEL, _BETWEEN = 2.95, 0.24

# How far above the full-throttle height of a gear its curves may go before they are marked as beyond the ratings, m.
BEYOND = 3000.0
_BEYOND_DASH = (0, (0.8, 2.2))
_DASHES = ((8.0, 2.5), (5.0, 1.8, 1.4, 1.8), (2.2, 2.0), (8.0, 1.8, 1.4, 1.8, 1.4, 1.8))
_INKS = ("current", "petrol", "air", "oil")


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

    plan = _plan(chart)

    def draw(figure: Any, theme: Theme) -> None:
        _draw(figure, chart, plan, theme)

    return figure_file((WIDE, plan.high), draw, (f"{chart.title}, {chart.standard}", told(chart)), ending, theme)


@dataclass(frozen=True, slots=True)
class _Plan:
    """The words line by line, and the inches above and below the two panels."""

    title: tuple[str, ...]
    standard: tuple[str, ...]
    caption: tuple[str, ...]
    top: float
    foot: float

    @property
    def high(self) -> float:
        """Inches of the whole."""
        return self.top + 2 * _PANEL + _BETWEEN + self.foot


def _plan(chart: Chart) -> _Plan:
    inches = WIDE * (1.0 - _LEFT) - 0.25
    title = wrapped(chart.title, TITLE, inches * INCH, bold=True)
    standard = tuple(in_lines((chart.standard,), USUAL, inches))
    caption = tuple(in_lines(chart.caption, SMALL, inches))
    top = 0.3 + 0.26 * len(title) + 0.18 * len(standard)
    return _Plan(title, standard, caption, top, 0.95 + 0.21 * _key_rows(chart) + 0.155 * len(caption))


def _key_rows(chart: Chart) -> int:
    return -(-(len(_levers(chart)) + 2 + len(_speeds(chart))) // 3)


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


def _draw(figure: Any, chart: Chart, plan: _Plan, theme: Theme) -> None:
    upper, lower = figure.subplots(2, 1, sharex=True)
    figure.subplots_adjust(left=_LEFT, right=_RIGHT, top=1.0 - plan.top / plan.high, bottom=plan.foot / plan.high,
                           hspace=_BETWEEN / _PANEL)  # fmt: skip
    height, boost, power = chart.units
    for axes, name in ((upper, f"boost, {boost}"), (lower, f"power, {power}")):
        _paper(axes, name, chart, theme)
    lower.set_xlabel(f"height in the standard atmosphere, {height}", color=theme.ink("ink"))
    # The longest printed line first, so that those it runs along lie on it and are seen.
    for curve in sorted(chart.curves, key=lambda one: -(one.printed or 0.0)):
        _curve(upper, curve, curve.boosts, chart, theme)
        _curve(lower, curve, curve.powers, chart, theme)
    _ratings(
        upper, chart, [(r.boost, f"{r.boost:+.4g}") for r in chart.ratings], [c.boosts for c in chart.curves], theme
    )
    _ratings(
        lower, chart, [(r.power, f"{r.power:,.0f}") for r in chart.ratings], [c.powers for c in chart.curves], theme
    )
    _ends(upper, chart, [c.boosts[-1] for c in chart.curves], theme)
    _ends(lower, chart, [c.powers[-1] for c in chart.curves], theme)
    caption = 0.12 + 0.155 * len(plan.caption)
    _legend(figure, chart, theme, caption / plan.high)
    _words(figure, plan, caption, theme)


def _words(figure: Any, plan: _Plan, caption: float, theme: Theme) -> None:
    """Title and standards above, the caption below."""
    at = plan.high - 0.36
    for line in plan.title:
        figure.text(_LEFT, at / plan.high, line, color=theme.ink("ink"), fontsize=TITLE, weight="bold")
        at -= 0.26
    for line in plan.standard:
        figure.text(_LEFT, (at + 0.03) / plan.high, line, color=theme.ink("quiet"), fontsize=USUAL)
        at -= 0.18
    for i, line in enumerate(plan.caption):
        figure.text(_LEFT, (caption - 0.155 * (i + 1)) / plan.high, line, color=theme.ink("quiet"), fontsize=SMALL)


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


def _ink(gear: str, chart: Chart, theme: Theme) -> str:
    """Each gear its own colour, in the order in which they come."""
    gears = list(dict.fromkeys(curve.gear for curve in chart.curves))
    return theme.ink(_INKS[gears.index(gear) % len(_INKS)] if gear in gears else "ink")


def _speeds(chart: Chart) -> dict[str, str]:
    """What each gear is called in the key, and the gear."""
    return {f"{c.gear} gear, {c.speed}" if c.gear else c.speed: c.gear for c in chart.curves}


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
    colour, dash = _ink(curve.gear, chart, theme), _DASHES[_levers(chart).index(curve.lever) % len(_DASHES)]
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


def _ratings(
    axes: Any, chart: Chart, values: list[tuple[float, str]], curves: list[tuple[float, ...]], theme: Theme
) -> None:
    """The printed ratings: each a mark with its figure and paragraph on the side where these cover least."""
    (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
    # Room for the figure of the highest rating above its mark.
    high += HEADROOM * (high - low)
    axes.set_ylim(low, high)
    across, down = WIDE * (_RIGHT - _LEFT) * INCH / (right - left), _PANEL * INCH / (high - low)
    lines = [[((h - left) * across, (v - low) * down) for h, v in zip(curve.heights, values, strict=True)]
             for curve, values in zip(chart.curves, curves, strict=True)]  # fmt: skip
    marks = [
        (((rating.height - left) * across, (value - low) * down),
         (max(text_width(figure, LABEL), text_width(rating.cites, LABEL)) + 2.0, 2.6 * LABEL))
        for rating, (value, figure) in zip(chart.ratings, values, strict=True)
    ]  # fmt: skip
    sides = least_covering(marks, lines, (0.0, 0.0, WIDE * (_RIGHT - _LEFT) * INCH, _PANEL * INCH))
    for rating, (value, figure), side in zip(chart.ratings, values, sides, strict=True):
        axes.plot([rating.height], [value], marker="o", markersize=8, color=_ink(rating.gear, chart, theme),
                  markeredgecolor=theme.ink("face"), markeredgewidth=1.2, linestyle="none", zorder=5)  # fmt: skip
        ha, va = ("left" if side[0] > 0 else "right"), ("bottom" if side[1] > 0 else "top")
        ground = {"facecolor": theme.ink("face"), "edgecolor": "none", "pad": 1.0, "alpha": 0.85}
        axes.annotate(f"{figure}\n{rating.cites}", (rating.height, value), (OFF * side[0], OFF * side[1]), ha=ha, va=va,
                      textcoords="offset points", color=theme.ink("ink"), fontsize=LABEL, zorder=6,
                      bbox=ground)  # fmt: skip


def _ends(axes: Any, chart: Chart, values: list[float], theme: Theme) -> None:
    """The name of each curve at its right end, one for those that end alike, moved apart where two would touch."""
    named: dict[tuple[str, float], list[str]] = {}
    for curve, value in zip(chart.curves, values, strict=True):
        named.setdefault((curve.gear, round(value, 3)), []).append(curve.lever)
    low, high = axes.get_ylim()
    room, last = 0.056 * (high - low), low - (high - low)
    end = chart.curves[0].heights[-1]
    for (gear, value), levers in sorted(named.items(), key=lambda one: one[0][1]):
        last = max(value, last + room)
        words = f"{gear} {', '.join(levers)}".strip()
        axes.annotate(words, (end, last), (5, -3), textcoords="offset points", fontsize=LABEL,
                      color=_ink(gear, chart, theme), annotation_clip=False)  # fmt: skip


def _legend(figure: Any, chart: Chart, theme: Theme, foot: float) -> None:
    from matplotlib.lines import Line2D

    ink = theme.ink("ink")
    handles = [Line2D([], [], color=ink, marker="o", markersize=7, linewidth=2.4)]
    words = ["printed in the handbook"]
    for lever, dash in zip(_levers(chart), _DASHES * len(_levers(chart)), strict=False):
        handles.append(Line2D([], [], color=ink, linewidth=1.5, linestyle=(0, dash)))
        words.append(f"inferred, lever {lever}")
    handles.append(Line2D([], [], color=ink, linewidth=1.5, linestyle=_BEYOND_DASH, alpha=0.7))
    words.append("inferred, beyond the ratings")
    for name, gear in _speeds(chart).items():
        handles.append(Line2D([], [], color=_ink(gear, chart, theme), linewidth=5))
        words.append(name)
    figure.legend(handles, words, loc="lower left", bbox_to_anchor=(0.08, foot), ncols=3, frameon=False,
                  labelcolor=ink, fontsize=LABEL, handlelength=4.2)  # fmt: skip
