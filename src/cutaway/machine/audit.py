"""What a run can be held to: its residual, and whether what was there is still there or went out where it should."""

import numpy as np

from cutaway.machine.compile import Machine
from cutaway.machine.layout import (
    CAPACITY,
    CUTS,
    FLIPS,
    FREE,
    GAS,
    GROSS,
    HOLDS,
    JACK,
    KIND,
    MEDIUM,
    OWED,
    RAM,
    RESIDUAL,
    STEPS,
    STILL_SINCE,
    SUPPLY,
    TERM,
    TRANSIENTS,
    TRAVEL,
    X_SCALE,
    Floats,
    Live,
    X,
)
from cutaway.machine.records import Certificate
from cutaway.machine.scales import MEDIA


def contents(machine: Machine, live: Live) -> tuple[Floats, Floats]:
    """What all stores of each medium hold together, and the same with every part counted positive.

    What a node's last residual left unaccounted counts as held there: it is owed to the next step, so nothing is lost
    by it, and how large it may be is the residual's business, not this one's.
    """
    fixed, total, size = machine.fixed, np.zeros(len(MEDIA)), np.zeros(len(MEDIA))
    free = int(fixed.size[FREE])
    in_nodes = machine.numbers.node[CAPACITY, :free] * live.node[X, :free] + live.node[OWED, :free]
    np.add.at(total, fixed.node[MEDIUM, :free], in_nodes)
    np.add.at(size, fixed.node[MEDIUM, :free], np.abs(in_nodes))
    stores = fixed.stores
    kinds, held = fixed.element[stores, KIND], live.element[HOLDS, stores]
    areas = machine.numbers.parameters[stores, 0] - machine.numbers.parameters[stores, 1]
    held = np.where(kinds == JACK, live.element[TRAVEL, stores] * areas, held)
    held = np.where(kinds == RAM, live.element[GAS, stores], held)
    medium = fixed.node[MEDIUM, fixed.element[stores, TERM]]
    np.add.at(total, medium, held)
    np.add.at(size, medium, np.abs(held))
    return total, size


def _least(machine: Machine) -> Floats:
    """The least content of each medium against which an error is measured: a thousandth of what the small stores of its
    nodes hold at one scale, a few cubic millimetres of petrol or oil.

    Without it the round-off of an empty network would count as all there is: a pump that circulates a litre in ten
    seconds in a network that holds nothing leaves 1e-20 m3 adrift, the last bit of its own flow."""
    free = int(machine.fixed.size[FREE])
    least = np.zeros(len(MEDIA))
    held = machine.numbers.node[CAPACITY, :free] * machine.numbers.node[X_SCALE, :free]
    np.add.at(least, machine.fixed.node[MEDIUM, :free], 1.0e-3 * held)
    return least


def certificate(machine: Machine, live: Live, before: tuple[Floats, Floats], kernel: str) -> Certificate:
    """The certificate of a run that began with these contents."""
    total, size = contents(machine, live)
    lost = np.abs(total - before[0] - live.medium[SUPPLY])
    against = np.maximum(size, before[1]) + live.medium[GROSS] + _least(machine)
    relative = lost[against > 0.0] / against[against > 0.0]
    return Certificate(
        residual=float(live.clock[RESIDUAL]),
        conservation=float(relative.max(initial=0.0)),
        steps=int(live.counts[STEPS]),
        cuts=int(live.counts[CUTS]),
        transients=int(live.counts[TRANSIENTS]),
        flips=int(live.counts[FLIPS]),
        rest=float(live.clock[STILL_SINCE]),
        uniqueness=machine.uniqueness,
        kernel=kernel,
    )
