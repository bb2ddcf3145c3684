"""What a run starts from and leaves: states, and the arrays that the kernel works on."""

import hashlib
from collections.abc import Sequence

import numpy as np

from cutaway.machine.compile import Machine, across_of
from cutaway.machine.compiled import kernel
from cutaway.machine.layout import END, FLIP_MEMORY, STILL_SINCE, UNTIL_REST, Floats, Live
from cutaway.machine.records import Change, SetContent, State
from cutaway.machine.scales import MEDIA
from cutaway.parts.laws.elements import FAMILIES

LONG_AGO = 1.0e9  # age of a mode that has not changed yet, s
ROOM = 512  # rows between two visits of the kernel


def _state(machine: Machine, x: Floats, content: Floats, modes: Floats, timers: Floats, inputs: Floats, step: Floats) -> State:
    digest = hashlib.sha256()
    for array in (x, content, modes, timers, inputs, step):
        digest.update(array.tobytes())
    return State(x, content, modes, timers, inputs, step, f"{machine.structure}.{digest.hexdigest()[:24]}")


def state_of(machine: Machine, live: Live) -> State:
    """Everything that another run needs to go on from here."""
    return _state(
        machine,
        live.x.copy(),
        np.concatenate([live.travel, live.gas]),
        live.modes.copy(),
        np.concatenate([live.age, live.pending]),
        live.inputs.copy(),
        np.concatenate([live.speed, live.flow.ravel(), live.owed]),
    )


def initial_state(machine: Machine) -> State:
    """The very beginning: as the recipes say, no time passed, nothing flowing."""
    elements, free = len(machine.elements), machine.fixed.diagonal.size
    modes = len(machine.modes)
    state = _state(
        machine,
        machine.start_x.copy(),
        np.concatenate([machine.start_travel, np.zeros(elements)]),
        np.maximum(machine.start_modes, 0.0),
        np.concatenate([np.full(modes, LONG_AGO), np.full(modes, -1.0)]),
        machine.start_inputs.copy(),
        np.zeros(elements + 3 * elements + free),
    )
    live = live_arrays(machine, state, (), 0.0, False)
    begin = kernel()[1]
    begin(machine.fixed, machine.numbers, live)
    live.x[free:] = live.registers[machine.fixed.boundary]
    by_condition = machine.start_modes < 0.0
    live.modes[by_condition] = live.registers[machine.fixed.sets][by_condition] > 0.0
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
        family = FAMILIES[machine.fixed.kind[e]]
        node = machine.fixed.term[e, 0]
        if family.name in ("JACK", "RAM"):
            content[e] = change.value
            continue
        assert family.name in ("STORE", "ACCUM", "TANK"), f"{change.element} holds nothing"
        parameters = machine.numbers.parameters[e][: len(family.parameters)].tolist()
        x[node] = across_of(family.name, parameters, change.value, float(machine.numbers.x_scale[node]))
        owed[node] = 0.0
    return _state(machine, x, content, state.modes, state.timers, state.inputs, step)


def live_arrays(
    machine: Machine, state: State, changes: Sequence[Change], seconds: float, until_rest: bool
) -> Live:
    """Fresh arrays for one run from a state."""
    fixed = machine.fixed
    n, free, elements = fixed.medium.size, fixed.diagonal.size, fixed.kind.size
    modes, slots = fixed.sets.size, fixed.row_of.size + 1
    registers = fixed.code.shape[0] + machine.numbers.constants.size
    events = 64 * max(1, modes)
    clock = np.zeros(8)
    clock[END], clock[STILL_SINCE] = seconds, -1.0
    count = np.zeros(12, np.int64)
    count[UNTIL_REST] = int(until_rest)
    where = {name: i for i, name in enumerate(machine.inputs)}
    x = state.x.copy()
    return Live(
        x=x,
        x_try=x.copy(),
        x_base=np.zeros(n),
        x_end=np.zeros(n),
        rate=np.zeros(free),
        owed=state.step[4 * elements :].copy(),
        travel=state.content[:elements].copy(),
        gas=state.content[elements:].copy(),
        gas_try=np.zeros(elements),
        speed=state.step[:elements].copy(),
        speed_try=np.zeros(elements),
        flow=state.step[elements : 4 * elements].reshape(elements, 3).copy(),
        flow_try=np.zeros((elements, 3)),
        content=np.zeros(elements),
        content_try=np.zeros(elements),
        registers=np.zeros(registers),
        registers_try=np.zeros(registers),
        modes=state.modes.copy(),
        age=state.timers[:modes].copy(),
        pending=state.timers[modes:].copy(),
        inputs=state.inputs.copy(),
        gate=np.zeros(elements),
        drive=np.zeros(elements),
        weight=np.zeros(modes),
        matrix=np.zeros(slots),
        factors=np.zeros(slots),
        residual=np.zeros(n),
        size=np.zeros(n),
        held=np.zeros(n),
        move=np.zeros(free),
        work=np.zeros(free),
        clock=clock,
        count=count,
        change_time=np.array([change.time for change in changes], np.float64),
        change_input=np.array([where[change.input] for change in changes], np.int64),
        change_value=np.array([change.value for change in changes], np.float64),
        row_time=np.zeros(ROOM),
        rows=np.empty((ROOM, fixed.out.size)),
        event_time=np.zeros(events),
        event_mode=np.zeros(events, np.int64),
        event_now=np.zeros(events),
        flip_time=np.zeros((modes, FLIP_MEMORY)),
        flips=np.zeros(modes, np.int64),
        ringing=np.zeros(modes, np.int64),
        supply=np.zeros(len(MEDIA)),
        gross=np.zeros(len(MEDIA)),
    )
