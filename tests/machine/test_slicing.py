"""The cone of influence: it leaves out what cannot matter, and what it keeps runs as in the whole."""

from dataclasses import replace

import pytest

from cutaway.machine.network import Network
from cutaway.machine.run import values_at
from cutaway.machine.slicing import acts_on_itself, cone
from cutaway.parts.recipe import Across
from tests.machine.networks import generator_and_battery, hydraulic_jack, two_tanks
from tests.machine.random_networks import network as random_network
from tests.machine.running import run


def together(*networks: Network) -> Network:
    """Networks side by side, with nothing between them."""
    names = [n.nodes + n.elements for n in networks]
    assert len({thing.name for things in names for thing in things}) == sum(len(things) for things in names)
    return Network(
        nodes=tuple(x for n in networks for x in n.nodes),
        elements=tuple(x for n in networks for x in n.elements),
        modes=tuple(x for n in networks for x in n.modes),
        inputs=tuple(x for n in networks for x in n.inputs),
        signals=tuple(x for n in networks for x in n.signals),
        owners=tuple(x for n in networks for x in n.owners),
    )


def test_what_is_not_joined_is_left_out() -> None:
    whole = together(hydraulic_jack(), generator_and_battery())
    assert cone(whole, frozenset({"bus"})).elements == generator_and_battery().elements
    part = cone(whole, frozenset({"travel"}))
    assert part.elements == hydraulic_jack().elements
    assert [mode.name for mode in part.modes] == ["idle"]  # nothing but the reading asks whether it is extended
    assert [slot.name for slot in part.inputs] == ["selector"]
    assert [name for name, _ in part.signals] == ["travel"]


def test_a_mode_can_be_asked_for() -> None:
    part = cone(generator_and_battery(), frozenset({"lamp"}))
    assert [mode.name for mode in part.modes] == ["closed", "lamp"]


def test_the_cone_stops_at_a_boundary() -> None:
    """The two tanks share only the open air with a draining of their own."""
    other = two_tanks()
    lone = Network(
        nodes=other.nodes[:2],
        elements=(other.elements[0],),
        modes=(),
        inputs=(),
        signals=(("alone", Across("left")),),
        owners=(),
    )
    assert len(cone(lone, frozenset({"alone"})).nodes) == 1


def test_events_and_rest_of_the_cone_are_those_of_the_whole() -> None:
    whole = together(hydraulic_jack(), generator_and_battery())
    changes = ((0.5, "selector", 1.0), (4.0, "selector", 2.0), (4.4, "selector", 1.0))
    names = frozenset({"travel", "pressure", "extended"})
    full, part = run(whole, 60.0, *changes), run(cone(whole, names), 60.0, *changes)
    assert part.names == ("pressure", "travel")
    ours = [e for e in full.events if e.mode in ("idle", "extended")]
    assert [(e.mode, e.now) for e in ours] == [(e.mode, e.now) for e in part.events]
    assert [e.time for e in ours] == pytest.approx([e.time for e in part.events], abs=0.01)
    for name in part.names:
        assert part.column(name)[-1] == pytest.approx(full.column(name)[-1], rel=1.0e-3)


def prefixed(network: Network, prefix: str) -> Network:
    """The same network with its nodes and elements under other names."""
    elements = (replace(e, name=prefix + e.name, at=tuple(prefix + node for node in e.at)) for e in network.elements)
    nodes = tuple(replace(n, name=prefix + n.name) for n in network.nodes)
    signals = tuple((n.name, Across(n.name)) for n in nodes)
    return Network(nodes, tuple(elements), (), network.inputs, signals, ())


def test_the_cone_of_random_networks_rests_where_the_whole_does() -> None:
    """Two random networks side by side, worked by the same gates; the whole takes other steps than the cone."""
    compared = closely = 0
    for number in range(0, 100, 2):
        one, other = (prefixed(random_network(number + i)[0], f"{i} ") for i in range(2))
        whole = Network(
            one.nodes + other.nodes, one.elements + other.elements, (), one.inputs, one.signals + other.signals, ()
        )
        name = next(node.name for node in one.nodes if node.boundary is None)
        part = cone(whole, frozenset({name}))
        assert set(part.elements) <= set(one.elements)
        full, sliced = run(whole, 3600.0), run(part, 3600.0)
        assert full.outcome.kind == sliced.outcome.kind == "done"
        before, after = (values_at(full, t)[full.names.index(name)] for t in (3000.0, 3600.0))
        if full.certificate.rest >= 0.0 and after != 0.0 and abs(before - after) < 1.0e-10 * abs(after):
            compared += 1
            # Most agree to 1e-12; behind very small conductances a node rests only as exactly as its balance is held.
            closely += sliced.column(name)[-1] == pytest.approx(after, rel=1.0e-9)
            assert sliced.column(name)[-1] == pytest.approx(after, rel=1.0e-6)
    assert compared >= 8
    assert closely >= 0.6 * compared


def test_a_lamp_that_only_follows_does_not_act_on_itself() -> None:
    assert acts_on_itself(generator_and_battery(), "closed")
    assert not acts_on_itself(generator_and_battery(), "lamp")
