"""Oil: reservoir, hand pump, valves, the selector and the jack. Pressures are gauge; the reservoir is vented."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, at_position, latch, port, product, total
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
from cutaway.parts.laws.sizing import stop_stiffness
from cutaway.parts.recipe import Const, Content, Element, Input, ModeIs, Recipe, apply, failed, unless

TEN_POUNDS = 68_947.57  # Pa in 10 lb/sq in: the drop at which oil cocks and valves are rated here
REFERENCE_SPEED = 100.0 * 1852.0 / 3600.0  # 100 kt, at which air loads are given

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
    failures=(Failure("leaking washer", "Three tenths of each stroke are delivered."),),
    families=("PDPUMP", "ONEWAY"),
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
            default="60 gal/h",
            between="20 to 300 gal/h",
            because=f"{JUDGEMENT} More than the pump before it can deliver.",
        ),
    ),
    states=(State("open", "open", "closed"),),
    failures=(Failure("stuck open", "Oil runs back to the reservoir at little pressure."),),
    families=("RELIEF", "ROOT"),
)

OIL_NON_RETURN_VALVE = Kind(
    "oil non-return valve",
    "Lets oil pass one way only.",
    ports=(INLET, OUTLET),
    build=lambda fit: non_return_valve(OIL, fit.si["flow"], TEN_POUNDS),
    wants=(RATED_FLOW,),
    failures=(Failure("stuck open", "Oil passes both ways."),),
    families=("ONEWAY", "ROOT"),
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
    return Recipe(nodes, elements)


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
)


def _jack(fit: Fit) -> Recipe:
    area, stroke = fit.si["area"], fit.si["stroke"]
    annulus = max(area - fit.si["rod area"], 0.2 * area)
    # Dry friction and the end stops belong to the law. Viscous drag: 0.2 bar at 10 mm/s, so small that it only damps.
    stop = stop_stiffness(area, 1e7, 0.002 * stroke)
    parameters = (area, annulus, fit.si["friction"], 2e6 * area, 0.0, 0.0, 1.0, 0.0, stroke, stop)
    speed = apply("div", Input("condition", "airspeed"), REFERENCE_SPEED)
    against = total(Const(fit.si["spring load"]), product(Const(fit.si["load"]), speed, speed))
    elements = (
        Element("piston", "JACK", ("extend", "retract"), parameters, unless("jammed"), against, content=0.0),
        Element("seal", "LIN", ("extend", "retract"), (2e-12,), gate=failed("seal leaking")),
    )
    modes = (
        latch("extended", Content("piston"), 0.98 * stroke, 0.97 * stroke),
        latch("retracted", apply("sub", 0.0, Content("piston")), -0.02 * stroke, -0.03 * stroke),
    )
    signals = (
        ("travel", Content("piston")),
        ("extension", apply("div", Content("piston"), stroke)),
        ("extended", ModeIs("extended")),
        ("retracted", ModeIs("retracted")),
    )
    nodes = tuple(port(name, "oil") for name in ("extend", "retract"))
    return Recipe(nodes, elements, modes, signals)


JACK = Kind(
    "jack",
    "A piston moved by oil from either side. It stands retracted at the very beginning.",
    ports=(Port("extend", "oil", "west", "in"), Port("retract", "oil", "west", "out")),
    build=_jack,
    wants=(
        Want("area", "area", "Area of the piston on the side that extends it.", usual="0.05 to 60 sq in"),
        Want(
            "rod area",
            "area",
            "Area of the rod, which the side that retracts it lacks; counted as four fifths of the piston at most.",
            default="0.3 sq in",
            between="0.1 to 1 sq in",
            because=f"{JUDGEMENT} A rod of about five eighths of an inch.",
            least="nought",
        ),
        Want("stroke", "length", "How far it can travel.", usual="0.2 to 80 in"),
        Want(
            "friction",
            "force",
            "What its seals and the linkage resist, in either direction.",
            default="15 lbf",
            between="5 to 40 lbf",
            because=f"{JUDGEMENT} A few per cent of its thrust.",
            least="nought",
        ),
        Want(
            "load",
            "force",
            "Air load against extending at 100 kt; it grows with the square of the airspeed.",
            default="0 lbf",
            between="0 to 200 lbf",
            because=f"{JUDGEMENT} Where a handbook is silent, the jack is taken to have thrust to spare.",
            least="any",
        ),
        Want(
            "spring load",
            "force",
            "Steady load against extending.",
            default="0 lbf",
            because="Most have no spring.",
            least="any",
        ),
    ),
    states=(State("extended", "extended"), State("retracted", "retracted")),
    readings=(Reading("travel", "length", "travel", "in", main=True),),
    failures=(
        Failure("seal leaking", "Oil passes the piston: it is slow, and creeps unless both its pipes are blocked."),
        Failure("jammed", "It stays where it is."),
    ),
    contents=(Holds("length", "piston", full="stroke"),),
    families=("JACK", "LIN"),
)

KINDS = (
    RESERVOIR,
    HYDRAULIC_HAND_PUMP,
    OIL_RELIEF_VALVE,
    OIL_NON_RETURN_VALVE,
    SELECTOR_VALVE,
    JACK,
)
