"""Random networks: every one is solved, and nothing is lost. CUTAWAY_NETWORKS says how many (1,500 unless set)."""

import os

from cutaway.machine.compile import compile_network
from cutaway.machine.records import Job
from cutaway.machine.run import run_jobs
from tests.machine.random_networks import network

HOW_MANY = int(os.environ.get("CUTAWAY_NETWORKS", "1500"))


def test_every_random_network_is_solved_and_keeps_its_content() -> None:
    families: set[str] = set()
    worst, steps = 0.0, 0
    for first in range(0, HOW_MANY, 250):
        jobs = []
        for number in range(first, min(first + 250, HOW_MANY)):
            case, changes, seconds = network(number)
            families.update(element.family for element in case.elements)
            jobs.append(Job(compile_network(case, ())[0], None, (), changes, seconds))
        for number, run in enumerate(run_jobs(jobs), first):
            assert run.outcome.kind == "done", (number, run.outcome.sentence)
            assert run.certificate.residual <= 1.0e-9, number
            worst = max(worst, run.certificate.conservation)
            steps += run.certificate.steps
    print(f"{HOW_MANY} networks, {steps} steps, worst conservation {worst:.1e}")
    assert worst <= 1.0e-9
    assert len(families) == 17  # all but ADVECT and RAM
