"""Worked examples of the hydraulic kinds: as a rule a hand pump, a selector, and what is to be shown."""

from cutaway.parts.kind import Example

RESERVOIR_AND_PUMP = (
    "reservoir: {kind: reservoir, capacity: 1 gal}\nhand pump: {kind: hydraulic hand pump, stroke: 40 cc}\n"
)
WITH_SELECTOR = RESERVOIR_AND_PUMP + (
    "relief valve: {kind: oil relief valve, set at: 600 lb/sq in}\nselector: {kind: two-position selector}\n"
)
SELECTOR_LINES = "reservoir > hand pump > selector > reservoir\nhand pump > relief valve > reservoir\n"
EMERGENCY_PARTS = WITH_SELECTOR + (
    "jack: {kind: jack, area: 1 sq in, stroke: 8 in}\n"
    "shuttle: {kind: shuttle valve}\n"
    "bottle: {kind: emergency air bottle, pressure: 1000 lb/sq in, volume: 60 cu in}"
)
EMERGENCY_LINES = SELECTOR_LINES + (
    "selector.down > shuttle > jack.extend\nselector.up > jack.retract\nbottle > shuttle.emergency"
)

STARTED = "after ignition switch to both then throttle to 60 % then engine starter to pressed for 5 s"
OPENED = "with selector at down, after bottle to opened"
SENT_DOWN = "with selector at down, after hand pump to pumping"
SHUT_IN = f"{SENT_DOWN} then wait 30 s then hand pump to idle then selector to neutral"
SENT_UP = f"{SENT_DOWN} then wait 30 s then selector to up"
LET_GO = f"{SENT_DOWN} then wait 30 s then hand pump to idle then selector to up"

ENGINE_DRIVEN_HYDRAULIC_PUMP = Example(
    (
        "tank: {kind: tank, capacity: 10 gal}\n"
        "carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}\n"
        "throttle: {kind: throttle}\n"
        "ignition switch: {kind: magneto switch}\n"
        "engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: ignition switch}\n"
        "reservoir: {kind: reservoir, capacity: 1 gal}\n"
        "hydraulic pump: {kind: engine-driven hydraulic pump, driven by: engine}\n"
        "relief valve: {kind: oil relief valve, set at: 900 lb/sq in}\n"
        "pressure gauge: {kind: oil pressure gauge, senses: hydraulic pump.outlet}"
    ),
    (
        "pressure gauge reads below 5 lb/sq in",
        f"{STARTED}, within 20 s: relief valve is open",
        f"{STARTED}, within 20 s: pressure gauge reads above 880 lb/sq in",
        f"with hydraulic pump sheared, {STARTED}, within 20 s: pressure gauge reads below 5 lb/sq in",
        f"with hydraulic pump worn, {STARTED}, within 20 s: hydraulic pump reads below 0.8 gal/min",
        f"{STARTED}, within 20 s: hydraulic pump reads above 0.9 gal/min",
    ),
    ("tank > carburettor\nreservoir > hydraulic pump > relief valve > reservoir"),
)

AUTOMATIC_CUT_OUT = Example(
    RESERVOIR_AND_PUMP
    + (
        "cut-out: {kind: automatic cut-out, cut-out: 500 lb/sq in, cut-in: 400 lb/sq in}\n"
        "accumulator: {kind: accumulator, volume: 20 cu in, air pressure: 200 lb/sq in}\n"
        "relief valve: {kind: oil relief valve, set at: 700 lb/sq in}\n"
        "pressure gauge: {kind: oil pressure gauge, senses: accumulator.oil}"
    ),
    (
        "after hand pump to pumping, at 3 s: cut-out is charging",
        "with hand pump pumping, within 20 s: cut-out is idling and pressure gauge reads 500 lb/sq in ± 5",
        "after hand pump to pumping then wait 1 min then hand pump to idle, throughout 10 min: cut-out is idling",
        "with cut-out stuck idling, after hand pump to pumping, throughout 1 min: pressure gauge reads below "
        "20 lb/sq in",
        "with cut-out stuck charging, after hand pump to pumping, within 30 s: relief valve is open and "
        "pressure gauge reads above 690 lb/sq in",
    ),
    ("reservoir > hand pump > cut-out > accumulator\ncut-out.return > reservoir\nhand pump > relief valve > reservoir"),
)

ACCUMULATOR = Example(
    RESERVOIR_AND_PUMP
    + (
        "accumulator: {kind: accumulator, volume: 20 cu in, air pressure: 200 lb/sq in}\n"
        "relief valve: {kind: oil relief valve, set at: 700 lb/sq in}\n"
        "oil gauge: {kind: oil pressure gauge, senses: accumulator.oil}"
    ),
    (
        "accumulator is empty and accumulator reads 200 lb/sq in ± 2",
        "oil gauge reads below 5 lb/sq in",
        "with hand pump pumping, within 30 s: accumulator reads above 690 lb/sq in",
        "with hand pump pumping, within 30 s: accumulator is charged",
        "with accumulator at 600 lb/sq in: oil gauge reads 600 lb/sq in ± 6",
        "with accumulator air lost, after hand pump to pumping, at 5 s: oil gauge reads below 60 lb/sq in",
        "with accumulator air lost: accumulator reads below 5 lb/sq in",
    ),
    ("reservoir > hand pump > accumulator\nhand pump > relief valve > reservoir"),
)

OIL_FILTER = Example(
    RESERVOIR_AND_PUMP
    + (
        "filter: {kind: oil filter}\n"
        "relief valve: {kind: oil relief valve, set at: 300 lb/sq in}\n"
        "before: {kind: oil pressure gauge, senses: filter.inlet}"
    ),
    (
        "with hand pump pumping, within 5 s: before reads below 5 lb/sq in",
        "with filter choked, with hand pump pumping, within 5 s: before reads above 100 lb/sq in",
    ),
    ("reservoir > hand pump > filter > reservoir\nhand pump > relief valve > reservoir"),
)

TWO_POSITION_SELECTOR = Example(
    WITH_SELECTOR
    + (
        "jack: {kind: jack, area: 1 sq in, stroke: 8 in}\n"
        "accumulator: {kind: accumulator, volume: 10 cu in, air pressure: 200 lb/sq in}"
    ),
    (
        "with hand pump pumping, throughout 30 s: jack is retracted",
        "with selector at down, with hand pump pumping, within 30 s: jack is extended",
        f"{SENT_UP}, within 30 s: jack is retracted",
        "with accumulator at 500 lb/sq in, throughout 30 min: accumulator is charged",
        "with selector internal leak, with accumulator at 500 lb/sq in, within 30 min: accumulator is empty",
    ),
    SELECTOR_LINES + ("selector.pressure > accumulator\nselector.down > jack.extend\nselector.up > jack.retract"),
)

SEQUENCE_VALVE = Example(
    WITH_SELECTOR
    + (
        "door jack: {kind: jack, area: 1 sq in, stroke: 6 in}\n"
        "leg jack: {kind: jack, area: 1 sq in, stroke: 8 in}\n"
        "sequence valve: {kind: sequence valve, moved by: door jack}"
    ),
    (
        "sequence valve is closed",
        f"{SENT_DOWN}, within 1 min: leg jack is extended",
        f"{SENT_DOWN}, within 1 min: door jack is extended before leg jack is extended",
        f"{SENT_DOWN}, within 1 min: sequence valve is open before leg jack is not retracted",
        f"with sequence valve stuck, {SENT_DOWN}, throughout 1 min: leg jack is retracted",
        f"with door jack jammed, {SENT_DOWN}, throughout 1 min: leg jack is retracted",
    ),
    SELECTOR_LINES
    + (
        "selector.down > door jack.extend\n"
        "selector.up > door jack.retract\n"
        "selector.down > sequence valve > leg jack.extend\n"
        "selector.up > leg jack.retract"
    ),
)

RESTRICTOR = Example(
    WITH_SELECTOR
    + (
        "slow jack: {kind: jack, area: 1 sq in, stroke: 8 in, spring load: 100 lbf}\n"
        "restrictor: {kind: restrictor, flow: 2 gal/h}"
    ),
    (
        f"{SENT_DOWN}, takes 6 to 9 s: slow jack is extended",
        f"{SENT_DOWN} then wait 1 min then hand pump to idle then selector to up, at 2 s: slow jack is not retracted",
        f"with restrictor choked, {SENT_DOWN}, throughout 1 min: slow jack is retracted",
    ),
    SELECTOR_LINES + ("selector.down > restrictor > slow jack.extend\nselector.up > slow jack.retract"),
)

ONE_WAY_RESTRICTOR = Example(
    WITH_SELECTOR
    + (
        "jack: {kind: jack, area: 1 sq in, stroke: 8 in, spring load: 100 lbf}\n"
        "restrictor: {kind: one-way restrictor, flow: 1 gal/h}"
    ),
    (
        f"{SENT_DOWN}, within 8 s: jack is extended",
        f"{LET_GO}, at 3 s: jack is not retracted",
        f"{LET_GO}, within 2 min: jack is retracted",
        f"with restrictor choked, {LET_GO}, throughout 2 min: jack is extended",
    ),
    SELECTOR_LINES + ("selector.down > restrictor > jack.extend\nselector.up > jack.retract"),
)

HYDRAULIC_LOCK = Example(
    WITH_SELECTOR
    + ("jack: {kind: jack, area: 1 sq in, stroke: 8 in, spring load: 200 lbf}\nlock: {kind: hydraulic lock}"),
    (
        f"{SENT_DOWN}, within 30 s: jack is extended",
        f"{LET_GO}, throughout 10 min: jack is extended and lock is locked",
        f"{SENT_UP}, within 30 s: jack is retracted",
        f"with lock stuck, {SENT_UP}, throughout 30 s: jack is extended",
    ),
    SELECTOR_LINES + ("selector.down > lock > jack.extend\nselector.up > jack.retract\nselector.up > lock.pilot"),
)

SHUTTLE_VALVE = Example(
    EMERGENCY_PARTS,
    (
        f"{SENT_DOWN}, within 30 s: jack is extended and shuttle is not over",
        f"{OPENED}, within 10 s: jack is extended and shuttle is over",
        f"with shuttle stuck, {OPENED}, throughout 30 s: jack is retracted and shuttle is not over",
    ),
    EMERGENCY_LINES,
)

EMERGENCY_AIR_BOTTLE = Example(
    EMERGENCY_PARTS,
    (
        "bottle reads 1000 lb/sq in ± 5",
        "with selector at down, throughout 30 s: jack is retracted and bottle is not used",
        f"{OPENED}, within 10 s: jack is extended and bottle is used",
        f"{OPENED}, within 10 s: bottle reads 880 lb/sq in ± 10",
        "with bottle leaked, after wait 10 min then selector to down then bottle to opened, throughout 30 s: "
        "jack is retracted",
        f"with bottle at 100 lb/sq in, {OPENED}, within 10 s: bottle reads below 95 lb/sq in",
    ),
    EMERGENCY_LINES,
)

JACK = Example(
    WITH_SELECTOR + "jack: {kind: jack, area: 1 sq in, stroke: 8 in, ice load: 500 lbf}",
    (
        f"{SENT_DOWN}, within 30 s: jack is extended",
        "with selector at down, with hand pump pumping, within 30 s: jack reads 8 in ± 0.05",
        "with jack iced, with selector at down, at 5 s: jack is retracted",
        f"with jack iced, {SENT_DOWN}, within 30 s: jack is extended",
        f"with jack iced, with relief valve stuck open, {SENT_DOWN}, throughout 1 min: jack is retracted",
        f"with jack jammed, {SENT_DOWN}, throughout 1 min: jack is retracted",
        f"with jack seal leaking, {SENT_DOWN}, within 1 min: jack is extended",
    ),
    SELECTOR_LINES + ("selector.down > jack.extend\nselector.up > jack.retract"),
)

RESERVOIR = Example(
    RESERVOIR_AND_PUMP
    + ("relief valve: {kind: oil relief valve, set at: 300 lb/sq in}\ntray: {kind: reservoir, capacity: 2 gal}"),
    (
        "with hand pump pumping, at 10 s: reservoir is not empty",
        "with hand pump pumping, within 5 min: reservoir is empty",
        "with reservoir at 0.3 gal, with hand pump pumping, within 1 min: reservoir is empty",
    ),
    "reservoir > hand pump > relief valve > tray",
)

HYDRAULIC_HAND_PUMP = Example(
    WITH_SELECTOR + "jack: {kind: jack, area: 1 sq in, stroke: 8 in}",
    (
        "with selector at down, throughout 1 min: jack is retracted",
        f"{SENT_DOWN}, takes 4 to 6 s: jack is extended",
        f"with hand pump leaking washer, {SENT_DOWN}, takes 14 to 18 s: jack is extended",
    ),
    SELECTOR_LINES + ("selector.down > jack.extend\nselector.up > jack.retract"),
)

OIL_RELIEF_VALVE = Example(
    RESERVOIR_AND_PUMP
    + (
        "relief valve: {kind: oil relief valve, set at: 600 lb/sq in}\n"
        "pressure gauge: {kind: oil pressure gauge, senses: hand pump.outlet}"
    ),
    (
        "relief valve is closed",
        "with hand pump pumping, within 5 s: relief valve is open and pressure gauge reads 610 lb/sq in ± 20",
        "with relief valve stuck open, with hand pump pumping, within 5 s: pressure gauge reads below 100 lb/sq in",
    ),
    "reservoir > hand pump > relief valve > reservoir",
)

OIL_NON_RETURN_VALVE = Example(
    RESERVOIR_AND_PUMP
    + (
        "valve: {kind: oil non-return valve}\n"
        "accumulator: {kind: accumulator, volume: 10 cu in, air pressure: 200 lb/sq in}\n"
        "relief valve: {kind: oil relief valve, set at: 600 lb/sq in}"
    ),
    (
        "with accumulator at 500 lb/sq in, throughout 10 min: accumulator is charged",
        "with accumulator at 500 lb/sq in, with relief valve stuck open, throughout 10 min: accumulator is charged",
        "with accumulator at 500 lb/sq in, with relief valve stuck open, with valve stuck open, within 1 "
        "min: accumulator is empty",
        "with hand pump pumping, within 20 s: accumulator reads above 580 lb/sq in",
    ),
    ("reservoir > hand pump > valve > accumulator\nhand pump > relief valve > reservoir"),
)

SELECTOR_VALVE = Example(
    RESERVOIR_AND_PUMP
    + (
        "relief valve: {kind: oil relief valve, set at: 600 lb/sq in}\n"
        "selector: {kind: selector valve}\n"
        "jack: {kind: jack, area: 1 sq in, stroke: 8 in, spring load: 100 lbf}"
    ),
    (
        "with hand pump pumping, throughout 30 s: jack is retracted",
        f"{SENT_DOWN}, within 30 s: jack is extended",
        f"{SHUT_IN}, throughout 10 min: jack is extended",
        f"with selector internal leak, {SHUT_IN}, within 10 min: jack is not extended",
    ),
    SELECTOR_LINES + ("selector.down > jack.extend\nselector.up > jack.retract"),
)
