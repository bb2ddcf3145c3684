"""Current made and let in: the bare dynamo with its regulator and cut-out, and the socket for a supply outside."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    TURNS,
    at_position,
    either,
    fixed,
    latch,
    least,
    most,
    over,
    port,
    product,
    under,
)
from cutaway.parts.kinds.electrics import AIRFRAME, CONTACT, SUPPLIES
from cutaway.parts.kinds.supplies import CLOSES, windings
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Mode,
    ModeIs,
    Recipe,
    Signal,
    Through,
    apply,
    failed,
    unless,
)

SHORTED = 10.0  # S: an armature that touches its frame


def _dynamo(fit: Fit) -> Recipe:
    voltage, limit = fit.si["voltage"], fit.si["current limit"]
    turning = product(Signal("rate of turn", of="driven by"), unless("sheared"))
    raised = apply("mul", CLOSES * voltage / fit.si["cut-in speed"], turning)
    held = Signal("holds", of="regulator", otherwise=Const(voltage))
    excited = product(apply("min", raised, held), unless("no field"))
    # Its windings are a wire whatever its armature gives: without a cut-out a dead dynamo is a load on the battery.
    nodes, elements = windings(excited, voltage, limit)
    short = Element("short", "LIN", ("output", "airframe"), (SHORTED,), gate=failed("short"))
    current = apply("sub", apply("sub", Through("giving"), Through("taking")), Through("short"))
    # A memory, since a lamp that it puts out would else bring it back.
    charging = latch("charging", current, 0.02 * limit, 0.005 * limit)
    signals = (("current", current), ("charging", ModeIs("charging")), ("voltage", Across("output")))
    return Recipe((port("output", "current"), *nodes, AIRFRAME), (*elements, short), (charging,), signals)


# A motor on a supply outside turns the dynamo, as on a test bench; in an aircraft an engine does.
BENCH = (
    "mains: {kind: external supply socket, voltage: 24 V}\n"
    "drive: {kind: electric motor, speed: 2000 rpm, fed by: mains.outlet}\n"
)
BENCH_WITH_BATTERY = BENCH + (
    "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
    "bus: {kind: bus, voltage: 24 V}\n"
    "dynamo: {kind: dynamo, driven by: drive}\n"
    "regulator: {kind: voltage regulator, regulates: dynamo}\n"
    "cut-out: {kind: generator cut-out}\n"
    "lights: {kind: electrical load, current: 5 A, voltage: 24 V, fed by: bus.any}"
)
BENCH_LINES = "dynamo > cut-out > bus\nbattery > bus"
GENERATOR_VOLTS = "Four volts above a 24-volt battery, so that it is charged."

DYNAMO = Kind(
    "dynamo",
    "A bare generator, without cut-out. Its voltage rises with its speed until its regulator, or a regulator of its "
    "own where none is named, holds it. Its windings pass current backwards whenever the bus stands higher.",
    ports=(Port("output", "current", "east", "out"),),
    build=_dynamo,
    wants=(
        Want(
            "voltage",
            "voltage",
            "The voltage for which it is wound.",
            default="28 V",
            because=f"{JUDGEMENT} {GENERATOR_VOLTS}",
            usual=SUPPLIES,
        ),
        Want("current limit", "current", "The most it gives.", "40 A", "15 to 200 A", JUDGEMENT),
        Want(
            "cut-in speed",
            "angular speed",
            "Speed at which it gives nine tenths of its voltage.",
            default="1000 rpm",
            between="600 to 1500 rpm",
            because=f"{JUDGEMENT} A little above idling, as speed of the engine.",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "What turns it.", required=True, needs=TURNS),),
    levels=(Level("gives", "voltage", "output", "gives no more than", per=1.15),),
    states=(State("charging", "charging", "not charging"),),
    readings=(
        Reading("current", "current", "current", "A", main=True),
        Reading("voltage", "voltage", "voltage", "V"),
    ),
    failures=(
        Failure("no field", "It is not excited: no volts, but its windings still pass current backwards."),
        Failure("sheared", "Its drive has parted: no volts, but its windings still pass current backwards."),
        Failure("short", "Its armature touches its frame."),
    ),
    families=("PDPUMP", "LIN"),
    example=Example(
        BENCH_WITH_BATTERY,
        (
            "after mains to connected, within 10 s: dynamo is charging",
            "with dynamo no field, after mains to connected, at 10 s: dynamo is not charging",
            "with dynamo sheared, after mains to connected, at 10 s: battery current is below 6 A",
            "with dynamo short, after wait 10 s: battery current is below 6 A",
            "with cut-out stuck closed, after wait 10 s: battery current is above 50 A",
        ),
        BENCH_LINES,
    ),
)


def _regulator(fit: Fit) -> Recipe:
    high = apply("add", 1.0, apply("mul", 0.15, failed("too high")))
    return Recipe(signals=(("holds", product(Const(fit.si["voltage"]), high, unless("open"))),))


VOLTAGE_REGULATOR = Kind(
    "voltage regulator",
    "Holds the voltage of a dynamo by its field.",
    ports=(),
    build=_regulator,
    wants=(
        Want(
            "voltage",
            "voltage",
            "What it holds.",
            default="28 V",
            between="27.5 to 28.5 V",
            because=f"{JUDGEMENT} {GENERATOR_VOLTS}",
            usual=SUPPLIES,
        ),
    ),
    couplings=(
        Coupling(
            "regulates", "signals", "The dynamo whose voltage it holds.", required=True, needs=("charging", "voltage"),
            back="regulator",
        ),
    ),
    failures=(
        Failure("too high", "It holds about a seventh too much."),
        Failure("open", "It gives the dynamo no field."),
    ),
    example=Example(
        BENCH_WITH_BATTERY,
        (
            "after mains to connected, at 10 s: bus reads 28 V ± 1",
            "with regulator too high, after mains to connected, at 10 s: bus reads above 30 V",
            "with regulator open, after mains to connected, at 10 s: dynamo is not charging",
        ),
        BENCH_LINES,
    ),
)  # fmt: skip


def _cut_out(fit: Fit) -> Recipe:
    made = Through("contact")
    ahead = least(over(Across("generator"), fit.si["closes at"]), over(Across("generator"), Across("bus")))
    drops = most(
        over(apply("sub", 0.0, made), fit.si["opens at"]), under(Across("generator"), 0.55 * fit.si["closes at"])
    )
    closed = Mode("closed", ahead, drops, dwell=0.02)
    gate = either(product(ModeIs("closed"), unless("stuck open")), failed("stuck closed"))
    contact = Element("contact", "LIN", ("generator", "bus"), (CONTACT,), gate=gate)
    nodes = (port("generator", "current"), port("bus", "current"))
    signals = (("closed", gate), ("charging", gate), ("current", made), ("position", gate))
    return Recipe(nodes, (contact,), (closed,), signals)


GENERATOR_CUT_OUT = Kind(
    "generator cut-out",
    "A contact between a generator and the bus. It closes once the generator has volts enough and stands above the "
    "bus, and opens when current runs back into it.",
    ports=(Port("generator", "current", "west", "in"), Port("bus", "current", "east", "out")),
    build=_cut_out,
    wants=(
        Want(
            "closes at",
            "voltage",
            "The voltage of the generator at which it closes.",
            default="26 V",
            between="25.5 to 27.5 V",
            because=f"{JUDGEMENT} A little above what a full 24-volt battery stands at.",
            usual=SUPPLIES,
        ),
        Want(
            "opens at",
            "current",
            "The current backwards at which it opens.",
            default="2 A",
            between="1 to 10 A",
            because=JUDGEMENT,
        ),
    ),
    states=(State("closed", "closed", "open"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(
        Failure("stuck open", "It never closes."),
        Failure("stuck closed", "Its contacts have welded: a dead generator drains the battery."),
    ),
    families=("LIN",),
    example=Example(
        BENCH_WITH_BATTERY,
        (
            "cut-out is open",
            "after mains to connected, within 10 s: cut-out is closed",
            "with dynamo no field, after mains to connected, at 10 s: cut-out is open",
            "with cut-out stuck open, after mains to connected, at 10 s: dynamo is not charging",
            "with cut-out stuck closed, after wait 10 s: cut-out reads below -50 A",
        ),
        BENCH_LINES,
    ),
)


def _socket(fit: Fit) -> Recipe:
    voltage, limit = fit.si["voltage"], fit.si["current limit"]
    connected = product(at_position(1), unless("no supply"))
    parameters = (0.0, limit / (0.05 * voltage), 0.0, limit, 0.005 * limit)
    given = Element("supply", "SOURCE", ("outside", "outlet"), parameters, gate=connected)
    outside = fixed("outside", "current", product(Const(voltage), connected))
    signals = (("alive", connected), ("current", Through("supply")))
    return Recipe((port("outlet", "current"), outside), (given,), signals=signals)


EXTERNAL_SUPPLY_SOCKET = Kind(
    "external supply socket",
    "Where a trolley or the hangar's supply is plugged in. It gives current and takes none.",
    ports=(Port("outlet", "current", "east", "out"),),
    build=_socket,
    controls=(Control("", ("disconnected", "connected")),),
    wants=(
        Want(
            "voltage",
            "voltage",
            "The voltage of the supply.",
            default="28 V",
            because=f"{JUDGEMENT} A trolley.",
            usual=SUPPLIES,
        ),
        Want("current limit", "current", "The most it gives.", "400 A", "50 to 1000 A", JUDGEMENT),
    ),
    levels=(Level("gives", "voltage", "outlet", "gives no more than"),),
    states=(State("alive", "alive", "dead"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("no supply", "Nothing comes from outside, connected or not."),),
    families=("SOURCE",),
    example=Example(
        "socket: {kind: external supply socket}\nbus: {kind: bus, voltage: 24 V}",
        (
            "bus is dead",
            "with socket connected, within 1 s: bus is alive",
            "with socket connected, with socket no supply, within 1 s: bus is dead",
        ),
        "socket > bus",
    ),
)

KINDS = (DYNAMO, VOLTAGE_REGULATOR, GENERATOR_CUT_OUT, EXTERNAL_SUPPLY_SOCKET)
