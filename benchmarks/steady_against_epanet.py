"""How long one steady solve takes in the kernel, in lanes, against the EPANET engine on the same grid.

EPANET is timed twice: the whole call as wntr makes it (files written, engine run, results read), and the engine's own
solve alone (project opened once, flows begun anew each time). The kernel runs each lane from a cold start to rest.

    python benchmarks/steady_against_epanet.py
"""

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from math import pi, sqrt

from wntr.epanet.toolkit import ENepanet

from cutaway.machine.compile import compile_network
from cutaway.machine.network import Network
from cutaway.machine.records import Job
from cutaway.machine.run import run_jobs
from cutaway.parts.recipe import Const, Element, Node
from tests.published.test_network_epanet import DENSITY, EPANET_GRAVITY, GRAVITY, by_epanet, ours, random_grid

LANES = 256


def network_of(case: Any) -> Network:
    """The grid as a network of ROOT elements."""
    heads, junctions, pipes = case
    weight = DENSITY * GRAVITY
    nodes = [Node(name, "petrol") for name in junctions]
    nodes += [Node(name, "petrol", boundary=Const(head * weight)) for name, head in heads.items()]
    elements = tuple(
        Element(name, "ROOT", (a, b), (pi * bore**2 / 4.0 * sqrt(2.0 * EPANET_GRAVITY / loss) / sqrt(weight), 1.0))
        for name, a, b, bore, loss in pipes
    )
    return Network(tuple(nodes), elements, (), (), (), ())


def best(work: Callable[[], Any], goes: int = 5) -> float:
    """The best of several goes, s."""
    found = 1.0e30
    for _ in range(goes):
        begin = time.perf_counter()
        work()
        found = min(found, time.perf_counter() - begin)
    return found


def engine_alone(folder: Path) -> float:
    """Seconds of one solve by the engine on the file that wntr wrote, project already open."""
    engine = ENepanet()
    engine.ENopen(str(folder / "grid.inp"), str(folder / "again.rpt"), str(folder / "again.bin"))
    engine.ENopenH()

    def solve() -> None:
        for _ in range(50):
            engine.ENinitH(10)  # flows begun anew, no file of results
            engine.ENrunH()

    seconds = best(solve) / 50.0
    engine.ENcloseH()
    engine.ENclose()
    return seconds


def main() -> None:
    """Prints the table."""
    case = random_grid(0)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        theirs, mine = by_epanet(*case, folder), ours(*case)
        differ = max(abs(theirs[junction] - mine[junction]) for junction in case[1])
        whole, alone = best(lambda: by_epanet(*case, folder)), engine_alone(folder)
    # How the grid fills does not matter here, so no accuracy in time is asked: only where it comes to rest.
    machine = compile_network(network_of(case), (), 1.0e6)[0]
    job = Job(machine, None, (), (), 60.0, True)
    one = best(lambda: run_jobs([job], 1))
    lane = best(lambda: run_jobs([job] * LANES, 2)) / LANES
    steps = run_jobs([job])[0].certificate.steps
    print(f"{len(case[1])} junctions, {len(case[2])} pipes; heads differ by {1e3 * differ:.3f} mm at most")
    print(f"{'':36} {'ms a solve':>10} {'to one lane':>12}")
    rows = (
        ("EPANET through wntr, with its files", whole),
        ("EPANET, the engine's solve alone", alone),
        (f"kernel, one lane ({steps} steps to rest)", one),
        (f"kernel, {LANES} lanes on 2 threads", lane),
    )
    for words, seconds in rows:
        print(f"{words:36} {1e3 * seconds:10.3f} {seconds / lane:11.2f}x")


if __name__ == "__main__":
    main()
