"""Direct-current networks with printed answers."""

from cutaway.machine.network import Network
from cutaway.machine.run import values_at
from cutaway.parts.recipe import ZERO, Across, Const, Element, Node, Through
from tests.machine.running import run
from tests.published.agreement import agrees


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
