"""How a run ended, as a sentence that names the parts and the time."""

from collections.abc import Iterable

import numpy as np

from cutaway.machine.compile import Machine
from cutaway.machine.kernel_modes import RINGS
from cutaway.machine.layout import (
    AT_REST,
    CHATTERS,
    DONE,
    FREE,
    NO_SOLUTION,
    NOW,
    Q_SCALE,
    RATE,
    RINGING,
    UNBALANCE,
    X_SCALE,
    Live,
)
from cutaway.machine.records import Outcome
from cutaway.machine.slicing import acts_on_itself


def outcome_of(machine: Machine, live: Live, status: int) -> Outcome:
    """The outcome of a run that the kernel ended with this status."""
    at = float(live.clock[NOW])
    if status in (DONE, AT_REST):
        return Outcome("done", at, (), "It ran to its end.")
    if status == CHATTERS:
        flipping = [machine.modes[m] for m in np.flatnonzero(live.tally[RINGING] >= RINGS)]
        # What only follows (a lamp) is not to blame; on the ring are those that act upon themselves.
        ring = [name for name in flipping if acts_on_itself(machine.network, name)]
        parts = _owners(machine, ring or flipping)
        return Outcome(
            "chatters", at, parts, f"{_listed(parts)} never came to rest at {_seconds(at)}: {_chatter(parts)}."
        )
    free = int(machine.fixed.size[FREE])
    scaled = np.abs(live.node[UNBALANCE, :free]) / machine.numbers.node[Q_SCALE, :free]
    worst = np.argsort(-np.nan_to_num(scaled, nan=np.inf), kind="stable")[:3]
    if status == NO_SOLUTION:
        parts = _owners(machine, (machine.nodes[i] for i in worst))
        words = f"No balance of flows was found at {_seconds(at)}, worst near {_listed(parts)}."
        return Outcome("gave up", at, parts, words)
    moving = np.argsort(-np.abs(live.node[RATE, :free]) / machine.numbers.node[X_SCALE, :free], kind="stable")[:3]
    parts = _owners(machine, (machine.nodes[i] for i in moving))
    words = f"It was given up as too laborious after {_seconds(at)}, most of all near {_listed(parts)}."
    return Outcome("gave up", at, parts, words)


def _chatter(parts: tuple[str, ...]) -> str:
    return "it switches itself on and off" if len(parts) == 1 else "they switch each other on and off"


def _owners(machine: Machine, names: Iterable[str]) -> tuple[str, ...]:
    owners = dict(machine.owners)
    return tuple(dict.fromkeys(owners.get(name, name) for name in names))


def _listed(parts: tuple[str, ...]) -> str:
    if len(parts) < 2:
        return "".join(parts)
    return ", ".join(parts[:-1]) + " and " + parts[-1]


def _seconds(at: float) -> str:
    return f"{at:.4g} s" if at < 1000.0 else f"{at:.0f} s"
