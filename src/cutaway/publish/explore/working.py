"""From what is asked of an explorable page to all that it shows: which controls, every stop, and whether it is true."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from cutaway.draw.seen import Values
from cutaway.draw.showing import Showing, showing
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder, Situation
from cutaway.inquiry.course import Leg
from cutaway.inquiry.explore import Explored, begun, explored
from cutaway.inquiry.explore_alike import FINENESS, Fineness
from cutaway.inquiry.explore_checked import disagreeing, random_walks
from cutaway.inquiry.explore_choose import answering, chosen
from cutaway.inquiry.explore_ground import Ground, Here, ground_for, signals_of_rules
from cutaway.inquiry.explore_seen import PLAIN, told_parts
from cutaway.inquiry.explore_told import Watch
from cutaway.inquiry.snapshot import in_situation
from cutaway.inquiry.told import Told, legs_for
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.names import signal_name
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

# How many controls a page moves, and how many stops it has, where nobody says. Choices of ours.
MOST_CONTROLS = 6
MOST_STOPS = 150
# Walks that are run from the beginning before a page is believed: so many for each state, but no more than so many; and
# how long the longest is.
WALKS = 120
WALKS_A_STATE = 4
LONGEST_WALK = 8
# How long things are let settle after a movement where the situation says less or more, s.
SHORTEST_SETTLE = 20.0
LONGEST_SETTLE = 120.0

Stage = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a page is asked to show. controls: none for those that matter most. settle: s after each movement, None for
    what the situation says. stops: how many at most. says: a sentence for its reader. span: where it is asked for."""

    subject: Subject
    system: str
    situation: str
    controls: tuple[str, ...] = ()
    settle: float | None = None
    stops: int = MOST_STOPS
    says: str = ""
    span: Span | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Worked:
    """All that a page is filled from. parts: those that are told of beside the sheet. fixed: the controls that reach it
    and are not moved. walks: how many were run through, to the length of `longest`; astray: how many of them came to
    something other than the page shows. fine: how far stops may lie apart that are shown as one."""

    asked: Asked
    situation: Situation
    found: Explored
    showing: Showing
    parts: tuple[str, ...]
    fixed: tuple[ControlSlot, ...]
    walks: int
    longest: int
    astray: int
    fine: Fineness


def worked(
    workshop: Workshop, told: Told, asked: Asked, stage: Stage = lambda words: None, walks: int = WALKS
) -> tuple[Worked | None, Problems]:
    """Everything that the page shows, worked out; None where that cannot be, with the reason."""
    folder, bound = workshop.folder, workshop.bound(asked.subject)[0]
    situation, problems = _named(folder, asked)
    if situation is None:
        return None, problems
    legs = legs_for(folder, told, bound, in_situation(situation.name, situation.span))
    settle = asked.settle or min(max(situation.settle, SHORTEST_SETTLE), LONGEST_SETTLE)
    sheet = showing(folder, asked.subject, asked.system, workshop.kinds)
    ground = _ground(workshop, told, bound, sheet, legs, settle, situation.span)
    stage(f"letting {situation.name} settle")
    start = begun(ground, sheet.of)
    if isinstance(start, Outcome):
        words = f"'{situation.name}' cannot be reached on {asked.subject.name}: {start.sentence}"
        return None, (Diagnostic("I101", asked.span, words),)
    ground, here, waited = start
    stage("choosing what to move and what to tell of")
    slots, problems = _controls(ground, here, sheet, asked)
    if problems:
        return None, problems
    reach = {slot.name for slot in ground.within.inputs}
    moved = {slot.input for slot in slots}
    fixed = tuple(s for s in bound.controls.values() if s.input in reach and s.input not in moved)
    ground = replace(ground, controls=slots)
    parts, seen = _told_of(ground, here, sheet, asked)
    found, fine, tried, astray = _agreeing(ground, here, waited, seen, _watch(bound, parts), asked.stops, stage, walks)
    return Worked(asked, situation, found, seen, parts, fixed, tried, LONGEST_WALK, astray, fine), ()


def _named(folder: Folder, asked: Asked) -> tuple[Situation | None, Problems]:
    known = [one.name for one in folder.situations]
    if not any(system.name == asked.system for system in folder.systems):
        names = [system.name for system in folder.systems]
        message = f"There is no system '{asked.system}' to explore."
        return None, (Diagnostic("K801", asked.span, message, did_you_mean(asked.system, names)),)
    found = next((one for one in folder.situations if fold(one.name) == fold(asked.situation)), None)
    if found is None:
        message = f"There is no situation '{asked.situation}' to begin in."
        return None, (Diagnostic("K801", asked.span, message, did_you_mean(asked.situation, known)),)
    return found, ()


def _ground(
    workshop: Workshop, told: Told, bound: Bound, sheet: Showing, legs: tuple[Leg, ...], settle: float, span: Span
) -> Ground:
    every = {name for name, _ in bound.network.signals}
    shown = (sheet.signals & every) | signals_of_rules(told, bound)
    return ground_for(workshop, told, bound, legs, shown, settle, span)


def _told_of(ground: Ground, here: Here, sheet: Showing, asked: Asked) -> tuple[tuple[str, ...], Showing]:
    """The parts that are told of: those of the sheet, and of the lamps and gauges elsewhere those that answer to a
    control that is moved; and what the page shows with them."""
    folder, kinds = ground.workshop.folder, ground.bound.kinds
    parts = told_parts(ground, sheet.parts)
    others = [part for part in parts if part not in sheet.parts]
    with_all = showing(folder, asked.subject, asked.system, kinds, others)

    def notes(values: Values) -> tuple[tuple[str, ...], ...]:
        return tuple(dict(with_all.of(values).notes)[part] for part in others)

    answers = [part for part, does in zip(others, answering(ground, here, notes), strict=True) if does]
    told = tuple(part for part in parts if part in sheet.parts or part in answers)
    return told, showing(folder, asked.subject, asked.system, kinds, answers)


def _controls(ground: Ground, here: Here, seen: Showing, asked: Asked) -> tuple[tuple[ControlSlot, ...], Problems]:
    """The controls that the page moves."""
    if not asked.controls:
        own = frozenset(seen.parts)
        slots = chosen(ground, here, seen.pieces, own, MOST_CONTROLS)
        if not slots:
            message = f"No control reaches the sheet '{asked.system}' on {asked.subject.name} in {asked.situation}."
            return (), (Diagnostic("K802", asked.span, message, "Explore another system, or another situation."),)
        return slots, ()
    known = {slot.spoken: slot for slot in ground.bound.controls.values()}
    found: dict[str, ControlSlot] = {}
    problems: list[Diagnostic] = []
    reach = {slot.name for slot in ground.within.inputs}
    for words in asked.controls:
        slot = next((s for name, s in known.items() if fold(words.replace(".", " ")) == fold(name)), None)
        if slot is None:
            message = f"{asked.subject.name} has no control '{words}'."
            problems.append(Diagnostic("K802", asked.span, message, did_you_mean(words, list(known))))
        elif slot.input not in reach:
            message = f"'{words}' does nothing that the sheet '{asked.system}' shows."
            problems.append(Diagnostic("K802", asked.span, message, "Leave it out."))
        else:
            found[slot.input] = slot
    return tuple(s for s in known.values() if s.input in found), tuple(problems)


def _watch(bound: Bound, parts: Iterable[str]) -> tuple[Watch, ...]:
    return tuple(
        Watch(part, signal_name(part, state.signal), state.words, state.opposite)
        for part in parts
        for state in bound.kinds[bound.parts[part].kind].states
        if state.words != PLAIN
    )


def _agreeing(
    ground: Ground,
    here: Here,
    waited: int,
    seen: Showing,
    watch: tuple[Watch, ...],
    most: int,
    stage: Stage,
    walks: int,
) -> tuple[Explored, Fineness, int, int]:
    """The exploration in which walks come to what the engine comes to, the coarsest such, since it is the smallest; how
    fine it is, how many walks were tried, and how many of them went astray in the finest, where none agrees."""

    told = [0]

    def progress(known: int) -> None:
        if known >= told[0] + 25:
            told[0] = known
            stage(f"{known} states so far")

    for fine in FINENESS:
        found = explored(ground, here, waited, seen.of, watch, most, fine, progress=progress)
        tried = random_walks(found, min(walks, WALKS_A_STATE * len(found.stops)), LONGEST_WALK, seed=7)
        stage(f"running {len(tried)} walks from the beginning")
        astray = len(tuple(disagreeing(found, tried, seen.of)))
        if not astray:
            break
        stage("keeping apart states that are not quite alike")
    return found, fine, len(tried), astray
