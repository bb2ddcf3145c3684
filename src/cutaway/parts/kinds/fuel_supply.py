"""Petrol in and about the tanks: vents, immersed pumps, cross-feed, jettison, priming, the flowmeter."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds import trainer_examples
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    at_position,
    drops_to,
    fixed,
    latch,
    no,
    port,
    product,
    within_one,
)
from cutaway.parts.kinds.electrics import AIRFRAME, FED_BY_OR_LINE, MADE_FOR, VOLTAGE_24
from cutaway.parts.kinds.fuel import INLET, OUTLET, POUND, RATED_FLOW, VAPOUR
from cutaway.parts.kinds.liquids import PETROL, pump, way
from cutaway.parts.laws.sizing import load_conductance, static_head, stroke_flow
from cutaway.parts.recipe import (
    Across,
    Content,
    Element,
    ModeIs,
    Node,
    Recipe,
    Through,
    apply,
    failed,
    unless,
)

ENDS = ("inlet", "outlet")
NODES = (port("inlet", "petrol"), port("outlet", "petrol"))


def _cross_feed(fit: Fit) -> Recipe:
    passage = way(PETROL, "way", ENDS, fit.si["flow"], POUND, product(at_position(1), unless("blocked")))
    return Recipe(NODES, (passage,), signals=(("position", CONTROL),))


CROSS_FEED_COCK = Kind(
    "cross-feed cock",
    "Joins the petrol of one side to that of the other. It passes both ways: to whichever side has less pressure.",
    ports=(INLET, OUTLET),
    build=_cross_feed,
    controls=(Control("", ("off", "on")),),
    wants=(RATED_FLOW,),
    failures=(Failure("blocked", "Nothing passes, even when it is on."),),
    families=("ROOT",),
    example=Example(
        "port tank: {kind: tank, capacity: 20 gal}\n"
        "starboard tank: {kind: tank, capacity: 20 gal}\n"
        "cross feed: {kind: cross-feed cock}",
        (
            "with port tank at 5 gal, after cross feed to on, within 30 min: starboard tank reads below 13 gal",
            "with starboard tank at 5 gal, after cross feed to on, within 30 min: port tank reads below 13 gal",
            "with port tank at 5 gal, with cross feed blocked, after cross feed to on, at 30 min: port tank reads "
            "below 5.1 gal",
        ),
        "port tank > cross feed > starboard tank.outlet",
    ),
)


def _immersed(fit: Fit) -> Recipe:
    delivery, stall = fit.si["delivery"], fit.si["pressure"]
    whole, free = unless("lead off"), unless("seized")
    share = product(within_one(apply("div", Across("feed"), fit.si["voltage"])), whole, free)
    turns = latch("running", share, 0.3, 0.25)
    running = ModeIs("running")
    takes = load_conductance(fit.si["current"], fit.si["voltage"])
    elements = (
        pump(PETROL, "impeller", ENDS, delivery, stall, 1.0, share),
        way(PETROL, "standing", ENDS, 2.0 * delivery, POUND, no(running)),
        Element("motor", "LIN", ("feed", "airframe"), (takes,), gate=product(whole, free)),
        Element("held still", "LIN", ("feed", "airframe"), (6.0 * takes,), gate=product(whole, failed("seized"))),
    )
    signals = (
        ("running", running),
        ("speed", share),
        ("current", apply("add", Through("motor"), Through("held still"))),
    )
    return Recipe((*NODES, port("feed", "current"), AIRFRAME), elements, (turns,), signals)


IMMERSED_PUMP = Kind(
    "immersed pump",
    "An electric pump in or at a tank. It gives its delivery against nothing and none at its shut-off pressure, less "
    "at a lower voltage. Standing still it lets petrol pass.",
    ports=(INLET, OUTLET, Port("feed", "current", "south")),
    build=_immersed,
    wants=(
        Want("delivery", "volume flow", "What it moves against no pressure, at its voltage.", usual="20 to 600 gal/h"),
        Want(
            "pressure",
            "pressure",
            "Its shut-off pressure: what it keeps when nothing is drawn.",
            default="8 lb/sq in",
            between="4 to 15 lb/sq in",
            because=JUDGEMENT,
        ),
        Want("current", "current", "What it takes at its voltage.", "5 A", "2 to 12 A", JUDGEMENT),
        VOLTAGE_24,
    ),
    couplings=(FED_BY_OR_LINE,),
    states=(State("running", "running", "stopped"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    levels=(
        MADE_FOR,
        Level("gives", "pressure", "outlet", "gives no more than"),
    ),
    failures=(
        Failure("seized", "It stands still and takes six times its current; petrol still passes."),
        Failure("lead off", "It has no current and stands still; petrol still passes."),
    ),
    families=("PDPUMP", "ROOT", "LIN"),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "pump switch: {kind: switch}\n"
        "tank: {kind: tank, capacity: 20 gal}\n"
        "pump: {kind: immersed pump, delivery: 60 gal/h, fed by: pump switch.outlet}\n"
        "cock: {kind: cock}\n"
        "gauge: {kind: fuel pressure gauge, senses: pump.outlet}",
        (
            "gauge reads below 1 lb/sq in",
            "after pump switch to on, within 10 s: gauge reads above 7 lb/sq in",
            "with pump lead off, after pump switch to on, at 10 s: gauge reads below 1 lb/sq in",
            "with pump seized, after pump switch to on, at 10 s: pump reads above 25 A",
            "with pump seized, after pump switch to on, at 10 s: gauge reads above 0.4 lb/sq in",
        ),
        "battery > pump switch\ntank > pump > cock",
    ),
)


def _vent(fit: Fit) -> Recipe:
    return Recipe(signals=(("blocked", failed("blocked")),))


VENT = Kind(
    "vent",
    "Lets air into a tank as its petrol is used. When it is blocked, the air above the petrol is stretched: the "
    "pressure at the outlet falls, in a full tank soon and in a nearly empty one late, until too little comes.",
    ports=(),
    build=_vent,
    couplings=(
        Coupling("vents", "signals", "The tank it serves.", required=True, needs=("contents", "capacity"), back="vent"),
    ),
    failures=(Failure("blocked", "No air comes in."),),
    example=Example(
        "battery: {kind: battery, capacity: 40 Ah, voltage: 24 V}\n"
        "tank: {kind: tank, capacity: 20 gal}\n"
        "vent pipe: {kind: vent, vents: tank}\n"
        "pump: {kind: immersed pump, delivery: 60 gal/h, fed by: battery.positive}\n"
        "valve: {kind: fuel relief valve, set at: 2 lb/sq in}\n"
        "waste tank: {kind: tank, capacity: 100 gal}",
        (
            "with waste tank at 0 gal, after wait 10 min, at 10 min: tank reads below 14 gal",
            "with waste tank at 0 gal, with vent pipe blocked, after wait 10 min, at 10 min: tank reads above 18 gal",
        ),
        "tank > pump > valve\nvalve.outlet > waste tank.outlet",
    ),
)


def _jettison(fit: Fit) -> Recipe:
    opens = product(at_position(1), unless("stuck shut"))
    spout = way(PETROL, "spout", ("inlet", "open air"), fit.si["flow"], static_head(PETROL.density, 0.5), opens)
    nodes = (port("inlet", "petrol"), fixed("open air", "petrol"))
    return Recipe(nodes, (spout,), signals=(("position", opens), ("flow", Through("spout"))))


JETTISON_VALVE = Kind(
    "jettison valve",
    "Lets a tank run out into the air. The flow dwindles with the height of what is left.",
    ports=(INLET,),
    build=_jettison,
    controls=(Control("", ("closed", "open")),),
    wants=(Want("flow", "volume flow", "What runs out under half a metre of petrol.", usual="100 to 20000 gal/h"),),
    readings=(Reading("flow", "volume flow", "flow", "gal/h", main=True),),
    failures=(Failure("stuck shut", "It stays shut."),),
    families=("ROOT",),
    caution=VAPOUR,
    example=Example(
        "tank: {kind: tank, capacity: 100 gal, head: 0.5 m}\njettison valve: {kind: jettison valve, flow: 3000 gal/h}",
        (
            "after jettison valve to open, within 5 min: tank is empty",
            "after jettison valve to open, at 1 min: tank is not empty",
            "with jettison valve stuck shut, after jettison valve to open, at 5 min: tank reads above 99 gal",
        ),
        "tank > jettison valve",
    ),
)


def _priming(fit: Fit) -> Recipe:
    working = at_position(1)
    delivery = stroke_flow(fit.si["stroke"], fit.si["rate"])
    charge = fit.si["primes with"]
    # What stands in the manifold, at next to no pressure, and evaporates from there.
    capacity = charge / 100.0
    manifold = Node("manifold", "petrol")
    drive = product(working, drops_to(0.3, "leaking washer"))
    elements = (
        pump(PETROL, "plunger", ("inlet", "manifold"), delivery, 5.0 * POUND, 0.2, drive),
        Element("standing", "STORE", ("manifold",), (capacity,)),
        Element("evaporating", "LIN", ("manifold", "outside"), (capacity / fit.si["lasts"],)),
    )
    primed = latch("primed", apply("div", Content("standing"), charge), 1.0, 0.3)
    signals = (("primed", ModeIs("primed")), ("working", working))
    return Recipe((port("inlet", "petrol"), manifold, fixed("outside", "petrol")), elements, (primed,), signals)


PRIMING_PUMP = Kind(
    "priming pump",
    "A plunger that sprays petrol into the induction pipe of a cold engine. It is primed once enough is there, until "
    "most of it has evaporated. An engine that says that it is `primed by` it does not catch cold without.",
    ports=(INLET,),
    build=_priming,
    controls=(Control("", ("idle", "pumping")),),
    wants=(
        Want("stroke", "volume", "What one stroke moves.", "10 cc", "5 to 30 cc", JUDGEMENT),
        Want("rate", "rate", "Strokes a minute.", "30 strokes/min", "15 to 60 strokes/min", JUDGEMENT),
        Want("primes with", "volume", "What must stand in the pipe.", "60 cc", "20 to 200 cc", JUDGEMENT),
        Want("lasts", "time", "Time in which two thirds of it evaporate.", "3 min", "1 to 20 min", JUDGEMENT),
    ),
    states=(
        State(
            "primed",
            "primed",
            means="its petrol stands in the induction pipe",
            otherwise="it sprays into the induction pipe",
        ),
    ),
    failures=(Failure("leaking washer", "Three tenths of each stroke are delivered."),),
    families=("PDPUMP", "STORE", "LIN"),
    example=trainer_examples.PRIMING_PUMP,
)


def _flowmeter(fit: Fit) -> Recipe:
    passage = way(PETROL, "vane", ENDS, fit.si["flow"], POUND)
    return Recipe(NODES, (passage,), signals=(("flow", product(Through("vane"), unless("stuck"))),))


FUEL_FLOWMETER = Kind(
    "fuel flowmeter",
    "Shows the petrol that passes through it.",
    indicates=True,
    ports=(INLET, OUTLET),
    build=_flowmeter,
    wants=(RATED_FLOW,),
    readings=(Reading("flow", "volume flow", "flow", "gal/h", main=True),),
    failures=(Failure("stuck", "Its vane sticks: it shows nothing, though petrol passes."),),
    families=("ROOT",),
    example=Example(
        "tank: {kind: tank, capacity: 100 gal, head: 0.5 m}\n"
        "flowmeter: {kind: fuel flowmeter}\n"
        "valve: {kind: jettison valve, flow: 100 gal/h}",
        (
            "after valve to open, within 10 s: flowmeter reads above 80 gal/h",
            "with flowmeter stuck, after valve to open, at 10 s: flowmeter reads 0 gal/h",
            "with flowmeter stuck, after valve to open, at 10 s: valve reads above 80 gal/h",
        ),
        "tank > flowmeter > valve",
    ),
)

KINDS = (CROSS_FEED_COCK, IMMERSED_PUMP, VENT, JETTISON_VALVE, PRIMING_PUMP, FUEL_FLOWMETER)
