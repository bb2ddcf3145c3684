"""How long the kernel takes against scipy's BDF for equally exact times of events, on three behaviours of the trade.

BDF gets each behaviour twice. 'by hand': one or two equations with the nodes between already eliminated, as someone
would derive them for this one case. 'network': an equation for every node and travel, from the same laws, which is what
the kernel is given. Both are in Python, and are stopped and begun again at each event. The allowed error of each solver
is taken as large as it may be for all event times to lie within the wanted error of a far finer run by hand.

    python benchmarks/kernel_against_bdf.py
"""

import math
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scipy.integrate import solve_ivp

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from cutaway.machine.compile import compile_network
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job
from cutaway.machine.run import run_jobs
from cutaway.parts.laws.jacks import glide, stops
from cutaway.parts.laws.liquid import orifice, pump
from cutaway.parts.laws.stores import accumulator
from tests.machine import references
from tests.machine.networks import hydraulic_jack, thermostat

LANES = 64
Lever = tuple[tuple[float, int], ...]


@dataclass(frozen=True, slots=True)
class Case:
    """One behaviour: its network and changes for the kernel, and its event times by BDF at an allowed error."""

    name: str
    network: Network
    changes: tuple[Change, ...]
    seconds: float
    wanted: float
    by_bdf: Callable[[float], list[float]]
    whole_by_bdf: Callable[[float], list[float]]


def whole_jack_by_bdf(
    network: Network, lever: Lever, seconds: float, error: float, start: float, cut_in: float
) -> list[float]:
    """Every node of the jack's network as an equation of its own: pressures main, cap, rod, and the travel."""
    laws = {element.name: element.parameters for element in network.elements}
    line, jack = laws["pressure to cap"], laws["jack"]
    small, bar = 1.0e-14, 1.0e5
    idle, extended, way, now, found = True, False, 0, 0.0, list[float]()
    state = [start * bar, 0.0, 0.0, 0.0]

    def through(a: float, b: float, opens_at: int) -> float:
        return orifice(a, b, float(way == opens_at), 1.0, line[0], line[1])[0]

    def rates(_: float, y: Any) -> list[float]:
        main, cap, rod, z = (float(v) for v in y)
        push = jack[0] * cap - jack[1] * rod - jack[6] - jack[4] * z - stops(z, jack[7], jack[8], jack[9])[0]
        v = glide(push, jack[2], jack[3])[0]
        to_cap, to_rod = through(main, cap, 1), through(main, rod, 2)
        given = pump(0.0, main, float(not idle), 1.0, *laws["pump"])[0]
        soft = accumulator(main, *laws["accumulator"])[1] + small
        into_cap, into_rod = to_cap - through(cap, 0.0, 2), to_rod - through(rod, 0.0, 1)
        return [
            (given - to_cap - to_rod) / soft,
            (into_cap - jack[0] * v) / small,
            (into_rod + jack[1] * v) / small,
            v,
        ]

    def tests() -> list[Any]:
        both = [
            (lambda _, y: cut_in * bar - y[0]) if idle else (lambda _, y: y[0] - 84.0 * bar),
            (lambda _, y: 0.299 - y[3]) if extended else (lambda _, y: y[3] - 0.2995),
        ]
        for test in both:
            test.terminal, test.direction = True, 1  # type: ignore[attr-defined]
        return both

    least = [error * bar] * 3 + [0.1 * error]
    for until, next_way in (*lever, (seconds, -1)):
        while now < until:
            run = solve_ivp(rates, (now, until), state, method="BDF", rtol=error, atol=least, events=tests())
            now, state = float(run.t[-1]), run.y[:, -1].tolist()
            idle = idle != bool(run.t_events[0].size)
            extended = extended != bool(run.t_events[1].size)
            found += [now] * (run.t_events[0].size + run.t_events[1].size)
        way = next_way
    return found


def jack_case(name: str, lever: Lever, seconds: float, **numbers: float) -> Case:
    """A jack on an accumulator, worked by a lever."""

    def by_bdf(error: float) -> list[float]:
        longest = math.inf if error > 1.0e-9 else 0.05
        events, _ = references.hydraulic_jack(lever, seconds, (), **numbers, method="BDF", error=error, longest=longest)
        return [event[0] for event in events]

    changes = tuple(Change(t, "selector", float(way)) for t, way in lever)
    network = hydraulic_jack(**numbers)

    def whole(error: float) -> list[float]:
        return whole_jack_by_bdf(network, lever, seconds, error, numbers["start"], numbers["cut_in"])

    return Case(name, network, changes, seconds, 0.05, by_bdf, whole)


def thermostat_by_bdf(error: float) -> list[float]:
    """The cycling thermostat: one equation."""
    on, now, warm, found = True, 0.0, 10.0, []
    while now < 700.0:

        def rate(_: float, y: Any, on: bool = on) -> list[float]:
            return [((40.0 if on else 10.0) - y[0]) / 600.0]

        def limit(_: float, y: Any, on: bool = on) -> float:
            return float(y[0] - 21.0) if on else float(19.0 - y[0])

        limit.terminal, limit.direction = True, 1  # type: ignore[attr-defined]
        run = solve_ivp(rate, (now, 700.0), [warm], method="BDF", rtol=error, atol=error, events=limit)
        now, warm = float(run.t[-1]), float(run.y[0, -1])
        if run.t_events[0].size:
            found.append(now)
            on = not on
    return found


def cases() -> tuple[Case, ...]:
    """Three behaviours to the acceptance that the tests ask for: 0.05 s, the thermostat 1 % of its 60 s."""
    momentary = ((0.5, 1), (4.0, 2), (4.4, 1))
    repeated = ((0.1, 1), *((t, way) for k in range(2, 7) for t, way in ((float(k), 2), (k + 0.05, 1))))
    return (
        jack_case("jack, momentary reversal", momentary, 14.0,
                  accumulator=1.5e-3, start=76.0, cut_in=64.0, k=0.03, load=7000.0, spring=5000.0),
        jack_case("jack, repeated reversals", repeated, 7.0,
                  accumulator=0.15e-3, start=76.0, cut_in=66.0, k=0.02, load=7900.0, spring=2000.0),
        Case("thermostat", thermostat(), (), 700.0, 0.6, thermostat_by_bdf, thermostat_by_bdf),
    )  # fmt: skip


def by_kernel(case: Case, error: float) -> list[float]:
    """Event times by the kernel."""
    machine = compile_network(case.network, (), error)[0]
    return [event.time for event in run_jobs([Job(machine, None, (), case.changes, case.seconds)], 1)[0].events]


def loosest(solve: Callable[[float], list[float]], exact: list[float], wanted: float) -> float:
    """The largest allowed error, by factors of two, at which every event is there and as near as wanted."""
    error = 3.2e-2
    while error > 1.0e-12:
        found = solve(error)
        if len(found) == len(exact) and max(abs(a - b) for a, b in zip(found, exact, strict=True)) <= wanted:
            return error
        error *= 0.5
    raise RuntimeError("never came near enough")


def best(work: Callable[[], Any]) -> float:
    """The best of several goes, s."""
    found = 1.0e30
    for _ in range(5):
        begin = time.perf_counter()
        work()
        found = min(found, time.perf_counter() - begin)
    return found


def main() -> None:
    """Prints the table."""
    print(f"{'':26} {'within':>7} {'BDF, ms':>16} {'kernel, ms':>16} {'BDF to one lane of many':>25}")
    heads = zip(
        ("s", "by hand", "network", "alone", "a lane", "by hand", "network"), (8, 9, 8, 9, 8, 17, 9), strict=True
    )
    print(f"{'behaviour':26}" + "".join(f"{head:>{width}}" for head, width in heads))
    for case in cases():
        exact = case.by_bdf(1.0e-10)
        hand = loosest(case.by_bdf, exact, case.wanted)
        whole = loosest(case.whole_by_bdf, exact, case.wanted)
        ours = loosest(lambda e, case=case: by_kernel(case, e), exact, case.wanted)
        job = Job(compile_network(case.network, (), ours)[0], None, (), case.changes, case.seconds)
        bdf = best(lambda case=case, hand=hand: case.by_bdf(hand))
        full = best(lambda case=case, whole=whole: case.whole_by_bdf(whole))
        one = best(lambda job=job: run_jobs([job], 1))
        lane = best(lambda job=job: run_jobs([job] * LANES, 2)) / LANES
        print(
            f"{case.name:26} {case.wanted:7.2f} {1e3 * bdf:8.1f}{1e3 * full:8.1f} {1e3 * one:8.2f}{1e3 * lane:8.2f}"
            f" {bdf / lane:15.0f}x{full / lane:8.0f}x"
        )
    print(f"A lane: {LANES} at once on 2 threads. What BDF integrates is plain Python, and part of the ratio is that.")


if __name__ == "__main__":
    main()
