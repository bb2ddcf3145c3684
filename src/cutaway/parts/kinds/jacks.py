"""The jack: a piston moved by oil from either side, with its loads, its ice and what may hold it."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Coupling, Failure, Fit, Kind, Order, Port, Reading, State, Want
from cutaway.parts.kinds import oil_examples
from cutaway.parts.kinds.common import (
    JUDGEMENT,
    between_stops,
    either,
    latch,
    least,
    most,
    no,
    over,
    port,
    product,
    total,
    under,
    when,
    when_not,
)
from cutaway.parts.laws.sizing import stop_stiffness
from cutaway.parts.recipe import (
    ZERO,
    Across,
    Const,
    Content,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Recipe,
    Signal,
    apply,
    failed,
    unless,
)

REFERENCE_SPEED = 100.0 * 1852.0 / 3600.0  # 100 kt, at which air loads are given
FASTEST = 25.0  # the square of five times that: no load that helps is larger than this many times its figure
FORCE = 1e6  # N: a margin larger than any force here
JUDDER = 0.05  # s: an iced piston sticks and slips no faster than this, as it would where a stop springs it loose
# A thimbleful, 1 cc, against a spring that gives way from 50 lb/sq in: engineering judgement. The last is what it and
# its oil give.
LOCK_CYLINDER = (1e-6, 3.4e5, 1e4, 1e-15)
CAUTION = (
    "Oil under pressure moves a jack without warning, and so may anything that lets the pressure go. Keep everybody "
    "clear of what it moves."
)


def _lock_cylinders(fit: Fit) -> tuple[Element, ...]:
    """What the pistons that draw a leg's locks take: little, but more than a stopped pump's pipe still holds."""
    if "held by" not in fit.coupled:
        return ()
    ways = (("up", "extend"), ("down", "retract"))
    return tuple(Element(f"{lock} lock cylinder", "ACCUM", (end,), LOCK_CYLINDER) for lock, end in ways)


def _against(fit: Fit) -> Expr:
    """What opposes extending, N, but for friction, ice and what grows with the travel."""
    speed = apply("div", Input("condition", "airspeed"), REFERENCE_SPEED)
    return total(Const(fit.si["spring load"]), product(Const(fit.si["load"]), speed, speed))


def _ice(fit: Fit, push: Expr) -> tuple[Mode, Mode]:
    """Ice holds the piston until the push on it, either way, is more than ice and friction together; it then drags at
    it as long as the push is more than the ice alone."""
    ice, friction = fit.si["ice load"], fit.si["friction"]
    here = failed("iced")

    def breaks(name: str, force: Expr) -> Mode:
        sets = least(when(here, FORCE), over(force, ice + friction))
        return Mode(name, sets, most(when_not(here, FORCE), under(force, ice)), dwell=JUDDER)

    return breaks("dragged out", push), breaks("dragged in", apply("neg", push))


def _jack(fit: Fit) -> Recipe:
    area, stroke, ice = fit.si["area"], fit.si["stroke"], fit.si["ice load"]
    annulus = area - fit.si["rod area"]
    # An element's load cannot be negative, and weight, air and ice may all help the piston out. So a steady force that
    # is larger than all of them, put in by a long spring, is added on both sides.
    helps = ice + max(0.0, -fit.si["spring load"]) + FASTEST * max(0.0, -fit.si["load"])
    rise = fit.si["spring rise"] / stroke
    spring = max(rise, 1e-9 * helps / stroke)
    spring_from = helps / spring if spring > 0.0 else 0.0
    # Dry friction and the end stops belong to the law. Viscous drag: 0.2 bar at 10 mm/s, so small that it only damps.
    stop = stop_stiffness(area, 1e7, 0.002 * stroke)
    parameters = (area, annulus, fit.si["friction"], 2e6 * area, spring, spring_from, 1.0, 0.0, stroke, stop)
    against, travel = _against(fit), Content("piston")
    oil = apply("sub", apply("mul", area, Across("extend")), apply("mul", annulus, Across("retract")))
    push = apply("sub", oil, total(against, apply("mul", rise, travel)))
    iced = _ice(fit, push)
    loose = either(no(failed("iced")), either(ModeIs("dragged out"), ModeIs("dragged in")))
    drag = apply("mul", ice, apply("sub", ModeIs("dragged out"), ModeIs("dragged in")))
    free = product(unless("jammed"), loose, no(Signal("locked", of="held by", otherwise=ZERO)))
    elements = (
        Element("piston", "JACK", ("extend", "retract"), parameters, free, total(Const(helps), against, drag), 0.0),
        Element("seal", "LIN", ("extend", "retract"), (2e-12,), gate=failed("seal leaking")),
        *_lock_cylinders(fit),
    )
    modes = (
        latch("extended", travel, 0.98 * stroke, 0.97 * stroke),
        latch("retracted", apply("sub", 0.0, travel), -0.02 * stroke, -0.03 * stroke),
        *iced,
    )
    shown = between_stops(travel, stroke)
    extension = apply("div", shown, stroke)
    signals = (
        ("travel", shown),
        ("extension", extension),
        ("position", extension),
        ("extended", ModeIs("extended")),
        ("retracted", ModeIs("retracted")),
        ("pressure to extend", Across("extend")),
        ("pressure to retract", Across("retract")),
    )
    nodes = tuple(port(name, "oil") for name in ("extend", "retract"))
    return Recipe(nodes, elements, modes, signals)


JACK = Kind(
    "jack",
    "A piston moved by oil from either side. It stands retracted at the very beginning. Where a leg that it moves is "
    "locked, the lock holds the piston too.",
    ports=(Port("extend", "oil", "west", "in"), Port("retract", "oil", "west", "out")),
    build=_jack,
    wants=(
        Want("area", "area", "Area of the piston on the side that extends it.", usual="0.05 to 60 sq in"),
        Want(
            "rod area",
            "area",
            "Area of the rod, which the side that retracts it lacks; four fifths of the piston at most.",
            default="0.3 sq in",
            between="0.1 to 1 sq in",
            because=f"{JUDGEMENT} A rod of about five eighths of an inch.",
            least="nought",
            usual="0 to 10 sq in",
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
            usual="0 to 600 lbf",
        ),
        Want(
            "load",
            "force",
            "Air load against extending at 100 kt; it grows with the square of the airspeed.",
            default="0 lbf",
            between="0 to 200 lbf",
            because=f"{JUDGEMENT} Where a handbook is silent, the jack is taken to have thrust to spare.",
            least="any",
            usual="-3000 to 8000 lbf",
        ),
        Want(
            "spring load",
            "force",
            "Steady load against extending. Below nought where a weight helps it out.",
            default="0 lbf",
            because="Most have no spring.",
            least="any",
        ),
        Want(
            "spring rise",
            "force",
            "How much that load has grown when it is fully extended.",
            default="0 lbf",
            because="Most have no spring.",
            least="nought",
        ),
        Want(
            "ice load",
            "force",
            "What ice in the hinges or the gland resists, in either direction, when it is iced.",
            default="300 lbf",
            between="50 to 1500 lbf",
            because=f"{JUDGEMENT} Ice differs from one day to the next.",
            least="nought",
            usual="0 to 8000 lbf",
        ),
    ),
    orders=(Order("rod area", "area", "What the rod leaves of the piston is what retracts it.", share=0.8),),
    couplings=(Coupling("held by", "signals", "The leg whose locks hold it.", needs=("locked",)),),
    states=(State("extended", "extended"), State("retracted", "retracted")),
    readings=(Reading("travel", "length", "travel", "in", main=True),),
    failures=(
        Failure("seal leaking", "Oil passes the piston: it is slow, and creeps unless both its pipes are blocked."),
        Failure("jammed", "It stays where it is."),
        Failure("iced", "It stays where it is until the push on it overcomes the ice, and drags from there on."),
    ),
    contents=(Holds("length", "piston", full="stroke"),),
    families=("JACK", "LIN", "ACCUM"),
    caution=CAUTION,
    example=oil_examples.JACK,
)

KINDS = (JACK,)
