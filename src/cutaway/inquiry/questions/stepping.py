"""A drill as it is gone through: what has been done by the end of each step."""

from cutaway.handbook.records import Drill
from cutaway.language.claims import Done, ParsedClaims
from cutaway.language.syntax import Action, Wait

# How long it takes from one step to the next, and how long a crew looks when the drill is over, s; as for a drill's
# sights.
BETWEEN_STEPS = 5.0
AFTERWARDS = 60.0


def step_moments(drill: Drill, parsed: ParsedClaims) -> tuple[tuple[int, tuple[Action, ...]], ...]:
    """The number of each step that does something, with all that was done by its end and the moment until the next.

    From the first step on of which something was not understood nothing is told, as it may have had to be done.
    """
    done: list[Action] = []
    out: list[tuple[int, tuple[Action, ...]]] = []
    for step in (one for one in parsed.steps if one.drill == drill.name):
        if len(step.marks) < len(step.step.marks):
            break
        actions = [action for mark in step.marks if isinstance(mark, Done) for action in mark.actions]
        if actions:
            done += [*actions, Wait(BETWEEN_STEPS, step.step.span)]
            out.append((step.step.number, tuple(done)))
    if out:
        number, actions_so_far = out[-1]
        out[-1] = (number, (*actions_so_far[:-1], Wait(AFTERWARDS, actions_so_far[-1].span)))
    return tuple(out)
