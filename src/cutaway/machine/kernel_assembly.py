"""Flows of all elements at trial across values, gathered into residuals and into the matrix."""

from cutaway.machine.layout import (
    ACCUM,
    ADVECT,
    DRAG,
    DRAW,
    GASROOT,
    GASWAY,
    JACK,
    LIN,
    MAINTAIN,
    ONEWAY,
    PDPUMP,
    RAM,
    RATIO,
    REDUCE,
    RELIEF,
    ROOT,
    SOURCE,
    STORE,
    TANK,
    Fixed,
    Floats,
    Live,
    Numbers,
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
    """Residual, matrix and flows at `live.x_try` for a step of that size. Returns the sum of squares of the scaled residual.

    The content that the last step's residual left unaccounted (`owed`) is brought in here, so that nothing is ever lost.
    """
    x, n = live.x_try, fixed.diagonal.size
    live.matrix[:] = 0.0
    live.residual[:] = 0.0
    live.size[:] = 0.0
    for i in range(n):
        hold = numbers.capacity[i] / step
        live.residual[i] = hold * (x[i] - live.x[i]) + numbers.leak[i] * x[i] - live.owed[i] / step
        live.matrix[fixed.diagonal[i]] = hold + numbers.leak[i]
        live.held[i] = hold
    for e in range(fixed.kind.size):
        kind = fixed.kind[e]
        if kind == STORE or kind == ACCUM or kind == TANK:
            hold_in_store(fixed, numbers, live, e, kind, step)
        elif kind == JACK:
            push_jack(fixed, numbers, live, e, step)
        elif kind == RAM:
            push_ram(fixed, numbers, live, e, step)
        elif kind == RATIO:
            turn_motor(fixed, numbers, live, e)
        else:
            a, b = fixed.term[e, 0], fixed.term[e, 1]
            q, by_a, by_b = two_ended(kind, x[a], x[b], live.gate[e], live.drive[e], numbers.parameters[e])
            live.flow_try[e, 0] = q
            live.flow_try[e, 1] = -q
            live.residual[a] += q
            live.residual[b] -= q
            live.size[a] += abs(q)
            live.size[b] += abs(q)
            live.matrix[fixed.slot[e, 0]] += by_a
            live.matrix[fixed.slot[e, 1]] += by_b
            live.matrix[fixed.slot[e, 3]] -= by_a
            live.matrix[fixed.slot[e, 4]] -= by_b
    total = 0.0
    for i in range(n):
        scaled = live.residual[i] / numbers.q_scale[i]
        total += scaled * scaled
    return total


def hold_in_store(fixed: Fixed, numbers: Numbers, live: Live, e: int, kind: int, step: float) -> None:
    """A store with one end: flow in is the content's change over the step."""
    a = fixed.term[e, 0]
    content, slope = held(kind, live.x_try[a], numbers.parameters[e])
    q = (content - live.content[e]) / step
    live.content_try[e] = content
    live.flow_try[e, 0] = q
    live.residual[a] += q
    live.size[a] += abs(q)
    live.matrix[fixed.slot[e, 0]] += slope / step
    live.held[a] += slope / step


def push_jack(fixed: Fixed, numbers: Numbers, live: Live, e: int, step: float) -> None:
    """A jack: the piston's speed is found by its own law; both ends see the swept volume."""
    a, b, p = fixed.term[e, 0], fixed.term[e, 1], numbers.parameters[e]
    v, slope = jack(
        live.x_try[a], live.x_try[b], live.travel[e], step, live.gate[e], live.drive[e],
        p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9],
    )  # fmt: skip
    live.speed_try[e] = v
    live.content_try[e] = live.travel[e] + step * v
    live.flow_try[e, 0] = p[0] * v
    live.flow_try[e, 1] = -p[1] * v
    live.residual[a] += p[0] * v
    live.residual[b] -= p[1] * v
    live.size[a] += abs(p[0] * v)
    live.size[b] += abs(p[1] * v)
    live.matrix[fixed.slot[e, 0]] += slope * p[0] * p[0]
    live.matrix[fixed.slot[e, 1]] -= slope * p[0] * p[1]
    live.matrix[fixed.slot[e, 3]] -= slope * p[0] * p[1]
    live.matrix[fixed.slot[e, 4]] += slope * p[1] * p[1]


def push_ram(fixed: Fixed, numbers: Numbers, live: Live, e: int, step: float) -> None:
    """An air ram: as a jack, but what it takes in is the change of the free air in its chamber."""
    a, p = fixed.term[e, 0], numbers.parameters[e]
    v, slope = ram(
        live.x_try[a], live.travel[e], step, live.gate[e], live.drive[e],
        p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8],
    )  # fmt: skip
    z = live.travel[e] + step * v
    gas, by_pressure = ram_content(live.x_try[a], z, p[0], p[6], p[9])
    q = (gas - live.gas[e]) / step
    live.speed_try[e] = v
    live.content_try[e] = z
    live.gas_try[e] = gas
    live.flow_try[e, 0] = q
    live.residual[a] += q
    live.size[a] += abs(q)
    by = by_pressure / step + live.x_try[a] * p[0] * p[0] * slope / 101325.0
    live.matrix[fixed.slot[e, 0]] += by
    live.held[a] += by_pressure / step


def turn_motor(fixed: Fixed, numbers: Numbers, live: Live, e: int) -> None:
    """A motor: current between its terminals, torque in proportion on its shaft."""
    a, b, s, k = fixed.term[e, 0], fixed.term[e, 1], fixed.term[e, 2], numbers.parameters[e, 0]
    current, slope = motor(
        live.x_try[a], live.x_try[b], live.x_try[s], live.gate[e], k, numbers.parameters[e, 1]
    )
    live.flow_try[e, 0] = current
    live.flow_try[e, 1] = -current
    live.flow_try[e, 2] = -k * current
    for r in range(3):
        node = fixed.term[e, r]
        live.residual[node] += live.flow_try[e, r]
        live.size[node] += abs(live.flow_try[e, r])
        for c in range(3):
            row = 1.0 if r == 0 else (-1.0 if r == 1 else -k)
            column = 1.0 if c == 0 else (-1.0 if c == 1 else -k)
            live.matrix[fixed.slot[e, 3 * r + c]] += slope * row * column


def refresh(fixed: Fixed, numbers: Numbers, live: Live) -> None:
    """Contents of all stores from the across values and travels, before a run begins."""
    for j in range(fixed.stores.size):
        e = fixed.stores[j]
        kind = fixed.kind[e]
        x = live.x[fixed.term[e, 0]]
        if kind == JACK or kind == RAM:
            live.content[e] = live.travel[e]
            if kind == RAM:
                p = numbers.parameters[e]
                live.gas[e] = ram_content(x, live.travel[e], p[0], p[6], p[9])[0]
        else:
            live.content[e] = held(kind, x, numbers.parameters[e])[0]
