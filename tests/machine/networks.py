"""Small networks of the trade, written out in numbers, for the tests of the machine and the benchmarks."""

from math import sqrt

from cutaway.machine.network import InputSlot, Network
from cutaway.parts.recipe import (
    ZERO,
    Across,
    Apply,
    Const,
    Content,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Node,
    Through,
    apply,
)

BAR = 1.0e5
LITRE = 1.0e-3


def k_bar(k: float) -> float:
    """A conductance in l/s per √bar, in m³/s per √Pa."""
    return k * LITRE / sqrt(BAR)


def control(name: str) -> Input:
    """The input of a control."""
    return Input("control", name)


def above(what: Expr, limit: float) -> Apply:
    """Positive where `what` is above the limit."""
    return apply("sub", what, limit)


def below(what: Expr, limit: float) -> Apply:
    """Positive where `what` is below the limit."""
    return apply("sub", limit, what)


def hydraulic_jack(
    accumulator: float = 1.5e-3, start: float = 76.0, cut_in: float = 64.0, k: float = 0.03,
    load: float = 7000.0, spring: float = 5000.0,
) -> Network:  # fmt: skip
    """Engine pump with automatic cut-out, accumulator, selector and jack. selector: 0 neutral, 1 down, 2 up."""
    node = [
        Node("reservoir", "oil", boundary=ZERO),
        Node("main", "oil", start=start * BAR),
        Node("cap", "oil"),
        Node("rod", "oil"),
    ]
    down, up = apply("eq", control("selector"), 1.0), apply("eq", control("selector"), 2.0)
    root = (k_bar(k), 0.05 * BAR)
    stroke = (300.0, 2000.0, spring, 0.0, load, 0.0, 0.30, 1.0e8)
    elements = (
        Element("pump", "PDPUMP", ("reservoir", "main"), (200 * BAR, 1.0e-10, 1.0e-4, -BAR, 0.5 * BAR, 1.0e-6),
                gate=apply("not", ModeIs("idle"))),
        Element("accumulator", "ACCUM", ("main",), (accumulator, 35 * BAR, 0.2 * BAR, 1.0e-14)),
        Element("pressure to cap", "ROOT", ("main", "cap"), root, gate=down),
        Element("rod to return", "ROOT", ("rod", "reservoir"), root, gate=down),
        Element("pressure to rod", "ROOT", ("main", "rod"), root, gate=up),
        Element("cap to return", "ROOT", ("cap", "reservoir"), root, gate=up),
        Element("jack", "JACK", ("cap", "rod"), (12.0e-4, 8.0e-4, *stroke), content=0.0),
    )  # fmt: skip
    modes = (
        Mode("idle", above(Across("main"), 84.0 * BAR), below(Across("main"), cut_in * BAR), started=True),
        Mode("extended", above(Content("jack"), 0.2995), below(Content("jack"), 0.299)),
    )
    signals = (
        ("pressure", Across("main")), ("cap", Across("cap")), ("rod", Across("rod")), ("travel", Content("jack")),
        ("idle", ModeIs("idle")), ("delivery", Through("pump", 0)),
    )  # fmt: skip
    owners = (*((n, "jack") for n in ("cap", "rod", "jack")), ("main", "pump"), ("idle", "cut-out"))
    return Network(tuple(node), elements, modes, (InputSlot("selector", "control", 0.0),), signals, owners)


def two_tanks() -> Network:
    """Two petrol tanks, a selector, an engine's demand, a low-pressure switch with a delayed lamp, a balance cock."""
    litre_per_kpa = 1.0e-6
    tank = (2.0 * litre_per_kpa, 50.0, 1.0e-11)
    flow = k_bar(0.15) * 10.0  # 0.15 l/s per √kPa
    root = (flow, 200.0)
    nodes = (
        Node("air", "petrol", boundary=ZERO),
        Node("left", "petrol"), Node("right", "petrol"), Node("selected", "petrol"), Node("delivery", "petrol"),
    )  # fmt: skip
    elements = (
        Element("left tank", "TANK", ("left",), tank, content=2.07e-3),
        Element("right tank", "TANK", ("right",), (20.0 * litre_per_kpa, 50.0, 1.0e-11), content=80.0e-3),
        Element("from left", "ONEWAY", ("left", "selected"), (*root, 0.0, 0.0), gate=below(control("selector"), 0.5)),
        Element("from right", "ONEWAY", ("right", "selected"), (*root, 0.0, 0.0), gate=above(control("selector"), 0.5)),
        Element("balance", "ROOT", ("left", "right"), (flow, 200.0), gate=control("balance")),
        Element("pump", "PDPUMP", ("selected", "delivery"), (60.0e3, 1.0e-8, 0.2e-3, -6.0e3, 4.0e3, 1.0e-6)),
        Element("relief", "RELIEF", ("delivery", "selected"), (flow, 200.0, 15.0e3, 4.0e3)),
        Element("engine", "DRAW", ("delivery", "air"), (0.06e-3, 1.0e3, 2.0e3)),
    )
    modes = (
        Mode("low", below(Across("delivery"), 10.0e3), above(Across("delivery"), 12.0e3)),
        Mode("lamp", apply("sub", ModeIs("low"), 0.5), apply("sub", 0.5, ModeIs("low")), delay=1.0),
    )
    signals = (("left", Content("left tank")), ("right", Content("right tank")), ("pressure", Across("delivery")))
    inputs = (InputSlot("selector", "control", 0.0), InputSlot("balance", "control", 0.0))
    return Network(nodes, elements, modes, inputs, signals, (("low", "switch"), ("lamp", "lamp")))


def generator_and_battery() -> Network:
    """A battery of 20 A h, a generator with cut-out, a load; ground/flight switch (1 flight). E9 of the ten
    behaviours."""
    capacity = 20.0 * 3600.0 / 4.2
    nodes = (
        Node("negative", "current", boundary=ZERO),
        Node("cell", "current"),
        Node("bus", "current"),
        Node("armature", "current"),
    )
    alive = apply("sub", 1.0, control("failed"))
    elements = (
        Element("battery", "STORE", ("cell",), (capacity,), content=capacity * 24.8),
        Element("inside", "LIN", ("cell", "bus"), (1.0 / 0.05,), gate=control("flight")),
        Element("generator", "SOURCE", ("negative", "armature"), (28.0, 20.0, 0.0, 40.0, 0.5), drive=alive, gate=alive),
        Element("winding", "LIN", ("armature", "negative"), (10.0,), gate=control("failed")),
        Element("cut-out", "LIN", ("armature", "bus"), (50.0,), gate=ModeIs("closed")),
        Element("load", "LIN", ("bus", "negative"), (0.6,)),
    )
    reverse = apply("sub", -2.0, Through("cut-out", 0))
    modes = (
        Mode(
            "closed",
            above(Across("armature"), 26.0),
            apply("max", reverse, below(Across("armature"), 15.0)),
            dwell=0.02,
        ),
        Mode("lamp", below(ModeIs("closed"), 0.5), above(ModeIs("closed"), 0.5)),
    )
    inputs = (InputSlot("flight", "control", 1.0), InputSlot("failed", "control", 0.0))
    signals = (("bus", Across("bus")), ("armature", Across("armature")), ("cell", Across("cell")))
    return Network(nodes, elements, modes, inputs, signals, (("closed", "cut-out"), ("lamp", "lamp")))


def hand_pumped(legs: int = 1, leak: float = 0.0) -> Network:
    """A hand pump of 1 l/min raising jacks of 38/30 cm², 0.5 m, against 2000 + 9000 z N. E10 of the ten behaviours."""
    nodes = [Node("reservoir", "oil", boundary=ZERO), Node("pressure", "oil")]
    stroke = (300.0, 2000.0, 9000.0, 0.0, 2000.0, 0.0, 0.5, 1.0e8)
    elements = [Element("pump", "PDPUMP", ("reservoir", "pressure"),
                        (90 * BAR, 1.0e-10, 1.0e-3 / 60.0, -BAR, 0.5 * BAR, 1.0e-7))]  # fmt: skip
    for leg in range(legs):
        cap, rod = f"cap {leg}", f"rod {leg}"
        nodes += [Node(cap, "oil"), Node(rod, "oil")]
        elements += [
            Element(f"to {cap}", "ROOT", ("pressure", cap), (k_bar(0.05), 0.05 * BAR)),
            Element(f"from {rod}", "ROOT", (rod, "reservoir"), (k_bar(0.05), 0.05 * BAR)),
            Element(f"jack {leg}", "JACK", (cap, rod), (38.0e-4, 30.0e-4, *stroke), content=0.0),
        ]
    elements.append(Element("leak", "LIN", ("pressure", "reservoir"), (leak * LITRE / BAR,)))
    modes = (Mode("up", above(Content("jack 0"), 0.4999), Const(-1.0)),)
    return Network(
        tuple(nodes), tuple(elements), modes, (), (("travel", Content("jack 0")), ("pressure", Across("pressure"))), ()
    )


def thermostat(inside: float = 10.0) -> Network:
    """A body of 600 s time constant, cold at 10 °C, full on 40 °C, on at 19 and off at 21. I6 of the check values."""
    nodes = (Node("cold", "heat", boundary=Const(10.0)), Node("body", "heat", start=inside, store=60.0e3))
    elements = (
        Element("wall", "LIN", ("body", "cold"), (100.0,)),
        Element("heater", "SOURCE", ("cold", "body"), (1.0e6, 1.0, 0.0, 3000.0, 1.0), gate=ModeIs("on")),
    )
    modes = (Mode("on", below(Across("body"), 19.0), above(Across("body"), 21.0), started=None),)
    return Network(nodes, elements, modes, (), (("temperature", Across("body")),), (("on", "thermostat"),))


def ram_and_bottle(leak: float) -> Network:
    """A spring-returned air ram of 20 cm² fed from a 2 l bottle of 15 bar through a valve, the bottle leaking. E8."""
    nodes = (
        Node("air", "air", boundary=Const(101325.0)),
        Node("bottle", "air", start=15.0 * BAR, store=2.0e-3 / 101325.0),
        Node("chamber", "air"),
    )
    elements = (
        Element("valve", "GASROOT", ("bottle", "chamber"), (5.0e-9, 3000.0), gate=control("current")),
        Element("exhaust", "GASROOT", ("chamber", "air"), (5.0e-9, 3000.0), gate=apply("sub", 1.0, control("current"))),
        Element("hole", "GASROOT", ("bottle", "air"), (leak, 3000.0)),
        Element("ram", "RAM", ("chamber",),
                (20.0e-4, 20.0, 500.0, 6000.0, 0.0, 300.0, 0.0, 0.08, 1.0e8, 1.0e-5), content=0.0),
    )  # fmt: skip
    modes = (Mode("out", above(Content("ram"), 0.0795), below(Content("ram"), 0.0795)),)
    signals = (("travel", Content("ram")), ("bottle", Across("bottle")))
    return Network(nodes, elements, modes, (InputSlot("current", "control", 0.0),), signals, ())
