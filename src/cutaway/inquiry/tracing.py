"""A course of things followed in time: what some readings, states and controls did, and what happened meanwhile."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from cutaway.inquiry.course import said
from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.rules import needed_by_rules
from cutaway.inquiry.scenes import Question, Scene
from cutaway.inquiry.signals import dimension_of, kind_on, needed, position_signal, reading_of, state_of
from cutaway.inquiry.told import Told
from cutaway.inquiry.truth import reading_datum, reading_trace
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.language.charts import Shown, StateRef
from cutaway.language.syntax import And, ControlRef, InState, ReadingRef, Scope, Statement, Trend
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.fitting import Assumption
from cutaway.machine.records import Floats, Outcome, Run
from cutaway.machine.subjects import Subject

Sort = Literal["reading", "state", "control"]


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """One trace, at the times of its run. name: as the trade says it. values: SI; nought and one for a state; the
    input of a control; not a number while an instrument is dead. words: what the values of a state or of a control
    with positions are called, by value; () for numbers."""

    name: str
    part: str
    sort: Sort
    dimension: str
    datum: str
    values: Floats
    words: tuple[tuple[float, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Happening:
    """Something at a moment, s. sort: 'done' by somebody, 'failed', or a 'mode' of a part that began or ended."""

    time: float
    words: str
    sort: Literal["done", "failed", "mode"]
    part: str


@dataclass(frozen=True, slots=True, eq=False)
class Traced:
    """All that was followed. assumed: the values that no book gives, of the parts that can reach what is shown."""

    bound: Bound
    scene: Scene
    times: Floats
    courses: tuple[Course, ...]
    happenings: tuple[Happening, ...]
    assumed: tuple[Assumption, ...]
    outcome: Outcome


def follow(
    workshop: Workshop, told: Told, subject: Subject, scope: Scope, shown: tuple[Shown, ...], seconds: float
) -> Traced | NotModelled | Undecided | Outcome:
    """The scope's course on one subject, for some seconds after the last of its actions; or why there is none.

    Only what can reach the things shown is run.
    """
    bound, _ = workshop.bound(subject)
    question = Question(And((), scope.span), scope, bound, told, workshop)
    signals, missing = _signals(bound, told, shown, scope)
    by_rules, more = needed_by_rules(question)
    if missing or more:
        return NotModelled(tuple(dict.fromkeys((*missing, *more))))
    made = workshop.made(bound, signals | by_rules)
    scenes = scenes_of(question, made)
    if isinstance(scenes, (NotModelled, Undecided)):
        return scenes
    scene = scenes.all[0]
    (run,) = workshop.runs([Request(made, scene.legs, scene.changes, scene.clock + seconds)])
    if isinstance(run, Outcome):
        return run
    owners = dict(made.network.owners)
    inside = [*(one.name for one in made.network.elements), *(one.name for one in made.network.modes)]
    there = {owners.get(name) for name in inside}
    courses = tuple(_course(one, run, bound) for one in shown)
    happenings = (*_done(scene, bound), *_turns(courses, run), *_modes(run, owners, bound, courses))
    return Traced(
        bound,
        scene,
        run.times,
        courses,
        tuple(sorted(happenings, key=lambda one: one.time)),
        tuple(a for a in bound.assumptions if a.part in there),
        run.outcome,
    )


def _signals(
    bound: Bound, told: Told, shown: tuple[Shown, ...], scope: Scope
) -> tuple[frozenset[str], tuple[str, ...]]:
    """What must be recorded to follow what is shown, and what of it the subject lacks."""
    found: frozenset[str] = frozenset()
    missing: tuple[str, ...] = ()
    for one in shown:
        if isinstance(one.of, ControlRef):
            slot = bound.controls.get((one.of.part, one.of.control))
            found |= {position_signal(one.of)} if slot is not None else frozenset()
            missing += () if slot is not None else (str(one.of.part),)
            continue
        need = needed(_statement(one.of, scope), bound, told.services)
        found, missing = found | need.signals, missing + need.missing
    return found, missing


def _statement(of: ReadingRef | StateRef, scope: Scope) -> Statement:
    """A statement about the same, by which the signals are found as those of claims are."""
    if isinstance(of, StateRef):
        return InState(of.part, of.words, False, scope.span)
    return Trend(of, True, "", 0.0, 0.0, scope.span)


def _course(one: Shown, run: Run, bound: Bound) -> Course:
    match one.of:
        case ReadingRef() as ref:
            values = reading_trace(ref, run, bound)
            return Course(_name_of(ref, bound), ref.part, "reading", str(dimension_of(bound, ref)),
                          str(reading_datum(ref, bound)), values)  # fmt: skip
        case StateRef(part=part, words=words):
            kind = kind_on(bound, part)
            state = state_of(kind, words) if kind is not None else None
            assert state is not None, f"{part} has no state {words}"
            flags = (run.column(names.signal_name(part, state.signal)) > 0.5).astype(np.float64)
            called = ((0.0, state.opposite or f"not {state.words}"), (1.0, state.words))
            several = kind is not None and len(kind.states) > 1
            return Course(f"{part} {state.words}" if several else str(part), part, "state", "", "", flags, called)
        case ControlRef() as ref:
            slot = bound.controls[(ref.part, ref.control)]
            values = run.column(position_signal(ref))
            if slot.ranged:
                return Course(slot.input, ref.part, "control", "fraction", "", values)
            stands = tuple((slot.value(position), position) for position in slot.positions)
            return Course(slot.input, ref.part, "control", "", "", values, stands)


def _name_of(ref: ReadingRef, bound: Bound) -> str:
    """The reading as the trade says it: the part alone where it has no other."""
    if ref.port:
        return f"{ref.part}.{ref.port}"
    kind = kind_on(bound, ref.part)
    reading = reading_of(kind, ref.reading) if kind is not None else None
    assert reading is not None
    already = reading.name.casefold() in str(ref.part).casefold()
    return str(ref.part) if already else f"{ref.part} {reading.name}"


def _done(scene: Scene, bound: Bound) -> tuple[Happening, ...]:
    """What is moved and what fails in the course of the scene."""
    slots = {slot.input: slot for slot in bound.controls.values()}
    failures = {slot.name for slot in bound.network.inputs if slot.sort == "failure"}
    found: list[Happening] = []
    for change in scene.changes:
        slot = slots.get(change.input)
        if slot is not None:
            words = f"{slot.input} to {said(slot, change.value)}"
            found.append(Happening(change.time, words, "done", slot.part))
        elif change.input in failures and change.value > 0.0:
            found.append(Happening(change.time, change.input, "failed", change.input.partition(":")[0]))
    return tuple(found)


def _turns(courses: tuple[Course, ...], run: Run) -> tuple[Happening, ...]:
    """The moments at which the states that are shown turn over."""
    found: list[Happening] = []
    for course in (one for one in courses if one.sort == "state"):
        called = dict(course.words)
        for i in np.flatnonzero(np.diff(course.values)):
            words = called[float(course.values[i + 1])]
            name = str(course.part) if words in course.name or course.name == course.part else course.name
            found.append(Happening(float(run.times[i + 1]), f"{name}: {words}", "mode", course.part))
    return tuple(found)


def _modes(run: Run, owners: Mapping[str, str], bound: Bound, courses: tuple[Course, ...]) -> tuple[Happening, ...]:
    """What else turned over, in the words of the parts' states; not what goes on inside a part, nor what `_turns`
    tells."""
    told = {course.part for course in courses if course.sort == "state"}
    found: list[Happening] = []
    for event in run.events:
        part = owners.get(event.mode, "")
        kind = kind_on(bound, part) if part not in told else None
        mode = event.mode.removeprefix(f"{part}: ")
        state = next((s for s in kind.states if mode in (s.words, s.signal)), None) if kind is not None else None
        if state is not None:
            words = state.words if event.now else state.opposite or f"not {state.words}"
            found.append(Happening(event.time, f"{part}: {words}", "mode", part))
    return tuple(found)
