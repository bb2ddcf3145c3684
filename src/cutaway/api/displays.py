"""Answers and traces as small pieces of HTML, for whoever works in a notebook. All text is escaped."""

from collections.abc import Iterator, Sequence
from html import escape
from math import isnan

from cutaway.api.run_rows import Row
from cutaway.api.running import Ran, run_heading
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_text

WIDE, HIGH = 160, 22


def answer_html(title: str, text: str, problems: Problems) -> str:
    """An answer: its first line as a heading, lines that begin with a dash as a list, what was wrong below."""
    lines = text.splitlines()
    head = f"<p><strong>{escape(title)}</strong></p>" if title else ""
    return f'<div class="cutaway-answer">{head}{"".join(_blocks(lines))}{problems_html(problems)}</div>'


def problems_html(problems: Problems) -> str:
    """What is wrong, as the terminal shows it."""
    return f"<pre>{escape(as_text(problems))}</pre>" if problems else ""


def _blocks(lines: Sequence[str]) -> Iterator[str]:
    items: list[str] = []
    for line in (*lines, ""):
        if line.lstrip().startswith("- "):
            items.append(f"<li>{escape(line.lstrip()[2:])}</li>")
            continue
        if items:
            yield f"<ul>{''.join(items)}</ul>"
            items = []
        if line.strip():
            yield f"<p>{escape(line.strip())}</p>"


def trace_html(ran: Ran) -> str:
    """A run: what it was, a row for each reading with its course, what happened, how it ended."""
    head = "".join(f"<th>{words}</th>" for words in ("what", "at first", "at last", "course", "lowest to highest"))
    rows = "".join(_row(row) for row in ran.rows)
    events = "".join(f"<li>{escape(event.strip())}</li>" for event in ran.events)
    return (
        f'<div class="cutaway-run"><p><strong>{escape(run_heading(ran))}</strong></p>'
        f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
        f"{f'<ul>{events}</ul>' if events else ''}<p>{escape(ran.ending)}</p></div>"
    )


def _row(row: Row) -> str:
    cells = (escape(row.name), escape(row.first), escape(row.last), _course(row), escape(row.span))
    return f"<tr>{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"


def _course(row: Row) -> str:
    """The trace as a line; where a dead instrument has no reading, the line is broken."""
    good = [value for value in row.trace if not isnan(value)]
    low, high = (min(good), max(good)) if good else (0.0, 0.0)
    flat = high - low < 1e-9 * max(1.0, abs(high))
    pieces: list[list[str]] = [[]]
    for i, value in enumerate(row.trace):
        if isnan(value):
            pieces.append([])
            continue
        x = 2 + (WIDE - 4) * i / max(1, len(row.trace) - 1)
        y = HIGH - 3 if flat else 3 + (HIGH - 6) * (high - value) / (high - low)
        pieces[-1].append(f"{x:.1f},{y:.1f}")
    lines = "".join(
        f'<polyline points="{" ".join(points)}" fill="none" stroke="currentColor"/>' for points in pieces if points
    )
    label = escape(f"{row.name}: from {row.first} to {row.last}", quote=True)
    return f'<svg width="{WIDE}" height="{HIGH}" role="img" aria-label="{label}">{lines}</svg>'
