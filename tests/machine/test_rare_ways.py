"""Ways of the kernel that an ordinary aircraft seldom takes: a pivot that is nothing, lanes of one machine that go
different ways, a rest of a whole day, four media in one network, and the Turnstone as one network.
"""

from pathlib import Path

import numpy as np
import pytest

from cutaway.handbook.load import load_folder
from cutaway.machine import kernel
from cutaway.machine.bind import bind
from cutaway.machine.compile import Machine, compile_network
from cutaway.machine.kernel_assembly import assemble
from cutaway.machine.kernel_linear import factored
from cutaway.machine.layout import FREE, GATE, MEDIUM
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job, SetContent
from cutaway.machine.run import run_jobs, values_at
from cutaway.machine.scales import BY_MEDIUM, MEDIA
from cutaway.machine.state import live_arrays
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from cutaway.parts.recipe import ZERO, Across, Const, Element, Node
from tests.machine.networks import hydraulic_jack, two_tanks
from tests.machine.running import happened, run, when
from tests.parts.stand import TURNER, Stand

DEMO = Path(__file__).parents[2] / "demo"


# --- a pivot that is nothing


def active_network() -> tuple[Network, np.ndarray, np.ndarray]:
    """A chain from 24 V with an active element in its middle, as no part of the library is, and its equations.

    The active element is such that elimination, in the order that the pattern gives, leaves nothing of the second
    pivot, though the three equations together have one plain answer.
    """
    leak = BY_MEDIUM["current"].leak
    active = (2.0 + leak) - 1.0 / (2.0 + leak)
    nodes = (
        Node("plus", "current", boundary=Const(24.0)),
        Node("minus", "current", boundary=ZERO),
        *(Node(name, "current", store=1.0e-30) for name in "abc"),
    )
    elements = (
        Element("a down", "LIN", ("a", "minus"), (1.0,)),
        Element("a to b", "LIN", ("a", "b"), (1.0,)),
        Element("active", "LIN", ("b", "minus"), (-active,)),
        Element("b to c", "LIN", ("b", "c"), (1.0,)),
        Element("feed", "LIN", ("plus", "c"), (1.0,)),
    )
    matrix = np.array([[2.0 + leak, -1.0, 0.0], [-1.0, 2.0 + leak - active, -1.0], [0.0, -1.0, 2.0 + leak]])
    network = Network(nodes, elements, (), (), tuple((name, Across(name)) for name in "abc"), ())
    return network, matrix, np.array([0.0, 0.0, 24.0])


def sparse_elimination_goes_through(machine: Machine) -> bool:
    """Whether the elimination without exchanges would do for the first step of this machine, in plain Python."""
    live = live_arrays(machine, run_jobs([Job(machine, None, (), (), 1.0)], 1)[0].end, (), 1.0, False)
    kernel.begin(machine.fixed, machine.numbers, live)
    live.element[GATE] = 1.0
    assemble(machine.fixed, machine.numbers, live, 1.0)
    return factored(machine.fixed, live)


def test_a_run_that_needs_the_pivoted_solve_has_its_answer() -> None:
    network, matrix, right = active_network()
    machine, _ = compile_network(network)
    assert not sparse_elimination_goes_through(machine)
    found = run(network, 100.0)
    assert found.outcome.kind == "done" and found.certificate.cuts == 0
    assert found.values[-1] == pytest.approx(np.linalg.solve(matrix, right), abs=1.0e-6)


def test_an_ordinary_run_does_not_need_it() -> None:
    machine, _ = compile_network(two_tanks())
    assert sparse_elimination_goes_through(machine)


# --- lanes of one machine with different modes in each


def test_lanes_of_one_machine_go_their_own_ways() -> None:
    """Twelve runs of one compiled system, each with a lever of its own, on two threads: every one as if alone."""
    machine, _ = compile_network(hydraulic_jack())
    levers = [((0.5 + 0.1 * n, 1.0), (3.0 + 0.2 * n, 2.0 if n % 3 else 0.0), (4.0 + 0.3 * n, 1.0)) for n in range(12)]
    levers[1], levers[2] = ((0.5, 2.0), (1.0, 0.0), (2.0, 2.0)), ((0.5, 1.0), (2.0, 2.0), (2.4, 1.0))
    jobs = [
        Job(machine, None, (SetContent("jack", 0.02 * n),), tuple(Change(t, "selector", way) for t, way in lever), 14.0)
        for n, lever in enumerate(levers)
    ]
    together = run_jobs(jobs, 2)
    alone = [run_jobs([job], 1)[0] for job in jobs]
    assert [r.end.digest for r in together] == [r.end.digest for r in alone]
    assert all(a.events == b.events for a, b in zip(together, alone, strict=True))
    assert len({tuple(happened(r)) for r in together}) >= 2  # not only at other times: other things happen
    assert len({tuple(r.end.modes) for r in together}) > 1
    assert len({r.end.digest for r in together}) == 12


# --- rest


def test_a_day_of_rest_costs_next_to_nothing_and_the_next_change_comes_in_time() -> None:
    day = 86_400.0
    first = ((60.0, "selector", 1.0), (75.0, "selector", 0.0))
    early = run(two_tanks(), 140.0, *first)
    # The same, with a day between: the tank chosen is empty, so nothing moves from then on but the clock.
    late = run(two_tanks(), 200.0 + day, *first, (100.0 + day, "selector", 1.0))
    assert late.certificate.steps < early.certificate.steps + 2.0 * day / kernel.LONGEST_STEP
    assert when(late, "low", False, 2) == pytest.approx(100.0 + day, abs=0.05)
    assert values_at(late, 100.0 + day)[late.names.index("left")] == pytest.approx(
        values_at(early, 140.0)[early.names.index("left")], abs=1.0e-6
    )
    # What is slow is still counted while all else rests.
    slow = run(two_tanks(), 4000.0, (0.0, "selector", 1.0))
    assert slow.certificate.steps < 400
    column = slow.names.index("right")
    assert values_at(slow, 200.0)[column] - values_at(slow, 1000.0)[column] == pytest.approx(0.06e-3 * 800.0, rel=1e-3)


# --- four media in one network

AIR_START = {"bottle.air": (101_325.0 + 200.0 * 6894.757) * 0.5 * 0.3048**3 / 101_325.0}


def four_media(battery: str = "40 Ah") -> Stand:
    """Petrol, oil, air and current: one engine turns three pumps and a dynamo; current works a valve for air, a pump
    for petrol and a lamp."""
    return Stand(
        {
            "engine": (TURNER, {}),
            "tank": ("tank", {"capacity": "20 gal", "head": "0.5 m"}),
            "cock": ("cock", {}),
            "pump": ("engine-driven fuel pump", {"delivery": "60 gal/h"}),
            "booster": ("immersed pump", {"delivery": "60 gal/h"}),
            "carburettor": ("carburettor", {"full flow": "20 gal/h"}),
            "reservoir": ("reservoir", {"capacity": "2 gal"}),
            "oil pump": ("engine-driven hydraulic pump", {}),
            "relief": ("oil relief valve", {"set at": "900 lb/sq in"}),
            "selector": ("selector valve", {}),
            "jack": ("jack", {"area": "2 sq in", "stroke": "10 in"}),
            "compressor": ("air compressor", {}),
            "bottle": ("air bottle", {"volume": "0.5 cu ft"}),
            "valve": ("solenoid valve", {}),
            "ram": ("ram", {"area": "3 sq in", "stroke": "4 in"}),
            "battery": ("battery", {"capacity": battery, "voltage": "24 V"}),
            "switch": ("switch", {}),
            "bus": ("bus", {"voltage": "24 V"}),
            "dynamo": ("dynamo", {}),
            "cut-out": ("generator cut-out", {}),
            "lamp": ("low-pressure lamp", {"lights below": "2 lb/sq in", "voltage": "24 V"}),
        },
        (
            "tank.outlet > booster.inlet", "booster.outlet > cock.inlet", "cock.outlet > pump.inlet",
            "pump.outlet > carburettor.inlet",
            "reservoir.outlet > oil pump.inlet", "oil pump.outlet > selector.pressure",
            "oil pump.outlet > relief.inlet", "relief.outlet > reservoir.return",
            "selector.return > reservoir.return", "selector.down > jack.extend", "selector.up > jack.retract",
            "compressor.outlet > bottle.any", "bottle.any > valve.supply", "valve.outlet > ram.chamber",
            "battery.positive > switch.inlet", "switch.outlet > bus.any",
            "dynamo.output > cut-out.generator", "cut-out.bus > bus.any",
        ),
        (
            "pump: driven by > engine", "oil pump: driven by > engine", "compressor: driven by > engine",
            "dynamo: driven by > engine", "carburettor: engine > engine", "valve: fed by > bus.any",
            "booster: fed by > bus.any", "lamp: senses > carburettor.inlet", "lamp: fed by > bus.any",
        ),
    )  # fmt: skip


def test_one_engine_and_one_bus_carry_four_media() -> None:
    """Everything acts on everything else through the engine and the bus, and each medium keeps what it has."""
    s = four_media().run(
        300.0, (0.0, "cock", 1.0), (10.0, "switch", 1.0), (30.0, "engine", 1.0), (60.0, "selector", 1.0),
        (120.0, "dynamo: no field", 1.0), (150.0, "switch", 0.0), (200.0, "engine", 0.0),
        starts=AIR_START,
    )  # fmt: skip
    assert s.ran is not None and s.ran.certificate.conservation < 1.0e-9
    # Petrol: dry pipe until the booster has current, then the lamp is out; without booster the engine's pump does.
    assert s.at(9.0, "lamp: lit") == 0.0 and s.at(9.0, "booster: current") == 0.0
    assert s.at(29.0, "booster: current") > 1.0 and s.at(29.0, "lamp: lit") == 0.0
    # Air: with current the ram is out, and in again without.
    assert s.at(29.0, "ram: extended") == 1.0 and s.at(9.0, "ram: retracted") == 1.0
    # Oil: nothing before the engine turns; then the jack goes the whole way.
    assert s.at(59.0, "jack: extension") == 0.0 and s.at(119.0, "jack: extended") == 1.0
    # Current: the cut-out closes with the engine, opens when the field goes, and the battery alone is left.
    assert s.at(119.0, "bus: voltage") > 26.0
    assert s.when("cut-out: closed", False) == pytest.approx(120.0, abs=0.1)
    assert 20.0 < s.at(149.0, "bus: voltage") < 25.5
    # Battery off: the bus is dead, and so the air valve drops its ram and the booster stands.
    assert s.at(199.0, "bus: alive") == 0.0 and s.at(199.0, "ram: retracted") == 1.0
    assert s.at(199.0, "booster: current") == 0.0 and s.at(199.0, "carburettor: fed") == 1.0
    # Engine off: pressure goes from everything that it turned, the jack stays where its selector holds it.
    assert s.end("carburettor: draw") == pytest.approx(0.0, abs=1e-9) and s.end("jack: extended") == 1.0


def test_media_that_are_not_joined_do_not_touch_each_other() -> None:
    """A smaller battery changes what hangs on the bus, and not a bit of what hangs on nothing but the engine."""
    changes = ((0.0, "cock", 1.0), (0.0, "engine", 1.0), (20.0, "selector", 1.0))
    one, other = (four_media(battery).run(60.0, *changes, starts=AIR_START) for battery in ("40 Ah", "10 Ah"))
    for signal in ("jack: travel", "bottle.any", "carburettor.inlet"):
        assert one.end(signal) == pytest.approx(other.end(signal), rel=1.0e-9)


# --- the Turnstone


@pytest.mark.parametrize("number", [0, 1])
def test_the_turnstone_is_one_network_of_many_media(number: int) -> None:
    folder, problems = load_folder(DEMO / "turnstone")
    assert folder is not None and problems == ()
    bound, problems = bind(folder, subjects(folder)[number], KINDS)
    assert problems == ()
    machine, _ = compile_network(bound.network)
    media = {MEDIA[int(m)] for m in machine.fixed.node[MEDIUM, : machine.fixed.size[FREE]]}
    assert len(media) >= 4 and int(machine.fixed.size[FREE]) > 60
    (found,) = run_jobs([Job(machine, None, (), (), 30.0)], 1)
    assert found.outcome.kind == "done"
    assert found.certificate.conservation < 1.0e-9
