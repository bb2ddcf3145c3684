"""Carburettors, with float and by pressure injection, and the cut-out that shuts their slow-running jets."""

from dataclasses import replace

from cutaway.parts.kind import Coupling, Either, Example, Failure, Fit, Kind, Level, Reading, State, Want
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    above,
    fixed,
    least,
    most,
    no,
    over,
    port,
    product,
    under,
    when,
    when_not,
)
from cutaway.parts.kinds.fuel import FULL_FLOW, INLET
from cutaway.parts.kinds.liquids import PETROL
from cutaway.parts.laws.sizing import flow_conductance
from cutaway.parts.recipe import (
    ZERO,
    Across,
    Const,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Recipe,
    Signal,
    Through,
    apply,
    failed,
    unless,
)

DEMAND = Signal("demand", of="engine", otherwise=Const(0.0))
# Air that comes in by an open needle is carried as petrol here, and no engine may run on it: this share of the full
# flow, at the suction at which a pump starves, is far less than an engine takes that idles, about a tenth.
AIR_SHARE = 0.02
SLOW_RUNNING = 0.15  # of the full flow: the most that slow-running jets give; idling takes about a tenth
UPSET_BELOW, SETTLED_ABOVE = 0.2, 0.5  # g: below the one a float chamber no longer works, above the other it does again
STATES = (State("fed", "fed", "starved"),)
READINGS = (Reading("flow", "volume flow", "draw", "gal/h", main=True),)


def _recipe(fit: Fit, shut: Expr, modes: tuple[Mode, ...] = ()) -> Recipe:
    """A carburettor: fed while its pressure is enough and `shut` is 0."""
    flow, lowest = fit.si["full flow"], fit.si["lowest pressure"]
    pressure = Across("inlet")
    full = Mode(
        "fed",
        least(over(pressure, 1.1 * lowest), when_not(shut, lowest)),
        most(under(pressure, lowest), when(shut, lowest)),
        started=None,
    )
    # The cut-out takes away what the slow-running jets give; an engine that asks for more has it from the main jets.
    flows = no(product(Signal("cutting", of="cut-out", otherwise=ZERO), apply("lt", DEMAND, SLOW_RUNNING)))
    jet = Element("jet", "DRAW", ("inlet", "bowl"), (flow, 0.0, lowest), gate=product(no(shut), flows), drive=DEMAND)
    nodes = (port("inlet", "petrol"), fixed("bowl", "petrol"))
    signals = (("fed", product(ModeIs("fed"), flows)), ("draw", Through("jet")), ("full flow", Const(flow)))
    return Recipe(nodes, (jet,), (full, *modes), signals)


def _carburettor(fit: Fit) -> Recipe:
    load = Input("condition", "load factor")
    upset = Mode(
        "upset", under(load, UPSET_BELOW), over(load, SETTLED_ABOVE), delay=fit.si["upset time"], called="upset time"
    )
    shut = apply("max", failed("float stuck"), ModeIs("upset"))
    fed = _recipe(fit, shut, (upset,))
    # A float chamber that is not kept filled leaves its needle open, and stands open to the air: no suction stays in
    # the pipe before it. A full one keeps its needle shut, and so whatever pressure there is.
    let_in = flow_conductance(AIR_SHARE * fit.si["full flow"], -PETROL.cavitates)
    needle = product(no(ModeIs("fed")), no(shut))
    air = Element("air", "ONEWAY", ("bowl", "inlet"), (let_in, PETROL.core, 0.0, 0.0), gate=needle)
    return replace(fed, elements=(*fed.elements, air))


# What an engine, its switches and a pump need, so that a carburettor has something to feed.
FED = (
    "tank: {kind: tank, capacity: 20 gal, head: 1 m}\n"
    "pump: {kind: engine-driven fuel pump, driven by: engine}\n"
    "throttle: {kind: throttle}\n"
    "magnetos: {kind: magneto switch}\n"
    "engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: magnetos}\n"
)
FED_LINES = "tank > pump > carburettor"
STARTED = "with magnetos both, after throttle to 50 % then engine starter to pressed for 8 s"
SLOWED = f"{STARTED} then throttle to closed then wait 10 s"

CARBURETTOR = Kind(
    "carburettor",
    "A float carburettor. Takes petrol as the engine asks, speed times opening, in full only while the pressure is "
    "enough. Below a load factor of 0.2, as when the nose is pushed down hard, its float chamber soon fails it, until "
    "the load factor is above 0.5. A float chamber that is not kept filled lets air into the pipe before it, so that "
    "no suction stays there.",
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
        Want(
            "upset time",
            "time",
            "How long the load factor must be too low before the engine is failed.",
            default="0.5 s",
            because=f"{JUDGEMENT} The petrol leaves the jets almost at once.",
        ),
    ),
    states=STATES,
    readings=READINGS,
    levels=(Level("needs", "lowest pressure", "inlet", "needs", "it may never be fed"),),
    failures=(Failure("float stuck", "The float needle stays shut: no petrol enters."),),
    families=("DRAW", "ONEWAY"),
    example=Example(
        FED + "carburettor: {kind: carburettor}",
        (
            f"{STARTED}, within 20 s: engine is running",
            f"{STARTED}, at 30 s: carburettor is fed",
            f"{STARTED}, with load factor 0, at 30 s: carburettor is starved",
            f"{STARTED}, with carburettor float stuck, at 30 s: carburettor is starved",
        ),
        FED_LINES,
    ),
)


def _injection(fit: Fit) -> Recipe:
    return _recipe(fit, failed("diaphragm"))


PRESSURE_INJECTION_CARBURETTOR = Kind(
    "pressure-injection carburettor",
    "Sprays petrol under pressure behind the throttle. It has no float chamber, so that the load factor does not "
    "matter to it, but needs more pressure than one that has.",
    ports=(INLET,),
    build=_injection,
    wants=(
        FULL_FLOW,
        Want(
            "lowest pressure",
            "pressure",
            "Below this it no longer sprays; a tenth above it, it does again.",
            default="5 lb/sq in",
            between="3 to 10 lb/sq in",
            because=JUDGEMENT,
        ),
    ),
    states=STATES,
    readings=READINGS,
    levels=(Level("needs", "lowest pressure", "inlet", "needs", "it may never be fed"),),
    failures=(Failure("diaphragm", "Its diaphragm is split: it gives no petrol."),),
    families=("DRAW",),
    example=Example(
        FED.replace("driven by", "pressure: 12 lb/sq in, driven by")
        + "carburettor: {kind: pressure-injection carburettor}",
        (
            f"{STARTED}, at 30 s: carburettor is fed",
            f"{STARTED}, with load factor 0, at 30 s: carburettor is fed",
            f"{STARTED}, with carburettor diaphragm, at 30 s: carburettor is starved",
        ),
        FED_LINES,
    ),
)


def _cut_out(fit: Fit) -> Recipe:
    travel = Signal("position", of="moved by")
    share = fit.si["cuts below"]
    pulled = apply("lt", travel, share) if share > 0.0 else above(travel, fit.si["cuts above"])
    return Recipe(signals=(("cutting", product(pulled, unless("stuck"))), ("position", pulled)))


SLOW_RUNNING_CUT_OUT = Kind(
    "slow-running cut-out",
    "Shuts the slow-running jets of a carburettor, so that an engine with its throttle closed stops. With the throttle "
    "open the main jets go on feeding it. It is worked by what moves it: a cock, a lever or a ram.",
    ports=(),
    build=_cut_out,
    wants=(
        Want(
            "cuts above",
            "fraction",
            "It cuts while what moves it has gone further than this.",
            default="50 %",
            because="Half way, where nothing is said.",
            least="nought",
        ),
        Want(
            "cuts below",
            "fraction",
            "It cuts while what moves it has gone less far than this instead: a cock that is shut, a ram.",
            default="0 %",
            because="Where it is not given, it cuts above.",
            least="nought",
        ),
    ),
    either=(Either("cuts above", "cuts below", "It cuts at one end of the travel, and is clear at the other."),),
    couplings=(
        Coupling(
            "cuts", "signals", "The carburettor whose jets it shuts.", required=True, needs=("fed",), back="cut-out"
        ),
        Coupling("moved by", "signals", "What moves it.", required=True, needs=("position",)),
    ),
    states=(State("cutting", "cutting", "clear", means="petrol is shut off", otherwise="petrol passes"),),
    failures=(Failure("stuck", "It stays clear, whatever moves it."),),
    example=Example(
        FED + "carburettor: {kind: carburettor}\n"
        "cut-out lever: {kind: throttle}\n"
        "cut-out: {kind: slow-running cut-out, cuts: carburettor, moved by: cut-out lever}",
        (
            "cut-out is clear",
            f"{SLOWED} then cut-out lever to open, within 1 min: engine is stopped",
            f"{STARTED} then cut-out lever to open, at 30 s: engine is running",
            f"with cut-out stuck, {SLOWED} then cut-out lever to open, at 1 min: engine is running",
        ),
        FED_LINES,
    ),
)

KINDS = (CARBURETTOR, PRESSURE_INJECTION_CARBURETTOR, SLOW_RUNNING_CUT_OUT)
