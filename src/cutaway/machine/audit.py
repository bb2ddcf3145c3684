"""What a run can be held to: its residual, and whether what was there is still there or went out where it should."""

import numpy as np

from cutaway.machine.compile import Machine
from cutaway.machine.layout import (
    CUTS,
    FLIPS,
    JACK,
    RAM,
    RESIDUAL,
    STEPS,
    STILL_SINCE,
    TRANSIENTS,
    Floats,
    Live,
)
from cutaway.machine.records import Certificate
from cutaway.machine.scales import MEDIA


def contents(machine: Machine, live: Live) -> tuple[Floats, Floats]:
    """What all stores of each medium hold together, and the same with every part counted positive."""
    fixed, total, size = machine.fixed, np.zeros(len(MEDIA)), np.zeros(len(MEDIA))
    free = fixed.diagonal.size
    in_nodes = machine.numbers.capacity * live.x[:free]
    np.add.at(total, fixed.medium[:free], in_nodes)
    np.add.at(size, fixed.medium[:free], np.abs(in_nodes))
    for e in fixed.stores:
        held = live.content[e]
        if fixed.kind[e] == JACK:
            held = live.travel[e] * (machine.numbers.parameters[e, 0] - machine.numbers.parameters[e, 1])
        elif fixed.kind[e] == RAM:
            held = live.gas[e]
        medium = fixed.medium[fixed.term[e, 0]]
        total[medium] += held
        size[medium] += abs(held)
    return total, size


def certificate(machine: Machine, live: Live, before: tuple[Floats, Floats], kernel: str) -> Certificate:
    """The certificate of a run that began with these contents."""
    total, size = contents(machine, live)
    lost = np.abs(total - before[0] - live.supply)
    against = np.maximum(size, before[1]) + live.gross
    relative = lost[against > 0.0] / against[against > 0.0]
    return Certificate(
        residual=float(live.clock[RESIDUAL]),
        conservation=float(relative.max(initial=0.0)),
        steps=int(live.count[STEPS]),
        cuts=int(live.count[CUTS]),
        transients=int(live.count[TRANSIENTS]),
        flips=int(live.count[FLIPS]),
        rest=float(live.clock[STILL_SINCE]),
        uniqueness=machine.uniqueness,
        kernel=kernel,
    )
