"""Which controls can reach a statement, or what the rules of such controls ask, and where each can be put."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.inquiry.positions import elsewhere
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.signals import needed
from cutaway.machine.bind import ControlSlot
from cutaway.machine.names import control_name

_CONTROL = frozenset({"control"})


def places(slot: ControlSlot, stands: Mapping[str, float]) -> tuple[float, ...]:
    """Where a control can be put: every other position; of a range both ends, the middle and its named points."""
    here = stands.get(slot.input, 0.0)
    points = tuple(p for p in slot.points if abs(p - here) > 1e-9) if slot.ranged else ()
    return tuple(dict.fromkeys((*elsewhere(slot, stands), *points)))


def reachable(base: Base) -> tuple[Base, tuple[ControlSlot, ...]]:
    """The controls that can reach the statement or what the rules of such controls ask, and the base over a machine
    that tells all of that."""
    question, signals = base.question, base.made.signals
    while True:
        over = replace(base, made=question.workshop.made(question.bound, signals))
        inputs = {one.input for one in universe(over, _CONTROL) if one.thing[0] == "control"}  # type: ignore[union-attr]
        wanted = set(signals)
        for rule in question.told.rules:
            name = control_name(rule.control.part, rule.control.control)
            here = question.bound.subject.standard in rule.part.on.names
            if name in inputs and here and rule.only_when is not None:
                wanted |= needed(rule.only_when, question.bound, question.told.services).signals
        if wanted <= signals:
            slots = tuple(slot for slot in question.bound.controls.values() if slot.input in inputs)
            return over, slots
        signals = signals | wanted


def as_it_stands(base: Base) -> dict[str, float]:
    """Where controls and failures stand at the base."""
    at = {**base.stands, **{change.input: change.value for change in base.scene.changes}}
    return {slot.name: at.get(slot.name, slot.value) for slot in base.made.network.inputs if slot.sort != "condition"}
