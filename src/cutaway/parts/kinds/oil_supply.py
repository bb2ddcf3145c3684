"""Oil under pressure from the engine: pump, automatic cut-out, accumulator, filter."""

from collections.abc import Mapping

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Coupling, Failure, Fit, Kind, Level, Order, Port, Reading, State, Want
from cutaway.parts.kinds import oil_examples
from cutaway.parts.kinds.common import JUDGEMENT, TURNS, drops_to, either, latch, over, port, product, under
from cutaway.parts.kinds.hydraulics import INLET, OUTLET, TEN_POUNDS
from cutaway.parts.kinds.liquids import OIL, one_way, pump, way
from cutaway.parts.laws.sizing import flow_conductance
from cutaway.parts.laws.stores import accumulator
from cutaway.parts.recipe import (
    Across,
    Content,
    Element,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Through,
    apply,
    failed,
    unless,
)

GALLON_A_MINUTE = 4.54609e-3 / 60.0
MOUTH = 10.0 * GALLON_A_MINUTE  # what an accumulator's neck passes at 10 lb/sq in: next to no resistance
LEFT = 101_325.0  # Pa: the air left in an accumulator whose air is lost
PUMP_CAUTION = (
    "A jet of oil from a pressure pipe goes through skin. Never feel for a leak by hand, and let the pressure off "
    "before anything is undone."
)
ACCUMULATOR_CAUTION = (
    "It holds oil under air pressure, engine stopped or not, for days: what it feeds can move without warning. Let the "
    "pressure off through the system before anything is undone, and the air before the accumulator is."
)


def _engine_pump(fit: Fit) -> Recipe:
    delivery, stall = fit.si["delivery"], fit.si["pressure"]
    drive = product(Signal("speed", of="driven by"), unless("sheared"))
    elements = (
        pump(OIL, "gears", ("inlet", "outlet"), delivery, stall, 0.1, drive),
        # A worn pump lets half its delivery slip back at half its greatest pressure.
        Element("slip", "LIN", ("outlet", "inlet"), (delivery / stall,), gate=failed("worn")),
    )
    given = apply("sub", Through("gears"), Through("slip"))
    return Recipe((port("inlet", "oil"), port("outlet", "oil")), elements, signals=(("delivery", given),))


ENGINE_DRIVEN_HYDRAULIC_PUMP = Kind(
    "engine-driven hydraulic pump",
    "Gives its delivery at the engine's rated speed and in proportion below that, whatever the pressure, until near "
    "the greatest that it can reach.",
    ports=(INLET, OUTLET),
    build=_engine_pump,
    wants=(
        Want(
            "delivery",
            "volume flow",
            "What it gives at the engine's rated speed.",
            default="1.3 gal/min",
            between="0.6 to 4 gal/min",
            because=f"{JUDGEMENT} The small gear pumps of the time gave about a tenth of a litre a second.",
        ),
        Want(
            "pressure",
            "pressure",
            "The greatest pressure that it can reach.",
            default="2000 lb/sq in",
            between="1200 to 3000 lb/sq in",
            because=f"{JUDGEMENT} Well above any cut-out; a relief valve as a rule comes first.",
        ),
    ),
    couplings=(Coupling("driven by", "signals", "The engine that turns it.", required=True, needs=TURNS),),
    readings=(Reading("delivery", "volume flow", "delivery", "gal/min", main=True),),
    levels=(Level("gives", "pressure", "outlet", "gives no more than"),),
    failures=(
        Failure("sheared", "Its drive has sheared: it gives nothing."),
        Failure("worn", "Oil slips back past its gears, the more the higher the pressure."),
    ),
    families=("PDPUMP", "LIN"),
    caution=PUMP_CAUTION,
    example=oil_examples.ENGINE_DRIVEN_HYDRAULIC_PUMP,
)


def _cut_out(fit: Fit) -> Recipe:
    system = Across("system")
    idling = Mode("idling", over(system, fit.si["cut-out"]), under(system, fit.si["cut-in"]), started=None)
    opened = product(either(ModeIs("idling"), failed("stuck idling")), unless("stuck charging"))
    flow = fit.si["flow"]
    elements = (
        one_way(OIL, "non-return valve", ("pump", "system"), flow, TEN_POUNDS),
        way(OIL, "by-pass", ("pump", "return"), flow, TEN_POUNDS, opened),
    )
    nodes = tuple(port(name, "oil") for name in ("pump", "system", "return"))
    return Recipe(nodes, elements, (idling,), (("idling", opened),))


AUTOMATIC_CUT_OUT = Kind(
    "automatic cut-out",
    "Turns the pump's oil back to the reservoir at little pressure once the system has reached the cut-out pressure, "
    "and into the system again when it has fallen to the cut-in pressure. Between the two it does what it last did. "
    "Its own non-return valve keeps the system's pressure meanwhile.",
    ports=(
        Port("pump", "oil", "west", "in"),
        Port("system", "oil", "east", "out"),
        Port("return", "oil", "south"),
    ),
    build=_cut_out,
    wants=(
        Want("cut-out", "pressure", "The rising pressure at which the pump is let off.", usual="200 to 4000 lb/sq in"),
        Want("cut-in", "pressure", "The falling pressure at which it charges again.", usual="150 to 3500 lb/sq in"),
        Want(
            "flow",
            "volume flow",
            "What it passes at a drop of 10 lb/sq in.",
            default="1.5 gal/min",
            between="0.5 to 6 gal/min",
            because=f"{JUDGEMENT} An idling pump works against next to nothing.",
        ),
    ),
    orders=(Order("cut-in", "cut-out", "A pump that is let off above one pressure is called back below another."),),
    states=(
        State("idling", "idling", "charging", means="what is pumped goes back", otherwise="what is pumped goes on"),
    ),
    levels=(
        Level("needs", "cut-out", "system", "lets its pump off at", "its pump may never be let off"),
        Level("limits", "cut-out", "system", "lets its pump off at"),
    ),
    failures=(
        Failure("stuck idling", "All that the pump gives goes back to the reservoir."),
        Failure("stuck charging", "The pump is never let off: the pressure rises to the relief valve."),
    ),
    families=("ONEWAY", "ROOT"),
    example=oil_examples.AUTOMATIC_CUT_OUT,
)


def _gas(volume: float, precharge: float) -> tuple[float, float, float, float]:
    """Parameters of an accumulator element."""
    return volume, precharge, 0.005 * precharge, 1e-14


def _held(pressure: float, si: Mapping[str, float]) -> float:
    """The oil that an accumulator holds at a pressure."""
    return accumulator(pressure, *_gas(si["volume"], si["air pressure"]))[0]


def _accumulator(fit: Fit) -> Recipe:
    volume, precharge = fit.si["volume"], fit.si["air pressure"]
    lost = failed("air lost")
    neck = (flow_conductance(MOUTH, TEN_POUNDS), OIL.core)
    # Without its air the whole vessel fills with oil, against what little air is left in it; the oil that lay under
    # the air first goes there too.
    elements = (
        Element("neck", "ROOT", ("oil", "cushion"), neck, gate=unless("air lost")),
        Element("air", "ACCUM", ("cushion",), _gas(volume, precharge)),
        Element("bare neck", "ROOT", ("oil", "vessel"), neck, gate=lost),
        Element("collapse", "ONEWAY", ("cushion", "vessel"), (*neck, 0.0, 0.0), gate=lost),
        Element("air left", "ACCUM", ("vessel",), _gas(volume, LEFT)),
    )
    nodes = (port("oil", "oil"), Node("cushion", "oil"), Node("vessel", "oil"))
    charged = latch("charged", Content("air"), 0.02 * volume, 0.01 * volume)
    gauge = product(apply("max", precharge, Across("cushion")), unless("air lost"))
    signals = (("charged", product(ModeIs("charged"), unless("air lost"))), ("pressure", gauge))
    return Recipe(nodes, elements, (charged,), signals)


ACCUMULATOR = Kind(
    "accumulator",
    "Holds oil under compressed air. It gives and takes oil above its air pressure; the air is taken to "
    "stay as warm as it was. Its gauge stands on the air side, and so shows the air pressure when there is no oil in "
    "it.",
    ports=(Port("oil", "oil", "south", "both"),),
    build=_accumulator,
    wants=(
        Want("volume", "volume", "The volume of the air when there is no oil in it.", usual="2 cu in to 12 gal"),
        Want(
            "air pressure",
            "pressure",
            "The pressure of the air when there is no oil in it.",
            default="400 lb/sq in",
            between="150 to 1000 lb/sq in",
            because=f"{JUDGEMENT} About half of the pressure at which the pump cuts in.",
            datum="gauge",
        ),
    ),
    states=(State("charged", "charged", "empty"),),
    readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
    levels=(Level("needs", "air pressure", "oil", "takes oil from", "it may never hold any"),),
    failures=(Failure("air lost", "It fills with oil and gives none back: the pressure goes as soon as oil is used."),),
    contents=(Holds("pressure", "air", held_at=_held),),
    families=("ROOT", "ACCUM", "ONEWAY"),
    caution=ACCUMULATOR_CAUTION,
    example=oil_examples.ACCUMULATOR,
)


def _filter(fit: Fit) -> Recipe:
    gauze = way(OIL, "gauze", ("inlet", "outlet"), fit.si["full flow"], fit.si["drop"], drops_to(0.02, "choked"))
    return Recipe((port("inlet", "oil"), port("outlet", "oil")), (gauze,))


OIL_FILTER = Kind(
    "oil filter",
    "Keeps dirt from the pump and the valves, and costs a little pressure.",
    ports=(INLET, OUTLET),
    build=_filter,
    wants=(
        Want(
            "drop",
            "pressure",
            "Pressure lost through it at full flow when clean.",
            default="3 lb/sq in",
            between="0.5 to 10 lb/sq in",
            because=f"{JUDGEMENT} A clean felt or gauze loses little.",
        ),
        Want(
            "full flow",
            "volume flow",
            "The flow for which that is true.",
            default="1.5 gal/min",
            between="0.5 to 6 gal/min",
            because=f"{JUDGEMENT} What a pump of that size gives.",
        ),
    ),
    failures=(Failure("choked", "Passes a fiftieth of what it does when clean."),),
    families=("ROOT",),
    example=oil_examples.OIL_FILTER,
)

KINDS = (ENGINE_DRIVEN_HYDRAULIC_PUMP, AUTOMATIC_CUT_OUT, ACCUMULATOR, OIL_FILTER)
