"""Whether a statement is true in a run when the claim says it should be."""

from dataclasses import dataclass
from typing import Literal

from cutaway.inquiry.spans_of_time import Times
from cutaway.language.syntax import When

# How long a model is given to come to rest, s, and how much longer than asked it is watched to say when a late thing
# comes. Choices of ours.
LONGEST_REST = 3600.0
LOOK_FURTHER = 3.0


@dataclass(frozen=True, slots=True)
class Decision:
    """holds: the answer. at: the moment that decides it, s from the clock's start. why: the failure's sort, '' if none.

    margin: how far from turning over, in seconds, for ranking what has influence; None where there is no such number.
    """

    holds: bool
    at: float
    why: Literal["", "never came", "too late", "too early", "stopped being so", "was so", "not so"]
    margin: float | None = None


def horizon(when: When, clock: float) -> tuple[float, bool]:
    """How long to run, s from the start, and whether to stop as soon as nothing moves."""
    if when.kind in ("settled", "never"):
        return clock + LONGEST_REST, True
    return clock + (when.second if when.kind == "takes" else when.first), False


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
