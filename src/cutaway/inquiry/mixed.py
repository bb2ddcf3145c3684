"""Statements of how it is built joined with others: what the records settle is taken out before anything is run."""

from dataclasses import dataclass, replace

from cutaway.inquiry.built import built_verdict
from cutaway.inquiry.members import on_subject
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.verdicts import Empty, Fails, Holds, NotModelled, Stated, Verdict
from cutaway.inquiry.withheld import miscounted
from cutaway.language.syntax import And, Built, If, Not, Or, Statement


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of a statement once the records have said their part; stated: what they said of it."""

    statement: Statement
    stated: tuple[Stated, ...] = ()


Settled = Verdict | Left


def without_built(question: Question) -> Settled:
    """The verdict, where the records settle the statement; else what is left of it to run."""
    return _settle(on_subject(question.statement, question.bound), question)


def _settle(statement: Statement, question: Question) -> Settled:
    match statement:
        case Built():
            folder, bound = question.workshop.folder, question.bound
            return miscounted(statement, folder, bound) or built_verdict(statement, folder, bound)
        case And(of=several):
            return _and(statement, [_settle(one, question) for one in several])
        case Or(of=several):
            return _or(statement, [_settle(one, question) for one in several])
        case Not(of=one):
            return _not(statement, _settle(one, question))
        case If(then=then, condition=condition):
            return _if(statement, _settle(then, question), _settle(condition, question))
        case _:
            return Left(statement)


def _and(whole: And, found: list[Settled]) -> Settled:
    """False where one is, and where nothing is left to run, stated."""
    for one in (*(f for f in found if isinstance(f, Fails)), *found):
        if not isinstance(one, (Stated, Left)):
            return one
    stated = tuple(one for one in found if isinstance(one, Stated)) + _stated(found)
    left = [one.statement for one in found if isinstance(one, Left)]
    if not left:
        return _joined(stated)
    return Left(left[0] if len(left) == 1 and len(found) > 1 else replace(whole, of=tuple(left)), stated)


def _or(whole: Or, found: list[Settled]) -> Settled:
    """True where one is stated; what the records deny is taken out."""
    for one in found:
        if isinstance(one, Stated):
            return one
    left = [one for one in found if isinstance(one, Left)]
    unknown = [one for one in found if not isinstance(one, (Left, Fails))]
    if unknown or not left:
        return unknown[0] if unknown else found[-1]
    return Left(
        left[0].statement if len(left) == 1 else replace(whole, of=tuple(o.statement for o in left)), _stated(found)
    )


def _not(whole: Not, found: Settled) -> Settled:
    match found:
        case Left(statement=statement, stated=stated):
            return Left(replace(whole, of=statement), stated)
        case Stated(cites=cites, words=words):
            return Fails(0.0, "built otherwise", (), cites, found=words)
        case Fails(cites=cites, found=words):
            return Stated(cites, words)
        case _:
            return found


def _if(whole: If, then: Settled, condition: Settled) -> Settled:
    if isinstance(then, Left) and isinstance(condition, Left):
        return Left(replace(whole, then=then.statement, condition=condition.statement), then.stated + condition.stated)
    if whole.kind == "if" and isinstance(condition, Fails):
        return Empty(whole.condition.span.text, 1)
    if whole.kind == "if" and isinstance(condition, Stated):
        return Left(then.statement, (*then.stated, condition)) if isinstance(then, Left) else then
    for one in (then, condition):
        if not isinstance(one, (Left, Stated, Fails)):
            return one
    return NotModelled(("this way of joining how it is built with what it does; say them as claims of their own",))


def _stated(found: list[Settled]) -> tuple[Stated, ...]:
    return tuple(stated for one in found if isinstance(one, Left) for stated in one.stated)


def _joined(stated: tuple[Stated, ...]) -> Stated:
    cites = tuple(dict.fromkeys(cite for one in stated for cite in one.cites))
    return Stated(cites, "; ".join(dict.fromkeys(one.words for one in stated)))


def with_stated(verdict: Verdict, stated: tuple[Stated, ...]) -> Verdict:
    """A verdict with the paragraphs behind what the records said besides."""
    if not isinstance(verdict, (Holds, Fails)):
        return verdict
    return replace(verdict, cites=tuple(dict.fromkeys((*verdict.cites, *(c for s in stated for c in s.cites)))))
