"""Which step of a drill matters: the one without which something is not seen, among those that could be left out."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from cutaway.handbook.records import Drill
from cutaway.inquiry.quiz.candidates import Candidate, case_of, parts_in, system_of
from cutaway.inquiry.quiz.proving import Setter, arranged, claim_text, option, order_of, proof
from cutaway.inquiry.quiz.records import Option, QuizQuestion, StepOf, Trap, WhichStep
from cutaway.language.claims import Done, Looked, ParsedStep
from cutaway.language.print_back import printed
from cutaway.language.syntax import Action, Claim, Scope, Statement, Wait, When
from cutaway.machine.subjects import Subject


@dataclass(frozen=True, slots=True)
class Pace:
    """between: how long it takes from one step to the next; watch: how long is watched for a sight; s."""

    between: float
    watch: float


def step_candidates(setter: Setter, among: tuple[Subject, ...], pace: Pace) -> Iterator[Candidate]:
    """A question for each sight of each drill, on each standard that the drill is for."""
    for drill in setter.folder.drills:
        steps = tuple(one for one in setter.parsed.steps if one.drill == drill.name)
        if any(len(one.marks) < len(one.step.marks) for one in steps):
            continue  # of a drill that is not understood whole nothing is asked
        for subject in (s for s in among if not drill.on.words or s.name in drill.on.names):
            for i, step in enumerate(steps):
                for sight in (mark.statement for mark in step.marks if isinstance(mark, Looked)):
                    key = f"step; {subject.name}; {drill.name}; {step.step.number}; {printed(sight)}"
                    system = system_of(setter, parts_in(sight, setter))
                    make = partial(_question, setter, subject, drill, steps[: i + 1], sight, pace, system, key)
                    yield Candidate(key, "step", subject, system, make)


def _question(
    setter: Setter,
    subject: Subject,
    drill: Drill,
    steps: tuple[ParsedStep, ...],
    sight: Statement,
    pace: Pace,
    system: str,
    key: str,
) -> QuizQuestion | None:
    acting = [one for one in steps if _actions(one)]
    whole = _scope(drill, acting, pace, sight)
    seen = proof(setter, subject, claim_text(setter.folder, subject, whole, printed(sight)), holds=True)
    if seen is None or not seen.agrees or len(acting) < 2:
        return None
    needed: Option | None = None
    idle: list[Option] = []
    # That the step itself is needed in which a thing is seen, everybody would say.
    for left in sorted(acting, key=lambda one: (one is steps[-1], order_of(key, one.step.text))):
        scope = _scope(drill, [one for one in acting if one is not left], pace, sight)
        text = claim_text(setter.folder, subject, scope, printed(sight))
        of = StepOf(left.step.number, _actions(left))
        found = option(setter, subject, text, of, Trap("needless"), holds=False)
        if found is None:
            continue
        if not found.right:
            idle.append(found)
        elif needed is None:
            needed = replace(found, trap=Trap(""))
    if needed is None:
        return None
    options = arranged(key, needed, idle)
    if options is None:
        return None
    asked = WhichStep(drill.title or drill.name, Claim(whole, sight, sight.span), steps[-1].step.number)
    return QuizQuestion(key, "step", subject, system, asked, options, case=case_of(whole))


def _actions(step: ParsedStep) -> tuple[Action, ...]:
    return tuple(action for mark in step.marks if isinstance(mark, Done) for action in mark.actions)


def _scope(drill: Drill, steps: list[ParsedStep], pace: Pace, sight: Statement) -> Scope:
    """The drill's situation with these steps done, one after the other."""
    done: list[Action] = []
    for step in steps:
        done += [Wait(pace.between, step.step.span)] if done else []
        done += _actions(step)
    return Scope(None, drill.situation, (), (), (), tuple(done), When("within", pace.watch), "", sight.span)
