"""A town's water for a day: EPANET's example network 1, by the machine.

Its pipes follow Hazen and Williams, which no part of ours does. So each is an orifice whose opening is a signal of its
own drop, such that the flow goes with the 0.54th power: signals and solver together find what EPANET finds its way.
Heads are feet, written as kPa; flows are US gallons a minute.
"""

from itertools import pairwise
from pathlib import Path

import pytest

from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Run
from cutaway.machine.run import values_at
from cutaway.parts.recipe import Across, Const, Element, Input, Mode, ModeIs, Node, Through, apply
from tests.machine.running import run
from tests.published.agreement import half_step
from tests.published.checked import checked

FOOT, CUBIC_FOOT = 1000.0, 0.3048**3  # Pa for a foot of head; m³
GPM = 3.785411784e-3 / 60.0
POWER = 1.0 / 1.852

# As in the file: demand, gpm; ends, length in feet and bore in inches of each pipe; roughness 100.
DEMANDS = {"11": 150, "12": 150, "13": 100, "21": 150, "22": 200, "23": 150, "31": 100, "32": 100}
PIPES = {
    "10": ("10", "11", 10530, 18), "11": ("11", "12", 5280, 14), "12": ("12", "13", 5280, 10),
    "21": ("21", "22", 5280, 10), "22": ("22", "23", 5280, 12), "31": ("31", "32", 5280, 6),
    "110": ("2", "12", 200, 18), "111": ("11", "21", 5280, 10), "112": ("12", "22", 5280, 12),
    "113": ("13", "23", 5280, 8), "121": ("21", "31", 5280, 8), "122": ("22", "32", 5280, 6),
}  # fmt: skip
PATTERN = (1.0, 1.2, 1.4, 1.6, 1.4, 1.2, 1.0, 0.8, 0.6, 0.4, 0.6, 0.8)
ENGINE = "EPANET 2.2 in wntr 1.5.0, network 1 as shipped; wntr's own solver agrees"


def pipe(name: str, a: str, b: str, length: float, bore: float) -> Element:
    """Loss in feet = 4.727 · 100^-1.852 · d^-4.871 · L · q^1.852, feet and cubic feet a second."""
    at_a_foot = (4.727 * 100.0**-1.852 * (bore / 12.0) ** -4.871 * length) ** -POWER * CUBIC_FOOT
    drop = apply("div", apply("abs", apply("sub", Across(a), Across(b))), FOOT)
    opening = apply("pow", apply("max", drop, 1.0e-4), POWER - 0.5)
    return Element(name, "ROOT", (a, b), (at_a_foot / FOOT**0.5, 1.0e-2), gate=opening)


def town() -> Network:
    """The pump's head is 333.33 - 83.33 (q / 1500)² ft: a supply at 800 + 333.33 through an orifice."""
    nodes = (
        Node("pump", "petrol", boundary=Const((800.0 + 250.0 * 4.0 / 3.0) * FOOT)),
        Node("sink", "petrol", boundary=Const(0.0)),
        Node("2", "petrol"),
        *(Node(name, "petrol", start=950.0 * FOOT) for name in ("10", *DEMANDS)),
    )
    area = 3.141592653589793 * 50.5**2 / 4.0 * CUBIC_FOOT  # m³ in a foot of the tank
    elements = (
        Element("9", "ONEWAY", ("pump", "10"), (1500.0 * GPM / (250.0 / 3.0 * FOOT) ** 0.5, 1.0e-2, 0.0, 0.0),
                gate=ModeIs("pumping")),
        Element("tank", "STORE", ("2",), (area / FOOT,), content=area * 970.0),
        *(pipe(name, *of) for name, of in PIPES.items()),
        *(Element(f"demand {name}", "DRAW", (name, "sink"), (gpm * GPM, -1.0, 1.0), drive=Input("control", "demand"))
          for name, gpm in DEMANDS.items()),
    )  # fmt: skip
    pumping = Mode("pumping", apply("sub", 960.0 * FOOT, Across("2")), apply("sub", Across("2"), 990.0 * FOOT),
                   started=True)  # fmt: skip
    signals = tuple((n.name, apply("div", Across(n.name), FOOT)) for n in nodes if n.boundary is None)
    flows = tuple((f"flow {name}", apply("div", Through(name), GPM)) for name in (*PIPES, "9"))
    return Network(nodes, elements, (pumping,), (InputSlot("demand", "control", 1.0),), (*signals, *flows), ())


@pytest.fixture(scope="module")
def day() -> Run:
    """The town for a day."""
    changes = ((7200.0 * n, "demand", share) for n, share in enumerate(PATTERN) if n)
    found = run(town(), 86_400.0, *changes, step_error=1.0e-5)
    assert found.outcome.kind == "done" and found.certificate.conservation < 1.0e-9
    return found


HEADS = {
    "10": "1004.35", "11": "985.23", "12": "970.07", "13": "968.87", "21": "971.55", "22": "969.08", "23": "968.65",
    "31": "967.39", "32": "965.69",
}  # fmt: skip
FLOWS = {
    "10": "1866.18", "11": "1234.21", "12": "129.33", "21": "191.16", "22": "120.67", "31": "40.81", "110": "-766.18",
    "111": "481.97", "112": "188.70", "113": "29.33", "121": "140.81", "122": "59.19", "9": "1866.18",
}  # fmt: skip


@pytest.mark.parametrize(("node", "printed"), HEADS.items())
@checked(ENGINE, "L")
def test_head_at_the_beginning(day: Run, node: str, printed: str) -> None:
    value = values_at(day, 1.0)[day.names.index(node)]
    assert abs(value - float(printed)) <= half_step(printed) * (1 + 1e-9)


@pytest.mark.parametrize(("link", "printed"), FLOWS.items())
@checked(ENGINE, "L")
def test_flow_at_the_beginning(day: Run, link: str, printed: str) -> None:
    """To 0.05 gpm, by which the engine's own stopping rule lets its flows differ."""
    assert abs(values_at(day, 1.0)[day.names.index(f"flow {link}")] - float(printed)) <= 0.05


# The printed heads of the tank (980.16 ft at 4 h, 988.57 at 12 h, 961.28 at 23 h) are those of steps of an hour,
# through which the engine holds the tank's flow as it was at the beginning. At steps of a minute it says
# what is said here.
@pytest.fixture(scope="module")
def minutes(tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    """Head of the tank and flow of the pump, minute by minute, by the engine."""
    wntr = pytest.importorskip("wntr")
    model = wntr.network.WaterNetworkModel(str(Path(wntr.__file__).parent / "library" / "networks" / "Net1.inp"))
    model.options.time.hydraulic_timestep = model.options.time.report_timestep = 60
    folder = tmp_path_factory.mktemp("town")
    found = wntr.sim.EpanetSimulator(model).run_sim(file_prefix=str(folder / "town"))
    return found.node["head"]["2"] / 0.3048, found.link["flowrate"]["9"] / GPM


@pytest.mark.parametrize("hour", [4, 8, 12, 16, 20, 23])
@checked("EPANET 2.2 in wntr 1.5.0, network 1 at steps of a minute", "L")
def test_level_of_the_tank_through_the_day(day: Run, minutes, hour: int) -> None:  # type: ignore[no-untyped-def]
    ours = values_at(day, 3600.0 * hour)[day.names.index("2")]
    assert ours == pytest.approx(float(minutes[0].loc[3600 * hour]), abs=0.02)


@checked("EPANET 2.2 in wntr 1.5.0, network 1 as shipped, and at steps of a minute", "L")
def test_the_pump_stops_and_starts_between_the_hours(day: Run, minutes) -> None:  # type: ignore[no-untyped-def]
    """Off above 140 ft and on below 110 ft: between 12 h and 13 h, and between 22 h and 23 h, not on the hour."""
    (off, stops), (on, starts) = ((e.time, not e.now) for e in day.events)
    assert stops and not starts
    assert 12 * 3600.0 < off < 13 * 3600.0 and 22 * 3600.0 < on < 23 * 3600.0
    running = minutes[1] > 1.0
    theirs = [b for a, b in pairwise(running.index) if running.loc[a] != running.loc[b]]
    assert [off, on] == pytest.approx([float(t) for t in theirs], abs=60.0)
