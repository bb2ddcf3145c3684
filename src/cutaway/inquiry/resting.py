"""Which assumed values can turn a verdict over: each taken to both ends of its range, then corners of the worst six."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from cutaway.inquiry.judging import Plan, Question, plan
from cutaway.inquiry.verdicts import Fails, Holds, Influence, RestsOn, Verdict
from cutaway.inquiry.workshop import Made, Values
from cutaway.machine.fitting import Assumption

# How many assumed values are taken to their ends together, and how many runs one claim may ask for on one subject.
WORST = 6
MOST_RUNS = 4000
# Corners are run only where the moves of the single values, added up and taken this many times, could reach the margin.
LEEWAY = 2.0

Ends = tuple[tuple[Assumption, str], ...]


@dataclass(frozen=True, slots=True)
class Variant:
    """One assumed value, or several, away from what is stated."""

    values: Values
    ends: Ends
    plan: Plan


def singles(question: Question, made: Made) -> tuple[Variant, ...]:
    """A variant for each end of each assumed value that can reach the statement."""
    out: list[Variant] = []
    for assumption in question.bound.assumptions:
        for end, si in (("low", assumption.low), ("high", assumption.high)):
            if si == assumption.si:
                continue
            variant = _variant(question, made, ((assumption, end),))
            if variant is not None:
                out.append(variant)
    return tuple(out)


def _variant(question: Question, made: Made, ends: Ends) -> Variant | None:
    values = tuple(((a.part, a.value), a.low if end == "low" else a.high) for a, end in ends)
    other = question.workshop.varied(question.bound, made, values)
    return Variant(values, ends, plan(question, other)) if other is not made else None


def corners(question: Question, made: Made, worst: Sequence[Assumption]) -> tuple[Variant, ...]:
    """Every combination of ends of a few assumed values."""
    out = []
    for ends in product(("low", "high"), repeat=len(worst)):
        variant = _variant(question, made, tuple(zip(worst, ends, strict=True)))
        if variant is not None:
            out.append(variant)
    return tuple(out)


def resting(question: Question, made: Made, nominal: Holds | Fails, margin: float | None) -> Verdict:
    """The nominal verdict, or that it rests on assumed values; how many were tried is kept in it."""
    alone = singles(question, made)
    if sum(len(v.plan.requests) for v in alone) > MOST_RUNS:
        return nominal
    found = _run(question, alone)
    tried = replace(nominal, assumed=len({id(v.ends[0][0]) for v in alone}))
    flipped = [v for v, (verdict, _) in zip(alone, found, strict=True) if _turned(nominal, verdict)]
    if flipped:
        return RestsOn(tried, _alone(flipped))
    worst = _worst(alone, [m for _, m in found], margin)
    if margin is None or len(worst) < 2 or sum(w.move for w in worst) * LEEWAY < abs(margin):
        return tried
    if 2 ** len(worst) * len(alone[0].plan.requests) > MOST_RUNS:
        return tried
    together = corners(question, made, [w.assumption for w in worst])
    found = _run(question, together)
    for variant, (verdict, _) in zip(together, found, strict=True):
        if _turned(nominal, verdict):
            fewest = _fewest(question, made, nominal, variant.ends)
            return RestsOn(tried, tuple(_influence(a, (end,)) for a, end in fewest), together=len(fewest) > 1)
    return tried


def _fewest(question: Question, made: Made, nominal: Holds | Fails, ends: Ends) -> Ends:
    """A corner that turns the verdict over, without those values that are not needed for it."""
    for one in ends:
        fewer = tuple(end for end in ends if end is not one)
        variant = _variant(question, made, fewer) if fewer else None
        if variant is not None and _turned(nominal, _run(question, (variant,))[0][0]):
            ends = fewer
    return ends


def _alone(flipped: Sequence[Variant]) -> tuple[Influence, ...]:
    """An influence for each assumed value that turns the verdict over by itself, at one end or at both."""
    ends: dict[int, tuple[Assumption, list[str]]] = {}
    for variant in flipped:
        assumption, end = variant.ends[0]
        ends.setdefault(id(assumption), (assumption, []))[1].append(end)
    return tuple(_influence(assumption, found) for assumption, found in ends.values())


def _run(question: Question, variants: Sequence[Variant]) -> list[tuple[Verdict, float | None]]:
    requests = [request for v in variants for request in v.plan.requests]
    results = question.workshop.runs(requests)
    out, at = [], 0
    for v in variants:
        count = len(v.plan.requests)
        out.append(v.plan.conclude(results[at : at + count]))
        at += count
    return out


def _turned(nominal: Holds | Fails, other: Verdict) -> bool:
    return isinstance(other, (Holds, Fails)) and type(other) is not type(nominal)


@dataclass(frozen=True, slots=True)
class Moved:
    """By how much one assumed value moves the margin at most."""

    assumption: Assumption
    move: float


def _worst(variants: Sequence[Variant], margins: Sequence[float | None], nominal: float | None) -> list[Moved]:
    """The assumptions that move the margin most, the most influential first."""
    if nominal is None:
        return []
    moves: dict[int, Moved] = {}
    for variant, margin in zip(variants, margins, strict=True):
        assumption = variant.ends[0][0]
        if margin is not None and abs(margin - nominal) > 1e-6 * max(1.0, abs(nominal)):
            before = moves.get(id(assumption), Moved(assumption, 0.0))
            moves[id(assumption)] = Moved(assumption, max(before.move, abs(margin - nominal)))
    return sorted(moves.values(), key=lambda m: -m.move)[:WORST]


def _influence(assumption: Assumption, ends: Sequence[str]) -> Influence:
    flips = "at either end of its range" if len(ends) > 1 else f"at the {ends[0]} end of its range"
    return Influence(
        assumption.part, assumption.value, assumption.stated, assumption.between, flips, assumption.because
    )
