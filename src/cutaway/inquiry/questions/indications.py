"""What the crew can see or hear: lamps, gauges, horns, meters, and whether an engine runs."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from cutaway.inquiry.search.base import Base
from cutaway.inquiry.verdicts import Seen
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.records import Run
from cutaway.parts.kind import Kind, Reading, State

# How much a pointer must move for the crew to notice it, of what it showed before or shows now: a choice of ours.
NOTICEABLE = 0.05
# And how much at least, SI: a pointer that trembles at its stop has not moved. A quarter of a lb/sq in, a tenth of a
# volt, five degrees, a tenth of a gallon and the like.
LEAST = {
    "pressure": 1700.0, "voltage": 0.1, "current": 0.2, "temperature": 5.0, "fraction": 0.02, "angle": 0.02,
    "volume": 4.5e-4, "volume flow": 3e-7, "angular speed": 2.0,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Indication:
    """One thing that a part shows: a state or a reading of it."""

    part: str
    shows: State | Reading

    @property
    def signals(self) -> tuple[str, ...]:
        """The signals that it is read from."""
        if isinstance(self.shows, State):
            return (names.signal_name(self.part, self.shows.signal),)
        alive = (names.signal_name(self.part, self.shows.alive),) if self.shows.alive else ()
        return (names.signal_name(self.part, self.shows.signal), *alive)


@dataclass(frozen=True, slots=True)
class Noticed:
    """An indication that is otherwise in one run than in another. `before` and `now`: what each shows at its end."""

    indication: Indication
    before: Seen
    now: Seen


def indications(bound: Bound) -> tuple[Indication, ...]:
    """All that the crew can see or hear of a subject, in the order of its parts."""
    kinds = ((name, bound.kinds[part.kind]) for name, part in bound.parts.items())
    return tuple(Indication(str(name), one) for name, kind in kinds if kind.indicates for one in _shown_by(kind))


def _shown_by(kind: Kind) -> tuple[State | Reading, ...]:
    """A lamp, a horn or an engine shows its state; a dial its readings, and, where it says so in no other way, whether
    it works."""
    states = tuple(state for state in kind.states if state.words != "working")
    if states:
        return states
    says_so = any(reading.alive for reading in kind.readings)
    return (*kind.readings, *(() if says_so else kind.states))


def heard(bound: Bound) -> tuple[Indication, ...]:
    """What goes with a state that the crew see or hear and no dial need show: how fast an engine turns."""
    kinds = ((name, bound.kinds[part.kind]) for name, part in bound.parts.items())
    return tuple(
        Indication(str(name), replace(reading, main=False))
        for name, kind in kinds
        if kind.indicates and any(isinstance(one, State) for one in _shown_by(kind))
        for reading in kind.readings
        if reading.main
    )


def unseen(bound: Bound) -> tuple[Indication, ...]:
    """The readings that no dial shows by itself: of pumps, tanks, pipes."""
    kinds = ((name, bound.kinds[part.kind]) for name, part in bound.parts.items())
    return tuple(
        Indication(str(name), replace(one, main=False))
        for name, kind in kinds
        if not kind.indicates
        for one in kind.readings
    )


def signals_of(several: Iterable[Indication]) -> frozenset[str]:
    """The signals that some indications are read from."""
    return frozenset(name for one in several for name in one.signals)


def with_indications(base: Base) -> Base:
    """The base over a machine that records every indication besides what the statement needs."""
    bound, workshop = base.question.bound, base.question.workshop
    return replace(base, made=workshop.made(bound, base.made.signals | signals_of(indications(bound))))


def shown_at_end(indication: Indication, run: Run) -> Seen:
    """What an indication shows at the end of a run that recorded it; a dead dial shows 'dead'."""
    last = {name: float(run.column(name)[-1]) for name in indication.signals}
    return shown_in(indication, last, float(run.times[-1]))


def shown_in(indication: Indication, values: Mapping[str, float], at: float = 0.0) -> Seen:
    """The same of the values of signals at one instant."""
    shows, value = indication.shows, values[indication.signals[0]]
    if isinstance(shows, State):
        words = shows.words if value > 0.5 else shows.opposite or f"not {shows.words}"
        return Seen(indication.part, at, None, "", words)
    label = indication.part if shows.main else f"{indication.part} {shows.name}"
    dead = bool(shows.alive) and values[indication.signals[1]] <= 0.5
    if dead:
        return Seen(label, at, None, shows.dimension, "dead", shows.datum)
    return Seen(label, at, value, shows.dimension, "", shows.datum)


def noticed(bound: Bound, before: Run, now: Run) -> tuple[Noticed, ...]:
    """The indications that the crew would find otherwise at the end of one run than at the end of another. Those that
    either run did not record are passed over."""
    return differing(indications(bound), before, now)


def differing(several: Iterable[Indication], before: Run, now: Run) -> tuple[Noticed, ...]:
    """The same of any readings and states."""
    found: list[Noticed] = []
    for one in several:
        if all(name in before.names and name in now.names for name in one.signals):
            first, second = shown_at_end(one, before), shown_at_end(one, now)
            if not alike(first, second):
                found.append(Noticed(one, first, second))
    return tuple(found)


def alike(one: Seen, other: Seen) -> bool:
    """Whether the crew would take two showings of one indication for the same."""
    if one.value is None or other.value is None:
        return one.value is other.value and one.state == other.state
    # Temperatures are in kelvin, of which a share says nothing.
    share = 0.0 if one.dimension == "temperature" else NOTICEABLE * max(abs(one.value), abs(other.value))
    return abs(one.value - other.value) <= max(LEAST.get(one.dimension, 0.0), share)
