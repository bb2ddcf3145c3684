"""A pint registry made from our own table, for compound units and for checking one against the other."""

from functools import cache
from typing import TYPE_CHECKING

from cutaway.quantities.quantity import Dimension, Unit
from cutaway.quantities.units import UNITS

if TYPE_CHECKING:
    import pint

SI: dict[Dimension, str] = {
    "pressure": "kilogram / metre / second ** 2",
    "volume": "metre ** 3",
    "volume flow": "metre ** 3 / second",
    "length": "metre",
    "area": "metre ** 2",
    "mass": "kilogram",
    "density": "kilogram / metre ** 3",
    "force": "kilogram * metre / second ** 2",
    "temperature": "kelvin",
    "speed": "metre / second",
    "angular speed": "radian / second",
    "rate": "1 / second",
    "power": "kilogram * metre ** 2 / second ** 3",
    "voltage": "kilogram * metre ** 2 / second ** 3 / ampere",
    "current": "ampere",
    "resistance": "kilogram * metre ** 2 / second ** 3 / ampere ** 2",
    "conductance": "second ** 3 * ampere ** 2 / kilogram / metre ** 2",
    "charge": "ampere * second",
    "time": "second",
    "angle": "radian",
    "fraction": "",
    "number": "",
}
"""The SI unit of each dimension, as pint spells it."""

_BASE = (
    "metre = [length]",
    "kilogram = [mass]",
    "second = [time]",
    "ampere = [current]",
    "kelvin = [temperature]; offset: 0",
)
_NAMES = {"%": "percent", "°F": "degF", "°C": "degC", "m³": "cubic_metre", "m²": "square_metre"}


def pint_name(unit: Unit) -> str:
    """The name of one of our units in the registry: 'lb/sq in' is `lb_per_sq_in`.

    >>> from cutaway.quantities.units import unit_named
    >>> pint_name(unit_named("lb/sq in")), pint_name(unit_named("kg/m³"))
    ('lb_per_sq_in', 'kg_per_m3')
    """
    spelled = _NAMES.get(unit.name, unit.name).replace("³", "3").replace("²", "2").replace("/", "_per_")
    return spelled.replace(" ", "_")


@cache
def registry() -> "pint.UnitRegistry[float]":
    """The registry. It knows the seven words of SI that we need, and our table, and nothing else."""
    import pint  # takes a third of a second to import, and few runs need it

    made: pint.UnitRegistry[float] = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=True)
    for line in (*_BASE, "radian = []"):
        made.define(line)
    for unit in UNITS:
        if unit.name and pint_name(unit) not in made:
            made.define(f"{pint_name(unit)} = {unit.size!r} * {SI[unit.dimension] or 'radian / radian'}{_offset(unit)}")
    return made


def _offset(unit: Unit) -> str:
    return f"; offset: {unit.zero!r}" if unit.dimension == "temperature" else ""


def compound(value: float, expression: str, wanted: str) -> float:
    """A value from one compound unit to another, in the names of the registry.

    >>> round(compound(1.0, "lb / hp / h", "kg / kW / h"), 6)
    0.608277
    """
    known = registry()
    return float(known.Quantity(value, expression).to(wanted).magnitude)
