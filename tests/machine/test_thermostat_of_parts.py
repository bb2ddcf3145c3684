"""A coolant circuit with its thermostat and shutter, made of parts, against the exponentials of one mass and two
radiators: 300 kW into 60 kJ/K, open at 110 °C and shut at 100 °C, from cold air of 15 °C.
"""

import math
from itertools import pairwise

import pytest

from cutaway.parts.kind import Control, Coupling, Fit, Kind
from cutaway.parts.recipe import Const, Input, Recipe, Signal, apply
from tests.parts.stand import Stand, supply

HEAT, MASS = 300.0e3, 60.0e3  # W, J/K
AIR, OPENS, SHUTS = 15.0, 110.0, 100.0
OPEN_AT, CLOSED_AT = 85.0, 150.0  # °C at which radiator and heat agree, shutter open and closed
POUND = 0.45359237
LB_SQ_IN = 6894.757293168
SPEED = 120.0  # m/s, well above that at which the radiator does no better


def _heater(fit: Fit) -> Recipe:
    return Recipe(signals=(("heat", apply("mul", HEAT, Input("control", ""))), ("heat at rating", Const(HEAT))))


def _flap(fit: Fit) -> Recipe:
    return Recipe(signals=(("position", Signal("made", of="worked by")),))


HEATER = Kind("heater", "A test part: an engine's heat and no more.", (), _heater, (Control("", ranged=True),))
WORKED_BY = Coupling("worked by", "signals", "The thermostat.", needs=("made",))
FLAP = Kind("flap", "A test part: open while the contact is made.", (), _flap, couplings=(WORKED_BY,))


def stand(by_air: bool) -> Stand:
    """by_air: thermostat, solenoid valve, ram and shutter; otherwise the thermostat moves the shutter at once."""
    parts: dict[str, tuple[str | Kind, dict[str, str]]] = {
        "engine": (HEATER, {}),
        "coolant": ("coolant circuit", {
            "mass": f"{MASS / 3700.0 / POUND} lb", "heat share": "100 %", "open temperature": f"{OPEN_AT} °C",
            "shut temperature": f"{CLOSED_AT} °C", "boils at": "140 °C",
        }),
        "thermostat": ("thermostat", {"makes at": f"{OPENS} °C", "breaks at": f"{SHUTS} °C"}),
        "volts": (supply("current", 24.0), {}),
    }  # fmt: skip
    couplings = ["coolant: engine > engine", "coolant: shutter > shutter", "thermostat: senses > coolant"]
    if not by_air:
        return Stand({**parts, "shutter": (FLAP, {})}, ("volts.outlet > thermostat.inlet",),
                     (*couplings, "shutter: worked by > thermostat"))  # fmt: skip
    return Stand(
        {
            **parts,
            "air": (supply("air", 101_325.0 + 200.0 * LB_SQ_IN), {}),
            "valve": ("solenoid valve", {}),
            "ram": ("ram", {"area": "2 sq in", "stroke": "3 in"}),
            "shutter": ("radiator shutter", {}),
        },
        ("volts.outlet > thermostat.inlet", "thermostat.outlet > valve.feed", "air.outlet > valve.supply",
         "valve.outlet > ram.chamber"),
        (*couplings, "shutter: moved by > ram"),
    )  # fmt: skip


def changes(s: Stand) -> list[float]:
    """The times at which the contact made and broke, in turn."""
    assert s.ran is not None
    events = [e for e in s.ran.events if e.mode == "thermostat: made"]
    assert [e.now for e in events] == [n % 2 == 0 for n in range(len(events))]
    return [e.time for e in events]


def passing(start: float, end: float, towards: float) -> float:
    """Time from one temperature to another on the way to a third: one exponential."""
    constant = MASS * (towards - AIR) / HEAT
    return constant * math.log((towards - start) / (towards - end))


def test_the_cycle_is_that_of_two_exponentials() -> None:
    s = stand(by_air=False).run(150.0, (0.0, "engine", 1.0), (0.0, "volts", 1.0), (0.0, "airspeed", SPEED))
    times = changes(s)
    first = passing(AIR, OPENS, CLOSED_AT)
    cooling, warming = passing(OPENS, SHUTS, OPEN_AT), passing(SHUTS, OPENS, CLOSED_AT)
    assert times[0] == pytest.approx(first, rel=0.01)
    spans = [b - a for a, b in pairwise(times)]
    assert len(spans) > 10
    for number, span in enumerate(spans):
        assert span == pytest.approx(warming if number % 2 else cooling, rel=0.0125), number
    assert s.at(times[2], "coolant: temperature") == pytest.approx(OPENS + 273.15, abs=0.1)
    assert s.at(times[3], "coolant: temperature") == pytest.approx(SHUTS + 273.15, abs=0.1)


def test_with_valve_and_ram_between_it_goes_on_a_little_either_way() -> None:
    """The same cycle, each half longer by what the ram takes: it opens the radiator while it moves, not before."""
    s = stand(by_air=True).run(
        150.0, (0.0, "engine", 1.0), (0.0, "volts", 1.0), (0.0, "air", 1.0), (0.0, "airspeed", SPEED)
    )
    times = changes(s)
    cooling, warming = passing(OPENS, SHUTS, OPEN_AT), passing(SHUTS, OPENS, CLOSED_AT)
    spans = [b - a for a, b in pairwise(times)]
    for number, span in enumerate(spans):
        ideal = warming if number % 2 else cooling
        assert ideal < span < ideal + 2.0, number
    assert s.at(times[0] + 2.0, "shutter: position") == pytest.approx(1.0, abs=0.01)
    # Current lost after two minutes and a half: the ram comes in, the shutter shuts and the coolant boils.
    lost = stand(by_air=True).run(
        240.0, (0.0, "engine", 1.0), (0.0, "volts", 1.0), (0.0, "air", 1.0), (0.0, "airspeed", SPEED),
        (150.0, "volts", 0.0),
    )  # fmt: skip
    assert lost.end("shutter: position") < 0.01 and lost.end("coolant: boiling") == 1.0
