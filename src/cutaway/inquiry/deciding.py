"""Whether a statement is true in a run when the claim says it should be."""

from dataclasses import dataclass
from typing import Literal

from cutaway.inquiry.spans_of_time import Times
from cutaway.inquiry.workshop import Until
from cutaway.language.syntax import When

# How long a model is given to come to rest, s, and how many times the time asked it is watched besides, to say when a
# late thing comes. Choices of ours.
LONGEST_REST = 3600.0
LOOK_FURTHER = 3.0


@dataclass(frozen=True, slots=True)
class Decision:
    """holds: the answer. at: the moment that decides it, s from the clock's start. why: the failure's sort, '' if none.

    margin: how far from turning over, in seconds, for ranking what has influence; None where there is no such number.
    """

    holds: bool
    at: float
    why: Literal["", "never came", "too late", "too early", "stopped being so", "was so", "not so", "order"]
    margin: float | None = None


def horizon(when: When, clock: float) -> tuple[float, Until]:
    """How long to run at most, s from the start, and until what.

    'settled' is read once it is calm: nothing moves but what tanks, batteries and bottles slowly gain or lose. 'never'
    is watched until nothing moves at all.
    """
    if when.kind == "settled":
        return clock + LONGEST_REST, "calm"
    if when.kind == "never":
        return clock + LONGEST_REST, "rest"
    return clock + (when.second if when.kind == "takes" else when.first), "end"


def further(when: When, clock: float) -> float:
    """How long to run to see when something comes that did not come in time, s."""
    asked = when.second if when.kind == "takes" else when.first
    return clock + asked * (1.0 + LOOK_FURTHER) + 60.0


def decide(when: When, times: Times, clock: float) -> Decision:
    """The decision from the stretches in which the statement is true in a run long enough (see `horizon`)."""
    first = times.first(clock)
    since = (first - clock) if first is not None else None
    match when.kind:
        case "settled":
            so = times.holds_at(times.until)
            return Decision(so, times.until - clock, "" if so else "not so")
        case "at":
            so = times.holds_at(clock + when.first)
            return Decision(so, when.first, "" if so else "not so")
        case "within":
            return _within(times, since, clock, when.first)
        case "throughout":
            lapse = times.first_not(clock)
            end = clock + when.first
            if lapse is not None and lapse < end - 1e-9:
                return Decision(False, lapse - clock, "stopped being so" if lapse > clock else "not so", lapse - end)
            return Decision(True, 0.0, "", (lapse - end) if lapse is not None else None)
        case "never":
            if since is None:
                return Decision(True, times.until - clock, "")
            return Decision(False, since, "was so")
        case "takes":
            return _takes(since, when.first, when.second)


def _within(times: Times, since: float | None, clock: float, limit: float) -> Decision:
    if since is None:
        return Decision(False, limit, "never came")
    if since > limit:
        return Decision(False, since, "too late", limit - since)
    if not times.holds_at(clock + limit):
        lapse = times.first_not(clock + since)
        return Decision(False, (lapse or clock) - clock, "stopped being so")
    return Decision(True, since, "", limit - since)


def _takes(since: float | None, low: float, high: float) -> Decision:
    if since is None:
        return Decision(False, high, "never came")
    if since < low:
        return Decision(False, since, "too early", since - low)
    if since > high:
        return Decision(False, since, "too late", high - since)
    return Decision(True, since, "", min(since - low, high - since))


def decide_order(when: When, first: Times, second: Times, clock: float) -> Decision:
    """Whether the first becomes true before the second does, and at all.

    'within' and 'takes' are said of the first; 'at' and 'throughout' say only how long both are watched. With 'never'
    the first must not come before the second.
    """
    one, other = first.first(clock), second.first(clock)
    gap = None if one is None or other is None else other - one
    before = one is not None and (other is None or one < other)
    if when.kind == "never":
        at = one - clock if one is not None and before else first.until - clock
        return Decision(not before, at, "was so" if before else "", gap)
    if one is None:
        return Decision(False, first.until - clock, "never came")
    if other is not None and not before:
        return Decision(False, other - clock, "order", gap)
    if when.kind == "within" and one - clock > when.first:
        return Decision(False, one - clock, "too late", when.first - (one - clock))
    if when.kind == "takes":
        return _takes(one - clock, when.first, when.second)
    return Decision(True, one - clock, "", gap)
