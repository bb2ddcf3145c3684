"""Flows of all elements at trial across values, gathered into residuals and into the matrix."""

from cutaway.machine.layout import (
    ACCUM,
    ADVECT,
    CAPACITY,
    DIAGONAL,
    DRAG,
    DRAW,
    DRIVE,
    FREE,
    GAS,
    GAS_TRY,
    GASROOT,
    GASWAY,
    GATE,
    HOLDS,
    HOLDS_TRY,
    JACK,
    KIND,
    LEAK,
    LIN,
    MAINTAIN,
    MATRIX,
    ONEWAY,
    OWED,
    PDPUMP,
    Q_SCALE,
    RAM,
    RATIO,
    REDUCE,
    RELIEF,
    ROOT,
    SIZE,
    SLOT,
    SOURCE,
    SPEED_TRY,
    STIFF,
    STORE,
    TANK,
    TERM,
    TRAVEL,
    TRIAL,
    UNBALANCE,
    X_TRY,
    Fixed,
    Floats,
    Live,
    Numbers,
    X,
)
from cutaway.parts.laws.current import advect, drag, motor, source
from cutaway.parts.laws.gas import gas_one_way, gas_orifice
from cutaway.parts.laws.jacks import jack, ram, ram_content
from cutaway.parts.laws.liquid import draw, linear, maintain, one_way, orifice, pump, reduce, relief
from cutaway.parts.laws.stores import accumulator, store, tank


def two_ended(kind: int, a: float, b: float, g: float, u: float, p: Floats) -> tuple[float, float, float]:
    """Flow from the first end to the second of an element of any two-ended family without memory, with its slopes."""
    if kind == LIN:
        return linear(a, b, g, u, p[0])
    if kind == ROOT:
        return orifice(a, b, g, u, p[0], p[1])
    if kind == GASROOT:
        return gas_orifice(a, b, g, u, p[0], p[1])
    if kind == ONEWAY:
        return one_way(a, b, g, u, p[0], p[1], p[2], p[3])
    if kind == GASWAY:
        return gas_one_way(a, b, g, u, p[0], p[1], p[2])
    if kind == RELIEF:
        return relief(a, b, g, u, p[0], p[1], p[2], p[3])
    if kind == REDUCE:
        return reduce(a, b, g, u, p[0], p[1], p[2], p[3])
    if kind == MAINTAIN:
        return maintain(a, b, g, u, p[0], p[1], p[2], p[3])
    if kind == SOURCE:
        return source(a, b, g, u, p[0], p[1], p[2], p[3], p[4])
    if kind == PDPUMP:
        return pump(a, b, g, u, p[0], p[1], p[2], p[3], p[4], p[5])
    if kind == DRAW:
        return draw(a, b, g, u, p[0], p[1], p[2])
    if kind == DRAG:
        return drag(a, b, g, u, p[0], p[1], p[2])
    if kind == ADVECT:
        return advect(a, b, g, u, p[0])
    return 0.0, 0.0, 0.0


def held(kind: int, x: float, p: Floats) -> tuple[float, float]:
    """Content, and its slope, of an element of any family of stores."""
    if kind == STORE:
        return store(x, p[0])
    if kind == ACCUM:
        return accumulator(x, p[0], p[1], p[2], p[3])
    if kind == TANK:
        return tank(x, p[0], p[1], p[2])
    return 0.0, 0.0


def assemble(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> float:
    """Residual, matrix and flows at `live.x_try` for a step of that size. Returns the sum of squares of the scaled
    residual.

    The content that the last step's residual left unaccounted (`owed`) is brought in here, so that nothing is ever
    lost.
    """
    x, n = live.node[X_TRY], fixed.size[FREE]
    live.matrix[MATRIX, :] = 0.0
    live.node[UNBALANCE, :] = 0.0
    live.node[SIZE, :] = 0.0
    for i in range(n):
        hold = numbers.node[CAPACITY, i] / step
        live.node[UNBALANCE, i] = (
            hold * (x[i] - live.node[X, i]) + numbers.node[LEAK, i] * x[i] - live.node[OWED, i] / step
        )
        live.matrix[MATRIX, fixed.node[DIAGONAL, i]] = hold + numbers.node[LEAK, i]
        live.node[STIFF, i] = hold
    for e in range(fixed.element.shape[0]):
        kind = fixed.element[e, KIND]
        if kind in (STORE, ACCUM, TANK):
            hold_in_store(fixed, numbers, live, e, kind, step)
        elif kind == JACK:
            push_jack(fixed, numbers, live, e, step)
        elif kind == RAM:
            push_ram(fixed, numbers, live, e, step)
        elif kind == RATIO:
            turn_motor(fixed, numbers, live, e)
        else:
            a, b = fixed.element[e, TERM], fixed.element[e, TERM + 1]
            q, by_a, by_b = two_ended(
                kind, x[a], x[b], live.element[GATE, e], live.element[DRIVE, e], numbers.parameters[e]
            )
            live.flow[TRIAL, e, 0] = q
            live.flow[TRIAL, e, 1] = -q
            live.node[UNBALANCE, a] += q
            live.node[UNBALANCE, b] -= q
            live.node[SIZE, a] += abs(q)
            live.node[SIZE, b] += abs(q)
            live.matrix[MATRIX, fixed.element[e, SLOT]] += by_a
            live.matrix[MATRIX, fixed.element[e, SLOT + 1]] += by_b
            live.matrix[MATRIX, fixed.element[e, SLOT + 3]] -= by_a
            live.matrix[MATRIX, fixed.element[e, SLOT + 4]] -= by_b
    total = 0.0
    for i in range(n):
        # Weighed as `converged` weighs it: else the round-off of one stiff store hides what is still wrong elsewhere.
        stiff = abs(live.matrix[MATRIX, fixed.node[DIAGONAL, i]] * x[i])
        weight = numbers.node[Q_SCALE, i] + 4.0e-3 * (live.node[SIZE, i] + 1.0e-3 * stiff)
        scaled = live.node[UNBALANCE, i] / weight
        total += scaled * scaled
    return total


def hold_in_store(fixed: Fixed, numbers: Numbers, live: Live, e: int, kind: int, step: float) -> None:
    """A store with one end: flow in is the content's change over the step."""
    a = fixed.element[e, TERM]
    content, slope = held(kind, live.node[X_TRY, a], numbers.parameters[e])
    q = (content - live.element[HOLDS, e]) / step
    live.element[HOLDS_TRY, e] = content
    live.flow[TRIAL, e, 0] = q
    live.node[UNBALANCE, a] += q
    live.node[SIZE, a] += abs(q) + 1.0e-4 * abs(content) / step  # round-off of the content
    live.matrix[MATRIX, fixed.element[e, SLOT]] += slope / step
    live.node[STIFF, a] += slope / step


def push_jack(fixed: Fixed, numbers: Numbers, live: Live, e: int, step: float) -> None:
    """A jack: the piston's speed is found by its own law; both ends see the swept volume."""
    a, b, p = fixed.element[e, TERM], fixed.element[e, TERM + 1], numbers.parameters[e]
    v, slope = jack(
        live.node[X_TRY, a], live.node[X_TRY, b], live.element[TRAVEL, e], step,
        live.element[GATE, e], live.element[DRIVE, e],
        p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9],
    )  # fmt: skip
    live.element[SPEED_TRY, e] = v
    live.element[HOLDS_TRY, e] = live.element[TRAVEL, e] + step * v
    live.flow[TRIAL, e, 0] = p[0] * v
    live.flow[TRIAL, e, 1] = -p[1] * v
    live.node[UNBALANCE, a] += p[0] * v
    live.node[UNBALANCE, b] -= p[1] * v
    live.node[SIZE, a] += abs(p[0] * v)
    live.node[SIZE, b] += abs(p[1] * v)
    live.matrix[MATRIX, fixed.element[e, SLOT]] += slope * p[0] * p[0]
    live.matrix[MATRIX, fixed.element[e, SLOT + 1]] -= slope * p[0] * p[1]
    live.matrix[MATRIX, fixed.element[e, SLOT + 3]] -= slope * p[0] * p[1]
    live.matrix[MATRIX, fixed.element[e, SLOT + 4]] += slope * p[1] * p[1]


def push_ram(fixed: Fixed, numbers: Numbers, live: Live, e: int, step: float) -> None:
    """An air ram: as a jack, but what it takes in is the change of the free air in its chamber."""
    a, p = fixed.element[e, TERM], numbers.parameters[e]
    v, slope = ram(
        live.node[X_TRY, a], live.element[TRAVEL, e], step, live.element[GATE, e], live.element[DRIVE, e],
        p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8],
    )  # fmt: skip
    z = live.element[TRAVEL, e] + step * v
    gas, by_pressure = ram_content(live.node[X_TRY, a], z, p[0], p[6], p[9])
    q = (gas - live.element[GAS, e]) / step
    live.element[SPEED_TRY, e] = v
    live.element[HOLDS_TRY, e] = z
    live.element[GAS_TRY, e] = gas
    live.flow[TRIAL, e, 0] = q
    live.node[UNBALANCE, a] += q
    live.node[SIZE, a] += abs(q)
    by = by_pressure / step + live.node[X_TRY, a] * p[0] * p[0] * slope / 101325.0
    live.matrix[MATRIX, fixed.element[e, SLOT]] += by
    live.node[STIFF, a] += by_pressure / step


def turn_motor(fixed: Fixed, numbers: Numbers, live: Live, e: int) -> None:
    """A motor: current between its terminals, torque in proportion on its shaft."""
    a, b, s, k = (
        fixed.element[e, TERM],
        fixed.element[e, TERM + 1],
        fixed.element[e, TERM + 2],
        numbers.parameters[e, 0],
    )
    current, slope = motor(
        live.node[X_TRY, a],
        live.node[X_TRY, b],
        live.node[X_TRY, s],
        live.element[GATE, e],
        k,
        numbers.parameters[e, 1],
    )
    live.flow[TRIAL, e, 0] = current
    live.flow[TRIAL, e, 1] = -current
    live.flow[TRIAL, e, 2] = -k * current
    for r in range(3):
        node = fixed.element[e, TERM + r]
        live.node[UNBALANCE, node] += live.flow[TRIAL, e, r]
        live.node[SIZE, node] += abs(live.flow[TRIAL, e, r])
        for c in range(3):
            row = 1.0 if r == 0 else (-1.0 if r == 1 else -k)
            column = 1.0 if c == 0 else (-1.0 if c == 1 else -k)
            live.matrix[MATRIX, fixed.element[e, SLOT + 3 * r + c]] += slope * row * column


def refresh(fixed: Fixed, numbers: Numbers, live: Live) -> None:
    """Contents of all stores from the across values and travels, before a run begins."""
    for j in range(fixed.stores.size):
        e = fixed.stores[j]
        kind = fixed.element[e, KIND]
        x = live.node[X, fixed.element[e, TERM]]
        if kind in (JACK, RAM):
            live.element[HOLDS, e] = live.element[TRAVEL, e]
            if kind == RAM:
                p = numbers.parameters[e]
                live.element[GAS, e] = ram_content(x, live.element[TRAVEL, e], p[0], p[6], p[9])[0]
        else:
            live.element[HOLDS, e] = held(kind, x, numbers.parameters[e])[0]
