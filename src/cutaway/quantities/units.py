"""The units of handbooks, each defined from exact constants, with its source; and how a spelling finds its unit.

The first unit of a dimension is the period's, the one that a hint proposes. A spelling is compared without regard to
case, full stops and blanks, word for word after `WORDS`, so that the table lists only what that does not cover.
"""

import math
import re
from collections.abc import Iterator
from types import MappingProxyType

from cutaway.quantities.quantity import Dimension, Unit

# Exact constants.
INCH = 0.0254
FOOT = 12 * INCH
POUND = 0.45359237
GRAVITY = 9.80665
GALLON = 4.54609e-3
US_GALLON = 231 * INCH**3
ATMOSPHERE = 101325.0
POUND_FORCE = POUND * GRAVITY
MERCURY = 13595.1  # kg/m³, the conventional density at 0 °C
HORSEPOWER = 550 * FOOT * POUND_FORCE

# Sources, each used by several rows.
_YARD = "exact: international yard and pound agreement, 1959"
_STANDARD_G = "exact: yard and pound agreement, 1959; standard gravity 9.80665 m/s², CGPM 1901"
_GALLON = "exact: 4.546 09 l, Units of Measurement Regulations 1995 (UK)"
_US_GALLON = "exact: 231 cubic inches of 1959"
_SI = "exact: SI brochure, 9th edition"
_HG = "conventional mercury 13 595.1 kg/m³ at 0 °C, standard gravity: NIST SP 811, appendix B"
_ATM = "exact: standard atmosphere, CGPM 1954"
_DEGREE = "exact: a full turn is 360 degrees or 2 pi radians"
_FAHRENHEIT = "exact: K = (°F + 459.67) / 1.8, NIST SP 811, appendix B"
_MILE = "exact: international nautical mile 1 852 m, 1929"

UNITS: tuple[Unit, ...] = (
    Unit(
        "lb/sq in",
        "pressure",
        POUND_FORCE / INCH**2,
        ("psi", "psig", "psia", "lb/sq inch", "lb sq in", "p.s.i.", "lbf/sq in", "lb to the square inch"),
        ("pound per square inch", "pounds per square inch"),
        _STANDARD_G,
        datum="gauge",
    ),
    Unit(
        "in Hg",
        "pressure",
        INCH * MERCURY * GRAVITY,
        ("inHg", "in. of mercury", '" Hg'),
        ("inch of mercury", "inches of mercury"),
        _HG,
    ),
    Unit(
        "lb/sq ft",
        "pressure",
        POUND_FORCE / FOOT**2,
        ("psf", "lbf/sq ft"),
        ("pound per square foot", "pounds per square foot"),
        _STANDARD_G,
    ),
    Unit("mm Hg", "pressure", 1e-3 * MERCURY * GRAVITY, (), ("millimetre of mercury", "millimetres of mercury"), _HG),
    Unit("mb", "pressure", 100.0, ("mbar", "mbars"), ("millibar", "millibars"), _SI),
    Unit("hPa", "pressure", 100.0, ("hectopascal", "hectopascals"), ("hectopascal", "hectopascals"), _SI),
    Unit("bar", "pressure", 1e5, (), ("bar", "bar"), _SI),
    Unit(
        "kg/sq cm",
        "pressure",
        GRAVITY / 1e-4,
        ("kgf/sq cm",),
        ("kilogram per square centimetre", "kilograms per square centimetre"),
        "exact: standard gravity, CGPM 1901",
        datum="gauge",
    ),
    Unit("kPa", "pressure", 1e3, ("kilopascal", "kilopascals"), ("kilopascal", "kilopascals"), _SI),
    Unit("Pa", "pressure", 1.0, (), ("pascal", "pascals"), _SI),
    Unit(
        "atm",
        "pressure",
        ATMOSPHERE,
        ("atmosphere", "atmospheres", "atmos"),
        ("atmosphere", "atmospheres"),
        _ATM,
        datum="absolute",
    ),
    Unit("gal", "volume", GALLON, ("UK gal", "Imp. gal"), ("gallon", "gallons"), _GALLON),
    Unit("pint", "volume", GALLON / 8, (), ("pint", "pints"), _GALLON),
    Unit("qt", "volume", GALLON / 4, (), ("quart", "quarts"), _GALLON),
    Unit("fl oz", "volume", GALLON / 160, ("fluid oz",), ("fluid ounce", "fluid ounces"), _GALLON),
    Unit(
        "US gal",
        "volume",
        US_GALLON,
        ("USG", "American gal", "United States gal"),
        ("American gallon", "American gallons"),
        _US_GALLON,
    ),
    Unit("l", "volume", 1e-3, ("L",), ("litre", "litres"), _SI),
    Unit(
        "cc",
        "volume",
        1e-6,
        ("ml", "cu cm", "ccs", "millilitre", "millilitres", "cubic centimetres"),
        ("cubic centimetre", "cubic centimetres"),
        _SI,
    ),
    Unit("cu in", "volume", INCH**3, (), ("cubic inch", "cubic inches"), _YARD),
    Unit("cu ft", "volume", FOOT**3, (), ("cubic foot", "cubic feet"), _YARD),
    Unit("m³", "volume", 1.0, ("cu m",), ("cubic metre", "cubic metres"), _SI),
    Unit("gal/h", "volume flow", GALLON / 3600, ("gph",), ("gallon an hour", "gallons an hour"), _GALLON),
    Unit("gal/min", "volume flow", GALLON / 60, ("gpm",), ("gallon a minute", "gallons a minute"), _GALLON),
    Unit("pint/min", "volume flow", GALLON / 480, (), ("pint a minute", "pints a minute"), _GALLON),
    Unit("pint/h", "volume flow", GALLON / 28800, (), ("pint an hour", "pints an hour"), _GALLON),
    Unit("l/min", "volume flow", 1e-3 / 60, ("lpm",), ("litre a minute", "litres a minute"), _SI),
    Unit("l/h", "volume flow", 1e-3 / 3600, (), ("litre an hour", "litres an hour"), _SI),
    Unit("l/s", "volume flow", 1e-3, (), ("litre a second", "litres a second"), _SI),
    Unit(
        "cc/s",
        "volume flow",
        1e-6,
        ("ml/s", "cu cm/s"),
        ("cubic centimetre a second", "cubic centimetres a second"),
        _SI,
    ),
    Unit("cu ft/min", "volume flow", FOOT**3 / 60, ("cfm",), ("cubic foot a minute", "cubic feet a minute"), _YARD),
    Unit("cu in/min", "volume flow", INCH**3 / 60, (), ("cubic inch a minute", "cubic inches a minute"), _YARD),
    Unit("m³/s", "volume flow", 1.0, ("cu m/s",), ("cubic metre a second", "cubic metres a second"), _SI),
    Unit("ft", "length", FOOT, ("′",), ("foot", "feet"), _YARD),
    Unit("in", "length", INCH, ('"', "″"), ("inch", "inches"), _YARD),
    Unit("yd", "length", 3 * FOOT, ("yard", "yards", "yds"), ("yard", "yards"), _YARD),
    Unit("mile", "length", 5280 * FOOT, ("mi", "statute mile"), ("mile", "miles"), _YARD),
    Unit("nautical mile", "length", 1852.0, ("n.m.", "n.mile", "nmi"), ("nautical mile", "nautical miles"), _MILE),
    Unit("mm", "length", 1e-3, (), ("millimetre", "millimetres"), _SI),
    Unit("cm", "length", 1e-2, (), ("centimetre", "centimetres"), _SI),
    Unit("m", "length", 1.0, (), ("metre", "metres"), _SI),
    Unit("km", "length", 1e3, (), ("kilometre", "kilometres"), _SI),
    Unit("sq in", "area", INCH**2, (), ("square inch", "square inches"), _YARD),
    Unit("sq ft", "area", FOOT**2, (), ("square foot", "square feet"), _YARD),
    Unit("sq cm", "area", 1e-4, (), ("square centimetre", "square centimetres"), _SI),
    Unit("sq mm", "area", 1e-6, (), ("square millimetre", "square millimetres"), _SI),
    Unit("m²", "area", 1.0, ("sq m",), ("square metre", "square metres"), _SI),
    Unit("lb", "mass", POUND, (), ("pound", "pounds"), _YARD),
    Unit("oz", "mass", POUND / 16, (), ("ounce", "ounces"), _YARD),
    Unit("cwt", "mass", 112 * POUND, ("hundredweight",), ("hundredweight", "hundredweight"), _YARD),
    Unit("ton", "mass", 2240 * POUND, ("long ton",), ("ton", "tons"), _YARD),
    Unit("kg", "mass", 1.0, (), ("kilogram", "kilograms"), _SI),
    Unit("g", "mass", 1e-3, ("gm", "gms", "gram", "grams", "gramme", "grammes"), ("gram", "grams"), _SI),
    Unit("tonne", "mass", 1e3, ("tonnes", "metric ton"), ("tonne", "tonnes"), _SI),
    Unit("lb/gal", "density", POUND / GALLON, (), ("pound a gallon", "pounds a gallon"), _GALLON),
    Unit("lb/cu ft", "density", POUND / FOOT**3, (), ("pound a cubic foot", "pounds a cubic foot"), _YARD),
    Unit("kg/l", "density", 1e3, ("g/cc", "g/ml"), ("kilogram a litre", "kilograms a litre"), _SI),
    Unit("kg/m³", "density", 1.0, ("kg/cu m",), ("kilogram a cubic metre", "kilograms a cubic metre"), _SI),
    Unit("lbf", "force", POUND_FORCE, ("lb", "lb force", "lb wt"), ("pound", "pounds"), _STANDARD_G),
    Unit("kgf", "force", GRAVITY, ("kg", "kp"), ("kilogram force", "kilograms force"), "exact: CGPM 1901"),
    Unit("N", "force", 1.0, (), ("newton", "newtons"), _SI),
    Unit("kN", "force", 1e3, ("kilonewton", "kilonewtons"), ("kilonewton", "kilonewtons"), _SI),
    Unit(
        "°F",
        "temperature",
        1 / 1.8,
        ("F",),
        ("degree Fahrenheit", "degrees Fahrenheit"),
        _FAHRENHEIT,
        zero=459.67 / 1.8,
    ),
    Unit("°C", "temperature", 1.0, ("C",), ("degree Celsius", "degrees Celsius"), _SI, zero=273.15),
    Unit("K", "temperature", 1.0, ("kelvin", "°K"), ("kelvin", "kelvin"), _SI),
    Unit("kt", "speed", 1852 / 3600, (), ("knot", "knots"), _MILE),
    Unit("mph", "speed", 5280 * FOOT / 3600, ("mile/h",), ("mile an hour", "miles an hour"), _YARD),
    Unit("ft/min", "speed", FOOT / 60, ("fpm",), ("foot a minute", "feet a minute"), _YARD),
    Unit("ft/s", "speed", FOOT, ("fps",), ("foot a second", "feet a second"), _YARD),
    Unit("km/h", "speed", 1 / 3.6, ("kph", "kmh"), ("kilometre an hour", "kilometres an hour"), _SI),
    Unit("m/s", "speed", 1.0, (), ("metre a second", "metres a second"), _SI),
    Unit(
        "rpm",
        "angular speed",
        2 * math.pi / 60,
        ("rev/min", "r/min", "revs"),
        ("revolution per minute", "revolutions per minute"),
        _DEGREE,
    ),
    Unit("rad/s", "angular speed", 1.0, (), ("radian a second", "radians a second"), _SI),
    Unit(
        "hp",
        "power",
        HORSEPOWER,
        ("b.h.p.", "brake horsepower", "brake horse-power", "horse-power"),
        ("horsepower", "horsepower"),
        "exact: 550 ft lbf/s with the pound of 1959 and standard gravity",
    ),
    Unit(
        "metric hp",
        "power",
        75 * GRAVITY,
        ("PS", "ch", "cv", "c.v."),
        ("metric horsepower", "metric horsepower"),
        "exact: 75 kgf m/s, standard gravity",
    ),
    Unit("W", "power", 1.0, (), ("watt", "watts"), _SI),
    Unit("kW", "power", 1e3, (), ("kilowatt", "kilowatts"), _SI),
    Unit("V", "voltage", 1.0, ("v",), ("volt", "volts"), _SI),
    Unit("mV", "voltage", 1e-3, ("millivolt", "millivolts"), ("millivolt", "millivolts"), _SI),
    Unit("A", "current", 1.0, (), ("amp", "amps"), _SI),
    Unit("mA", "current", 1e-3, ("milliamp", "milliamps"), ("milliamp", "milliamps"), _SI),
    Unit("ohm", "resistance", 1.0, (), ("ohm", "ohms"), _SI),
    Unit("S", "conductance", 1.0, ("mho", "mhos"), ("siemens", "siemens"), _SI),
    Unit("Ah", "charge", 3600.0, ("A hr", "A.H."), ("amp hour", "amp hours"), _SI),
    Unit("coulomb", "charge", 1.0, ("C",), ("coulomb", "coulombs"), _SI),
    Unit("s", "time", 1.0, (), ("second", "seconds"), _SI),
    Unit("min", "time", 60.0, (), ("minute", "minutes"), _SI),
    Unit("h", "time", 3600.0, (), ("hour", "hours"), _SI),
    Unit(
        "strokes/min",
        "rate",
        1 / 60,
        ("stroke/min", "strokes a minute", "stroke a minute", "cycle/min", "cycles/min"),
        ("stroke a minute", "strokes a minute"),
        _SI,
    ),
    Unit("Hz", "rate", 1.0, ("stroke/s", "strokes/s", "hertz", "/s"), ("hertz", "hertz"), _SI),
    Unit("deg", "angle", math.pi / 180, (), ("degree", "degrees"), _DEGREE),
    Unit("rad", "angle", 1.0, ("radian", "radians"), ("radian", "radians"), _SI),
    Unit("%", "fraction", 0.01, ("per cent", "p.c."), ("per cent", "per cent"), "exact: one part in a hundred"),
    Unit("", "number", 1.0, (), ("", ""), "exact: a pure number"),
)

NUMBER = UNITS[-1]

WORDS = MappingProxyType(
    {
        word: short
        for short, words in {
            "/": "per",
            "": "of imp imperial",
            "%": "percent",
            "°": "deg degs degree degrees º",
            "A": "amp amps ampere amperes",
            "C": "celsius centigrade",
            "F": "fahrenheit",
            "N": "newton newtons",
            "S": "siemens",
            "V": "volt volts",
            "W": "watt watts",
            "bar": "bars",
            "cc": "ccs",
            "cm": "centimetre centimetres centimeter centimeters cms",
            "cu": "cubic",
            "fl": "fluid",
            "ft": "foot feet",
            "gal": "gallon gallons gall galls gals",
            "h": "hour hours hr hrs",
            "hg": "mercury",
            "hp": "horsepower",
            "in": "inch inches ins",
            "kg": "kilogram kilograms kilogramme kilogrammes kilo kilos kgs",
            "km": "kilometre kilometres kilometer kilometers kms",
            "kt": "knot knots kts",
            "kw": "kilowatt kilowatts",
            "l": "litre litres liter liters ltr ltrs",
            "lb": "lbs pound pounds",
            "m": "metre metres meter meters",
            "mb": "millibar millibars",
            "mile": "miles",
            "min": "minute minutes mins",
            "mm": "millimetre millimetres millimeter millimeters mms",
            "ohm": "ohms Ω Ω ω",
            "oz": "ounce ounces ozs",
            "pa": "pascal pascals",
            "pint": "pints pt pts",
            "qt": "quart quarts qts",
            "rev": "revs revolution revolutions",
            "s": "second seconds sec secs",
            "sq": "square",
            "ton": "tons",
        }.items()
        for word in words.split()
    }
)
"""Words of units and the short form that they are compared under."""

_POWER = re.compile(r"(?P<word>[A-Za-z]+)\s*(?P<power>[²³]|\^?[23](?![0-9]))")
_WORD = re.compile(r"[^\W\d_]+|[^\s.\-]", re.UNICODE)


def spelling_key(spelling: str) -> str:
    """The form under which spellings are compared: 'lbs. per sq. inch' and 'lb/in²' are both 'lb/sqin'.

    >>> spelling_key("lbs. per sq. inch"), spelling_key("lb/in²"), spelling_key("r.p.m.")
    ('lb/sqin', 'lb/sqin', 'rpm')
    """
    flat = _POWER.sub(lambda m: ("sq " if m["power"] in ("²", "2", "^2") else "cu ") + m["word"], spelling)
    key = "".join(WORDS.get(word.lower(), word) for word in _WORD.findall(flat))
    # One letter keeps its case: A and a, S and s, K and k are not the same thing.
    return key if len(key) == 1 else key.lower()


def _rows() -> Iterator[tuple[str, Unit]]:
    for unit in UNITS:
        if unit.name:
            for spelling in (unit.name, *unit.spoken, *unit.spellings):
                yield spelling_key(spelling), unit


def _index() -> dict[str, tuple[Unit, ...]]:
    found: dict[str, tuple[Unit, ...]] = {}
    for key, unit in _rows():
        if unit not in found.get(key, ()):
            found[key] = (*found.get(key, ()), unit)
    return found


_BY_SPELLING = MappingProxyType(_index())


def unit_spelled(spelling: str, dimension: Dimension | None = None) -> Unit | None:
    """The unit that a spelling means, or None. Where it could mean two ('lb'), the wanted dimension decides.

    >>> unit_spelled("Galls.").name, unit_spelled("lb").name, unit_spelled("lb", "force").name
    ('gal', 'lb', 'lbf')
    """
    units = _BY_SPELLING.get(spelling_key(spelling), ())
    return next((unit for unit in units if unit.dimension == dimension), units[0] if units else None)


def units_of(dimension: Dimension) -> tuple[Unit, ...]:
    """All units of a dimension, the period's own first."""
    return tuple(unit for unit in UNITS if unit.dimension == dimension)


def unit_named(name: str) -> Unit:
    """The unit with exactly this name, as this project writes it; for our own tables, not for a user's text."""
    return next(unit for unit in UNITS if unit.name == name)


def spellings_of(unit: Unit) -> tuple[str, ...]:
    """The spellings to compare a misspelt unit with: the name, how it is spoken, and those of the table."""
    return tuple(dict.fromkeys((unit.name, *unit.spoken, *unit.spellings)))
