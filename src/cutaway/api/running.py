"""Run one course of things on one subject, and what there is to show of it."""

import csv
import io
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from cutaway.api.checking import standards_named
from cutaway.api.loading import Loaded, load
from cutaway.api.run_rows import Row, ToShow, events_of, missing_on, rows_of, to_show
from cutaway.handbook.names import listed
from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.scenes import Question, Scene
from cutaway.inquiry.snapshot import places_of
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.inquiry.workshop import Made, Request, Workshop
from cutaway.language.parse import parse_scope
from cutaway.language.syntax import And, Scope
from cutaway.machine.bind import Bound
from cutaway.machine.records import Outcome, Run
from cutaway.machine.subjects import Subject, subjects
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.wording.figures import duration

# The longest run that is asked for by hand, s: two days, more than any tank or battery lasts.
LONGEST = 2 * 24 * 3600.0


@dataclass(frozen=True, slots=True)
class Asked:
    """What to run, in the words of the command line. length: '60 s'. show: parts, readings, ports or
    controls as claims name them, empty for all that moves."""

    situation: str
    on: str
    failed: tuple[str, ...]
    do: str
    length: str
    show: tuple[str, ...]


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
    """One course of things, understood and ready to be run. length: s that it is to go on after its clock. show: what
    is to be shown of it, () for all that moves."""

    loaded: Loaded
    workshop: Workshop
    bound: Bound
    made: Made
    scene: Scene
    length: float
    show: tuple[ToShow, ...] = ()


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
    show, unknown = to_show(asked.show, loaded)
    found = (*more, *problem, *_length_wrong(length), *others, *unknown)
    if scope is None or length is None or subject is None or has_error(found):
        # What is asked for may be missing because of an error in the folder.
        return None, in_order((*(p for p in problems if p.severity == "error"), *found))
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
    if missing := missing_on(bound, asked.show, loaded):
        hint = "Show what this standard has, or name another with --on."
        return None, (Diagnostic("C103", None, f"{subject.name} has no {listed(missing, 'or')} to show.", hint),)
    return Course(loaded, workshop, bound, made, scenes.all[0], to_si(length), show), in_order((*problems, *more))


def run(folder: Path | str | Loaded, asked: Asked, workshop: Workshop | None = None) -> tuple[Ran | None, Problems]:
    """Run a situation with what has failed and what is done, for a time; None where that cannot be understood."""
    ready, problems = course(folder, asked, workshop)
    if ready is None:
        return None, problems
    subject, scene = ready.bound.subject, ready.scene
    (result,) = ready.workshop.runs([Request(ready.made, scene.legs, scene.changes, scene.clock + ready.length)])
    if isinstance(result, Outcome):
        return None, in_order((*problems, unreached(ready, asked, result)))
    rows = tuple(rows_of(ready.bound, result, ready.show, ready.loaded))
    events, done = events_of(ready.bound, result), result.outcome.kind == "done"
    return Ran(subject, asked, scene.clock, result, rows, events, _ending(result), done), problems


def unreached(ready: Course, asked: Asked, outcome: Outcome) -> Diagnostic:
    """That the situation cannot be reached, and why."""
    words = f"'{asked.situation}' cannot be reached on {ready.bound.subject.name}: {outcome.sentence}"
    place = next((s.span for s in ready.loaded.folder.situations if s.name == asked.situation), None)
    return Diagnostic("I101", place, words, "", places_of(ready.loaded.folder, outcome.parts, ready.bound.subject))


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
