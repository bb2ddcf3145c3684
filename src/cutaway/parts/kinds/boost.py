"""What holds the boost: the throttle with its gate, the automatic boost control with its cut-out, the boost gauge.

Boost is pressure above the standard atmosphere, whatever the weather and the height: the gauge is an absolute one.
"""

from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Order, Reading, Want
from cutaway.parts.kinds.common import AMBIENT_PRESSURE, CONTROL, SEA_LEVEL, above, at_position, within_one
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.kinds.superchargers import ENGINE_CAUTION
from cutaway.parts.recipe import Const, Input, Recipe, Signal, apply, failed

GATE = 0.9  # of the lever's travel
UNLIMITED = 1.0e7  # Pa: no boost control holds anything down


def _gated_throttle(fit: Fit) -> Recipe:
    lever = apply("if", failed("stuck"), 0.0, CONTROL)
    signals = (
        ("position", lever),
        ("opening", within_one(apply("div", lever, GATE))),
        ("past gate", above(lever, GATE + 0.005)),
    )
    return Recipe(signals=signals)


GATED_THROTTLE = Kind(
    "gated throttle",
    "A throttle lever with a gate at nine tenths of its travel. At the gate the throttle is wide open as far as the "
    "lever goes; through it, the boost control is asked for take-off boost.",
    ports=(),
    build=_gated_throttle,
    controls=(Control("", ("closed", "gate", "open"), ranged=True, points=(0.0, GATE, 1.0)),),
    failures=(Failure("stuck", "Its linkage has parted and the spring has closed the throttle."),),
    example=powerplant(
        "throttle closed | engine reads 600 rpm ± 5 rpm",
        "throttle gate | engine boost reads 7 lb/sq in ± 0.05 lb/sq in",
        "throttle open | engine boost reads 9 lb/sq in ± 0.05 lb/sq in",
        "throttle open, throttle stuck | engine reads 600 rpm ± 5 rpm",
    ),
)


def _boost_control(fit: Fit) -> Recipe:
    si = fit.si
    lever = apply(
        "if", Signal("past gate", of="throttle", otherwise=Const(0.0)), si["take-off boost"], si["boost at gate"]
    )
    pulled = apply(
        "if", Signal("S gear", of="engine", otherwise=Const(0.0)), si["S cut-out boost"], si["M cut-out boost"]
    )
    asked = apply("if", at_position(1, Input("control", "cut-out")), pulled, lever)
    allowed = apply("if", failed("capsule failed"), UNLIMITED, apply("add", SEA_LEVEL, asked))
    return Recipe(signals=(("allowed", allowed),))


def _cut_out_boost(gear: str) -> Want:
    return Want(
        f"{gear} cut-out boost",
        "pressure",
        f"Boost that it still holds with the cut-out pulled, in {gear} gear (or, in M, of a blower of one speed).",
        default="60 lb/sq in",
        because="More than any blower gives: with the cut-out pulled the throttle lever alone decides.",
        datum="gauge",
        least="any",
    )


BOOST_CONTROL = Kind(
    "automatic boost control",
    "A capsule in the induction pipe that closes the throttle as far as it must to hold the boost that is asked for. "
    "It can only take away: where the lever opens the throttle less, the lever decides, and above the full-throttle "
    "height nothing is left for it to do.",
    ports=(),
    build=_boost_control,
    controls=(Control("cut-out", ("normal", "pulled")),),
    wants=(
        Want("boost at gate", "pressure", "Boost that it holds up to the gate.", datum="gauge", least="any",
             usual="0.5 to 20 lb/sq in"),
        Want("take-off boost", "pressure", "Boost that it holds with the lever through the gate.", datum="gauge",
             least="any", usual="1 to 25 lb/sq in"),
        _cut_out_boost("M"),
        _cut_out_boost("S"),
    ),
    orders=(Order("boost at gate", "take-off boost", "Through the gate it holds more, or as much.", alike=True),),
    couplings=(
        Coupling("throttle", "signals", "The throttle lever that asks for the boost.", required=True,
                 needs=("past gate",)),
    ),
    failures=(Failure("capsule failed", "It no longer holds the boost down: the lever alone decides."),),
    caution=ENGINE_CAUTION,
    example=powerplant(
        "throttle gate | engine boost reads 7 lb/sq in ± 0.05 lb/sq in",
        "throttle gate, height 20000 ft | engine boost reads below 0 lb/sq in",
        "throttle gate, boost control cut-out pulled | engine boost reads above 12 lb/sq in",
        "throttle gate, boost control capsule failed | engine boost reads above 12 lb/sq in",
    ),
)  # fmt: skip


def _boost_gauge(fit: Fit) -> Recipe:
    outside = apply("sub", AMBIENT_PRESSURE, SEA_LEVEL)
    shown = apply("if", failed("pipe broken"), outside, Signal("boost", of="reads"))
    return Recipe(signals=(("shown", shown),))


BOOST_GAUGE = Kind(
    "boost gauge",
    "Shows the pressure in the induction pipe, above the standard atmosphere of 14.7 lb/sq in. It needs no current. On "
    "a stopped engine it shows how the outside air stands to that.",
    indicates=True,
    ports=(),
    build=_boost_gauge,
    couplings=(Coupling("reads", "signals", "The engine whose boost it shows.", required=True, needs=("boost",)),),
    readings=(Reading("boost", "pressure", "shown", "lb/sq in", main=True, datum="gauge"),),
    failures=(Failure("pipe broken", "Its pipe is open to the air: it shows the outside pressure."),),
    example=powerplant(
        "boost gauge reads 0 lb/sq in ± 0.05 lb/sq in",
        "throttle gate | boost gauge reads 7 lb/sq in ± 0.05 lb/sq in",
        "with height 10000 ft, within 1 s: boost gauge reads below -4 lb/sq in",
        "throttle gate, boost gauge pipe broken | boost gauge reads 0 lb/sq in ± 0.05 lb/sq in",
        more=("boost gauge: {kind: boost gauge, reads: engine}",),
    ),
)

KINDS = (GATED_THROTTLE, BOOST_CONTROL, BOOST_GAUGE)
