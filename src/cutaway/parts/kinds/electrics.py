"""Direct current: sources, bus, switches, fuses, loads. Every part returns to the airframe inside itself."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    NEVER,
    above,
    at_position,
    fixed,
    latch,
    most,
    no,
    over,
    port,
    product,
    under,
    within_one,
)
from cutaway.parts.laws.sizing import battery_voltage, filament_conductance, load_conductance, vessel_capacitance
from cutaway.parts.recipe import (
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
    failed,
    unless,
)

CONTACT = 100.0  # S: a closed contact or a whole fuse
SHORT = 50.0  # S: a dead short to the airframe
LIVE, DARK = 0.75, 0.4  # shares of the nominal voltage below which things stop working, and lamps stop being seen
AIRFRAME = fixed("airframe", "current")

INLET = Port("inlet", "current", "west", "in")
OUTLET = Port("outlet", "current", "east", "out")
FEED = Port("feed", "current", "west", "in")
FED_BY = Coupling("fed by", "port", "The port from which its current comes.", required=True, port="feed")
VOLTAGE = Want(
    "voltage",
    "voltage",
    "The voltage for which it is made.",
    default="12 V",
    because=f"{JUDGEMENT} The usual system of a light aircraft.",
)


def lamp_current(default: str) -> Want:
    """How much a lamp takes."""
    return Want(
        "current",
        "current",
        "What its filament takes at its voltage.",
        default=default,
        between="0.05 to 0.3 A",
        because=f"{JUDGEMENT} A bulb of about two watts.",
    )


def filament(fit: Fit, gate: Expr) -> Element:
    """A lamp's filament from its feed to the airframe."""
    conductance = filament_conductance(fit.si["current"], fit.si["voltage"])
    return Element("filament", "ROOT", ("feed", "airframe"), (conductance, 0.5), gate=gate)


def live(fit: Fit, at: str = "feed") -> Expr:
    """1 where there are volts enough for an instrument or a load to work."""
    return above(Across(at), LIVE * fit.si["voltage"])


def _battery(fit: Fit) -> Recipe:
    capacity, nominal, resistance = fit.si["capacity"], fit.si["voltage"], fit.si["resistance"]
    flat = battery_voltage(0.0, nominal)
    rise = battery_voltage(1.0, nominal) - flat
    toe, foot = 0.02 * rise, 1e-3 * capacity / rise
    slope = vessel_capacitance(capacity, rise, toe, foot)
    share = apply("div", Content("cells"), capacity)
    accepts = Table(share, (0.98, 1.0), (1.0, 0.0))
    strongest = 100.0 * capacity / 3600.0
    small = 1e-3
    # Two ways, because a full battery gives current but takes none. Both stand in series with its resistance.
    elements = (
        Element("cells", "TANK", ("plates",), (slope, toe, foot), content=capacity),
        Element(
            "giving",
            "SOURCE",
            ("plates", "positive"),
            (flat, 1.0 / resistance, 0.0, strongest, small),
            gate=unless("open cell"),
        ),
        Element(
            "taking",
            "SOURCE",
            ("positive", "plates"),
            (-flat, 1.0 / resistance, 0.0, 0.5 * capacity / 3600.0, small),
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
        Want("capacity", "charge", "The charge that it gives from full to flat."),
        Want("voltage", "voltage", "Its nominal voltage, 12 or 24."),
        Want(
            "resistance",
            "resistance",
            "Its own resistance.",
            default="0.05 ohm",
            between="0.01 to 0.15 ohm",
            because=f"{JUDGEMENT} A battery of this size in fair order.",
        ),
    ),
    states=(State("flat", "flat"),),
    readings=(
        Reading("voltage", "voltage", "voltage", "V", main=True),
        Reading("charge", "charge", "charge", "Ah"),
        Reading("current", "current", "current", "A"),
    ),
    failures=(Failure("open cell", "No current can pass through it, either way."),),
    contents=(Holds("charge", "cells", full="capacity"),),
    families=("TANK", "SOURCE"),
)


def _generator(fit: Fit) -> Recipe:
    voltage, limit, cut_in = fit.si["voltage"], fit.si["current limit"], fit.si["cut-in speed"]
    # Excited voltage rises with speed and reaches what closes the cut-out at the cut-in speed; from there on the
    # regulator holds it. A dead armature still conducts: it is the reverse current that opens the cut-out.
    closes = 0.93
    excited = apply("mul", closes / cut_in, Signal("rate of turn", of="driven by"))
    drive = product(within_one(excited), unless("no field"))
    elements = (
        Element(
            "armature",
            "SOURCE",
            ("airframe", "brush"),
            (voltage, limit / (0.03 * voltage), -3.0 * limit, limit, 0.005 * limit),
            drive=drive,
        ),
        Element("cut-out", "LIN", ("brush", "output"), (CONTACT,), gate=ModeIs("cut-out")),
    )
    cut_out = Mode(
        "cut-out",
        over(Across("brush"), closes * voltage),
        most(under(Through("cut-out"), -0.1 * limit), under(Across("brush"), 0.55 * voltage)),
    )
    nodes = (port("output", "current"), Node("brush", "current"), AIRFRAME)
    signals = (("charging", ModeIs("cut-out")), ("current", Through("cut-out")))
    return Recipe(nodes, elements, (cut_out,), signals)


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
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=("rate of turn",)),),
    states=(State("charging", "charging", "not charging"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("no field", "It is not excited: no volts, and the cut-out opens."),),
    families=("SOURCE", "LIN"),
)


def _bus(fit: Fit) -> Recipe:
    nominal = fit.si["voltage"]
    alive = latch("alive", Across("any"), LIVE * nominal, 0.7 * nominal)
    short = Element("short", "LIN", ("any", "airframe"), (SHORT,), gate=failed("short"))
    signals = (("alive", ModeIs("alive")), ("voltage", Across("any")))
    return Recipe((port("any", "current"), AIRFRAME), (short,), (alive,), signals)


BUS = Kind(
    "bus",
    "Joins supplies and loads. It is alive above three quarters of its voltage.",
    ports=(Port("any", "current", "west", "both"),),
    build=_bus,
    wants=(VOLTAGE,),
    states=(State("alive", "alive", "dead"),),
    readings=(Reading("voltage", "voltage", "voltage", "V", main=True),),
    failures=(Failure("short", "It touches the airframe."),),
    families=("LIN",),
)


def _switch(fit: Fit) -> Recipe:
    gate = product(at_position(1), unless("open"))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=gate)
    signals = (("current", Through("contact")),)
    return Recipe((port("inlet", "current"), port("outlet", "current")), (contact,), signals=signals)


SWITCH = Kind(
    "switch",
    "Opens or closes a circuit.",
    ports=(INLET, OUTLET),
    build=_switch,
    controls=(Control("", ("off", "on")),),
    failures=(Failure("open", "It never makes contact."),),
    families=("LIN",),
)


def _fuse(fit: Fit) -> Recipe:
    # The wire is warmed as the square of its current and cools through its ends; it melts at one and a half times its
    # rating held for long. One degree here is a tenth of its rise at the rated current; a hundredfold heating is the
    # most that is counted, which melts it in about a tenth of a second. Only store / conductance, 5 s, matters.
    load = apply("div", Through("wire"), fit.si["rating"])
    warmth = apply("mul", 10.0, apply("min", product(load, load), 100.0))
    nodes = (
        port("inlet", "current"),
        port("outlet", "current"),
        fixed("warmth", "heat", warmth),
        Node("melting", "heat", start=0.0, store=1_000.0),
    )
    elements = (
        Element("wire", "LIN", ("inlet", "outlet"), (CONTACT,), gate=no(ModeIs("blown"))),
        Element("warming", "LIN", ("warmth", "melting"), (200.0,)),
    )
    blown = Mode("blown", over(Across("melting"), 10.0 * 1.5**2), NEVER)
    return Recipe(nodes, elements, (blown,), (("blown", ModeIs("blown")), ("current", Through("wire"))))


FUSE = Kind(
    "fuse",
    "Melts when it has carried too much for too long: more than one and a half times its rating, the sooner the more. "
    "It stays blown.",
    ports=(INLET, OUTLET),
    build=_fuse,
    wants=(Want("rating", "current", "What it carries for ever."),),
    states=(State("blown", "blown", "whole"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    families=("LIN",),
)


def _load(fit: Fit) -> Recipe:
    conductance = load_conductance(fit.si["current"], fit.si["voltage"])
    elements = (
        Element("load", "LIN", ("feed", "airframe"), (conductance,), gate=unless("open")),
        Element("short", "LIN", ("feed", "airframe"), (SHORT,), gate=failed("short")),
    )
    signals = (
        ("working", product(live(fit), unless("open"))),
        ("current", apply("add", Through("load"), Through("short"))),
    )
    return Recipe((port("feed", "current"), AIRFRAME), elements, signals=signals)


ELECTRICAL_LOAD = Kind(
    "electrical load",
    "Anything that takes current and has no instrument: a landing light, a heater, a wireless set. It works above "
    "three quarters of its voltage.",
    ports=(FEED,),
    build=_load,
    wants=(Want("current", "current", "What it takes at its voltage."), VOLTAGE),
    couplings=(FED_BY,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(
        Failure("open", "It takes no current and does nothing."),
        Failure("short", "Its feed touches the airframe."),
    ),
    families=("LIN",),
)


def _charging_lamp(fit: Fit) -> Recipe:
    gate = product(no(Signal("charging", of="watches")), unless("filament"))
    lit = product(gate, above(Across("feed"), DARK * fit.si["voltage"]))
    return Recipe((port("feed", "current"), AIRFRAME), (filament(fit, gate),), signals=(("lit", lit),))


CHARGING_LAMP = Kind(
    "charging lamp",
    "Lit while there is current and the generator is not charging.",
    ports=(FEED,),
    build=_charging_lamp,
    wants=(lamp_current("0.15 A"), VOLTAGE),
    couplings=(
        Coupling("watches", "signals", "The generator that it watches.", required=True, needs=("charging",)),
        FED_BY,
    ),
    states=(State("lit", "lit", "out"),),
    failures=(Failure("filament", "Its filament is broken: it stays dark."),),
    families=("ROOT",),
)


def _voltmeter(fit: Fit) -> Recipe:
    shown = product(apply("max", 0.0, Across("senses")), unless("open"))
    return Recipe(signals=(("voltage", shown),))


VOLTMETER = Kind(
    "voltmeter",
    "Shows the voltage of the port that it senses. The little current that it takes is left out.",
    ports=(),
    build=_voltmeter,
    couplings=(Coupling("senses", "node", "The port whose voltage it shows.", required=True),),
    readings=(Reading("voltage", "voltage", "voltage", "V", main=True),),
    failures=(Failure("open", "Its lead is off: it shows nothing."),),
)

KINDS = (
    BATTERY,
    GENERATOR,
    BUS,
    SWITCH,
    FUSE,
    ELECTRICAL_LOAD,
    CHARGING_LAMP,
    VOLTMETER,
)
