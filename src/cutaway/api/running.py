"""Run one course of things on one subject, and what there is to show of it."""

import csv
import io
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from cutaway.api.checking import standards_named
from cutaway.api.loading import Loaded, load
from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.scenes import Question, Scene
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.inquiry.workshop import Made, Request, Workshop
from cutaway.language.parse import parse_scope
from cutaway.language.syntax import And, Scope
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Floats, Outcome, Run
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind, Reading
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.wording.figures import duration, shown

# The longest run that is asked for by hand, s: two days, more than any tank or battery lasts.
LONGEST = 2 * 24 * 3600.0


@dataclass(frozen=True, slots=True)
class Asked:
    """What to run, in the words of the command line. length: '60 s'. show: names of parts, empty for all that moves."""

    situation: str
    on: str
    failed: tuple[str, ...]
    do: str
    length: str
    show: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """One reading or state: in words at first and at last, its trace and the range that it covers."""

    name: str
    first: str
    last: str
    trace: tuple[float, ...]
    span: str
    moves: bool


@dataclass(frozen=True, slots=True, eq=False)
class Ran:
    """A run and what there is to tell of it."""

    subject: Subject
    asked: Asked
    clock: float
    run: Run
    rows: tuple[Row, ...]
    events: tuple[str, ...]
    ending: str
    done: bool


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """One course of things, understood and ready to be run. length: s that it is to go on after its clock."""

    loaded: Loaded
    workshop: Workshop
    bound: Bound
    made: Made
    scene: Scene
    length: float


def course(
    folder: Path | str | Loaded, asked: Asked, workshop: Workshop | None = None
) -> tuple[Course | None, Problems]:
    """What is asked, made out in the records of a folder; None where that cannot be understood.

    folder: its place, or what was loaded from there. workshop: where to run, a new one if None.
    """
    loaded, problems = (folder, folder.problems) if isinstance(folder, Loaded) else load(folder)
    if loaded is None:
        return None, problems
    scope, more = _scope(loaded, asked)
    length, problem = read_quantity(asked.length, whole(TextFile("--for", asked.length)), "time")
    subject, others = subject_named(loaded, asked.on)
    found = (*more, *problem, *_length_wrong(length), *others, *_unknown(loaded, asked))
    if scope is None or length is None or subject is None or has_error(found):
        return None, in_order(found)
    workshop = Workshop(loaded.folder, loaded.kinds) if workshop is None else workshop
    more = workshop.problems()
    bound, _ = workshop.bound(subject)
    made = workshop.made(bound, frozenset(name for name, _ in bound.network.signals))
    question = Question(And((), scope.span), scope, bound, loaded.told, workshop)
    scenes = scenes_of(question, made)
    if isinstance(scenes, NotModelled):
        words = f"{subject.name} has no {', '.join(scenes.missing)}."
        return None, (Diagnostic("C103", None, words, "Name a part of this standard, or another standard with --on."),)
    if isinstance(scenes, Undecided):
        return None, in_order((*problems, *more, Diagnostic("I101", None, scenes.because)))
    return Course(loaded, workshop, bound, made, scenes.all[0], to_si(length)), in_order((*problems, *more))


def run(folder: Path | str | Loaded, asked: Asked, workshop: Workshop | None = None) -> tuple[Ran | None, Problems]:
    """Run a situation with what has failed and what is done, for a time; None where that cannot be understood."""
    ready, problems = course(folder, asked, workshop)
    if ready is None:
        return None, problems
    subject, scene = ready.bound.subject, ready.scene
    (result,) = ready.workshop.runs([Request(ready.made, scene.legs, scene.changes, scene.clock + ready.length)])
    if isinstance(result, Outcome):
        return None, in_order((*problems, unreached(ready, asked, result)))
    rows = tuple(_rows(ready.bound, result, asked, ready.loaded))
    done = result.outcome.kind == "done"
    return Ran(subject, asked, scene.clock, result, rows, _events(result), _ending(result), done), problems


def unreached(ready: Course, asked: Asked, outcome: Outcome) -> Diagnostic:
    """That the situation cannot be reached, and why."""
    words = f"'{asked.situation}' cannot be reached on {ready.bound.subject.name}: {outcome.sentence}"
    return Diagnostic("I101", None, words)


def _length_wrong(length: Quantity | None) -> Problems:
    if length is None or 0.0 < to_si(length) <= LONGEST:
        return ()
    hint = f"Write a time above nought and up to {duration(LONGEST)}, for instance '90 s'."
    return (Diagnostic("C106", None, f"Nothing can be run for {length.text}.", hint),)


def _scope(loaded: Loaded, asked: Asked) -> tuple[Scope | None, Problems]:
    items = [f"in {asked.situation}", *(f"with {one}" for one in asked.failed)]
    if asked.do:
        items.append(f"after {asked.do}")
    text = ", ".join(items)
    return parse_scope(whole(TextFile("command line", text)), loaded.words)


def subject_named(loaded: Loaded, words: str) -> tuple[Subject | None, Problems]:
    """The standard or airframe that the words of `--on` name, the first where there are none."""
    everyone = subjects(loaded.folder)
    if not words:
        return everyone[0], ()
    named, problems = standards_named(loaded.folder, words)
    chosen = [s for s in everyone if named is not None and s.name in named]
    exact = [s for s in chosen if s.name.casefold() == words.casefold()]
    best = exact or chosen
    return (best[0] if best else None), problems


def _unknown(loaded: Loaded, asked: Asked) -> Problems:
    known = {str(part.name).casefold() for part in loaded.folder.parts}
    missing = [name for name in asked.show if name.casefold() not in known]
    hint = "Parts are named as in systems/, for instance: " + ", ".join(sorted(known)[:6])
    return tuple(Diagnostic("C104", None, f"There is no part '{name}' to show.", hint) for name in missing)


def _rows(bound: Bound, run: Run, asked: Asked, loaded: Loaded) -> list[Row]:
    wanted = {name.casefold() for name in asked.show}
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


def _events(run: Run) -> tuple[str, ...]:
    return tuple(f"  {duration(event.time)}: {event.mode} {'begins' if event.now else 'ends'}" for event in run.events)


def _ending(run: Run) -> str:
    c = run.certificate
    rest = f"at rest from {duration(c.rest)}" if c.rest >= 0 else "not at rest"
    if run.outcome.kind != "done":
        return run.outcome.sentence
    worst = f"worst balance {c.residual:.1e}, worst loss of content {c.conservation:.1e}"
    return f"{rest}; {counted(c.steps, 'step')}; {worst}"


def run_heading(ran: Ran) -> str:
    """What was run, in a line."""
    asked = ran.asked
    with_ = "".join(f", with {one}" for one in asked.failed)
    done = f", after {asked.do}" if asked.do else ""
    return f"{ran.subject.name}, in {asked.situation}{with_}{done}: {asked.length}"


def run_record(ran: Ran) -> dict[str, object]:
    """The run for a program: every signal's trace in SI, the events, the certificate."""
    run = ran.run
    c = run.certificate
    return {
        "subject": ran.subject.name,
        "situation": ran.asked.situation,
        "clock": ran.clock,
        "times": run.times.tolist(),
        "signals": {name: [None if np.isnan(v) else float(v) for v in run.column(name)] for name in run.names},
        "events": [{"time": e.time, "mode": e.mode, "now": e.now} for e in run.events],
        "outcome": {"kind": run.outcome.kind, "at": run.outcome.at, "sentence": run.outcome.sentence},
        "certificate": {
            "residual": c.residual,
            "conservation": c.conservation,
            "steps": c.steps,
            "cuts": c.cuts,
            "rest": c.rest,
            "kernel": c.kernel,
        },
    }


def run_csv(ran: Ran) -> str:
    """The run as a table: time in s, then every signal in SI."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["time, s", *ran.run.names])
    for time, row in zip(ran.run.times, ran.run.values, strict=True):
        writer.writerow([f"{time:.6g}", *(f"{v:.9g}" for v in row)])
    return out.getvalue()
