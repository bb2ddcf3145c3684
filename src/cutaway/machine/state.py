"""What a run starts from and leaves: states, and the arrays that the kernel works on."""

import hashlib
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from cutaway.machine.compile import Machine, across_of
from cutaway.machine.compiled import kernel
from cutaway.machine.kernel_modes import MOST_ROUNDS
from cutaway.machine.layout import (
    AGE,
    CLEARS,
    END,
    FLIP_MEMORY,
    FREE,
    GAS,
    IS_SET,
    KIND,
    LAST,
    OWED,
    PENDING,
    SETS,
    SPEED,
    STILL_SINCE,
    TERM,
    TRAVEL,
    UNTIL_REST,
    X_SCALE,
    X_TRY,
    Floats,
    Live,
    X,
)
from cutaway.machine.records import Change, SetContent, State
from cutaway.machine.scales import MEDIA
from cutaway.parts.laws.elements import FAMILIES

LONG_AGO = 1.0e9  # age of a mode that has not changed yet, s
ROOM = 512  # rows between two visits of the kernel


def state_from(
    machine: Machine, x: Floats, content: Floats, modes: Floats, timers: Floats, inputs: Floats, step: Floats
) -> State:
    """A state from its arrays, with what stands for them all."""
    digest = hashlib.sha256()
    for array in (x, content, modes, timers, inputs, step):
        digest.update(array.tobytes())
    return State(x, content, modes, timers, inputs, step, f"{machine.structure}.{digest.hexdigest()[:24]}")


def state_of(machine: Machine, live: Live) -> State:
    """Everything that another run needs to go on from here."""
    element, mode = live.element, live.mode
    return state_from(
        machine,
        live.node[X].copy(),
        np.concatenate([element[TRAVEL], element[GAS]]),
        mode[IS_SET].copy(),
        np.concatenate([mode[AGE], mode[PENDING]]),
        live.inputs.copy(),
        np.concatenate([element[SPEED], live.flow[LAST].ravel(), live.node[OWED, : machine.fixed.size[FREE]]]),
    )


def initial_state(machine: Machine) -> State:
    """The very beginning: as the recipes say, no time passed, nothing flowing."""
    elements, free = len(machine.elements), int(machine.fixed.size[FREE])
    modes = len(machine.modes)
    state = state_from(
        machine,
        machine.start_x.copy(),
        np.concatenate([machine.start_travel, np.zeros(elements)]),
        np.maximum(machine.start_modes, 0.0),
        np.concatenate([np.full(modes, LONG_AGO), np.full(modes, -1.0)]),
        machine.start_inputs.copy(),
        np.zeros(elements + 3 * elements + free),
    )
    live = live_arrays(machine, state, (), 0.0, False)
    kernel()(machine.fixed, machine.numbers, live)  # the first call only begins
    live.node[X, free:] = live.register[LAST][machine.fixed.boundary]
    by_condition = machine.start_modes < 0.0
    live.mode[IS_SET, by_condition] = live.register[LAST][machine.fixed.mode[SETS]][by_condition] > 0.0
    return state_of(machine, live)


def started(machine: Machine, state: State | None, sets: Sequence[SetContent]) -> State:
    """The state with the given contents put in; a store's node takes the across value that goes with its content."""
    if state is None:
        state = initial_state(machine)
    assert state.digest.startswith(machine.structure + "."), "a state of another machine"
    if not sets:
        return state
    x, content = state.x.copy(), state.content.copy()
    step = state.step.copy()
    owed = step[4 * len(machine.elements) :]
    for change in sets:
        e = machine.elements.index(change.element)
        family = FAMILIES[machine.fixed.element[e, KIND]]
        node = machine.fixed.element[e, TERM]
        if family.name in ("JACK", "RAM"):
            content[e] = change.value
            continue
        assert family.name in ("STORE", "ACCUM", "TANK"), f"{change.element} holds nothing"
        parameters = machine.numbers.parameters[e][: len(family.parameters)].tolist()
        x[node] = across_of(family.name, parameters, change.value, float(machine.numbers.node[X_SCALE, node]))
        owed[node] = 0.0
    put = state_from(machine, x, content, state.modes, state.timers, state.inputs, step)
    return _as_if_for_ever(machine, state, put)


def _as_if_for_ever(machine: Machine, before: State, put: State) -> State:
    """The state with every mode turned over that what was put in calls for, whatever its delay: what is put somewhere
    has stood there, so that a leg that stands down is not still locked up. What was due before waits its time."""
    modes, timers, was_due = put.modes.copy(), put.timers.copy(), _due(machine, before)
    turned = np.zeros(len(modes), np.bool_)
    for _ in range(MOST_ROUNDS):
        at_hand = state_from(machine, put.x, put.content, modes, timers, put.inputs, put.step)
        due = _due(machine, at_hand) & ~was_due & ~turned
        if not due.any():
            return at_hand
        modes[due] = 1.0 - modes[due]
        timers[: len(modes)][due], timers[len(modes) :][due] = LONG_AGO, -1.0
        turned |= due
    return put


def _due(machine: Machine, state: State) -> NDArray[np.bool_]:
    """Which modes' conditions for their next turn are fulfilled, delays and dwells apart."""
    live = live_arrays(machine, state, (), 0.0, False)
    kernel()(machine.fixed, machine.numbers, live)  # the first call only begins
    sets, clears = (live.register[LAST][machine.fixed.mode[which]] > 0.0 for which in (SETS, CLEARS))
    due: NDArray[np.bool_] = np.where(state.modes > 0.0, clears, sets & ~clears)
    return due


def live_arrays(machine: Machine, state: State, changes: Sequence[Change], seconds: float, until_rest: bool) -> Live:
    """Fresh arrays for one run from a state."""
    fixed = machine.fixed
    n, elements, modes = len(machine.nodes), len(machine.elements), len(machine.modes)
    node, element, mode = np.zeros((11, n)), np.zeros((9, elements)), np.zeros((4, modes))
    node[X] = node[X_TRY] = state.x
    node[OWED, : fixed.size[FREE]] = state.step[4 * elements :]
    element[TRAVEL], element[GAS] = state.content[:elements], state.content[elements:]
    element[SPEED] = state.step[:elements]
    flow = np.zeros((2, elements, 3))
    flow[LAST] = state.step[elements : 4 * elements].reshape(elements, 3)
    mode[IS_SET] = state.modes
    mode[AGE], mode[PENDING] = state.timers[:modes], state.timers[modes:]
    clock, count = np.zeros(9), np.zeros(12, np.int64)
    clock[END], clock[STILL_SINCE] = seconds, -1.0
    count[UNTIL_REST] = int(until_rest)
    where = {name: i for i, name in enumerate(machine.inputs)}
    return Live(
        node=node,
        element=element,
        flow=flow,
        register=np.zeros((2, fixed.code.shape[0] + machine.numbers.constants.size)),
        mode=mode,
        tally=np.zeros((2, modes), np.int64),
        flip_time=np.zeros((modes, FLIP_MEMORY)),
        matrix=np.zeros((2, fixed.place.shape[1] + 1)),
        dense=np.zeros((fixed.size[FREE], fixed.size[FREE])),
        inputs=state.inputs.copy(),
        clock=clock,
        counts=count,
        change=np.array([[c.time for c in changes], [c.value for c in changes]], np.float64).reshape(2, len(changes)),
        change_input=np.array([where[c.input] for c in changes], np.int64),
        rows=np.empty((ROOM, 1 + fixed.out.size)),
        event=np.zeros((3, 64 * max(1, modes))),
        medium=np.zeros((2, len(MEDIA))),
    )
