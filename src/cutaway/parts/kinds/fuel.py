"""Petrol where it stands and passes: tanks, cocks, filters, valves.

Pressures are gauge. Figures that a handbook seldom gives have defaults for an engine of about 130 horse-power.
"""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    CONTROL,
    JUDGEMENT,
    at_position,
    drops_to,
    fixed,
    no,
    port,
    product,
)
from cutaway.parts.kinds.liquids import (
    PETROL,
    contents_of,
    empty_mode,
    hole,
    non_return_valve,
    one_way,
    relief,
    relief_recipe,
    vessel,
    vessel_signals,
    way,
)
from cutaway.parts.laws.sizing import static_head
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Node,
    Recipe,
    Signal,
    Through,
    apply,
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
    usual="30 to 3000 gal/h",
)
FULL_FLOW = Want(
    "full flow",
    "volume flow",
    "What the engine takes at full throttle and rated speed.",
    default="12 gal/h",
    between="6 to 40 gal/h",
    because=f"{JUDGEMENT} About 0.6 pint a horse-power an hour.",
    usual="3 to 250 gal/h",
)


VAPOUR = "Petrol vapour burns and poisons: no flame or spark near it."


def _tank(fit: Fit) -> Recipe:
    capacity = fit.si["capacity"]
    leak, open_air = hole(PETROL, "outlet", 0.006, "leaking")
    signals = vessel_signals("fuel", capacity)
    empty = empty_mode("fuel", capacity)
    if "vent" in fit.coupled:
        contents = vessel(PETROL, capacity, fit.si["head"], "bottom", "fuel")
        nodes, elements = stretched_air(capacity)
        return Recipe((port("outlet", "petrol"), open_air, *nodes), (contents, leak, *elements), (empty,), signals)
    contents = vessel(PETROL, capacity, fit.si["head"], "outlet", "fuel")
    return Recipe((port("outlet", "petrol"), open_air), (contents, leak), (empty,), signals)


def stretched_air(capacity: float) -> tuple[tuple[Node, ...], tuple[Element, ...]]:
    """What holds a tank's petrol back while its vent is blocked, between the tank's bottom and its outlet.

    The volume that has been drawn since the vent was blocked stretches the air above the petrol, which is then thinner
    by ambient pressure · drawn / air space (Boyle's law). A fiftieth of a full tank is air.
    """
    cubic_centimetre, quick = 1e-6, 1e-5  # m³; m³/s per Pa, so that what leaves costs no head worth speaking of
    blocked = Signal("blocked", of="vent")
    space = apply("sub", 1.02 * capacity, contents_of("fuel"))
    drawn = apply("mul", cubic_centimetre, Across("drawn"))
    thinner = product(AMBIENT_PRESSURE, apply("div", drawn, space))
    leaving = apply("div", apply("sub", Through("leaving", 1), Through("coming")), cubic_centimetre)
    out, back = apply("max", 0.0, leaving), apply("max", 0.0, apply("neg", leaving))
    # 'drawn' is a number that is kept, in the units of heat for its scales: as many degrees as cubic centimetres.
    nodes = (
        Node("bottom", "petrol"),
        Node("drawn", "heat", start=0.0, store=1.0),
        fixed("hot", "heat", Const(1e9)),
        fixed("cold", "heat", Const(-1e9)),
        fixed("none", "heat"),
    )
    elements = (
        # From the outlet's side it is a source that only takes back: below the tank's head less the want of air.
        Element("leaving", "SOURCE", ("outlet", "bottom"), (1.0, quick, -1.0, 0.0, 1e-9), drive=thinner),
        one_way(PETROL, "coming", ("outlet", "bottom"), 0.01, POUND),
        Element("counting out", "DRAW", ("hot", "drawn"), (1.0, 0.0, 1.0), gate=blocked, drive=out),
        Element("counting in", "DRAW", ("drawn", "cold"), (1.0, 0.0, 1.0), gate=blocked, drive=back),
        Element("letting in", "LIN", ("drawn", "none"), (2.0,), gate=no(blocked)),
    )
    return nodes, elements


TANK = Kind(
    "tank",
    "Holds petrol, vented to the air. Its outlet stands under the head of what is left.",
    ports=(Port("outlet", "petrol", "east", "out"),),
    build=_tank,
    wants=(
        Want("capacity", "volume", "What it holds when full.", usual="0.5 to 3000 gal"),
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
    levels=(Level("gives", "head", "outlet", "has a head of no more than", per=static_head(PETROL.density, 1.0)),),
    failures=(Failure("leaking", "Petrol runs out through a quarter-inch hole at the bottom."),),
    contents=(Holds("volume", "fuel", full="capacity"),),
    families=("TANK", "ROOT"),
    caution=VAPOUR,
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\ngauge: {kind: contents gauge, reads: tank}",
        (
            "tank reads 20 gal",
            "after wait 10 min, at 10 min: tank reads 20 gal",
            "with tank leaking, at 10 min: tank reads below 15 gal",
        ),
    ),
)


def _selector(fit: Fit) -> Recipe:
    ways, flow = fit.lists["ways"], fit.si["flow"]
    # One way is open at a time, so nothing can run from tank to tank; back into the open tank it can, as in the cock.
    elements = tuple(
        way(PETROL, f"way {name}", (name, "outlet"), flow, POUND, product(at_position(i), unless("blocked")))
        for i, name in enumerate(ways, start=1)
    )
    nodes = tuple(port(name, "petrol") for name in (*ways, "outlet"))
    return Recipe(nodes, elements, signals=(("position", apply("min", 1.0, CONTROL)),))


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
    example=Example(
        "port tank: {kind: tank, capacity: 20 gal}\n"
        "starboard tank: {kind: tank, capacity: 20 gal}\n"
        "selector: {kind: selector cock, ways: [port tank, starboard tank]}\n"
        "spout: {kind: jettison valve, flow: 300 gal/h}",
        (
            "after selector to port tank then spout to open, at 2 min: port tank reads below 18 gal",
            "after selector to port tank then spout to open, at 2 min: starboard tank reads above 19.9 gal",
            "after spout to open, at 2 min: port tank reads above 19.9 gal",
            "with selector blocked, after selector to port tank then spout to open, at 2 min: "
            "port tank reads above 19.9 gal",
        ),
        "port tank > selector.port tank\nstarboard tank > selector.starboard tank\nselector > spout",
    ),
)


def _cock(fit: Fit) -> Recipe:
    gate = product(at_position(1), unless("blocked"))
    passage = way(PETROL, "way", ("inlet", "outlet"), fit.si["flow"], POUND, gate)
    return Recipe((port("inlet", "petrol"), port("outlet", "petrol")), (passage,), signals=(("position", CONTROL),))


COCK = Kind(
    "cock",
    "Opens or shuts a petrol pipe.",
    ports=(INLET, OUTLET),
    build=_cock,
    controls=(Control("", ("off", "on")),),
    wants=(RATED_FLOW,),
    failures=(Failure("blocked", "Nothing passes, even when it is on."),),
    families=("ROOT",),
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\ncock: {kind: cock}\nspout: {kind: jettison valve, flow: 300 gal/h}",
        (
            "after cock to on then spout to open, at 2 min: tank reads below 18 gal",
            "after spout to open, at 2 min: tank reads above 19.9 gal",
            "with cock blocked, after cock to on then spout to open, at 2 min: tank reads above 19.9 gal",
        ),
        "tank > cock > spout",
    ),
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
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\n"
        "filter: {kind: fuel filter, full flow: 100 gal/h}\n"
        "spout: {kind: jettison valve, flow: 100 gal/h}",
        (
            "after spout to open, at 10 s: spout reads above 80 gal/h",
            "with filter choked, after spout to open, at 10 s: spout reads below 5 gal/h",
        ),
        "tank > filter > spout",
    ),
)


FUEL_NON_RETURN_VALVE = Kind(
    "fuel non-return valve",
    "Lets petrol pass one way only.",
    ports=(INLET, OUTLET),
    build=lambda fit: non_return_valve(PETROL, fit.si["flow"], POUND),
    wants=(RATED_FLOW,),
    failures=(Failure("stuck open", "Petrol passes both ways."),),
    families=("ONEWAY", "ROOT"),
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\n"
        "valve: {kind: fuel non-return valve}\n"
        "lower tank: {kind: tank, capacity: 20 gal}",
        (
            "with lower tank at 5 gal, after wait 10 min, at 10 min: lower tank reads above 8 gal",
            "with tank at 5 gal, after wait 10 min, at 10 min: lower tank reads above 19.9 gal",
            "with tank at 5 gal, with valve stuck open, after wait 10 min, at 10 min: lower tank reads below 18 gal",
        ),
        "tank > valve > lower tank.outlet",
    ),
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
        Want("set at", "pressure", "The pressure across it at which it begins to open.", usual="0.5 to 60 lb/sq in"),
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
    levels=(Level("holds", "set at", "inlet", "opens at"),),
    failures=(Failure("weak spring", "Opens at half its setting."),),
    families=("RELIEF",),
    example=Example(
        "tank: {kind: tank, capacity: 20 gal}\n"
        "pump: {kind: hand fuel pump}\n"
        "valve: {kind: fuel relief valve, set at: 3 lb/sq in}\n"
        "gauge: {kind: fuel pressure gauge, senses: pump.outlet}",
        (
            "valve is closed",
            "after pump to pumping, within 10 s: valve is open",
            "after pump to pumping, at 20 s: gauge reads 3.7 lb/sq in ± 0.3",
            "with valve weak spring, after pump to pumping, at 20 s: gauge reads 2.2 lb/sq in ± 0.3",
        ),
        "tank > pump > valve\nvalve.outlet > tank.outlet",
    ),
)


KINDS = (TANK, SELECTOR_COCK, COCK, FUEL_FILTER, FUEL_NON_RETURN_VALVE, FUEL_RELIEF_VALVE)
