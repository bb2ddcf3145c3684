"""Random networks of the whole library, parts broken at random: every one is solved, and nothing is lost.

CUTAWAY_LIBRARY_NETWORKS says how many (800 unless set; CI runs 5,000, and 100,000 are run by hand before a release).
"""

import os
from collections import Counter

from cutaway.machine.compile import compile_network
from cutaway.machine.kernel import MOST_STEPS
from cutaway.machine.records import Job
from cutaway.machine.run import run_jobs
from cutaway.parts.library import KINDS
from tests.machine.library_networks import library_network

HOW_MANY = int(os.environ.get("CUTAWAY_LIBRARY_NETWORKS", "800"))
FIRST = int(os.environ.get("CUTAWAY_LIBRARY_FIRST", "0"))


def jobs(first: int, last: int, kinds: set[str]) -> list[Job]:
    """The jobs of the networks of these numbers; their kinds go into the set."""
    found = []
    for number in range(first, last):
        network, changes, seconds, here = library_network(number)
        kinds |= here
        found.append(Job(compile_network(network, ())[0], None, (), changes, seconds))
    return found


def test_every_network_of_the_library_is_solved_and_keeps_its_content() -> None:
    kinds: set[str] = set()
    outcomes: Counter[str] = Counter()
    worst, steps, cuts, laborious = 0.0, 0, 0, 0
    unsolved = []
    last = FIRST + HOW_MANY
    for first in range(FIRST, last, 200):
        for number, run in enumerate(run_jobs(jobs(first, min(first + 200, last), kinds)), first):
            outcomes[run.outcome.kind] += 1
            if run.outcome.kind == "gave up" and run.certificate.steps < MOST_STEPS:
                unsolved.append((number, run.outcome.sentence))
            laborious += run.certificate.steps >= MOST_STEPS
            worst = max(worst, run.certificate.conservation)
            steps += run.certificate.steps
            cuts += run.certificate.cuts
    print(f"{HOW_MANY} networks, {dict(outcomes)}, {steps} steps, {cuts} cuts, {laborious} too long")
    print(f"worst conservation {worst:.1e}")
    assert unsolved == []
    assert worst <= 1.0e-9
    # A dynamo that feeds the starter that turns its own engine, and the like: every step is solved, there are only too
    # many of them.
    assert laborious <= 2 + HOW_MANY // 1000
    assert HOW_MANY < 500 or kinds >= set(KINDS)


def test_the_same_bits_with_one_thread_and_with_two() -> None:
    one, two = (run_jobs(jobs(0, 60, set()), threads) for threads in (1, 2))
    assert [run.end.digest for run in one] == [run.end.digest for run in two]
    assert all((a.values == b.values).all() for a, b in zip(one, two, strict=True))
