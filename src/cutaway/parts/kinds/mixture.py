"""The automatic mixture, and the hot air intake with the ice that it clears."""

from cutaway.parts.kind import Control, Failure, Fit, Kind, Order, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    SEA_LEVEL,
    above,
    at_position,
    fixed,
    least,
    most,
    over,
    product,
    total,
    under,
)
from cutaway.parts.kinds.powerplant_example import powerplant
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
    apply,
    failed,
    unless,
)

ZERO_CELSIUS = 273.15
POUND, RPM = 6_894.757, 0.104_719_755  # Pa, rad/s

# Temperature of the outside air, K: the standard atmosphere at the height, moved by as much as the condition
# 'temperature' (that of the sea level) departs from 288.15 K. Above 11 000 m it falls no further.
OUTSIDE_TEMPERATURE: Expr = apply(
    "sub", Input("condition", "temperature"), apply("mul", 0.0065, apply("min", Input("condition", "height"), 11_000.0))
)


def _mixture(fit: Fit) -> Recipe:
    boost, speed = Signal("boost", of="engine", otherwise=Const(0.0)), Signal("rate of turn", of="engine")
    below, slow = fit.si["weak below boost"], fit.si["weak below speed"]
    lean = Mode(
        "lean",
        least(apply("div", under(boost, below - 0.05 * POUND), POUND), apply("div", under(speed, slow), 10.0 * RPM)),
        most(apply("div", over(boost, below), POUND), apply("div", over(speed, slow + 10.0 * RPM), 10.0 * RPM)),
        started=None,
    )
    weak = product(ModeIs("lean"), unless("stuck rich"))

    def strength(flag: Expr) -> Expr:
        return apply("sub", 1.0, apply("mul", 1.0 - fit.si["weak strength"], flag))

    signals = (
        ("weak", weak),
        ("strength", strength(weak)),
        ("intended strength", strength(ModeIs("lean"))),
        ("power factor", apply("sub", 1.0, apply("mul", 1.0 - fit.si["weak power"], weak))),
    )
    return Recipe(modes=(lean,), signals=signals)


AUTOMATIC_MIXTURE = Kind(
    "automatic mixture",
    "Weakens the mixture by itself below a boost, or below a boost and a speed. The engine that names it tells it how "
    "it stands.",
    ports=(),
    build=_mixture,
    wants=(
        Want("weak below boost", "pressure", "Boost below which the mixture is weak.", datum="gauge", least="any",
             usual="0.1 to 12 lb/sq in"),
        Want("weak below speed", "angular speed", "Engine speed below which it is weak too; above, it is rich.",
             default="6000 rpm", because="More than any engine turns: where nothing is said, boost alone decides."),
        Want("weak strength", "fraction", "Petrol of a weak mixture as a share of that of a rich one.",
             default="75 %", between="65 to 88 %", because=f"{JUDGEMENT} Rich mixtures of the period were very rich.",
             below="100 %"),
        Want("weak power", "fraction", "Power on a weak mixture as a share of that on a rich one.",
             default="96 %", between="92 to 100 %", because=JUDGEMENT, below="101 %"),
    ),
    states=(State("weak", "weak", "rich"),),
    failures=(Failure("stuck rich", "The mixture stays rich at every boost."),),
    example=powerplant(
        "throttle gate | mixture is rich",
        "throttle 20 % | mixture is weak",
        "throttle 20 %, mixture stuck rich | mixture is rich",
    ),
)  # fmt: skip


def _hot_air(fit: Fit) -> Recipe:
    si = fit.si
    hot = product(at_position(1), unless("stuck"))
    rise = apply("mul", hot, si["rise"] - ZERO_CELSIUS)
    intake = total(OUTSIDE_TEMPERATURE, rise)
    forming = product(
        failed("drawing damp air"),
        apply("lt", intake, si["ices below"]),
        above(intake, si["dry below"]),
        above(Signal("rate of turn", of="engine", otherwise=Const(0.0)), 1.0),
    )
    melting = apply("ge", intake, si["ices below"])
    # Ice in per cent of what would choke the engine; a state of its own, in the units of heat for its scales.
    nodes = (Node("ice", "heat", start=0.0, store=1.0), fixed("full", "heat", Const(100.0)), fixed("none", "heat"))
    elements = (
        Element("forming", "LIN", ("full", "ice"), (1.0 / si["ice forms in"],), gate=forming),
        Element("melting", "LIN", ("ice", "none"), (1.0 / si["ice clears in"],), gate=melting),
    )
    ice = apply("mul", 0.01, Across("ice"))
    signals = (
        ("warm", rise),
        ("hot", hot),
        ("share passed", apply("sub", 1.0, apply("mul", si["boost loss"] / SEA_LEVEL, hot))),
        ("ice", ice),
        ("iced", above(ice, 0.5)),
        ("free area", apply("sub", 1.0, apply("mul", 0.9, ice))),
    )
    return Recipe(nodes, elements, signals=signals)


HOT_AIR_INTAKE = Kind(
    "hot air intake",
    "Takes the engine's air from outside, or warmed by the engine. Warm air costs boost, in the blower and in the "
    "longer way in, and clears ice. Ice forms at the throttle in damp air of a certain coolness, and bit by bit takes "
    "away its area: the boost control opens the throttle against it until there is nothing left to open. Damp air is "
    "set as if it were a failure: `with carburettor intake drawing damp air`. Outside temperature is that of the "
    "standard atmosphere at the height, moved by as much as the condition `temperature` departs from 15 °C. All of "
    "the ice is engineering judgement.",
    ports=(),
    build=_hot_air,
    controls=(Control("", ("cold", "hot")),),
    wants=(
        Want("rise", "temperature", "To what it warms air of 0 °C, which is its rise in degrees Celsius.",
             default="25 °C", between="10 to 50 °C", because=JUDGEMENT, least="any"),
        Want("boost loss", "pressure", "Boost that the longer way in costs at 0 lb/sq in, and in proportion elsewhere.",
             default="0.4 lb/sq in", between="0 to 1 lb/sq in", because=JUDGEMENT, least="nought", below="10 lb/sq in"),
        Want("ices below", "temperature", "Temperature of damp intake air below which ice forms, and from which it "
             "melts.", default="15 °C", between="8 to 25 °C",
             because=f"{JUDGEMENT} Petrol that evaporates cools the air by some twenty degrees.", least="any"),
        Want("dry below", "temperature", "Temperature of intake air below which it is too dry for ice.",
             default="-12 °C", between="-20 to -5 °C", because=JUDGEMENT, least="any"),
        Want("ice forms in", "time", "Time in which two thirds of what would choke the engine forms.",
             default="4 min", between="1 to 15 min", because=JUDGEMENT),
        Want("ice clears in", "time", "Time in which two thirds of the ice melt in warm air.",
             default="20 s", between="5 to 90 s", because=JUDGEMENT),
    ),
    orders=(Order("dry below", "ices below", "Ice forms between the two."),),
    states=(State("iced", "iced", "clear"), State("warmed", "hot")),
    failures=(
        Failure("stuck", "Its flap stays at cold, whatever is asked."),
        Failure("drawing damp air", "No fault of its own: the air outside is damp, so that ice may form."),
    ),
    families=("LIN",),
    example=powerplant(
        "throttle open, height 12000 ft, intake hot, boost control cut-out pulled | intake is warmed",
        "throttle gate, intake drawing damp air, temperature 5 °C | 10 min | intake is iced",
        "throttle gate, intake hot, intake drawing damp air, temperature 5 °C | 10 min | intake is clear",
        "throttle gate, intake hot, intake stuck | intake is not warmed",
    ),
)  # fmt: skip

KINDS = (AUTOMATIC_MIXTURE, HOT_AIR_INTAKE)
