"""The constant-speed airscrew with its governor, and the rev counter.

The blades' pitch is a state: it is held as the share of the fine-stop speed to which the blades hold the engine, and
moves with the governor's lag towards what the lever asks. So a stuck pitch keeps the blades, not the speed.
"""

from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Order, Reading, State, Want
from cutaway.parts.kinds.common import CONTROL, JUDGEMENT, above, fixed, no, product, total
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.kinds.superchargers import ENGINE_CAUTION
from cutaway.parts.recipe import Across, Const, Element, Input, Node, Recipe, Signal, apply, failed, unless

LAG = 1.0  # s: of the governor
REFERENCE_SPEED = 100.0 * 1852.0 / 3600.0  # m/s: 100 kt
HUB = 1.0  # kg·m²: only LAG, store / conductance, matters


def _airscrew(fit: Fit) -> Recipe:
    lowest, highest = fit.si["lowest speed"], fit.si["highest speed"]
    lever = total(Const(lowest), apply("mul", highest - lowest, CONTROL))
    # On the fine stop the blades take power with the cube of speed, and the air turns them at a speed of its own.
    share = apply("max", 0.0, Signal("power share", of="engine", otherwise=Const(0.0)))
    driven = apply("div", share, fit.si["fine-stop power"])
    airspeed = apply("div", Input("condition", "airspeed"), REFERENCE_SPEED)
    windmill = apply("mul", fit.si["windmilling"], airspeed)
    fine = apply("mul", highest, apply("pow", total(driven, apply("pow", windmill, 3.0)), 1.0 / 3.0))
    coarsest = fit.si["coarse stop"]
    governed = apply("min", 1.0, apply("max", coarsest, apply("div", lever, apply("max", fine, 0.01 * highest))))
    wanted = apply("if", failed("oil lost"), 1.0, governed)
    # Kept in rad/s, as the share of the highest speed, so that the shaft's scales fit it.
    governor = fixed("governor", "shaft", apply("mul", highest, wanted))
    nodes = (
        Node("pitch", "shaft", start=highest, store=HUB),
        governor,
    )
    moved = Element("oil", "LIN", ("governor", "pitch"), (HUB / LAG,), gate=unless("pitch stuck"))
    pitch = apply("div", Across("pitch"), highest)
    signals = (
        ("asked", product(pitch, fine)),
        ("lever speed", lever),
        ("load", Const(fit.si["fine-stop power"] / highest**3)),
        ("on fine stop", above(pitch, 0.999)),
        ("position", no(pitch)),
    )
    return Recipe(nodes, (moved,), signals=signals)


CONSTANT_SPEED_AIRSCREW = Kind(
    "constant-speed airscrew",
    "An airscrew whose governor turns the blades so that the engine keeps the speed that the lever asks for, between "
    "its stops. On the fine stop the engine turns as fast as its power, and the air, can turn it; on the coarse stop "
    "it cannot be held back. Its oil comes from the engine and turns the blades coarse; without it they go fine.",
    ports=(),
    build=_airscrew,
    controls=(Control("", ("lowest", "highest"), ranged=True),),
    wants=(
        Want("lowest speed", "angular speed", "Engine speed with the lever fully back.", usual="1000 to 2400 rpm"),
        Want("highest speed", "angular speed", "Engine speed with the lever fully forward.", usual="1800 to 3300 rpm"),
        Want(
            "fine-stop power",
            "fraction",
            "Share of the rated power (in M gear) that turns it at its highest speed on the fine stop, standing still.",
            default="80 %",
            between="60 to 100 %",
            because=f"{JUDGEMENT} The fine stop is set so that take-off speed is reached early in the run.",
        ),
        Want(
            "coarse stop",
            "fraction",
            "Share of its speed on the fine stop at which the same power turns it on the coarse stop.",
            default="45 %",
            between="30 to 60 %",
            because=f"{JUDGEMENT} A range of pitch of about 20 to 35 degrees.",
            below="100 %",
        ),
        Want(
            "windmilling",
            "fraction",
            "Share of its highest speed at which the air turns it on the fine stop at 100 kt, in proportion to speed.",
            default="35 %",
            between="20 to 50 %",
            because=JUDGEMENT,
            least="nought",
        ),
    ),
    orders=(Order("lowest speed", "highest speed", "The lever goes from the one to the other."),),
    states=(State("on fine stop", "on fine stop", "governing"),),
    readings=(Reading("lever speed", "angular speed", "lever speed", "rpm", main=True),),
    failures=(
        Failure("pitch stuck", "Its blades stay as they are: the engine's speed follows its power and the airspeed."),
        Failure("oil lost", "Its governor has no oil: the blades go to the fine stop, and in flight it overspeeds."),
    ),
    families=("LIN",),
    caution=ENGINE_CAUTION,
    example=powerplant(
        "throttle gate | engine reads 2850 rpm ± 5 rpm",
        "throttle gate, airscrew lowest | engine reads 1800 rpm ± 5 rpm",
        "throttle 20 % | airscrew is on fine stop",
        "throttle gate, airscrew lowest, airscrew oil lost | engine reads above 2500 rpm",
        "throttle gate, airspeed 200 kt, airscrew oil lost | engine reads above 3000 rpm",
        "throttle 20 %, airscrew lowest, airscrew pitch stuck | airscrew is on fine stop",
    ),
)


def _rev_counter(fit: Fit) -> Recipe:
    return Recipe(signals=(("shown", product(Signal("rate of turn", of="reads"), unless("broken drive"))),))


REV_COUNTER = Kind(
    "rev counter",
    "Shows the engine's speed, through a flexible drive. It needs no current.",
    indicates=True,
    ports=(),
    build=_rev_counter,
    couplings=(
        Coupling("reads", "signals", "The engine whose speed it shows.", required=True, needs=("rate of turn",)),
    ),
    readings=(Reading("speed", "angular speed", "shown", "rpm", main=True),),
    failures=(Failure("broken drive", "It shows nothing, whatever the speed."),),
    example=powerplant(
        "throttle gate | rev counter reads 2850 rpm ± 5 rpm",
        "throttle gate, rev counter broken drive | rev counter reads 0 rpm",
        more=("rev counter: {kind: rev counter, reads: engine}",),
    ),
)

KINDS = (CONSTANT_SPEED_AIRSCREW, REV_COUNTER)
