"""A question made ready: its groups as the subject has them, its movements as what lets them through, its test bench;
then the machine and the plan that answer it, whatever sort of statement it is."""

from dataclasses import replace

from cutaway.inquiry.bench import bench_plan, on_bench
from cutaway.inquiry.judging import Plan, machine_for, plan
from cutaway.inquiry.members import on_subject, scope_on_subject
from cutaway.inquiry.positions import MOST_COMBINATIONS
from cutaway.inquiry.rules import rules_for
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.special import Special, special_plan
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import NotModelled
from cutaway.inquiry.workshop import Made
from cutaway.language.syntax import And, CanMove, ComesOnAt, Earlier, If, Not, Or, Statement


def ready(question: Question) -> Question | NotModelled:
    """The question as it is answered; or what is missing for it."""
    bound = question.bound
    question = replace(
        question,
        statement=_let_through(on_subject(question.statement, bound), question),
        scope=scope_on_subject(question.scope, bound),
        told=_told(question),
    )
    if isinstance(question.statement, ComesOnAt):
        return on_bench(question, question.statement)
    return question


def _told(question: Question) -> Told:
    """What the folder tells, with its services as the subject has them."""
    services = {
        name: _let_through(on_subject(statement, question.bound), question)
        for name, statement in question.told.services.items()
    }
    return replace(question.told, services=services)


def _let_through(statement: Statement, question: Question) -> Statement:
    """A movement stands for what its rules ask: it can be made when all that is so."""
    match statement:
        case CanMove(control=control, position=position, negated=negated, span=span):
            if (control.part, control.control) not in question.bound.controls:
                return statement
            rules = rules_for(question.told.rules, question.bound, control, position)
            asked = And(tuple(r.only_when for r in rules if r.only_when is not None), span)
            return Not(asked, span) if negated else asked
        case And(of=several) | Or(of=several):
            return replace(statement, of=tuple(_let_through(one, question) for one in several))
        case Not(of=one):
            return replace(statement, of=_let_through(one, question))
        case If(then=then, condition=condition):
            return replace(statement, then=_let_through(then, question), condition=_let_through(condition, question))
        case Earlier(first=first, second=second):
            return replace(statement, first=_let_through(first, question), second=_let_through(second, question))
        case _:
            return statement


def certain(statement: Statement) -> bool | None:
    """Whether a statement is true whatever happens, as of a control without rules that it can be moved; else None."""
    match statement:
        case And(of=several):
            return True if all(certain(one) for one in several) else None
        case Not(of=one):
            inner = certain(one)
            return None if inner is None else not inner
        case _:
            return None


def machine_of(question: Question) -> Made | NotModelled:
    """The machine of the stated values that answers a question made ready."""
    return machine_for(question, question.statement)


def plan_of(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Plan:
    """The plan for a question made ready, over a given machine."""
    statement = question.statement
    if isinstance(statement, ComesOnAt):
        return bench_plan(question, statement, made)
    if isinstance(statement, Special):
        return special_plan(question, statement, made)
    return plan(question, made, most)
