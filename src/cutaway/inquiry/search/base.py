"""What a question starts from: a statement in a scope on one subject, made ready, and the one scene that it asks."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.inquiry.asking import machine_of, ready
from cutaway.inquiry.scenes import Question, Scene, planned
from cutaway.inquiry.special import Special
from cutaway.inquiry.told import placed_at_end
from cutaway.inquiry.verdicts import NotModelled
from cutaway.inquiry.workshop import Made
from cutaway.language.syntax import Built, ComesOnAt, Earlier


@dataclass(frozen=True, slots=True, eq=False)
class Base:
    """question: made ready. made: the machine over all that can reach its statement. scene: its one course of things,
    movements not yet put to their rules. stands: where every input stands once the situation is reached."""

    question: Question
    made: Made
    scene: Scene
    stands: Mapping[str, float]


def base_of(question: Question) -> Base | NotModelled:
    """The base of a question, or what is missing for it. A statement of how it is built, of a threshold, an order or a
    trend has no base; nor has a scope that leaves a choice ('any of …', a range of values, always)."""
    asked = ready(question)
    if isinstance(asked, NotModelled):
        return asked
    if isinstance(asked.statement, Built | ComesOnAt | Special | Earlier):
        return NotModelled(("a statement that is so or not so at a moment; this one compares or is built so",))
    if asked.scope.modality:
        return NotModelled((f"one course of things; '{asked.scope.modality}' has many",))
    made = machine_of(asked)
    if isinstance(made, NotModelled):
        return made
    scenes = planned(asked, made)
    if isinstance(scenes, NotModelled):
        return scenes
    if len(scenes.all) != 1:
        return NotModelled(("one failure of each choice, and one value for each condition",))
    return Base(asked, made, scenes.all[0], placed_at_end(scenes.all[0].legs))
