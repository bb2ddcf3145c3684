"""What a drill claims: that each of its sights is seen once all that was done so far is done."""

from cutaway.handbook.records import Drill, Step
from cutaway.language.claims import Done, Looked, ParsedClaims
from cutaway.language.syntax import Action, Claim, Scope, Wait, When
from cutaway.problems.span import Span

# How long a crew watches for what a drill says should be seen, and how long it takes from one step to the next, s.
# Choices of ours.
DRILL_WATCH = 60.0
BETWEEN_STEPS = 5.0


def drill_claims(drill: Drill, parsed: ParsedClaims) -> tuple[tuple[Step, tuple[Claim, ...]], ...]:
    """Each step with the claims that its sights come to: all that was done so far, then within a minute it is seen.

    From the first step on of which something was not understood nothing is claimed, as it may have had to be done.
    """
    done: list[Action] = []
    lost = False
    out: list[tuple[Step, tuple[Claim, ...]]] = []
    for step in (one for one in parsed.steps if one.drill == drill.name):
        actions = [action for mark in step.marks if isinstance(mark, Done) for action in mark.actions]
        if done and actions:
            done.append(Wait(BETWEEN_STEPS, step.step.span))
        done.extend(actions)
        lost = lost or len(step.marks) < len(step.step.marks)
        sights = [] if lost else [mark.statement for mark in step.marks if isinstance(mark, Looked)]
        out.append((step.step, tuple(Claim(_after(drill, tuple(done), s.span), s, s.span) for s in sights)))
    return tuple(out)


def _after(drill: Drill, done: tuple[Action, ...], span: Span) -> Scope:
    on = drill.on if drill.on.words else None
    return Scope(on, drill.situation, (), (), (), done, When("within", DRILL_WATCH), "", span)
