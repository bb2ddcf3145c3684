"""Why a sequence goes a way round: what keeps its end positions alone from doing, read off two runs."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cutaway.handbook.records import Cite, given_on
from cutaway.inquiry.evidence import seen_at
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.indications import indications, signals_of
from cutaway.inquiry.questions.ways import looked_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.movements import Hand, Hands
from cutaway.inquiry.search.sequences import Path
from cutaway.inquiry.signals import Services, atoms, reading_of
from cutaway.inquiry.verdicts import Seen
from cutaway.inquiry.workshop import Made
from cutaway.language.syntax import Action, Compare, InState, Statement
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Run
from cutaway.parts.kind import Reading

# How many parts that stay as they are, and dials, an answer names. Choices of ours.
MOST = 2
# How far a reading has to go of the way that it goes in the end, to be past where it stuck.
_PAST = 0.05


@dataclass(frozen=True, slots=True)
class Stays:
    """A part that does not stir on the direct way and does on the other. state: how it stays; instead: how it comes to
    be on the other, first so at `at`, s from when the first movement was made. figures: the values of it, as printed,
    that are of the sort of a dial that is told of."""

    part: str
    state: str
    instead: str
    at: float
    figures: tuple[tuple[str, str], ...]
    cites: tuple[Cite, ...]


@dataclass(frozen=True, slots=True)
class Dial:
    """What an instrument shows. direct: in the end of the direct way. turning: on the other way as the first part that
    stays begins to stir. passing: as the thing asked of goes past where it stuck; None where that cannot be told."""

    direct: Seen
    turning: Seen
    passing: Seen | None


@dataclass(frozen=True, slots=True)
class Detour:
    """to: the movements of the direct way, none where everything stands there already. seen: what comes of it."""

    to: tuple[Hand, ...]
    seen: tuple[Seen, ...]
    stays: tuple[Stays, ...]
    dials: tuple[Dial, ...]


def recorded(base: Base, made: Made) -> Made:
    """The machine with everything recorded that the crew sees, and all states and readings of what it is made of."""
    bound = base.question.bound
    spoken_of = {part for part, _ in _asked_of(base.question.statement, base.question.told.services)}
    inside = {owner for _, owner in made.network.owners} | spoken_of
    signals = set(made.signals) | signals_of(indications(bound))
    for name in inside:
        part = bound.parts.get(name)
        if part is not None:
            kind = bound.kinds[part.kind]
            signals |= {names.signal_name(name, state.signal) for state in kind.states}
            signals |= {names.signal_name(name, reading.signal) for reading in kind.readings}
    return base.question.workshop.made(bound, frozenset(signals))


def end_positions(base: Base, path: Path[Hand]) -> tuple[Hand, ...]:
    """Where a sequence leaves the controls otherwise than they stood, and what it only presses."""
    last = {hand.input: hand for hand, _ in path}
    return tuple(h for h in last.values() if h.held is not None or abs(base.stands.get(h.input, 0.0) - h.value) > 1e-9)


def detour_of(base: Base, hands: Hands, path: Path[Hand], actions: tuple[Action, ...]) -> Detour | None:
    """Why the end positions of a sequence alone do not do; None where every movement of it is one of
    those, or one is held while another is made."""
    to, last = end_positions(base, path), {hand.input: hand for hand, _ in path}
    if len(to) == len(path) or any(hand.through for hand, _ in path):
        return None
    made = recorded(base, hands.base.made)
    direct, way = looked_of(base, made, [tuple(hands.action(hand) for hand in to), actions])
    if not isinstance(direct, Looked) or not isinstance(way, Looked) or direct.decision.holds:
        return None
    question = base.question
    seen = seen_at(
        question.statement, direct.run, question.bound, question.told.services, float(direct.run.times[-1]), 0.0
    )
    stays = tuple(_stays(base, {hand.part for hand in last.values()}, direct, way))[:MOST]
    stuck = (
        _seen_reading(part, reading, direct.run, -1)
        for part, reading in _readings(question.statement, question.bound, question.told.services)
    )
    seen = (*seen, *(one for one in stuck if one.what not in {s.what for s in seen if s.value is not None}))
    return Detour(to, seen, stays, tuple(_dials(base, stays, direct, way))[:MOST])


def _stays(base: Base, moved: set[str], direct: Looked, way: Looked) -> Iterator[Stays]:
    """The parts that keep one state throughout the direct way and not on the other, the first to stir first."""
    bound = base.question.bound
    own = moved | {part for part, _ in _asked_of(base.question.statement, base.question.told.services)}
    found: list[Stays] = []
    for name in sorted({owner for _, owner in base.made.network.owners} - own):
        part = bound.parts.get(name)
        if part is None:
            continue
        for state in bound.kinds[part.kind].states:
            signal = names.signal_name(name, state.signal)
            still, stirs = direct.run.column(signal) > 0.5, way.run.column(signal) > 0.5
            if still.all() == still.any() and (stirs != still[-1]).any():
                opposite = state.opposite or f"not {state.words}"
                words = (state.words, opposite) if still[-1] else (opposite, state.words)
                at = float(way.run.times[int(np.argmax(stirs != still[-1]))])
                found.append(Stays(name, words[0], words[1], at, tuple(_figures(bound, name)), part.cites))
    # A part that is set at something decides; others, as a rule, only follow.
    deciding = [one for one in found if one.figures] or found
    yield from sorted(deciding, key=lambda one: one.at)


def _figures(bound: Bound, name: str) -> Iterator[tuple[str, str]]:
    """A part's values as printed: what it is set at."""
    part = bound.parts[name]
    wants = {want.name: want for want in bound.kinds[part.kind].wants}
    for value in part.values:
        given = given_on(part, value.name, bound.subject.standard)
        if given is not None and value.name in wants and wants[value.name].dimension == "pressure":
            yield value.name, given.quantity.text


def _dials(base: Base, stays: tuple[Stays, ...], direct: Looked, way: Looked) -> Iterator[Dial]:
    """The dials on whose sort of figure a part that stays is set, as they stood on both ways."""
    bound = base.question.bound
    sorts = {"pressure"} if any(one.figures for one in stays) else set()
    for one in indications(bound):
        shows = one.shows
        if not isinstance(shows, Reading) or shows.dimension not in sorts or shows.alive:
            continue
        signal = one.signals[0]
        if np.ptp(way.run.column(signal)) <= 0.005 * max(1.0, float(np.abs(way.run.column(signal)).max())):
            continue
        turning = _index(way.run, stays[0].at)
        past = _passes(base, direct, way)
        passing = None if past is None else _seen_reading(one.part, shows, way.run, past)
        yield Dial(
            _seen_reading(one.part, shows, direct.run, -1), _seen_reading(one.part, shows, way.run, turning), passing
        )


def _passes(base: Base, direct: Looked, way: Looked) -> int | None:
    """The row at which, after the last movement, the thing asked of goes past where it stuck on the direct way."""
    question = base.question
    for part, reading in _readings(question.statement, question.bound, question.told.services):
        signal = names.signal_name(part, reading.signal)
        stuck, trace = float(direct.run.column(signal)[-1]), way.run.column(signal)
        whole = float(trace[-1]) - stuck
        if abs(whole) > 1e-9:
            rows = np.flatnonzero(((trace - stuck) / whole > _PAST) & (way.run.times >= way.scene.clock))
            if rows.size:
                return int(rows[0])
    return None


def _index(run: Run, time: float) -> int:
    return max(0, int(np.searchsorted(run.times, time + 1e-9, side="right")) - 1)


def _asked_of(statement: Statement, services: Services) -> Iterator[tuple[str, str]]:
    """The parts that a statement speaks of, each with the reading that it names, '' for none."""
    for atom in atoms(statement, services):
        match atom:
            case InState(part=part):
                yield str(part), ""
            case Compare(reading=ref) if not ref.port:
                yield str(ref.part), ref.reading
            case _:
                pass


def _readings(statement: Statement, bound: Bound, services: Services) -> Iterator[tuple[str, Reading]]:
    """The main readings of the parts that a statement speaks of."""
    for part, name in _asked_of(statement, services):
        if part in bound.parts:
            reading = reading_of(bound.kinds[bound.parts[part].kind], name)
            if reading is not None and not reading.alive:
                yield part, reading


def _seen_reading(part: str, reading: Reading, run: Run, row: int) -> Seen:
    label = part if reading.main else f"{part} {reading.name}"
    value = float(run.column(names.signal_name(part, reading.signal))[row])
    return Seen(label, float(run.times[row]), value, reading.dimension, "", reading.datum)
