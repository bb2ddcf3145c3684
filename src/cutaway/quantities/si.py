"""From a printed quantity to SI and back. `machine/bind.py` and the last printing call this, and nothing else does."""

import math

from cutaway.quantities.quantity import Datum, Quantity, Unit
from cutaway.quantities.units import ATMOSPHERE


def to_si(quantity: Quantity, wanted_datum: Datum = "") -> float:
    """The value in the SI unit of its dimension (fractions as 0 to 1, angles in radians, temperatures in kelvin).

    wanted_datum: '' gives a pressure on its own datum. 'absolute' adds the standard atmosphere to a gauge pressure,
    'gauge' takes it from an absolute one; a pressure that says neither (a drop, a suction) is left as it is.
    """
    return _si(quantity, quantity.value, wanted_datum)


def low_high_si(quantity: Quantity, wanted_datum: Datum = "") -> tuple[float, float]:
    """The ends of a range or tolerance in SI, on the datum that `to_si` would give; both alike for a single value."""
    return _si(quantity, quantity.low, wanted_datum), _si(quantity, quantity.high, wanted_datum)


def _si(quantity: Quantity, value: float, wanted: Datum) -> float:
    si = value * quantity.unit.size + quantity.unit.zero
    if wanted == "absolute" and quantity.datum == "gauge":
        return si + ATMOSPHERE
    if wanted == "gauge" and quantity.datum == "absolute":
        return si - ATMOSPHERE
    return si


def from_si(value: float, unit: Unit) -> float:
    """An SI value in a unit; gauge stays gauge and absolute stays absolute."""
    return (value - unit.zero) / unit.size


def shown(value_si: float, unit: Unit, digits: int = 3) -> str:
    """An SI value as the house prints it, to so many significant digits: '4.5 in Hg', '1,800 rpm', '60 %'.

    Whole figures are never cut: 1,013 mb stays so at three digits.

    >>> from cutaway.quantities.units import unit_named
    >>> shown(15238.75, unit_named("in Hg")), shown(101325.0, unit_named("mb"))
    ('4.5 in Hg', '1,013 mb')
    """
    return f"{figure(from_si(value_si, unit), digits)} {unit.name}".rstrip()


def figure(value: float, digits: int = 3) -> str:
    """A figure to so many significant digits, without trailing noughts and with commas between thousands."""
    if not math.isfinite(value):
        return "no figure"
    if value == 0.0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:,.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
