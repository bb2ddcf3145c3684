"""What differs between two standards: first for the crew, then underneath."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.handbook.records import Drill, Folder
from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.questions.compare_moves import NONE_MOVED, Moved, compare_moves
from cutaway.inquiry.questions.compare_records import Behaviour, Moment, nowhere, shared
from cutaway.inquiry.questions.differing_records import RecordDifference, record_differences
from cutaway.inquiry.questions.indications import Indication, alike, indications, shown_at_end, shown_in, signals_of
from cutaway.inquiry.questions.stepping import step_moments
from cutaway.inquiry.rules import needed_by_rules
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import NotModelled, Seen, Undecided
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.language.claims import ParsedClaims
from cutaway.language.syntax import Action, And, Scope, When
from cutaway.machine.bind import Bound
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import Subject

# How long a situation is left alone before its indications are read, s, so that lamps and gauges have come to rest.
# A choice of ours.
LOOKED_AFTER = 60.0


@dataclass(frozen=True, slots=True)
class ControlDifference:
    """A control that one of them lacks, or whose positions differ. one, other: its positions there, () where it has no
    such control; of one that moves through a range, its ends."""

    name: str
    part: str
    one: tuple[str, ...]
    other: tuple[str, ...]
    ranged: bool


@dataclass(frozen=True, slots=True)
class IndicationDifference:
    """A lamp, gauge or horn that only one of them has. kind: what it is."""

    part: str
    kind: str
    has: Literal["one", "other"]


@dataclass(frozen=True, slots=True)
class Unanswered:
    """A moment that could not be compared, and why. on: of which of the two that is so, '' for both."""

    at: Moment
    on: str
    because: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """moments: how many were compared. unanswered: those that were not. moved: what came of single movements.
    situation: the one that was looked at, '' for every one."""

    one: Subject
    other: Subject
    controls: tuple[ControlDifference, ...]
    indications: tuple[IndicationDifference, ...]
    behaviours: tuple[Behaviour, ...]
    moments: int
    unanswered: tuple[Unanswered, ...]
    underneath: tuple[RecordDifference, ...]
    moved: Moved = NONE_MOVED
    situation: str = ""


def compare(
    workshop: Workshop,
    told: Told,
    parsed: ParsedClaims,
    one: Subject,
    other: Subject,
    situation: str = "",
    stop: Callable[[], bool] = lambda: False,
    moves: int = 0,
) -> Comparison:
    """What differs between two subjects. situation: only that one, and no drill; '' for all of both. moves: after how
    many single movements of a control it is looked besides, at most."""
    bounds = (workshop.bound(one)[0], workshop.bound(other)[0])
    folder = workshop.folder
    behaviours: list[Behaviour] = []
    unanswered: list[Unanswered] = []
    moments = 0
    situations = (situation,) if situation else tuple(s.name for s in folder.situations)
    drills = () if situation else folder.drills
    courses = [_in_situation(name) for name in situations] + [_of_drill(drill, parsed) for drill in drills]
    for course in courses:
        if stop():
            unanswered.append(Unanswered(course.moments[0], "", "it was stopped before that"))
            continue
        found, looked, missing = _compared(course, bounds, workshop, told)
        behaviours += found
        moments += looked
        unanswered += missing
    moved = compare_moves(bounds, situations, workshop, told, moves, stop) if moves else NONE_MOVED
    return Comparison(
        one,
        other,
        control_differences(*bounds),
        indication_differences(*bounds),
        tuple(_first_seen(behaviours, courses)),
        moments,
        tuple(unanswered),
        record_differences(folder, bounds[0], bounds[1]),
        moved,
        situation,
    )


def compare_states(
    folder: Folder,
    bounds: tuple[Bound, Bound],
    states: Mapping[str, tuple[Mapping[str, float], Mapping[str, float]] | None],
) -> Comparison:
    """The same from what each situation comes to on both, by its name; None where it could not be reached. No drill is
    gone through."""
    behaviours: list[Behaviour] = []
    both = shared(*bounds)
    for name, values in states.items():
        pairs = [] if values is None else [(shown_in(i, values[0]), shown_in(i, values[1])) for i in both]
        behaviours += [Behaviour(Moment(name), one, other) for one, other in pairs if not alike(one, other)]
    lost = [Unanswered(Moment(name), "", "it cannot be reached") for name, values in states.items() if values is None]
    return Comparison(
        bounds[0].subject,
        bounds[1].subject,
        control_differences(*bounds),
        indication_differences(*bounds),
        tuple(behaviours),
        len(states) - len(lost),
        tuple(lost),
        record_differences(folder, *bounds),
    )


# --- what is there -------------------------------------------------------------------------------------------------


def control_differences(one: Bound, other: Bound) -> tuple[ControlDifference, ...]:
    """The controls that only one has, or that have other positions there, in the order of the parts."""
    out = []
    for key in dict.fromkeys((*one.controls, *other.controls)):
        here, there = one.controls.get(key), other.controls.get(key)
        slot = here or there
        assert slot is not None
        places = (here.positions if here else (), there.positions if there else ())
        if here is None or there is None or places[0] != places[1] or here.ranged != there.ranged:
            out.append(ControlDifference(slot.input, slot.part, *places, slot.ranged))
    return tuple(out)


def indication_differences(one: Bound, other: Bound) -> tuple[IndicationDifference, ...]:
    """The parts that tell the crew something and that only one has; parts that are of another kind on the other count
    for both."""
    sides: list[dict[str, str]] = []
    for bound in (one, other):
        shown = dict.fromkeys(i.part for i in indications(bound))
        sides.append({part: bound.parts[part].kind for part in shown})
    here, there = sides
    out = [IndicationDifference(part, kind, "one") for part, kind in here.items() if there.get(part) != kind]
    out += [IndicationDifference(part, kind, "other") for part, kind in there.items() if here.get(part) != kind]
    return tuple(out)


# --- what is seen --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Course:
    """What is done and when it is looked at, s from the end of the situation. drill: None for a mere situation."""

    situation: str
    actions: tuple[Action, ...]
    prefixes: tuple[tuple[Action, ...], ...]
    moments: tuple[Moment, ...]
    drill: Drill | None


def _in_situation(name: str) -> _Course:
    return _Course(name, (), ((),), (Moment(name),), None)


def _of_drill(drill: Drill, parsed: ParsedClaims) -> _Course:
    """The drill as it is run, and what has been done by the end of each step."""
    prefixes = step_moments(drill, parsed)
    moments = tuple(Moment(drill.situation, drill.name, drill.title, number) for number, _ in prefixes)
    done = tuple(actions for _, actions in prefixes)
    return _Course(drill.situation, done[-1] if done else (), done, moments, drill)


def _is_for(drill: Drill, subject: Subject) -> bool:
    return subject.standard in drill.on.names or subject.name in drill.on.names


def _compared(
    course: _Course, bounds: tuple[Bound, Bound], workshop: Workshop, told: Told
) -> tuple[list[Behaviour], int, list[Unanswered]]:
    if course.drill is not None:
        lacking = [str(b.subject.name) for b in bounds if not _is_for(course.drill, b.subject)]
        if lacking:
            return [], 0, [Unanswered(course.moments[0], one, "the drill is not for it") for one in lacking]
    both = shared(*bounds)
    seen: list[list[tuple[Seen, ...]]] = []
    for bound in bounds:
        found = _seen_on(course, bound, both, workshop, told)
        if isinstance(found, str):
            return [], 0, [Unanswered(course.moments[0], str(bound.subject.name), found)]
        seen.append(found)
    out = []
    for moment, here, there in zip(course.moments, *seen, strict=True):
        out += [Behaviour(moment, a, b) for a, b in zip(here, there, strict=True) if not alike(a, b)]
    return out, len(course.moments), []


def _seen_on(
    course: _Course, bound: Bound, both: Sequence[Indication], workshop: Workshop, told: Told
) -> list[tuple[Seen, ...]] | str:
    """What is shown at each moment of a course; or why that cannot be said."""
    span = nowhere()
    whole = Scope(None, course.situation, (), (), (), course.actions, When("at", 0.0), "", span)
    by_rules, missing = needed_by_rules(Question(And((), span), whole, bound, told, workshop))
    if missing:
        return f"it has no {', '.join(missing)}"
    made = workshop.made(bound, signals_of(both) | by_rules)
    out: list[tuple[Seen, ...]] = []
    requests: list[Request] = []
    for actions in course.prefixes:
        scenes = scenes_of(Question(And((), span), replace(whole, actions=actions), bound, told, workshop), made)
        if isinstance(scenes, NotModelled):
            return f"it has no {', '.join(scenes.missing)}"
        if isinstance(scenes, Undecided):
            return scenes.because
        scene = scenes.all[0]
        # Between the steps of a drill there is little time; a situation is looked at once it has come to rest.
        rest = 0.0 if course.drill is not None else LOOKED_AFTER
        requests.append(Request(made, scene.legs, scene.changes, scene.clock + rest))
    for result in workshop.runs(requests):
        if isinstance(result, Outcome) or result.outcome.kind != "done":
            return (result if isinstance(result, Outcome) else result.outcome).sentence
        out.append(tuple(shown_at_end(i, result) for i in both))
    return out


def _first_seen(behaviours: Sequence[Behaviour], courses: Sequence[_Course]) -> list[Behaviour]:
    """A difference that goes on through the steps of a drill, or was there in the situation before it, is told where it
    is first seen."""
    at: dict[tuple[Moment, str], Behaviour] = {(b.at, b.one.what): b for b in behaviours}
    earlier: dict[Moment, Moment] = {}
    for course in courses:
        if course.drill is not None:
            earlier.update(zip(course.moments, (Moment(course.situation), *course.moments), strict=False))
    return [b for b in behaviours if b.at not in earlier or not _as_before(at.get((earlier[b.at], b.one.what)), b)]


def _as_before(before: Behaviour | None, now: Behaviour) -> bool:
    return before is not None and alike(before.one, now.one) and alike(before.other, now.other)
