"""Every combination of positions that can matter, nearest to the base first."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations, product

from cutaway.machine.bind import Bound, ControlSlot

# How many combinations are gone through before a question is called undecided. A choice of ours.
MOST_COMBINATIONS = 1500


def free_controls(bound: Bound, inputs: frozenset[str], fixed: Iterable[str]) -> tuple[ControlSlot, ...]:
    """The controls in a cone that a claim leaves open, in the folder's order."""
    taken = set(fixed)
    return tuple(slot for slot in bound.controls.values() if slot.input in inputs and slot.input not in taken)


def values_of(slot: ControlSlot) -> tuple[float, ...]:
    """The values tried for a control: its positions; for one that moves through a range both ends and the middle."""
    if slot.ranged:
        return (0.0, 0.5, 1.0)
    return tuple(float(i) for i in range(len(slot.positions)))


def how_many(slots: tuple[ControlSlot, ...]) -> int:
    """The number of combinations."""
    count = 1
    for slot in slots:
        count *= len(values_of(slot))
    return count


def all_combinations(
    slots: tuple[ControlSlot, ...], base: Mapping[str, float]
) -> Iterator[tuple[tuple[ControlSlot, float], ...]]:
    """The moves away from the base that make each combination: none first, then one control, then two, and so on."""
    others = {
        slot.input: tuple(v for v in values_of(slot) if abs(v - base.get(slot.input, 0.0)) > 1e-9) for slot in slots
    }
    for size in range(len(slots) + 1):
        for chosen in combinations(slots, size):
            for values in product(*(others[slot.input] for slot in chosen)):
                yield tuple(zip(chosen, values, strict=True))


def said(slot: ControlSlot, value: float) -> str:
    """The position as the user says it."""
    if slot.ranged:
        ends = {0.0: slot.positions[0], 1.0: slot.positions[-1]} if slot.positions else {}
        return ends.get(value, f"{100 * value:.0f} %")
    return slot.positions[round(value)]
