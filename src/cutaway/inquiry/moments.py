"""Every signal at chosen moments of a course of things: what a sequence of sheets is drawn from."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from cutaway.inquiry.deciding import horizon
from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.scenes import Question, Scene, planned
from cutaway.inquiry.snapshot import snapshot
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.inquiry.workshop import Made, Request, Workshop
from cutaway.language.syntax import Action, And, Scope, Wait, When
from cutaway.machine.bind import Bound
from cutaway.machine.records import Outcome, Run
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems

AFTER = 0.05
"""A moment 'at' an event is this much after it, s, so that the change is seen. Events are known no better."""

BEFORE, SETTLED = -1.0, math.inf
"""The times of what is seen before anything is done, and once nothing moves but what tanks and bottles slowly lose."""


@dataclass(frozen=True, slots=True, eq=False)
class Staged:
    """A course of things on one subject that can be looked at. made: the whole machine."""

    workshop: Workshop
    told: Told
    bound: Bound
    scope: Scope
    made: Made
    scene: Scene


@dataclass(frozen=True, slots=True, eq=False)
class Instant:
    """A moment of a run. time: s from its beginning, or `BEFORE`. values: every signal, SI. calm: False where it was
    waited for rest in vain."""

    time: float
    values: Mapping[str, float]
    calm: bool = True


def staged(workshop: Workshop, told: Told, subject: Subject, scope: Scope) -> Staged | NotModelled | Undecided:
    """The course of things that a scope says, or why there is none."""
    bound, _ = workshop.bound(subject)
    made = workshop.made(bound, frozenset(name for name, _ in bound.network.signals))
    scenes = scenes_of(_question(workshop, told, bound, scope), made)
    if isinstance(scenes, NotModelled | Undecided):
        return scenes
    return Staged(workshop, told, bound, scope, made, scenes.all[0])


def time_after(course: Staged, actions: tuple[Action, ...], pause: float) -> float:
    """When a pause after the first actions of a course ends, s of its run: just before the next one begins."""
    prefix = replace(course.scope, actions=(*actions, Wait(pause, course.scope.span)))
    scenes = planned(_question(course.workshop, course.told, course.bound, prefix), course.made)
    assert not isinstance(scenes, NotModelled), "what the whole course has, its beginning has"
    return scenes.all[0].clock - AFTER


def instants(course: Staged, times: Sequence[float]) -> tuple[tuple[Instant, ...] | Outcome, Problems]:
    """What there is at some times of a course, in their order: each is run to, and none is guessed between two steps of
    a run. An outcome where one cannot be reached; () with what is wrong where the situation has no solution."""
    scene, made = course.scene, course.made
    wanted = [_request(made, scene, time) for time in times if time >= 0.0]
    runs = iter(course.workshop.runs(wanted))
    found: list[Instant] = []
    for time in times:
        if time < 0.0:
            subject = course.bound.subject
            shot, problems = snapshot(course.workshop, course.told, subject, course.scope.situation)
            if shot is None:
                return (), problems
            found.append(Instant(BEFORE, shot.values))
            continue
        run = next(runs)
        outcome = run if isinstance(run, Outcome) else run.outcome
        if isinstance(run, Outcome) or outcome.kind != "done":
            return outcome, ()
        found.append(_instant(run, time, scene))
    return tuple(found), ()


def _request(made: Made, scene: Scene, time: float) -> Request:
    if time < SETTLED:
        return Request(made, scene.legs, scene.changes, max(time, AFTER))
    return Request(made, scene.legs, scene.changes, *horizon(When(), scene.clock))


def _instant(run: Run, time: float, scene: Scene) -> Instant:
    values = dict(zip(run.names, map(float, run.values[-1]), strict=True))
    if time < SETTLED:
        return Instant(time, values)
    end = float(run.times[-1])
    calm = run.certificate.rest >= 0.0 or end < horizon(When(), scene.clock)[0] - 1e-6
    return Instant(end, values, calm)


def _question(workshop: Workshop, told: Told, bound: Bound, scope: Scope) -> Question:
    return Question(And((), scope.span), scope, bound, told, workshop)
