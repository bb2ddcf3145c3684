"""Other times for a claim that fails by its time alone."""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

from cutaway.inquiry.verdicts import Fails, Holds, Verdict
from cutaway.language.syntax import Claim, When

# How much longer than it claims a thing is watched for at most, as in `deciding`.
LONGER = 4.0


def other_moments(claim: Claim, fails: Fails, judged: Callable[[Claim], Verdict]) -> Iterator[When]:
    """Times with which the claim may be true, the nearest to its own first; each still has to be judged.

    judged: puts a claim to the subject, to see when something comes about that 'at' has missed.
    """
    when = claim.scope.when
    match when.kind, fails.why:
        case "within", "too late":
            yield When("within", later(fails.at))
        case "takes", "too late":
            yield When("takes", when.first, later(fails.at))
            yield When("takes", earlier(fails.at), later(fails.at))
        case "takes", "too early":
            yield When("takes", earlier(fails.at), when.second)
        case "throughout", "stopped being so" if fails.at > 0.0:
            yield When("throughout", earlier(fails.at))
        case "at", "not so":
            watched = When("within", when.first * LONGER + 60.0)
            found = judged(replace(claim, scope=replace(claim.scope, when=watched)))
            if isinstance(found, Holds) and found.at > when.first:
                yield When("at", later(found.at))
        case _:
            return


def later(seconds: float) -> float:
    """The next time after a moment that one would say: tenths below ten seconds, whole ones, then tens.

    >>> later(4.41), later(47.2), later(131.0)
    (4.5, 48.0, 140.0)
    """
    step = _step(seconds)
    return round(step * (math.floor(seconds / step + 1e-9) + 1), 6)


def earlier(seconds: float) -> float:
    """The last time before a moment that one would say.

    >>> earlier(4.41), earlier(47.2), earlier(131.0)
    (4.4, 47.0, 130.0)
    """
    step = _step(seconds)
    return max(0.0, round(step * (math.ceil(seconds / step - 1e-9) - 1), 6))


def _step(seconds: float) -> float:
    return 0.1 if seconds < 10.0 else 1.0 if seconds < 120.0 else 10.0
