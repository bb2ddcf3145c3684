"""Cooling by liquid: the circuit, its thermostat and radiator shutter, and the thermometer."""

from cutaway.parts.kind import Coupling, Failure, Fit, Kind, Order, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, above, drops_to, fixed, latch, port, product, total
from cutaway.parts.kinds.electrics import (
    AIRFRAME,
    CONTACT,
    FED_BY_OR_LINE,
    FEED,
    INLET,
    MADE_FOR,
    OUTLET,
    VOLTAGE_24,
    live,
)
from cutaway.parts.kinds.mixture import OUTSIDE_TEMPERATURE, ZERO_CELSIUS
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Input,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Table,
    Through,
    apply,
    failed,
    unless,
)

SPECIFIC_HEAT = 3_700.0  # J/(kg·K): water with some glycol
STANDARD = 288.15  # K
AT_REST = 0.3  # of the cooling at speed


def _circuit(fit: Fit) -> Recipe:
    si = fit.si
    heat = Signal("heat", of="engine")
    full = apply("mul", si["heat share"], Signal("heat at rating", of="engine"))
    opened, shut = (max(1.0, si[name] - STANDARD) for name in ("open temperature", "shut temperature"))
    position = Signal("position", of="shutter", otherwise=Const(1.0))
    per_degree = total(Const(1.0 / shut), apply("mul", 1.0 / opened - 1.0 / shut, position))
    air = Table(Input("condition", "airspeed"), (0.0, si["at speed"]), (AT_REST, 1.0))
    cooling = product(full, per_degree, air, drops_to(0.05, "leaking"))
    nodes = (
        Node("coolant", "heat", start=STANDARD - ZERO_CELSIUS, store=SPECIFIC_HEAT * si["mass"]),
        fixed("outside", "heat", apply("sub", OUTSIDE_TEMPERATURE, ZERO_CELSIUS)),
        fixed("cylinders", "heat", Const(2_000.0)),
    )
    elements = (
        # One watt a degree, times what the gate says.
        Element("radiator", "LIN", ("coolant", "outside"), (1.0,), gate=apply("max", 0.0, cooling)),
        # One watt, times what the engine gives; hot enough that the coolant's own temperature does not matter.
        Element(
            "engine", "DRAW", ("cylinders", "coolant"), (1.0, 0.0, 100.0), drive=apply("mul", si["heat share"], heat)
        ),
    )
    temperature = total(Const(ZERO_CELSIUS), Across("coolant"))
    signals = (
        ("temperature", temperature),
        ("boiling", above(temperature, si["boils at"])),
    )
    return Recipe(nodes, elements, signals=signals)


COOLANT_CIRCUIT = Kind(
    "coolant circuit",
    "The liquid that cools an engine, its pump and its radiator, as one mass of one temperature. The radiator's two "
    "temperatures fix how much heat it passes, shutter open and closed; standing still it passes three tenths of that.",
    ports=(),
    build=_circuit,
    wants=(
        Want("mass", "mass", "The liquid, and of the metal around it what warms with it, as liquid.",
             default="160 lb", between="80 to 320 lb", because=f"{JUDGEMENT} About twelve gallons and the jackets."),
        Want("heat share", "fraction", "Heat that goes to the liquid as a share of the indicated power.",
             default="40 %", between="30 to 50 %", because=JUDGEMENT, below="150 %"),
        Want("open temperature", "temperature", "What it comes to at the rating, shutter open, in air of 15 °C.",
             default="85 °C", between="70 to 100 °C", because=JUDGEMENT),
        Want("shut temperature", "temperature", "What it would come to so with the shutter closed.",
             default="125 °C", between="110 to 150 °C", because=JUDGEMENT),
        Want("at speed", "speed", "Airspeed at which that is so; above it the radiator does no better.",
             default="150 kt", between="100 to 220 kt", because=JUDGEMENT),
        Want("boils at", "temperature", "Temperature at which it boils under its relief valve.",
             default="125 °C", between="105 to 140 °C", because=f"{JUDGEMENT} Water with glycol, a little pressure."),
    ),
    orders=(Order("open temperature", "shut temperature", "An open shutter cools better than a closed one."),),
    couplings=(
        Coupling("engine", "signals", "The engine that it cools.", required=True, needs=("heat", "heat at rating")),
        Coupling("shutter", "signals", "The radiator shutter; without it the radiator is always open.",
                 needs=("position",)),
    ),
    states=(State("boiling", "boiling"),),
    readings=(Reading("temperature", "temperature", "temperature", "°C", main=True),),
    failures=(Failure("leaking", "Most of the liquid is lost: a twentieth of the heat still gets away."),),
    families=("LIN", "DRAW"),
    caution="A hot cooling circuit is under pressure: opening it scalds.",
    example=powerplant(
        "coolant reads 15 °C ± 1 °C",
        "throttle gate, airspeed 200 kt | 10 min | coolant reads 65 to 90 °C",
        "throttle gate, airspeed 200 kt, coolant leaking | 10 min | coolant is boiling",
        more=("coolant: {kind: coolant circuit, engine: engine}",),
    ),
)  # fmt: skip


def _thermostat(fit: Fit) -> Recipe:
    made = latch("made", Signal("temperature", of="senses"), fit.si["makes at"], fit.si["breaks at"])
    gate = product(ModeIs("made"), unless("stuck open"))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=gate)
    nodes = (port("inlet", "current"), port("outlet", "current"))
    return Recipe(nodes, (contact,), (made,), (("made", gate), ("current", Through("contact"))))


THERMOSTAT = Kind(
    "thermostat",
    "A contact that closes when what it senses is hot and opens when that has cooled.",
    ports=(INLET, OUTLET),
    build=_thermostat,
    wants=(
        Want("makes at", "temperature", "Rising temperature at which its contact closes.", default="110 °C",
             between="104 to 120 °C", because=JUDGEMENT),
        Want("breaks at", "temperature", "Falling temperature at which it opens again.", default="100 °C",
             between="90 to 103 °C", because=f"{JUDGEMENT} A difference of about ten degrees."),
    ),
    orders=(Order("breaks at", "makes at", "It closes when hot and opens when that has cooled."),),
    couplings=(
        Coupling("senses", "signals", "What it senses: a coolant circuit.", required=True, needs=("temperature",)),
    ),
    states=(State("made", "made", "broken"),),
    failures=(Failure("stuck open", "Its contact never closes."),),
    families=("LIN",),
    example=powerplant(
        "thermostat is broken",
        "throttle gate | 10 min | thermostat is made and shutter lamp is lit",
        "throttle gate, thermostat stuck open | 10 min | shutter lamp is out",
        more=(
            "coolant: {kind: coolant circuit, engine: engine}",
            "thermostat: {kind: thermostat, senses: coolant}",
            "shutter lamp: {kind: filament lamp}",
        ),
        lines='battery > thermostat > shutter lamp',
    ),
)  # fmt: skip


def _shutter(fit: Fit) -> Recipe:
    position = product(Signal("position", of="moved by"), unless("stuck"))
    return Recipe(signals=(("position", position), ("open", above(position, 0.5))))


RADIATOR_SHUTTER = Kind(
    "radiator shutter",
    "Flaps behind a radiator, opened by a ram as far as that is out.",
    ports=(),
    build=_shutter,
    couplings=(Coupling("moved by", "signals", "The ram that opens it.", required=True, needs=("position",)),),
    states=(State("open", "open", "closed"),),
    failures=(Failure("stuck", "It stays closed, whatever the ram does."),),
    example=powerplant(
        "shutter is closed",
        "with bottle at 200 lb/sq in, after air cock to on, within 5 s: shutter is open",
        "with bottle at 200 lb/sq in, with shutter stuck, after air cock to on, within 5 s: shutter is closed",
        more=(
            "coolant: {kind: coolant circuit, engine: engine, shutter: shutter}",
            "shutter: {kind: radiator shutter, moved by: shutter ram}",
            "shutter ram: {kind: ram, area: 2 sq in, stroke: 3 in}",
            "air cock: {kind: air cock}",
            "bottle: {kind: air bottle, volume: 0.2 cu ft}",
        ),
        lines="bottle > air cock > shutter ram",
    ),
)


def _thermometer(fit: Fit) -> Recipe:
    shown = apply("if", failed("open"), fit.si["full scale"], Signal("temperature", of="reads"))
    coil = Element("coil", "LIN", ("feed", "airframe"), (0.1 / fit.si["voltage"],))
    signals = (("shown", apply("min", shown, fit.si["full scale"])), ("working", live(fit)))
    return Recipe((port("feed", "current"), AIRFRAME), (coil,), signals=signals)


THERMOMETER = Kind(
    "thermometer",
    "Shows a temperature by the resistance of a bulb. It needs current.",
    indicates=True,
    ports=(FEED,),
    build=_thermometer,
    wants=(
        Want("full scale", "temperature", "The end of its scale, where its needle stands when the bulb's lead is off.",
             default="150 °C", because=f"{JUDGEMENT} The usual dial of a coolant thermometer."),
        VOLTAGE_24,
    ),
    couplings=(
        Coupling("reads", "signals", "What it shows the temperature of.", required=True, needs=("temperature",)),
        FED_BY_OR_LINE,
    ),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("temperature", "temperature", "shown", "°C", main=True, alive="working"),),
    failures=(Failure("open", "The lead of its bulb is off: it stands at the end of its scale."),),
    families=("LIN",),
    example=powerplant(
        "with thermometer switch on, within 1 s: thermometer reads 15 °C ± 1 °C",
        "thermometer is dead",
        "with thermometer switch on, with thermometer open, within 1 s: thermometer reads 150 °C",
        more=(
            "coolant: {kind: coolant circuit, engine: engine}",
            "thermometer switch: {kind: switch}",
            "thermometer: {kind: thermometer, reads: coolant}",
        ),
        lines='battery > thermometer switch > thermometer',
    ),
)  # fmt: skip

KINDS = (COOLANT_CIRCUIT, THERMOSTAT, RADIATOR_SHUTTER, THERMOMETER)
