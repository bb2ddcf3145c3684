"""Whether two stops of an exploration are one: what is shown is the same to the letter, and what goes on is too.

What a stop remembers is in its positions, its modes and its stores: tanks, batteries, accumulators, jacks, warmth.
Those must be near. The pressure that is left in a shut pipe is not shown and moves nothing: it need only be alike, and
walks that are run through without a stop say whether that was enough (see `explore_checked`).
"""

from collections.abc import Hashable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cutaway.inquiry.explore_ground import Ground
from cutaway.machine.layout import DWELL, FREE, X_SCALE, Floats
from cutaway.machine.records import State

# The scale of a piston's travel, m.
TRAVEL = 0.1
STORES = frozenset({"STORE", "TANK", "ACCUM"})
PISTONS = frozenset({"JACK", "RAM"})
FIRM_MEDIA = frozenset({"heat", "shaft"})


@dataclass(frozen=True, slots=True)
class Fineness:
    """How far two stops may lie apart that are one. stores: in parts of a store's own size or the scale of its medium;
    pipes: what is left in shut pipes and wires, in parts of the scale of their medium."""

    stores: float
    pipes: float


FINENESS = (Fineness(1e-4, 0.5), Fineness(3e-5, 0.5), Fineness(1e-5, 0.05), Fineness(1e-6, 1e-4))
"""The first of these is used with which walks come to what the engine comes to. Choices of ours: the first is a tenth
of the least step between two figures that are shown."""


@dataclass(frozen=True, slots=True, eq=False)
class Mark:
    """key: what must be equal. amounts: what must be near; steps: how far each may be away."""

    key: Hashable
    amounts: Floats
    steps: Floats


class Marker:
    """Marks the states of one ground. What cannot reach anything that is shown is passed over."""

    def __init__(self, ground: Ground, fine: Fineness) -> None:
        machine, within = ground.made.machine, ground.within
        modes = {mode.name for mode in within.modes}
        free = int(machine.fixed.size[FREE])
        names = {node.name: node for node in within.nodes}
        firm = {element.at[0] for element in within.elements if element.family in STORES}
        self._nodes = np.array([i for i in range(free) if machine.nodes[i] in names], np.int64)
        media = [names[machine.nodes[i]].medium for i in self._nodes]
        is_firm = [machine.nodes[i] in firm or m in FIRM_MEDIA for i, m in zip(self._nodes, media, strict=True)]
        self._scales: Floats = machine.numbers.node[X_SCALE, self._nodes]
        self._firm = np.array(is_firm, np.bool_)
        self._fine = fine
        families = {element.name: element.family for element in within.elements}
        held = [i for i, name in enumerate(machine.elements) if name in families]
        self._held = np.array([*held, *(len(machine.elements) + i for i in held)], np.int64)
        moves = [families[machine.elements[i]] in PISTONS for i in held]
        self._least = np.where(np.array([*moves, *moves], np.bool_), TRAVEL, 1.0e-9)
        self._modes = np.array([i for i, name in enumerate(machine.modes) if name in modes], np.int64)
        self._waits: Floats = np.maximum(machine.numbers.mode[DWELL], 0.0)[self._modes]
        self._count = len(machine.modes)

    def mark(self, state: State, words: Hashable) -> Mark:
        """The mark of a state of which a reader sees these words."""
        across, content = state.x[self._nodes], state.content[self._held]
        age, pending = state.timers[: self._count][self._modes], state.timers[self._count :][self._modes]
        # How long a mode has stood matters only until it may change back.
        still = np.where(age >= self._waits, 0.0, np.round(self._waits - age, 3))
        due = np.where(pending < 0.0, -1.0, np.round(pending, 3))
        exact = np.concatenate([state.inputs, state.modes[self._modes], still, due])
        fine = self._fine
        size = np.maximum(np.abs(across), self._scales)
        steps = [
            np.where(self._firm, fine.stores, fine.pipes) * size,
            fine.stores * np.maximum(np.abs(content), self._least),
        ]
        return Mark((words, (exact + 0.0).tobytes()), np.concatenate([across, content]), np.concatenate(steps))


def near(one: Mark, others: npt.NDArray[np.float64]) -> int | None:
    """Which of the amounts of other marks with the same key, a row each, a mark is one with; the nearest, or None."""
    away = np.max(np.abs(others - one.amounts) / one.steps, axis=1, initial=0.0)
    best = int(np.argmin(away))
    return best if away[best] <= 1.0 else None
