"""What some indications show in a scope at its moment, on one subject or another."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.inquiry.asking import ready
from cutaway.inquiry.judging import request_for, scenes_of, unanswered
from cutaway.inquiry.members import scope_on_subject
from cutaway.inquiry.questions.indications import Indication, alike, indications, shown_at_end, signals_of
from cutaway.inquiry.quiz.proving import Setter, order_of
from cutaway.inquiry.quiz.records import Trap
from cutaway.inquiry.rules import needed_by_rules
from cutaway.inquiry.scenes import Question, Scenes
from cutaway.inquiry.verdicts import Seen
from cutaway.language.print_back import printed_actions, printed_given, printed_scope
from cutaway.language.syntax import And, Condition, FailureChoice, Held, Scope, When
from cutaway.machine.records import Run
from cutaway.machine.subjects import Subject, subjects

OTHER_SITUATIONS = 3
"""How many other situations a case is held against. A choice of ours."""


@dataclass(frozen=True, slots=True)
class Variant:
    """Another case that somebody might take the question for."""

    trap: Trap
    subject: Subject
    scope: Scope


def shown(
    setter: Setter, subject: Subject, scope: Scope, several: Sequence[Indication], steady: bool = False
) -> dict[Indication, Seen] | None:
    """What each of some indications shows; None where the case cannot be run. Those that the subject lacks are left
    out. steady: those too that show one thing at the situation's end and another after a rest."""
    bound, _ = setter.workshop.bound(subject)
    mine = [one for one in indications(bound) if one in set(several)]
    question = Question(And((), scope.span), replace(scope, on=None), bound, setter.told, setter.workshop)
    asked = ready(replace(question, scope=scope_on_subject(question.scope, bound)))
    if not isinstance(asked, Question):
        return None
    by_rules, missing = needed_by_rules(asked)
    if missing:
        return None
    made = setter.workshop.made(bound, signals_of(mine) | by_rules)
    scenes = scenes_of(asked, made)
    if not isinstance(scenes, Scenes) or len(scenes.all) != 1:
        return None
    scene = scenes.all[0]
    (run,) = setter.workshop.runs([request_for(asked, made, scene)])
    if unanswered(run) is not None or not isinstance(run, Run):
        return None
    if scope.when.kind == "at":
        # Up to the moment, and no further: what comes after it is not asked.
        upto = int((run.times <= scene.clock + scope.when.first + 1e-9).sum())
        run = replace(run, times=run.times[:upto], values=run.values[:upto])
    found = {one: shown_at_end(one, run) for one in mine}
    if steady:
        upto = int((run.times <= scene.clock + 1e-9).sum())
        begins = replace(run, times=run.times[:upto], values=run.values[:upto])
        found = {one: seen for one, seen in found.items() if alike(seen, shown_at_end(one, begins))}
    return found


def variants(setter: Setter, of: Variant) -> tuple[Variant, ...]:
    """The cases that one could be taken for: on another mark, before anything is done, with what is given overlooked,
    by the last action alone, in another situation with nothing given and nothing done."""
    subject, scope = of.subject, of.scope
    # What is done is done at the situation's end, where things need not have come to rest.
    at_its_end = replace(scope, actions=(), when=When("at", 0.0))
    plain = replace(scope, actions=(), failures=(), conditions=(), held=(), when=When())
    found: list[Variant] = []
    if scope.actions:
        found.append(Variant(Trap("before"), subject, at_its_end))
    if len(scope.actions) > 1:
        found.append(Variant(Trap("last alone", printed_actions(scope.actions[-1:])), subject, last_alone(scope)))
    given: list[FailureChoice | Condition | Held] = [*scope.failures, *scope.conditions, *scope.held]
    if given:
        words = ", ".join(printed_given(one) for one in given)
        found.append(Variant(Trap("overlooked", words), subject, replace(scope, failures=(), conditions=(), held=())))
    for other in subjects(setter.folder):
        if other.name == other.standard and other.name != subject.name:
            found.append(Variant(Trap("other mark", str(other.name)), other, scope))
    names = [one.name for one in setter.folder.situations if one.name != scope.situation]
    for name in sorted(names, key=lambda one: order_of(printed_scope(plain), one))[:OTHER_SITUATIONS]:
        found.append(Variant(Trap("other situation", name), subject, replace(plain, situation=name)))
    return tuple(found)


def last_alone(scope: Scope) -> Scope:
    """The scope with nothing done but the last action."""
    return replace(scope, actions=scope.actions[-1:])
