"""What compressed air works: brakes with their relay valve and gauge, the spring-return ram and its solenoid valve."""

from cutaway.parts.kind import Content as Holds
from cutaway.parts.kind import Control, Coupling, Example, Failure, Fit, Kind, Level, Port, Reading, State, Want
from cutaway.parts.kinds.airs import CAUTION, CORE, FLOW, OUTSIDE, conductance, gauge_at, passage, setting_of
from cutaway.parts.kinds.circuits import LETS_GO_LOWER
from cutaway.parts.kinds.common import (
    AMBIENT_PRESSURE,
    JUDGEMENT,
    SEA_LEVEL,
    at_position,
    between_stops,
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
from cutaway.parts.kinds.electrics import AIRFRAME, COILS, FED_BY, VOLTAGE_24
from cutaway.parts.laws.sizing import load_conductance, stop_stiffness
from cutaway.parts.recipe import (
    Across,
    Content,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Recipe,
    apply,
    failed,
    unless,
)

LEVER, RUDDER_BAR = Input("control", "lever"), Input("control", "rudder bar")
INCH = 0.0254
LIFTS = 100.0  # Pa: what opens the exhaust from outside
AT_FULL = 3_000.0  # Pa: how near the demanded pressure the relay valve stops feeding


def _side(name: str, full: float, flow: float, share: Expr) -> tuple[Element, ...]:
    """One brake's feed and exhaust: a valve that feeds up to the demand, and another that lets off above it; by that
    way air comes in where the brake has less than there is outside, as after a descent."""
    setting, _ = setting_of(full)
    wanted = apply("mul", full, share)
    band = 0.04 * full + AT_FULL
    feeds = Element(
        f"{name} feed",
        "REDUCE",
        ("supply", name),
        (flow / (10.0 * AT_FULL) ** 0.5, CORE, setting, band),
        # Set against nothing at all, the valve is shut: the demand must be felt above what its spring holds off.
        drive=apply("div", total(wanted, AMBIENT_PRESSURE), setting),
        gate=apply("gt", share, 0.0),
    )
    exhaust = Element(
        f"{name} exhaust",
        "RELIEF",
        (name, "outside"),
        (flow / (10.0 * AT_FULL) ** 0.5, CORE, full, band),
        drive=share,
        gate=unless("exhaust stuck"),
    )
    back = Element(
        f"{name} air in",
        "GASWAY",
        ("outside", name),
        (conductance(flow), CORE, LIFTS),
        gate=unless("exhaust stuck"),
    )
    return feeds, exhaust, back


def _relay_valve(fit: Fit) -> Recipe:
    full, flow = fit.si["full pressure"], fit.si["flow"]
    # The rudder bar takes the pressure off the brake on the other side.
    port_share = product(LEVER, no(at_position(2, RUDDER_BAR)))
    starboard_share = product(LEVER, no(at_position(1, RUDDER_BAR)))
    elements = (
        *_side("port brake", full, flow, port_share),
        *_side("starboard brake", full, flow, starboard_share),
    )
    nodes = (*(port(name, "air") for name in ("supply", "port brake", "starboard brake")), OUTSIDE)
    return Recipe(nodes, elements)


BRAKE_RELAY_VALVE = Kind(
    "brake relay valve",
    "Gives each brake a pressure in proportion to the lever, and lets it off when the lever is let go. The rudder bar "
    "takes the pressure off the brake on the far side of the turn.",
    ports=(
        Port("supply", "air", "west", "in"),
        Port("port brake", "air", "east"),
        Port("starboard brake", "air", "east"),
    ),
    build=_relay_valve,
    controls=(
        Control("lever", ("off", "full"), ranged=True),
        Control("rudder bar", ("central", "port", "starboard")),
    ),
    wants=(
        Want(
            "full pressure",
            "pressure",
            "The pressure on the brakes with the lever hard on.",
            datum="gauge",
            usual="20 to 150 lb/sq in",
        ),
        FLOW,
    ),
    levels=(Level("needs", "full pressure", "supply", "gives the brakes up to", "they may never have so much"),),
    failures=(Failure("exhaust stuck", "Air that has been let to the brakes stays there: they bind."),),
    families=("REDUCE", "RELIEF", "GASWAY"),
    caution="Chocks in place before the brake pressure is let off or worked on. " + CAUTION,
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\n"
        "brake valve: {kind: brake relay valve, full pressure: 80 lb/sq in}\n"
        "port brake: {kind: brake}\nstarboard brake: {kind: brake}\n",
        lines="bottle > brake valve\nbrake valve.port brake > port brake\nbrake valve.starboard brake > starboard "
        "brake\n",
        claims=(
            "with bottle at 200 lb/sq in, after brake valve lever to full, within 5 s: port brake reads 80 lb/sq in "
            "± 4",
            "with bottle at 200 lb/sq in, after brake valve lever to 50 %, within 5 s: starboard brake reads 40 lb/sq "
            "in ± 4",
            "with bottle at 200 lb/sq in, after brake valve lever to full then brake valve rudder bar to port, within "
            "5 s: starboard brake is off and port brake is on",
            "with bottle at 200 lb/sq in, after brake valve lever to full then wait 10 s then brake valve lever to "
            "off, within 5 s: port brake is off",
            "with bottle at 200 lb/sq in, with brake valve exhaust stuck, after brake valve lever to full for 10 s "
            "then wait 20 s, throughout 10 s: port brake is on",
        ),
    ),
)


def _brake(fit: Fit) -> Recipe:
    elements = (
        Element("bag", "STORE", ("air",), (fit.si["volume"] / SEA_LEVEL,)),
        Element("hole", "GASROOT", ("air", "outside"), (conductance(5e-3), CORE), gate=failed("burst")),
    )
    pressure = gauge_at("air")
    modes = (latch("on", pressure, fit.si["bites at"], 0.7 * fit.si["bites at"]),)
    signals = (("pressure", apply("max", 0.0, pressure)), ("on", ModeIs("on")))
    return Recipe((port("air", "air"), OUTSIDE), elements, modes, signals)


BRAKE = Kind(
    "brake",
    "A bag of air that presses the blocks of a wheel against its drum.",
    ports=(Port("air", "air", "west", "in"),),
    build=_brake,
    wants=(
        Want(
            "volume",
            "volume",
            "The air that the bag and its pipe hold, at the pressure of the air outside.",
            default="15 cu in",
            between="5 to 60 cu in",
            because=JUDGEMENT,
        ),
        Want(
            "bites at",
            "pressure",
            "The pressure at which it begins to hold the wheel.",
            default="10 lb/sq in",
            between="3 to 20 lb/sq in",
            because=f"{JUDGEMENT} What springs and stiff rubber take.",
            datum="gauge",
        ),
    ),
    states=(State("on", "on", "off"),),
    readings=(Reading("pressure", "pressure", "pressure", "lb/sq in", main=True, datum="gauge"),),
    levels=(Level("needs", "bites at", "air", "bites at", "it may never hold"),),
    failures=(Failure("burst", "Its bag has burst: the air goes out of it."),),
    families=("STORE", "GASROOT"),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.1 cu ft}\nvalve: {kind: pressure-reducing valve, set at: 80 lb/sq "
        "in}\nbrake: {kind: brake}\n",
        lines="bottle > valve > brake\n",
        claims=(
            "with bottle at 200 lb/sq in, within 5 s: brake is on",
            "throughout 1 min: brake is off",
            "with bottle at 200 lb/sq in, with brake burst, within 2 min: bottle reads below 20 lb/sq in",
        ),
    ),
)


def _triple_gauge(fit: Fit) -> Recipe:
    def shown(node: str) -> Expr:
        return apply("max", 0.0, apply("sub", Across(node), AMBIENT_PRESSURE))

    signals = (
        ("supply", product(shown("senses supply"), unless("pipe broken"))),
        ("port brake", shown("senses port brake")),
        ("starboard brake", shown("senses starboard brake")),
    )
    return Recipe(signals=signals)


TRIPLE_GAUGE = Kind(
    "triple gauge",
    "Shows the pressure of the supply, and that on either brake, on one face.",
    indicates=True,
    ports=(),
    build=_triple_gauge,
    couplings=(
        Coupling("senses supply", "node", "The port of the supply.", required=True, media=("air",)),
        Coupling("senses port brake", "node", "The port of the port brake.", required=True, media=("air",)),
        Coupling("senses starboard brake", "node", "The port of the starboard brake.", required=True, media=("air",)),
    ),
    readings=(
        Reading("supply", "pressure", "supply", "lb/sq in", main=True, datum="gauge"),
        Reading("port brake", "pressure", "port brake", "lb/sq in", datum="gauge"),
        Reading("starboard brake", "pressure", "starboard brake", "lb/sq in", datum="gauge"),
    ),
    failures=(Failure("pipe broken", "Its supply needle shows nothing, whatever the pressure."),),
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\n"
        "brake valve: {kind: brake relay valve, full pressure: 80 lb/sq in}\n"
        "left bag: {kind: brake}\nright bag: {kind: brake}\n"
        "gauge: {kind: triple gauge, senses supply: bottle.any, senses port brake: left bag.air, "
        "senses starboard brake: right bag.air}\n",
        lines="bottle > brake valve\nbrake valve.port brake > left bag\nbrake valve.starboard brake > right bag\n",
        claims=(
            "with bottle at 200 lb/sq in: gauge reads 200 lb/sq in ± 1",
            "with bottle at 200 lb/sq in, after brake valve lever to full, within 5 s: gauge port brake reads 80 lb/sq "
            "in ± 4",
            "with bottle at 200 lb/sq in, with gauge pipe broken: gauge reads 0 lb/sq in",
        ),
    ),
)


def _solenoid_valve(fit: Fit) -> Recipe:
    flow = fit.si["flow"]
    pulls, drops = fit.si["pulls in"], fit.si["drops out"]
    volts = Across("feed")
    coil = Element(
        "coil",
        "LIN",
        ("feed", "airframe"),
        (load_conductance(fit.si["current"], fit.si["voltage"]),),
        gate=unless("coil open"),
    )
    faulty = apply("max", failed("coil open"), failed("stuck"))
    energised = Mode(
        "energised",
        least(over(volts, pulls), when_not(faulty, pulls)),
        most(under(volts, drops), when(faulty, drops)),
        dwell=0.02,
        started=None,
    )
    on = ModeIs("energised")
    elements = (
        coil,
        passage("supply to outlet", ("supply", "outlet"), flow, on),
        passage("outlet to outside", ("outlet", "outside"), flow, no(on)),
    )
    nodes = (port("supply", "air"), port("outlet", "air"), port("feed", "current"), OUTSIDE, AIRFRAME)
    return Recipe(nodes, elements, (energised,), (("energised", on), ("position", on)))


SOLENOID_VALVE = Kind(
    "solenoid valve",
    "A valve for air worked by a coil. With current it sends air to its outlet; without, it shuts the supply off and "
    "lets the outlet exhaust.",
    ports=(
        Port("supply", "air", "west", "in"),
        Port("outlet", "air", "east", "out"),
        Port("feed", "current", "south"),
    ),
    build=_solenoid_valve,
    wants=(
        VOLTAGE_24,
        Want(
            "current",
            "current",
            "What its coil takes at that voltage.",
            default="0.8 A",
            between="0.2 to 2 A",
            because=JUDGEMENT,
        ),
        Want(
            "pulls in",
            "voltage",
            "The rising voltage at which it moves over.",
            default="16 V",
            between="12 to 18 V",
            because=f"{JUDGEMENT} Two thirds of its voltage.",
            usual=COILS,
        ),
        Want(
            "drops out",
            "voltage",
            "The falling voltage at which it moves back.",
            default="6 V",
            between="3 to 9 V",
            because=f"{JUDGEMENT} A quarter of its voltage.",
            usual=COILS,
        ),
        FLOW,
    ),
    orders=(LETS_GO_LOWER,),
    couplings=(FED_BY,),
    states=(State("energised", "energised", "at rest"),),
    failures=(
        Failure("coil open", "Its coil is broken: it takes no current and never moves over."),
        Failure("stuck", "It takes current but stays where it is without it."),
    ),
    families=("LIN", "GASROOT"),
    example=Example(
        parts="battery: {kind: battery, capacity: 40 Ah, voltage: 24 V}\nvalve switch: {kind: switch}\n"
        "bottle: {kind: air bottle, volume: 0.5 cu ft}\n"
        "valve: {kind: solenoid valve, fed by: valve switch.outlet}\n"
        "shutter ram: {kind: ram, area: 3 sq in, stroke: 4 in}\n",
        lines="battery > valve switch\nbottle > valve > shutter ram\n",
        claims=(
            "with bottle at 200 lb/sq in, throughout 20 s: shutter ram is in",
            "with bottle at 200 lb/sq in, after valve switch to on, within 10 s: valve is energised and shutter ram is "
            "out",
            "with bottle at 200 lb/sq in, after valve switch to on then wait 10 s then valve switch to off, within "
            "10 s: shutter ram is in",
            "with bottle at 200 lb/sq in, with valve coil open, after valve switch to on, throughout 20 s: shutter ram "
            "is in",
        ),
    ),
)


def _ram(fit: Fit) -> Recipe:
    area, stroke = fit.si["area"], fit.si["stroke"]
    preload, rate = fit.si["spring"], fit.si["spring rate"] / INCH
    # The law takes the back of the piston at sea-level pressure; the load puts right what is less there at height.
    thinner = apply("sub", SEA_LEVEL, AMBIENT_PRESSURE)
    stop = stop_stiffness(area, 2e6, 0.002 * stroke)
    dead = 0.2 * area * stroke
    parameters = (area, fit.si["friction"], 4e5 * area, rate, -preload / rate, -area, 0.0, stroke, stop, dead)
    elements = (
        Element("piston", "RAM", ("chamber",), parameters, unless("jammed"), thinner, content=0.0),
        Element("seal", "GASROOT", ("chamber", "outside"), (conductance(2e-3), CORE), gate=failed("seal leaking")),
    )
    modes = (
        latch("out", Content("piston"), 0.98 * stroke, 0.95 * stroke),
        latch("in", apply("sub", 0.0, Content("piston")), -0.02 * stroke, -0.05 * stroke),
    )
    travel = between_stops(Content("piston"), stroke)
    extension = apply("div", travel, stroke)
    signals = (
        ("travel", travel),
        ("extension", extension),
        ("position", extension),
        ("extended", ModeIs("out")),
        ("retracted", ModeIs("in")),
    )
    return Recipe((port("chamber", "air"), OUTSIDE), elements, modes, signals)


RAM = Kind(
    "ram",
    "A piston pushed out by air and back by a spring: without air it always goes in.",
    ports=(Port("chamber", "air", "west", "in"),),
    build=_ram,
    wants=(
        Want("area", "area", "Area of the piston.", usual="0.3 to 20 sq in"),
        Want("stroke", "length", "How far it can travel.", usual="0.3 to 20 in"),
        Want(
            "spring",
            "force",
            "What its spring presses with when it is in.",
            default="60 lbf",
            between="20 to 150 lbf",
            because=f"{JUDGEMENT} Enough to bring it in against a little pressure.",
            least="nought",
        ),
        Want(
            "spring rate",
            "force",
            "How much more the spring presses for each inch of travel.",
            default="15 lbf",
            between="5 to 40 lbf",
            because=JUDGEMENT,
        ),
        Want(
            "friction",
            "force",
            "What its cup and the linkage resist, in either direction.",
            default="8 lbf",
            between="2 to 20 lbf",
            because=f"{JUDGEMENT} A few per cent of its thrust.",
            least="nought",
        ),
    ),
    states=(State("out", "extended"), State("in", "retracted")),
    readings=(Reading("travel", "length", "travel", "in", main=True),),
    failures=(
        Failure("jammed", "It stays where it is."),
        Failure("seal leaking", "Air passes its cup and it comes in by itself."),
    ),
    contents=(Holds("length", "piston", full="stroke"),),
    families=("RAM", "GASROOT"),
    caution="A ram moves without warning when air or current comes or goes. Keep hands clear of it.",
    example=Example(
        parts="bottle: {kind: air bottle, volume: 0.5 cu ft}\ncock: {kind: air cock, flow: 4 cu ft/min}\n"
        "shutter ram: {kind: ram, area: 3 sq in, stroke: 4 in}\n",
        lines="bottle > cock > shutter ram\n",
        claims=(
            "with bottle at 200 lb/sq in, after cock to on, within 10 s: shutter ram is out",
            "with bottle at 5 lb/sq in, after cock to on, throughout 1 min: shutter ram is in",
            "with bottle at 200 lb/sq in, after cock to on for 10 s then wait 15 s, throughout 1 min: shutter ram is "
            "out",
            "with bottle at 200 lb/sq in, with shutter ram seal leaking, after cock to on for 10 s then wait 11 s, "
            "within 1 min: "
            "shutter ram is in",
            "with bottle at 200 lb/sq in, with shutter ram jammed, after cock to on, throughout 1 min: shutter ram is "
            "in",
        ),
    ),
)

KINDS = (BRAKE_RELAY_VALVE, BRAKE, TRIPLE_GAUGE, SOLENOID_VALVE, RAM)
