"""The electric starter."""

from cutaway.parts.kind import Failure, Fit, Kind, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, least, most, over, port, product, under, when, when_not
from cutaway.parts.kinds.electrics import AIRFRAME, FED_BY_OR_LINE, FEED, MADE_FOR, VOLTAGE_24
from cutaway.parts.kinds.powerplant_example import powerplant
from cutaway.parts.kinds.superchargers import ENGINE_CAUTION
from cutaway.parts.recipe import Across, Element, Mode, ModeIs, Recipe, Through, apply, failed, unless

# Shares of its voltage at which its solenoid closes, and opens again: a starter drags the volts down by itself.
PULLS_IN, LETS_GO = 0.4, 0.3


def _starter(fit: Fit) -> Recipe:
    voltage = fit.si["voltage"]
    armature = Element(
        "armature", "LIN", ("feed", "airframe"), (fit.si["current"] / voltage,), gate=unless("solenoid open")
    )
    share = apply("div", Across("feed"), voltage)
    broken = failed("solenoid open")
    closed = Mode(
        "engaged",
        least(over(share, PULLS_IN), when_not(broken)),
        most(under(share, LETS_GO), when(broken)),
        dwell=0.05,
        started=None,
    )
    engaged = ModeIs("engaged")
    cranking = product(engaged, apply("mul", fit.si["cranking speed"], share))
    signals = (("engaged", engaged), ("cranking", cranking), ("current", Through("armature")))
    return Recipe((port("feed", "current"), AIRFRAME), (armature,), (closed,), signals)


ELECTRIC_STARTER = Kind(
    "electric starter",
    "Turns an engine as long as it is fed, the faster the more volts are left to it.",
    ports=(FEED,),
    build=_starter,
    wants=(
        Want("current", "current", "What it takes at its voltage, turning the engine.", default="300 A",
             between="150 to 500 A", because=f"{JUDGEMENT} A geared starter of a large engine."),
        VOLTAGE_24,
        Want("cranking speed", "angular speed", "The speed at which it turns the engine at its voltage.",
             default="100 rpm", between="50 to 200 rpm", because=JUDGEMENT),
    ),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("engaged", "engaged"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("solenoid open", "Its solenoid does not close: it takes no current and does not turn."),),
    families=("LIN",),
    caution=ENGINE_CAUTION,
    example=powerplant(
        "after starter button to pressed, within 1 s: starter is engaged",
        "with starter solenoid open, after starter button to pressed, within 1 s: starter is not engaged",
        "starter solenoid open | engine is stopped",
    ),
)  # fmt: skip

KINDS = (ELECTRIC_STARTER,)
