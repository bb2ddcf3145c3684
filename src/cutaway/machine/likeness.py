"""Whether two states are as good as the same: everything that a run carries forward, rounded to what matters."""

import hashlib

import numpy as np

from cutaway.machine.compile import Machine
from cutaway.machine.layout import DWELL, FREE, X_SCALE, Floats
from cutaway.machine.records import State

# To how many digits states are compared, against their own size or the scale of their medium. No figure of a handbook
# is better than three; a choice of ours.
DIGITS = 4


def likeness(machine: Machine, state: State) -> str:
    """Stands for a state: two that have the same go on alike. Positions, failures, conditions and modes are compared as
    they are; pressures, contents and flows to four digits. Two that lie on either side of a rounding are told apart,
    which costs a run and no more."""
    free, elements, modes = int(machine.fixed.size[FREE]), len(machine.elements), len(machine.modes)
    across = _rounded(state.x[:free], machine.numbers.node[X_SCALE, :free])
    content = _rounded(state.content, np.abs(state.content))
    age, pending = state.timers[:modes], state.timers[modes:]
    waits = np.maximum(machine.numbers.mode[DWELL], 0.0)
    # How long a mode has stood matters only until it may change back.
    still = np.where(age >= waits, 0.0, np.round(waits - age, 2))
    due = np.where(pending < 0.0, -1.0, np.round(pending, 2))
    speed = _rounded(state.step[:elements], np.full(elements, 1.0))
    digest = hashlib.blake2b(digest_size=16)
    for array in (state.inputs, state.modes, across, content, still, due, speed):
        digest.update((np.asarray(array, np.float64) + 0.0).tobytes())  # + 0.0: no minus nought
    return digest.hexdigest()


def _rounded(values: Floats, scales: Floats) -> Floats:
    """Values to so many digits of the larger of their own size and their scale."""
    size = np.maximum(np.abs(values), np.abs(scales))
    step = 10.0 ** (np.floor(np.log10(np.maximum(size, 1e-30))) - DIGITS + 1)
    rounded: Floats = np.where(size < 1e-30, 0.0, np.round(values / step) * step)
    return rounded
