"""Runs lanes: a compiled machine, a start and changes in; traces, events, an outcome and a certificate out."""

import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor

import numpy as np

from cutaway.machine import audit
from cutaway.machine.compile import Machine
from cutaway.machine.compiled import kernel, kernel_hash
from cutaway.machine.ending import goes_to_and_fro, may_end
from cutaway.machine.layout import (
    AT_REST,
    DONE,
    END,
    EVENTS,
    FULL,
    NOW,
    NOW_SET,
    ROWS,
    STEPS,
    STILL_SINCE,
    TIME,
    WHICH,
    Floats,
    Live,
)
from cutaway.machine.outcome import outcome_of
from cutaway.machine.records import Event, Job, Run
from cutaway.machine.state import initial_state, live_arrays, started, state_of

__all__ = ["initial_state", "run_jobs", "values_at"]


def run_jobs(jobs: Sequence[Job], threads: int | None = None) -> tuple[Run, ...]:
    """Runs every job, several at once, and returns the runs in the order of the jobs.

    Each lane is sequential and lanes share nothing that changes, so the number of threads changes no bit of any run.
    """
    kernel()
    count = min(len(jobs), threads or os.cpu_count() or 1)
    if count <= 1:
        return tuple(_run(job) for job in jobs)
    with ThreadPoolExecutor(count) as pool:
        return tuple(pool.map(_run, jobs))


def values_at(run: Run, time: float) -> Floats:
    """Every recorded signal at a time, between rows by a straight line; at a jump what comes after it."""
    after = int(np.searchsorted(run.times, time, side="right"))
    if after == 0:
        first: Floats = run.values[0]
        return first
    if after == len(run.times):
        last: Floats = run.values[-1]
        return last
    share = (time - run.times[after - 1]) / (run.times[after] - run.times[after - 1])
    between: Floats = run.values[after - 1] + share * (run.values[after] - run.values[after - 1])
    return between


def _run(job: Job) -> Run:
    machine: Machine = job.machine
    start = started(machine, job.start, job.sets)
    changes = sorted(job.changes, key=lambda change: change.time)
    live = live_arrays(machine, start, changes, job.seconds, job.until_rest)
    kernel()(machine.fixed, machine.numbers, live)  # the first call only begins
    held = audit.contents(machine, live)
    times: list[Floats] = []
    values: list[Floats] = []
    events: list[Event] = []
    status = DONE
    for end in (*job.looks, job.seconds):
        live.clock[END] = end
        # From the first look on, whoever comes back for more room may have gone to and fro for long enough.
        fro = bool(job.looks) and end > job.looks[0]
        status = _march(machine, live, times, values, events, fro)
        early = float(live.clock[NOW]) < end
        if status != DONE or early or may_end(end, float(live.clock[STILL_SINCE]), int(live.counts[STEPS]), events):
            break
    if status == AT_REST:
        times.append(live.clock[END : END + 1].copy())
        values.append(values[-1][-1:])
    return Run(
        names=machine.names,
        times=np.concatenate(times),
        values=np.concatenate(values),
        events=tuple(events),
        outcome=outcome_of(machine, live, status),
        certificate=audit.certificate(machine, live, held, kernel_hash()),
        end=state_of(machine, live),
    )


def _march(
    machine: Machine, live: Live, times: list[Floats], values: list[Floats], events: list[Event], fro: bool
) -> int:
    """Run on to the end that stands in the clock, and hand over what was recorded on the way. fro: whether it may end
    before, going steadily to and fro."""
    status = FULL
    while status == FULL:
        status = kernel()(machine.fixed, machine.numbers, live)
        rows, found = int(live.counts[ROWS]), int(live.counts[EVENTS])
        times.append(live.rows[:rows, 0].copy())
        values.append(live.rows[:rows, 1:].copy())
        events.extend(_events(machine, live, found))
        live.counts[ROWS] = live.counts[EVENTS] = 0
        if status == FULL and fro and goes_to_and_fro(float(live.clock[NOW]), int(live.counts[STEPS]), events):
            return DONE
    return status


def _events(machine: Machine, live: Live, count: int) -> list[Event]:
    return [
        Event(float(live.event[TIME, k]), machine.modes[int(live.event[WHICH, k])], bool(live.event[NOW_SET, k] > 0.0))
        for k in range(count)
    ]
