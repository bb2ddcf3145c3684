"""Which controls an exploration moves when nobody names them: those of its sheet, then those that change most of it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from cutaway.inquiry.explore_ground import Ground, Here, against, leg_of, looked, movements, settled, stands_there
from cutaway.inquiry.told import placed_at_end
from cutaway.machine.bind import ControlSlot

Lines = Callable[[Mapping[str, float]], Sequence[object]]
"""What a reader sees of a stop, piece by piece."""


def chosen(ground: Ground, here: Here, lines: Lines, own: frozenset[str], most: int) -> tuple[ControlSlot, ...]:
    """Up to `most` controls, in the folder's order: those of the sheet's own parts, then those that change most of what
    is seen when they are moved from where the exploration begins; none that changes nothing."""
    inputs = {slot.name for slot in ground.within.inputs}
    every = [slot for slot in ground.bound.controls.values() if slot.input in inputs]
    first = [slot for slot in every if slot.part in own][:most]
    others = [slot for slot in every if slot.part not in own]
    changes = _changes(ground, here, lines, others) if len(first) < most else {}
    ranked = sorted((s for s in others if changes.get(s.input, 0) > 0), key=lambda s: -changes[s.input])
    taken = {slot.input for slot in (*first, *ranked[: most - len(first)])}
    return tuple(slot for slot in every if slot.input in taken)


def _changes(ground: Ground, here: Here, lines: Lines, slots: Sequence[ControlSlot]) -> dict[str, int]:
    """How many pieces of what is seen a control changes at most, by its input."""
    over = replace(ground, controls=tuple(slots))
    placed = placed_at_end(ground.legs)
    tried = [m for m in movements(over, placed) if not m.waits and not m.back and not stands_there(m, placed)]
    tried = [movement for movement in tried if not against(over, movement, here)]
    runs = settled(over, [(here.state, leg_of(over, movement, placed)) for movement in tried])
    fine = [(m, run) for m, run in zip(tried, runs, strict=True) if run.outcome.kind == "done"]
    before = lines(here.values)
    found: dict[str, int] = {}
    for (movement, _), later in zip(fine, looked(over, [run.end for _, run in fine]), strict=True):
        different = sum(a != b for a, b in zip(before, lines(later.values), strict=True))
        found[movement.input] = max(found.get(movement.input, 0), different)
    return found
