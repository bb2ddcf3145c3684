"""Worked examples of the undercarriage kinds: a leg on its jack, a lever and a hand pump."""

from cutaway.parts.kind import Example
from cutaway.parts.kinds.oil_examples import RESERVOIR_AND_PUMP, SELECTOR_LINES, SENT_DOWN, WITH_SELECTOR

WITH_LEVER = WITH_SELECTOR.replace("selector:", "lever:")
LEVER_LINES = SELECTOR_LINES.replace("selector", "lever")
LEG_ON_ITS_JACK = WITH_LEVER + (
    "leg jack: {kind: jack, area: 1 sq in, stroke: 8 in, spring load: -80 lbf}\nleg: {kind: leg, moved by: leg jack}"
)
LEG_LINES = LEVER_LINES + ("lever.down > leg jack.extend\nlever.up > leg jack.retract")

LOWERED = "with lever at down, after hand pump to pumping"
RAISED = f"{LOWERED} then wait 30 s then lever to up"
LEFT_DOWN = f"{LOWERED} then wait 30 s then hand pump to idle then lever to up"

LEG = Example(
    LEG_ON_ITS_JACK,
    (
        "leg is locked up",
        "with lever at down, throughout 10 min: leg is locked up",
        f"{LOWERED}, within 30 s: leg is locked down",
        f"{LEFT_DOWN}, throughout 10 min: leg is locked down",
        f"{RAISED}, within 30 s: leg is locked up",
        f"with leg down lock stuck, {LOWERED}, within 30 s: leg jack is extended and leg is unlocked",
        f"with leg up lock stuck, {LOWERED}, throughout 1 min: leg is locked up",
    ),
    LEG_LINES,
)

DOWN_LOCK_SWITCH = Example(
    LEG_ON_ITS_JACK
    + (
        "\n"
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "lock switch: {kind: down-lock switch, of: leg}\n"
        "one lamp: {kind: filament lamp}\n"
        "other lamp: {kind: filament lamp}"
    ),
    (
        "one lamp is out and other lamp is lit",
        f"{LOWERED}, within 30 s: one lamp is lit and other lamp is out",
        f"with lock switch stuck, {LOWERED}, within 30 s: leg is locked down and one lamp is out",
    ),
    LEG_LINES + ("\nbattery > lock switch.inlet\nlock switch.locked > one lamp\nlock switch.unlocked > other lamp"),
)

UP_LOCK_SWITCH = Example(
    LEG_ON_ITS_JACK
    + (
        "\n"
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "lock switch: {kind: up-lock switch, of: leg}\n"
        "one lamp: {kind: filament lamp}\n"
        "other lamp: {kind: filament lamp}"
    ),
    (
        "one lamp is lit and other lamp is out",
        f"{LOWERED}, within 30 s: one lamp is out and other lamp is lit",
        f"with lock switch stuck, {LOWERED}, within 30 s: leg is locked down and one lamp is lit",
    ),
    LEG_LINES + ("\nbattery > lock switch.inlet\nlock switch.locked > one lamp\nlock switch.unlocked > other lamp"),
)

MICROSWITCH = Example(
    (
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "throttle: {kind: throttle}\n"
        "throttle switch: {kind: microswitch, moved by: throttle, makes below: 25 %}\n"
        "lamp: {kind: filament lamp}"
    ),
    (
        "lamp is lit and throttle switch is made",
        "with throttle at 20 %, within 1 s: lamp is lit",
        "with throttle at 30 %, within 1 s: lamp is out",
        "with throttle switch stuck open, within 1 s: lamp is out",
        "with throttle switch stuck closed, with throttle at 60 %, within 1 s: lamp is lit",
    ),
    "battery > throttle switch > lamp",
)

SAFETY_BOLT = Example(
    RESERVOIR_AND_PUMP
    + (
        "relief valve: {kind: oil relief valve, set at: 600 lb/sq in}\n"
        "bolt: {kind: safety bolt}\n"
        "lever: {kind: two-position selector, rules: [{to: down, only when: bolt is held aside}]}\n"
        "jack: {kind: jack, area: 1 sq in, stroke: 8 in}"
    ),
    (
        "lever cannot be moved to down",
        "with bolt at held aside: lever can be moved to down",
        "with bolt at held aside, after lever to down then hand pump to pumping, within 30 s: jack is extended",
        "after bolt to held aside while lever to down then hand pump to pumping, within 30 s: jack is extended",
        "after bolt to held aside while lever to down, at 5 s: bolt is locked",
        "after lever to down then hand pump to pumping, throughout 30 s: jack is retracted",
    ),
    LEVER_LINES + ("lever.down > jack.extend\nlever.up > jack.retract"),
)

MECHANICAL_INDICATOR = Example(
    LEG_ON_ITS_JACK + ("\nred line: {kind: mechanical indicator, shows: leg}"),
    (
        "red line reads 0 %",
        f"{LOWERED}, within 30 s: red line reads above 99 %",
        "with red line broken, within 1 s: red line is dead",
    ),
    LEG_LINES,
)

DOORS = Example(
    WITH_SELECTOR + ("door jack: {kind: jack, area: 1 sq in, stroke: 8 in}\ndoors: {kind: doors, moved by: door jack}"),
    (
        "doors are closed",
        f"{SENT_DOWN}, within 30 s: doors are open and doors read 90 deg ± 1",
        f"{SENT_DOWN}, at 3 s: doors are not open and doors are not closed",
        f"with door jack jammed, {SENT_DOWN}, throughout 30 s: doors are closed",
    ),
    SELECTOR_LINES + ("selector.down > door jack.extend\nselector.up > door jack.retract"),
)
