"""Which controls an exploration moves when nobody names them, and which parts of other sheets answer to those it moves.

Controls of the sheet's own parts come first, then those that change most of it when they are moved at the beginning.
"""

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import replace

from cutaway.inquiry.explore_ground import (
    Ground,
    Here,
    Movement,
    against,
    leg_of,
    looked,
    movements,
    settled,
    stands_there,
)
from cutaway.inquiry.told import placed_at_end
from cutaway.machine.bind import ControlSlot

Pieces = Callable[[Mapping[str, float]], Sequence[Hashable]]
"""What a reader sees of a stop, piece by piece."""


def chosen(ground: Ground, here: Here, pieces: Pieces, own: frozenset[str], most: int) -> tuple[ControlSlot, ...]:
    """Up to `most` controls, in the folder's order; none that changes nothing. own: the parts of the sheet."""
    inputs = {slot.name for slot in ground.within.inputs}
    every = [slot for slot in ground.bound.controls.values() if slot.input in inputs]
    first = [slot for slot in every if slot.part in own][:most]
    others = tuple(slot for slot in every if slot.part not in own) if len(first) < most else ()
    changes: dict[str, int] = {}
    before = pieces(here.values)
    for movement, later in after_each(replace(ground, controls=others), here):
        different = sum(a != b for a, b in zip(before, pieces(later.values), strict=True))
        changes[movement.input] = max(changes.get(movement.input, 0), different)
    ranked = sorted((s for s in others if changes.get(s.input, 0) > 0), key=lambda s: -changes[s.input])
    taken = {slot.input for slot in (*first, *ranked[: most - len(first)])}
    return tuple(slot for slot in every if slot.input in taken)


def answering(ground: Ground, here: Here, pieces: Pieces) -> tuple[bool, ...]:
    """Of each piece, whether it is otherwise after some one of the movements that are made at the beginning."""
    before = pieces(here.values)
    found = [False] * len(before)
    for _, later in after_each(ground, here):
        for i, (was, now) in enumerate(zip(before, pieces(later.values), strict=True)):
            found[i] = found[i] or was != now
    return tuple(found)


def after_each(ground: Ground, here: Here) -> list[tuple[Movement, Here]]:
    """Where each control leads that is moved from a beginning and left there; those that rules hold back left out."""
    placed = placed_at_end(ground.legs)
    tried = [m for m in movements(ground, placed) if not m.waits and not m.back and not stands_there(m, placed)]
    tried = [movement for movement in tried if not against(ground, movement, here)]
    runs = settled(ground, [(here.state, leg_of(ground, movement, placed)) for movement in tried])
    fine = [(m, run) for m, run in zip(tried, runs, strict=True) if run.outcome.kind == "done"]
    return list(zip((m for m, _ in fine), looked(ground, [run.end for _, run in fine]), strict=True))
