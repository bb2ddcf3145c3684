"""What many verdicts rest on: each tried in turn, those nearest to turning over first, for as long as is given."""

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from cutaway.inquiry.check import Stop, never, not_yet, verdict_for
from cutaway.inquiry.likeliest import Sensed
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Fails, Holds, RestsOn, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.syntax import And, Claim, Compare, Statement
from cutaway.machine.subjects import Subject
from cutaway.quantities.si import low_high_si
from cutaway.quantities.which import StandardName

# How near a verdict counts as that has neither a figure nor a time to be near to.
NOWHERE = 10.0


@dataclass(frozen=True, slots=True)
class Pace:
    """How long it may take. stop: asked now and then whether to end with what is known. seconds: for how long assumed
    values are tried at most, None without end. told: how many verdicts of how many have been tried."""

    stop: Stop = never
    seconds: float | None = None
    told: Callable[[int, int], None] = lambda done, of: None


UNHURRIED = Pace()


@dataclass(frozen=True, slots=True)
class Waiting:
    """A claim on one subject, with its verdict as stated."""

    claim: Claim
    subject: Subject
    stated: Verdict


Tried = Mapping[tuple[Claim, StandardName], Verdict]


def tried(waiting: Sequence[Waiting], workshop: Workshop, told: Told, memory: Memory | None, pace: Pace) -> Tried:
    """The verdicts once assumed values have been taken to the ends of their ranges; those that were not come to stay as
    they were. What came of each end is remembered, so that the next call goes on from there. A verdict of which values
    are known that turn it over, but not yet all, is among them."""
    until = None if pace.seconds is None else time.monotonic() + pace.seconds

    def over() -> bool:
        return pace.stop() or (until is not None and time.monotonic() >= until)

    found: dict[tuple[Claim, StandardName], Verdict] = {}
    in_turn, sensed = sorted(waiting, key=lambda one: nearness(one.claim, one.stated)), Sensed()
    pace.told(0, len(in_turn))
    # Where there is an end to the time, the likeliest values are tried of every verdict before the rest of any.
    for quick in (True, False) if until is not None else (False,):
        for number, one in enumerate(in_turn, 1):
            if over():
                return found
            verdict = verdict_for(one.claim, one.subject, workshop, told, True, memory, over, sensed, quick)
            if not not_yet(verdict) or isinstance(verdict, RestsOn):
                found[one.claim, one.subject.name] = verdict
            if not quick:
                pace.told(number, len(in_turn))
    return found


def nearness(claim: Claim, verdict: Verdict) -> float:
    """How far a verdict is from its limit, as a share of it: what is nearest is likeliest to rest on an assumed value.
    For the order alone."""
    if not isinstance(verdict, Holds | Fails):
        return NOWHERE
    when = claim.scope.when
    limit = {"within": when.first, "takes": when.second, "throughout": when.first}.get(when.kind, 0.0)
    away = [abs(limit - verdict.at) / limit] if limit and verdict.at > 0.0 else []
    readings = {one.what: one.value for one in verdict.seen if one.value is not None}
    for compared in _compared(claim.statement):
        ref = compared.reading
        value = readings.get(f"{ref.part}.{ref.port}" if ref.port else str(ref.part))
        if value is not None:
            ends = low_high_si(compared.quantity, "")
            scale = max(abs(ends[0]), abs(ends[1]), 1e-9)
            away.append(min(abs(value - end) for end in ends) / scale)
    return min(away, default=NOWHERE)


def _compared(statement: Statement) -> tuple[Compare, ...]:
    match statement:
        case Compare():
            return (statement,)
        case And(of=several):
            return tuple(one for inner in several for one in _compared(inner))
        case _:
            return ()
