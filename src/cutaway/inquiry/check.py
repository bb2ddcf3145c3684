"""A claim put to every standard that it is for."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from cutaway.handbook.records import Cite
from cutaway.inquiry.asking import certain, machine_of, plan_of, ready
from cutaway.inquiry.judging import cites_behind
from cutaway.inquiry.likeliest import Sensed
from cutaway.inquiry.memory import Memory, cited, key_of
from cutaway.inquiry.mixed import Left, with_stated, without_built
from cutaway.inquiry.positions import MOST_COMBINATIONS, NEAREST
from cutaway.inquiry.resting import Bench, resting
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.signals import Services
from cutaway.inquiry.special import Special
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import NOT_YET, Empty, Fails, Holds, NotModelled, RestsOn, Stated, Verdict
from cutaway.inquiry.withheld import withheld
from cutaway.inquiry.workshop import Made, Workshop
from cutaway.language.syntax import And, Built, CanMove, Claim, ComesOnAt, Earlier, If, Not, Or, Served, Statement
from cutaway.machine.subjects import Subject, subjects


@dataclass(frozen=True, slots=True)
class Judged:
    """The verdict on a claim for one standard (or airframe)."""

    subject: Subject
    verdict: Verdict


Stop = Callable[[], bool]


def never() -> bool:
    """A stop that never comes."""
    return False


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
    claim: Claim,
    subject: Subject,
    workshop: Workshop,
    told: Told,
    rests: bool,
    memory: Memory | None,
    stop: Stop = never,
    sensed: Sensed | None = None,
    quick: bool = False,
) -> Verdict:
    """The verdict for one subject. stop: asked now and then whether assumed values are to be left for another time;
    what came of those that were tried is remembered. sensed: what assumed values did to other verdicts; quick: whether
    only the likeliest of them are tried, so that all the others are left for another time."""
    question = question_of(claim, subject, workshop, told)
    settled = without_built(question)
    if not isinstance(settled, Left):
        return settled
    verdict = _verdict(replace(question, statement=settled.statement), _How(rests, memory, stop, sensed, quick))
    return with_stated(verdict, settled.stated)


def question_of(claim: Claim, subject: Subject, workshop: Workshop, told: Told) -> Question:
    """A claim as it is asked of one subject."""
    bound, _ = workshop.bound(subject)
    return Question(claim.statement, claim.scope, bound, told, workshop)


@dataclass(frozen=True, slots=True)
class _How:
    """How a verdict is found: see `verdict_for`."""

    rests: bool
    memory: Memory | None
    stop: Stop
    sensed: Sensed | None = None
    quick: bool = False


def _verdict(question: Question, how: _How) -> Verdict:
    statement = question.statement
    if isinstance(statement, And) and is_joined(statement):
        return _all_of(question, statement, how)
    if any(_unreadable(one, question.told.services) for one in _parts_of(statement)):
        return NotModelled(("this way of joining such statements; say them as claims of their own",))
    return _moved(question, _answered(question, how))


def is_joined(statement: Statement) -> bool:
    """Whether a statement joins others of which one is answered by itself, so that each is put for itself."""
    return isinstance(statement, And) and any(_stands_alone(one) for one in statement.of)


def first_bound(question: Question) -> int:
    """How many combinations of positions are tried first: over positions the nearest, since they often decide."""
    return NEAREST if question.scope.modality else MOST_COMBINATIONS


def _stands_alone(statement: Statement) -> bool:
    """Whether a statement is answered by itself, from runs of its own."""
    return isinstance(statement, Special | ComesOnAt | Earlier)


def _parts_of(statement: Statement) -> tuple[Statement, ...]:
    """What a statement is made of, the meaning of services left alone."""
    match statement:
        case And(of=several) | Or(of=several):
            return several
        case Not(of=one):
            return (one,)
        case If(then=then, condition=condition):
            return (then, condition)
        case Earlier(first=first, second=second):
            return (first, second)
        case Served():
            return (statement,)
        case _:
            return ()


def _unreadable(statement: Statement, services: Services) -> bool:
    """Whether there is something inside that cannot be read off a run as it goes."""
    if isinstance(statement, Built) or _stands_alone(statement):
        return True
    if isinstance(statement, Served):
        meant = services.get(statement.service)
        return meant is not None and _unreadable(meant, services)
    return any(_unreadable(one, services) for one in _parts_of(statement))


def _all_of(question: Question, statement: And, how: _How) -> Verdict:
    """Statements of different sorts joined by 'and': the first that is not true decides."""
    if question.scope.modality == "sometimes":
        return NotModelled(("'sometimes' over statements of different sorts; say them as claims of their own",))
    alone = tuple(one for one in statement.of if _stands_alone(one))
    others = tuple(one for one in statement.of if not _stands_alone(one))
    together: tuple[Statement, ...] = (replace(statement, of=others),) if len(others) > 1 else others
    verdicts = [_verdict(replace(question, statement=one), how) for one in (*together, *alone)]
    for verdict in verdicts:
        if not isinstance(verdict, (Holds, Stated)):
            return verdict
    cites = tuple(dict.fromkeys(c for v in verdicts if isinstance(v, (Holds, Stated)) for c in v.cites))
    ran = [v for v in verdicts if isinstance(v, Holds)]
    return replace(ran[0], cites=cites)


def _moved(question: Question, verdict: Verdict) -> Verdict:
    """A verdict on a movement in its own words, with the paragraphs of what is moved."""
    statement = question.statement
    if not isinstance(statement, CanMove):
        return verdict
    cites = cites_behind(question)
    match verdict:
        case RestsOn(nominal=nominal):
            inner = _moved(question, nominal)
            return replace(verdict, nominal=inner) if isinstance(inner, Holds | Fails) else verdict
        case Fails():
            return replace(verdict, why="moved" if statement.negated else "refused", cites=_both(cites, verdict.cites))
        case Holds():
            return replace(verdict, cites=_both(cites, verdict.cites))
        case _:
            return verdict


def _both(one: tuple[Cite, ...], other: tuple[Cite, ...]) -> tuple[Cite, ...]:
    return tuple({(cite.source, cite.number): cite for cite in (*other, *one)}.values())


def put_to_machine(question: Question) -> tuple[Question, Made] | Verdict:
    """The question made ready with the machine that answers it; or its verdict, where nothing need be run for it."""
    asked = ready(question)
    if isinstance(asked, NotModelled):
        return asked
    beyond_doubt = certain(asked.statement)
    if beyond_doubt is not None:
        return (
            Holds(0.0, (), cites_behind(question)) if beyond_doubt else Fails(0.0, "not so", (), cites_behind(question))
        )
    made = machine_of(asked)
    if isinstance(made, NotModelled):
        return made
    return asked, made


def _answered(question: Question, how: _How) -> Verdict:
    put = put_to_machine(question)
    if not isinstance(put, tuple):
        return put
    asked, made = put
    lacking = withheld(made.network, question.workshop.folder, asked.bound)
    if lacking is not None:
        return lacking
    key = key_of(asked, made, how.rests) if how.memory is not None else ""
    known = how.memory.get(key) if how.memory is not None else None
    if known is not None:
        return cited(known, asked)
    if how.rests:
        question.workshop.expected(asked.bound, made)
        if how.stop():  # as stated now, what it rests on another time
            stated = _answered(question, replace(how, rests=False))
            return replace(stated, assumed=NOT_YET) if isinstance(stated, Holds | Fails) else stated
    verdict = _ran(asked, made, how)
    if how.memory is not None and isinstance(verdict, Holds | Fails | RestsOn | Empty) and not not_yet(verdict):
        how.memory.put(key, verdict)
    return verdict


def not_yet(verdict: object) -> bool:
    """Whether something is a verdict behind which assumed values are still to be tried."""
    stated = verdict.nominal if isinstance(verdict, RestsOn) else verdict
    return isinstance(stated, Holds | Fails) and stated.assumed == NOT_YET


def _ran(question: Question, made: Made, how: _How) -> Verdict:
    """The verdict from runs."""
    decisive = Holds if question.scope.modality == "sometimes" else Fails
    for most in dict.fromkeys((first_bound(question), MOST_COMBINATIONS)):
        asked = plan_of(question, made, most)
        verdict, margin = asked.conclude(question.workshop.runs(asked.requests))
        if isinstance(verdict, decisive):
            break
    if how.rests and isinstance(verdict, Holds | Fails) and asked.requests:
        return resting(_bench(question, made, how), verdict, margin)
    return verdict


def _bench(question: Question, made: Made, how: _How) -> Bench:
    """Where assumed values are varied; what came of them in an earlier session is found there."""
    over = question.workshop.widest(question.bound, made)
    memory, sensed = how.memory, how.sensed or Sensed()
    if memory is None:
        return Bench(question, made, over, stop=how.stop, sensed=sensed, quick=how.quick)
    key = key_of(question, made, False)
    came = memory.came(key)
    return Bench(question, made, over, came, lambda one: memory.put_came(key, one), how.stop, sensed, how.quick)
