"""Superchargers of one and of two speeds, each gear known by the ratings that a handbook prints for it.

A supercharger carries no air here: it says what its gear in use makes of the charge, and the engine works that out.
The constants come from `laws/charge.py`; no ram is counted, so the height of a rating is what the handbook says it is.
"""

from collections.abc import Callable
from dataclasses import dataclass

from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Order, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, SEA_LEVEL, over, product, under
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.laws.atmosphere import isa_pressure, isa_temperature
from cutaway.parts.laws.charge import (
    friction_constant,
    heating_ratio,
    power_constant,
    throttle_constant,
    tip_work,
)
from cutaway.parts.recipe import Const, Expr, Input, Mode, ModeIs, Recipe, Signal, apply, unless

ENGINE_CAUTION = (
    "An engine kills by its airscrew: never turn one by hand or stand in its disc, even with the ignition off."
)
# What an engine asks of its supercharger; both kinds offer all of it.
OFFERS = (
    "tip work",
    "efficiency",
    "throttle constant",
    "power constant",
    "friction constant",
    "rated charge",
    "rated speed",
    "rated power",
    "rated indicated power",
    "S gear",
)


@dataclass(frozen=True, slots=True)
class Gear:
    """The constants of one gear, SI."""

    tip_work: float
    throttle_constant: float
    power_constant: float
    friction_constant: float
    rated_charge: float
    rated_speed: float
    rated_power: float


def gear_of(fit: Fit, names: tuple[str, str, str, str]) -> Gear:
    """The constants of one gear. names: of its boost, speed, full-throttle height and power among the quantities."""
    boost, speed, height, power = (fit.si[name] for name in names)
    efficiency, loss, friction = fit.si["efficiency"], fit.si["throttle loss"], fit.si["friction"]
    manifold, outside, temperature = SEA_LEVEL + boost, isa_pressure(height), isa_temperature(height)
    ratio = manifold / (outside * (1.0 - loss))
    after = temperature * (1.0 + max(0.0, heating_ratio(ratio, efficiency)))
    return Gear(
        tip_work(ratio, temperature, speed, efficiency),
        throttle_constant(loss, speed * ratio / after, temperature),
        power_constant(power, friction, speed, manifold, outside, after),
        friction_constant(power, friction, speed),
        speed * manifold / after,
        speed,
        power,
    )


def _rating(names: tuple[str, str, str, str], where: str, usual_height: str) -> tuple[Want, ...]:
    boost, speed, height, power = names
    return (
        Want(
            boost,
            "pressure",
            f"Boost of the rating{where}, above the standard atmosphere.",
            datum="gauge",
            least="nought",
            usual="1 to 20 lb/sq in",
        ),
        Want(speed, "angular speed", f"Engine speed of the rating{where}.", usual="1800 to 3200 rpm"),
        Want(
            height,
            "length",
            f"Greatest height at which the rated boost is held{where}, throttle wide open, at the rated speed.",
            least="any",
            below="60000 ft",
            usual=usual_height,
        ),
        Want(power, "power", f"Brake power at that height{where}.", usual="200 to 2500 hp"),
    )


_COMMON = (
    Want(
        "efficiency",
        "fraction",
        "Adiabatic efficiency of the blower.",
        default="68 %",
        between="60 to 72 %",
        because=f"{JUDGEMENT} Single-stage blowers of the period.",
        below="100 %",
    ),
    Want(
        "throttle loss",
        "fraction",
        "Share of the outside pressure lost in the intake and the wide-open throttle at the rating.",
        default="4 %",
        between="2 to 8 %",
        because=f"{JUDGEMENT} With the area of the throttle the least certain of a powerplant's figures.",
        below="50 %",
    ),
    Want(
        "friction",
        "fraction",
        "Share of the indicated power that friction takes at the rating.",
        default="13 %",
        between="9 to 17 %",
        because=JUDGEMENT,
        below="60 %",
    ),
)
_SHEARED = Failure("drive sheared", "Its drive has sheared: the air is no longer compressed.")


def _signals(fit: Fit, of_gear: Callable[[str], Expr], reference: Gear, s_gear: Expr) -> tuple[tuple[str, Expr], ...]:
    return (
        ("tip work", product(unless("drive sheared"), of_gear("tip_work"))),
        ("efficiency", Const(fit.si["efficiency"])),
        ("throttle constant", of_gear("throttle_constant")),
        ("power constant", of_gear("power_constant")),
        ("friction constant", of_gear("friction_constant")),
        ("rated charge", of_gear("rated_charge")),
        ("rated speed", Const(reference.rated_speed)),
        ("rated power", Const(reference.rated_power)),
        ("rated indicated power", Const(reference.rated_power / (1.0 - fit.si["friction"]))),
        ("S gear", s_gear),
    )


RATED = ("rated boost", "rated speed", "full-throttle height", "rated power")
M_GEAR = ("M boost", "M speed", "M full-throttle height", "M power")
S_GEAR = ("S boost", "S speed", "S full-throttle height", "S power")


def _one_speed(fit: Fit) -> Recipe:
    gear = gear_of(fit, RATED)
    return Recipe(signals=_signals(fit, lambda name: Const(getattr(gear, name)), gear, Const(0.0)))


ONE_SPEED = Kind(
    "one-speed supercharger",
    "A gear-driven blower of one speed. Its rating, the boost that it holds up to its full-throttle height, fixes what "
    "it does at every other height and speed in the standard atmosphere. No ram is counted.",
    ports=(),
    build=_one_speed,
    wants=(*_rating(RATED, "", "1000 to 25000 ft"), *_COMMON),
    failures=(_SHEARED,),
    caution=ENGINE_CAUTION,
    example=powerplant(
        "throttle gate | engine boost reads 7 lb/sq in ± 0.05 lb/sq in",
        "throttle open, height 5000 ft | engine power reads 1180 hp ± 2 hp",
        "throttle open, height 9000 ft | engine boost reads below 7 lb/sq in",
        "throttle gate, blower drive sheared | engine boost reads below 0 lb/sq in",
        one_speed=True,
    ),
)


def _two_speed(fit: Fit) -> Recipe:
    m, s = gear_of(fit, M_GEAR), gear_of(fit, S_GEAR)
    # A ram in place of the lever: out beyond half its stroke it has changed to S gear.
    lever = Signal("position", of="changed by", otherwise=Input("control", "gear"))
    wanted = product(unless("stuck in M"), lever)
    change = Mode(
        "S gear", over(wanted, 0.5), under(wanted, 0.5), delay=fit.si["change time"], called="change time", started=None
    )

    def of_gear(name: str) -> Expr:
        return apply("if", ModeIs("S gear"), getattr(s, name), getattr(m, name))

    # What a switch on the clutches is moved by.
    position = (("position", ModeIs("S gear")),)
    return Recipe(modes=(change,), signals=(*_signals(fit, of_gear, m, ModeIs("S gear")), *position))


TWO_SPEED = Kind(
    "two-speed supercharger",
    "A gear-driven blower of two speeds: M for moderate heights, S for great ones. It is changed by its own lever, or, "
    "where `changed by` says so, by a ram: the lever then does nothing. Each gear is fixed by its rating, in the "
    "standard atmosphere. No ram pressure is counted.",
    ports=(),
    build=_two_speed,
    controls=(Control("gear", ("M", "S")),),
    wants=(
        *_rating(M_GEAR, " in M gear", "0 to 15000 ft"),
        *_rating(S_GEAR, " in S gear", "5000 to 30000 ft"),
        *_COMMON,
        Want(
            "change time",
            "time",
            "How long the clutches take to change to S gear.",
            default="2 s",
            between="0.5 to 4 s",
            because=JUDGEMENT,
        ),
    ),
    orders=(Order("M full-throttle height", "S full-throttle height", "The faster gear is for the greater heights."),),
    couplings=(
        Coupling(
            "changed by",
            "signals",
            "The ram that changes its gear in place of the lever: out for S, in for M.",
            needs=("position",),
        ),
    ),
    states=(State("in S gear", "S gear", "in M gear"),),
    failures=(Failure("stuck in M", "It stays in M gear, whatever is asked."), _SHEARED),
    caution=ENGINE_CAUTION,
    example=powerplant(
        "throttle open, height 5000 ft | engine power reads 1180 hp ± 2 hp",
        "throttle open, height 14000 ft, blower S | engine power reads 1070 hp ± 2 hp",
        "blower S | blower is in S gear",
        "throttle open, height 14000 ft | engine boost reads below 6 lb/sq in",
        "blower S, blower stuck in M | blower is in M gear",
        "throttle gate, blower drive sheared | engine boost reads below 0 lb/sq in",
    ),
)

KINDS = (ONE_SPEED, TWO_SPEED)
