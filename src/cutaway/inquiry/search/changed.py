"""The one scene of a base with a set of changes put in."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.inquiry.course import Movement, course_of
from cutaway.inquiry.scenes import Scene
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Assume, Break, ChangeSet, Give, Put
from cutaway.machine.records import Change


def changed(base: Base, alterations: ChangeSet) -> Scene:
    """The base's scene with a set's positions, failures and conditions put in once the situation is reached. The
    scope's own actions come after them, a moment later; what those move is put elsewhere by them, or left alone."""
    several = sorted(alterations, key=repr)
    instead = [one for one in several if isinstance(one, Put) and one.instead]
    put = [_change(one) for one in several if not isinstance(one, Assume) and one not in instead]
    scene = base.scene
    if put:
        before = (*scene.changes, *put)
        question = base.question
        start = 1.0 if question.scope.actions else 0.0
        placed = {**base.stands, **{change.input: change.value for change in before}}
        course = course_of(question.scope.actions, question.bound, start, placed)
        scene = replace(scene, changes=before, movements=course.movements, clock=course.clock)
    for one in instead:
        scene = replace(scene, movements=_instead(scene.movements, one, base.stands))
    return scene


def _instead(movements: tuple[Movement, ...], one: Put, stands: Mapping[str, float]) -> tuple[Movement, ...]:
    """The movements of actions with those of one control left out, where it is to stay where it stood, or with the last
    of them bringing it elsewhere."""
    others = tuple(movement for movement in movements if movement.input != one.input)
    if abs(stands.get(one.input, 0.0) - one.value) <= 1e-9:
        return others
    last = max(i for i, movement in enumerate(movements) if movement.input == one.input)
    put = replace(movements[last], position=one.words, value=one.value)
    return (*movements[:last], put, *movements[last + 1 :])


def _change(one: Put | Break | Give) -> Change:
    match one:
        case Put(input=name, value=value):
            return Change(0.0, name, value)
        case Break(input=name):
            return Change(0.0, name, 1.0)
        case Give(name=name, si=si):
            return Change(0.0, name, si)
