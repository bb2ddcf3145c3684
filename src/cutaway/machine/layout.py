"""The arrays that the kernel works on, by name, and what their numbered places mean."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

# Operations of the signals' program: register `to` = operation of registers (or indices) a, b, c.
(
    ACROSS, THROUGH, CONTENT, INPUT, MODE, TABLE,
    ADD, SUB, MUL, DIV, NEG, ABS, MIN, MAX,
    LT, LE, GT, GE, EQ, AND, OR, NOT, STEP, IF, SQRT, POW, ISA,
) = range(27)  # fmt: skip

OPERATIONS = {
    "add": ADD, "sub": SUB, "mul": MUL, "div": DIV, "neg": NEG, "abs": ABS, "min": MIN, "max": MAX,
    "lt": LT, "le": LE, "gt": GT, "ge": GE, "eq": EQ, "and": AND, "or": OR, "not": NOT,
    "step": STEP, "if": IF, "sqrt": SQRT, "pow": POW, "isa": ISA,
}  # fmt: skip

# Families, by their place in the table of elements.
(
    LIN, ROOT, GASROOT, ONEWAY, GASWAY, RELIEF, REDUCE, MAINTAIN, SOURCE, PDPUMP,
    DRAW, STORE, ACCUM, TANK, JACK, RAM, RATIO, DRAG, ADVECT,
) = range(19)  # fmt: skip

# Places in `Live.clock` (floats) and `Live.count` (integers).
NOW, STEP_SIZE, END, STILL_SINCE, RESIDUAL, NEXT_FORCED, ERROR = range(7)
STARTED, FRESH, NEXT_CHANGE, ROWS, EVENTS, STEPS, CUTS, TRANSIENTS, FLIPS, UNTIL_REST, REJECTED, SOLVES = range(12)

# How `advance` comes back.
FULL, DONE, AT_REST, NO_SOLUTION, CHATTERS, TOO_LONG = range(6)

PARAMETERS = 10  # the most that a family has (JACK, RAM)
FLIP_MEMORY = 21


class Fixed(NamedTuple):
    """What the structure of a network settles. Free nodes come first, boundary nodes after them.

    kind, term (e, 3), slot (e, 9), gate, drive: elements; slots are places in the matrix, the last place being waste.
    stores: elements that hold something. code (i, 5): the program. tables: where each table begins. sets, clears: registers
    of the modes. boundary: registers of the boundary nodes. out: registers to record. diagonal: place of each node's diagonal.
    order … column_of: the elimination, see `symbolic.py`. medium, slow: by node.
    """

    kind: Ints
    term: Ints
    slot: Ints
    gate: Ints
    drive: Ints
    stores: Ints
    code: Ints
    tables: Ints
    sets: Ints
    clears: Ints
    boundary: Ints
    out: Ints
    diagonal: Ints
    order: Ints
    pivot: Ints
    lower_at: Ints
    lower: Ints
    lower_row: Ints
    upper_at: Ints
    upper: Ints
    upper_column: Ints
    target_at: Ints
    target: Ints
    row_of: Ints
    column_of: Ints
    medium: Ints
    slow: Ints


class Numbers(NamedTuple):
    """What a lane may differ in: parameters (e, 10), constants, tables, scales and stores of the nodes, times of the modes."""

    parameters: Floats
    constants: Floats
    table_x: Floats
    table_y: Floats
    x_scale: Floats
    q_scale: Floats
    capacity: Floats
    leak: Floats
    delay: Floats
    dwell: Floats
    tolerance: Floats


class Live(NamedTuple):
    """What a run changes. `x`, `flow`, `content`, `registers` … are of the last accepted step; those with `_try` of the step in hand."""

    x: Floats
    x_try: Floats
    x_base: Floats
    x_end: Floats
    rate: Floats
    owed: Floats
    travel: Floats
    gas: Floats
    gas_try: Floats
    speed: Floats
    speed_try: Floats
    flow: Floats
    flow_try: Floats
    content: Floats
    content_try: Floats
    registers: Floats
    registers_try: Floats
    modes: Floats
    age: Floats
    pending: Floats
    inputs: Floats
    gate: Floats
    drive: Floats
    weight: Floats
    matrix: Floats
    factors: Floats
    residual: Floats
    size: Floats
    held: Floats
    move: Floats
    work: Floats
    clock: Floats
    count: Ints
    change_time: Floats
    change_input: Ints
    change_value: Floats
    row_time: Floats
    rows: Floats
    event_time: Floats
    event_mode: Ints
    event_now: Floats
    flip_time: Floats
    flips: Ints
    ringing: Ints
    supply: Floats
    gross: Floats
