"""The fire extinguisher, whose bottle a cartridge opens."""

from cutaway.parts.kind import Example, Failure, Fit, Kind, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, NEVER, least, no, over, port, product, when
from cutaway.parts.kinds.electrics import AIRFRAME, FED_BY_OR_LINE, FEED, MADE_FOR, VOLTAGE_24
from cutaway.parts.laws.sizing import load_conductance
from cutaway.parts.recipe import Across, Element, Mode, ModeIs, Recipe, Through, unless

FIRES = 0.5  # of its voltage
HEATS = 0.01  # s: how long its bridge must glow


def _bottle(fit: Fit) -> Recipe:
    voltage, whole = fit.si["voltage"], unless("cartridge dead")
    bridge = Element(
        "bridge",
        "LIN",
        ("feed", "airframe"),
        (load_conductance(fit.si["current"], voltage),),
        gate=product(whole, no(ModeIs("fired"))),
    )
    fired = Mode("fired", least(over(Across("feed"), FIRES * voltage), when(whole)), NEVER, delay=HEATS)
    signals = (("fired", ModeIs("fired")), ("current", Through("bridge")))
    return Recipe((port("feed", "current"), AIRFRAME), (bridge,), (fired,), signals)


FIRE_EXTINGUISHER_BOTTLE = Kind(
    "fire extinguisher bottle",
    "A bottle that a cartridge opens when current heats its bridge. It is fired once, and stays so.",
    ports=(FEED,),
    build=_bottle,
    wants=(
        Want("current", "current", "What its bridge takes before it fires.", "2 A", "1 to 5 A", JUDGEMENT),
        VOLTAGE_24,
    ),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("fired", "fired", "charged"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("cartridge dead", "Its cartridge does not go off."),),
    families=("LIN",),
    caution="The cartridge is an explosive and the bottle is under pressure: on an airframe that is shown, the "
    "cartridge must be out and the bottle discharged before anyone touches its button.",
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "fire button: {kind: push-button}\n"
        "bottle: {kind: fire extinguisher bottle}",
        (
            "bottle is charged",
            "after fire button to pressed for 1 s, within 2 s: bottle is fired",
            "with bottle cartridge dead, after fire button to pressed for 1 s, at 2 s: bottle is charged",
        ),
        "battery > fire button > bottle",
    ),
)

KINDS = (FIRE_EXTINGUISHER_BOTTLE,)
