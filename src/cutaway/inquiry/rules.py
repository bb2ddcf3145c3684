"""Rules of movement put to a scene: a movement that a rule forbids is refused, one that it lets through takes others
with it. A refusal is a result, not an error."""

from dataclasses import replace

from cutaway.inquiry.course import Movement, course_of
from cutaway.inquiry.scenes import Question, Scene, Scenes
from cutaway.inquiry.signals import needed
from cutaway.inquiry.told import placed_at_end
from cutaway.inquiry.truth import true_at_end
from cutaway.inquiry.verdicts import Seen, Undecided
from cutaway.inquiry.workshop import Made, Request
from cutaway.language.claims import ParsedRule
from cutaway.language.syntax import ControlRef, Move, Scope
from cutaway.machine.bind import Bound
from cutaway.machine.records import Change, Outcome

Rules = tuple[ParsedRule, ...]


def rules_for(rules: Rules, bound: Bound, control: ControlRef, position: str) -> Rules:
    """The rules, as the subject has them, for bringing a control to a position."""
    return tuple(
        rule
        for rule in rules
        if rule.control == control
        and _plain(rule.to) == _plain(position)
        and bound.subject.standard in rule.part.on.names
    )


def _plain(position: str) -> str:
    return "".join(position.casefold().split())


def ruled(rules: Rules, scope: Scope, bound: Bound) -> Rules:
    """The rules, as the subject has them, for the controls that a scope's actions move, wherever to."""
    acted = {action.control for action in scope.actions if isinstance(action, Move)}
    return tuple(r for r in rules if r.control in acted and bound.subject.standard in r.part.on.names)


def needed_by_rules(question: Question) -> tuple[frozenset[str], tuple[str, ...]]:
    """The signals that tell whether the scope's movements are let through, and what the subject lacks for that."""
    found: frozenset[str] = frozenset()
    missing: tuple[str, ...] = ()
    for rule in ruled(question.told.rules, question.scope, question.bound):
        if rule.only_when is not None:
            need = needed(rule.only_when, question.bound, question.told.services)
            found, missing = found | need.signals, missing + need.missing
    return found, missing


def obeying(question: Question, made: Made, scenes: Scenes) -> Scenes | Undecided:
    """The scenes with every movement put to its rules, in the order of time: the scenes are run as far as each movement
    that has a rule, to see whether what it asks is so by then."""
    if not ruled(question.told.rules, question.scope, question.bound):
        everything = tuple(replace(s, changes=_with(s, s.movements), movements=()) for s in scenes.all)
        return Scenes(everything, scenes.beyond)
    done = [replace(scene, movements=()) for scene in scenes.all]
    for step in range(len(scenes.all[0].movements) if scenes.all else 0):
        movements = [scene.movements[step] for scene in scenes.all]
        verdict = _one_step(question, made, done, movements)
        if isinstance(verdict, Undecided):
            return verdict
        done = verdict
    return Scenes(tuple(done), scenes.beyond)


def _with(scene: Scene, movements: tuple[Movement, ...]) -> tuple[Change, ...]:
    return (*scene.changes, *(movement.change for movement in movements))


def _one_step(
    question: Question, made: Made, scenes: list[Scene], movements: list[Movement]
) -> list[Scene] | Undecided:
    """The scenes with one more movement each, or with its refusal."""
    rules = [
        rules_for(question.told.rules, question.bound, movement.control, movement.position)
        if _moves(scene, movement)
        else ()
        for scene, movement in zip(scenes, movements, strict=True)
    ]
    asked = [any(rule.only_when is not None for rule in several) for several in rules]
    requests = [
        Request(made, scene.legs, scene.changes, movement.time)
        for scene, movement, ask in zip(scenes, movements, asked, strict=True)
        if ask
    ]
    results = iter(question.workshop.runs(requests))
    out: list[Scene] = []
    for scene, movement, several, ask in zip(scenes, movements, rules, asked, strict=True):
        run = next(results) if ask else None
        if isinstance(run, Outcome) or (run is not None and run.outcome.kind != "done"):
            return Undecided((run if isinstance(run, Outcome) else run.outcome).sentence)
        forbidden = run is not None and any(
            not true_at_end(rule.only_when, run, question.bound, question.told.services)
            for rule in several
            if rule.only_when is not None
        )
        out.append(_refused(scene, movement) if forbidden else _moved(question, scene, movement, several))
    return out


def _moves(scene: Scene, movement: Movement) -> bool:
    """Whether a control is not there already."""
    stands = {**placed_at_end(scene.legs), **{change.input: change.value for change in scene.changes}}
    return abs(stands.get(movement.input, 0.0) - movement.value) > 1e-9


def _refused(scene: Scene, movement: Movement) -> Scene:
    seen = Seen(movement.input, movement.time - scene.clock, None, "", f"held back from {movement.position}")
    return replace(scene, refused=(*scene.refused, seen))


def _moved(question: Question, scene: Scene, movement: Movement, rules: Rules) -> Scene:
    """The scene with a movement and what its rules let happen with it; rules are not put to the latter again."""
    also = tuple(
        one.change for rule in rules for one in course_of(rule.then, question.bound, movement.time, {}).movements
    )
    return replace(scene, changes=(*scene.changes, movement.change, *also))
