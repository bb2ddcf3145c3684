"""Where current comes from: the battery, the generator with its cut-out, and the lamp that watches it."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    TURNS,
    above,
    fixed,
    latch,
    least,
    most,
    no,
    over,
    port,
    product,
    under,
    within_one,
)
from cutaway.parts.kinds.electrics import (
    AIRFRAME,
    DARK,
    FED_BY,
    FEED,
    MADE_FOR,
    SUPPLIES,
    VOLTAGE,
    filament,
    lamp_current,
)
from cutaway.parts.laws.sizing import battery_voltage
from cutaway.parts.recipe import (
    ONE,
    Across,
    Content,
    Element,
    Expr,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Table,
    Through,
    apply,
    unless,
)

CLOSES = 0.93  # of its voltage: what a generator gives at its cut-in speed
BUILDS_UP = 0.05  # s, in which the field follows speed and regulator by two thirds; engineering judgement

Elements = tuple[Element, ...]


def _battery(fit: Fit) -> Recipe:
    capacity, nominal, resistance = fit.si["capacity"], fit.si["voltage"], fit.si["resistance"]
    flat = battery_voltage(0.0, nominal)
    rise = battery_voltage(1.0, nominal) - flat
    share = apply("div", Content("cells"), capacity)
    accepts = Table(share, (0.98, 1.0), (1.0, 0.0))
    strongest, taken = 100.0 * capacity / 3600.0, 0.5 * capacity / 3600.0  # A
    small = 1e-3
    # The plates stand at 0 V when flat, so that what they hold is their charge; the two ways add the voltage of a flat
    # battery. There are two because a full battery gives current but takes none. Giving starves when nothing is left.
    elements = (
        Element("cells", "STORE", ("plates",), (capacity / rise,), content=capacity),
        Element(
            "giving",
            "PDPUMP",
            ("plates", "positive"),
            (flat, 1.0 / resistance, strongest, 0.0, 0.03 * rise, small),
            gate=unless("open cell"),
        ),
        Element(
            "taking",
            "PDPUMP",
            ("positive", "plates"),
            (-flat, 1.0 / resistance, taken, -2.0, 1.0, small),
            gate=product(accepts, unless("open cell")),
        ),
    )
    left = apply("sub", 0.0, Content("cells"))
    modes = (latch("flat", left, -0.05 * capacity, -0.1 * capacity),)
    signals = (
        ("charge", apply("max", 0.0, Content("cells"))),
        ("voltage", Across("positive")),
        ("current", apply("sub", Through("giving", 0), Through("taking", 0))),
        ("flat", ModeIs("flat")),
    )
    return Recipe((port("positive", "current"), Node("plates", "current")), elements, modes, signals)


BATTERY = Kind(
    "battery",
    "A lead battery. Its voltage falls as it is used; it takes charge while a higher voltage is put on it, until full.",
    ports=(Port("positive", "current", "east", "both"),),
    build=_battery,
    wants=(
        Want("capacity", "charge", "The charge that it gives from full to flat.", usual="2 to 400 Ah"),
        Want("voltage", "voltage", "Its nominal voltage, 12 or 24.", usual="6 to 28 V"),
        Want(
            "resistance",
            "resistance",
            "Its own resistance.",
            default="0.05 ohm",
            between="0.01 to 0.15 ohm",
            because=f"{JUDGEMENT} A battery of this size in fair order.",
        ),
    ),
    levels=(Level("gives", "voltage", "positive", "gives about", per=1.15),),
    states=(State("flat", "flat"),),
    readings=(
        Reading("voltage", "voltage", "voltage", "V", main=True),
        Reading("charge", "charge", "charge", "Ah"),
        Reading("current", "current", "current", "A"),
    ),
    failures=(Failure("open cell", "No current can pass through it, either way."),),
    contents=(Holds("charge", "cells", full="capacity"),),
    families=("STORE", "PDPUMP"),
    caution="A battery gives off gas that explodes and holds acid: no flame or spark near it, and no tool across it.",
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "main switch: {kind: switch}\n"
        "lights: {kind: electrical load, current: 10 A, voltage: 24 V, fed by: main switch.outlet}",
        (
            "battery reads above 25 V",
            "after main switch to on, within 2 h 15 min: battery is flat",
            "after main switch to on, at 1 h 45 min: battery is not flat",
            "with battery open cell, after main switch to on, at 1 s: lights are dead",
        ),
        "battery > main switch",
    ),
)


def windings(excited: Expr, voltage: float, limit: float, gate: Expr = ONE) -> tuple[tuple[Node, ...], Elements]:
    """What makes current at `excited` volts, between `armature` and `output`: nodes and elements. `giving` less
    `taking` is the current that it gives; whatever the armature stands at, its windings are a wire both ways."""
    slope, small = limit / (0.03 * voltage), 0.005 * limit
    # A field takes a moment to build up. Without that the armature would follow the speed one step late, jump by what
    # the step before was long, and no step would ever be short enough.
    stiff = 50.0 * slope
    nodes = (fixed("excited", "current", excited), Node("armature", "current", store=BUILDS_UP * stiff))
    elements = (
        Element("field", "LIN", ("excited", "armature"), (stiff,)),
        Element("giving", "PDPUMP", ("armature", "output"), (0.0, slope, limit, -2.0, 1.0, small), gate=gate),
        Element("taking", "PDPUMP", ("output", "armature"), (0.0, slope, 3.0 * limit, -2.0, 1.0, small), gate=gate),
    )
    return nodes, elements


def _generator(fit: Fit) -> Recipe:
    voltage, limit, cut_in = fit.si["voltage"], fit.si["current limit"], fit.si["cut-in speed"]
    # The armature's voltage rises with speed, reaches what closes the cut-out at the cut-in speed, and is held by the
    # regulator from there on. A dead armature still conducts: it is the reverse current that opens the cut-out.
    turning = apply("mul", CLOSES / cut_in, Signal("rate of turn", of="driven by"))
    excited = apply("mul", voltage, product(within_one(turning), unless("no field")))
    armature = Across("armature")
    nodes, elements = windings(excited, voltage, limit, ModeIs("cut-out"))
    reverse = over(Through("taking"), 0.1 * limit)
    # Not below the bus, or it would chatter beside a second generator that runs faster.
    ahead = least(over(armature, CLOSES * voltage), over(armature, Across("output")))
    cut_out = Mode("cut-out", ahead, most(reverse, under(armature, 0.55 * voltage)))
    current = apply("sub", Through("giving"), Through("taking"))
    signals = (("charging", ModeIs("cut-out")), ("current", current))
    return Recipe((port("output", "current"), *nodes), elements, (cut_out,), signals)


GENERATOR = Kind(
    "generator",
    "A regulated generator with its cut-out, which closes on volts and opens on reverse current (a tenth of the "
    "current limit). It is charging while the cut-out is closed.",
    ports=(Port("output", "current", "east", "out"),),
    build=_generator,
    wants=(
        Want(
            "voltage",
            "voltage",
            "What its regulator holds.",
            default="14 V",
            because=f"{JUDGEMENT} For a 12-volt battery.",
            usual=SUPPLIES,
        ),
        Want(
            "current limit",
            "current",
            "The most it gives.",
            default="20 A",
            between="8 to 60 A",
            because=JUDGEMENT,
        ),
        Want(
            "cut-in speed",
            "angular speed",
            "Speed of the engine at which its cut-out closes.",
            default="900 rpm",
            between="600 to 1400 rpm",
            because=f"{JUDGEMENT} A little above idling.",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=TURNS),),
    levels=(Level("gives", "voltage", "output", "gives no more than"),),
    states=(State("charging", "charging", "not charging"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("no field", "It is not excited: no volts, and the cut-out opens."),),
    families=("LIN", "PDPUMP"),
    example=Example(
        "mains: {kind: external supply socket}\n"
        "drive: {kind: electric motor, speed: 2000 rpm, fed by: mains.outlet}\n"
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "generator: {kind: generator, voltage: 28 V, driven by: drive}\n"
        "light: {kind: electrical load, current: 4 A, voltage: 24 V, fed by: battery.positive}",
        (
            "generator is not charging",
            "after mains to connected, within 10 s: generator is charging",
            "with generator no field, after mains to connected, at 10 s: generator is not charging",
            "with generator no field, after mains to connected, at 10 s: battery current is below 5 A",
        ),
        "generator > battery.positive",
    ),
)


def _charging_lamp(fit: Fit) -> Recipe:
    gate = product(no(Signal("charging", of="watches")), unless("filament"))
    lit = product(gate, above(Across("feed"), DARK * fit.si["voltage"]))
    return Recipe((port("feed", "current"), AIRFRAME), (filament(fit, gate),), signals=(("lit", lit),))


CHARGING_LAMP = Kind(
    "charging lamp",
    "Lit while there is current and the generator is not charging.",
    indicates=True,
    ports=(FEED,),
    build=_charging_lamp,
    wants=(lamp_current("0.15 A"), VOLTAGE),
    couplings=(
        Coupling("watches", "signals", "The generator that it watches.", required=True, needs=("charging",)),
        FED_BY,
    ),
    levels=(MADE_FOR,),
    states=(State("lit", "lit", "out"),),
    failures=(Failure("filament", "Its filament is broken: it stays dark."),),
    families=("ROOT",),
    example=Example(
        "mains: {kind: external supply socket}\n"
        "drive: {kind: electric motor, speed: 2000 rpm, fed by: mains.outlet}\n"
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "generator: {kind: generator, voltage: 28 V, driven by: drive}\n"
        "warning lamp: {kind: charging lamp, watches: generator, fed by: battery.positive, voltage: 24 V}",
        (
            "warning lamp is lit",
            "after mains to connected, within 10 s: warning lamp is out",
            "with warning lamp filament, within 1 s: warning lamp is out",
        ),
        "generator > battery.positive",
    ),
)

KINDS = (BATTERY, GENERATOR, CHARGING_LAMP)
