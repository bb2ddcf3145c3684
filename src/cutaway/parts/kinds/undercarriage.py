"""Undercarriage and doors: legs with their locks, what the locks and travels switch, the lever's bolt, plain signs."""

from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Order, Port, Reading, State, Want
from cutaway.parts.kinds import undercarriage_examples
from cutaway.parts.kinds.common import (
    CONTROL,
    JUDGEMENT,
    either,
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
from cutaway.parts.kinds.electrics import CONTACT, INLET, OUTLET
from cutaway.parts.kinds.travel import MOVED_BY, travel, trip, trip_wants
from cutaway.parts.recipe import ZERO, Element, Expr, Mode, ModeIs, Recipe, Signal, apply, failed, unless

HOME = 0.995  # share of the travel at which a lock can go home
LEG_CAUTION = (
    "A leg that is not locked may fold, and nothing in the lever may stop it from being raised on the ground. Keep "
    "clear of legs and doors whenever there is pressure, and use ground locks."
)
DOORS_CAUTION = "Doors close on hands. Keep clear of them whenever there is pressure or anyone can put it on."


def _lock(name: str, home: Expr, away: Expr, pressure: Expr, by_hand: Expr) -> Mode:
    """A lock that is drawn by oil or by hand, and goes home when the leg has come to it and nothing draws it.

    home: how far the leg is inside the last of its travel; away: how far it is from there, which no lock survives.
    pressure: on the piston that draws it, 1 where it just does; its spring puts it home at half of that. by_hand: 1
    while a hand draws it. Drawing takes oil, and so a fifth of a second: what a pipe holds when its pump has stopped
    is not enough. Drawn or home, it wants half a second to turn back: by then the leg has left it.
    """
    free = when_not(failed(f"{name} stuck"), 10.0)
    drawn = most(over(pressure, 1.0), over(by_hand, 0.5))
    goes_home = least(free, home, under(pressure, 0.5), under(by_hand, 0.5))
    return Mode(f"{name} drawn", most(least(free, drawn), away), goes_home, delay=0.2, dwell=0.5, started=None)


def _leg(fit: Fit) -> Recipe:
    gone = travel()
    by_hand = Signal("position", of="released by", otherwise=ZERO)

    def pressure(way: str) -> Expr:
        return apply("div", Signal(f"pressure to {way}", of="moved by"), fit.si["unlocks at"])

    modes = (
        _lock("down lock", over(gone, HOME), under(gone, 0.9), pressure("retract"), ZERO),
        _lock("up lock", under(gone, 1.0 - HOME), over(gone, 0.1), pressure("extend"), by_hand),
    )
    down, up = no(ModeIs("down lock drawn")), no(ModeIs("up lock drawn"))
    locked = either(down, up)
    signals = (
        ("position", gone),
        ("locked down", down),
        ("locked up", up),
        ("locked", locked),
        ("unlocked", no(locked)),
    )
    return Recipe((), (), modes, signals)


LEG = Kind(
    "leg",
    "An undercarriage leg that its jack lowers as it extends. A lock takes it at either end and holds it, pressure or "
    "none. Oil on the other side of the jack draws a lock before it moves the leg; the up lock may be drawn by hand as "
    "well.",
    ports=(),
    build=_leg,
    wants=(
        Want(
            "unlocks at",
            "pressure",
            "The pressure on the other side of the jack that draws a lock.",
            default="150 lb/sq in",
            between="50 to 400 lb/sq in",
            because=f"{JUDGEMENT} Well below what moves the leg.",
        ),
    ),
    couplings=(
        Coupling(
            "moved by",
            "signals",
            "The jack that moves it; it goes down as that extends, and its locks hold the jack.",
            required=True,
            needs=("position", "pressure to extend", "pressure to retract"),
            back="held by",
        ),
        Coupling("released by", "signals", "What draws its up lock by hand: a lever, a toggle.", needs=("position",)),
    ),
    states=(
        State("locked down", "locked down"),
        State("locked up", "locked up"),
        State("unlocked", "unlocked"),
    ),
    readings=(Reading("position", "fraction", "position", "%", main=True),),
    failures=(
        Failure("down lock stuck", "The down lock stays as it is: it does not go home, or is not drawn."),
        Failure("up lock stuck", "The up lock stays as it is: it does not go home, or is not drawn."),
    ),
    caution=LEG_CAUTION,
    example=undercarriage_examples.LEG,
)


def _two_way(lock: str) -> Recipe:
    """A contact that goes over with a lock; one that is stuck stays as it lies."""
    at_home, free = Signal(lock, of="of"), when_not(failed("stuck"))
    over_ = Mode("over", least(when(at_home), free), least(when_not(at_home), free), started=None)
    ends = tuple(port(name, "current") for name in ("inlet", "locked", "unlocked"))
    elements = (
        Element("locked contact", "LIN", ("inlet", "locked"), (CONTACT,), gate=ModeIs("over")),
        Element("unlocked contact", "LIN", ("inlet", "unlocked"), (CONTACT,), gate=no(ModeIs("over"))),
    )
    return Recipe(ends, elements, (over_,), (("over", ModeIs("over")), ("position", ModeIs("over"))))


def _lock_switch(name: str, lock: str, example: Example) -> Kind:
    return Kind(
        name,
        f"A two-way contact on a leg's lock: its inlet is joined to 'locked' while the leg is {lock}, and to "
        "'unlocked' while it is not.",
        ports=(INLET, Port("locked", "current", "east", "out"), Port("unlocked", "current", "east")),
        build=lambda fit: _two_way(lock),
        couplings=(Coupling("of", "signals", "The leg on whose lock it stands.", required=True, needs=(lock,)),),
        failures=(Failure("stuck", "It stays as it lies, whatever the lock does."),),
        families=("LIN",),
        example=example,
    )


DOWN_LOCK_SWITCH = _lock_switch("down-lock switch", "locked down", undercarriage_examples.DOWN_LOCK_SWITCH)
UP_LOCK_SWITCH = _lock_switch("up-lock switch", "locked up", undercarriage_examples.UP_LOCK_SWITCH)


def _microswitch(fit: Fit) -> Recipe:
    cam = trip("cam", travel(), fit.si["makes above"], fit.si["makes below"])
    made = product(either(ModeIs("cam"), failed("stuck closed")), unless("stuck open"))
    contact = Element("contact", "LIN", ("inlet", "outlet"), (CONTACT,), gate=made)
    ends = (port("inlet", "current"), port("outlet", "current"))
    return Recipe(ends, (contact,), (cam,), (("made", made), ("position", made)))


MICROSWITCH = Kind(
    "microswitch",
    "A small contact worked by the travel of something else. Made above one share of the travel, or below one; where "
    "neither is given it is never made.",
    ports=(INLET, OUTLET),
    build=_microswitch,
    wants=trip_wants("makes", "its contact is made"),
    orders=(Order("makes below", "makes above", "Where the two overlap it is always made."),),
    couplings=(MOVED_BY,),
    states=(State("made", "made", "broken"),),
    failures=(
        Failure("stuck open", "It never makes contact."),
        Failure("stuck closed", "It always makes contact."),
    ),
    families=("LIN",),
    example=undercarriage_examples.MICROSWITCH,
)

SAFETY_BOLT = Kind(
    "safety bolt",
    "A bolt that stands in a lever's way until it is held aside; it springs back. The lever's own rules say what it "
    "bars. To hold it while the lever is moved: 'bolt to held aside while lever to up'.",
    ports=(),
    build=lambda fit: Recipe(signals=(("position", CONTROL),)),
    controls=(Control("", ("locked", "held aside"), springs_back=True),),
    example=undercarriage_examples.SAFETY_BOLT,
)


def _mechanical_indicator(fit: Fit) -> Recipe:
    return Recipe(signals=(("shown", Signal("position", of="shows")), ("working", unless("broken"))))


MECHANICAL_INDICATOR = Kind(
    "mechanical indicator",
    "A pin, a pointer or a painted line that moves with what it shows. It needs no current.",
    indicates=True,
    ports=(),
    build=_mechanical_indicator,
    couplings=(Coupling("shows", "signals", "A leg, flaps or doors.", required=True, needs=("position",)),),
    states=(State("working", "working", "dead"),),
    readings=(Reading("position", "fraction", "shown", "%", main=True, alive="working"),),
    failures=(Failure("broken", "Its wire or rod has parted: it shows nothing."),),
    example=undercarriage_examples.MECHANICAL_INDICATOR,
)


def _doors(fit: Fit) -> Recipe:
    signals: tuple[tuple[str, Expr], ...] = (
        ("position", travel()),
        ("angle", apply("mul", fit.si["full angle"], travel())),
        ("open", Signal("extended", of="moved by")),
        ("closed", Signal("retracted", of="moved by")),
    )
    return Recipe(signals=signals)


DOORS = Kind(
    "doors",
    "Doors that a jack opens as it extends: open within a fiftieth of its full travel, closed within a fiftieth of "
    "none.",
    ports=(),
    build=_doors,
    wants=(
        Want(
            "full angle",
            "angle",
            "Their angle when they are fully open.",
            default="90 deg",
            between="60 to 120 deg",
            because=JUDGEMENT,
        ),
    ),
    couplings=(
        Coupling(
            "moved by",
            "signals",
            "The jack that moves them; they open as it extends.",
            required=True,
            needs=("position", "extended", "retracted"),
        ),
    ),
    states=(State("open", "open"), State("closed", "closed")),
    readings=(Reading("angle", "angle", "angle", "deg", main=True),),
    caution=DOORS_CAUTION,
    example=undercarriage_examples.DOORS,
)

KINDS = (LEG, DOWN_LOCK_SWITCH, UP_LOCK_SWITCH, MICROSWITCH, SAFETY_BOLT, MECHANICAL_INDICATOR, DOORS)
