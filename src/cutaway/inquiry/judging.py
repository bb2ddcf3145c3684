"""A statement of what it does, in a scope, on one subject: the runs that it needs, and what they come to.

A plan is made first and concluded later, so that many plans (claims, ends of assumed ranges) can be run as one batch.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cutaway.handbook.records import Cite
from cutaway.inquiry.deciding import Decision, decide, decide_order, further, horizon
from cutaway.inquiry.evidence import cites_of, seen_at
from cutaway.inquiry.positions import MOST_COMBINATIONS
from cutaway.inquiry.rules import needed_by_rules, obeying
from cutaway.inquiry.scenes import Question, Scene, Scenes, planned
from cutaway.inquiry.signals import needed
from cutaway.inquiry.truth import leeway, true_at_end, truth
from cutaway.inquiry.verdicts import Empty, Fails, Holds, NotModelled, Seen, Setup, Undecided, Verdict
from cutaway.inquiry.workshop import Made, Request, Until
from cutaway.language.syntax import And, Earlier, If, Statement
from cutaway.machine.records import Outcome, Run

Results = Sequence[Run | Outcome]
Concluded = tuple[Verdict, float | None]


@dataclass(frozen=True, slots=True)
class Plan:
    """requests: the runs wanted. conclude: the verdict from them, with the margin of the scene that decides."""

    requests: tuple[Request, ...]
    conclude: Callable[[Results], Concluded]


def settled_plan(verdict: Verdict) -> Plan:
    """A plan that needs no run."""
    return Plan((), lambda _: (verdict, None))


def machine_for(question: Question, statement: Statement) -> Made | NotModelled:
    """The machine of the stated values over all that can reach a statement and the rules of what the scope moves, or
    what is missing for it."""
    need = needed(statement, question.bound, question.told.services)
    by_rules, missing = needed_by_rules(question)
    if need.missing or missing:
        return NotModelled(tuple(dict.fromkeys((*need.missing, *missing))))
    return question.workshop.made(question.bound, need.signals | by_rules)


def scenes_of(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Scenes | NotModelled | Undecided:
    """Every scene that the scope asks for, up to a bound, its movements put to their rules."""
    scenes = planned(question, made, most)
    return scenes if isinstance(scenes, NotModelled) else obeying(question, made, scenes)


def plan(question: Question, made: Made, most: int = MOST_COMBINATIONS) -> Plan:
    """The plan over a given machine (that of the stated values, or one with a value at an end of its range).

    most: how many combinations of positions to go through, the nearest first.
    """
    scenes = scenes_of(question, made, most)
    if isinstance(scenes, (NotModelled, Undecided)):
        return settled_plan(scenes)
    requests = tuple(request_for(question, made, scene) for scene in scenes.all)
    return Plan(requests, lambda results: _conclude(question, made, scenes, results))


def request_for(question: Question, made: Made, scene: Scene) -> Request:
    """The run that a scene wants, its movements put to their rules."""
    length, until = _length(question, scene)
    return Request(made, scene.legs, scene.changes, length, until)


def _length(question: Question, scene: Scene) -> tuple[float, Until]:
    """How long a scene is run, and until what; for what comes first, until nothing can come any more."""
    seconds, until = horizon(question.scope.when, scene.clock)
    return seconds, "rest" if isinstance(question.statement, Earlier) and until == "calm" else until


def unanswered(result: Run | Outcome) -> Undecided | None:
    """Why a run answers nothing, None where it does."""
    outcome = result if isinstance(result, Outcome) else result.outcome
    return None if outcome.kind == "done" else Undecided(outcome.sentence)


@dataclass(frozen=True, slots=True, eq=False)
class Looked:
    """A scene that was run, and what is decided by it. arises: whether the condition of each 'if' came about in it."""

    scene: Scene
    run: Run
    decision: Decision
    arises: tuple[bool, ...]


def _conclude(question: Question, made: Made, scenes: Scenes, results: Results) -> Concluded:
    """'sometimes' looks for a scene that is true, everything else for one that is not; the plainest such decides. Where
    there is none, a scene that could not be settled leaves the whole undecided."""
    sometimes = question.scope.modality == "sometimes"
    looked: list[Looked] = []
    unsettled: Undecided | None = None
    for scene, result in zip(scenes.all, results, strict=True):
        one = looked_at(question, scene, result)
        if isinstance(one, Undecided):
            unsettled = unsettled or one
        elif one.decision.holds == sometimes and (not sometimes or all(one.arises)):
            return _decided(question, made, one, len(scenes.all)), one.decision.margin
        else:
            looked.append(one)
    if unsettled is not None or scenes.beyond:
        return unsettled or Undecided(scenes.beyond), None
    for i, condition in enumerate(_premises(question.statement)):
        if not any(one.arises[i] for one in looked):
            return Empty(condition.span.text, len(scenes.all)), None
    return _all_alike(question, looked), _tightest(looked)


def looked_at(question: Question, scene: Scene, result: Run | Outcome) -> Looked | Undecided:
    """What a scene's run decides, or why it decides nothing."""
    nothing = unanswered(result)
    if nothing is not None:
        return nothing
    assert isinstance(result, Run)
    decision = _decision(question, scene, result)
    if isinstance(decision, Undecided):
        return decision
    return Looked(
        scene, result, decision, tuple(_arises(question, one, scene, result) for one in _premises(question.statement))
    )


def _decision(question: Question, scene: Scene, run: Run) -> Decision | Undecided:
    services, when, statement = question.told.services, question.scope.when, question.statement
    if isinstance(statement, Earlier):
        order = [truth(one, run, question.bound, services) for one in (statement.first, statement.second)]
        return decide_order(when, order[0], order[1], scene.clock)
    times = truth(statement, run, question.bound, services)
    if when.kind == "settled":
        # Not at rest, yet the answer has long been the same: that is settled enough to say.
        quiet = times.until * 0.5
        if run.certificate.rest < 0.0 and any(
            quiet < edge < times.until for stretch in times.stretches for edge in stretch
        ):
            return Undecided(f"it does not come to rest within {times.until:.0f} s")
        so = true_at_end(statement, run, question.bound, services)
        decision = Decision(so, times.until - scene.clock, "" if so else "not so")
    else:
        decision = decide(when, times, scene.clock)
    if when.kind in ("settled", "at"):
        away = leeway(statement, run, question.bound, services, scene.clock + decision.at)
        return replace(decision, margin=away)
    return decision


def _premises(statement: Statement) -> tuple[Statement, ...]:
    """What must come about for the statement to say anything: the conditions of 'A if B' and 'A only if B'."""
    match statement:
        case If(condition=condition, kind="if"):
            return (condition,)
        case If(then=then, kind="only if"):
            return (then,)
        case And(of=several):
            return tuple(premise for one in several for premise in _premises(one))
        case _:
            return ()


def _arises(question: Question, premise: Statement, scene: Scene, run: Run) -> bool:
    """Whether a condition comes about when the claim looks."""
    services, when = question.told.services, question.scope.when
    if when.kind == "settled":
        return true_at_end(premise, run, question.bound, services)
    times = truth(premise, run, question.bound, services)
    if when.kind == "at":
        return times.holds_at(scene.clock + when.first)
    return times.first(scene.clock) is not None


def _all_alike(question: Question, looked: Sequence[Looked]) -> Verdict:
    """The verdict where no scene was the other way."""
    cites, plainest = cites_behind(question), looked[0]
    seen = _seen(question, plainest)
    if question.scope.modality == "sometimes":
        return Fails(plainest.decision.at, "no case", seen, cites, tried=len(looked))
    return Holds(plainest.decision.at, seen, cites, len(looked))


def _tightest(looked: Sequence[Looked]) -> float | None:
    margins = [one.decision.margin for one in looked if one.decision.margin is not None]
    return min(margins, key=abs, default=None)


def _decided(question: Question, made: Made, one: Looked, tried: int) -> Verdict:
    """The verdict where one scene decides: the witness of 'sometimes', the counterexample of anything else."""
    cites = cites_behind(question)
    if question.scope.modality == "sometimes":
        return Holds(one.decision.at, _seen(question, one), cites, tried, Setup(one.scene.chosen))
    one = _later(question, made, one)
    chosen = one.scene.chosen
    counter = Setup(chosen) if chosen or question.scope.modality else None
    why = "refused" if one.scene.refused else one.decision.why
    assert why
    return Fails(one.decision.at, why, _seen(question, one), cites, counter, tried=tried)


def _later(question: Question, made: Made, one: Looked) -> Looked:
    """What never came in time is watched for longer, to say when it comes."""
    when, scene = question.scope.when, one.scene
    late = one.decision.why == "never came" and when.kind in ("within", "takes")
    if not late or isinstance(question.statement, Earlier):
        return one
    (later,) = question.workshop.runs([Request(made, scene.legs, scene.changes, further(when, scene.clock))])
    if unanswered(later) is not None or not isinstance(later, Run):
        return one
    since = truth(question.statement, later, question.bound, question.told.services).first(scene.clock)
    if since is None:
        return one
    return replace(one, run=later, decision=Decision(False, since - scene.clock, "too late"))


def cites_behind(question: Question) -> tuple[Cite, ...]:
    """The paragraphs behind what a question speaks of."""
    return cites_of(question.statement, question.scope, question.bound, question.told.services)


def _seen(question: Question, one: Looked) -> tuple[Seen, ...]:
    clock = one.scene.clock
    moment = min(clock + one.decision.at, float(one.run.times[-1]))
    seen = seen_at(question.statement, one.run, question.bound, question.told.services, moment, clock)
    return (*one.scene.refused, *seen)
