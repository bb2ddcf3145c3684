"""Vacuum: the pump, its relief valve and what draws air. Nodes are absolute, suctions are differences."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds import trainer_examples
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    JUDGEMENT,
    SEA_LEVEL,
    TURNS,
    above,
    at_position,
    drops_to,
    fixed,
    least,
    most,
    over,
    port,
    product,
    suction_at,
    under,
    when,
    when_not,
)
from cutaway.parts.laws.sizing import air_conductance, displacement_conductance, flow_conductance
from cutaway.parts.recipe import Element, Mode, ModeIs, Recipe, Signal, apply, failed, unless

CORE = 2_000.0  # Pa: below this difference the flow of air counts as laminar

_RUNNING = "after petrol cock to on then ignition to both then throttle to open then engine starter to pressed for 5 s"
OUTSIDE = fixed("outside", "air", AMBIENT_PRESSURE)
LINE = Port("line", "air", "east", "out")


def _pump(fit: Fit) -> Recipe:
    conductance = displacement_conductance(fit.si["displacement"], SEA_LEVEL)
    speed = product(Signal("speed", of="driven by"), unless("sheared"))
    # The mass that each stroke takes goes with the pressure at the inlet, so the pump is a conductance to nothing.
    vanes = Element("vanes", "LIN", ("suction", "nothing"), (conductance,), gate=speed)
    return Recipe((port("suction", "air"), fixed("nothing", "air")), (vanes,))


VACUUM_PUMP = Kind(
    "vacuum pump",
    "Draws air in proportion to its speed and to the pressure at its inlet.",
    ports=(Port("suction", "air", "west", "in"),),
    build=_pump,
    wants=(
        Want(
            "displacement",
            "volume flow",
            "Volume that it sweeps at the engine's rated speed.",
            default="6 cu ft/min",
            between="2 to 12 cu ft/min",
            because=f"{JUDGEMENT} A small vane pump for two or three instruments.",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=TURNS),),
    failures=(Failure("sheared", "Its drive has sheared: it stands still."),),
    families=("LIN",),
    example=trainer_examples.VACUUM_PUMP,
)


def _relief(fit: Fit) -> Recipe:
    opens, flow = fit.si["set at"], fit.si["full flow"]
    band = 0.05 * opens
    ends = ("outside", "line")
    valve = Element(
        "valve",
        "RELIEF",
        ends,
        (flow_conductance(flow, opens + band), CORE, opens, band),
        gate=unless("stuck shut"),
    )
    held = Element(
        "held open", "GASROOT", ends, (air_conductance(flow, SEA_LEVEL, opens), CORE), gate=failed("stuck open")
    )
    suction = suction_at("line")
    opened = Mode("open", over(suction, opens), under(suction, 0.99 * opens), started=None)
    is_open = product(apply("max", ModeIs("open"), failed("stuck open")), unless("stuck shut"))
    return Recipe((port("line", "air"), OUTSIDE), (valve, held), (opened,), (("open", is_open),))


SUCTION_RELIEF_VALVE = Kind(
    "suction relief valve",
    "Lets outside air into the line when the suction is above its setting, and is wide open a twentieth above that.",
    ports=(LINE,),
    build=_relief,
    wants=(
        Want(
            "set at",
            "pressure",
            "The suction at which it begins to open.",
            default="4.5 in Hg",
            between="3.5 to 6 in Hg",
            because=f"{JUDGEMENT} Common setting for gyro instruments.",
            below="29 in Hg",
        ),
        Want(
            "full flow",
            "volume flow",
            "Free air that it lets in when it is wide open.",
            default="12 cu ft/min",
            between="6 to 25 cu ft/min",
            because=f"{JUDGEMENT} More than the pump can draw.",
        ),
    ),
    states=(State("open", "open", "closed"),),
    levels=(Level("holds", "set at", "line", "opens at", suction=True),),
    failures=(
        Failure("stuck shut", "It never opens: the suction rises with the speed of the pump."),
        Failure("stuck open", "Outside air spoils the suction at every speed."),
    ),
    families=("RELIEF", "GASROOT"),
    example=trainer_examples.SUCTION_RELIEF_VALVE,
)


def _gauge(fit: Fit) -> Recipe:
    shown = product(apply("max", 0.0, suction_at("senses")), unless("pipe broken"))
    return Recipe(signals=(("suction", shown),))


SUCTION_GAUGE = Kind(
    "suction gauge",
    "Shows how far the air in a line is below the air outside.",
    indicates=True,
    ports=(),
    build=_gauge,
    couplings=(Coupling("senses", "node", "The port whose suction it shows.", required=True, media=("air",)),),
    readings=(Reading("suction", "pressure", "suction", "in Hg", main=True),),
    failures=(Failure("pipe broken", "It shows nothing, whatever the suction."),),
    example=trainer_examples.SUCTION_GAUGE,
)


def _gyro(fit: Fit) -> Recipe:
    limit = fit.si["works above"]
    conductance = air_conductance(fit.si["flow"], SEA_LEVEL, limit)
    rotor = Element("rotor", "GASROOT", ("outside", "line"), (conductance, CORE), gate=drops_to(0.05, "filter choked"))
    suction = suction_at("line")
    clean, choked = when_not(failed("filter choked"), limit), when(failed("filter choked"), limit)
    # The rotor is heavy: it needs its time to run up, and coasts on when the suction goes.
    modes = (
        Mode(
            "too slow",
            most(under(suction, 0.7 * limit), choked),
            least(over(suction, 0.7 * limit), clean),
            delay=fit.si["run-down time"],
            called="run-down time",
            started=False,
        ),
        Mode(
            "working",
            least(over(suction, limit), clean),
            when(ModeIs("too slow")),
            delay=fit.si["run-up time"],
            called="run-up time",
            started=False,
        ),
    )
    signals = (("working", ModeIs("working")), ("suction enough", above(suction, limit)))
    return Recipe((port("line", "air"), OUTSIDE), (rotor,), modes, signals)


GYRO_INSTRUMENT = Kind(
    "gyro instrument",
    "An instrument whose rotor is spun by air drawn through it. It can be trusted once there has been suction enough "
    "for its run-up time, and until the suction has been below seven tenths of that for its run-down time.",
    indicates=True,
    ports=(LINE,),
    build=_gyro,
    wants=(
        Want(
            "flow",
            "volume flow",
            "Free air that it takes at the least suction at which it works.",
            default="1.5 cu ft/min",
            between="0.5 to 2.5 cu ft/min",
            because=f"{JUDGEMENT} Usual for one air-driven rotor.",
        ),
        Want(
            "works above",
            "pressure",
            "The least suction at which its rotor runs true.",
            default="3.5 in Hg",
            between="2 to 4 in Hg",
            because=JUDGEMENT,
            below="29 in Hg",
        ),
        Want(
            "run-up time",
            "time",
            "How long the suction must last before it can be trusted.",
            default="3 min",
            between="1 to 5 min",
            because=JUDGEMENT,
        ),
        Want(
            "run-down time",
            "time",
            "How long it can still be trusted when the suction has gone.",
            default="2 min",
            between="1 to 8 min",
            because=JUDGEMENT,
        ),
    ),
    states=(State("working", "working", "unreliable"),),
    levels=(Level("needs", "works above", "line", "works above", "its rotor may never run true", suction=True),),
    failures=(Failure("filter choked", "Hardly any air reaches the rotor."),),
    families=("GASROOT",),
    example=trainer_examples.GYRO_INSTRUMENT,
)


def _changeover(fit: Fit) -> Recipe:
    c = air_conductance(fit.si["flow"], SEA_LEVEL, fit.si["drop"])
    over_, joined = at_position(1), at_position(2)
    # Stuck, it stays as it was left at first, wherever its handle is put.
    free = unless("stuck")
    straight = apply("sub", 1.0, product(over_, free))
    crossed = product(apply("max", over_, joined), free)
    ways = (
        ("port pump", "instruments", straight),
        ("starboard pump", "other", straight),
        ("starboard pump", "instruments", crossed),
        ("port pump", "other", crossed),
    )
    elements = tuple(
        Element(f"{pump} to {load}", "GASROOT", (load, pump), (c, CORE), gate=gate) for pump, load, gate in ways
    )
    nodes = tuple(port(name, "air") for name in ("port pump", "starboard pump", "instruments", "other"))
    return Recipe(nodes, elements)


VACUUM_CHANGEOVER_COCK = Kind(
    "vacuum changeover cock",
    "Shares two pumps among two loads. Normal: the port pump draws on the instruments, the starboard pump on the other "
    "load. Changed over: the other way round. Joined: both pumps draw on both loads.",
    ports=(
        Port("port pump", "air", "east"),
        Port("starboard pump", "air", "east"),
        Port("instruments", "air", "west"),
        Port("other", "air", "west"),
    ),
    build=_changeover,
    controls=(Control("", ("normal", "changed over", "joined")),),
    wants=(
        Want(
            "flow",
            "volume flow",
            "Free air that each of its ways passes at the drop below.",
            default="6 cu ft/min",
            between="3 to 15 cu ft/min",
            because=f"{JUDGEMENT} What one pump draws.",
        ),
        Want(
            "drop",
            "pressure",
            "The suction that it loses at that flow.",
            default="0.2 in Hg",
            between="0.05 to 0.5 in Hg",
            because=f"{JUDGEMENT} A wide cock.",
            below="29 in Hg",
        ),
    ),
    failures=(Failure("stuck", "It stays at normal wherever its handle is put."),),
    families=("GASROOT",),
    example=Example(
        parts="""
throttle: {kind: throttle}
ignition: {kind: magneto switch}
tank: {kind: tank, capacity: 10 gal}
petrol cock: {kind: cock}
carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: ignition}
first pump: {kind: vacuum pump, driven by: engine}
second pump: {kind: vacuum pump, driven by: engine}
changeover cock: {kind: vacuum changeover cock}
turn indicator: {kind: gyro instrument, run-up time: 20 s, run-down time: 20 s}
other load: {kind: gyro instrument, run-up time: 20 s, run-down time: 20 s}
gauge: {kind: suction gauge, senses: changeover cock.instruments}
""",
        lines="""
tank > petrol cock > carburettor
first pump > changeover cock.port pump
second pump > changeover cock.starboard pump
changeover cock.instruments > turn indicator
changeover cock.other > other load
""",
        claims=(
            f"{_RUNNING}, within 1 min: turn indicator is working and other load is working",
            f"with first pump sheared, {_RUNNING}, throughout 2 min: turn indicator is not working",
            f"with first pump sheared, {_RUNNING} then changeover cock to changed over, within 1 min: turn indicator "
            "is working and other load is not working",
            f"with first pump sheared, with changeover cock stuck, {_RUNNING} then changeover cock to changed over, "
            "throughout 2 min: turn indicator is not working",
        ),
    ),
)

KINDS = (VACUUM_PUMP, SUCTION_RELIEF_VALVE, SUCTION_GAUGE, GYRO_INSTRUMENT, VACUUM_CHANGEOVER_COCK)
