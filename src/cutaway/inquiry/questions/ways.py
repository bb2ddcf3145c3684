"""Sequences of actions put to a base: each is run from the beginning, as a claim with these actions would be."""

from collections.abc import Sequence
from dataclasses import replace

from cutaway.inquiry.judging import Looked, looked_at, request_for
from cutaway.inquiry.rules import obeying
from cutaway.inquiry.scenes import Scene, planned
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.inquiry.workshop import Made, Request
from cutaway.language.syntax import Action, Wait


def actions_within(actions: tuple[Action, ...], limit: float) -> tuple[Action, ...]:
    """The actions with no wait longer than a limit, s."""
    return tuple(replace(one, seconds=min(one.seconds, limit)) if isinstance(one, Wait) else one for one in actions)


def looked_of(base: Base, made: Made, several: Sequence[tuple[Action, ...]]) -> list[Looked | Undecided]:
    """What each sequence comes to, in their order; all are run side by side."""
    asked: list[tuple[Scene, Request] | Undecided] = []
    questions = [replace(base.question, scope=replace(base.question.scope, actions=actions)) for actions in several]
    for question in questions:
        scenes = planned(question, made)
        if isinstance(scenes, NotModelled):
            asked.append(Undecided(f"it needs {', '.join(scenes.missing)}"))
            continue
        put = obeying(question, made, scenes)
        if isinstance(put, Undecided):
            asked.append(put)
        else:
            asked.append((put.all[0], request_for(question, made, put.all[0])))
    results = iter(base.question.workshop.runs([one[1] for one in asked if not isinstance(one, Undecided)]))
    return [
        one if isinstance(one, Undecided) else looked_at(question, one[0], next(results))
        for question, one in zip(questions, asked, strict=True)
    ]
