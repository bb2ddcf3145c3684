"""The search against brute force over scipy, and two workers of a cluster against one.

The first sample is a hydraulic jack on an accumulator, worked by a lever that is put over twice. Asked is which of its
figures, at either end of a range, change its course of events, alone or several at once. Brute force goes through every
combination of the eight figures with scipy's BDF, an equation for every node, in Python; it is timed on some of them,
and the answers are compared on those. The search makes the smallest sets first, leaves out what holds one found before,
and runs a batch of them side by side. The second sample is a question on a whole aircraft.

Two workers of one thread each are put to the claims of a small aircraft and to the failures of a large one. Besides the
time that passed, the processor time of the busiest worker is told: on a machine with something else to do only that
says anything.

    python benchmarks/inquiry_ratio.py
"""

import json
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, product
from pathlib import Path
from typing import TypeVar

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from benchmarks.kernel_against_bdf import whole_jack_by_bdf
from cutaway.api.asking import Asked, base_for, claim_of, opened
from cutaway.api.checking import asking_for
from cutaway.api.loading import load
from cutaway.inquiry.check import subjects_of
from cutaway.inquiry.cluster import spread
from cutaway.inquiry.questions.failures import Failures, failures
from cutaway.inquiry.questions.sweep import (
    ClaimChunk,
    FailureChunk,
    Put,
    claim_chunks,
    failed,
    failure_chunks,
    judged,
)
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.trying import holds
from cutaway.machine.compile import Machine, compile_network
from cutaway.machine.compiled import kernel
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job
from cutaway.machine.renumbered import renumbered
from cutaway.machine.run import run_jobs
from cutaway.machine.subjects import subjects
from cutaway.narrate.checking import claims_asked
from tests.machine.networks import hydraulic_jack

HERE = Path(__file__).resolve().parents[1]
LEVER = ((0.5, 1), (4.0, 2), (4.4, 1))
SECONDS = 14.0
BASE = {
    "accumulator": 1.5e-3, "start": 76.0, "cut_in": 64.0, "k": 0.03, "load": 7000.0, "spring": 5000.0,
    "delivery": 1.0e-4, "friction": 300.0,
}  # fmt: skip
ENDS = {
    "accumulator": (1.4e-3, 1.6e-3),
    "start": (74.0, 78.0),
    "cut_in": (60.0, 68.0),
    "k": (0.02, 0.035),
    "load": (6500.0, 7500.0),
    "spring": (4000.0, 6000.0),
    "delivery": (0.9e-4, 1.1e-4),
    "friction": (200.0, 400.0),
}
# Figures that the network of the tests has as it is: the element and the place of its parameter.
PLACES = {"delivery": ("pump", 2), "friction": ("jack", 2)}
# As loose as it may be for every event to lie within 0.05 s: see kernel_against_bdf.py.
BDF_ERROR = 1e-3
SAMPLE = 12
C = TypeVar("C")


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure at an end of its range."""

    thing: str
    value: float


def numbers(one: frozenset[Figure]) -> dict[str, float]:
    """The jack's figures with a set of them altered."""
    return {**BASE, **{figure.thing: figure.value for figure in one}}


def jack_with(said: dict[str, float]) -> Network:
    """The network of these figures."""
    network = hydraulic_jack(**{name: value for name, value in said.items() if name not in PLACES})
    elements = {element.name: element for element in network.elements}
    for name, (element, place) in PLACES.items():
        old = elements[element].parameters
        elements[element] = replace(elements[element], parameters=(*old[:place], said[name], *old[place + 1 :]))
    return replace(network, elements=tuple(elements.values()))


def by_bdf(one: frozenset[Figure]) -> int:
    """How many events there are, by scipy."""
    said = numbers(one)
    return len(whole_jack_by_bdf(jack_with(said), LEVER, SECONDS, BDF_ERROR, said["start"], said["cut_in"]))


def by_kernel(sets: Sequence[frozenset[Figure]]) -> list[int]:
    """How many events there are in each, all run side by side."""
    changes = tuple(Change(t, "selector", float(way)) for t, way in LEVER)
    machines: list[Machine] = []
    compiled: list[Machine] = []
    for network in (jack_with(numbers(one)) for one in sets):
        known = (renumbered(machine, network) for machine in compiled)
        machine = next((made[0] for made in known if made is not None), None)
        if machine is None:
            compiled.append(machine := compile_network(network, ())[0])
        machines.append(machine)
    return [len(run.events) for run in run_jobs([Job(machine, None, (), changes, SECONDS) for machine in machines])]


def everything() -> list[frozenset[Figure]]:
    """Every combination: each figure as it is or at either end."""
    found = []
    for size in range(1, len(ENDS) + 1):
        for things in combinations(ENDS, size):
            for values in product(*(ENDS[thing] for thing in things)):
                found.append(frozenset(map(Figure, things, values)))
    return found


def search_against_scipy() -> float:
    """Print the ratio, and whether the answers agree on the sample; the seconds of one run by scipy."""
    universe = [Figure(thing, value) for thing, ends in ENDS.items() for value in ends]
    (usual,) = by_kernel([frozenset()])
    start = time.perf_counter()
    search = Search[Figure]()
    found = list(
        minimal_sets(universe, lambda sets: [n != usual for n in by_kernel(sets)], Bound(size=len(ENDS)), search)
    )
    ours = time.perf_counter() - start
    whole = everything()
    sample = random.Random(1).sample(whole, SAMPLE)
    start = time.perf_counter()
    counts = [by_bdf(one) for one in sample]
    each = (time.perf_counter() - start) / SAMPLE
    agree = sum(n == m for n, m in zip(counts, by_kernel(sample), strict=True))
    print(
        f"the jack: {len(found)} smallest sets, {search.tried} of {len(whole)} combinations tried, {1e3 * ours:.0f} ms"
    )
    print(f"brute force by BDF: {1e3 * each:.0f} ms each, {each * len(whole):.1f} s in all; {agree} of {SAMPLE} agree")
    print(f"ratio: {each * len(whole) / ours:.0f}x")
    return each


def folder_against_scipy(each: float) -> None:
    """Print the ratio for a question on a whole aircraft: brute force does not know what can reach the statement, and
    goes through every failure and every two of them. Each of its runs is reckoned at what scipy took for the jack,
    which has four nodes and travels: far less than it would take for the aircraft."""
    here, _ = opened(HERE / "demo" / "whinchat")
    assert here is not None
    base, _, _ = base_for(here.loaded, here.workshop, Asked("fuel lamp is out", "cruising"))
    assert base is not None
    holds(base)  # makes the machine and reaches the situation
    start = time.perf_counter()
    answer = failures(base, Bound(2), most=0)
    ours = time.perf_counter() - start
    assert isinstance(answer, Failures)
    every = sum(slot.sort == "failure" for slot in base.question.bound.network.inputs)
    sets = every + every * (every - 1) // 2
    print(f"the Whinchat, fuel lamp is out: {answer.far.tried} of {sets} sets of failures tried, {1e3 * ours:.0f} ms")
    print(f"ratio: {sets * each / ours:.0f}x at least")


# --- two workers against one ---------------------------------------------------------------------------------------


def process(module: str, *arguments: str) -> "subprocess.Popen[bytes]":
    """A scheduler or worker of this benchmark's own."""
    command = [sys.executable, "-m", f"distributed.cli.{module}", "--no-dashboard", *arguments]
    return subprocess.Popen(command, cwd=HERE, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def with_workers(count: int, work: Callable[[C], object], chunks: Sequence[C]) -> tuple[float, float]:
    """The seconds that the chunks take on so many workers with one thread each, all of them warm: passed, and of the
    processor on the worker that had most to do."""
    with tempfile.TemporaryDirectory() as place:
        file = f"{place}/scheduler.json"
        started = [process("dask_scheduler", "--host", "127.0.0.1", "--port", "0", "--scheduler-file", file)]
        try:
            while not (Path(file).exists() and Path(file).read_text()):
                time.sleep(0.1)
            for _ in range(count):
                started.append(process("dask_worker", "--no-nanny", "--nthreads", "1", "--scheduler-file", file))
            address = json.loads(Path(file).read_text())["address"]
            from distributed import Client

            with Client(address, set_as_default=False) as client:
                client.wait_for_workers(count)
                client.run(warm)
                before = client.run(time.process_time)
                start = time.perf_counter()
                answers, problems = spread(work, chunks, address)
                passed = time.perf_counter() - start
                after = client.run(time.process_time)
            assert answers is not None, problems
            return passed, max(after[worker] - before[worker] for worker in after)
        finally:
            for one in reversed(started):  # a worker without its scheduler would wait for it
                one.terminate()
                one.wait()


def warm() -> None:
    """Load the kernel, which each process does once."""
    kernel()


def two_workers_against_one(what: str, work: Callable[[C], object], chunks: Sequence[C]) -> None:
    """Print the ratio on some chunks."""
    (one, busy), (two, busiest) = with_workers(1, work, chunks), with_workers(2, work, chunks)
    print(f"{what}, {len(chunks)} chunks: {one:.1f} s on one worker, {two:.1f} s on two: {one / two:.2f}x")
    print(f"processor of the busiest worker: {busy:.1f} s of one, {busiest:.1f} s of two: {busy / busiest:.2f}x")


def claims_of(name: str) -> list[ClaimChunk]:
    """The claims of a demo, assumed values and all, in chunks."""
    loaded, _ = load(HERE / "demo" / name)
    assert loaded is not None
    asking, _ = asking_for(loaded, "", "", True, False)
    assert asking is not None
    everyone = subjects(loaded.folder)
    claims = claims_asked(loaded.folder, loaded.parsed, asking)
    put = [Put(claim, subject.name) for claim in claims for subject in subjects_of(claim, everyone)]
    return list(claim_chunks(loaded.folder.files, put, rests=True))


def failures_in(name: str, situation: str) -> list[FailureChunk]:
    """The single failures of every service of a demo on every standard in a situation, in chunks."""
    here, _ = opened(HERE / "demo" / name)
    assert here is not None
    folder = here.loaded.folder
    claims = [claim_of(here.loaded, Asked(service.name, situation))[0] for service in folder.services]
    standards = [one.name for one in subjects(folder) if one.name == one.standard]
    put = [Put(claim, standard) for claim in claims if claim is not None for standard in standards]
    return list(failure_chunks(folder.files, put, 1, 5))


if __name__ == "__main__":
    kernel()
    folder_against_scipy(search_against_scipy())
    two_workers_against_one("claims of the Whinchat", judged, claims_of("whinchat"))
    two_workers_against_one("failures on the Turnstone", failed, failures_in("turnstone", "cruising"))
