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


@dataclass(frozen=True, slots=True)
class Variant:
    """One assumed value, or several, away from what is stated."""

    values: Values
    ends: tuple[tuple[Assumption, str], ...]
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


def _variant(question: Question, made: Made, ends: tuple[tuple[Assumption, str], ...]) -> Variant | None:
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
        return RestsOn(
            tried, tuple(_influence(v.ends[0][0], f"at the {v.ends[0][1]} end of its range") for v in flipped)
        )
    worst = _worst(alone, [m for _, m in found], margin)
    if len(worst) < 2 or (len(alone) and 2 ** len(worst) * len(alone[0].plan.requests) > MOST_RUNS):
        return tried
    together = corners(question, made, worst)
    found = _run(question, together)
    for variant, (verdict, _) in zip(together, found, strict=True):
        if _turned(nominal, verdict):
            return RestsOn(
                tried, tuple(_influence(a, f"together with others at the {end} end") for a, end in variant.ends)
            )
    return tried


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


def _worst(variants: Sequence[Variant], margins: Sequence[float | None], nominal: float | None) -> list[Assumption]:
    """The assumptions that move the margin most, the most influential first."""
    if nominal is None:
        return []
    moves: dict[int, tuple[float, Assumption]] = {}
    for variant, margin in zip(variants, margins, strict=True):
        if margin is None:
            continue
        assumption = variant.ends[0][0]
        move = max(abs(margin - nominal), moves.get(id(assumption), (0.0, assumption))[0])
        if move > 1e-6 * max(1.0, abs(nominal)):
            moves[id(assumption)] = (move, assumption)
    ranked = sorted(moves.values(), key=lambda pair: -pair[0])
    return [assumption for _, assumption in ranked[:WORST]]


def _influence(assumption: Assumption, flips: str) -> Influence:
    return Influence(
        assumption.part, assumption.value, assumption.stated, assumption.between, flips, assumption.because
    )
