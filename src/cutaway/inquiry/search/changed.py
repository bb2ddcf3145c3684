"""The one scene of a base with a set of changes put in."""

from dataclasses import replace

from cutaway.inquiry.course import course_of
from cutaway.inquiry.scenes import Scene
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Assume, Break, ChangeSet, Give, Put
from cutaway.machine.records import Change


def changed(base: Base, alterations: ChangeSet) -> Scene:
    """The base's scene with a set's positions, failures and conditions put in once the situation is reached. The
    scope's own actions come after them, a moment later."""
    put = [_change(one) for one in sorted(alterations, key=repr) if not isinstance(one, Assume)]
    if not put:
        return base.scene
    before = (*base.scene.changes, *put)
    question = base.question
    start = 1.0 if question.scope.actions else 0.0
    placed = {**base.stands, **{change.input: change.value for change in before}}
    course = course_of(question.scope.actions, question.bound, start, placed)
    return replace(base.scene, changes=before, movements=course.movements, clock=course.clock)


def _change(one: Put | Break | Give) -> Change:
    match one:
        case Put(input=name, value=value):
            return Change(0.0, name, value)
        case Break(input=name):
            return Change(0.0, name, 1.0)
        case Give(name=name, si=si):
            return Change(0.0, name, si)
