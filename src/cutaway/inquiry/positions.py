"""Every combination of positions that can matter, nearest to the base first."""

from collections.abc import Iterator, Mapping
from itertools import combinations, product

from cutaway.inquiry.course import value_at
from cutaway.language.syntax import And, AtPosition, If, Statement
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.network import Network
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import held_for_good

# How many combinations are gone through before a question is called undecided, and how many of the nearest are tried
# before all the others. Choices of ours.
MOST_COMBINATIONS = 1500
NEAREST = 48


def free_controls(
    bound: Bound, network: Network, signals: frozenset[str], held: Mapping[str, float], moved: frozenset[str]
) -> tuple[ControlSlot, ...]:
    """The controls that can still reach some signals once others are held where they are, in the folder's order.

    network: the cone of the signals. held: controls and failures and where they stay. moved: inputs that actions move,
    which are not free either. A control behind a switch that is held open, say, cannot matter.
    """
    reached = cone(held_for_good(network, held), signals)
    inputs = {slot.name for slot in reached.inputs} - moved - held.keys()
    return tuple(slot for slot in bound.controls.values() if slot.input in inputs)


def held_by_premise(statement: Statement, bound: Bound) -> dict[str, float]:
    """Where the condition of 'A if B' puts controls: other positions make it true without more ado, so that only
    these need be tried."""
    if not isinstance(statement, If) or statement.kind != "if":
        return {}
    conditions = statement.condition.of if isinstance(statement.condition, And) else (statement.condition,)
    out: dict[str, float] = {}
    for one in conditions:
        if isinstance(one, AtPosition) and not one.negated and one.op == "is":
            slot = bound.controls.get((one.control.part, one.control.control))
            value = value_at(slot, one.position, one.level) if slot is not None else None
            if slot is not None and value is not None:
                out.setdefault(slot.input, value)
    return out


Combination = tuple[tuple[ControlSlot, float], ...]


def elsewhere(slot: ControlSlot, base: Mapping[str, float]) -> tuple[float, ...]:
    """The values tried for a control besides where it stands: its positions; for one that moves through a range both
    ends and the middle."""
    values = (0.0, 0.5, 1.0) if slot.ranged else tuple(float(i) for i in range(len(slot.positions)))
    return tuple(v for v in values if abs(v - base.get(slot.input, 0.0)) > 1e-9)


def how_many(slots: tuple[ControlSlot, ...], base: Mapping[str, float]) -> int:
    """The number of combinations."""
    count = 1
    for slot in slots:
        count *= 1 + len(elsewhere(slot, base))
    return count


def all_combinations(slots: tuple[ControlSlot, ...], base: Mapping[str, float]) -> Iterator[Combination]:
    """The moves away from the base that make each combination: none first, then one control, then two, and so on."""
    others = {slot.input: elsewhere(slot, base) for slot in slots}
    for size in range(len(slots) + 1):
        for chosen in combinations(slots, size):
            for values in product(*(others[slot.input] for slot in chosen)):
                yield tuple(zip(chosen, values, strict=True))
