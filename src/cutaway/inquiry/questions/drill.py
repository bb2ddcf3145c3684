"""A drill step by step, with each step left out and each two neighbours exchanged: what each step is for."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from cutaway.inquiry.asking import ready
from cutaway.inquiry.course import BETWEEN_ACTIONS, Leg, course_of, lacking
from cutaway.inquiry.judging import looked_at
from cutaway.inquiry.questions.indications import Noticed, differing, heard, noticed, unseen
from cutaway.inquiry.rules import needed_by_rules, obeying
from cutaway.inquiry.scenes import Question, Scene, Scenes
from cutaway.inquiry.signals import needed
from cutaway.inquiry.told import legs_for, placed_at_end
from cutaway.inquiry.verdicts import NotModelled, Seen, Undecided
from cutaway.inquiry.workshop import Made, Request
from cutaway.language.claims import Done, Looked, ParsedStep
from cutaway.language.syntax import Action, Move, Statement, Wait, When
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Outcome, Run


@dataclass(frozen=True, slots=True)
class Pace:
    """between: how long it takes from one step to the next; watch: how long is watched for a sight; s."""

    between: float
    watch: float


@dataclass(frozen=True, slots=True)
class Sight:
    """What a step says is seen. number: of its step. seen: whether it is, None where that cannot be said."""

    number: int
    statement: Statement
    seen: bool | None


@dataclass(frozen=True, slots=True)
class Turned:
    """A state of a part that is otherwise than it was. No indication, or it would be told as one. moves: whether it is
    something that is moved: a door, a leg."""

    part: str
    before: str
    now: str
    moves: bool = False


@dataclass(frozen=True, slots=True)
class Otherwise:
    """The drill done otherwise. lost: the sights that are seen when it is done as written and are not now. undecided:
    how many of them could not be told. end: what the crew would then find otherwise in the end; turned: what else is;
    shifted: readings that no dial shows. refused: movements that a rule now holds back. gone: why nothing can be said
    at all, '' as a rule."""

    lost: tuple[Sight, ...]
    undecided: int
    end: tuple[Noticed, ...]
    turned: tuple[Turned, ...]
    refused: tuple[Seen, ...]
    gone: str = ""
    shifted: tuple[Noticed, ...] = ()

    @property
    def matters(self) -> bool:
        """Whether anything comes of it that could be noticed or measured."""
        end = self.end or self.turned or self.shifted
        return bool(self.lost or self.undecided or end or self.refused or self.gone)


@dataclass(frozen=True, slots=True)
class StepTold:
    """One step. actions: what is done, none for a look. missing: what the subject has not got, so that the step was
    passed over. changed, turned: what the crew notices from it, and what else it does; shifted: how readings went on
    that no dial shows, of an engine's speed, and, where nothing else is to be told, of anything. refused: what a rule
    held back in it. passing: what stirs at all while it is done, lamps and dials alone if any of them does. without:
    the drill without its actions; exchanged: with those of the next step that does anything (`with_next` is its number,
    0 for none)."""

    number: int
    text: str
    actions: tuple[Action, ...]
    missing: tuple[str, ...]
    sights: tuple[Sight, ...]
    changed: tuple[Noticed, ...]
    turned: tuple[Turned, ...]
    refused: tuple[Seen, ...]
    passing: tuple[str, ...]
    without: Otherwise | None
    with_next: int
    exchanged: Otherwise | None
    shifted: tuple[Noticed, ...] = ()

    @property
    def idle(self) -> bool:
        """Whether it does something with the hands and nothing in the model."""
        still = self.changed or self.turned or self.shifted or self.passing or self.needed
        return bool(self.actions) and not self.waits and not still

    @property
    def waits(self) -> bool:
        """Whether nothing is done in it but wait: what it is for is the time, or what is looked at meanwhile."""
        return bool(self.actions) and all(isinstance(action, Wait) for action in self.actions)

    @property
    def needed(self) -> bool:
        """Whether anything else comes of leaving it out."""
        return self.without is not None and self.without.matters


@dataclass(frozen=True, slots=True)
class DrillTold:
    """A drill on one subject. runs: how many runs it took."""

    steps: tuple[StepTold, ...]
    variants: int
    runs: int


@dataclass(frozen=True, slots=True)
class _Step:
    """A step as the subject can do it."""

    parsed: ParsedStep
    actions: tuple[Action, ...]
    sights: tuple[Question, ...]
    missing: tuple[str, ...]


@dataclass(slots=True)
class _Variant:
    """One way of doing the drill, as it goes on. order: the steps; left: the one whose actions are left out, or -1."""

    order: tuple[int, ...]
    left: int
    scene: Scene
    legs: tuple[Leg, ...]
    placed: dict[str, float]
    refused: list[Seen] = field(default_factory=list)
    sights: dict[tuple[int, int], bool | None] = field(default_factory=dict)
    spans: dict[int, Request] = field(default_factory=dict)
    gone: str = ""


def drill(
    question: Question, steps: Sequence[ParsedStep], pace: Pace, stop: Callable[[], bool] = lambda: False
) -> DrillTold | Undecided:
    """What each step of a drill does and is for.

    question: the drill's situation on one subject, its scope without actions. All variants go on side by side, one step
    at a time; what two of them have in common is run once.
    """
    mine = [_step(question, one, pace) for one in steps]
    made = _recording(question, mine)
    before = question.workshop.runs_made
    variants = _variants(question, mine)
    for depth in range(len(mine)):
        if stop():
            return Undecided(f"it was stopped after {depth} of {len(mine)} steps")
        _advance(question, made, mine, variants, depth, pace)
    ends = question.workshop.runs([_watching(made, v.scene, pace) for v in variants])
    told = _told(question, made, mine, variants, dict(enumerate(ends)))
    if isinstance(told, Undecided):
        return told
    return DrillTold(told, len(variants), question.workshop.runs_made - before)


# --- what there is to do -------------------------------------------------------------------------------------------


def _step(question: Question, parsed: ParsedStep, pace: Pace) -> _Step:
    """The step on the subject: its actions, and its sights as questions; what it has not got is left out."""
    actions = tuple(a for mark in parsed.marks if isinstance(mark, Done) for a in mark.actions)
    scope = replace(question.scope, actions=actions)
    missing = list(lacking(scope, question.bound))
    have = tuple(a for a in actions if not lacking(replace(scope, actions=(a,)), question.bound))
    sights: list[Question] = []
    watched = replace(question.scope, when=When("within", pace.watch))
    for mark in parsed.marks:
        if isinstance(mark, Looked):
            asked = ready(replace(question, statement=mark.statement, scope=watched))
            lacks = (
                asked.missing
                if isinstance(asked, NotModelled)
                else needed(asked.statement, asked.bound, asked.told.services).missing
            )
            missing += lacks
            if isinstance(asked, Question) and not lacks:
                sights.append(asked)
    return _Step(parsed, have, tuple(sights), tuple(dict.fromkeys(missing)))


def _recording(question: Question, steps: Sequence[_Step]) -> Made:
    """The machine that tells all sights, all rules of what is moved, and every state and reading there is."""
    bound = question.bound
    signals: set[str] = set()
    for name, part in bound.parts.items():
        kind = bound.kinds[part.kind]
        signals |= {names.signal_name(name, state.signal) for state in kind.states}
        for reading in kind.readings:
            signals |= {names.signal_name(name, one) for one in (reading.signal, reading.alive) if one}
    for step in steps:
        acting = replace(question, scope=replace(question.scope, actions=step.actions))
        signals |= needed_by_rules(acting)[0]
        for asked in step.sights:
            signals |= needed(asked.statement, bound, asked.told.services).signals
    return question.workshop.made(bound, frozenset(signals))


def _variants(question: Question, steps: Sequence[_Step]) -> list[_Variant]:
    """The drill as written, with each step left out, with each two neighbours exchanged."""
    legs = legs_for(question.workshop.folder, question.told, question.bound, question.scope)
    whole = tuple(range(len(steps)))
    acting = [i for i in whole if steps[i].actions]
    orders = [(whole, -1), *((whole, i) for i in acting)]
    for a, b, end in zip(acting, acting[1:], [*acting[2:], len(steps)], strict=False):
        # A step that only looks belongs to what was done before it, and goes with that.
        orders.append(((*whole[:a], *whole[b:end], *whole[a:b], *whole[end:]), -1))
    at_first = Scene(legs, (), (), 0.0, 0, ())
    return [_Variant(order, left, at_first, legs, placed_at_end(legs)) for order, left in orders]


# --- runs ------------------------------------------------------------------------------------------------------------


def _advance(
    question: Question, made: Made, steps: Sequence[_Step], variants: Sequence[_Variant], depth: int, pace: Pace
) -> None:
    """One more step of every variant: its movements put to their rules, then its sights looked at."""
    by_step: dict[int, list[_Variant]] = {}
    for v in variants:
        here = v.order[depth]
        if steps[here].actions and v.left != here and not v.gone:
            by_step.setdefault(here, []).append(v)
    for here, several in by_step.items():
        _act(question, made, steps[here], here, several, pace)
    asked = [
        (v, number, i, sight)
        for v in variants
        for number in (v.order[depth],)
        for i, sight in enumerate(steps[number].sights)
    ]
    requests = [_watching(made, v.scene, pace) for v, _, _, _ in asked]
    results = question.workshop.runs(requests)
    for (v, number, i, sight), result in zip(asked, results, strict=True):
        looked = looked_at(sight, v.scene, result)
        v.sights[number, i] = None if v.gone or isinstance(looked, Undecided) else looked.decision.holds
    question.workshop.forget(requests)


def _watching(made: Made, scene: Scene, pace: Pace) -> Request:
    return Request(made, scene.legs, scene.changes, scene.clock + pace.watch)


def _act(question: Question, made: Made, step: _Step, here: int, several: Sequence[_Variant], pace: Pace) -> None:
    """The movements of one step in several variants."""
    acting = replace(question, scope=replace(question.scope, actions=step.actions))
    on = (*step.actions, Wait(pace.between, question.scope.span))
    scenes: list[Scene] = []
    lengths: list[float] = []
    for v in several:
        course = course_of(step.actions, question.bound, 0.0, v.placed)
        lengths.append(course_of(on, question.bound, 0.0, v.placed).clock)
        scenes.append(Scene(v.legs, (), course.movements, course.clock, 0, ()))
    put = obeying(acting, made, Scenes(tuple(scenes), ""))
    if isinstance(put, Undecided):
        for v in several:
            v.gone = put.because
        return
    for v, scene, length in zip(several, put.all, lengths, strict=True):
        v.scene = scene
        v.refused += scene.refused
        v.spans[here] = Request(made, scene.legs, scene.changes, length)
        v.legs = (*scene.legs, Leg(scene.changes, length, ()))
        v.placed |= {change.input: change.value for change in sorted(scene.changes, key=lambda c: c.time)}


# --- what came of it -------------------------------------------------------------------------------------------------


def _told(
    question: Question, made: Made, steps: Sequence[_Step], variants: Sequence[_Variant], ends: dict[int, Run | Outcome]
) -> tuple[StepTold, ...] | Undecided:
    written, end = variants[0], ends[0]
    if written.gone or isinstance(end, Outcome) or end.outcome.kind != "done":
        return Undecided(written.gone or (end if isinstance(end, Outcome) else end.outcome).sentence)
    bound, acting = question.bound, [i for i, step in enumerate(steps) if step.actions]
    own = [frozenset(str(a.control.part) for a in step.actions if isinstance(a, Move)) for step in steps]
    without = dict(zip(acting, range(1, 1 + len(acting)), strict=True))
    exchanged = dict(zip(acting, range(1 + len(acting), len(variants)), strict=False))
    start = legs_for(question.workshop.folder, question.told, bound, question.scope)
    # What has a delay, as a lock has, shows how it stands only a moment after the situation begins.
    spans = [Request(made, start, (), BETWEEN_ACTIONS), *(written.spans[i] for i in acting if i in written.spans)]
    course = dict(zip([-1, *acting], question.workshop.runs(spans), strict=True))
    out: list[StepTold] = []
    at = course[-1]
    for i, step in enumerate(steps):
        now = course.get(i, at)
        assert isinstance(at, Run) and isinstance(now, Run)
        skip = own[i]
        changed, turned, shifted = _differing(bound, at, now, skip)
        later = acting[acting.index(i) + 1] if i in exchanged else -1
        out.append(
            StepTold(
                step.parsed.step.number,
                step.parsed.step.text,
                step.actions,
                step.missing,
                _sights(steps, written, i),
                changed,
                turned,
                tuple(one for one in written.refused if one.what in {*own[i], *_inputs(step)}),
                _stirring(bound, now, skip) if i in course else (),
                _otherwise(bound, steps, variants, ends, without[i], skip) if i in without else None,
                steps[later].parsed.step.number if later >= 0 else 0,
                _otherwise(bound, steps, variants, ends, exchanged[i], skip | own[later]) if later >= 0 else None,
                shifted,
            )
        )
        at = now
    return tuple(out)


def _inputs(step: _Step) -> frozenset[str]:
    moves = (action for action in step.actions if isinstance(action, Move))
    return frozenset(names.control_name(move.control.part, move.control.control) for move in moves)


def _stirring(bound: Bound, run: Run, skip: frozenset[str]) -> tuple[str, ...]:
    """The parts, not moved themselves, of which a state changes in a run, or a reading by a hundredth; of these the
    lamps and dials, if there are any."""
    loud = {name for name, part in bound.parts.items() if bound.kinds[part.kind].indicates}
    found = [name for name in bound.parts if (name in loud or name not in skip) and _stirs(bound, run, name)]
    seen = [name for name in found if bound.kinds[bound.parts[name].kind].indicates]
    return tuple(str(name) for name in seen or found)


def _stirs(bound: Bound, run: Run, name: str) -> bool:
    kind = bound.kinds[bound.parts[name].kind]
    for state in kind.states:
        so = run.column(names.signal_name(name, state.signal)) > 0.5
        if so.any() and not so.all():
            return True
    for reading in kind.readings:
        trace = run.column(names.signal_name(name, reading.signal))
        if np.ptp(trace) > 0.01 * max(1e-9, float(np.abs(trace).max())):
            return True
    return False


def _sights(steps: Sequence[_Step], variant: _Variant, here: int) -> tuple[Sight, ...]:
    step = steps[here]
    return tuple(
        Sight(step.parsed.step.number, asked.statement, variant.sights[here, i]) for i, asked in enumerate(step.sights)
    )


def _otherwise(
    bound: Bound,
    steps: Sequence[_Step],
    variants: Sequence[_Variant],
    ends: dict[int, Run | Outcome],
    which: int,
    skip: frozenset[str],
) -> Otherwise:
    """What a variant comes to beside the drill as written. skip: parts that are moved otherwise in it."""
    written, other, first, end = variants[0], variants[which], ends[0], ends[which]
    why = other.gone or (end.sentence if isinstance(end, Outcome) else "" if end.outcome.kind == "done" else
                         end.outcome.sentence)  # fmt: skip
    pairs = [
        (Sight(steps[n].parsed.step.number, steps[n].sights[i].statement, other.sights[n, i]), seen)
        for (n, i), seen in sorted(written.sights.items())
    ]
    lost = tuple(now for now, seen in pairs if seen and now.seen is False)
    undecided = sum(1 for now, seen in pairs if seen is not None and now.seen is None)
    known = {(one.what, one.state) for one in written.refused}
    refused = tuple(one for one in other.refused if (one.what, one.state) not in known)
    if why or not isinstance(first, Run) or not isinstance(end, Run):
        return Otherwise(lost, undecided, (), (), refused, why)
    noted, turned, shifted = _differing(bound, first, end, skip)
    return Otherwise(lost, undecided, noted, turned, refused, shifted=shifted)


def _differing(
    bound: Bound, before: Run, now: Run, skip: frozenset[str]
) -> tuple[tuple[Noticed, ...], tuple[Turned, ...], tuple[Noticed, ...]]:
    """What is otherwise at the end of one run than at the end of another: indications, other states, and readings that
    no dial shows. skip: parts that are moved themselves, of which it is no news how they stand; what such a part shows
    is, of an engine that its own starter sets going."""
    noted = noticed(bound, before, now)
    turned: list[Turned] = []
    for name, part in bound.parts.items():
        kind = bound.kinds[part.kind]
        if kind.indicates or name in skip:
            continue
        for state in kind.states:
            signal = names.signal_name(name, state.signal)
            first, second = (float(run.column(signal)[-1]) > 0.5 for run in (before, now))
            if first != second:
                opposite = state.opposite or f"not {state.words}"
                words = (state.words, opposite) if first else (opposite, state.words)
                turned.append(Turned(str(name), *words, (name, "moved by") in bound.wiring.coupled))
    told = {one.indication.part for one in noted}  # that a lamp is lit says how bright it is
    shifted = differing((one for one in heard(bound) if one.part not in told), before, now)
    if not (noted or turned or shifted):
        shifted = differing((one for one in unseen(bound) if one.part not in skip), before, now)
    return noted, tuple(turned), shifted
