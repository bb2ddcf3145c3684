"""Machines made from another's structure against the same compiled."""

from dataclasses import fields, replace

import numpy as np

from cutaway.machine.compile import compile_network
from cutaway.machine.records import Change, Job
from cutaway.machine.renumbered import renumbered
from cutaway.machine.run import run_jobs
from tests.machine.networks import hydraulic_jack


def test_the_same_machine_as_compiled() -> None:
    usual, _ = compile_network(hydraulic_jack(), ("pressure",))
    other = hydraulic_jack(accumulator=1.2e-3, start=70.0, load=6000.0)
    made, compiled = renumbered(usual, other), compile_network(other, ("pressure",))
    assert made is not None and made[1] == compiled[1] == ()
    for name in ("fixed", "numbers"):
        for one, two in zip(getattr(made[0], name), getattr(compiled[0], name), strict=True):
            assert np.array_equal(one, two)
    for field in fields(compiled[0]):
        one, two = getattr(made[0], field.name), getattr(compiled[0], field.name)
        assert field.name in ("fixed", "numbers") or np.array_equal(one, two), field.name
    changes = (Change(0.5, "selector", 1.0),)
    first, second = run_jobs([Job(machine, None, (), changes, 5.0) for machine in (made[0], compiled[0])])
    assert first.end.digest == second.end.digest


def test_what_differs_in_more_than_numbers_is_compiled() -> None:
    usual, _ = compile_network(hydraulic_jack(), ("pressure",))
    assert renumbered(usual, hydraulic_jack(cut_in=60.0)) is None, "a constant of a condition"
    jack = hydraulic_jack()
    assert renumbered(usual, replace(jack, elements=jack.elements[:-1])) is None
