"""The program of the signals: registers filled in order, constants first."""

import math

from cutaway.machine.layout import (
    ABS,
    ACROSS,
    ADD,
    AND,
    CONTENT,
    DIV,
    EQ,
    GE,
    GT,
    HOLDS,
    IF,
    INPUT,
    IS_SET,
    ISA,
    LAST,
    LE,
    LT,
    MAX,
    MIN,
    MODE,
    MUL,
    NEG,
    NOT,
    OR,
    POW,
    SQRT,
    STEADY,
    STEP,
    SUB,
    TABLE,
    THROUGH,
    TRIAL,
    Fixed,
    Floats,
    Live,
    Numbers,
    X,
)
from cutaway.parts.laws.atmosphere import isa_pressure
from cutaway.parts.laws.shapes import opening


def truth(value: bool) -> float:
    """True is 1 and false is 0."""
    return 1.0 if value else 0.0


def interpolated(x: float, table: Floats, first: int, last: int) -> float:
    """Linear interpolation in places `first` to `last` of the tables, held flat beyond the ends."""
    xs, ys = table[0], table[1]
    if x <= xs[first]:
        return float(ys[first])
    if x >= xs[last]:
        return float(ys[last])
    low, high = first, last
    while high - low > 1:
        middle = (low + high) // 2
        if xs[middle] <= x:
            low = middle
        else:
            high = middle
    return float(ys[low] + (ys[high] - ys[low]) * (x - xs[low]) / (xs[high] - xs[low]))


def calculated(operation: int, a: float, b: float, c: float) -> float:
    """One operation on one to three numbers. No division by zero, root of a negative or overflow comes out of it."""
    if operation == ADD:
        return a + b
    if operation == SUB:
        return a - b
    if operation == MUL:
        return a * b
    if operation == DIV:
        return a / b if b != 0.0 else 0.0
    if operation == NEG:
        return -a
    if operation == ABS:
        return abs(a)
    if operation == MIN:
        return min(a, b)
    if operation == MAX:
        return max(a, b)
    if operation == LT:
        return truth(a < b)
    if operation == LE:
        return truth(a <= b)
    if operation == GT:
        return truth(a > b)
    if operation == GE:
        return truth(a >= b)
    if operation == EQ:
        return truth(a == b)
    if operation == AND:
        return truth(a > 0.0 and b > 0.0)
    if operation == OR:
        return truth(a > 0.0 or b > 0.0)
    if operation == NOT:
        return truth(not a > 0.0)
    if operation == STEP:
        return opening(a)[0]
    if operation == IF:
        return b if a > 0.0 else c
    if operation == SQRT:
        return math.sqrt(a) if a > 0.0 else 0.0
    if operation == POW:
        return float(a**b) if a > 0.0 else 0.0
    if operation == ISA:
        return isa_pressure(a)
    return 0.0


def evaluate(fixed: Fixed, numbers: Numbers, live: Live, at: int) -> None:
    """Every register of the program, before a step (`LAST`); at the end of its trial (`TRIAL`) those that can move
    within one."""
    if at == LAST:
        followed(fixed, numbers, live, LAST, 0, fixed.size[STEADY])
        for i in range(numbers.constants.size, numbers.constants.size + fixed.size[STEADY]):
            live.register[TRIAL, i] = live.register[LAST, i]
    followed(fixed, numbers, live, at, fixed.size[STEADY], fixed.code.shape[0])


def followed(fixed: Fixed, numbers: Numbers, live: Live, at: int, first: int, end: int) -> None:
    """The program from one instruction up to another."""
    code, registers = fixed.code, live.register[at]
    for i in range(first, end):
        to, operation, a, b, c = code[i, 0], code[i, 1], code[i, 2], code[i, 3], code[i, 4]
        if operation == ACROSS:
            registers[to] = live.node[X + at, a]
        elif operation == THROUGH:
            registers[to] = live.flow[at, a, b]
        elif operation == CONTENT:
            registers[to] = live.element[HOLDS + at, a]
        elif operation == INPUT:
            registers[to] = live.inputs[a]
        elif operation == MODE:
            registers[to] = live.mode[IS_SET, a]
        elif operation == TABLE:
            first, last = fixed.tables[b], fixed.tables[b + 1] - 1
            registers[to] = interpolated(registers[a], numbers.table, first, last)
        else:
            registers[to] = calculated(operation, registers[a], registers[b], registers[c])
