"""Which assumed values can turn a verdict over: each taken to both ends of its range, then corners of the worst six."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from cutaway.inquiry.asking import plan_of
from cutaway.inquiry.judging import Plan
from cutaway.inquiry.likeliest import Moved, Sensed, near, worst
from cutaway.inquiry.memory import Came
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.verdicts import NOT_YET, TOO_MANY, Fails, Holds, Influence, RestsOn, Verdict
from cutaway.inquiry.workshop import Made, Request, Values
from cutaway.language.syntax import Move
from cutaway.machine.bind import vary_within
from cutaway.machine.fitting import Assumption
from cutaway.machine.network import Network
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import held_for_good
from cutaway.quantities.si import shown

# How many runs one claim may ask for on one subject.
MOST_RUNS = 4000
# Corners are run only where the moves of the single values, added up and taken this many times, could reach the margin.
LEEWAY = 2.0
# How many runs are made and concluded before the next.
BATCH = 100
# How often a range is halved to find where in it the verdict turns over, and for how large a plan.
HALVINGS = 6
MOST_SCENES = 30

Ends = tuple[tuple[Assumption, float], ...]


@dataclass(frozen=True, slots=True)
class Variant:
    """One assumed value, or several, away from what is stated: at `si` each."""

    values: Values
    ends: Ends
    plan: Plan


class OutOfTimeError(Exception):
    """The time is up; what came of the ends that were tried is remembered."""


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """Where a question's values are varied. made: the machine over what can reach it. over: the same cone, with what
    other questions look at recorded too. came: of ends that were tried before; keep: told of them as they grow. stop:
    asked before every batch. sensed: what assumed values did to other verdicts. quick: whether only the likeliest are
    tried."""

    question: Question
    made: Made
    over: Made
    came: dict[str, Came] = field(default_factory=dict)
    keep: Callable[[Mapping[str, Came]], None] = lambda came: None
    stop: Callable[[], bool] = lambda: False
    sensed: Sensed = field(default_factory=Sensed)
    quick: bool = False

    def varied(self, ends: Ends) -> Variant | None:
        """The question with values at other places; None where they cannot reach it."""
        values = tuple(((a.part, a.value), si) for a, si in ends)
        other = self.question.workshop.varied(self.question.bound, self.over, values)
        return Variant(values, ends, plan_of(self.question, other)) if other is not self.over else None


def singles(bench: Bench) -> tuple[Variant, ...]:
    """A variant for each end of each assumed value that can reach the statement."""
    question, made = bench.question, bench.made
    out: list[Variant] = []
    asked = _what_is_touched(made, plan_of(question, made).requests)
    for assumption in _among(bench):
        end = assumption.low if assumption.low != assumption.si else assumption.high
        value = {(assumption.part, assumption.value): end}
        if vary_within(question.bound, asked, value, made.signals) is asked:
            continue
        for si in dict.fromkeys((assumption.low, assumption.high)):
            if si == assumption.si:
                continue
            variant = bench.varied(((assumption, si),))
            if variant is not None:
                out.append(variant)
    return tuple(out)


def _among(bench: Bench) -> Sequence[Assumption]:
    """The assumed values that are tried: all, or the likeliest alone."""
    bound = bench.question.bound
    if not bench.quick:
        return bound.assumptions
    moved = {str(one.control.part) for one in bench.question.scope.actions if isinstance(one, Move)}
    beside = near(bound, moved | {name.rsplit(": ", 1)[0] for name in bench.made.signals})
    moving = bench.sensed.likeliest()
    return [one for one in bound.assumptions if one.part in beside or (str(one.part), one.value) in moving]


def _what_is_touched(made: Made, requests: Sequence[Request]) -> Network:
    """The cone less what nothing in these runs ever opens: what stands behind a switch that stays off, say."""
    moved = {change.input for r in requests for leg in r.legs for change in leg.changes}
    moved |= {change.input for r in requests for change in r.changes}
    still = {slot.name: slot.value for slot in made.network.inputs if slot.name not in moved}
    return cone(held_for_good(made.network, still, from_the_start=True), made.signals)


def corners(bench: Bench, worst: Sequence[Assumption]) -> tuple[Variant, ...]:
    """Every combination of ends of a few assumed values."""
    out = []
    for ends in product(*((a.low, a.high) for a in worst)):
        variant = bench.varied(tuple(zip(worst, ends, strict=True)))
        if variant is not None:
            out.append(variant)
    return tuple(out)


def resting(bench: Bench, nominal: Holds | Fails, margin: float | None) -> Verdict:
    """The nominal verdict, or that it rests on assumed values; how many were tried is kept in it.

    Values that turn it over only together are looked for where the verdict has a margin, from which it is seen which of
    them move it most. Where it is stopped, the verdict says so.
    """
    try:
        return _resting(bench, nominal, margin)
    except OutOfTimeError:
        return replace(nominal, assumed=NOT_YET)


def _resting(bench: Bench, nominal: Holds | Fails, margin: float | None) -> Verdict:
    alone = singles(bench)
    if sum(len(v.plan.requests) for v in alone) > MOST_RUNS:
        return replace(nominal, assumed=TOO_MANY)
    try:
        likeliest = sorted(alone, key=lambda variant: -bench.sensed.by(variant.ends[0][0]))
        came = dict(zip((variant.ends for variant in likeliest), _run(bench, likeliest), strict=True))
    except OutOfTimeError:
        return _so_far(bench, nominal, alone)
    found = [came[variant.ends] for variant in alone]
    _learn(bench, nominal, margin, alone, found)
    if bench.quick:
        return _so_far(bench, nominal, alone)
    tried = replace(nominal, assumed=_settled(alone, found))
    flipped = [v for v, one in zip(alone, found, strict=True) if _turned(nominal, one)]
    if flipped:
        return RestsOn(tried, _alone(bench, nominal, flipped))
    together = _together(bench, nominal, margin, worst(_values(alone), [one.margin for one in found], margin))
    if together:
        return RestsOn(tried, tuple(_influence(a, (_end(a, si),)) for a, si in together), together=len(together) > 1)
    return tried


def _so_far(bench: Bench, nominal: Holds | Fails, variants: Sequence[Variant]) -> RestsOn:
    """What is known of a verdict of which not every value was tried: those that turn it over, if any does."""
    tried = [(v, bench.came[_words(v.ends)]) for v in variants if _words(v.ends) in bench.came]
    flipped = [v.ends[0] for v, came in tried if _turned(nominal, came)]
    if not flipped:
        raise OutOfTimeError
    ends: dict[int, tuple[Assumption, list[str]]] = {}
    for assumption, si in flipped:
        ends.setdefault(id(assumption), (assumption, []))[1].append(_end(assumption, si))
    return RestsOn(replace(nominal, assumed=NOT_YET), tuple(_influence(one, where) for one, where in ends.values()))


def _learn(
    bench: Bench, nominal: Holds | Fails, margin: float | None, variants: Sequence[Variant], found: Sequence[Came]
) -> None:
    """Keep in mind what each value did, for the order in which other verdicts are tried."""
    for variant, came in zip(variants, found, strict=True):
        assumption = variant.ends[0][0]
        if _turned(nominal, came):
            bench.sensed.turned(assumption)
        elif margin and came.margin is not None and came.margin != margin:
            bench.sensed.moved(assumption, abs(came.margin - margin) / abs(margin))


def _values(variants: Sequence[Variant]) -> list[Assumption]:
    """The one value that each of some variants moves."""
    return [variant.ends[0][0] for variant in variants]


def _settled(variants: Sequence[Variant], found: Sequence[Came]) -> int:
    """How many values have an answer at every end that was tried."""
    ends: dict[int, bool] = {}
    for variant, came in zip(variants, found, strict=True):
        one = id(variant.ends[0][0])
        ends[one] = ends.get(one, True) and came.so is not None
    return sum(ends.values())


def _together(bench: Bench, nominal: Holds | Fails, margin: float | None, most: Sequence[Moved]) -> Ends:
    """The fewest values found that turn the verdict over only at once; nothing where none do."""
    if margin is None or len(most) < 2 or sum(w.move for w in most) * LEEWAY < abs(margin):
        return ()
    together = corners(bench, [w.assumption for w in most])
    if sum(len(v.plan.requests) for v in together) > MOST_RUNS:
        return ()
    for variant, came in zip(together, _run(bench, together), strict=True):
        if _turned(nominal, came):
            return _fewest(bench, nominal, variant.ends)
    return ()


def _fewest(bench: Bench, nominal: Holds | Fails, ends: Ends) -> Ends:
    """A corner that turns the verdict over, without those values that are not needed for it."""
    for one in ends:
        fewer = tuple(end for end in ends if end is not one)
        variant = bench.varied(fewer) if fewer else None
        if variant is not None and _turned(nominal, _run(bench, (variant,))[0]):
            ends = fewer
    return ends


# --- where a single value turns it over -----------------------------------------------------------------------------


def _alone(bench: Bench, nominal: Holds | Fails, flipped: Sequence[Variant]) -> tuple[Influence, ...]:
    """An influence for each assumed value that turns the verdict over by itself, at one end or at both."""
    ends: dict[int, tuple[Assumption, list[str]]] = {}
    for variant in flipped:
        assumption, si = variant.ends[0]
        words = _end(assumption, si)
        if len(variant.plan.requests) <= MOST_SCENES:
            words = _turning(bench, nominal, assumption, si)
        ends.setdefault(id(assumption), (assumption, []))[1].append(words)
    return tuple(_influence(assumption, found) for assumption, found in ends.values())


def _turning(bench: Bench, nominal: Holds | Fails, assumption: Assumption, end: float) -> str:
    """Between what is stated and an end at which the verdict is the other: from where on it is, by halving."""
    same, other = assumption.si, end
    for _ in range(HALVINGS):
        middle = 0.5 * (same + other)
        variant = bench.varied(((assumption, middle),))
        if variant is None:
            break
        came = _run(bench, (variant,))[0]
        if came.so is None:
            break
        same, other = (same, middle) if _turned(nominal, came) else (middle, other)
    if other == end:
        return _end(assumption, end)
    return f"{'below' if end < assumption.si else 'above'} about {shown(other, assumption.unit, 2)}"


def _end(assumption: Assumption, si: float) -> str:
    return f"at the {'low' if si < assumption.si else 'high'} end of its range"


def _influence(assumption: Assumption, where: Sequence[str]) -> Influence:
    flips = " and ".join(where)
    if len(where) > 1 and all(words.startswith("at the ") for words in where):
        flips = "at either end of its range"
    return Influence(
        assumption.part, assumption.value, assumption.stated, assumption.between, flips, assumption.because
    )


# --- running variants -----------------------------------------------------------------------------------------------


def _run(bench: Bench, variants: Sequence[Variant]) -> list[Came]:
    """What comes of every variant, some hundred runs at a time; what came of one before is not run again."""
    batch: list[Variant] = []
    count = 0
    for v in variants:
        if _words(v.ends) in bench.came:
            continue
        batch.append(v)
        count += len(v.plan.requests)
        if count >= BATCH:
            _run_batch(bench, batch)
            batch, count = [], 0
    if batch:
        _run_batch(bench, batch)
    return [bench.came[_words(v.ends)] for v in variants]


def _run_batch(bench: Bench, variants: Sequence[Variant]) -> None:
    if bench.stop():
        raise OutOfTimeError
    workshop = bench.question.workshop
    requests = [request for v in variants for request in v.plan.requests]
    results = workshop.runs(requests)
    at = 0
    for v in variants:
        count = len(v.plan.requests)
        verdict, margin = v.plan.conclude(results[at : at + count])
        so = isinstance(verdict, Holds) if isinstance(verdict, Holds | Fails) else None
        bench.came[_words(v.ends)] = Came(so, margin)
        at += count
    workshop.forget(requests)
    bench.keep(bench.came)


def _words(ends: Ends) -> str:
    """What stands for a place of some values in the memory."""
    return "; ".join(f"{assumption.value} of {assumption.part}: {si!r}" for assumption, si in ends)


def _turned(nominal: Holds | Fails, other: Came) -> bool:
    return other.so is not None and other.so != isinstance(nominal, Holds)
