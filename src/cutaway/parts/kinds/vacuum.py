"""Vacuum: the pump, its relief valve and what draws air. Nodes are absolute, suctions are differences."""

from cutaway.parts.kind import Coupling, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    JUDGEMENT,
    SEA_LEVEL,
    above,
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
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=("speed",)),),
    failures=(Failure("sheared", "Its drive has sheared: it stands still."),),
    families=("LIN",),
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
    failures=(
        Failure("stuck shut", "It never opens: the suction rises with the speed of the pump."),
        Failure("stuck open", "Outside air spoils the suction at every speed."),
    ),
    families=("RELIEF", "GASROOT"),
)


def _gauge(fit: Fit) -> Recipe:
    shown = product(apply("max", 0.0, suction_at("senses")), unless("pipe broken"))
    return Recipe(signals=(("suction", shown),))


SUCTION_GAUGE = Kind(
    "suction gauge",
    "Shows how far the air in a line is below the air outside.",
    ports=(),
    build=_gauge,
    couplings=(Coupling("senses", "node", "The port whose suction it shows.", required=True),),
    readings=(Reading("suction", "pressure", "suction", "in Hg", main=True),),
    failures=(Failure("pipe broken", "It shows nothing, whatever the suction."),),
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
            started=False,
        ),
        Mode(
            "working",
            least(over(suction, limit), clean),
            when(ModeIs("too slow")),
            delay=fit.si["run-up time"],
            started=False,
        ),
    )
    signals = (("working", ModeIs("working")), ("suction enough", above(suction, limit)))
    return Recipe((port("line", "air"), OUTSIDE), (rotor,), modes, signals)


GYRO_INSTRUMENT = Kind(
    "gyro instrument",
    "An instrument whose rotor is spun by air drawn through it. It can be trusted once there has been suction enough "
    "for its run-up time, and until the suction has been below seven tenths of that for its run-down time.",
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
    failures=(Failure("filter choked", "Hardly any air reaches the rotor."),),
    families=("GASROOT",),
)

KINDS = (VACUUM_PUMP, SUCTION_RELIEF_VALVE, SUCTION_GAUGE, GYRO_INSTRUMENT)
