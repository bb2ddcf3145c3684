"""Petrol on its way to the engine: the pumps. Pressures are gauge."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    TURNS,
    port,
    product,
)
from cutaway.parts.kinds.fuel import INLET, OUTLET, POUND
from cutaway.parts.kinds.liquids import (
    PETROL,
    hand_pump,
    one_way,
    pump,
)
from cutaway.parts.laws.sizing import flow_conductance
from cutaway.parts.recipe import (
    Element,
    Recipe,
    Signal,
    unless,
)


def _engine_pump(fit: Fit) -> Recipe:
    delivery, pressure = fit.si["delivery"], fit.si["pressure"]
    band = 0.1 * pressure
    ends = ("inlet", "outlet")
    speed = Signal("speed", of="driven by")
    elements = (
        pump(PETROL, "vanes", ends, delivery, 3.0 * pressure, 0.3, product(speed, unless("seized"))),
        # A balanced valve, which heeds the delivery pressure alone. Its band is laid so that it passes the whole
        # delivery just at the pressure that the book gives.
        Element(
            "relief",
            "MAINTAIN",
            ("outlet", "inlet"),
            (flow_conductance(2.0 * delivery, pressure), PETROL.core, pressure - 0.5 * band, band),
        ),
        one_way(PETROL, "by-pass", ends, fit.si["by-pass"], POUND),
        # Past the vanes, both ways: pressure in the pipes falls by itself within a minute of stopping.
        Element("slip", "LIN", ends, (0.02 * delivery / pressure,)),
    )
    return Recipe((port("inlet", "petrol"), port("outlet", "petrol")), elements)


ENGINE_PUMP = Kind(
    "engine-driven fuel pump",
    "A vane pump with its own balanced relief valve. A by-pass valve lets petrol forwards past vanes that stand "
    "still, so that hand pumping and gravity can still feed the engine. That is common practice; a pump without one "
    "has a by-pass of 0 gal/h.",
    ports=(INLET, OUTLET),
    build=_engine_pump,
    wants=(
        Want(
            "delivery",
            "volume flow",
            "What it moves at the engine's rated speed.",
            default="24 gal/h",
            between="15 to 80 gal/h",
            because=f"{JUDGEMENT} Twice what the engine takes at full power.",
            usual="10 to 500 gal/h",
        ),
        Want(
            "pressure",
            "pressure",
            "What its relief valve keeps when nothing is drawn at rated speed.",
            default="4 lb/sq in",
            between="1.7 to 7 lb/sq in",
            because=f"{JUDGEMENT} Usual for a float carburettor.",
            usual="1 to 25 lb/sq in",
        ),
        Want(
            "by-pass",
            "volume flow",
            "What passes forwards at a drop of 1 lb/sq in while the vanes stand still.",
            default="60 gal/h",
            between="0 to 120 gal/h",
            because=f"{JUDGEMENT} Most such pumps have a by-pass valve; a handbook seldom says.",
            least="nought",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=TURNS),),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(Failure("seized", "Its drive has sheared: the vanes stand still."),),
    families=("PDPUMP", "MAINTAIN", "ONEWAY", "LIN"),
    example=Example(
        "mains: {kind: external supply socket}\n"
        "drive: {kind: electric motor, fed by: mains.outlet}\n"
        "tank: {kind: tank, capacity: 20 gal}\n"
        "pump: {kind: engine-driven fuel pump, driven by: drive}\n"
        "cock: {kind: cock}\n"
        "gauge: {kind: fuel pressure gauge, senses: pump.outlet}",
        (
            "gauge reads below 1 lb/sq in",
            "after mains to connected, within 10 s: gauge reads 4 lb/sq in ± 0.4",
            "with pump seized, after mains to connected, at 10 s: gauge reads below 1 lb/sq in",
        ),
        "tank > pump > cock",
    ),
)

HAND_FUEL_PUMP = Kind(
    "hand fuel pump",
    "A pump worked by a lever. At rest, petrol can pass forwards through its valves.",
    ports=(INLET, OUTLET),
    build=lambda fit: hand_pump(PETROL, fit.si["stroke"], fit.si["rate"], fit.si["pressure"]),
    controls=(Control("", ("idle", "pumping")),),
    wants=(
        Want(
            "stroke",
            "volume",
            "What one double stroke moves.",
            default="50 cc",
            between="15 to 80 cc",
            because=JUDGEMENT,
        ),
        Want(
            "rate",
            "rate",
            "Double strokes a minute while somebody is pumping.",
            default="40 strokes/min",
            between="20 to 60 strokes/min",
            because=f"{JUDGEMENT} What can be kept up for a few minutes.",
        ),
        Want(
            "pressure",
            "pressure",
            "The pressure against which the arm gives up.",
            default="6.5 lb/sq in",
            between="4 to 12 lb/sq in",
            because=JUDGEMENT,
        ),
    ),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(Failure("leaking washer", "Three tenths of each stroke are delivered."),),
    families=("PDPUMP", "ONEWAY"),
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\n"
        "pump: {kind: hand fuel pump}\n"
        "cock: {kind: cock}\n"
        "gauge: {kind: fuel pressure gauge, senses: pump.outlet}\n"
        "spout: {kind: jettison valve, flow: 30 gal/h}",
        (
            "after pump to pumping, within 20 s: gauge reads above 5 lb/sq in",
            "after pump to pumping then spout to open, at 20 s: spout reads above 20 gal/h",
            "with pump leaking washer, after pump to pumping then spout to open, at 20 s: gauge reads below 2 lb/sq in",
        ),
        "tank > pump > cock\npump.outlet > spout",
    ),
)

KINDS = (ENGINE_PUMP, HAND_FUEL_PUMP)
