"""The engine with its throttle and magneto switch, and the junction, which belongs to every medium.

The engine's shaft is a node of the medium 'shaft'. Starter, power and airscrew each pull it towards a speed of their
own, so that run-up and run-down come out as first-order lags, and accessories see a speed that changes smoothly. Torque
and power are not modelled: what the accessories take is small beside them.
"""

from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Order, Port, Reading, State, Want
from cutaway.parts.kinds import trainer_examples
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    above,
    at_position,
    fixed,
    least,
    most,
    no,
    over,
    product,
    total,
    when,
    when_not,
    within_one,
)
from cutaway.parts.kinds.priming import PRIMED_BY, can_catch, warmth
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Table,
    apply,
    failed,
    unless,
)

INERTIA = 10.0  # kg·m²: only the times below, store / conductance, matter
RUN_UP, CRANKING_UP, SEIZING = 1.5, 0.3, 0.1  # s
REFERENCE_SPEED = 100.0 * 1852.0 / 3600.0  # m/s: 100 kt

# How far between idling and rated speed the throttle takes a fixed-pitch airscrew: power goes with speed cubed.
OPENING = ((0.0, 0.25, 0.5, 0.75, 1.0), (0.0, 0.45, 0.70, 0.88, 1.0))


def _engine(fit: Fit) -> Recipe:
    rated, idling, cranking = fit.si["rated speed"], fit.si["idling speed"], fit.si["cranking speed"]
    opening = Signal("opening", of="throttle")
    sparking, live = Signal("sparking", of="ignition"), Signal("magnetos", of="ignition")
    fed = Signal("fed", of="fuel from")
    running, pressed = ModeIs("running"), at_position(1, Input("control", "starter"))
    turned_over, whole = product(pressed, no(running), unless("seized")), unless("seized")
    powered = total(Const(idling), apply("mul", rated - idling, Table(opening, *OPENING)))
    one_dead = apply("lt", live, 1.5)
    powered = apply("sub", powered, apply("mul", fit.si["magneto drop"], product(one_dead, Table(opening, *OPENING))))
    airspeed = Input("condition", "airspeed")
    windmill = fit.si["windmilling"] * rated
    turned_by_air = Table(
        airspeed,
        (0.5 * REFERENCE_SPEED, REFERENCE_SPEED, 2.0 * REFERENCE_SPEED),
        (0.0, windmill, min(2.0 * windmill, rated)),
    )
    nodes = (
        Node("shaft", "shaft", start=0.0, store=INERTIA),
        fixed("power", "shaft", powered),
        fixed("starter", "shaft", Const(cranking)),
        fixed("airscrew", "shaft", turned_by_air),
        fixed("crankcase", "shaft"),
    )
    drag = product(no(running), no(turned_over), whole)
    elements = (
        Element("firing", "LIN", ("power", "shaft"), (INERTIA / RUN_UP,), gate=product(running, whole)),
        Element("cranking", "LIN", ("starter", "shaft"), (INERTIA / CRANKING_UP,), gate=turned_over),
        Element("coasting", "LIN", ("airscrew", "shaft"), (INERTIA / fit.si["run-down time"],), gate=drag),
        Element("seizing", "LIN", ("shaft", "crankcase"), (INERTIA / SEIZING,), gate=failed("seized")),
    )
    turning = over(Across("shaft"), 0.5 * cranking)
    modes = (
        Mode("starved", when_not(fed), when(fed), delay=fit.si["starving time"], called="starving time", started=True),
        Mode(
            "running",
            least(when(sparking), when(fed), when(whole), when(can_catch(fit)), turning),
            most(when_not(sparking), when(ModeIs("starved")), when_not(whole)),
            delay=fit.si["catching time"],
            called="catching time",
        ),
    )
    speed = within_one(apply("div", Across("shaft"), rated))
    # An engine that turns draws mixture, firing or not; the charge grows with the throttle.
    demand = product(speed, total(Const(0.25), apply("mul", 0.75, opening)))
    signals: tuple[tuple[str, Expr], ...] = (
        ("speed", speed),
        ("rate of turn", Across("shaft")),
        ("demand", demand),
        ("running", running),
    )
    warm_nodes, warm_elements, warm_modes = warmth(fit, running)
    return Recipe((*nodes, *warm_nodes), (*elements, *warm_elements), (*modes, *warm_modes), signals)


ENGINE = Kind(
    "engine",
    "A piston engine with a fixed-pitch airscrew. It begins to run once it has been turned, with ignition and fuel, "
    "for its catching time; it stops at once without ignition, and when it has been without fuel for its starving "
    "time. The starter has a supply of its own. In flight the airscrew turns a dead engine.",
    indicates=True,
    ports=(),
    build=_engine,
    controls=(Control("starter", ("out", "pressed"), springs_back=True),),
    wants=(
        Want(
            "rated speed",
            "angular speed",
            "Its speed at full throttle.",
            default="2300 rpm",
            between="1800 to 3000 rpm",
            because=JUDGEMENT,
        ),
        Want(
            "idling speed",
            "angular speed",
            "Its speed with the throttle closed.",
            default="600 rpm",
            between="450 to 900 rpm",
            because=JUDGEMENT,
        ),
        Want(
            "cranking speed",
            "angular speed",
            "The speed at which the starter turns it.",
            default="150 rpm",
            between="60 to 250 rpm",
            because=JUDGEMENT,
        ),
        Want(
            "catching time",
            "time",
            "How long it must be turned, with ignition and fuel, before it runs.",
            default="1 s",
            between="0.3 to 5 s",
            because=JUDGEMENT,
        ),
        Want(
            "starving time",
            "time",
            "How long it goes on without fuel, on what its float chamber holds.",
            default="2 s",
            between="1 to 20 s",
            because=JUDGEMENT,
        ),
        Want(
            "run-down time",
            "time",
            "Time in which a dead engine loses about two thirds of its speed.",
            default="2 s",
            between="0.5 to 5 s",
            because=JUDGEMENT,
        ),
        Want(
            "windmilling",
            "fraction",
            "Share of the rated speed at which the air turns a dead engine at 100 kt; none below 50 kt.",
            default="40 %",
            between="0 to 60 %",
            because=f"{JUDGEMENT} A fixed-pitch airscrew goes on turning in flight.",
            least="nought",
        ),
        Want(
            "magneto drop",
            "angular speed",
            "Speed lost at full throttle on one magneto.",
            default="75 rpm",
            between="30 to 150 rpm",
            because=JUDGEMENT,
            least="nought",
        ),
    ),
    orders=(
        Order("idling speed", "rated speed", "A throttle that is opened does not slow the engine down."),
        Order("cranking speed", "idling speed", "A starter turns it more slowly than it runs by itself."),
    ),
    couplings=(
        Coupling("throttle", "signals", "The throttle that sets it.", required=True, needs=("opening",)),
        Coupling(
            "fuel from", "signals", "The carburettor that feeds it.", required=True, needs=("fed",), back="engine"
        ),
        Coupling("ignition", "signals", "The magneto switch.", required=True, needs=("sparking", "magnetos")),
        PRIMED_BY,
    ),
    states=(State("running", "running", "stopped"),),
    readings=(Reading("speed", "angular speed", "rate of turn", "rpm", main=True),),
    failures=(Failure("seized", "It stops within a second and cannot be turned."),),
    families=("LIN",),
    example=trainer_examples.ENGINE,
)


def _throttle(fit: Fit) -> Recipe:
    return Recipe(signals=(("opening", CONTROL), ("position", CONTROL), ("past gate", Const(0.0))))


THROTTLE = Kind(
    "throttle",
    "Opens the engine, from closed to full.",
    ports=(),
    build=_throttle,
    controls=(Control("", ("closed", "open"), ranged=True),),
    example=trainer_examples.THROTTLE,
)


def _magneto_switch(fit: Fit) -> Recipe:
    left = product(apply("max", at_position(1), at_position(3)), unless("left dead"))
    right = product(apply("max", at_position(2), at_position(3)), unless("right dead"))
    magnetos, position = total(left, right), apply("div", CONTROL, 3.0)
    return Recipe(signals=(("magnetos", magnetos), ("sparking", above(magnetos, 0.5)), ("position", position)))


MAGNETO_SWITCH = Kind(
    "magneto switch",
    "Earths two magnetos or lets them spark. They need no current.",
    ports=(),
    build=_magneto_switch,
    controls=(Control("", ("off", "left", "right", "both")),),
    failures=(
        Failure("left dead", "The left magneto gives no spark."),
        Failure("right dead", "The right magneto gives no spark."),
    ),
    example=trainer_examples.MAGNETO_SWITCH,
)


def _junction(fit: Fit) -> Recipe:
    assert fit.medium is not None, "bind gives a junction the medium of what it joins"
    return Recipe((Node("any", fit.medium),))


JUNCTION = Kind(
    "junction",
    "Where pipes or wires of one medium meet.",
    ports=(Port("any", None, "west", "both"),),
    build=_junction,
    example=trainer_examples.JUNCTION,
)

KINDS = (ENGINE, THROTTLE, MAGNETO_SWITCH, JUNCTION)
