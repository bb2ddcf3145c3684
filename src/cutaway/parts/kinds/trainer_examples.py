"""Worked examples of the kinds of a small trainer: engine, instruments, flaps, suction."""

from cutaway.parts.kind import Example

_ENGINE = """\
throttle: {kind: throttle}
ignition: {kind: magneto switch}
tank: {kind: tank, capacity: 10 gal}
petrol cock: {kind: cock}
carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: ignition}
"""

_FED = "tank > petrol cock > carburettor\n"
_RUN = "after petrol cock to on then ignition to both then engine starter to pressed for 5 s"
_OPEN = f"{_RUN} then throttle to open"

_FLAPS = """\
reservoir: {kind: reservoir, capacity: 1 gal}
pump: {kind: hydraulic hand pump}
selector: {kind: selector valve}
flap jack: {kind: jack, area: 1.2 sq in, stroke: 7 in}
flaps: {kind: flaps, moved by: flap jack, full angle: 40 degrees}
"""

_PIPES = """\
reservoir > pump > selector
selector > reservoir
selector.down > flap jack.extend
selector.up > flap jack.retract
"""

_SUCTION = (
    _ENGINE
    + """\
pump: {kind: vacuum pump, driven by: engine}
relief valve: {kind: suction relief valve, set at: 4.5 in Hg}
turn indicator: {kind: gyro instrument, run-up time: 30 s, run-down time: 30 s}
gauge: {kind: suction gauge, senses: pump.suction}
"""
)
_LINES = (
    _FED
    + """\
relief valve > pump
turn indicator > pump
"""
)

_PRIMED = "after petrol cock to on then primer to pumping for 15 s"
_STARTED = "ignition to both then engine starter to pressed for 5 s"

PRIMING_PUMP = Example(
    _ENGINE.replace("ignition: ignition}", "ignition: ignition, primed by: primer}") + "primer: {kind: priming pump}",
    (
        "after primer to pumping, at 10 s: primer is not primed",
        "after primer to pumping, within 15 s: primer is primed",
        "after primer to pumping for 15 s, within 10 min: primer is not primed",
        "with primer leaking washer, after primer to pumping, at 30 s: primer is not primed",
        f"{_RUN}, throughout 30 s: engine is stopped",
        f"{_PRIMED} then {_STARTED}, within 30 s: engine is running",
        f"with primer leaking washer, {_PRIMED} then {_STARTED}, throughout 30 s: engine is stopped",
        f"{_PRIMED} then {_STARTED} then wait 2 min then ignition to off then wait 10 min then {_STARTED}, "
        "at 750 s: engine is running and primer is not primed",
    ),
    f"{_FED}tank > primer",
)

ENGINE = Example(
    _ENGINE,
    (
        f"{_RUN}, within 20 s: engine is running",
        f"{_OPEN}, within 20 s: engine reads above 2200 rpm",
        f"{_RUN} then wait 20 s then petrol cock to off, within 5 min: engine is stopped",
        f"with engine seized, {_RUN}, throughout 30 s: engine is stopped",
    ),
    _FED,
)

THROTTLE = Example(
    _ENGINE,
    (
        f"{_OPEN} then wait 20 s then throttle to closed, within 30 s: engine reads below 700 rpm",
        f"{_RUN} then throttle to 50 %, within 30 s: engine reads 1500 to 2100 rpm",
    ),
    _FED,
)

MAGNETO_SWITCH = Example(
    _ENGINE,
    (
        f"{_RUN} then wait 20 s then ignition to off, within 5 s: engine is stopped",
        f"{_OPEN} then wait 20 s then ignition to left, at 10 s: engine reads 2225 rpm ± 10",
        f"with ignition left dead, {_RUN} then wait 20 s then ignition to left, within 5 s: engine is stopped",
        f"with ignition right dead, {_RUN} then wait 20 s then ignition to left, throughout 30 s: engine is running",
    ),
    _FED,
)

JUNCTION = Example(
    """\
battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}
terminal block: {kind: junction}
first lamp switch: {kind: switch}
second lamp switch: {kind: switch}
first lamp: {kind: electrical load, current: 1 A, fed by: first lamp switch.outlet}
second lamp: {kind: electrical load, current: 1 A, fed by: second lamp switch.outlet}
""",
    (
        "after first lamp switch to on, within 1 s: first lamp is working and second lamp is dead",
        "after first lamp switch to on then second lamp switch to on, within 1 s: first lamp is working and "
        "second lamp is working",
    ),
    """\
battery > terminal block
terminal block > first lamp switch
terminal block > second lamp switch
""",
)

FUEL_PRESSURE_GAUGE = Example(
    _ENGINE
    + """\
gauge: {kind: fuel pressure gauge, senses: carburettor.inlet}
""",
    (
        "after petrol cock to on, within 10 s: gauge reads above 0.3 lb/sq in",
        "with gauge pipe broken, after petrol cock to on, throughout 10 s: gauge reads 0 lb/sq in",
    ),
    _FED,
)

OIL_PRESSURE_GAUGE = Example(
    """\
reservoir: {kind: reservoir, capacity: 1 gal}
pump: {kind: hydraulic hand pump}
relief valve: {kind: oil relief valve, set at: 300 lb/sq in}
gauge: {kind: oil pressure gauge, senses: relief valve.inlet}
""",
    (
        "after pump to pumping, within 20 s: gauge reads 300 lb/sq in ± 20",
        "with gauge pipe broken, after pump to pumping, throughout 20 s: gauge reads 0 lb/sq in",
    ),
    """\
reservoir > pump > relief valve > reservoir
""",
)

FLAPS = Example(
    _FLAPS,
    (
        "after selector to down then pump to pumping, within 2 min: flaps are down",
        "after selector to down then pump to pumping then wait 2 min then selector to up, within 2 min: flaps are up",
        "with flap jack jammed, after selector to down then pump to pumping, throughout 2 min: flaps are not down",
    ),
    _PIPES,
)

POSITION_INDICATOR = Example(
    _FLAPS
    + """\
battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}
indicator switch: {kind: switch}
indicator: {kind: position indicator, shows: flaps, fed by: indicator switch.outlet}
""",
    (
        "after indicator switch to on then selector to down then pump to pumping, within 2 min: indicator reads "
        "40 degrees ± 1",
        "after selector to down then pump to pumping, at 2 min: indicator is dead",
        "with indicator open, after indicator switch to on, within 10 s: indicator is dead",
    ),
    _PIPES
    + """\
battery > indicator switch
""",
)

VACUUM_PUMP = Example(
    _SUCTION,
    (
        f"{_OPEN}, within 30 s: gauge reads above 4 in Hg",
        f"with pump sheared, {_OPEN}, throughout 30 s: gauge reads below 0.5 in Hg",
    ),
    _LINES,
)

SUCTION_RELIEF_VALVE = Example(
    _SUCTION,
    (
        f"{_OPEN}, within 30 s: relief valve is open and gauge reads 4.5 in Hg ± 0.3",
        f"with relief valve stuck shut, {_OPEN}, within 30 s: gauge reads above 5 in Hg",
        f"with relief valve stuck open, {_OPEN}, throughout 1 min: gauge reads below 3 in Hg",
    ),
    _LINES,
)

SUCTION_GAUGE = Example(
    _SUCTION,
    (
        f"{_OPEN}, within 30 s: gauge reads 4.5 in Hg ± 0.3",
        f"with gauge pipe broken, {_OPEN}, throughout 30 s: gauge reads 0 in Hg",
    ),
    _LINES,
)

GYRO_INSTRUMENT = Example(
    _SUCTION,
    (
        f"{_OPEN}, within 2 min: turn indicator is working",
        f"{_OPEN} then wait 2 min then ignition to off, at 10 s: turn indicator is working",
        f"{_OPEN} then wait 2 min then ignition to off, within 2 min: turn indicator is unreliable",
        f"with turn indicator filter choked, {_OPEN}, throughout 2 min: turn indicator is unreliable",
    ),
    _LINES,
)
