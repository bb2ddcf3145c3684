"""Independent answers for the behaviours: plain laws without rounding, integrated by scipy, written apart from the
kernel."""

from math import sqrt

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.machine.networks import BAR, k_bar

CAP, ROD, DAMPING, FRICTION, STROKE = 12.0e-4, 8.0e-4, 2000.0, 300.0, 0.30
PRECHARGE, PUMP = 35.0 * BAR, 1.0e-4

Happening = tuple[float, str, bool]


def jack_speed(net: float, k: float) -> float:
    """Speed under a net force, against dry friction, damping and both orifices: b |v| + (A1³ + A2³) v² / K² = |F| -
    Fc."""
    excess = abs(net) - FRICTION
    if excess <= 0.0:
        return 0.0
    square = (CAP**3 + ROD**3) / k**2
    return float(np.sign(net)) * (-DAMPING + sqrt(DAMPING**2 + 4.0 * square * excess)) / (2.0 * square)


def hydraulic_jack(
    lever: tuple[tuple[float, int], ...], seconds: float, at: tuple[float, ...],
    accumulator: float, start: float, cut_in: float, k: float, load: float, spring: float,
    method: str = "RK45", error: float = 1.0e-8, longest: float = 0.05,
) -> tuple[list[Happening], dict[float, tuple[float, float]]]:  # fmt: skip
    """Events (idle and extended), and travel and pressure at the times asked for, of the network of the same name."""
    root = k_bar(k)
    oil = accumulator * (1.0 - PRECHARGE / (start * BAR))
    state, idle, extended, way, now = [oil, 0.0], True, False, 0, 0.0
    events: list[Happening] = []
    found: dict[float, tuple[float, float]] = {}

    def pressure(held: float) -> float:
        return PRECHARGE * accumulator / (accumulator - held)

    def speed(y: list[float]) -> float:
        against = load + spring * y[1]
        if way == 0:
            return 0.0
        v = jack_speed(
            (CAP if way == 1 else 0.0) * pressure(y[0]) - (ROD * pressure(y[0]) if way == 2 else 0.0) - against, root
        )
        stopped = (y[1] >= STROKE and v > 0.0) or (y[1] <= 0.0 and v < 0.0)
        return 0.0 if stopped else v

    def rates(_: float, y: list[float]) -> list[float]:
        v = speed(y)
        used = CAP * v if way == 1 else -ROD * v
        return [(0.0 if idle else PUMP) - used, v]

    for time, next_way in (*lever, (seconds, -1)):
        while now < time:
            tests = [  # read within this round only, so they may see how things stand in it
                lambda _, y: (cut_in * BAR - pressure(y[0])) if idle else (pressure(y[0]) - 84.0 * BAR),  # noqa: B023
                lambda _, y: (y[1] - 0.2995) if not extended else (0.299 - y[1]),  # noqa: B023
                lambda _, y: y[1] - STROKE - 1.0e-12,  # a hair beyond, or it would end every step at the stop
                lambda _, y: -y[1] - 1.0e-12,
            ]
            for test in tests:
                test.terminal, test.direction = True, 1  # type: ignore[attr-defined]
            wanted = [t for t in at if now <= t <= time]
            run = solve_ivp(
                rates,
                (now, time),
                state,
                rtol=error,
                atol=[1.0e-4 * error, 0.1 * error],
                events=tests,
                dense_output=True,
                max_step=longest,
                method=method,
            )
            for t in wanted:
                if t <= run.t[-1]:
                    found[t] = (float(run.sol(t)[1]), float(pressure(run.sol(t)[0])))
            now, state = float(run.t[-1]), [float(v) for v in run.y[:, -1]]
            if run.t_events[0].size:
                idle = not idle
                events.append((now, "idle", idle))
            if run.t_events[1].size:
                extended = not extended
                events.append((now, "extended", extended))
            state[1] = STROKE if run.t_events[2].size else 0.0 if run.t_events[3].size else state[1]
        way = next_way
    return events, found


def generator_and_battery(at: tuple[float, ...], failed: float) -> list[float]:
    """Bus volts at the times, with the generator dead from `failed` on: linear circuits, one store."""
    capacity = 20.0 * 3600.0 / 4.2
    inside, load, generator, cut_out = 20.0, 0.6, 20.0, 50.0

    def bus(cell: float, alive: bool) -> float:
        if not alive:
            return inside * cell / (inside + load)
        series = generator * cut_out / (generator + cut_out)
        return (inside * cell + series * 28.0) / (inside + load + series)

    def rate(t: float, y: list[float]) -> list[float]:
        return [inside * (bus(y[0], t < failed) - y[0]) / capacity]

    first = solve_ivp(rate, (0.0, failed), [24.8], rtol=1e-10, atol=1e-10, dense_output=True)
    then = solve_ivp(
        lambda t, y: rate(failed, y),
        (failed, max(*at, failed + 1.0)),
        first.y[:, -1],
        rtol=1e-10,
        atol=1e-10,
        dense_output=True,
    )
    return [bus(float((first if t < failed else then).sol(t)[0]), t < failed) for t in at]


def raised(legs: int, leak: float) -> float:
    """When the jacks of the hand-pumped undercarriage have gone 0.4999 m."""
    cap, rod, line = 38.0e-4, 30.0e-4, k_bar(0.05)

    def speed(z: float) -> float:
        def spare(v: float) -> float:
            back = (rod * v / line) ** 2
            push = 2000.0 + 9000.0 * z + FRICTION + DAMPING * v + rod * back
            supply = push / cap + (cap * v / line) ** 2
            return 1.0e-3 / 60.0 - leak * 1.0e-3 / BAR * supply - legs * cap * v

        return float(brentq(spare, 0.0, 1.0))

    time = solve_ivp(lambda z, _: [1.0 / speed(z)], (0.0, 0.4999), [0.0], rtol=1e-9, atol=1e-9)
    return float(time.y[0, -1])


def ram_leaves(leak: float) -> float:
    """When the ram of the leaking bottle leaves its outer stop: bottle and chamber at one pressure, flow by the
    squares.

    It leaves once the pressure can no longer hold the spring less the friction. The mode is cleared half a millimetre
    on.
    """
    air, bottle, chamber = 101325.0, 2.0e-3, 1.0e-5 + 20.0e-4 * 0.08
    filled = 15.0 * BAR

    def flow(p: float) -> float:
        return leak * sqrt(max(p * p - air * air, 0.0))

    first = solve_ivp(lambda _, y: [-flow(y[0]) * air / bottle], (0.0, 1.0), [filled], rtol=1e-9)
    together = (first.y[0, -1] * bottle + air * (chamber - 0.08 * 20.0e-4)) / (bottle + chamber)
    hold = air + (300.0 + 6000.0 * 0.0795 - 20.0) / 20.0e-4

    def left(_: float, y: list[float]) -> float:
        return y[0] - hold

    left.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _, y: [-flow(y[0]) * air / (bottle + chamber)], (1.0, 500.0), [together], rtol=1e-9, events=left
    )
    return float(run.t_events[0][0])
