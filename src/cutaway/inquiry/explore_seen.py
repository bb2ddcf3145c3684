"""What the reader of an exploration is told besides the sheet: which parts, and because of what each is as it is."""

from collections.abc import Iterable

from cutaway.inquiry.explore_ground import Ground
from cutaway.inquiry.questions.cause import links_behind
from cutaway.inquiry.questions.links import Link
from cutaway.inquiry.questions.watched import Watched
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.signals import watched as signals_of_part
from cutaway.language.syntax import Compare, InState, ReadingRef, Scope, Statement, When
from cutaway.machine.names import signal_name
from cutaway.parts.kind import Kind, Reading, State
from cutaway.parts.recipe import Signal
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import unit_named

# What every part that does anything says, and that explains nothing.
PLAIN = "working"


def told_parts(ground: Ground, own: Iterable[str]) -> tuple[str, ...]:
    """The parts that are told of: those of the sheet that show something and are not moved by hand, then the lamps and
    gauges of other sheets that depend on nothing but what this one depends on."""
    bound = ground.bound
    here = tuple(part for part in own if part in bound.parts and _tells(bound.kinds[bound.parts[part].kind]))
    within = {element.name for element in ground.within.elements}
    others = [p for p, part in bound.parts.items() if p not in here and bound.kinds[part.kind].indicates]
    return (*here, *(str(part) for part in others if _depends_on(ground, str(part)) <= within))


def _depends_on(ground: Ground, part: str) -> frozenset[str]:
    made = ground.workshop.made(ground.bound, signals_of_part(ground.bound, part))
    return made.elements


def _tells(kind: Kind) -> bool:
    return not kind.controls and (kind.indicates or any(state.words != PLAIN for state in kind.states))


def because(ground: Ground, part: str, seen: Watched) -> tuple[Link, ...]:
    """The links behind what a part shows, or does, at a stop."""
    kind = ground.bound.kinds[ground.bound.parts[part].kind]
    asked = _asked(part, kind, seen, ground)
    if asked is None:
        return ()
    statement, so = asked
    scope = Scope(None, "", (), (), (), (), When(), "", ground.span)
    question = Question(statement, scope, ground.bound, ground.told, ground.workshop)
    return links_behind(question, seen, so)


def _asked(part: str, kind: Kind, seen: Watched, ground: Ground) -> tuple[Statement, bool] | None:
    """What is asked of a part: the state that it is in, or that it is not in; of a dial, why it reads so much."""
    states = [state for state in kind.states if state.words != PLAIN]
    if states:
        state = next((one for one in states if _is(part, one, seen)), states[-1])
        return InState(part, state.words, False, ground.span), _is(part, state, seen)  # type: ignore[arg-type]
    reading = next((one for one in kind.readings if one.main), None)
    return None if reading is None else (_reads(part, reading, ground), _much(part, reading, seen))


def _is(part: str, state: State, seen: Watched) -> bool:
    return seen.value(Signal(signal_name(part, state.signal))) > 0.5


def _much(part: str, reading: Reading, seen: Watched) -> bool:
    unit = unit_named(reading.unit)
    return abs(seen.value(Signal(signal_name(part, reading.signal))) - unit.zero) > 0.5 * unit.size


def _reads(part: str, reading: Reading, ground: Ground) -> Compare:
    nothing = Quantity("0", 0.0, 0.0, 0.0, unit_named(reading.unit))
    return Compare(ReadingRef(part, reading.name, ""), "above", nothing, False, False, ground.span)  # type: ignore[arg-type]
