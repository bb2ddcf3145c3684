"""Valves that oil passes on its way to the jacks: two-position selector, sequence valve, restrictors, lock, shuttle."""

from cutaway.parts.kind import Control, Either, Failure, Fit, Kind, Order, Port, State, Want
from cutaway.parts.kinds import oil_examples
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    at_position,
    least,
    most,
    no,
    over,
    port,
    product,
    under,
    when_not,
)
from cutaway.parts.kinds.hydraulics import INLET, OUTLET, RATED_FLOW, TEN_POUNDS
from cutaway.parts.kinds.liquids import OIL, one_way, way
from cutaway.parts.kinds.travel import MOVED_BY, travel, trip
from cutaway.parts.recipe import Across, Element, Mode, ModeIs, Recipe, apply, failed, unless

POUND = 0.1 * TEN_POUNDS


def _two_position_selector(fit: Fit) -> Recipe:
    flow, up, down = fit.si["flow"], at_position(0), at_position(1)
    leak = (2e-4 * flow / TEN_POUNDS,)
    elements = (
        way(OIL, "pressure to down", ("pressure", "down"), flow, TEN_POUNDS, down),
        way(OIL, "up to return", ("up", "return"), flow, TEN_POUNDS, down),
        way(OIL, "pressure to up", ("pressure", "up"), flow, TEN_POUNDS, up),
        way(OIL, "down to return", ("down", "return"), flow, TEN_POUNDS, up),
        Element("leak", "LIN", ("pressure", "return"), leak, gate=failed("internal leak")),
    )
    nodes = tuple(port(name, "oil") for name in ("pressure", "return", "down", "up"))
    return Recipe(nodes, elements, signals=(("position", CONTROL),))


TWO_POSITION_SELECTOR = Kind(
    "two-position selector",
    "Sends pressure to one side of a jack and lets the other return. It has no neutral: one side is always under "
    "pressure.",
    ports=(
        Port("pressure", "oil", "west", "in"),
        Port("return", "oil", "west", "out"),
        Port("down", "oil", "east"),
        Port("up", "oil", "east"),
    ),
    build=_two_position_selector,
    controls=(Control("", ("up", "down")),),
    wants=(RATED_FLOW,),
    failures=(Failure("internal leak", "Oil leaks past it from pressure to return: the pressure does not last."),),
    families=("ROOT", "LIN"),
    example=oil_examples.TWO_POSITION_SELECTOR,
)


def _sequence_valve(fit: Fit) -> Recipe:
    above, below, flow = fit.si["opens above"], fit.si["opens below"], fit.si["flow"]
    free = unless("stuck")
    opened = trip("open", travel(), above, 0.0) if below == 0.0 else trip("open", travel(), 1.0, below)
    elements = (
        way(OIL, "valve", ("inlet", "outlet"), flow, TEN_POUNDS, product(ModeIs("open"), free)),
        one_way(OIL, "coming back", ("outlet", "inlet"), flow, TEN_POUNDS),
    )
    nodes = (port("inlet", "oil"), port("outlet", "oil"))
    return Recipe(nodes, elements, (opened,), (("open", product(ModeIs("open"), free)),))


SEQUENCE_VALVE = Kind(
    "sequence valve",
    "Lets oil pass on only when what works it has gone nearly all its way, or come nearly all the way back where "
    "'opens below' is given, so that one thing follows another. Oil "
    "comes back through it at any time.",
    ports=(INLET, OUTLET),
    build=_sequence_valve,
    wants=(
        Want(
            "opens above",
            "fraction",
            "Share of the travel above which it is open.",
            default="98 %",
            between="90 to 99.5 %",
            because=f"{JUDGEMENT} A plunger is pushed in by the last of the travel.",
        ),
        Want(
            "opens below",
            "fraction",
            "Share of the travel below which it is open instead: the doors wait for the legs to be up.",
            default="0 %",
            because="Where it is not given, it opens above.",
            least="nought",
        ),
        RATED_FLOW,
    ),
    either=(Either("opens above", "opens below", "It opens at one end of the travel, and is shut at the other."),),
    couplings=(MOVED_BY,),
    states=(State("open", "open", "closed"),),
    failures=(Failure("stuck", "It stays shut: what should follow does not."),),
    families=("ROOT", "ONEWAY"),
    example=oil_examples.SEQUENCE_VALVE,
)


def _restricted(name: str, default: str, between: str) -> Want:
    return Want(
        name,
        "volume flow",
        "What it passes at a drop of 10 lb/sq in, where it is narrow.",
        default=default,
        between=between,
        because=f"{JUDGEMENT} About a quarter of what the pipe would pass.",
    )


def _restrictor(fit: Fit) -> Recipe:
    hole = way(OIL, "hole", ("inlet", "outlet"), fit.si["flow"], TEN_POUNDS, unless("choked"))
    return Recipe((port("inlet", "oil"), port("outlet", "oil")), (hole,))


RESTRICTOR = Kind(
    "restrictor",
    "A small hole that slows what is behind it, both ways.",
    ports=(INLET, OUTLET),
    build=_restrictor,
    wants=(_restricted("flow", "4 gal/h", "1 to 15 gal/h"),),
    failures=(Failure("choked", "Dirt has closed it: nothing passes."),),
    families=("ROOT",),
    example=oil_examples.RESTRICTOR,
)


def _one_way_restrictor(fit: Fit) -> Recipe:
    elements = (
        one_way(OIL, "flap", ("inlet", "outlet"), fit.si["free flow"], TEN_POUNDS),
        way(OIL, "hole", ("inlet", "outlet"), fit.si["flow"], TEN_POUNDS, unless("choked")),
    )
    return Recipe((port("inlet", "oil"), port("outlet", "oil")), elements)


ONE_WAY_RESTRICTOR = Kind(
    "one-way restrictor",
    "Lets oil pass freely from its inlet to its outlet, and slowly the other way.",
    ports=(INLET, OUTLET),
    build=_one_way_restrictor,
    wants=(
        _restricted("flow", "4 gal/h", "1 to 15 gal/h"),
        Want(
            "free flow",
            "volume flow",
            "What it passes at a drop of 10 lb/sq in the free way.",
            default="13 gal/h",
            between="6 to 40 gal/h",
            because=f"{JUDGEMENT} As the pipe that it stands in.",
        ),
    ),
    orders=(Order("flow", "free flow", "It holds back the one way and not the other.", alike=True),),
    failures=(Failure("choked", "Dirt has closed the small hole: oil passes the free way only."),),
    families=("ONEWAY", "ROOT"),
    example=oil_examples.ONE_WAY_RESTRICTOR,
)


def _hydraulic_lock(fit: Fit) -> Recipe:
    held, pilot, ratio = Across("jack"), Across("pilot"), fit.si["pilot ratio"]
    share, loose = 1.0 / ratio, unless("stuck")
    # The pilot piston must also beat the valve's own spring: 30 lb/sq in to open, 15 to stay open.
    opened = Mode(
        "open",
        least(over(pilot, apply("add", apply("mul", share, held), 30.0 * POUND)), when_not(failed("stuck"), 1e9)),
        most(under(pilot, 15.0 * POUND), under(pilot, apply("mul", 0.5 * share, held))),
        dwell=0.02,
    )
    flow = fit.si["flow"]
    elements = (
        one_way(OIL, "valve", ("supply", "jack"), flow, TEN_POUNDS),
        way(OIL, "held open", ("supply", "jack"), flow, TEN_POUNDS, product(ModeIs("open"), loose)),
    )
    nodes = tuple(port(name, "oil") for name in ("supply", "jack", "pilot"))
    return Recipe(nodes, elements, (opened,), (("open", product(ModeIs("open"), loose)),))


HYDRAULIC_LOCK = Kind(
    "hydraulic lock",
    "A non-return valve towards the jack, which keeps the oil behind its piston whatever happens to the pipe. Pressure "
    "in its pilot pipe, from the other side of the jack, opens it for the oil to come back.",
    ports=(
        Port("supply", "oil", "west", "in"),
        Port("jack", "oil", "east", "out"),
        Port("pilot", "oil", "south"),
    ),
    build=_hydraulic_lock,
    wants=(
        Want(
            "pilot ratio",
            "number",
            "How many times the pilot pressure the held pressure may be, and still be let go.",
            default="3",
            between="2 to 5",
            because=f"{JUDGEMENT} The pilot piston is about three times the valve.",
        ),
        RATED_FLOW,
    ),
    states=(State("open", "open", "locked"),),
    failures=(Failure("stuck", "It never lets oil come back: what is out stays out."),),
    families=("ONEWAY", "ROOT"),
    example=oil_examples.HYDRAULIC_LOCK,
)


def _shuttle_valve(fit: Fit) -> Recipe:
    normal, emergency, needs = Across("normal"), Across("emergency"), fit.si["changeover"]
    free = when_not(failed("stuck"), 1e9)
    # A shuttle that has stuck stays on the side on which it lies.
    moved = Mode(
        "over",
        least(over(apply("sub", emergency, normal), needs), free),
        least(over(apply("sub", normal, emergency), needs), free),
        dwell=0.02,
    )
    flow, over_ = fit.si["flow"], ModeIs("over")
    elements = (
        way(OIL, "from normal", ("normal", "outlet"), flow, TEN_POUNDS, no(over_)),
        way(OIL, "from emergency", ("emergency", "outlet"), flow, TEN_POUNDS, over_),
    )
    nodes = tuple(port(name, "oil") for name in ("normal", "emergency", "outlet"))
    return Recipe(nodes, elements, (moved,), (("over", over_),))


SHUTTLE_VALVE = Kind(
    "shuttle valve",
    "Joins its outlet to the pipe that has the higher pressure, and shuts the other.",
    ports=(
        Port("normal", "oil", "west", "in"),
        Port("emergency", "oil", "south"),
        Port("outlet", "oil", "east", "out"),
    ),
    build=_shuttle_valve,
    wants=(
        Want(
            "changeover",
            "pressure",
            "How much higher the other pressure must be before it goes over.",
            default="45 lb/sq in",
            between="10 to 150 lb/sq in",
            because=f"{JUDGEMENT} The friction of its ring.",
        ),
        RATED_FLOW,
    ),
    states=(State("over", "over"),),
    failures=(Failure("stuck", "It stays where it lies: it does not go over, or not back."),),
    families=("ROOT",),
    example=oil_examples.SHUTTLE_VALVE,
)

KINDS = (
    TWO_POSITION_SELECTOR,
    SEQUENCE_VALVE,
    RESTRICTOR,
    ONE_WAY_RESTRICTOR,
    HYDRAULIC_LOCK,
    SHUTTLE_VALVE,
)
