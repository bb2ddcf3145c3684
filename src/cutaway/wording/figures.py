"""Figures as a reader wants them: house units, sensible rounding, durations in minutes and seconds.

This is the last printing: what comes in is SI, and what goes out is text.
"""

from decimal import ROUND_HALF_UP, Decimal
from typing import cast

from cutaway.quantities.quantity import Dimension, Unit
from cutaway.quantities.si import figure, from_si
from cutaway.quantities.units import UNITS, unit_named, units_of

HouseUnits = tuple[tuple[str, str], ...]

# Where the house says nothing of lengths: those that are read are travels of jacks and rams; heights are only given.
_TRAVEL = "in"
# A hundred-thousandth of any unit is what a solver leaves of nothing.
_NOTHING = 1e-5
# How well a moment is known, s.
_FINEST = 0.05
# From here on a row of noughts says less than their number.
_COUNTLESS = 1e12


def duration(seconds: float) -> str:
    """A length of time as it is said: tenths under ten seconds, minutes from two minutes on, hours from two hours on.

    >>> duration(4.44), duration(31.4), duration(119.0), duration(380.0), duration(7200.0), duration(0.02)
    ('4.4 s', '31 s', '119 s', '6 min 20 s', '2 h', 'less than 0.05 s')
    """
    if 0.0 < seconds < _FINEST:
        # No moment is known better than this, and figures would say that it is.
        return "less than 0.05 s"
    if seconds < 1.0:
        return f"{figure(seconds, 1)} s"
    if seconds < 9.95:
        return f"{figure(seconds, 2)} s"
    whole = int(Decimal(repr(float(seconds))).quantize(Decimal(1), rounding=ROUND_HALF_UP))
    if whole < 120:
        return f"{whole} s"
    if whole < 7200:
        return _two(whole, 60, "min", "s")
    return _two((whole + 30) // 60, 60, "h", "min")


def _two(whole: int, size: int, upper: str, lower: str) -> str:
    many, rest = divmod(whole, size)
    return f"{many} {upper} {rest} {lower}" if rest else f"{many} {upper}"


def shown(value: float, dimension: str, datum: str = "", house: HouseUnits = (), digits: int = 3) -> str:
    """A value in SI as text in the house's unit for its dimension, or else the period's.

    >>> shown(13789.5, "pressure", "gauge"), shown(15238.75, "pressure"), shown(0.6, "fraction")
    ('2 lb/sq in', '4.5 in Hg', '60 %')
    >>> shown(0.02, "volume", house=(("volume", "gal"),))
    '4.4 gal'
    >>> shown(0.1524, "length"), shown(0.1524, "length", house=(("length", "mm"),))
    ('6 in', '152 mm')
    >>> shown(4.54609e297, "volume")
    '1e300 gal'
    """
    if dimension == "time":
        return duration(value)
    # A pressure on no datum is a suction: its dials are in inches of mercury whatever the house says of pressures.
    unit = unit_named("in Hg") if dimension == "pressure" and not datum else house_unit(dimension, house)
    if unit is None:
        return figure(value, digits)
    number = from_si(value, unit)
    if abs(number) >= _COUNTLESS:
        return f"{number:.2g} {unit.name}".replace("e+", "e")
    text = f"{figure(0.0 if abs(number) < _NOTHING else number, digits)} {unit.name}".rstrip()
    return f"{text} absolute" if datum == "absolute" and unit.datum != "absolute" else text


def shown_apart(value: float, bound: float, dimension: str, datum: str = "", house: HouseUnits = ()) -> str:
    """A value that is not to look like the bound which it misses: more digits until the two differ.

    >>> shown_apart(13780.0, 13789.5, "pressure", "gauge"), shown_apart(9000.0, 13789.5, "pressure", "gauge")
    ('1.999 lb/sq in', '1.31 lb/sq in')
    """
    for digits in (3, 4, 5, 6):
        text = shown(value, dimension, datum, house, digits)
        if text != shown(bound, dimension, datum, house, digits):
            return text
    return shown(value, dimension, datum, house)


def house_unit(dimension: str, house: HouseUnits = ()) -> Unit | None:
    """The unit in which the house shows a dimension; None for a dimension without units."""
    wanted = dict(house).get(dimension, _TRAVEL if dimension == "length" else "")
    for unit in UNITS:
        if unit.dimension == dimension and unit.name == wanted:
            return unit
    return next(iter(units_of(cast(Dimension, dimension))), None)
