"""What makes and breaks a circuit: buttons, switches, breakers, relays, solenoids, the dimmer."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Order, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    above,
    at_position,
    either,
    least,
    most,
    no,
    over,
    port,
    product,
    under,
    when,
    when_not,
)
from cutaway.parts.kinds.electrics import (
    AIRFRAME,
    COILS,
    CONTACT,
    FED_BY_OR_LINE,
    INLET,
    OUTLET,
    VOLTAGE_24,
    heating,
    melts,
)
from cutaway.parts.laws.sizing import load_conductance
from cutaway.parts.recipe import Across, Element, Expr, Mode, ModeIs, Recipe, Signal, Through, failed, unless

DWELL = 0.02  # s: how long an armature needs to move; without it a relay that breaks its own coil would never rest


def _contact(gate: Expr, *signals: tuple[str, Expr], name: str = "contact") -> Recipe:
    """A contact between inlet and outlet, with its current and what else is said of it."""
    contact = Element(name, "LIN", ("inlet", "outlet"), (CONTACT,), gate=gate)
    return Recipe((port("inlet", "current"), port("outlet", "current")), (contact,), signals=(
        ("current", Through(name)), *signals,
    ))  # fmt: skip


PUSH_BUTTON = Kind(
    "push-button",
    "Makes a circuit while it is pressed.",
    ports=(INLET, OUTLET),
    build=lambda fit: _contact(product(at_position(1), unless("open")), ("position", CONTROL)),
    controls=(Control("", ("out", "pressed"), springs_back=True),),
    failures=(Failure("open", "It never makes contact."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "test button: {kind: push-button}\n"
        "lamp: {kind: filament lamp}",
        (
            "lamp is out",
            "with test button pressed, within 1 s: lamp is lit",
            "with test button pressed, with test button open, within 1 s: lamp is out",
        ),
        "battery > test button > lamp",
    ),
)


def _interlocked(fit: Fit) -> Recipe:
    made = product(either(at_position(1), above(Signal("position", of="made with"), 0.01)), unless("open"))
    return _contact(made, ("position", made))


INTERLOCKED_SWITCH = Kind(
    "interlocked switch",
    "A switch that another puts on with it: it is made while it is on itself, and while the other stands anywhere but "
    "at its first position.",
    ports=(INLET, OUTLET),
    build=_interlocked,
    controls=(Control("", ("off", "on")),),
    couplings=(Coupling("made with", "signals", "The switch that puts it on.", required=True, needs=("position",)),),
    failures=(Failure("open", "It never makes contact."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "starting switch: {kind: switch}\n"
        "indicator switch: {kind: interlocked switch, made with: starting switch}\n"
        "lamp: {kind: filament lamp}",
        (
            "lamp is out",
            "with indicator switch on, within 1 s: lamp is lit",
            "with starting switch on, within 1 s: lamp is lit",
            "with starting switch on, with indicator switch open, within 1 s: lamp is out",
        ),
        "battery > indicator switch > lamp",
    ),
)


def _ground_flight(fit: Fit) -> Recipe:
    makes = unless("open")
    elements = (
        Element("flight", "LIN", ("battery", "bus"), (CONTACT,), gate=product(at_position(1), makes)),
        Element("ground", "LIN", ("external", "bus"), (CONTACT,), gate=product(at_position(0), makes)),
    )
    nodes = tuple(port(name, "current") for name in ("battery", "external", "bus"))
    return Recipe(nodes, elements, signals=(("position", CONTROL),))


GROUND_FLIGHT_SWITCH = Kind(
    "ground/flight switch",
    "Joins the bus to the external supply on the ground, or to the battery in flight, never to both.",
    ports=(
        Port("battery", "current", "west", "in"),
        Port("external", "current", "south"),
        Port("bus", "current", "east", "out"),
    ),
    build=_ground_flight,
    controls=(Control("", ("ground", "flight")),),
    failures=(Failure("open", "It makes contact in neither position."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "socket: {kind: external supply socket}\n"
        "ground flight switch: {kind: ground/flight switch}\n"
        "bus: {kind: bus, voltage: 24 V}",
        (
            "bus is dead",
            "with ground flight switch at flight, within 1 s: bus is alive",
            "with socket connected, within 1 s: bus is alive",
            "with socket connected, with ground flight switch open, within 1 s: bus is dead",
        ),
        "battery > ground flight switch > bus\nsocket.outlet > ground flight switch.external",
    ),
)


def _breaker(fit: Fit) -> Recipe:
    # Pulled and pushed in again it is whole; if it is still too hot, it comes out again.
    warmed, warming = heating("contact", fit.si["rating"])
    tripped = Mode("tripped", least(melts(), when(at_position(0))), when(at_position(1)))
    made = product(at_position(0), no(ModeIs("tripped")))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=made)
    signals = (("tripped", ModeIs("tripped")), ("current", Through("contact")), ("position", made))
    nodes = (port("inlet", "current"), port("outlet", "current"), *warmed)
    return Recipe(nodes, (contact, warming), (tripped,), signals)


def _windings(fit: Fit) -> Element:
    conductance = load_conductance(fit.si["current"], fit.si["voltage"])
    return Element("coil", "LIN", ("feed", "airframe"), (conductance,), gate=unless("coil open"))


PULLS_IN = Want(
    "pulls in",
    "voltage",
    "The voltage at its coil at which it pulls in.",
    default="16 V",
    between="12 to 20 V",
    because=f"{JUDGEMENT} Two thirds of a 24-volt supply.",
    usual=COILS,
)
DROPS_OUT = Want(
    "drops out",
    "voltage",
    "The voltage at its coil at which it lets go.",
    default="6 V",
    between="2 to 10 V",
    because=f"{JUDGEMENT} An armature that has closed needs little to be held.",
    usual=COILS,
)

LETS_GO_LOWER = Order("drops out", "pulls in", "A coil that has pulled its armature in holds it with less.")


def coil_current(default: str, between: str) -> Want:
    """What a coil takes."""
    return Want("current", "current", "What its coil takes at its voltage.", default, between, JUDGEMENT)


def pulled(fit: Fit) -> Mode:
    """Set while a coil holds its armature."""
    whole = unless("coil open")
    held = most(under(Across("feed"), fit.si["drops out"]), when_not(whole))
    return Mode("pulled", least(over(Across("feed"), fit.si["pulls in"]), when(whole)), held, dwell=DWELL)


def _relay(fit: Fit) -> Recipe:
    made = either(ModeIs("pulled"), failed("contacts stuck"))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=made)
    nodes = (port("feed", "current"), port("inlet", "current"), port("outlet", "current"), AIRFRAME)
    signals = (("made", made), ("position", ModeIs("pulled")), ("current", Through("contact")))
    return Recipe(nodes, (_windings(fit), contact), (pulled(fit),), signals)


RELAY = Kind(
    "relay",
    "A coil that closes a contact in another circuit. It pulls in at one voltage and lets go at a lower one.",
    ports=(Port("feed", "current", "south"), INLET, OUTLET),
    build=_relay,
    wants=(PULLS_IN, DROPS_OUT, coil_current("0.1 A", "0.05 to 1 A"), VOLTAGE_24),
    orders=(LETS_GO_LOWER,),
    couplings=(FED_BY_OR_LINE,),
    states=(State("made", "made", "broken"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(
        Failure("coil open", "Its coil is broken: it never pulls in."),
        Failure("contacts stuck", "Its contacts have welded: the circuit stays made."),
    ),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "button: {kind: push-button}\n"
        "pump relay: {kind: relay, fed by: button.outlet}\n"
        "pump: {kind: electrical load, current: 20 A, voltage: 24 V, fed by: pump relay.outlet}",
        (
            "pump relay is broken",
            "with button pressed, within 1 s: pump is working",
            "with button pressed, with pump relay coil open, within 1 s: pump is dead",
            "with pump relay contacts stuck, within 1 s: pump is working",
        ),
        "battery > button\nbattery > pump relay",
    ),
)


def _solenoid(fit: Fit) -> Recipe:
    signals = (("pulled", ModeIs("pulled")), ("position", ModeIs("pulled")), ("current", Through("coil")))
    return Recipe((port("feed", "current"), AIRFRAME), (_windings(fit),), (pulled(fit),), signals)


SOLENOID = Kind(
    "solenoid",
    "A coil with a plunger that moves something: a valve, a catch, a lock. Without current a spring takes it back.",
    ports=(Port("feed", "current", "west", "in"),),
    build=_solenoid,
    wants=(PULLS_IN, DROPS_OUT, coil_current("1 A", "0.3 to 5 A"), VOLTAGE_24),
    orders=(LETS_GO_LOWER,),
    couplings=(FED_BY_OR_LINE,),
    states=(State("pulled", "pulled", "released"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("coil open", "Its coil is broken: it never pulls."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "release switch: {kind: switch}\n"
        "catch: {kind: solenoid}",
        (
            "catch is released",
            "with release switch on, within 1 s: catch is pulled",
            "with release switch on, with catch coil open, within 1 s: catch is released",
        ),
        "battery > release switch > catch",
    ),
)

CIRCUIT_BREAKER = Kind(
    "circuit breaker",
    "Opens when it has carried too much for too long, as a fuse melts, but is whole again once it has been pulled out "
    "and pushed in.",
    indicates=True,
    ports=(INLET, OUTLET),
    build=_breaker,
    controls=(Control("", ("in", "out")),),
    wants=(Want("rating", "current", "What it carries for ever.", usual="0.5 to 400 A"),),
    states=(State("tripped", "tripped"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "breaker: {kind: circuit breaker, rating: 10 A}\n"
        "heater: {kind: electrical load, current: 8 A, voltage: 24 V, fed by: breaker.outlet}",
        (
            "after wait 10 min: breaker is not tripped",
            "with breaker out, within 1 s: heater is dead",
            "with heater short, within 2 s: breaker is tripped",
        ),
        "battery > breaker",
    ),
)


def _dimmer(fit: Fit) -> Recipe:
    whole = unless("open")
    elements = (
        Element("direct", "LIN", ("inlet", "outlet"), (CONTACT,), gate=product(at_position(0), whole)),
        Element(
            "resistor", "LIN", ("inlet", "outlet"), (1.0 / fit.si["resistance"],), gate=product(at_position(1), whole)
        ),
    )
    return Recipe((port("inlet", "current"), port("outlet", "current")), elements, signals=(("position", CONTROL),))


DIMMER = Kind(
    "dimmer",
    "Puts a resistor into a lamp's circuit at night, or leaves it out.",
    ports=(INLET, OUTLET),
    build=_dimmer,
    controls=(Control("", ("bright", "dim")),),
    wants=(
        Want(
            "resistance",
            "resistance",
            "What it puts into the circuit when it is set to dim.",
            default="30 ohm",
            between="10 to 100 ohm",
            because=JUDGEMENT,
        ),
    ),
    failures=(Failure("open", "It makes contact in neither position: the lamps behind it are dark."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\ndimmer: {kind: dimmer}\nlamp: {kind: filament lamp}",
        (
            "lamp reads above 100 %",
            "with dimmer dim, within 1 s: lamp reads below 75 %",
            "with dimmer dim, within 1 s: lamp is lit",
            "with dimmer open, within 1 s: lamp is out",
        ),
        "battery > dimmer > lamp",
    ),
)

KINDS = (
    PUSH_BUTTON,
    INTERLOCKED_SWITCH,
    GROUND_FLIGHT_SWITCH,
    CIRCUIT_BREAKER,
    RELAY,
    SOLENOID,
    DIMMER,
)
