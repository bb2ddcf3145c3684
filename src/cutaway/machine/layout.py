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

# Places in the rows of `Live`. What ends in _TRY is of the step in hand; it stands right behind what it will replace.
X, X_TRY, X_BASE, X_END, RATE, OWED, UNBALANCE, SIZE, STIFF, MOVE, WORK = range(11)  # node
HOLDS, HOLDS_TRY, TRAVEL, GAS, GAS_TRY, SPEED, SPEED_TRY, GATE, DRIVE = range(9)  # element
LAST, TRIAL = range(2)  # flow, register
IS_SET, AGE, PENDING, WEIGHT = range(4)  # mode
FLIPPED, RINGING = range(2)  # tally
TIME, VALUE = range(2)  # change
WHICH, NOW_SET = range(1, 3)  # event, after TIME
SUPPLY, GROSS = range(2)  # medium
MATRIX, FACTORS = range(2)  # matrix
NOW, STEP_SIZE, END, STILL_SINCE, RESIDUAL, ERROR, BEFORE, TAKEN, WHOLE = range(9)  # clock
STARTED, FRESH, NEXT_CHANGE, ROWS, EVENTS, STEPS, CUTS, TRANSIENTS, FLIPS, UNTIL_REST, REJECTED, SOLVES = range(
    12
)  # count

# Places in the rows of `Fixed` and `Numbers`.
FREE, STEADY = range(2)  # size
DIAGONAL, MEDIUM, SLOW, ORDER, FILL_AT = range(5)  # node
LOWER, ROW, UPPER = range(3)  # fill
KIND, GATE_FROM, DRIVE_FROM, TERM, SLOT = 0, 1, 2, 3, 6  # element: three terminals, nine slots
SETS, CLEARS = range(2)  # mode
X_SCALE, Q_SCALE, CAPACITY, LEAK = range(4)  # node
DELAY, DWELL = range(2)  # mode

# How `advance` comes back.
BEGUN, FULL, DONE, AT_REST, NO_SOLUTION, CHATTERS, TOO_LONG = range(7)

PARAMETERS = 10  # the most that a family has (JACK, RAM)
FLIP_MEMORY = 21


class Fixed(NamedTuple):
    """What the structure of a network settles. Free nodes come first, boundary nodes after them. Rows as named above.

    size: how many free nodes; how many instructions are steady, moving only with inputs and modes. node: by node
    (ORDER: node of each pivot; FILL_AT: where its fill begins, one more than nodes). element: a line an element; slots
    are places in the matrix, the last place being waste. fill: places below each pivot, the pivots they belong to, and
    the places right of it. target: where their products go, in order. place: row and column of each place. code: the
    program, a line an instruction, the steady ones first. tables: where each table begins. mode: registers. stores:
    elements that hold something. boundary: registers of the boundary nodes. out: registers to record.
    """

    size: Ints
    node: Ints
    element: Ints
    fill: Ints
    target: Ints
    place: Ints
    code: Ints
    tables: Ints
    mode: Ints
    stores: Ints
    boundary: Ints
    out: Ints


class Numbers(NamedTuple):
    """What a lane may differ in: parameters (a line an element), constants, tables, scales and stores of nodes, times
    of modes."""

    parameters: Floats
    constants: Floats
    table: Floats
    node: Floats
    mode: Floats
    tolerance: Floats


class Live(NamedTuple):
    """What a run changes. Rows as named above; few arrays of many rows, since every array more makes compiling slower.

    rows: a line a moment, its time first. change_input: the input of each change.
    """

    node: Floats
    element: Floats
    flow: Floats
    register: Floats
    mode: Floats
    tally: Ints
    flip_time: Floats
    matrix: Floats
    dense: Floats
    inputs: Floats
    clock: Floats
    counts: Ints
    change: Floats
    change_input: Ints
    rows: Floats
    event: Floats
    medium: Floats
