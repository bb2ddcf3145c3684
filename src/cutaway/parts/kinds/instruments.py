"""Instruments and warning lamps for petrol and oil, the contents gauge and the position indicator, and the flaps."""

from cutaway.parts.kind import Coupling, Example, Failure, Fit, Kind, Level, Reading, State, Want
from cutaway.parts.kinds import trainer_examples
from cutaway.parts.kinds.common import JUDGEMENT, above, over, port, product, under
from cutaway.parts.kinds.electrics import AIRFRAME, DARK, FED_BY, FEED, MADE_FOR, VOLTAGE, filament, lamp_current, live
from cutaway.parts.recipe import (
    Across,
    Element,
    Expr,
    Medium,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    apply,
    failed,
    unless,
)

MAYBE_FED_BY = Coupling(
    "fed by", "port", "The port from which its current comes; without it, it needs none.", port="feed"
)
LIQUIDS: tuple[Medium, ...] = ("petrol", "oil")
MOVEMENT = 0.05  # A: what an electrical indicator takes at its voltage


def _pressure_gauge(fit: Fit) -> Recipe:
    shown = product(apply("max", 0.0, Across("senses")), unless("pipe broken"))
    return Recipe(signals=(("pressure", shown),))


def _pressure_gauge_kind(name: str, liquid: str, example: Example) -> Kind:
    return Kind(
        name,
        f"Shows the pressure of the {liquid} at the port that it senses, through a thin pipe of its own.",
        indicates=True,
        ports=(),
        build=_pressure_gauge,
        couplings=(Coupling("senses", "node", "The port whose pressure it shows.", required=True, media=LIQUIDS),),
        readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
        failures=(Failure("pipe broken", "It shows nothing, whatever the pressure."),),
        example=example,
    )


FUEL_PRESSURE_GAUGE = _pressure_gauge_kind("fuel pressure gauge", "petrol", trainer_examples.FUEL_PRESSURE_GAUGE)
OIL_PRESSURE_GAUGE = _pressure_gauge_kind("oil pressure gauge", "oil", trainer_examples.OIL_PRESSURE_GAUGE)


def _low_pressure_lamp(fit: Fit) -> Recipe:
    below, rise = fit.si["lights below"], fit.si["rise"]
    pressure = Across("senses")
    closed = Mode(
        "switch",
        under(pressure, below),
        over(pressure, below + rise),
        delay=fit.si["delay"],
        called="delay",
        started=None,
    )
    gate = product(ModeIs("switch"), unless("switch stuck"), unless("filament"))
    lit = product(gate, above(Across("feed"), DARK * fit.si["voltage"]))
    return Recipe((port("feed", "current"), AIRFRAME), (filament(fit, gate),), (closed,), (("lit", lit),))


LOW_PRESSURE_LAMP = Kind(
    "low-pressure lamp",
    "A pressure switch and its lamp. Lit when the switch has closed, there is current and the filament is whole.",
    indicates=True,
    ports=(FEED,),
    build=_low_pressure_lamp,
    wants=(
        Want(
            "lights below",
            "pressure",
            "The falling pressure at which its switch closes.",
            datum="gauge",
            usual="0.2 to 150 lb/sq in",
        ),
        Want(
            "rise",
            "pressure",
            "How far above that the pressure must rise before the switch opens again.",
            default="0.3 lb/sq in",
            between="0.1 to 1 lb/sq in",
            because=f"{JUDGEMENT} A snap switch needs some difference.",
        ),
        Want(
            "delay",
            "time",
            "How long the pressure must have been low before the switch closes.",
            default="1 s",
            between="0 to 3 s",
            because=f"{JUDGEMENT} The switch's damping.",
            least="nought",
        ),
        lamp_current("0.1 A"),
        VOLTAGE,
    ),
    couplings=(Coupling("senses", "node", "The port whose pressure it watches.", required=True, media=LIQUIDS), FED_BY),
    states=(State("lit", "lit", "out"),),
    levels=(
        MADE_FOR,
        Level("needs", "lights below", "senses", "is lit below", "it may never go out"),
    ),
    failures=(
        Failure("filament", "Its filament is broken: it stays dark."),
        Failure("switch stuck", "Its switch stays open: it stays dark however low the pressure."),
    ),
    families=("ROOT",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "lamp switch: {kind: switch}\n"
        "tank: {kind: tank, capacity: 20 gal}\n"
        "pump: {kind: hand fuel pump}\n"
        "cock: {kind: cock}\n"
        "pressure lamp: {kind: low-pressure lamp, senses: pump.outlet, fed by: lamp switch.outlet, "
        "lights below: 2 lb/sq in, voltage: 24 V}",
        (
            "with lamp switch on, within 3 s: pressure lamp is lit",
            "with lamp switch on, after pump to pumping, within 10 s: pressure lamp is out",
            "after pump to idle, at 10 s: pressure lamp is out",
            "with lamp switch on, with pressure lamp switch stuck, at 5 s: pressure lamp is out",
            "with lamp switch on, with pressure lamp filament, at 5 s: pressure lamp is out",
        ),
        "battery > lamp switch\ntank > pump > cock",
    ),
)


def _supply(fit: Fit, failure: str) -> tuple[tuple[Node, ...], tuple[Element, ...], Expr]:
    """An indicator's feed and whether it works: by current where it is fed, else by itself."""
    if "fed by" not in fit.coupled:
        return (port("feed", "current"),), (), unless(failure)
    takes = Element("movement", "LIN", ("feed", "airframe"), (MOVEMENT / fit.si["voltage"],), gate=unless(failure))
    return (port("feed", "current"), AIRFRAME), (takes,), product(live(fit), unless(failure))


def _contents_gauge(fit: Fit) -> Recipe:
    nodes, elements, working = _supply(fit, "no supply")
    stuck = failed("stuck")
    shown = apply("if", stuck, Signal("capacity", of="reads"), Signal("contents", of="reads"))
    return Recipe(nodes, elements, signals=(("shown", shown), ("working", working)))


CONTENTS_GAUGE = Kind(
    "contents gauge",
    "A float gauge. Where nothing feeds it, it is read directly and needs no current.",
    indicates=True,
    ports=(FEED,),
    build=_contents_gauge,
    wants=(VOLTAGE,),
    couplings=(
        Coupling(
            "reads", "signals", "The tank whose contents it shows.", required=True, needs=("contents", "capacity")
        ),
        MAYBE_FED_BY,
    ),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("contents", "volume", "shown", "gal", main=True, alive="working"),),
    failures=(
        Failure("stuck", "Its float has stayed at the top: it goes on showing a full tank."),
        Failure("no supply", "Its own lead, or its link where it has none, is off: it shows nothing."),
    ),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "gauge switch: {kind: switch}\n"
        "tank: {kind: tank, capacity: 20 gal}\n"
        "gauge: {kind: contents gauge, reads: tank, fed by: gauge switch.outlet, voltage: 24 V}",
        (
            "gauge is dead",
            "with gauge switch on, with tank at 7 gal, within 1 s: gauge reads 7 gal ± 0.1",
            "with gauge switch on, with tank at 7 gal, with gauge stuck, within 1 s: gauge reads 20 gal ± 0.1",
            "with gauge switch on, with gauge no supply, within 1 s: gauge is dead",
        ),
        "battery > gauge switch",
    ),
)


def _flaps(fit: Fit) -> Recipe:
    signals: tuple[tuple[str, Expr], ...] = (
        ("angle", apply("mul", fit.si["full angle"], Signal("extension", of="moved by"))),
        ("position", Signal("extension", of="moved by")),
        ("down", Signal("extended", of="moved by")),
        ("up", Signal("retracted", of="moved by")),
    )
    return Recipe(signals=signals)


FLAPS = Kind(
    "flaps",
    "Flaps moved by a jack: down within a fiftieth of its full travel, up within a fiftieth of none.",
    ports=(),
    build=_flaps,
    wants=(Want("full angle", "angle", "Their angle when they are fully down.", usual="5 to 90 degrees"),),
    couplings=(
        Coupling(
            "moved by",
            "signals",
            "The jack that moves them; they go down as it extends.",
            required=True,
            needs=("extension", "extended", "retracted"),
        ),
    ),
    states=(State("down", "down"), State("up", "up")),
    readings=(Reading("angle", "angle", "angle", "deg", main=True),),
    example=trainer_examples.FLAPS,
)


def _position_indicator(fit: Fit) -> Recipe:
    nodes, elements, working = _supply(fit, "open")
    return Recipe(nodes, elements, signals=(("angle", Signal("angle", of="shows")), ("working", working)))


POSITION_INDICATOR = Kind(
    "position indicator",
    "Shows the angle of what it is joined to. Where nothing feeds it, it works by a cable and needs no current.",
    indicates=True,
    ports=(FEED,),
    build=_position_indicator,
    wants=(VOLTAGE,),
    couplings=(
        Coupling("shows", "signals", "The flaps whose angle it shows.", required=True, needs=("angle",)),
        MAYBE_FED_BY,
    ),
    levels=(MADE_FOR,),
    states=(State("working", "working", "dead"),),
    readings=(Reading("angle", "angle", "angle", "deg", main=True, alive="working"),),
    failures=(Failure("open", "Its lead or cable has parted: it shows nothing."),),
    families=("LIN",),
    example=trainer_examples.POSITION_INDICATOR,
)

KINDS = (
    FUEL_PRESSURE_GAUGE,
    LOW_PRESSURE_LAMP,
    CONTENTS_GAUGE,
    FLAPS,
    POSITION_INDICATOR,
    OIL_PRESSURE_GAUGE,
)
