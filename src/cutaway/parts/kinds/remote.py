"""What is shown at a distance: transmitter and indicator, which hold their last reading; the ammeter."""

from cutaway.parts.kind import Coupling, Example, Failure, Fit, Kind, Reading, State
from cutaway.parts.kinds.common import fixed, port, product
from cutaway.parts.kinds.electrics import (
    AIRFRAME,
    CONTACT,
    FED_BY_OR_LINE,
    FEED,
    INLET,
    MADE_FOR,
    OUTLET,
    VOLTAGE_24,
    live,
)
from cutaway.parts.recipe import Across, Element, Expr, Node, Recipe, Signal, Through, apply, unless

TAKES = 0.05  # A: what either end takes at its voltage
FOLLOWS = 0.3  # s: how soon the pointer has followed
SCALE = 100.0  # the pointer stands at per cents of its scale


PAIR = Example(
    "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
    "indicator switch: {kind: switch}\n"
    "lever: {kind: throttle}\n"
    "sender: {kind: transmitter, moved by: lever, fed by: indicator switch.outlet}\n"
    "pointer: {kind: remote indicator, shows: sender, fed by: indicator switch.outlet}",
    (
        "with indicator switch on, after lever to 60 %, within 5 s: pointer reads 60 % ± 1",
        "after lever to 60 %, at 10 s: pointer is dead",
        "with indicator switch on, after lever to 60 % then wait 5 s then indicator switch to off then lever to open, "
        "at 10 s: pointer reads 60 % ± 1",
        "with indicator switch on, with sender open, after lever to 60 %, at 5 s: pointer reads below 1 %",
        "with indicator switch on, with pointer open, after lever to 60 %, at 5 s: pointer reads below 1 %",
    ),
    "battery > indicator switch",
)


def _end(fit: Fit) -> tuple[tuple[Node, ...], Element, Expr]:
    """One end of the pair: its feed, what it takes, and whether it has current."""
    takes = Element("movement", "LIN", ("feed", "airframe"), (TAKES / fit.si["voltage"],), gate=unless("open"))
    return (port("feed", "current"), AIRFRAME), takes, product(live(fit), unless("open"))


def _transmitter(fit: Fit) -> Recipe:
    nodes, takes, working = _end(fit)
    position = Signal("position", of="moved by")
    return Recipe(nodes, (takes,), signals=(("working", working), ("position", position), ("sends", working)))


TRANSMITTER = Kind(
    "transmitter",
    "Tells a remote indicator how far something has moved.",
    ports=(FEED,),
    build=_transmitter,
    wants=(VOLTAGE_24,),
    couplings=(
        Coupling("moved by", "signals", "What moves it.", required=True, needs=("position",)),
        FED_BY_OR_LINE,
    ),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    failures=(Failure("open", "Its lead is off: it sends nothing."),),
    families=("LIN",),
    example=PAIR,
)


def _indicator(fit: Fit) -> Recipe:
    nodes, takes, live_here = _end(fit)
    working = product(live_here, Signal("sends", of="shows"))
    # The pointer is a mass that is drawn along while there is current, and stays where it is without.
    pointer = Node("pointer", "heat", start=0.0, store=1.0)
    at = fixed("sent", "heat", apply("mul", SCALE, Signal("position", of="shows")))
    follows = Element("follows", "LIN", ("sent", "pointer"), (1.0 / FOLLOWS,), gate=working)
    shown = apply("div", Across("pointer"), SCALE)
    signals = (("working", working), ("shown", shown))
    return Recipe((*nodes, pointer, at), (takes, follows), signals=signals)


REMOTE_INDICATOR = Kind(
    "remote indicator",
    "Shows what its transmitter sends. Without current at either end its pointer stays where it last stood, which "
    "looks like a reading and is none.",
    indicates=True,
    ports=(FEED,),
    build=_indicator,
    wants=(VOLTAGE_24,),
    couplings=(
        Coupling(
            "shows", "signals", "The transmitter whose position it shows.", required=True, needs=("sends", "position")
        ),
        FED_BY_OR_LINE,
    ),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("position", "fraction", "shown", "%", main=True),),
    failures=(Failure("open", "Its lead is off: its pointer stays where it is."),),
    families=("LIN",),
    example=PAIR,
)


def _ammeter(fit: Fit) -> Recipe:
    shunt = Element("shunt", "LIN", ("inlet", "outlet"), (CONTACT,))
    shown = product(Through("shunt"), unless("open"))
    return Recipe((port("inlet", "current"), port("outlet", "current")), (shunt,), signals=(("current", shown),))


AMMETER = Kind(
    "ammeter",
    "Shows the current that passes from its inlet to its outlet, below nought the other way.",
    indicates=True,
    ports=(INLET, OUTLET),
    build=_ammeter,
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("open", "Its lead to the shunt is off: it shows nothing, though the circuit is whole."),),
    families=("LIN",),
    example=Example(
        "socket: {kind: external supply socket}\n"
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "ammeter: {kind: ammeter}\n"
        "lights: {kind: electrical load, current: 5 A, voltage: 24 V, fed by: ammeter.outlet}",
        (
            "ammeter reads 5 A ± 0.5",
            "with ammeter open, within 1 s: ammeter reads 0 A and lights are working",
        ),
        "battery > ammeter",
    ),
)

KINDS = (TRANSMITTER, REMOTE_INDICATOR, AMMETER)
