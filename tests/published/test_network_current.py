"""Direct-current networks with printed answers."""

from cutaway.machine.network import Network
from cutaway.machine.run import values_at
from cutaway.parts.laws.shapes import root
from cutaway.parts.laws.sizing import filament_conductance
from cutaway.parts.recipe import ZERO, Across, Const, Element, Node, Through
from tests.machine.running import run
from tests.published.agreement import agrees
from tests.published.checked import checked


def resistor(name: str, a: str, b: str, ohm: float) -> Element:
    """A resistor."""
    return Element(name, "LIN", (a, b), (1.0 / ohm,))


def settled(nodes: tuple[Node, ...], elements: tuple[Element, ...]) -> dict[str, float]:
    """Volts of the nodes and amperes of the elements once nothing moves."""
    signals = tuple((node.name, Across(node.name)) for node in nodes) + tuple(
        (e.name, Through(e.name)) for e in elements
    )
    found = run(Network(nodes, elements, (), (), signals, ()), 10.0)
    return dict(zip(found.names, values_at(found, 10.0).tolist(), strict=True))


@checked("NCERT, Physics XII, current electricity; JEE paper of 17 March 2021, shift 2, its solution", "P")
def test_bridge_out_of_balance() -> None:
    """NCERT Physics XII, current electricity: arms 100, 10, 5, 60 ohm, galvanometer 15 ohm, 10 V: 4.87 mA; 0.865 and
    0.792 V."""
    nodes = (
        Node("a", "current", boundary=Const(10.0)), Node("c", "current", boundary=ZERO),
        Node("b", "current"), Node("d", "current"),
    )  # fmt: skip
    found = settled(nodes, (
        resistor("ab", "a", "b", 100.0), resistor("bc", "b", "c", 10.0), resistor("dc", "d", "c", 5.0),
        resistor("ad", "a", "d", 60.0), resistor("galvanometer", "b", "d", 15.0),
    ))  # fmt: skip
    assert agrees(1000.0 * found["galvanometer"], "4.87")
    assert agrees(found["b"], "0.865")
    assert agrees(found["d"], "0.792")


@checked("Kuphaldt, Lessons in Electric Circuits I, chapter 10 (Millman)", "P")
def test_two_batteries_on_one_load() -> None:
    """Kuphaldt, Lessons in Electric Circuits I, chapter 10: 28 V behind 4, 7 V behind 1, 2 ohm across: 8 V, and 1 A
    into the 7 V battery.

    Exact answers; the leak of 1e-5 S that every wire has takes less than 1e-4 of them.
    """
    nodes = (
        Node("first", "current", boundary=Const(28.0)), Node("second", "current", boundary=Const(7.0)),
        Node("negative", "current", boundary=ZERO), Node("bus", "current"),
    )  # fmt: skip
    found = settled(nodes, (
        resistor("from first", "first", "bus", 4.0), resistor("load", "bus", "negative", 2.0),
        resistor("from second", "second", "bus", 1.0),
    ))  # fmt: skip
    assert agrees(found["bus"], "8.000")
    assert agrees(found["from first"], "5.000")
    assert agrees(found["load"], "4.000")
    assert agrees(found["from second"], "-1.000")


def network(boundaries: dict[str, float], free: str, resistors: str) -> dict[str, float]:
    """The settled values of 'name a b ohm' triples between nodes, some of them held; 'zero' is held at 0 V."""
    held = tuple(Node(name, "current", boundary=Const(volts)) for name, volts in {"zero": 0.0, **boundaries}.items())
    elements = tuple(resistor(n, a, b, float(ohm)) for n, a, b, ohm in (row.split() for row in resistors.split(";")))
    return settled((*held, *(Node(name, "current") for name in free.split())), elements)


# The leak of 1e-5 S that every wire has is a ten-thousandth of what flows in a circuit of a few ohms; a circuit of
# kilohms is therefore worked at a thousandth of its resistances, with its currents a thousand times as large.


@checked("Kuphaldt, Lessons in Electric Circuits I, chapter 10", "M")
def test_bridge_by_delta_and_star() -> None:
    """Kuphaldt, Lessons in Electric Circuits I, chapter 10: 12 and 18 ohm from the top, 6 across, 18 and 12 below,
    10 V: 5.294 V, 4.706 V, 588.24 mV across the bridge. From memory; its star of 2, 3 and 6 ohm gives the same."""
    rows = "a top left 12;b top right 18;bridge left right 6;c left zero 18;d right zero 12"
    found = network({"top": 10.0}, "left right", rows)
    assert agrees(found["left"], "5.294") and agrees(found["right"], "4.706")
    assert agrees(1000.0 * (found["left"] - found["right"]), "588.2")


@checked("closed form; a circuit simulator (ngspice 39) agrees", "F")
def test_ladder() -> None:
    """Exact: 2 V, 4 ohm in series, 4 ohm across, then 2 + 2 ohm: 2/3 V and 1/3 V, 1/3 A."""
    rows = "in source first 4;across first zero 4;on first second 2;end second zero 2"
    found = network({"source": 2.0}, "first second", rows)
    assert agrees(found["first"], "0.6667") and agrees(found["second"], "0.3333") and agrees(found["in"], "0.3333")


@checked("closed form; a circuit simulator (ngspice 39) agrees", "F")
def test_ladder_that_halves() -> None:
    """Exact: 16 V on a ladder of rails of 1 and rungs of 2, the last of 1: 8, 4, 2 V, and 8 A (8 mA in kilohms)."""
    rows = "r1 source a 1;g1 a zero 2;r2 a b 1;g2 b zero 2;r3 b c 1;g3 c zero 1"
    found = network({"source": 16.0}, "a b c", rows)
    assert agrees(found["a"], "8.00") and agrees(found["b"], "4.00") and agrees(found["c"], "2.00")
    assert agrees(found["r1"], "8.00")


@checked("OpenStax, College Physics, 21.2, example 1", "M")
def test_battery_with_its_own_resistance() -> None:
    """OpenStax, College Physics, 21.2, example 1 (from memory): 12 V behind 0.1 ohm gives 1.188 A and 11.9 V into 10
    ohm, 20.0 A and 10.0 V (200 W) into 0.5 ohm; worn to 0.5 ohm, 12.0 A and 6.00 V (72.0 W)."""
    for own, load, amps, volts, watts in (
        ("0.1", "10", "1.188", "11.9", "14.1"),
        ("0.1", "0.5", "20.0", "10.0", "200"),
        ("0.5", "0.5", "12.0", "6.00", "72.0"),
    ):
        found = network({"cell": 12.0}, "terminal", f"own cell terminal {own};load terminal zero {load}")
        assert agrees(found["load"], amps) and agrees(found["terminal"], volts)
        assert agrees(found["load"] * found["terminal"], watts)


@checked("closed form; a circuit simulator (ngspice 39) agrees", "F")
def test_a_lamp_dims_while_the_starter_is_pressed() -> None:
    """Exact: 24 V behind 0.05 ohm, a starter of 0.1 ohm and a lamp of 24 ohm beside it: 15.9778 V, 160.444 A."""
    found = network({"cell": 24.0}, "bus", "own cell bus 0.05;starter bus zero 0.1;lamp bus zero 24")
    assert agrees(found["bus"], "15.978") and agrees(found["own"], "160.44")
    assert found["lamp"] < 0.7 * 24.0 / 24.0


@checked("SPIE Field Guide to Illumination (2007), tungsten lamps", "P")
def test_a_filament_a_little_off_its_rating() -> None:
    """SPIE Field Guide to Illumination (2007), tungsten lamps: with 5 % more current than 6.02 A the voltage goes from
    10.8 to 11.8 V and the power from 65 to 75 W. The exponent of our law is 0.5, not 1 / 1.9: within half a per cent
    over this range, and a few per cent at half the voltage."""
    conductance = filament_conductance(6.02, 10.8)
    current = conductance * root(11.8, 0.5)[0]
    assert abs(current / 6.32 - 1.0) < 0.005
    assert abs(current * 11.8 / 75.0 - 1.0) < 0.015
