"""What the kernel promises: conservation, same bits, resuming, named outcomes, floating subnets, rest."""

import numpy as np
import pytest

from cutaway.machine.compile import compile_network
from cutaway.machine.compiled import source_hash
from cutaway.machine.layout import FULL, ROWS
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Change, Job, Run, SetContent
from cutaway.machine.run import initial_state, run_jobs, values_at
from cutaway.parts.recipe import ZERO, Across, Apply, Const, Content, Element, Mode, ModeIs, Node, apply
from tests.machine.networks import (
    BAR,
    above,
    below,
    control,
    generator_and_battery,
    hydraulic_jack,
    k_bar,
    ram_and_bottle,
    thermostat,
    two_tanks,
)
from tests.machine.random_networks import network as random_network
from tests.machine.running import happened, run, when


def locked_in() -> Network:
    """Oil at 80 bar between two shut cocks, and a reservoir."""
    nodes = (Node("reservoir", "oil", boundary=ZERO), Node("pipe", "oil", start=80.0 * BAR), Node("far", "oil"))
    elements = (
        Element("near cock", "ROOT", ("reservoir", "pipe"), (k_bar(0.05), 0.05 * BAR), gate=control("near")),
        Element("far cock", "ROOT", ("pipe", "far"), (k_bar(0.05), 0.05 * BAR), gate=control("far")),
    )
    inputs = (InputSlot("near", "control", 0.0), InputSlot("far", "control", 0.0))
    return Network(nodes, elements, (), inputs, (("pipe", Across("pipe")),), ())


def wire() -> Network:
    """24 V, a switch, a wire, a switch, a load."""
    nodes = (
        Node("plus", "current", boundary=Const(24.0)), Node("minus", "current", boundary=ZERO),
        Node("wire", "current"), Node("lamp", "current"),
    )  # fmt: skip
    elements = (
        Element("switch", "LIN", ("plus", "wire"), (100.0,), gate=control("switch")),
        Element("second", "LIN", ("wire", "lamp"), (100.0,), gate=control("second")),
        Element("load", "LIN", ("lamp", "minus"), (0.1,)),
    )
    inputs = (InputSlot("switch", "control", 1.0), InputSlot("second", "control", 0.0))
    return Network(nodes, elements, (), inputs, (("wire", Across("wire")), ("lamp", Across("lamp"))), ())


def buzzer(dwell: float) -> Network:
    """A relay whose own contact breaks its coil's circuit."""
    nodes = (
        Node("plus", "current", boundary=Const(24.0)),
        Node("minus", "current", boundary=ZERO),
        Node("coil", "current"),
    )
    elements = (
        Element("contact", "LIN", ("plus", "coil"), (100.0,), gate=apply("not", ModeIs("relay: pulled"))),
        Element("winding", "LIN", ("coil", "minus"), (1.0 / 250.0,)),
    )
    modes = (
        Mode("relay: pulled", above(Across("coil"), 16.0), below(Across("coil"), 6.0), dwell=dwell),
        Mode("lamp: lit", above(ModeIs("relay: pulled"), 0.5), below(ModeIs("relay: pulled"), 0.5)),
    )
    return Network(
        nodes,
        elements,
        modes,
        (),
        (("coil", Across("coil")),),
        (("relay: pulled", "horn relay"), ("lamp: lit", "lamp")),
    )


def logic_ring() -> Network:
    """Two latches, each of which undoes what the other waits for."""
    nodes = (Node("plus", "current", boundary=Const(24.0)), Node("bus", "current"))
    one, other = ModeIs("one"), ModeIs("other")
    modes = (
        Mode("one", below(other, 0.5), above(other, 0.5)),
        Mode("other", above(one, 0.5), below(one, 0.5)),
    )
    elements = (Element("feed", "LIN", ("plus", "bus"), (10.0,)),)
    return Network(nodes, elements, modes, (), (), (("one", "first relay"), ("other", "second relay")))


def test_oil_between_shut_cocks_stays_for_an_hour() -> None:
    found = run(locked_in(), 3700.0, (3600.0, "far", 1.0), (3650.0, "near", 1.0))
    assert values_at(found, 3599.0)[0] == pytest.approx(80.0 * BAR, rel=1.0e-9)
    assert values_at(found, 3640.0)[0] == pytest.approx(40.0 * BAR, rel=1.0e-6)  # shared with as small a store
    assert values_at(found, 3699.0)[0] == pytest.approx(0.0, abs=1.0)


def test_a_dead_wire_falls_to_nothing() -> None:
    found = run(wire(), 20.0, (5.0, "switch", 0.0))
    assert values_at(found, 4.9)[0] == pytest.approx(24.0, abs=1.0e-3)
    assert abs(values_at(found, 6.5)[0]) < 1.0e-4


def test_a_buzzer_without_dwell_is_a_named_outcome_and_with_it_buzzes() -> None:
    bad = run(buzzer(0.0), 1.0)
    assert bad.outcome.kind == "chatters"
    assert bad.outcome.parts == ("horn relay",)
    assert "horn relay" in bad.outcome.sentence
    good = run(buzzer(0.02), 1.0)
    assert good.outcome.kind == "done"
    assert 45 <= len([e for e in good.events if e.mode == "relay: pulled"]) <= 50


def test_a_ring_of_latches_is_a_named_outcome() -> None:
    found = run(logic_ring(), 10.0)
    assert found.outcome.kind == "chatters"
    assert found.outcome.at == 0.0
    assert found.outcome.parts == ("first relay", "second relay")


def closed_air() -> Network:
    """Three bottles and a cock, no way out."""
    nodes = tuple(Node(name, "air", start=p, store=2.0e-8) for name, p in (("a", 2.0e6), ("b", 5.0e5), ("c", 1.0e5)))
    elements = (
        Element("ab", "GASROOT", ("a", "b"), (2.0e-9, 3000.0)),
        Element("bc", "GASWAY", ("b", "c"), (1.0e-9, 3000.0, 5000.0)),
    )
    return Network(nodes, elements, (), (), tuple((n.name, Across(n.name)) for n in nodes), ())


def test_a_closed_air_system_loses_nothing() -> None:
    found = run(closed_air(), 200.0)
    assert found.values[-1].sum() == pytest.approx(2.6e6, rel=1.0e-9)
    assert found.values[-1][0] == pytest.approx(found.values[-1][1], rel=1.0e-6)
    assert found.certificate.conservation < 1.0e-12


@pytest.mark.parametrize(
    ("network", "changes"),
    [
        (hydraulic_jack(), ((0.5, "selector", 1.0), (4.0, "selector", 2.0))),
        (two_tanks(), ((60.0, "selector", 1.0),)),
        (generator_and_battery(), ((20.0, "failed", 1.0),)),
        (ram_and_bottle(1.0e-9), ((1.0, "current", 1.0),)),
        (thermostat(), ()),
    ],
    ids=["jack", "tanks", "generator", "ram", "thermostat"],
)
def test_what_was_there_is_there_or_went_out(network: Network, changes: tuple[tuple[float, str, float], ...]) -> None:
    certificate = run(network, 100.0, *changes).certificate
    assert certificate.conservation < 1.0e-12
    assert certificate.residual <= 1.0e-9
    assert certificate.kernel == source_hash()
    assert certificate.steps > 15


def same(one: Run, other: Run) -> bool:
    """Whether two runs agree in every bit."""
    return (
        one.end.digest == other.end.digest
        and one.times.tobytes() == other.times.tobytes()
        and one.values.tobytes() == other.values.tobytes()
        and one.events == other.events
    )


def test_the_number_of_threads_changes_no_bit() -> None:
    jobs = []
    for number in range(24):
        network, changes, seconds = random_network(number)
        jobs.append(Job(compile_network(network)[0], None, (), changes, seconds))
    alone, together = run_jobs(jobs, 1), run_jobs(jobs, 2)
    assert all(same(a, b) for a, b in zip(alone, together, strict=True))
    assert len({r.end.digest for r in alone}) == 24


def test_a_run_that_goes_on_equals_one_that_was_not_broken() -> None:
    machine, _ = compile_network(hydraulic_jack())
    changes = (Change(0.5, "selector", 1.0), Change(4.0, "selector", 1.0), Change(6.0, "selector", 2.0))
    whole = run_jobs([Job(machine, None, (), changes, 10.0)])[0]
    first = run_jobs([Job(machine, None, (), changes[:1], 4.0)])[0]
    later = tuple(Change(c.time - 4.0, c.input, c.value) for c in changes[1:])
    second = run_jobs([Job(machine, first.end, (), later, 6.0)])[0]
    # The break stands where an input is set anyway, so the steps are the same but for the clock's own round-off.
    assert np.allclose(second.end.x, whole.end.x, rtol=1.0e-9, atol=1.0e-6)
    assert happened(first) + happened(second) == happened(whole)
    assert [e.time + 4.0 for e in second.events] == pytest.approx(
        [e.time for e in whole.events if e.time > 4.0], abs=1e-6
    )


def test_coming_back_for_room_changes_no_bit(monkeypatch: pytest.MonkeyPatch) -> None:
    roomy = run(hydraulic_jack(), 12.0, (0.5, "selector", 1.0), (4.0, "selector", 2.0))
    assert len(roomy.times) > 200
    monkeypatch.setattr("cutaway.machine.state.ROOM", 9)
    assert same(run(hydraulic_jack(), 12.0, (0.5, "selector", 1.0), (4.0, "selector", 2.0)), roomy)
    assert (FULL, ROWS) == (1, 3)


def test_rest_is_found_and_a_run_until_rest_stops_there() -> None:
    long = run(wire(), 100.0, (5.0, "switch", 0.0), (6.0, "switch", 1.0), (7.0, "second", 1.0))
    short = run(wire(), 100.0, (5.0, "switch", 0.0), (6.0, "switch", 1.0), (7.0, "second", 1.0), until_rest=True)
    assert 7.0 < long.certificate.rest < 8.5
    assert short.certificate.rest == long.certificate.rest
    assert short.certificate.steps <= long.certificate.steps
    assert short.times[-1] == 100.0
    assert values_at(short, 100.0) == pytest.approx(values_at(long, 100.0))


def test_a_tank_that_empties_does_not_stop_a_run_until_rest() -> None:
    """Rest leaves the slow stores out, but a run may only be cut short when not even they move."""
    found = run(two_tanks(), 100.0, until_rest=True)
    assert when(found, "lamp", True) == pytest.approx(35.5, abs=0.1)


def test_contents_can_be_set_before_a_run() -> None:
    found = run(two_tanks(), 1.0, sets=(SetContent("left tank", 1.0e-3),))
    assert found.values[0][found.names.index("left")] == pytest.approx(1.0e-3, rel=1.0e-6)
    jack = run(hydraulic_jack(), 0.01, sets=(SetContent("jack", 0.2),))
    assert jack.values[0][jack.names.index("travel")] == 0.2


def test_a_state_fits_only_a_machine_of_the_same_structure() -> None:
    tanks, wires = compile_network(two_tanks())[0], compile_network(wire())[0]
    with pytest.raises(AssertionError):
        run_jobs([Job(wires, initial_state(tanks), (), (), 1.0)])
    lighter, _ = compile_network(hydraulic_jack(load=5000.0))
    heavy, _ = compile_network(hydraulic_jack())
    assert run_jobs([Job(lighter, initial_state(heavy), (), (), 0.1)])[0].outcome.kind == "done"
    assert lighter.fixed.target is heavy.fixed.target  # found once for the structure


def test_a_mode_may_start_by_its_own_condition() -> None:
    assert initial_state(compile_network(thermostat(10.0))[0]).modes.tolist() == [1.0]
    assert initial_state(compile_network(thermostat(25.0))[0]).modes.tolist() == [0.0]


def test_a_source_that_sucks_at_a_free_node_is_refused() -> None:
    nodes = (Node("a", "air"), Node("b", "air"))
    fan = Element("fan", "SOURCE", ("a", "b"), (1.0e3, 1.0e-6, 0.0, 1.0e-3, 1.0e-5))
    with pytest.raises(AssertionError, match="PDPUMP"):
        compile_network(Network(nodes, (fan,), (), (), (), ()))


def test_two_contents_at_one_node_are_told() -> None:
    nodes = (Node("outlet", "petrol"),)
    tanks = tuple(Element(f"{side} tank.vessel", "TANK", ("outlet",), (1.0e-5, 10.0, 1.0e-12), content=content)
                  for side, content in (("port", 0.1), ("starboard", 0.02)))  # fmt: skip
    owners = tuple((f"{side} tank.vessel", f"{side} tank") for side in ("port", "starboard"))
    _, problems = compile_network(Network(nodes, tanks, (), (), (), owners))
    assert [p.code for p in problems] == ["M101"]
    assert "port tank" in problems[0].message
    assert "starboard tank" in problems[0].hint
    alike = tuple(Element(e.name, "TANK", e.at, e.parameters, content=0.1) for e in tanks)
    assert compile_network(Network(nodes, alike, (), (), (), owners))[1] == ()


def test_the_class_of_each_component_is_told() -> None:
    classes = dict(compile_network(hydraulic_jack())[0].uniqueness)
    assert classes == {"main": "S"}
    assert dict(compile_network(two_tanks())[0].uniqueness) == {"left": "M"}


OPERATIONS: tuple[tuple[Apply, float], ...] = (
    (apply("add", 2.0, 3.0), 5.0), (apply("sub", 2.0, 3.0), -1.0), (apply("mul", 2.0, 3.0), 6.0),
    (apply("div", 3.0, 2.0), 1.5), (apply("neg", 2.0), -2.0), (apply("abs", -2.0), 2.0),
    (apply("min", 2.0, 3.0), 2.0), (apply("max", 2.0, 3.0), 3.0), (apply("lt", 2.0, 3.0), 1.0),
    (apply("le", 3.0, 3.0), 1.0), (apply("gt", 2.0, 3.0), 0.0), (apply("ge", 3.0, 3.0), 1.0),
    (apply("eq", 3.0, 3.0), 1.0), (apply("and", 1.0, 0.0), 0.0), (apply("or", 1.0, 0.0), 1.0),
    (apply("not", 0.0), 1.0), (apply("step", 0.5), 0.5), (apply("if", 1.0, 4.0, 5.0), 4.0),
    (apply("if", 0.0, 4.0, 5.0), 5.0), (apply("sqrt", 9.0), 3.0), (apply("pow", 2.0, 3.0), 8.0),
    (apply("isa", 3048.0), 69681.7),
)  # fmt: skip


def test_every_operation_of_a_signal() -> None:
    signals = tuple((f"s{i}", expression) for i, (expression, _) in enumerate(OPERATIONS))
    found = run(Network((Node("a", "current"),), (), (), (), signals, ()), 0.01)
    assert found.values[0] == pytest.approx([value for _, value in OPERATIONS], rel=1.0e-6)


def test_an_empty_network_runs() -> None:
    assert run(Network((), (), (), (), (("one", Const(1.0)),), ()), 1.0).values[-1].tolist() == [1.0]


def test_a_motor_reaches_the_speed_that_algebra_gives() -> None:
    """(V - k w)/R · k = Fc + b w."""
    nodes = (
        Node("plus", "current", boundary=Const(24.0)), Node("minus", "current", boundary=ZERO),
        Node("airframe", "shaft", boundary=ZERO), Node("shaft", "shaft", store=2.0e-3),
    )  # fmt: skip
    elements = (
        Element("motor", "RATIO", ("plus", "minus", "shaft"), (0.06, 0.5)),
        Element("drag", "DRAG", ("shaft", "airframe"), (0.2, 6.0, 1.0e-3)),
    )
    found = run(Network(nodes, elements, (), (), (("speed", Across("shaft")),), ()), 30.0)
    speed = (24.0 * 0.06 / 0.5 - 0.2) / (0.06**2 / 0.5 + 1.0e-3)
    assert found.values[-1][0] == pytest.approx(speed, rel=1.0e-3)


def test_coolant_carries_its_heat_round() -> None:
    """200 kW into a stream of 8 kW/K cooled by 3 kW/K to 15 °C: the hot side ends 106.67 °C (15 + 200/3 + 200/8)."""
    nodes = (
        Node("air", "heat", boundary=Const(15.0)),
        Node("hot", "heat", store=3.0e4),
        Node("cold", "heat", store=3.0e4),
    )
    elements = (
        Element("engine", "SOURCE", ("air", "hot"), (1.0e9, 1.0, 0.0, 200.0e3, 100.0)),
        Element("out", "ADVECT", ("hot", "cold"), (8.0e3,)),
        Element("back", "ADVECT", ("cold", "hot"), (8.0e3,)),
        Element("radiator", "LIN", ("cold", "air"), (3.0e3,)),
    )
    found = run(Network(nodes, elements, (), (), (("hot", Across("hot")),), ()), 600.0)
    assert found.values[-1][0] == pytest.approx(15.0 + 200.0 / 3.0 + 200.0 / 8.0, abs=0.01)
    assert found.certificate.conservation < 1.0e-12


def test_a_jammed_jack_does_not_move() -> None:
    network = hydraulic_jack()
    jammed = tuple(e if e.family != "JACK" else Element(e.name, "JACK", e.at, e.parameters, gate=ZERO, content=0.1)
                   for e in network.elements)  # fmt: skip
    found = run(
        Network(network.nodes, jammed, network.modes, network.inputs, network.signals, ()), 5.0, (0.5, "selector", 1.0)
    )
    assert found.column("travel").min() == found.column("travel").max() == 0.1


def test_content_is_a_signal_of_every_store() -> None:
    found = run(two_tanks(), 10.0)
    assert found.column("left")[0] - found.column("left")[-1] == pytest.approx(0.6e-3, rel=0.01)
    assert Content("left tank") in [e for _, e in two_tanks().signals]
