"""Compressed air: compressor, bottle, and the valves between them and what they serve."""

from collections.abc import Mapping

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Order, Port, Reading, State, Want
from cutaway.parts.kinds.airs import (
    CAUTION,
    CORE,
    FLOW,
    INLET,
    OUTLET,
    OUTSIDE,
    conductance,
    gauge_at,
    passage,
    setting_of,
    valve_constant,
)
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    CONTROL,
    JUDGEMENT,
    SEA_LEVEL,
    TURNS,
    at_position,
    drops_to,
    latch,
    no,
    over,
    port,
    product,
    under,
)
from cutaway.parts.recipe import (
    Across,
    Element,
    Expr,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    apply,
    failed,
    unless,
)


def _compressor(fit: Fit) -> Recipe:
    delivery, stall = fit.si["delivery"], fit.si["pressure"]
    # It fills its cylinder with what air there is: at height, less free air a stroke.
    thinned = apply("div", AMBIENT_PRESSURE, SEA_LEVEL)
    turning = product(Signal("speed", of="driven by"), thinned, drops_to(0.1, "valve leaking"))
    slope = delivery / (0.1 * stall)
    parameters = (stall, slope, 0.0, delivery, 0.01 * delivery)
    pump = Element("cylinder", "SOURCE", ("outside", "outlet"), parameters, gate=turning)
    return Recipe((port("outlet", "air"), OUTSIDE), (pump,))


AIR_COMPRESSOR = Kind(
    "air compressor",
    "Takes air from outside and puts it up to pressure, in proportion to its speed and to the air there is. Its "
    "delivery falls to nothing over the last tenth of its pressure.",
    ports=(OUTLET,),
    build=_compressor,
    wants=(
        Want(
            "delivery",
            "volume flow",
            "Free air that it delivers at its engine's rated speed, at sea level.",
            default="1.7 cu ft/min",
            between="0.6 to 4 cu ft/min",
            because=f"{JUDGEMENT} A small compressor on an engine.",
        ),
        Want(
            "pressure",
            "pressure",
            "The pressure against which it delivers no more.",
            default="450 lb/sq in",
            between="250 to 600 lb/sq in",
            because=f"{JUDGEMENT} Half as much again as the bottle is worked at.",
            datum="gauge",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=TURNS),),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(Failure("valve leaking", "Its delivery valve leaks: a tenth of its delivery is left."),),
    families=("SOURCE",),
    caution=CAUTION,
    example=Example(
        parts="""
throttle: {kind: throttle}
ignition: {kind: magneto switch}
tank: {kind: tank, capacity: 10 gal}
petrol cock: {kind: cock}
carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: ignition}
compressor: {kind: air compressor, driven by: engine, delivery: 2 cu ft/min}
bottle: {kind: air bottle, volume: 0.2 cu ft}
""",
        lines="""
tank > petrol cock > carburettor
compressor > bottle
""",
        claims=(
            "with bottle at 200 lb/sq in, after petrol cock to on then ignition to both then throttle to open then "
            "engine starter to pressed for 5 s, within 3 min: bottle reads above 260 lb/sq in",
            "with bottle at 200 lb/sq in, with compressor valve leaking, after petrol cock to on then ignition to both "
            "then throttle to open then engine starter to pressed for 5 s, throughout 3 min: bottle reads below 260 "
            "lb/sq in",
            "with bottle at 200 lb/sq in, throughout 3 min: bottle reads 200 lb/sq in ± 1",
        ),
    ),
)


def _filled(pressure: float, si: Mapping[str, float]) -> float:
    """Free air in a bottle at a pressure on its gauge, at sea level."""
    return (pressure + SEA_LEVEL) * si["volume"] / SEA_LEVEL


def _bottle(fit: Fit) -> Recipe:
    volume = fit.si["volume"]
    leak = Element("leak", "GASROOT", ("any", "outside"), (conductance(2e-5, SEA_LEVEL), CORE), gate=failed("leaking"))
    holds = Element("air", "STORE", ("any",), (volume / SEA_LEVEL,))
    signals = (("pressure", apply("max", 0.0, gauge_at("any"))),)
    return Recipe((port("any", "air"), OUTSIDE), (holds, leak), signals=signals)


AIR_BOTTLE = Kind(
    "air bottle",
    "Holds compressed air. It begins empty, at the pressure of the air outside.",
    ports=(Port("any", "air", "west", "both"),),
    build=_bottle,
    wants=(Want("volume", "volume", "The room inside it.", usual="0.02 to 5 cu ft"),),
    readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
    failures=(Failure("leaking", "It loses its air over some hours."),),
    contents=(Holds("pressure", "air", held_at=_filled),),
    families=("STORE", "GASROOT"),
    caution=CAUTION,
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.2 cu ft}\ncock: {kind: air cock}\nbrake: {kind: brake}\n",
        lines="bottle > cock > brake\n",
        claims=(
            "with bottle at 300 lb/sq in, throughout 1 min: bottle reads 300 lb/sq in ± 1",
            "with bottle at 300 lb/sq in, after cock to on, within 10 s: bottle reads below 290 lb/sq in",
            "with bottle at 300 lb/sq in, with bottle leaking, within 30 min: bottle reads below 280 lb/sq in",
        ),
    ),
)


def _regulator(fit: Fit) -> Recipe:
    out, back_in = fit.si["cut-out"], fit.si["cut-in"]
    flow = fit.si["flow"]
    pressure = gauge_at("system")
    idling = Mode("idling", over(pressure, out), under(pressure, back_in), dwell=0.2, started=None)
    blows = product(apply("max", ModeIs("idling"), failed("stuck idling")), unless("stuck charging"))
    elements = (
        Element("non-return valve", "GASWAY", ("compressor", "system"), (conductance(flow), CORE, 2_000.0)),
        passage("blow-off", ("compressor", "outside"), 4.0 * flow, blows),
    )
    nodes = (port("compressor", "air"), port("system", "air"), OUTSIDE)
    return Recipe(nodes, elements, (idling,), (("idling", blows),))


CHARGING_REGULATOR = Kind(
    "charging regulator",
    "Lets the compressor blow to the air outside once the bottle is full, and shuts again when it has fallen to the "
    "cut-in pressure. A non-return valve inside holds what the bottle has.",
    ports=(Port("compressor", "air", "west", "in"), Port("system", "air", "east", "out")),
    build=_regulator,
    wants=(
        Want(
            "cut-out",
            "pressure",
            "The system's pressure at which the compressor is let idle.",
            datum="gauge",
            usual="50 to 600 lb/sq in",
        ),
        Want(
            "cut-in",
            "pressure",
            "The system's pressure at which it charges again.",
            datum="gauge",
            usual="40 to 590 lb/sq in",
        ),
        FLOW,
    ),
    orders=(Order("cut-in", "cut-out", "A compressor that is let off at one pressure is called back at a lower one."),),
    states=(
        State("idling", "idling", "charging", means="what is pumped is let out", otherwise="what is pumped goes on"),
    ),
    levels=(
        Level("needs", "cut-out", "system", "lets its compressor off at", "its compressor may never be let off"),
        Level("limits", "cut-out", "system", "lets its compressor off at"),
    ),
    failures=(
        Failure("stuck idling", "The compressor blows to the air outside whatever the bottle holds."),
        Failure("stuck charging", "It never blows off: the pressure rises to what the compressor can do."),
    ),
    families=("GASWAY", "GASROOT"),
    caution=CAUTION,
    example=Example(
        parts="""
charging cock: {kind: air charging connection, pressure: 400 lb/sq in}
trap: {kind: oil and water trap}
regulator: {kind: charging regulator, cut-out: 300 lb/sq in, cut-in: 270 lb/sq in}
bottle: {kind: air bottle, volume: 0.1 cu ft}
""",
        lines="charging cock > trap > regulator > bottle\n",
        claims=(
            "after charging cock to connected, within 2 min: regulator is idling and bottle reads 300 lb/sq in ± 5",
            "after charging cock to connected, within 2 min: bottle reads above 250 lb/sq in",
            "with regulator stuck idling, after charging cock to connected, throughout 2 min: bottle reads below 250 "
            "lb/sq in",
        ),
    ),
)


def _one_way(fit: Fit) -> Recipe:
    flow = fit.si["flow"]
    elements = (
        Element("valve", "GASWAY", ("inlet", "outlet"), (conductance(flow), CORE, 2_000.0)),
        passage("held open", ("inlet", "outlet"), flow, failed("stuck open")),
    )
    return Recipe((port("inlet", "air"), port("outlet", "air")), elements)


AIR_NON_RETURN_VALVE = Kind(
    "air non-return valve",
    "Lets air pass one way only.",
    ports=(INLET, OUTLET),
    build=_one_way,
    wants=(FLOW,),
    failures=(Failure("stuck open", "Air passes both ways."),),
    families=("GASWAY", "GASROOT"),
    example=Example(
        parts="first: {kind: air bottle, volume: 0.1 cu ft}\nvalve: {kind: air non-return valve}\n"
        "second: {kind: air bottle, volume: 0.1 cu ft}\n",
        lines="first > valve > second\n",
        claims=(
            "with first at 200 lb/sq in, within 10 s: second reads above 80 lb/sq in",
            "with second at 200 lb/sq in, throughout 5 min: second reads 200 lb/sq in ± 1",
            "with second at 200 lb/sq in, with valve stuck open, within 10 s: first reads above 80 lb/sq in",
        ),
    ),
)


def _through(name: str, gate: Expr, fit: Fit, signals: tuple[tuple[str, Expr], ...] = ()) -> Recipe:
    nodes = (port("inlet", "air"), port("outlet", "air"))
    return Recipe(nodes, (passage(name, ("inlet", "outlet"), fit.si["flow"], gate),), signals=signals)


AIR_COCK = Kind(
    "air cock",
    "Opens or shuts a pipe for air, suction or pressure; open, air passes both ways.",
    ports=(INLET, OUTLET),
    build=lambda fit: _through("plug", product(at_position(1), unless("blocked")), fit, (("position", CONTROL),)),
    controls=(Control("", ("off", "on")),),
    wants=(FLOW,),
    failures=(Failure("blocked", "Nothing passes, on or off."),),
    families=("GASROOT",),
    example=Example(
        parts="first: {kind: air bottle, volume: 0.1 cu ft}\ncock: {kind: air cock}\n"
        "second: {kind: air bottle, volume: 0.1 cu ft}\n",
        lines="first > cock > second\n",
        claims=(
            "with first at 200 lb/sq in, throughout 5 min: second reads below 1 lb/sq in",
            "with first at 200 lb/sq in, after cock to on, within 10 s: second reads 100 lb/sq in ± 2",
            "with first at 200 lb/sq in, with cock blocked, after cock to on, throughout 1 min: second reads below 1 "
            "lb/sq in",
        ),
    ),
)

OIL_AND_WATER_TRAP = Kind(
    "oil and water trap",
    "Keeps oil and water from the compressor out of the bottle and the valves.",
    ports=(INLET, OUTLET),
    build=lambda fit: _through("chamber", unless("frozen"), fit),
    wants=(FLOW,),
    failures=(Failure("frozen", "The water in it has frozen: nothing passes."),),
    families=("GASROOT",),
    example=Example(
        parts="charging cock: {kind: air charging connection, pressure: 200 lb/sq in}\n"
        "trap: {kind: oil and water trap}\nbottle: {kind: air bottle, volume: 0.1 cu ft}\n",
        lines="charging cock > trap > bottle\n",
        claims=(
            "after charging cock to connected, within 1 min: bottle reads above 190 lb/sq in",
            "with trap frozen, after charging cock to connected, throughout 1 min: bottle reads below 1 lb/sq in",
        ),
    ),
)


def _maintaining(fit: Fit) -> Recipe:
    pressure, flow = fit.si["set at"], fit.si["flow"]
    setting, factor = setting_of(pressure)
    band = 0.05 * pressure + 1_000.0
    ends = ("inlet", "outlet")
    elements = (
        Element("valve", "MAINTAIN", ends, (valve_constant(flow), CORE, setting, band), drive=factor),
        passage("held open", ends, flow, failed("stuck open")),
    )
    opened = latch("open", gauge_at("inlet"), pressure + 0.1 * band, pressure)
    signals = (("open", apply("max", ModeIs("open"), failed("stuck open"))),)
    return Recipe((port("inlet", "air"), port("outlet", "air")), elements, (opened,), signals)


PRESSURE_MAINTAINING_VALVE = Kind(
    "pressure-maintaining valve",
    "Passes on only what its inlet has above its setting, so that what comes before it is never robbed below that.",
    ports=(INLET, OUTLET),
    build=_maintaining,
    wants=(
        Want(
            "set at",
            "pressure",
            "The pressure of its inlet below which it passes nothing.",
            datum="gauge",
            usual="20 to 400 lb/sq in",
        ),
        FLOW,
    ),
    states=(State("open", "open", "closed"),),
    levels=(Level("needs", "set at", "inlet", "passes nothing below", "nothing may ever pass it"),),
    failures=(Failure("stuck open", "It keeps nothing back."),),
    families=("MAINTAIN", "GASROOT"),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.2 cu ft}\n"
        "valve: {kind: pressure-maintaining valve, set at: 130 lb/sq in}\n"
        "service cock: {kind: air cock}\n"
        "services: {kind: air service}\n",
        lines="bottle > valve > service cock > services\n",
        claims=(
            "with bottle at 300 lb/sq in, after service cock to on, within 5 min: bottle reads below 145 lb/sq in",
            "with bottle at 300 lb/sq in, after service cock to on, throughout 1 h: bottle reads above 128 lb/sq in",
            "with bottle at 300 lb/sq in, with valve stuck open, after service cock to on, within 1 h: bottle reads "
            "below 60 lb/sq in",
        ),
    ),
)


def _reducing(fit: Fit) -> Recipe:
    pressure, flow = fit.si["set at"], fit.si["flow"]
    setting, factor = setting_of(pressure)
    band = 0.05 * pressure + 1_000.0
    ends = ("inlet", "outlet")
    elements = (
        Element("valve", "REDUCE", ends, (valve_constant(flow), CORE, setting, band), drive=factor),
        passage("held open", ends, flow, failed("stuck open")),
    )
    return Recipe((port("inlet", "air"), port("outlet", "air")), elements)


PRESSURE_REDUCING_VALVE = Kind(
    "pressure-reducing valve",
    "Feeds its outlet up to its setting and no further.",
    ports=(INLET, OUTLET),
    build=_reducing,
    wants=(
        Want(
            "set at",
            "pressure",
            "The pressure to which it feeds its outlet.",
            datum="gauge",
            usual="5 to 300 lb/sq in",
        ),
        FLOW,
    ),
    levels=(
        Level("needs", "set at", "inlet", "is set at", "it may never have anything to hold back"),
        Level("limits", "set at", "outlet", "lets through up to"),
    ),
    failures=(Failure("stuck open", "Its outlet comes up to the pressure of its inlet."),),
    families=("REDUCE", "GASROOT"),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\n"
        "valve: {kind: pressure-reducing valve, set at: 80 lb/sq in}\nbrake: {kind: brake}\n",
        lines="bottle > valve > brake\n",
        claims=(
            "with bottle at 300 lb/sq in, within 1 min: brake reads 80 lb/sq in ± 2",
            "with bottle at 300 lb/sq in, with valve stuck open, within 1 min: brake reads above 200 lb/sq in",
            "with bottle at 50 lb/sq in, throughout 1 min: brake reads below 50 lb/sq in",
        ),
    ),
)


def _connection(fit: Fit) -> Recipe:
    pressure = fit.si["pressure"]
    supply = Node("supply", "air", boundary=apply("add", AMBIENT_PRESSURE, pressure))
    gate = product(at_position(1), unless("valve stuck"))
    hose = Element("hose", "GASWAY", ("supply", "outlet"), (conductance(fit.si["flow"]), CORE, 0.0), gate=gate)
    return Recipe((port("outlet", "air"), supply), (hose,))


AIR_CHARGING_CONNECTION = Kind(
    "air charging connection",
    "Where the ground supply of air is joined on; a non-return valve keeps the air in when it is taken away.",
    ports=(OUTLET,),
    build=_connection,
    controls=(Control("", ("disconnected", "connected")),),
    wants=(
        Want("pressure", "pressure", "The pressure of the ground supply.", datum="gauge", usual="50 to 1000 lb/sq in"),
        FLOW,
    ),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(Failure("valve stuck", "Its valve does not open: nothing comes in."),),
    families=("GASWAY",),
    caution="Charge only through the approved regulator, with nobody over the bottle or the pipes.",
    example=Example(
        parts="charging cock: {kind: air charging connection, pressure: 300 lb/sq in}\n"
        "bottle: {kind: air bottle, volume: 0.2 cu ft}\n",
        lines="charging cock > bottle\n",
        claims=(
            "after charging cock to connected, within 2 min: bottle reads above 290 lb/sq in",
            "after charging cock to connected for 2 min then wait 3 min, throughout 10 min: bottle reads above 290 "
            "lb/sq in",
            "with charging cock valve stuck, after charging cock to connected, throughout 2 min: bottle reads below 1 "
            "lb/sq in",
        ),
    ),
)


def _service(fit: Fit) -> Recipe:
    flow, least = fit.si["flow"], fit.si["works above"]
    through = conductance(flow, least, least + SEA_LEVEL)
    jets = Element("jets", "GASROOT", ("inlet", "outside"), (through, CORE), gate=drops_to(0.05, "choked"))
    working = latch("working", product(gauge_at("inlet"), unless("choked")), least, 0.95 * least)
    return Recipe((port("inlet", "air"), OUTSIDE), (jets,), (working,), (("working", ModeIs("working")),))


AIR_SERVICE = Kind(
    "air service",
    "Something that takes air all the time it is fed: automatic controls, a spray, a de-icer. It works while its "
    "pressure is high enough.",
    ports=(INLET,),
    build=_service,
    wants=(
        Want(
            "flow",
            "volume flow",
            "Free air that it takes at the least pressure at which it works.",
            default="1.2 cu ft/min",
            between="0.3 to 4 cu ft/min",
            because=f"{JUDGEMENT} The better part of a small compressor.",
        ),
        Want(
            "works above",
            "pressure",
            "The least pressure at which it works.",
            default="35 lb/sq in",
            between="10 to 80 lb/sq in",
            because=JUDGEMENT,
            datum="gauge",
        ),
    ),
    states=(State("working", "working", "not working"),),
    levels=(Level("needs", "works above", "inlet", "works above", "it may never work"),),
    failures=(Failure("choked", "Hardly any air gets through it, and it does not work."),),
    families=("GASROOT",),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 1 cu ft}\ncock: {kind: air cock}\n"
        "automatic controls: {kind: air service}\n",
        lines="bottle > cock > automatic controls\n",
        claims=(
            "with bottle at 200 lb/sq in, after cock to on, within 10 s: automatic controls are working",
            "with bottle at 20 lb/sq in, after cock to on, throughout 1 min: automatic controls are not working",
            "with bottle at 200 lb/sq in, with automatic controls choked, after cock to on, throughout 1 min: "
            "automatic controls are not working",
        ),
    ),
)


def _selector(fit: Fit) -> Recipe:
    flow, down, up = fit.si["flow"], at_position(1), at_position(2)
    elements = (
        passage("supply to down", ("supply", "down"), flow, down),
        passage("supply to up", ("supply", "up"), flow, up),
        passage("down to outside", ("down", "outside"), flow, product(no(down), unless("exhaust blocked"))),
        passage("up to outside", ("up", "outside"), flow, product(no(up), unless("exhaust blocked"))),
    )
    nodes = (*(port(name, "air") for name in ("supply", "down", "up")), OUTSIDE)
    return Recipe(nodes, elements)


AIR_SELECTOR = Kind(
    "air selector",
    "Sends air to one of two pipes and lets the other exhaust; off, both exhaust.",
    ports=(
        Port("supply", "air", "west", "in"),
        Port("down", "air", "east"),
        Port("up", "air", "east"),
    ),
    build=_selector,
    controls=(Control("", ("off", "down", "up")),),
    wants=(FLOW,),
    failures=(Failure("exhaust blocked", "What was sent to a pipe stays in it."),),
    families=("GASROOT",),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\nselector: {kind: air selector}\n"
        "flap ram: {kind: ram, area: 3 sq in, stroke: 4 in}\n",
        lines="bottle > selector\nselector.down > flap ram\n",
        claims=(
            "with bottle at 200 lb/sq in, after selector to down, within 10 s: flap ram is out",
            "with bottle at 200 lb/sq in, after selector to down then wait 10 s then selector to off, within 10 s: "
            "flap ram is in",
            "with bottle at 200 lb/sq in, with selector exhaust blocked, after selector to down then wait 10 s then "
            "selector to off, throughout 30 s: flap ram is not in",
        ),
    ),
)


def _gauge(fit: Fit) -> Recipe:
    pressure = apply("max", 0.0, apply("sub", Across("senses"), AMBIENT_PRESSURE))
    return Recipe(signals=(("pressure", product(pressure, unless("pipe broken"))),))


AIR_PRESSURE_GAUGE = Kind(
    "air pressure gauge",
    "Shows the pressure of the air at the port that it senses, above that of the air outside.",
    indicates=True,
    ports=(),
    build=_gauge,
    couplings=(Coupling("senses", "node", "The port whose pressure it shows.", required=True, media=("air",)),),
    readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
    failures=(Failure("pipe broken", "It shows nothing, whatever the pressure."),),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\ngauge: {kind: air pressure gauge, senses: bottle.any}\n",
        claims=(
            "with bottle at 200 lb/sq in: gauge reads 200 lb/sq in ± 1",
            "with bottle at 200 lb/sq in, with gauge pipe broken: gauge reads 0 lb/sq in",
        ),
    ),
)

KINDS = (
    AIR_COMPRESSOR,
    CHARGING_REGULATOR,
    OIL_AND_WATER_TRAP,
    AIR_BOTTLE,
    AIR_CHARGING_CONNECTION,
    AIR_NON_RETURN_VALVE,
    AIR_COCK,
    PRESSURE_MAINTAINING_VALVE,
    PRESSURE_REDUCING_VALVE,
    AIR_SELECTOR,
    AIR_SERVICE,
    AIR_PRESSURE_GAUGE,
)
