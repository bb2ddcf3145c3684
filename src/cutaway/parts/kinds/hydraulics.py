"""Oil: reservoir, hand pump, valves and the selector. Pressures are gauge; the reservoir is vented."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds import oil_examples
from cutaway.parts.kinds.common import CONTROL, JUDGEMENT, at_position, port
from cutaway.parts.kinds.liquids import (
    OIL,
    empty_mode,
    hand_pump,
    non_return_valve,
    relief,
    relief_recipe,
    vessel,
    vessel_signals,
    way,
)
from cutaway.parts.recipe import Const, Element, Recipe, Table, failed

TEN_POUNDS = 68_947.57  # Pa in 10 lb/sq in: the drop at which oil cocks and valves are rated here

INLET = Port("inlet", "oil", "west", "in")
OUTLET = Port("outlet", "oil", "east", "out")
RATED_FLOW = Want(
    "flow",
    "volume flow",
    "What it passes at a drop of 10 lb/sq in.",
    default="13 gal/h",
    between="6 to 40 gal/h",
    because=f"{JUDGEMENT} A small selector or valve with quarter-inch ways.",
)


def _reservoir(fit: Fit) -> Recipe:
    capacity = fit.si["capacity"]
    nodes = (port("outlet", "oil"), port("return", "oil"))
    elements = (
        vessel(OIL, capacity, 0.3, "outlet", "oil"),
        # Both pipes end in the same vessel: between them there is next to no resistance.
        Element("vessel", "LIN", ("return", "outlet"), (1e-6,)),
    )
    return Recipe(nodes, elements, (empty_mode("oil", capacity),), vessel_signals("oil", capacity))


RESERVOIR = Kind(
    "reservoir",
    "Holds the oil, vented to the air.",
    ports=(OUTLET, Port("return", "oil", "west", "in")),
    build=_reservoir,
    wants=(Want("capacity", "volume", "What it holds when full.", usual="0.1 to 30 gal"),),
    states=(State("empty", "empty"),),
    readings=(Reading("contents", "volume", "contents", "pint", main=True),),
    contents=(Holds("volume", "oil", full="capacity"),),
    families=("TANK", "LIN"),
    example=oil_examples.RESERVOIR,
)

HYDRAULIC_HAND_PUMP = Kind(
    "hydraulic hand pump",
    "A pump worked by a lever; the arm gives up near its handle limit.",
    ports=(INLET, OUTLET),
    build=lambda fit: hand_pump(OIL, fit.si["stroke"], fit.si["rate"], fit.si["pressure"]),
    controls=(Control("", ("idle", "pumping")),),
    wants=(
        Want(
            "stroke",
            "volume",
            "What one double stroke moves.",
            default="25 cc",
            between="5 to 40 cc",
            because=JUDGEMENT,
        ),
        Want(
            "rate",
            "rate",
            "Double strokes a minute while somebody is pumping.",
            default="40 strokes/min",
            between="20 to 60 strokes/min",
            because=f"{JUDGEMENT} What can be kept up for a few minutes.",
        ),
        Want(
            "pressure",
            "pressure",
            "The pressure against which the arm gives up.",
            default="1000 lb/sq in",
            between="350 to 2000 lb/sq in",
            because=f"{JUDGEMENT} Set by the handle's length and the piston's area.",
        ),
    ),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(Failure("leaking washer", "Three tenths of each stroke are delivered."),),
    families=("PDPUMP", "ONEWAY"),
    example=oil_examples.HYDRAULIC_HAND_PUMP,
)


def _relief(fit: Fit) -> Recipe:
    opens, flow = fit.si["set at"], fit.si["full flow"]
    ends = ("inlet", "outlet")
    elements = (
        relief(OIL, "valve", ends, opens, 0.05 * opens, flow),
        way(OIL, "held open", ends, flow, 0.1 * opens, gate=failed("stuck open")),
    )
    return relief_recipe(OIL, elements, Const(opens), held_open=failed("stuck open"))


OIL_RELIEF_VALVE = Kind(
    "oil relief valve",
    "Opens when the pressure across it is above its setting, and is wide open a twentieth above that.",
    ports=(INLET, OUTLET),
    build=_relief,
    wants=(
        Want("set at", "pressure", "The pressure across it at which it begins to open.", usual="20 to 5000 lb/sq in"),
        Want(
            "full flow",
            "volume flow",
            "What it passes when it is wide open.",
            default="150 gal/h",
            between="90 to 400 gal/h",
            because=f"{JUDGEMENT} More than one pump before it can deliver; two pumps want a larger one.",
        ),
    ),
    states=(State("open", "open", "closed"),),
    levels=(Level("holds", "set at", "inlet", "opens at"),),
    failures=(Failure("stuck open", "Oil runs back to the reservoir at little pressure."),),
    families=("RELIEF", "ROOT"),
    example=oil_examples.OIL_RELIEF_VALVE,
)

OIL_NON_RETURN_VALVE = Kind(
    "oil non-return valve",
    "Lets oil pass one way only.",
    ports=(INLET, OUTLET),
    build=lambda fit: non_return_valve(OIL, fit.si["flow"], TEN_POUNDS),
    wants=(RATED_FLOW,),
    failures=(Failure("stuck open", "Oil passes both ways."),),
    families=("ONEWAY", "ROOT"),
    example=oil_examples.OIL_NON_RETURN_VALVE,
)


def _selector(fit: Fit) -> Recipe:
    flow, down, up = fit.si["flow"], at_position(1), at_position(2)
    leak = (2e-4 * flow / TEN_POUNDS,)
    elements = (
        way(OIL, "pressure to down", ("pressure", "down"), flow, TEN_POUNDS, down),
        way(OIL, "up to return", ("up", "return"), flow, TEN_POUNDS, down),
        way(OIL, "pressure to up", ("pressure", "up"), flow, TEN_POUNDS, up),
        way(OIL, "down to return", ("down", "return"), flow, TEN_POUNDS, up),
        Element("leak down", "LIN", ("down", "return"), leak, gate=failed("internal leak")),
        Element("leak up", "LIN", ("up", "return"), leak, gate=failed("internal leak")),
    )
    nodes = tuple(port(name, "oil") for name in ("pressure", "return", "down", "up"))
    return Recipe(nodes, elements, signals=(("position", Table(CONTROL, (0.0, 1.0, 2.0), (0.5, 1.0, 0.0))),))


SELECTOR_VALVE = Kind(
    "selector valve",
    "Sends pressure to one side of a jack and lets the other return. In neutral every way is blocked, so the jack "
    "is locked by its own oil.",
    ports=(
        Port("pressure", "oil", "west", "in"),
        Port("return", "oil", "west", "out"),
        Port("down", "oil", "east"),
        Port("up", "oil", "east"),
    ),
    build=_selector,
    controls=(Control("", ("neutral", "down", "up")),),
    wants=(RATED_FLOW,),
    failures=(Failure("internal leak", "Both jack pipes leak slowly to the return, even in neutral."),),
    families=("ROOT", "LIN"),
    example=oil_examples.SELECTOR_VALVE,
)


KINDS = (
    RESERVOIR,
    HYDRAULIC_HAND_PUMP,
    OIL_RELIEF_VALVE,
    OIL_NON_RETURN_VALVE,
    SELECTOR_VALVE,
)
