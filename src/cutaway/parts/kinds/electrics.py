"""Direct current in use: bus, switches, fuses, loads. Every part returns to the airframe inside itself."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    NEVER,
    above,
    at_position,
    fixed,
    latch,
    no,
    over,
    port,
    product,
)
from cutaway.parts.laws.sizing import filament_conductance, load_conductance
from cutaway.parts.recipe import (
    Across,
    Element,
    Expr,
    Mode,
    ModeIs,
    Node,
    Recipe,
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
# From small cells to ship-sized supplies, and the 115 volts of instruments: common practice, no source.
SUPPLIES = "6 to 250 V"
COILS = "2 to 200 V"  # where one pulls in or drops out on such a supply
VOLTAGE = Want(
    "voltage",
    "voltage",
    "The voltage for which it is made.",
    default="12 V",
    because=f"{JUDGEMENT} The usual system of a light aircraft.",
    usual=SUPPLIES,
)
VOLTAGE_24 = Want(
    "voltage",
    "voltage",
    "The voltage for which it is made.",
    default="24 V",
    because=f"{JUDGEMENT} The usual system of a large aircraft.",
    usual=SUPPLIES,
)


def made_for(at: str) -> Level:
    """That a part wants about the voltage for which it is made."""
    return Level("needs", "voltage", at, "is made for", "it may not work as it should", per=LIVE)


MADE_FOR = made_for("feed")


def maybe_fed_by(port: str) -> Coupling:
    """Where its current comes from, unless lines say so."""
    return Coupling("fed by", "port", "The port from which its current comes, where no line brings it.", port=port)


FED_BY_OR_LINE = maybe_fed_by("feed")


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
    levels=(made_for("any"),),
    states=(State("alive", "alive", "dead"),),
    readings=(Reading("voltage", "voltage", "voltage", "V", main=True),),
    failures=(Failure("short", "It touches the airframe."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "main switch: {kind: switch}\n"
        "bus: {kind: bus, voltage: 24 V}",
        (
            "bus is dead",
            "with main switch on, within 1 s: bus is alive",
            "with main switch on, with bus short, within 1 s: bus is dead",
        ),
        "battery > main switch > bus",
    ),
)


def _switch(fit: Fit) -> Recipe:
    gate = product(at_position(1), unless("open"))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=gate)
    signals = (("current", Through("contact")), ("position", CONTROL))
    return Recipe((port("inlet", "current"), port("outlet", "current")), (contact,), signals=signals)


SWITCH = Kind(
    "switch",
    "Opens or closes a circuit.",
    ports=(INLET, OUTLET),
    build=_switch,
    controls=(Control("", ("off", "on")),),
    failures=(Failure("open", "It never makes contact."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "light switch: {kind: switch}\n"
        "lamp: {kind: filament lamp}",
        (
            "lamp is out",
            "after light switch to on, within 1 s: lamp is lit",
            "with light switch open, after light switch to on, at 1 s: lamp is out",
        ),
        "battery > light switch > lamp",
    ),
)


def heating(wire: str, rating: float) -> tuple[tuple[Node, Node], Element]:
    """How a wire is warmed by its current and cools through its ends.

    One degree here is a tenth of its rise at the rated current; a hundredfold heating is the most that is counted,
    which takes it to where it melts in about a tenth of a second. Only store / conductance, 5 s, matters.
    """
    load = apply("div", Through(wire), rating)
    warmth = apply("mul", 10.0, apply("min", product(load, load), 100.0))
    nodes = (fixed("warmth", "heat", warmth), Node("melting", "heat", start=0.0, store=1_000.0))
    return nodes, Element("warming", "LIN", ("warmth", "melting"), (200.0,))


def melts() -> Expr:
    """How far it is above what one and a half times its rating, held for long, brings it to."""
    return over(Across("melting"), 10.0 * 1.5**2)


def _fuse(fit: Fit) -> Recipe:
    warmed, warming = heating("wire", fit.si["rating"])
    wire = Element("wire", "LIN", ("inlet", "outlet"), (CONTACT,), gate=no(ModeIs("blown")))
    nodes = (port("inlet", "current"), port("outlet", "current"), *warmed)
    blown = Mode("blown", melts(), NEVER)
    return Recipe(nodes, (wire, warming), (blown,), (("blown", ModeIs("blown")), ("current", Through("wire"))))


FUSE = Kind(
    "fuse",
    "Melts when it has carried too much for too long: more than one and a half times its rating, the sooner the more. "
    "It stays blown.",
    ports=(INLET, OUTLET),
    build=_fuse,
    wants=(Want("rating", "current", "What it carries for ever.", usual="0.5 to 400 A"),),
    states=(State("blown", "blown", "whole"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "fuse: {kind: fuse, rating: 5 A}\n"
        "light: {kind: electrical load, current: 4 A, voltage: 24 V, fed by: fuse.outlet}",
        (
            "after wait 10 min: fuse is whole",
            "with light short, within 1 s: fuse is blown",
            "with light short, at 5 s: battery current is below 0.1 A",
        ),
        "battery > fuse",
    ),
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
    wants=(Want("current", "current", "What it takes at its voltage.", usual="0.01 to 400 A"), VOLTAGE),
    couplings=(FED_BY,),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(
        Failure("open", "It takes no current and does nothing."),
        Failure("short", "Its feed touches the airframe."),
    ),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "light: {kind: electrical load, current: 4 A, voltage: 24 V, fed by: battery.positive}",
        (
            "light is working and light reads 4.2 A ± 0.1",
            "with light open, within 1 s: light is dead and light reads 0 A",
            "with light short, within 1 s: light is dead",
        ),
    ),
)


def _voltmeter(fit: Fit) -> Recipe:
    shown = product(apply("max", 0.0, Across("senses")), unless("open"))
    return Recipe(signals=(("voltage", shown),))


VOLTMETER = Kind(
    "voltmeter",
    "Shows the voltage of the port that it senses. The little current that it takes is left out.",
    indicates=True,
    ports=(),
    build=_voltmeter,
    couplings=(Coupling("senses", "node", "The port whose voltage it shows.", required=True, media=("current",)),),
    readings=(Reading("voltage", "voltage", "voltage", "V", main=True),),
    failures=(Failure("open", "Its lead is off: it shows nothing."),),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\nmeter: {kind: voltmeter, senses: battery.positive}",
        (
            "meter reads 25.2 V ± 0.1",
            "with meter open, within 1 s: meter reads 0 V",
        ),
    ),
)

KINDS = (BUS, SWITCH, FUSE, ELECTRICAL_LOAD, VOLTMETER)
