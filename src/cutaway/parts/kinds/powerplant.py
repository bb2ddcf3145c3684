"""The supercharged engine: boost and power from its blower's ratings, the throttle, the boost control and the air.

The charge of air is worked out afresh in each step from the speed of the shaft, as PARTS of a chain without a loop:
outside air, intake, throttle, blower, induction pipe, cylinders. The constants come with the supercharger.
"""

from cutaway.parts.kind import Column, Coupling, Failure, Fit, Kind, Order, Reading, State, TableWant, Want
from cutaway.parts.kinds.boost import UNLIMITED
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    JUDGEMENT,
    SEA_LEVEL,
    fixed,
    least,
    most,
    no,
    over,
    product,
    total,
    when,
    when_not,
    within_one,
)
from cutaway.parts.kinds.mixture import OUTSIDE_TEMPERATURE
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.kinds.priming import PRIMED_BY, can_catch, warmth
from cutaway.parts.kinds.superchargers import ENGINE_CAUTION, OFFERS
from cutaway.parts.laws.charge import CLEARANCE, GAS, lever_area
from cutaway.parts.recipe import (
    Across,
    Const,
    Element,
    Expr,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Table,
    apply,
    failed,
    unless,
)

INERTIA = 10.0  # kg·m²: only the times below, store / conductance, matter
RUN_UP, CRANKING_UP, SEIZING = 1.5, 0.3, 0.1  # s
PINT_AN_HOUR, HORSEPOWER = 4.54609e-3 / 28_800.0, 745.699_871_582_270_2
CRUISE = TableWant(
    "cruise table",
    "Petrol by speed and boost, as the handbook prints it, in the mixture that the engine then has. Between its rows "
    "straight lines; beyond them the flow goes with the charge.",
    (Column("speed", "angular speed"), Column("boost", "pressure", "gauge"), Column("flow", "volume flow")),
)
SLOW_RUNNING = 0.1  # of the throttle's opening: within it the slow-running jet decides, not the charge
AREA = tuple(0.025 * i for i in range(41))


def _of(coupling: str, name: str, otherwise: float) -> Expr:
    return Signal(name, of=coupling, otherwise=Const(otherwise))


def _blower(name: str) -> Expr:
    return Signal(name, of="supercharger")


def _charge() -> tuple[tuple[str, Expr], ...]:
    """The air from outside to the cylinders, each stage a signal of its own."""
    speed, intake, after = Signal("rate of turn"), Signal("intake temperature"), Signal("charge temperature")
    outside, ratio = AMBIENT_PRESSURE, Signal("pressure ratio")
    heating = apply("div", product(_blower("tip work"), speed, speed), intake)
    area = product(Table(Signal("opening", of="throttle"), AREA, tuple(map(lever_area, AREA))),
                   _of("hot air", "free area", 1.0))  # fmt: skip
    flow = apply("div", apply("div", product(speed, ratio), after), area)
    loss = product(_blower("throttle constant"), flow, flow, intake)
    # What is left of the outside pressure: the root of x + loss · x² = 1, in a form that is exact for small losses.
    left = apply("div", 2.0, total(Const(1.0), apply("sqrt", total(Const(1.0), apply("mul", 4.0, loss)))))
    wide = product(outside, _of("hot air", "share passed", 1.0), left, ratio)
    return (
        ("intake temperature", total(OUTSIDE_TEMPERATURE, _of("hot air", "warm", 0.0))),
        ("pressure ratio", apply("pow", total(Const(1.0), product(_blower("efficiency"), heating)), GAS)),
        ("charge temperature", product(intake, total(Const(1.0), heating))),
        ("lever pressure", wide),
        ("manifold", apply("min", wide, _of("boost control", "allowed", UNLIMITED))),
        ("boost", apply("sub", Signal("manifold"), SEA_LEVEL)),
        ("charge", apply("div", product(speed, Signal("manifold")), after)),
    )


def _power(idling: float) -> tuple[tuple[str, Expr], ...]:
    """Power of the charge less friction; within the slow-running range what keeps the idling speed."""
    speed = Signal("rate of turn")
    drawn = apply("max", 0.0, apply("sub", Signal("manifold"), apply("div", AMBIENT_PRESSURE, CLEARANCE)))
    indicated = apply("div", product(_blower("power constant"), speed, drawn),
                      apply("sqrt", Signal("charge temperature")))  # fmt: skip
    friction = product(_blower("friction constant"), speed, speed)
    charged = product(apply("sub", indicated, friction), _of("mixture", "power factor", 1.0))
    slow = product(_blower("rated power"), Signal("load", of="airscrew"), Const(idling**3))
    opened = apply("step", apply("div", Signal("opening", of="throttle"), SLOW_RUNNING))
    power = total(product(opened, apply("max", 0.0, charged)), product(no(opened), slow))
    running = ModeIs("running")
    return (
        ("power if running", power),
        ("power", product(running, power)),
        ("power share", apply("div", Signal("power"), _blower("rated power"))),
        ("heat", product(running, total(power, friction))),
        ("heat at rating", _blower("rated indicated power")),
    )


def above_creep(speed: Expr) -> Expr:
    """1 where a shaft turns at more than a creep."""
    return apply("gt", speed, 1.0)


def _flow(fit: Fit) -> tuple[tuple[str, Expr], ...]:
    """Petrol: from the cruise table where there is one, else with the charge, times the strength of the mixture."""
    rows = fit.tables.get(CRUISE.name, ())
    if rows:
        strength = apply("div", _of("mixture", "strength", 1.0), _of("mixture", "intended strength", 1.0))
        asked = product(_from_table(rows), strength)
    else:
        share = apply("div", Signal("charge"), _blower("rated charge"))
        asked = product(Const(fit.si["rated fuel flow"]), share, _of("mixture", "strength", 1.0))
    return (
        ("fuel asked", product(asked, above_creep(Signal("rate of turn")))),
        ("demand", apply("div", Signal("fuel asked"), Signal("full flow", of="fuel from"))),
        ("fuel flow", product(ModeIs("running"), Signal("fuel asked"))),
        ("pints an hour", apply("div", apply("div", Signal("fuel flow"), PINT_AN_HOUR),
                                apply("max", 1.0, apply("div", Signal("power"), HORSEPOWER)))),
        ("pulling", apply("gt", Signal("power"), 0.05 * HORSEPOWER)),
    )  # fmt: skip


def _from_table(rows: tuple[tuple[float, ...], ...]) -> Expr:
    """The table between its rows: by boost within each speed, then by speed. Beyond its ends the flow goes with the
    charge: with speed, and with the pressure in the induction pipe."""
    speed, boost = Signal("rate of turn"), Signal("boost")
    speeds = tuple(sorted({row[0] for row in rows}))
    by_boost = [sorted((b, flow) for n, b, flow in rows if n == one) for one in speeds]
    lines = [_line(boost, points) for points in by_boost]
    within = apply("min", speeds[-1], apply("max", speeds[0], speed))
    shares = (product(line, _hat(speed, speeds, i)) for i, line in enumerate(lines))
    return product(total(Const(0.0), *shares), apply("div", speed, within))


def _line(boost: Expr, points: list[tuple[float, float]]) -> Expr:
    """Flow by boost at one speed of the table."""
    boosts, flows = tuple(p[0] for p in points), tuple(p[1] for p in points)
    inside = apply("min", boosts[-1], apply("max", boosts[0], boost))
    pressure = apply("div", apply("add", SEA_LEVEL, boost), apply("add", SEA_LEVEL, inside))
    flow: Expr = Table(boost, boosts, flows) if len(points) > 1 else Const(flows[0])
    return product(flow, pressure)


def _hat(speed: Expr, speeds: tuple[float, ...], i: int) -> Expr:
    """The share of the i-th speed in what lies between the speeds of the table: 1 at its own, 0 at its neighbours."""
    if len(speeds) == 1:
        return Const(1.0)
    near = range(max(0, i - 1), min(len(speeds), i + 2))
    return Table(speed, tuple(speeds[k] for k in near), tuple(float(k == i) for k in near))


def _engine(fit: Fit) -> Recipe:
    idling = fit.si["idling speed"]
    running, whole = ModeIs("running"), unless("seized")
    sparking, fed = Signal("sparking", of="ignition"), Signal("fed", of="fuel from")
    engaged = product(_of("starter", "engaged", 0.0), no(running), whole)
    nodes = (
        Node("shaft", "shaft", start=0.0, store=INERTIA),
        fixed("power", "shaft", apply("max", idling, Signal("asked", of="airscrew"))),
        fixed("starter", "shaft", _of("starter", "cranking", 0.0)),
        fixed("airscrew", "shaft", Signal("asked", of="airscrew")),
        fixed("crankcase", "shaft"),
    )
    coasting = product(no(running), no(engaged), whole)
    elements = (
        Element("firing", "LIN", ("power", "shaft"), (INERTIA / RUN_UP,), gate=product(running, whole)),
        Element("cranking", "LIN", ("starter", "shaft"), (INERTIA / CRANKING_UP,), gate=engaged),
        Element("coasting", "LIN", ("airscrew", "shaft"), (INERTIA / fit.si["run-down time"],), gate=coasting),
        Element("seizing", "LIN", ("shaft", "crankcase"), (INERTIA / SEIZING,), gate=failed("seized")),
    )
    modes = (
        Mode("starved", when_not(fed), when(fed), delay=fit.si["starving time"], called="starving time", started=True),
        Mode(
            "running",
            least(
                when(sparking),
                when(fed),
                when(whole),
                when(can_catch(fit)),
                over(Across("shaft"), fit.si["catching speed"]),
            ),
            most(when_not(sparking), when(ModeIs("starved")), when_not(whole)),
            delay=fit.si["catching time"],
            called="catching time",
        ),
    )
    signals: tuple[tuple[str, Expr], ...] = (
        ("rate of turn", apply("max", 0.0, Across("shaft"))),
        ("speed", within_one(apply("div", Across("shaft"), _blower("rated speed")))),
        ("running", running),
        ("S gear", _blower("S gear")),
        *_charge(),
        *_power(idling),
        *_flow(fit),
    )
    warm_nodes, warm_elements, warm_modes = warmth(fit, running)
    return Recipe((*nodes, *warm_nodes), (*elements, *warm_elements), (*modes, *warm_modes), signals)


def _time(name: str, says: str, default: str, between: str) -> Want:
    return Want(name, "time", says, default=default, between=between, because=JUDGEMENT)


SUPERCHARGED_ENGINE = Kind(
    "supercharged engine",
    "A large piston engine with a supercharger and a constant-speed airscrew. Its boost and power at every height, "
    "speed and lever position follow from the supercharger's ratings; both are the printed figures at the rating, "
    "and are an estimate elsewhere. It is started by an electric starter, stops at once without ignition, and runs on "
    "for its starving time without petrol. The intake air has the temperature of the standard atmosphere at the "
    "height, moved by as much as the condition `temperature` departs from 15 °C.",
    indicates=True,
    ports=(),
    build=_engine,
    wants=(
        Want("idling speed", "angular speed", "Its speed with the throttle closed, standing still.",
             default="600 rpm", between="450 to 900 rpm", because=JUDGEMENT),
        Want("catching speed", "angular speed", "The speed to which it must be turned before it can catch.",
             default="30 rpm", between="15 to 60 rpm", because=JUDGEMENT),
        _time("catching time", "How long it must be turned, with ignition and petrol, before it runs.",
              "1 s", "0.3 to 5 s"),
        _time("starving time", "How long it goes on without petrol, on what its carburettor holds.",
              "2 s", "0.5 to 10 s"),
        _time("run-down time", "Time in which a dead engine loses about two thirds of its speed.",
              "2 s", "0.5 to 5 s"),
        Want("rated fuel flow", "volume flow", "Petrol that it takes at its rating, mixture rich.",
             default="100 gal/h", between="40 to 220 gal/h",
             because=f"{JUDGEMENT} About 0.7 pint an hour for each of 1,150 hp."),
    ),
    orders=(Order("catching speed", "idling speed", "What it catches at it must reach before it runs by itself."),),
    couplings=(
        Coupling("throttle", "signals", "The throttle that sets it.", required=True, needs=("opening",)),
        Coupling("fuel from", "signals", "The carburettor that feeds it.", required=True, needs=("fed", "full flow"),
                 back="engine"),
        Coupling("ignition", "signals", "The magneto switch.", required=True, needs=("sparking", "magnetos")),
        Coupling("supercharger", "signals", "Its supercharger.", required=True, needs=OFFERS,
                 alone=True),
        Coupling("airscrew", "signals", "Its airscrew, whose governor keeps its speed.", required=True,
                 needs=("asked", "load"), back="engine"),
        Coupling("boost control", "signals", "What holds its boost; without it the lever alone decides.",
                 needs=("allowed",), back="engine"),
        Coupling("mixture", "signals", "What weakens its mixture; without it the mixture is always rich.",
                 needs=("strength", "intended strength", "power factor"), back="engine"),
        Coupling("hot air", "signals", "Its hot air intake.", needs=("warm", "share passed", "free area"),
                 back="engine"),
        Coupling("starter", "signals", "What turns it to start it.", needs=("engaged", "cranking"), alone=True),
        PRIMED_BY,
    ),
    states=(State("running", "running", "stopped"),),
    readings=(
        Reading("speed", "angular speed", "rate of turn", "rpm", main=True),
        Reading("boost", "pressure", "boost", "lb/sq in", datum="gauge"),
        Reading("power", "power", "power", "hp"),
        Reading("fuel flow", "volume flow", "fuel flow", "gal/h"),
        Reading("pints a horsepower hour", "number", "pints an hour", "", alive="pulling"),
    ),
    failures=(Failure("seized", "It stops within a second and cannot be turned."),),
    families=("LIN",),
    caution=ENGINE_CAUTION,
    tables=(CRUISE,),
    example=powerplant(
        "engine is stopped",
        "throttle closed | engine is running",
        "throttle open, height 5000 ft | engine power reads 1180 hp ± 2 hp",
        "throttle open, height 5000 ft | engine fuel flow reads 100 gal/h ± 1 gal/h",
        "throttle gate, engine seized | engine is stopped",
        "after ignition to both then starter button to pressed for 4 s, within 10 s: engine is stopped",
    ),
)  # fmt: skip

KINDS = (SUPERCHARGED_ENGINE,)
