"""Petrol: tanks, cocks, filters, pumps, valves and the carburettor.

Pressures are gauge. Figures that a handbook seldom gives have defaults for an engine of about 130 horse-power.
"""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Coupling, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    at_position,
    drops_to,
    fixed,
    least,
    most,
    over,
    port,
    product,
    under,
    when,
    when_not,
)
from cutaway.parts.kinds.liquids import (
    PETROL,
    empty_mode,
    hand_pump,
    hole,
    non_return_valve,
    one_way,
    pump,
    relief,
    relief_recipe,
    vessel,
    vessel_signals,
    way,
)
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Mode,
    ModeIs,
    Recipe,
    Signal,
    Through,
    failed,
    unless,
)

POUND = 6_894.757  # Pa in 1 lb/sq in: the drop at which cocks and valves are rated here

INLET = Port("inlet", "petrol", "west", "in")
OUTLET = Port("outlet", "petrol", "east", "out")
RATED_FLOW = Want(
    "flow",
    "volume flow",
    "What it passes at a drop of 1 lb/sq in.",
    default="250 gal/h",
    between="60 to 800 gal/h",
    because=f"{JUDGEMENT} A half-inch way; the drop at cruising flow is then too small to matter.",
)
FULL_FLOW = Want(
    "full flow",
    "volume flow",
    "What the engine takes at full throttle and rated speed.",
    default="12 gal/h",
    between="6 to 40 gal/h",
    because=f"{JUDGEMENT} About 0.6 pint a horse-power an hour.",
)


def _tank(fit: Fit) -> Recipe:
    capacity = fit.si["capacity"]
    leak, open_air = hole(PETROL, "outlet", 0.006, "leaking")
    contents = vessel(PETROL, capacity, fit.si["head"], "outlet", "fuel")
    nodes = (port("outlet", "petrol"), open_air)
    return Recipe(nodes, (contents, leak), (empty_mode("fuel", capacity),), vessel_signals("fuel", capacity))


TANK = Kind(
    "tank",
    "Holds petrol, vented to the air. Its outlet stands under the head of what is left.",
    ports=(Port("outlet", "petrol", "east", "out"),),
    build=_tank,
    wants=(
        Want("capacity", "volume", "What it holds when full."),
        Want(
            "head",
            "length",
            "Height of the petrol above the outlet when the tank is full.",
            default="0.5 m",
            between="0.2 to 1.5 m",
            because=f"{JUDGEMENT} A tank in a wing root or a fuselage bay.",
        ),
    ),
    states=(State("empty", "empty"),),
    readings=(Reading("contents", "volume", "contents", "gal", main=True),),
    failures=(Failure("leaking", "Petrol runs out through a quarter-inch hole at the bottom."),),
    contents=(Holds("volume", "fuel", full="capacity"),),
    families=("TANK", "ROOT"),
)


def _selector(fit: Fit) -> Recipe:
    ways, flow = fit.lists["ways"], fit.si["flow"]
    # One way is open at a time, so nothing can run from tank to tank; back into the open tank it can, as in the cock.
    elements = tuple(
        way(PETROL, f"way {name}", (name, "outlet"), flow, POUND, product(at_position(i), unless("blocked")))
        for i, name in enumerate(ways, start=1)
    )
    nodes = tuple(port(name, "petrol") for name in (*ways, "outlet"))
    return Recipe(nodes, elements)


SELECTOR_COCK = Kind(
    "selector cock",
    "Joins one of several ways to its outlet, or none.",
    ports=(Port("way", "petrol", "west", each="ways"), OUTLET),
    build=_selector,
    controls=(Control("", ("off",), each="ways"),),
    wants=(RATED_FLOW,),
    failures=(Failure("blocked", "Nothing passes, whatever it is set to."),),
    lists=("ways",),
    families=("ROOT",),
)


def _cock(fit: Fit) -> Recipe:
    gate = product(at_position(1), unless("blocked"))
    passage = way(PETROL, "way", ("inlet", "outlet"), fit.si["flow"], POUND, gate)
    return Recipe((port("inlet", "petrol"), port("outlet", "petrol")), (passage,))


COCK = Kind(
    "cock",
    "Opens or shuts a petrol pipe.",
    ports=(INLET, OUTLET),
    build=_cock,
    controls=(Control("", ("off", "on")),),
    wants=(RATED_FLOW,),
    failures=(Failure("blocked", "Nothing passes, even when it is on."),),
    families=("ROOT",),
)


def _filter(fit: Fit) -> Recipe:
    gauze = way(
        PETROL, "gauze", ("inlet", "outlet"), fit.si["full flow"], fit.si["drop"], gate=drops_to(0.02, "choked")
    )
    return Recipe((port("inlet", "petrol"), port("outlet", "petrol")), (gauze,))


FUEL_FILTER = Kind(
    "fuel filter",
    "Keeps dirt and water from the pump, and costs a little pressure.",
    ports=(INLET, OUTLET),
    build=_filter,
    wants=(
        Want(
            "drop",
            "pressure",
            "Pressure lost through it at full flow when clean.",
            default="0.2 lb/sq in",
            between="0.05 to 0.6 lb/sq in",
            because=f"{JUDGEMENT} A clean gauze loses little.",
        ),
        FULL_FLOW,
    ),
    failures=(Failure("choked", "Passes a fiftieth of what it does when clean."),),
    families=("ROOT",),
)


def _engine_pump(fit: Fit) -> Recipe:
    delivery, pressure = fit.si["delivery"], fit.si["pressure"]
    band = 0.1 * pressure
    ends = ("inlet", "outlet")
    speed = Signal("speed", of="driven by")
    elements = (
        pump(PETROL, "vanes", ends, delivery, 3.0 * pressure, 0.3, product(speed, unless("seized"))),
        # The relief valve's band is laid so that it passes the whole delivery just at the pressure the book gives.
        relief(PETROL, "relief", ("outlet", "inlet"), pressure - 0.5 * band, band, 2.0 * delivery),
        one_way(PETROL, "by-pass", ends, delivery, 0.1 * POUND),
        # Past the vanes, both ways: pressure in the pipes falls by itself within a minute of stopping.
        Element("slip", "LIN", ends, (0.02 * delivery / pressure,)),
    )
    return Recipe((port("inlet", "petrol"), port("outlet", "petrol")), elements)


ENGINE_PUMP = Kind(
    "engine-driven fuel pump",
    "A vane pump with its own relief valve. At rest, petrol passes forwards through a by-pass valve, so that "
    "hand pumping and gravity can still feed the engine (common practice).",
    ports=(INLET, OUTLET),
    build=_engine_pump,
    wants=(
        Want(
            "delivery",
            "volume flow",
            "What it moves at the engine's rated speed.",
            default="24 gal/h",
            between="15 to 80 gal/h",
            because=f"{JUDGEMENT} Twice what the engine takes at full power.",
        ),
        Want(
            "pressure",
            "pressure",
            "What its relief valve keeps when nothing is drawn at rated speed.",
            default="4 lb/sq in",
            between="1.7 to 7 lb/sq in",
            because=f"{JUDGEMENT} Usual for a float carburettor.",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=("speed",)),),
    failures=(Failure("seized", "Its drive has sheared: the vanes stand still and the by-pass alone is open."),),
    families=("PDPUMP", "RELIEF", "ONEWAY", "LIN"),
)

HAND_FUEL_PUMP = Kind(
    "hand fuel pump",
    "A pump worked by a lever. At rest, petrol can pass forwards through its valves.",
    ports=(INLET, OUTLET),
    build=lambda fit: hand_pump(PETROL, fit.si["stroke"], fit.si["rate"], fit.si["pressure"]),
    controls=(Control("", ("idle", "pumping")),),
    wants=(
        Want(
            "stroke",
            "volume",
            "What one double stroke moves.",
            default="50 cc",
            between="15 to 80 cc",
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
            default="6.5 lb/sq in",
            between="4 to 12 lb/sq in",
            because=JUDGEMENT,
        ),
    ),
    failures=(Failure("leaking washer", "Three tenths of each stroke are delivered."),),
    families=("PDPUMP", "ONEWAY"),
)

FUEL_NON_RETURN_VALVE = Kind(
    "fuel non-return valve",
    "Lets petrol pass one way only.",
    ports=(INLET, OUTLET),
    build=lambda fit: non_return_valve(PETROL, fit.si["flow"], POUND),
    wants=(RATED_FLOW,),
    failures=(Failure("stuck open", "Petrol passes both ways."),),
    families=("ONEWAY", "ROOT"),
)


def _relief(fit: Fit) -> Recipe:
    opens, flow = fit.si["set at"], fit.si["full flow"]
    spring = drops_to(0.5, "weak spring")
    valve = relief(PETROL, "valve", ("inlet", "outlet"), opens, 0.05 * opens, flow, spring)
    return relief_recipe(PETROL, (valve,), product(Const(opens), spring))


FUEL_RELIEF_VALVE = Kind(
    "fuel relief valve",
    "Opens when the pressure across it is above its setting, and is wide open a twentieth above that.",
    ports=(INLET, OUTLET),
    build=_relief,
    wants=(
        Want("set at", "pressure", "The pressure across it at which it begins to open."),
        Want(
            "full flow",
            "volume flow",
            "What it passes when it is wide open.",
            default="40 gal/h",
            between="20 to 150 gal/h",
            because=f"{JUDGEMENT} More than the pump before it can deliver.",
        ),
    ),
    states=(State("open", "open", "closed"),),
    failures=(Failure("weak spring", "Opens at half its setting."),),
    families=("RELIEF",),
)


def _carburettor(fit: Fit) -> Recipe:
    flow, lowest = fit.si["full flow"], fit.si["lowest pressure"]
    pressure = Across("inlet")
    fed = Mode(
        "fed",
        least(over(pressure, 1.1 * lowest), when_not(failed("float stuck"), lowest)),
        most(under(pressure, lowest), when(failed("float stuck"), lowest)),
        started=None,
    )
    demand = Signal("demand", of="engine", otherwise=Const(0.0))
    jet = Element("jet", "DRAW", ("inlet", "bowl"), (flow, 0.0, lowest), gate=unless("float stuck"), drive=demand)
    nodes = (port("inlet", "petrol"), fixed("bowl", "petrol"))
    return Recipe(nodes, (jet,), (fed,), (("fed", ModeIs("fed")), ("draw", Through("jet"))))


CARBURETTOR = Kind(
    "carburettor",
    "Takes petrol as the engine asks, speed times opening, in full only while the pressure is enough.",
    ports=(INLET,),
    build=_carburettor,
    wants=(
        FULL_FLOW,
        Want(
            "lowest pressure",
            "pressure",
            "Below this its float chamber is no longer kept filled; a tenth above it, it is again.",
            default="1 lb/sq in",
            between="0.1 to 2.5 lb/sq in",
            because=f"{JUDGEMENT} A gravity-fed float valve is content with less, a small one needs more.",
        ),
    ),
    states=(State("fed", "fed", "starved"),),
    readings=(Reading("flow", "volume flow", "draw", "gal/h", main=True),),
    failures=(Failure("float stuck", "The float needle stays shut: no petrol enters."),),
    families=("DRAW",),
)

KINDS = (
    TANK,
    SELECTOR_COCK,
    COCK,
    FUEL_FILTER,
    ENGINE_PUMP,
    HAND_FUEL_PUMP,
    FUEL_NON_RETURN_VALVE,
    FUEL_RELIEF_VALVE,
    CARBURETTOR,
)
