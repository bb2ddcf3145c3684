"""Runs that end before their time: calm at a look, or steadily to and fro."""

from dataclasses import replace

from cutaway.machine.compile import compile_network
from cutaway.machine.ending import MANY_STEPS, may_end, period
from cutaway.machine.network import Network
from cutaway.machine.records import Event, Job
from cutaway.machine.run import run_jobs
from cutaway.parts.recipe import Element
from tests.machine.networks import hydraulic_jack, two_tanks
from tests.machine.test_kernel import wire


def test_a_run_goes_on_from_a_look_as_if_it_had_not_been_looked_at() -> None:
    network = two_tanks()
    machine, _ = compile_network(network, tuple(name for name, _ in network.signals))
    whole, looked = run_jobs([Job(machine, None, (), (), 40.0), Job(machine, None, (), (), 40.0, looks=(0.5, 1.0))])
    assert [e.mode for e in whole.events] == [e.mode for e in looked.events]
    assert 0.5 in looked.times and looked.times[-1] == 40.0 and looked.certificate.conservation < 1e-9
    assert abs(looked.values[-1] - whole.values[-1]).max() <= 1e-3 * abs(whole.values[-1]).max()
    again = run_jobs([Job(machine, None, (), (), 40.0, looks=(0.5, 1.0))] * 2, threads=2)
    assert all((one.values == looked.values).all() and one.end.digest == looked.end.digest for one in again)


def test_a_run_that_is_calm_ends_at_the_look() -> None:
    network = wire()
    machine, _ = compile_network(network, tuple(name for name, _ in network.signals))
    (run,) = run_jobs([Job(machine, None, (), (), 100.0, looks=(0.1, 20.0))])
    assert run.times[-1] == 20.0


def test_to_and_fro_is_told_from_what_only_moves() -> None:
    steady = [Event(10.0 * i, "made", i % 2 == 0) for i in range(30)]
    assert period(300.0, steady) == 20.0
    assert may_end(300.0, -1.0, MANY_STEPS, steady) and not may_end(300.0, -1.0, MANY_STEPS - 1, steady)
    slowing = [Event(t, "made", True) for t in (110.0, 120.0, 131.0, 143.0, 156.0, 170.0)]
    assert period(200.0, slowing) == 0.0
    assert period(300.0, [*steady, Event(290.0, "another", True)]) == 0.0
    assert not may_end(200.0, -1.0, MANY_STEPS, slowing)


def leaking() -> Network:
    """A pump whose cut-out is never done with its work: a leak takes from the accumulator what it gives."""
    jack = hydraulic_jack()
    leak = Element("leak", "LIN", ("main", "reservoir"), (4.0e-12,))
    return replace(jack, elements=(*jack.elements, leak))


def test_a_run_that_goes_steadily_to_and_fro_ends_between_looks() -> None:
    network = leaking()
    machine, _ = compile_network(network, ("pressure",))
    whole, looked = run_jobs([Job(machine, None, (), (), 2000.0), Job(machine, None, (), (), 2000.0, looks=(50.0,))])
    assert looked.outcome.kind == "done" and 50.0 < looked.times[-1] < 0.5 * whole.times[-1]
    assert looked.certificate.steps >= MANY_STEPS and period(float(looked.times[-1]), looked.events) > 0.0
    assert [e.mode for e in looked.events] == [e.mode for e in whole.events[: len(looked.events)]]
    (still,) = run_jobs([Job(machine, None, (), (), 2000.0)])
    assert still.times[-1] == 2000.0, "what nobody looks at runs to its end"
