"""Figures of several parts that defeat each other are told with both; what may be so is not told."""

from pathlib import Path

import pytest

from cutaway.parts.library import KINDS
from tests.inquiry.folders import TYPE, folder_at, system

POWER = """
throttle: {kind: throttle}
magnetos: {kind: magneto switch}
petrol tank: {kind: tank, capacity: 20 gal, head: 0.4 m}
carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: magnetos}
"""
OIL = (
    POWER
    + """
reservoir: {kind: reservoir, capacity: 2 gal}
oil pump: {kind: engine-driven hydraulic pump, driven by: engine, pressure: 1500 lb/sq in}
cut-out: {kind: automatic cut-out, cut-out: 850 lb/sq in, cut-in: 650 lb/sq in}
accumulator: {kind: accumulator, volume: 100 cu in, air pressure: 400 lb/sq in}
oil relief valve: {kind: oil relief valve, set at: 1000 lb/sq in}
oil filter: {kind: oil filter}
hand pump: {kind: hydraulic hand pump, pressure: 1200 lb/sq in}
"""
)
OIL_LINES = """petrol tank > carburettor
reservoir > oil pump > cut-out.pump
cut-out.return > reservoir
cut-out.system > accumulator
accumulator > oil filter
accumulator > oil relief valve > reservoir"""
WITH_HAND_PUMP = f"{OIL_LINES}\nreservoir > hand pump > accumulator"
PETROL = (
    POWER.replace("lowest pressure: 0.1 lb/sq in", "lowest pressure: 1 lb/sq in")
    + """
fuel pump: {kind: engine-driven fuel pump, driven by: engine, pressure: 4 lb/sq in}
battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}
fuel lamp: {kind: low-pressure lamp, senses: carburettor.inlet, fed by: battery.positive, lights below: 2 lb/sq in}
immersed pump: {kind: immersed pump, voltage: 12 V, delivery: 60 gal/h, pressure: 8 lb/sq in, fed by: battery.positive}
valve: {kind: fuel relief valve, set at: 3 lb/sq in}
"""
)
PETROL_LINES = "petrol tank > fuel pump > carburettor"
AIR = (
    POWER
    + """
compressor: {kind: air compressor, driven by: engine, pressure: 450 lb/sq in}
regulator: {kind: charging regulator, cut-out: 300 lb/sq in, cut-in: 270 lb/sq in}
bottle: {kind: air bottle, volume: 0.2 cu ft}
maintaining valve: {kind: pressure-maintaining valve, set at: 130 lb/sq in}
services: {kind: air service}
brake valve: {kind: brake relay valve, full pressure: 80 lb/sq in}
reducing valve: {kind: pressure-reducing valve, set at: 100 lb/sq in}
charging point: {kind: air charging connection, pressure: 400 lb/sq in}
"""
)
AIR_LINES = """petrol tank > carburettor
compressor > regulator > bottle
bottle > maintaining valve > services
bottle > reducing valve > brake valve"""
SUCTION = """
turner: {kind: electric motor, fed by: mains.outlet}
mains: {kind: external supply socket}
vacuum pump: {kind: vacuum pump, driven by: turner}
relief: {kind: suction relief valve, set at: 4.5 in Hg}
horizon: {kind: gyro instrument, works above: 3.5 in Hg}
"""
SUCTION_LINES = "horizon > vacuum pump\nrelief > vacuum pump"


def told(path: Path, parts: str, lines: str, *changes: tuple[str, str], **files: str) -> list[str]:
    """What is told of a small folder whose parts are changed so."""
    for old, new in changes:
        assert old in parts
        parts = parts.replace(old, new)
    folder = folder_at(path, {"type.yaml": TYPE, "systems/small.yaml": system(parts, lines), **files})
    assert folder.problems == () or all(p.severity == "warning" for p in folder.problems), folder.problems
    return [p.message for p in folder.problems if p.code == "M114"]


@pytest.mark.parametrize(
    ("parts", "lines"),
    [(OIL, WITH_HAND_PUMP), (PETROL, PETROL_LINES), (AIR, AIR_LINES), (SUCTION, SUCTION_LINES)],
)
def test_nothing_is_told_of_what_works(tmp_path: Path, parts: str, lines: str) -> None:
    assert told(tmp_path, parts, lines) == []


CUT_OUT = ("850 lb/sq in", "1100 lb/sq in")
DEFEATED = {
    "a cut-out above the relief valve": (
        OIL, WITH_HAND_PUMP, CUT_OUT,
        "'cut-out' lets its pump off at 1100 lb/sq in, but 'oil relief valve' opens at 1000 lb/sq in: its pump may "
        "never be let off.",
    ),
    "with the relief valve before it": (
        OIL, OIL_LINES.replace("accumulator > oil relief valve", "oil pump.outlet > oil relief valve.inlet\n"
                               "oil relief valve.outlet").replace("outlet > reservoir", "outlet > reservoir.return"),
        CUT_OUT,
        "'cut-out' lets its pump off at 1100 lb/sq in, but 'oil relief valve' opens at 1000 lb/sq in: its pump may "
        "never be let off.",
    ),
    "a cut-out above what its pump can do": (
        OIL, OIL_LINES, ("1500 lb/sq in", "800 lb/sq in"),
        "'cut-out' lets its pump off at 850 lb/sq in, but 'oil pump' gives no more than 800 lb/sq in: its pump may "
        "never be let off.",
    ),
    "an accumulator above its cut-out": (
        OIL, OIL_LINES, ("400 lb/sq in", "900 lb/sq in"),
        "'accumulator' takes oil from 900 lb/sq in, but 'cut-out' lets its pump off at 850 lb/sq in: it may never hold "
        "any.",
    ),
    "a lamp above the pump's pressure": (
        PETROL, PETROL_LINES, ("lights below: 2 lb/sq in", "lights below: 6 lb/sq in"),
        "'fuel lamp' is lit below 6 lb/sq in, but 'fuel pump' gives no more than 4 lb/sq in: it may never go out.",
    ),
    "a lamp above the relief valve": (
        PETROL, f"{PETROL_LINES}\nfuel pump.outlet > valve.inlet\nvalve.outlet > petrol tank.outlet",
        ("lights below: 2 lb/sq in", "lights below: 5 lb/sq in"),
        "'fuel lamp' is lit below 5 lb/sq in, but 'valve' opens at 3 lb/sq in: it may never go out.",
    ),
    "a carburettor fed by weight alone": (
        PETROL, "petrol tank > carburettor", ("senses: carburettor.inlet", "senses: fuel pump.outlet"),
        "'carburettor' needs 1 lb/sq in, but 'petrol tank' has a head of no more than 0.4 m: it may never be fed.",
    ),
    "a maintaining valve above what charges the bottle": (
        AIR, AIR_LINES, ("set at: 130 lb/sq in", "set at: 330 lb/sq in"),
        "'maintaining valve' passes nothing below 330 lb/sq in, but 'regulator' lets its compressor off at 300 lb/sq "
        "in: nothing may ever pass it.",
    ),
    "brakes above their reducing valve": (
        AIR, AIR_LINES, ("set at: 100 lb/sq in", "set at: 60 lb/sq in"),
        "'brake valve' gives the brakes up to 80 lb/sq in, but 'reducing valve' lets through up to 60 lb/sq in: they "
        "may never have so much.",
    ),
    "a lamp for another system": (
        PETROL + "lamp: {kind: filament lamp, fed by: battery.positive}\n", PETROL_LINES, ("12 V", "12 volts"),
        "'lamp' is made for 24 V where nothing is said, but 'battery' gives about 12 volts: it may not "
        "work as it should.",
    ),
    "a gyro above its relief valve": (
        SUCTION, SUCTION_LINES, ("set at: 4.5 in Hg", "set at: 3 in Hg"),
        "'horizon' works above 3.5 in Hg, but 'relief' opens at 3 in Hg: its rotor may never run true.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", DEFEATED)
def test_what_is_defeated_is_told_with_what_defeats_it(tmp_path: Path, case: str) -> None:
    parts, lines, change, message = DEFEATED[case]
    assert told(tmp_path, parts, lines, change) == [message]


def test_on_the_marks_on_which_it_is_so(tmp_path: Path) -> None:
    change = ("cut-out: 850 lb/sq in", "cut-out: [{is: 850 lb/sq in, on: Mk 1}, {is: 1100 lb/sq in, on: Mk 2}]")
    (message,) = told(tmp_path, OIL, OIL_LINES, change, **{"type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n"})
    assert "opens at 1000 lb/sq in (on Mk 2): its pump" in message


MAY_BE = {
    # The hand pump's own oil comes to the accumulator whatever the cut-out does.
    "an accumulator that is pumped up by hand": (OIL, WITH_HAND_PUMP, ("400 lb/sq in", "900 lb/sq in")),
    # The two stand in a row, and what they give adds.
    "two pumps in a row": (
        PETROL, "petrol tank > immersed pump > fuel pump > carburettor",
        ("lights below: 2 lb/sq in", "lights below: 10 lb/sq in"),
    ),
    "a figure whose range reaches across": (
        OIL, OIL_LINES,
        ("set at: 1000 lb/sq in", "set at: {assume: 800 lb/sq in, between: 700 to 900 lb/sq in, because: A guess.}"),
    ),
    "the same figure twice": (OIL, OIL_LINES, ("set at: 1000 lb/sq in", "set at: 850 lb/sq in")),
    "a relief valve behind a non-return valve": (
        OIL + "non-return valve: {kind: oil non-return valve}\n",
        OIL_LINES.replace("accumulator > oil relief valve", "accumulator > non-return valve > oil relief valve"),
        CUT_OUT,
    ),
    "a relief valve that leads nowhere": (OIL, OIL_LINES.replace("oil relief valve > reservoir", "oil relief valve"),
                                          CUT_OUT),
    "a lamp that another supply lights": (
        PETROL + "lamp: {kind: filament lamp, fed by: battery.positive}\nmains: {kind: external supply socket}\n",
        f"{PETROL_LINES}\nmains > battery", ("12 V", "12 volts"),
    ),
    "a bottle that is charged otherwise": (
        AIR, f"{AIR_LINES}\ncharging point > bottle", ("set at: 130 lb/sq in", "set at: 330 lb/sq in"),
    ),
    "a bottle that nothing charges": (
        AIR, AIR_LINES.replace("compressor > regulator > bottle\n", ""),
        ("set at: 130 lb/sq in", "set at: 330 lb/sq in"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", MAY_BE)
def test_what_may_be_so_is_not_told(tmp_path: Path, case: str) -> None:
    parts, lines, change = MAY_BE[case]
    assert told(tmp_path, parts, lines, change) == []


def test_levels_name_quantities_and_places_of_their_kinds() -> None:
    for kind in KINDS.values():
        places = {port.name for port in kind.ports} | {c.name for c in kind.couplings if c.to == "node"}
        for level in kind.levels:
            assert level.quantity in {want.name for want in kind.wants} and level.at in places, kind.name
            assert bool(level.never) is (level.sort == "needs"), kind.name
