"""What would change nothing along a course: what the witnesses say, held against runs in which it is changed."""

from dataclasses import replace

import numpy as np
import pytest

from cutaway.machine.inert import Witnesses
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Run
from cutaway.parts.recipe import Across, Const, Element, Expr, Input, Mode, Node, Through, apply
from tests.machine.networks import above, control, k_bar
from tests.machine.running import run

FAILURES = ("choked", "leaking", "slipping", "off the mark", "stuck made")
OF_SOME_USE = {  # what each changes while the cock is shut, and while it is open
    "shut": {"leaking", "stuck made"},
    "open": {"choked", "leaking", "slipping", "stuck made"},
}


def failure(name: str) -> Input:
    """The input of a failure."""
    return Input("failure", name)


def supply_and_cock() -> Network:
    """A supply at half a bar, a filter, a cock that leads outside, and a switch that is made at a bar.

    choked: the filter passes half. leaking: a hole from the filter outside. slipping: a way round the filter.
    off the mark: the switch is made at 0.9 bar. stuck made: at any pressure.
    """
    half: Expr = apply("sub", Const(1.0), apply("mul", Const(0.5), failure("choked")))
    made = apply("add", above(Across("filter"), 1.0e5), apply("mul", Const(1.0e4), failure("off the mark")))
    made = apply("add", made, apply("mul", Const(1.0e6), failure("stuck made")))
    k = (k_bar(0.05), 100.0)
    return Network(
        nodes=(
            Node("supply", "petrol", boundary=Const(0.5e5)),
            Node("filter", "petrol"),
            Node("outside", "petrol", boundary=Const(0.0)),
        ),
        elements=(
            Element("gauze", "ROOT", ("supply", "filter"), k, gate=half),
            Element("by-pass", "ROOT", ("supply", "filter"), k, gate=failure("slipping")),
            Element("hole", "ROOT", ("filter", "outside"), k, gate=failure("leaking")),
            Element("cock", "ROOT", ("filter", "outside"), k, gate=control("cock")),
        ),
        modes=(Mode("made", made, apply("neg", made)),),
        inputs=(InputSlot("cock", "control", 0.0), *(InputSlot(name, "failure", 0.0) for name in FAILURES)),
        signals=(("flow", Through("cock")), ("pressure", Across("filter"))),
        owners=(),
    )


def of_no_use(network: Network, *changes: tuple[float, str, float]) -> set[str]:
    """The failures that the witnesses of a run call inert, once all is at rest as it stands to begin with."""
    watched = Witnesses(network, [(name, 1.0) for name in FAILURES])
    found = watched.inert(run(watched.network, 5.0, *changes))
    return {name for name, nothing in zip(FAILURES, found, strict=True) if nothing}


def at_rest(network: Network) -> Network:
    """The network with its points beginning where they come to rest."""
    end = run(network, 10.0)
    return replace(
        network,
        nodes=tuple(
            n if n.boundary is not None else replace(n, start=float(end.column("pressure")[-1])) for n in network.nodes
        ),
    )


def figures(one: Run) -> np.ndarray:
    """What is looked at of a run, at its end."""
    return np.array([one.column("flow")[-1] * 1e5, one.column("pressure")[-1] / 1e5])


@pytest.mark.parametrize("cock", ["shut", "open"])
def test_what_is_called_inert_runs_the_same_course(cock: str) -> None:
    whole = supply_and_cock()
    slots = (InputSlot("cock", "control", float(cock == "open")), *whole.inputs[1:])
    network = at_rest(replace(whole, inputs=slots))
    inert = of_no_use(network)
    assert inert == set(FAILURES) - OF_SOME_USE[cock]
    plain = run(network, 5.0, (0.0, "cock", float(cock == "open")))
    for name in FAILURES:
        broken = run(network, 5.0, (0.0, name, 1.0))
        same = np.allclose(figures(broken), figures(plain), rtol=1e-9, atol=1e-9)
        events = [(e.mode, e.now) for e in broken.events] == [(e.mode, e.now) for e in plain.events]
        assert (same and events) or name not in inert


def test_what_shifts_a_condition_is_inert_only_where_its_mode_never_comes_about() -> None:
    network = at_rest(supply_and_cock())
    high = (Node("supply", "petrol", boundary=apply("mul", control("pressure"), Const(1.0e5))), *network.nodes[1:])
    network = replace(network, nodes=high, inputs=(*network.inputs, InputSlot("pressure", "control", 0.5)))
    assert "off the mark" in of_no_use(network)
    assert "off the mark" not in of_no_use(network, (1.0, "pressure", 2.0))
