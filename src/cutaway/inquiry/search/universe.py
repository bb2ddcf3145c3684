"""What can be changed at a base and could matter there. What is left out here cannot matter in any set of the rest."""

from collections.abc import Iterator, Mapping

from cutaway.handbook.world import CONDITIONS
from cutaway.inquiry.course import said
from cutaway.inquiry.evidence import moved
from cutaway.inquiry.positions import elsewhere
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Assume, Break, Give, Put
from cutaway.language.syntax import Move
from cutaway.machine.bind import ControlSlot
from cutaway.machine.names import control_name, failure_name
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import held_for_good
from cutaway.quantities.si import shown
from cutaway.quantities.units import unit_named

Sorts = frozenset[str]

# The levels at which a condition of the world is tried: sea level and heights that such aircraft reached, standing and
# flying, a winter's and a summer's day. Choices of ours, SI.
LEVELS = {
    "height": (0.0, 1524.0, 3048.0, 6096.0),
    "airspeed": (0.0, 51.444, 102.889),
    "temperature": (258.15, 288.15, 308.15),
}
SHOWN_IN = {"height": "ft", "airspeed": "kt", "temperature": "°C"}


def universe(base: Base, sorts: Sorts, also: frozenset[str] = frozenset()) -> tuple[Alteration, ...]:
    """Every alteration of these sorts ('control', 'action', 'failure', 'condition', 'assumed') that can reach the
    statement; 'action' is of the controls that the scope's own actions move, 'control' of all others.

    Controls and failures that are not to be changed stay as the base has them for good, and what they cut off cannot
    matter however the rest is changed: that is all that is left out. also: inputs that will be moved besides, which are
    therefore not held.
    """
    reach = _reach(base, sorts, also)
    found: list[Alteration] = []
    if "control" in sorts:
        found += _controls(base, reach)
    if "action" in sorts:
        found += _acted(base, reach)
    if "failure" in sorts:
        found += _failures(base, reach)
    if "condition" in sorts:
        found += _conditions(base, reach)
    if "assumed" in sorts:
        found += _assumed(base)
    return tuple(found)


def _reach(base: Base, sorts: Sorts, also: frozenset[str]) -> frozenset[str]:
    """The inputs that can reach the statement while what is not to be changed stays where it is."""
    bound, question = base.question.bound, base.question
    loose = set(moved(question.scope.actions, bound)) | also
    loose |= {
        control_name(a.control.part, a.control.control)
        for rule in question.told.rules
        for a in rule.then
        if isinstance(a, Move)
    }
    at_once = {change.input: change.value for change in base.scene.changes}
    held: dict[str, float] = {}
    for slot in base.made.network.inputs:
        if slot.sort == "condition" or slot.name in loose or slot.sort in sorts:
            continue
        held[slot.name] = at_once.get(slot.name, base.stands.get(slot.name, slot.value))
    reached = cone(held_for_good(base.made.network, held), base.made.signals)
    return frozenset(slot.name for slot in reached.inputs)


def _controls(base: Base, reach: frozenset[str]) -> Iterator[Put]:
    acted = moved(base.question.scope.actions, base.question.bound)
    at_once = {change.input: change.value for change in base.scene.changes}
    stands = {**base.stands, **at_once}
    for slot in base.question.bound.controls.values():
        if slot.input in reach and slot.input not in acted:
            for value in _places(slot, stands):
                yield Put(str(slot.part), slot.control, slot.input, value, said(slot, value))


def _places(slot: ControlSlot, stands: Mapping[str, float]) -> tuple[float, ...]:
    """Where a control is tried besides where it stands: of a range its named points too."""
    values = elsewhere(slot, stands)
    if slot.ranged and slot.points:
        here = stands.get(slot.input, 0.0)
        values = tuple(dict.fromkeys((*values, *(p for p in slot.points if abs(p - here) > 1e-9))))
    return values


def _acted(base: Base, reach: frozenset[str]) -> Iterator[Put]:
    """The controls that actions move, put elsewhere by them in the end, or left where they stood before."""
    for slot in base.question.bound.controls.values():
        course = [one for one in base.scene.movements if one.input == slot.input]
        before = base.stands.get(slot.input, 0.0)
        if slot.input not in reach or not course:
            continue
        away = dict.fromkeys(one.position for one in course if abs(one.value - before) > 1e-9)
        if away:
            yield Put(str(slot.part), slot.control, slot.input, before, said(slot, before), " and then ".join(away))
        for value in _places(slot, {slot.input: course[-1].value}):
            if abs(value - before) > 1e-9:
                yield Put(str(slot.part), slot.control, slot.input, value, said(slot, value), course[-1].position)


def _failures(base: Base, reach: frozenset[str]) -> Iterator[Break]:
    bound = base.question.bound
    already = {change.input for change in base.scene.changes if change.value}
    for name, part in bound.parts.items():
        for failure in bound.kinds[part.kind].failures:
            full = failure_name(name, failure.name)
            if full in reach and full not in already:
                yield Break(str(name), failure.name, full)


def _conditions(base: Base, reach: frozenset[str]) -> Iterator[Give]:
    defaults = {slot.name: slot.value for slot in base.made.network.inputs}
    for condition in CONDITIONS:
        if condition.name not in reach or condition.name not in LEVELS:
            continue
        here = base.stands.get(condition.name, defaults[condition.name])
        unit = unit_named(SHOWN_IN[condition.name])
        for level in LEVELS[condition.name]:
            if abs(level - here) > 1e-6:
                yield Give("", condition.name, level, shown(level, unit))


def _assumed(base: Base) -> Iterator[Assume]:
    bound, workshop = base.question.bound, base.question.workshop
    for one in bound.assumptions:
        for end in dict.fromkeys((one.low, one.high)):
            if end == one.si:
                continue
            if workshop.varied(bound, base.made, (((one.part, one.value), end),)) is not base.made:
                yield Assume(str(one.part), one.value, end, shown(end, one.unit))
