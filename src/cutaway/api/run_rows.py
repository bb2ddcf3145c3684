"""What moved and what turned over in a run, in words: a table of rows, and the events in order.

What is to be shown is named as claims name it: a part or a group, a reading, a port, a control.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cutaway.api.loading import Loaded
from cutaway.handbook.names import listed, nearest
from cutaway.handbook.records import PartName
from cutaway.inquiry.signals import dimension_of
from cutaway.inquiry.truth import reading_datum, reading_trace
from cutaway.language.charts import names_to_show
from cutaway.language.name_index import key
from cutaway.language.said import name_of
from cutaway.language.syntax import ControlRef, ReadingRef
from cutaway.language.words import Words
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Floats, Run
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
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


ToShow = PartName | ReadingRef | ControlRef


def to_show(show: Iterable[str], loaded: Loaded) -> tuple[tuple[ToShow, ...], Problems]:
    """What the words of `--show` name. One that was left out for a mistake of its own is told as that."""
    found: list[ToShow] = []
    problems: list[Diagnostic] = []
    for said in show:
        some = _named(said, loaded.words)
        found += some
        if not some:
            problems.append(_unknown(said, loaded.words))
    return tuple(dict.fromkeys(found)), tuple(problems)


def _named(said: str, words: Words) -> tuple[ToShow, ...]:
    """A part comes before a reading or control that is spoken of by its name: all of it is shown."""
    folded = key(said)
    if folded in words.parts:
        return (words.parts[folded].name,)
    if folded in words.readings:
        return (words.readings[folded].ref,)
    if folded in words.controls:
        return (words.controls[folded].ref,)
    if folded in words.collections:
        return words.collections[folded].members
    return ()


def _unknown(said: str, words: Words) -> Diagnostic:
    if key(said) in words.left_out:
        message = f"'{said}' cannot be shown: it was left out for a mistake in the folder."
        return Diagnostic("C104", None, message, "Mend that first; it is told above.")
    near = nearest(said, names_to_show(words))
    parts = listed(sorted(str(part.name) for part in words.parts.values())[:6])
    hint = f"Did you mean {near}?" if near else f"Parts are named as in systems/: {parts}."
    return Diagnostic("C104", None, f"There is no part, reading or control '{said}' to show.", hint)


def missing_on(bound: Bound, show: Iterable[str], loaded: Loaded) -> tuple[str, ...]:
    """The words of which this subject has nothing that they name; of a group it may lack some."""
    return tuple(said for said in show if not any(_has(bound, one) for one in _named(said, loaded.words)))


def _has(bound: Bound, one: ToShow) -> bool:
    match one:
        case ControlRef():
            return (one.part, one.control) in bound.controls
        case ReadingRef():
            return dimension_of(bound, one) is not None
        case _:
            return one in bound.parts


def _label(one: ToShow) -> str:
    if isinstance(one, ReadingRef):
        return f"{one.part}.{one.port}" if one.port else f"{one.part} {one.reading}".strip()
    return name_of(one) if isinstance(one, ControlRef) else str(one)


def rows_of(bound: Bound, run: Run, show: tuple[ToShow, ...], loaded: Loaded) -> list[Row]:
    """A row for each control, state and reading of the parts to be shown, and for what else is to be; of all parts,
    what moves, where nothing is named."""
    rows: list[Row] = []
    everything: tuple[ToShow, ...] = tuple(PartName(name) for name in bound.parts)
    for one in (one for one in show or everything if _has(bound, one)):
        match one:
            case ControlRef():
                rows.append(_control_row(bound, run, one.part, one.control))
            case ReadingRef():
                trace, dimension = reading_trace(one, run, bound), dimension_of(bound, one)
                datum = reading_datum(one, bound)
                rows.append(_reading_row(_label(one), str(dimension), datum, run.times, trace, loaded))
            case _:
                rows.extend(_of_part(one, bound.kinds[bound.parts[one].kind], bound, run, loaded))
    return rows if show else [row for row in rows if row.moves]


def _control_row(bound: Bound, run: Run, part: str, control: str) -> Row:
    slot = bound.controls[(part, control)]
    trace = run.column(names.set_name(slot.input))
    words = [_position(slot.positions, slot.ranged, float(v)) for v in trace]
    return Row(slot.input, words[0], words[-1], _evenly(run.times, trace), "", bool(np.ptp(trace) > 0))


def _of_part(name: str, kind: Kind, bound: Bound, run: Run, loaded: Loaded) -> list[Row]:
    rows = [_control_row(bound, run, name, control.name) for control in kind.controls]
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
        rows.append(_reading_row(label, reading.dimension, reading.datum, run.times, trace, loaded))
    return rows


def _reading_row(label: str, dimension: str, datum: str, times: Floats, trace: Floats, loaded: Loaded) -> Row:
    def say(value: float) -> str:
        if np.isnan(value):
            return "dead"
        return shown(value, dimension, datum, loaded.folder.type.house_units)

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
