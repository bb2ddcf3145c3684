"""Random networks by number: the same number always gives the same network, starts and changes.

Every family but those whose use is restricted (ADVECT, whose stream must close; RAM, whose chamber is its own case).
Conductances over three decades, starts far apart, gates shut and opened in the middle of the run.
"""

from collections.abc import Callable

import numpy as np

from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Change
from cutaway.parts.recipe import Apply, Const, Element, Input, Medium, Node, apply

Random = np.random.Generator
Ends = Callable[..., tuple[str, str]]

SCALE = {"oil": (1.0e6, 1.0e-4), "petrol": (5.0e3, 1.0e-4), "air": (1.0e5, 1.0e-4), "current": (1.0, 1.0)}
TWO_ENDED = {
    "oil": ("LIN", "ROOT", "ONEWAY", "RELIEF", "REDUCE", "MAINTAIN", "SOURCE", "PDPUMP", "DRAW", "JACK"),
    "petrol": ("LIN", "ROOT", "ONEWAY", "RELIEF", "REDUCE", "SOURCE", "PDPUMP", "DRAW"),
    "air": ("LIN", "GASROOT", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN", "SOURCE"),
    "current": ("LIN", "ROOT", "ONEWAY", "SOURCE", "RATIO"),
}
STORES = {"oil": ("ACCUM", "TANK"), "petrol": ("TANK",), "air": ("STORE",), "current": ("STORE",)}
STROKE = (0.0, 0.3, 1.0e8)


def decades(rng: Random, middle: float, width: float = 3.0) -> float:
    """A number within so many decades about the middle."""
    return float(middle * 10.0 ** rng.uniform(-0.5 * width, 0.5 * width))


def two_ended(rng: Random, family: str, medium: str) -> tuple[float, ...]:
    """Parameters of an element between two nodes."""
    x, q = SCALE[medium]
    k, core, level = decades(rng, q / x**0.5), 0.05 * x, x * rng.uniform(0.5, 10.0)
    high = 1.0e5 if medium == "air" else 0.0
    if family == "LIN":
        return (decades(rng, q / x),)
    if family in ("GASROOT", "GASWAY"):
        return (decades(rng, q / x), 0.03 * x) + ((rng.uniform(0.0, 0.1) * x,) if family == "GASWAY" else ())
    if family == "ROOT":
        return (k, core)
    if family == "ONEWAY":
        return (k, core, rng.uniform(0.0, 0.5) * x, float(rng.choice([0.0, 1.0e-6])) * k / x**0.5)
    if family in ("RELIEF", "REDUCE", "MAINTAIN"):
        return (k, core, level + (high if family != "RELIEF" else 0.0), 0.1 * level)
    if family == "SOURCE":
        return (level, decades(rng, q / x), 0.0, decades(rng, q), 0.01 * q)
    if family == "PDPUMP":
        return (2.0 * level, decades(rng, 0.1 * q / x, 1.0), decades(rng, q), -0.1 * x, 0.05 * x, 0.005 * q)
    if family == "DRAW":
        return (decades(rng, q), 0.1 * x, 0.2 * x)
    raise AssertionError(family)


def jack(rng: Random) -> tuple[float, ...]:
    """Parameters of a jack."""
    area = decades(rng, 1.0e-3, 1.0)
    ends = (decades(rng, 300.0, 1.0), 2000.0, rng.uniform(0.0, 2.0e4), 0.0, rng.uniform(-2.0e3, 1.0e4))
    return (area, 0.7 * area, *ends, *STROKE)


def store(rng: Random, family: str, medium: str) -> tuple[float, ...]:
    """Parameters of a store."""
    x, q = SCALE[medium]
    if family == "ACCUM":
        return (decades(rng, 1.0e-3, 2.0), rng.uniform(2.0e6, 5.0e6), 0.1e6, 1.0e-14)
    if family == "TANK":
        return (decades(rng, 1.0e-6, 2.0), 50.0, 1.0e-11)
    return (decades(rng, q / x * 10.0),)


def network(number: int) -> tuple[Network, tuple[Change, ...], float]:
    """The network of that number, changes of its gates, and for how long to run it, s."""
    rng = np.random.default_rng(number)
    medium: Medium = ("oil", "petrol", "air", "current")[int(rng.integers(4))]  # type: ignore[assignment]
    n = int(rng.integers(3, 25))
    x, _ = SCALE[medium]
    datum = 101325.0 if medium == "air" else 0.0
    low = datum - 0.5 * x if medium == "air" else 0.0
    names = [f"node {i}" for i in range(n)]
    nodes = [Node("datum", medium, boundary=Const(datum))]
    nodes += [Node(name, medium, start=float(low + x * rng.uniform(0.0, 10.0))) for name in names]
    gates = [f"gate {i}" for i in range(4)]
    elements = [
        _element(rng, medium, f"tree {i}", names[i], "datum" if i == 0 else names[int(rng.integers(i))], gates)
        for i in range(n)
    ]
    for i in range(int(1.5 * n)):
        a, b = rng.choice(["datum", *names], 2, replace=False)
        elements.append(_element(rng, medium, f"loop {i}", str(a), str(b), gates))
    for i in rng.choice(n, max(1, n // 4), replace=False):
        family = str(rng.choice(STORES[medium]))
        elements.append(Element(f"store {i}", family, (names[i],), store(rng, family, medium)))  # type: ignore[arg-type]
    shafts = [f"shaft of {e.name}" for e in elements if e.family == "RATIO"]
    nodes += [Node(name, "shaft", store=decades(rng, 0.01, 1.0)) for name in shafts]
    nodes += [Node("airframe", "shaft", boundary=Const(0.0))] if shafts else []
    elements += [Element(f"drag {name}", "DRAG", (name, "airframe"), (0.05, 6.0, 1.0e-4)) for name in shafts]
    seconds = float(10.0 ** rng.uniform(-1.0, 2.0))
    times = np.sort(rng.uniform(0.0, seconds, 4))
    changes = tuple(Change(float(t), str(rng.choice(gates)), float(rng.choice([0.0, 0.3, 1.0]))) for t in times)
    inputs = tuple(InputSlot(gate, "control", float(rng.choice([0.0, 1.0]))) for gate in gates)
    return Network(tuple(nodes), tuple(elements), (), inputs, (), ()), changes, seconds


def _element(rng: Random, medium: str, name: str, a: str, b: str, gates: list[str]) -> Element:
    family = str(rng.choice(TWO_ENDED[medium]))
    if rng.random() < 0.5:
        a, b = b, a
    if family == "SOURCE" and "datum" not in (a, b):
        family = "LIN"  # a source may draw from a boundary only
    if family == "SOURCE" and b == "datum":
        a, b = b, a
    shut: Apply | Const = Const(1.0)
    if rng.random() < 0.4:
        shut = apply("max", 0.0, Input("control", str(rng.choice(gates))))
    if family == "JACK":
        return Element(name, "JACK", (a, b), jack(rng), content=float(rng.uniform(0.0, 0.3)))
    if family == "RATIO":
        return Element(name, "RATIO", (a, b, f"shaft of {name}"), (0.06, decades(rng, 1.0, 2.0)), gate=shut)
    return Element(name, family, (a, b), two_ended(rng, family, medium), gate=shut)  # type: ignore[arg-type]
