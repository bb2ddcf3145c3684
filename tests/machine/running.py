"""Running a small network in one line, for the tests of the machine."""

from cutaway.machine.compile import compile_network
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job, Run, SetContent
from cutaway.machine.run import run_jobs

Changes = tuple[tuple[float, str, float], ...]


def run(
    network: Network, seconds: float, *changes: tuple[float, str, float], until_rest: bool = False,
    sets: tuple[SetContent, ...] = (), step_error: float | None = None,
) -> Run:  # fmt: skip
    """The run of a network from its own start."""
    machine, _ = compile_network(network) if step_error is None else compile_network(network, None, step_error)
    job = Job(machine, None, sets, tuple(Change(*change) for change in changes), seconds, until_rest)
    return run_jobs([job], 1)[0]


def happened(run: Run) -> list[tuple[str, bool]]:
    """The events in their order, without their times."""
    return [(event.mode, event.now) for event in run.events]


def when(run: Run, mode: str, now: bool, nth: int = 0) -> float:
    """The time of the nth such event."""
    return [event.time for event in run.events if event.mode == mode and event.now == now][nth]
