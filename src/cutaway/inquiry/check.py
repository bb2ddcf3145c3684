"""A claim put to every standard that it is for."""

from dataclasses import dataclass, replace

from cutaway.inquiry.built import built_verdict
from cutaway.inquiry.judging import Plan, Question, machine_for, plan
from cutaway.inquiry.memory import Memory, cited, key_of
from cutaway.inquiry.positions import NEAREST
from cutaway.inquiry.resting import resting
from cutaway.inquiry.signals import atoms
from cutaway.inquiry.special import is_special, special_verdict
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, RestsOn, Stated, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import And, Built, Claim, Statement
from cutaway.machine.subjects import Subject, subjects


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdict on a claim for one standard (or airframe)."""

    subject: Subject
    verdict: Verdict


def subjects_of(claim: Claim, everyone: tuple[Subject, ...]) -> tuple[Subject, ...]:
    """Those that the claim is for: the ones it names, else every standard (airframes only where named)."""
    if claim.scope.on is None:
        return tuple(s for s in everyone if s.name == s.standard)
    return tuple(s for s in everyone if s.name in claim.scope.on.names)


def judge(
    claim: Claim, workshop: Workshop, told: Told, rests: bool = True, memory: Memory | None = None
) -> tuple[Judged, ...]:
    """One verdict for each subject of the claim.

    rests: whether assumed values are taken to the ends of their ranges. memory: verdicts of earlier sessions by
    content; what stands there is not run again.
    """
    wanted = subjects_of(claim, subjects(workshop.folder))
    return tuple(Judged(s, verdict_for(claim, s, workshop, told, rests, memory)) for s in wanted)


def verdict_for(
    claim: Claim, subject: Subject, workshop: Workshop, told: Told, rests: bool, memory: Memory | None
) -> Verdict:
    """The verdict for one subject."""
    bound, _ = workshop.bound(subject)
    question = Question(claim.statement, claim.scope, bound, told, workshop)
    return _verdict(question, rests, memory)


def _verdict(question: Question, rests: bool, memory: Memory | None) -> Verdict:
    statement = question.statement
    if isinstance(statement, Built):
        return built_verdict(statement, question.workshop.folder, question.bound)
    if isinstance(statement, And) and any(_stands_alone(one) for one in statement.of):
        return _all_of(question, statement, rests, memory)
    if is_special(statement):
        return special_verdict(question)
    if any(_stands_alone(atom) for atom in atoms(statement, question.told.services)):
        return NotModelled(("this way of joining such statements; say them as claims of their own",))
    return _behaviour(question, rests, memory)


def _stands_alone(statement: Statement) -> bool:
    return isinstance(statement, Built) or is_special(statement)


def _all_of(question: Question, statement: And, rests: bool, memory: Memory | None) -> Verdict:
    """Statements of different sorts joined by 'and': the first that is not true decides."""
    verdicts = [_verdict(replace(question, statement=one), rests, memory) for one in statement.of]
    for verdict in verdicts:
        if not isinstance(verdict, (Holds, Stated)):
            return verdict
    ran = [v for v in verdicts if isinstance(v, Holds)]
    cites = tuple(dict.fromkeys(c for v in verdicts if isinstance(v, (Holds, Stated)) for c in v.cites))
    if not ran:
        return Stated(cites, "; ".join(v.words for v in verdicts if isinstance(v, Stated)))
    return replace(ran[0], cites=cites)


def _behaviour(question: Question, rests: bool, memory: Memory | None) -> Verdict:
    made = machine_for(question)
    if isinstance(made, NotModelled):
        return made
    key = key_of(question, made, rests) if memory is not None else ""
    if memory is not None:
        known = memory.get(key)
        if known is not None:
            return cited(known, question)
    if question.scope.modality:
        near, _ = _concluded(question, plan(question, made, NEAREST))
        decisive = Holds if question.scope.modality == "sometimes" else Fails
        if isinstance(near, decisive):
            return near
    verdict, margin = _concluded(question, asked := plan(question, made))
    if rests and isinstance(verdict, (Holds, Fails)) and asked.requests:
        verdict = resting(question, made, verdict, margin)
    if memory is not None and isinstance(verdict, (Holds, Fails, RestsOn)):
        memory.put(key, verdict)
    return verdict


def _concluded(question: Question, asked: Plan) -> tuple[Verdict, float | None]:
    return asked.conclude(question.workshop.runs(asked.requests))
