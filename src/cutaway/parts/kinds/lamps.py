"""What tells by light and sound: filament lamps, single and doubled, and the horn: each only ends a circuit."""

from cutaway.parts.kind import Example, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.kinds.common import JUDGEMENT, above, either, most, port, product
from cutaway.parts.kinds.electrics import (
    AIRFRAME,
    DARK,
    FED_BY_OR_LINE,
    FEED,
    LIVE,
    MADE_FOR,
    VOLTAGE_24,
    lamp_current,
    made_for,
)
from cutaway.parts.laws.sizing import filament_conductance, load_conductance
from cutaway.parts.recipe import Across, Element, Expr, Recipe, Signal, Through, apply, unless

CORE = 0.5  # V: below this a filament is cold


def _filament(fit: Fit, at: str, name: str, failure: str) -> tuple[Element, Expr, Expr]:
    """A filament, whether it can be seen to glow, and how brightly: as the cube of its voltage."""
    whole = unless(failure)
    conductance = filament_conductance(fit.si["current"], fit.si["voltage"])
    element = Element(name, "ROOT", (at, "airframe"), (conductance, CORE), gate=whole)
    share = apply("div", apply("max", 0.0, Across(at)), fit.si["voltage"])
    return element, product(above(share, DARK), whole), product(share, share, share, whole)


def _lamp(fit: Fit) -> Recipe:
    filament, lit, brightness = _filament(fit, "feed", "filament", "filament")
    signals = (("lit", lit), ("brightness", brightness), SEEN, ("current", Through("filament")))
    return Recipe((port("feed", "current"), AIRFRAME), (filament,), signals=signals)


# What is brighter than full is full to the eye.
BRIGHTNESS = Reading("brightness", "fraction", "seen brightness", "%", main=True)
SEEN = ("seen brightness", apply("min", 1.0, Signal("brightness")))

FILAMENT_LAMP = Kind(
    "filament lamp",
    "A lamp at the end of its circuit. Its brightness goes as the cube of its voltage, up to full; below two fifths of "
    "its voltage it cannot be seen to be lit.",
    indicates=True,
    ports=(FEED,),
    build=_lamp,
    wants=(lamp_current("0.12 A"), VOLTAGE_24),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("lit", "lit", "out"),),
    readings=(BRIGHTNESS, Reading("current", "current", "current", "A")),
    failures=(Failure("filament", "Its filament is broken: it stays dark."),),
    families=("ROOT",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "lamp switch: {kind: switch}\n"
        "lamp: {kind: filament lamp}",
        (
            "lamp is out",
            "with lamp switch on, within 1 s: lamp is lit",
            "with lamp switch on, at 1 s: battery reads above 24.5 V and lamp reads 100 % ± 0.1 %",
            "with lamp switch on, with lamp filament, within 1 s: lamp is out",
        ),
        "battery > lamp switch > lamp",
    ),
)


def _twin(fit: Fit) -> Recipe:
    one, first, bright = _filament(fit, "first", "first", "first filament")
    two, second, bright_too = _filament(fit, "second", "second", "second filament")
    signals = (
        ("lit", either(first, second)),
        ("brightness", most(bright, bright_too)),
        SEEN,
        ("current", apply("add", Through("first"), Through("second"))),
    )
    return Recipe((port("first", "current"), port("second", "current"), AIRFRAME), (one, two), signals=signals)


TWIN_FILAMENT_LAMP = Kind(
    "twin-filament lamp",
    "Two filaments behind one glass, each with its own feed: with one broken the lamp still shows. Its brightness is "
    "that of the brighter.",
    indicates=True,
    ports=(Port("first", "current", "west", "in"), Port("second", "current", "west")),
    build=_twin,
    wants=(lamp_current("0.12 A"), VOLTAGE_24),
    levels=(made_for("first"),),
    states=(State("lit", "lit", "out"),),
    readings=(BRIGHTNESS, Reading("current", "current", "current", "A")),
    failures=(
        Failure("first filament", "The first filament is broken."),
        Failure("second filament", "The second filament is broken."),
    ),
    families=("ROOT",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "lamp switch: {kind: switch}\n"
        "warning lamp: {kind: twin-filament lamp}",
        (
            "warning lamp is out",
            "with lamp switch on, within 1 s: warning lamp is lit",
            "with lamp switch on, with warning lamp first filament, within 1 s: warning lamp is lit",
            "with lamp switch on, with warning lamp first filament, with warning lamp second filament, within 1 s: "
            "warning lamp is out",
        ),
        "battery > lamp switch > warning lamp.first\nlamp switch > warning lamp.second",
    ),
)


def _horn(fit: Fit) -> Recipe:
    conductance = load_conductance(fit.si["current"], fit.si["voltage"])
    whole = unless("no note")
    diaphragm = Element("diaphragm", "LIN", ("feed", "airframe"), (conductance,), gate=whole)
    sounding = product(above(Across("feed"), LIVE * fit.si["voltage"]), whole)
    signals = (("sounding", sounding), ("current", Through("diaphragm")))
    return Recipe((port("feed", "current"), AIRFRAME), (diaphragm,), signals=signals)


HORN = Kind(
    "horn",
    "Sounds while its circuit is made and there are three quarters of its voltage.",
    indicates=True,
    ports=(FEED,),
    build=_horn,
    wants=(
        Want("current", "current", "What it takes at its voltage.", "1 A", "0.3 to 5 A", JUDGEMENT),
        VOLTAGE_24,
    ),
    couplings=(FED_BY_OR_LINE,),
    levels=(MADE_FOR,),
    states=(State("sounding", "sounding", "silent"),),
    readings=(Reading("current", "current", "current", "A", main=True),),
    failures=(Failure("no note", "Its contacts are burnt: it takes no current and makes no sound."),),
    families=("LIN",),
    example=Example(
        "battery: {kind: battery, capacity: 20 Ah, voltage: 24 V}\n"
        "test button: {kind: push-button}\n"
        "horn: {kind: horn}",
        (
            "horn is silent",
            "with test button pressed, within 1 s: horn is sounding",
            "with test button pressed, with horn no note, within 1 s: horn is silent",
        ),
        "battery > test button > horn",
    ),
)

KINDS = (FILAMENT_LAMP, TWIN_FILAMENT_LAMP, HORN)
