"""Tanks, bottles and an accumulator as networks, against printed values and closed forms.

The kernel's steps are of the first order: its times approach the exact ones as the allowed error of a step shrinks.
So the fine runs are held to the printed tolerance where steps are few enough, and to the order of the method beside it.
"""

from math import log, sqrt

import pytest

from cutaway.machine.network import Network
from cutaway.parts.recipe import ZERO, Across, Const, Content, Element, Mode, ModeIs, Node, Through, apply
from tests.machine.networks import thermostat
from tests.machine.running import run, when
from tests.published.agreement import agrees
from tests.published.checked import checked

FOOT, INCH, GALLON = 0.3048, 0.0254, 4.54609e-3
LB_SQ_IN = 6894.757293168
PI = 3.141592653589793


def draining(
    area: float, hole: float, discharge: float, gravity: float, level: float, marks: tuple[float, ...]
) -> Network:
    """A tank of water over a hole, with a mode at each level that is to be timed."""
    density = 1000.0
    capacity = area / (density * gravity)
    k = discharge * hole * sqrt(2.0 / density)
    modes = tuple(
        Mode(f"below {mark}", apply("sub", capacity * density * gravity * mark, Content("tank")), Const(-1.0))
        for mark in marks
    )
    return Network(
        nodes=(Node("air", "petrol", boundary=ZERO), Node("outlet", "petrol")),
        elements=(
            Element("tank", "TANK", ("outlet",), (capacity, 0.01, 1.0e-15), content=area * level),
            Element("hole", "ROOT", ("outlet", "air"), (k, 0.05)),
        ),
        modes=modes,
        inputs=(),
        signals=(("content", Content("tank")),),
        owners=(),
    )


@checked("Çengel and Cimbala, Fluid Mechanics, example 5-2", "P/M")
def test_tank_through_a_plug_hole() -> None:
    """Çengel and Cimbala, Fluid Mechanics, example 5-2 of an early edition: 3 ft across, 0.5 in hole, 4 ft to 2 ft:
    757 s (12.6 min)."""
    area, hole = PI * (3.0 * FOOT) ** 2 / 4.0, PI * (0.5 * INCH) ** 2 / 4.0
    network = draining(area, hole, 1.0, 32.2 * FOOT, 4.0 * FOOT, (2.0 * FOOT,))
    time = run(network, 900.0, step_error=1.0e-7).events[0].time
    assert agrees(time, "757")
    assert agrees(time / 60.0, "12.6")


@checked("closed form: level is a parabola in time", "F")
def test_tank_to_the_last_drops() -> None:
    """The same tank to a ten-thousandth of its head: 99 % of the 2584 s that the last drop would take (a parabola in
    time)."""
    area, hole = PI * (3.0 * FOOT) ** 2 / 4.0, PI * (0.5 * INCH) ** 2 / 4.0
    network = draining(area, hole, 1.0, 32.2 * FOOT, 4.0 * FOOT, (4.0e-4 * FOOT,))
    time = run(network, 2700.0, step_error=1.0e-7).events[0].time
    assert time == pytest.approx(0.99 * 2584.0, abs=3.0)


@checked("closed form, and an integrator", "F")
def test_tank_with_a_coefficient_and_the_order_of_the_method() -> None:
    """0.5 m², 5 cm², 0.61, from 1 m: a quarter of the head at exactly half of 740.33 s. Closed form."""
    network = draining(0.5, 5.0e-4, 0.61, 9.80665, 1.0, (0.25,))
    errors = [run(network, 400.0, step_error=e).events[0].time - 370.165 for e in (4.0e-6, 1.0e-6, 2.5e-7)]
    assert 0.0 < errors[2] < 0.1  # late, as backward Euler is, by a few parts in ten thousand
    # A quarter of the allowed error is half the step, and half the error of the time; the limit is the exact time.
    assert errors[0] / errors[1] == pytest.approx(2.0, rel=0.1)
    assert errors[1] / errors[2] == pytest.approx(2.0, rel=0.1)
    assert abs(2.0 * errors[2] - errors[1]) < 0.005


@checked("closed form of St Venant and Wantzel", "F")
def test_bottle_blowing_down_while_choked() -> None:
    """10 l, 300 lb/sq in gauge, 1 mm², 288.15 K, isothermal: time constant 50.78 s, half pressure after 35.20 s.
    Closed form.

    Tested is the choked part of our gas law only: flow in proportion to the pressure, the store, and the conductance
    made from an area. Our law has critical ratio 0, so it blows into a vacuum here, and says nothing about when
    choking ends (123.2 s).
    """
    start = 300.0 * LB_SQ_IN + 101325.0
    mass_per_pa = 0.0404147 * 1.0e-6 / sqrt(288.15)  # kg/s per Pa: St Venant and Wantzel, choked
    c = mass_per_pa / (101325.0 / (287.05287 * 288.15))
    network = Network(
        nodes=(Node("vacuum", "air", boundary=ZERO), Node("bottle", "air", start=start, store=0.010 / 101325.0)),
        elements=(Element("hole", "GASROOT", ("bottle", "vacuum"), (c, 1.0e3)),),
        modes=(
            Mode("half", apply("sub", 0.5 * start, Across("bottle")), Const(-1.0)),
            Mode("1/e", apply("sub", start / 2.718281828459045, Across("bottle")), Const(-1.0)),
        ),
        inputs=(),
        signals=(("pressure", Across("bottle")),),
        owners=(),
    )
    coarse, fine = (run(network, 60.0, step_error=e) for e in (4.0e-6, 1.0e-6))

    def at_the_limit(mode: str) -> float:
        """Twice the finer less the coarser: the first order taken out."""
        return 2.0 * when(fine, mode, True) - when(coarse, mode, True)

    assert agrees(at_the_limit("1/e"), "50.78")
    assert agrees(at_the_limit("half"), "35.20")
    assert when(fine, "half", True) == pytest.approx(50.78 * log(2.0), rel=2.0e-3)


@checked("closed form: two exponentials", "F")
def test_thermostat_cycle() -> None:
    """Cold 10 °C, full on 40 °C, time constant 600 s, on at 19, off at 21: on 60.0501 s, off 120.4024 s. Closed
    form."""
    cycles = []
    for error in (4.0e-6, 1.0e-6):
        found = run(thermostat(), 700.0, step_error=error)
        on = when(found, "on", False, 1) - when(found, "on", True, 0)
        off = when(found, "on", True, 0) - when(found, "on", False, 0)
        cycles.append((on, off))
    assert cycles[1][0] == pytest.approx(60.0501, rel=1.0e-3)
    assert cycles[1][1] == pytest.approx(120.4024, rel=1.0e-3)
    # With the first order taken out: the heater's corner and the events' own tolerance are all that is left.
    assert 2.0 * cycles[1][0] - cycles[0][0] == pytest.approx(60.0501, abs=0.005)
    assert 2.0 * cycles[1][1] - cycles[0][1] == pytest.approx(120.4024, abs=0.005)


@checked("closed form: volume over net flow", "F")
def test_hydraulic_cut_out_cycle() -> None:
    """A bottle that takes 5 gal between 1200 and 3000 lb/sq in (10 gal, precharge 1000), pump 1 and leak 0.25 gal/min:

    6.667 min charging, 20 min idle. The store keeps its content through every change of mode, so the times are exact.
    """
    pump, leak, low, high = GALLON / 60.0, 0.25 * GALLON / 60.0, 1200.0 * LB_SQ_IN, 3000.0 * LB_SQ_IN
    network = Network(
        nodes=(Node("reservoir", "oil", boundary=ZERO), Node("main", "oil", start=low)),
        elements=(
            Element("bottle", "ACCUM", ("main",), (10.0 * GALLON, 1000.0 * LB_SQ_IN, 1.0, 1.0e-16)),
            Element("pump", "PDPUMP", ("reservoir", "main"), (1.0e8, 1.0e-9, pump, -1.0e5, 1.0e4, 1.0e-7),
                    gate=apply("not", ModeIs("idle"))),
            Element("leak", "DRAW", ("main", "reservoir"), (leak, -1.0, 0.5)),
        ),
        modes=(Mode("idle", apply("sub", Across("main"), high), apply("sub", low, Across("main"))),),
        inputs=(),
        signals=(("delivery", Through("pump", 0)),),
        owners=(),
    )  # fmt: skip
    found = run(network, 6000.0)
    charging = when(found, "idle", True, 1) - when(found, "idle", False, 0)
    idle = when(found, "idle", False, 1) - when(found, "idle", True, 1)
    assert agrees(charging / 60.0, "6.667")
    assert agrees(idle / 60.0, "20.000")
