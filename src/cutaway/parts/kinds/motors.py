"""What current turns: the motor that drives a pump, and the inverter that makes another current of it."""

from cutaway.parts.kind import Example, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, above, fixed, over, port, product, under
from cutaway.parts.kinds.electrics import AIRFRAME, FED_BY_OR_LINE, FEED, LIVE, MADE_FOR, VOLTAGE_24
from cutaway.parts.laws.sizing import load_conductance
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

BACK_VOLTS = 5.0 / 6.0  # of the supply at the rated speed: held still, it takes six times its current
RUN_UP = 0.5  # s


def _motor(fit: Fit) -> Recipe:
    voltage, current, rated = fit.si["voltage"], fit.si["current"], fit.si["speed"]
    constant, resistance = BACK_VOLTS * voltage / rated, (1.0 - BACK_VOLTS) * voltage / current
    load = constant * current / rated  # what it drives, as a torque that grows with its speed
    inertia = RUN_UP * (constant * constant / resistance + load)
    elements = (
        Element("armature", "RATIO", ("feed", "airframe", "shaft"), (constant, resistance), gate=unless("burnt out")),
        Element("load", "LIN", ("shaft", "frame"), (load,)),
        Element("stalled", "LIN", ("shaft", "frame"), (1e4 * load,), gate=failed("stalled")),
    )
    speed = apply("div", Across("shaft"), rated)
    nodes = (
        port("feed", "current"),
        AIRFRAME,
        Node("shaft", "shaft", start=0.0, store=inertia),
        fixed("frame", "shaft"),
    )
    signals: tuple[tuple[str, Expr], ...] = (
        ("speed", speed),
        ("rate of turn", Across("shaft")),
        ("running", above(speed, 0.3)),
        ("current", Through("armature")),
    )
    return Recipe(nodes, elements, signals=signals)


ELECTRIC_MOTOR = Kind(
    "electric motor",
    "Turns what is driven by it, the faster the more volts there are. While it starts, and if it is held still, it "
    "takes up to six times its current. It is running above three tenths of its speed.",
    ports=(FEED,),
    build=_motor,
    wants=(
        Want("current", "current", "What it takes at its voltage and speed.", "10 A", "1 to 100 A", JUDGEMENT),
        Want("speed", "angular speed", "Its speed at its voltage.", "3000 rpm", "1000 to 8000 rpm", JUDGEMENT),
        VOLTAGE_24,
    ),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("running", "running", "stopped"),),
    readings=(
        Reading("speed", "angular speed", "rate of turn", "rpm", main=True),
        Reading("current", "current", "current", "A"),
    ),
    failures=(
        Failure("burnt out", "Its windings are broken: it takes no current and stands."),
        Failure("stalled", "It is held still, and takes six times its current."),
    ),
    families=("RATIO", "LIN"),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "pump switch: {kind: switch}\n"
        "motor: {kind: electric motor, current: 10 A, speed: 3000 rpm}",
        (
            "motor is stopped",
            "after pump switch to on, within 5 s: motor is running",
            "after pump switch to on, at 10 s: motor reads above 2900 rpm",
            "after pump switch to on, at 10 s: motor current is below 11 A",
            "with motor stalled, after pump switch to on, at 10 s: motor current is above 50 A",
            "with motor burnt out, after pump switch to on, at 10 s: motor is stopped",
        ),
        "battery > pump switch > motor",
    ),
)


def _inverter(fit: Fit) -> Recipe:
    fed = over(Across("feed"), LIVE * fit.si["voltage"])
    turning = Mode(
        "turning",
        fed,
        under(Across("feed"), 0.9 * LIVE * fit.si["voltage"]),
        delay=fit.si["run-up time"],
        called="run-up time",
    )
    gives = product(ModeIs("turning"), unless("no output"))
    made = fixed("made", "current", apply("mul", fit.si["gives"], gives))
    limit = fit.si["current"] * fit.si["voltage"] / fit.si["gives"]
    elements = (
        Element("motor", "LIN", ("feed", "airframe"), (load_conductance(fit.si["current"], fit.si["voltage"]),)),
        Element(
            "output",
            "SOURCE",
            ("made", "outlet"),
            (0.0, limit / (0.05 * fit.si["gives"]), 0.0, limit, 0.005 * limit),
            gate=gives,
        ),
    )
    signals = (("running", gives), ("voltage", Across("outlet")))
    return Recipe((port("feed", "current"), port("outlet", "current"), AIRFRAME, made), elements, (turning,), signals)


INVERTER = Kind(
    "inverter",
    "A motor that makes another current for instruments. It takes the same however much is drawn from it; what it "
    "gives is shown by its voltage alone, without its frequency.",
    ports=(FEED, Port("outlet", "current", "east", "out")),
    build=_inverter,
    wants=(
        Want("current", "current", "What it takes at its voltage.", "6 A", "2 to 40 A", JUDGEMENT),
        VOLTAGE_24,
        Want("gives", "voltage", "The voltage that it makes.", "115 V", "26 to 115 V", JUDGEMENT),
        Want("run-up time", "time", "How long it needs before it gives its voltage.", "2 s", "1 to 10 s", JUDGEMENT),
    ),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("running", "running", "stopped"),),
    readings=(Reading("voltage", "voltage", "voltage", "V", main=True),),
    failures=(Failure("no output", "It turns and gives nothing."),),
    families=("LIN", "SOURCE"),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "inverter switch: {kind: switch}\n"
        "inverter: {kind: inverter}\n"
        "gyro compass: {kind: electrical load, current: 0.2 A, voltage: 115 V, fed by: inverter.outlet}",
        (
            "after inverter switch to on, at 1 s: gyro compass is dead",
            "after inverter switch to on, within 3 s: gyro compass is working",
            "with inverter no output, after inverter switch to on, at 5 s: gyro compass is dead",
        ),
        "battery > inverter switch > inverter",
    ),
)

KINDS = (ELECTRIC_MOTOR, INVERTER)
