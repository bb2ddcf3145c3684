"""The emergency air bottle: compressed air that pushes the oil when no pump can."""

from collections.abc import Mapping

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds import oil_examples
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    JUDGEMENT,
    NEVER,
    SEA_LEVEL,
    at_position,
    fixed,
    over,
    port,
)
from cutaway.parts.kinds.hydraulics import TEN_POUNDS
from cutaway.parts.kinds.liquids import OIL, one_way
from cutaway.parts.laws.sizing import air_conductance
from cutaway.parts.recipe import Across, Content, Element, Mode, ModeIs, Node, Recipe, Through, apply, failed

LEAK = 1e-4  # m³/s of free air at 100 lb/sq in: a pint and a half is gone in a minute or two
CAUTION = (
    "Compressed air. It is used once: from then on there is air in the oil, the pump's oil must not be put on top of "
    "it, and the whole system must be bled and the bottle charged before either is used again. Opened by mistake it "
    "moves what it works at once."
)


def _free_air(pressure: float, si: Mapping[str, float]) -> float:
    """Free air in a bottle at a gauge pressure, m³."""
    return (pressure + SEA_LEVEL) * si["volume"] / SEA_LEVEL


def _bottle(fit: Fit) -> Recipe:
    volume, pressure = fit.si["volume"], fit.si["pressure"]
    # The air that has left the bottle stands behind the oil and presses as hard as what is left in it. So `air` holds
    # all of it, and its pressure is that of the bottle's volume and the room that the oil has made, together.
    room = apply("add", volume, Content("room"))
    gauge = apply("sub", apply("div", apply("mul", volume, Across("bottle")), room), AMBIENT_PRESSURE)
    nodes = (
        port("outlet", "oil"),
        fixed("pushed", "oil", apply("max", 0.0, gauge)),
        Node("bottle", "air", start=pressure + SEA_LEVEL),
        fixed("outside", "air", AMBIENT_PRESSURE),
        Node("measure", "oil"),
        fixed("measured", "oil"),
    )
    leak = (air_conductance(LEAK, 8.0 * SEA_LEVEL, 7.0 * SEA_LEVEL), 0.02 * SEA_LEVEL)
    elements = (
        one_way(OIL, "valve", ("pushed", "outlet"), fit.si["flow"], TEN_POUNDS, at_position(1)),
        Element("air", "STORE", ("bottle",), (volume / SEA_LEVEL,), content=_free_air(pressure, fit.si)),
        Element("leak", "GASROOT", ("bottle", "outside"), leak, gate=failed("leaked")),
        # Adds up what has passed the valve, a step late: the small store makes that count in the choice of the step.
        Element("counting", "DRAW", ("measured", "measure"), (1.0, -2e9, 1e9), drive=Through("valve")),
        Element("room", "STORE", ("measure",), (1e-8 * volume,), content=0.0),
    )
    used = Mode("used", over(at_position(1), 0.5), NEVER)
    signals = (("used", ModeIs("used")), ("pressure", apply("max", 0.0, gauge)))
    return Recipe(nodes, elements, (used,), signals)


EMERGENCY_AIR_BOTTLE = Kind(
    "emergency air bottle",
    "A bottle of compressed air that, once opened, drives the oil before it to one side of the jacks. Its pressure "
    "falls as the air spreads behind the oil. Nothing goes back into it.",
    ports=(Port("outlet", "oil", "east", "both"),),
    build=_bottle,
    controls=(Control("", ("closed", "opened")),),
    wants=(
        Want(
            "volume",
            "volume",
            "What the bottle itself holds.",
            default="90 cu in",
            between="30 to 400 cu in",
            because=f"{JUDGEMENT} A bottle of about a litre and a half.",
        ),
        Want(
            "pressure",
            "pressure",
            "The pressure to which it is charged.",
            datum="gauge",
            usual="200 to 3000 lb/sq in",
        ),
        Want(
            "flow",
            "volume flow",
            "The oil that it drives at a drop of 10 lb/sq in.",
            default="13 gal/h",
            between="6 to 40 gal/h",
            because=f"{JUDGEMENT} As the pipe that it joins.",
        ),
    ),
    states=(State("used", "used"),),
    readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
    failures=(Failure("leaked", "Its air leaks away within minutes."),),
    contents=(Holds("pressure", "air", full="pressure", held_at=_free_air),),
    families=("ONEWAY", "STORE", "GASROOT", "DRAW"),
    caution=CAUTION,
    example=oil_examples.EMERGENCY_AIR_BOTTLE,
)

KINDS = (EMERGENCY_AIR_BOTTLE,)
