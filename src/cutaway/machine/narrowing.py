"""A machine over what a few inputs can still do from a state on, everything else being held where it stands."""

from collections.abc import Mapping, Sequence

import numpy as np

from cutaway.machine.compile import Machine
from cutaway.machine.layout import FREE
from cutaway.machine.network import Network
from cutaway.machine.records import State
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import held_for_good
from cutaway.machine.state import state_from


def narrowed(network: Network, held: Mapping[str, float], signals: frozenset[str]) -> Network:
    """What can reach the signals with inputs held for good. It goes on from a state that was reached with the inputs so
    (see `carried`); from its own beginning it would forget what they did before."""
    return cone(held_for_good(network, held), signals)


def carried(whole: Machine, state: State, narrow: Machine) -> State:
    """A state of a machine as the state of one that was narrowed from it."""
    nodes = _places(whole.nodes, narrow.nodes)
    elements = _places(whole.elements, narrow.elements)
    modes = _places(whole.modes, narrow.modes)
    count, free = len(whole.elements), int(narrow.fixed.size[FREE])
    speed, flow, owed = state.step[:count], state.step[count : 4 * count].reshape(count, 3), state.step[4 * count :]
    return state_from(
        narrow,
        state.x[nodes],
        np.concatenate([state.content[:count][elements], state.content[count:][elements]]),
        state.modes[modes],
        np.concatenate([state.timers[: len(whole.modes)][modes], state.timers[len(whole.modes) :][modes]]),
        state.inputs[_places(whole.inputs, narrow.inputs)],
        np.concatenate([speed[elements], flow[elements].ravel(), owed[nodes[:free]]]),
    )


def _places(among: Sequence[str], names: Sequence[str]) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    at = {name: i for i, name in enumerate(among)}
    return np.array([at[name] for name in names], np.int64)
