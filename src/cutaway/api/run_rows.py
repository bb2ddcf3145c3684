"""What moved and what turned over in a run, in words: a table of rows, and the events in order."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cutaway.api.loading import Loaded
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Floats, Run
from cutaway.parts.kind import Kind, Reading
from cutaway.wording.figures import duration, shown


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """One reading or state: in words at first and at last, its trace and the range that it covers."""

    name: str
    first: str
    last: str
    trace: tuple[float, ...]
    span: str
    moves: bool


def rows_of(bound: Bound, run: Run, show: tuple[str, ...], loaded: Loaded) -> list[Row]:
    """A row for each control, state and reading of the parts to be shown; of all that moves where none is named."""
    wanted = {name.casefold() for name in show}
    rows: list[Row] = []
    for name, part in bound.parts.items():
        kind = bound.kinds[part.kind]
        if wanted and name.casefold() not in wanted:
            continue
        rows.extend(_of_part(name, kind, bound, run, loaded))
    return rows if wanted else [row for row in rows if row.moves]


def _of_part(name: str, kind: Kind, bound: Bound, run: Run, loaded: Loaded) -> list[Row]:
    rows: list[Row] = []
    for control in kind.controls:
        slot = bound.controls[(name, control.name)]
        trace = run.column(names.set_name(slot.input))
        words = [_position(slot.positions, slot.ranged, float(v)) for v in trace]
        rows.append(Row(slot.input, words[0], words[-1], _evenly(run.times, trace), "", bool(np.ptp(trace) > 0)))
    for state in kind.states:
        trace = (run.column(names.signal_name(name, state.signal)) > 0.5).astype(np.float64)
        # 'fuel lamp: out, lit' where a word or its opposite is always true; 'flaps down: no, yes' where there are more.
        label, off, on = name, state.opposite or f"not {state.words}", state.words
        if len(kind.states) > 1:
            label, off, on = f"{name} {state.words}", "no", "yes"
        ends = [on if v else off for v in (trace[0], trace[-1])]
        rows.append(Row(label, ends[0], ends[1], _evenly(run.times, trace), "", bool(np.ptp(trace) > 0)))
    for reading in kind.readings:
        trace = run.column(names.signal_name(name, reading.signal))
        if reading.alive:
            trace = np.where(run.column(names.signal_name(name, reading.alive)) > 0.5, trace, np.nan)

        label = name if reading.main else f"{name} ({reading.name})"
        rows.append(_reading_row(label, reading, run.times, trace, loaded))
    return rows


def _reading_row(label: str, reading: Reading, times: Floats, trace: Floats, loaded: Loaded) -> Row:
    def say(value: float) -> str:
        if np.isnan(value):
            return "dead"
        return shown(value, reading.dimension, reading.datum, loaded.folder.type.house_units)

    good = trace[~np.isnan(trace)]
    span = f"{say(float(good.min()))} to {say(float(good.max()))}" if good.size else "dead"
    moves = bool(good.size and np.ptp(good) > 0.005 * max(1e-9, float(np.abs(good).max())))
    return Row(label, say(float(trace[0])), say(float(trace[-1])), _evenly(times, trace), span, moves)


def _evenly(times: Floats, trace: Floats) -> tuple[float, ...]:
    """The trace at 80 even moments, for a small graph."""
    moments = np.linspace(times[0], times[-1], 80)
    index = np.clip(np.searchsorted(times, moments, side="right") - 1, 0, len(times) - 1)
    return tuple(float(v) for v in trace[index])


def _position(positions: tuple[str, ...], ranged: bool, value: float) -> str:
    if ranged:
        return f"{100 * value:.0f} %"
    return positions[round(value)] if positions else f"{value:g}"


def events_of(bound: Bound, run: Run) -> tuple[str, ...]:
    """What is moved and what turns over, in the words of controls and states; not what goes on inside a part."""
    found: list[tuple[float, str]] = []
    for slot in bound.controls.values():
        trace = run.column(names.set_name(slot.input))
        words = (f"{slot.input} to {_position(slot.positions, slot.ranged, float(trace[i]))}" for i in _turns(trace))
        found.extend(zip((float(run.times[i]) for i in _turns(trace)), words, strict=True))
    for name, part in bound.parts.items():
        for state in bound.kinds[part.kind].states:
            on = run.column(names.signal_name(name, state.signal)) > 0.5
            found.extend(
                (float(run.times[i]), f"{name}: {state.words if on[i] else state.opposite or f'not {state.words}'}")
                for i in _turns(on)
            )
    return tuple(f"  {duration(time)}: {words}" for time, words in sorted(found, key=lambda one: one[0]))


def _turns(trace: Floats | NDArray[np.bool_]) -> tuple[int, ...]:
    """Where a trace is otherwise than just before."""
    return tuple(int(i) + 1 for i in np.flatnonzero(trace[1:] != trace[:-1]))
