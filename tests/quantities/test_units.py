"""The table of units: every row can be found again, agrees with pint's own definitions, and is read aloud."""

from itertools import pairwise
from typing import get_args

import pint
import pytest

from cutaway.quantities.quantity import Dimension
from cutaway.quantities.registry import SI, compound, pint_name, registry
from cutaway.quantities.units import UNITS, spellings_of, unit_spelled, units_of

# What pint, whose table is its own, calls the units of ours that it has.
REFERENCE = {
    "lb/sq in": "psi",
    "in Hg": "inHg",
    "lb/sq ft": "lbf/foot**2",
    "mm Hg": "mmHg",
    "mb": "millibar",
    "hPa": "hectopascal",
    "bar": "bar",
    "kg/sq cm": "kgf/cm**2",
    "kPa": "kilopascal",
    "Pa": "pascal",
    "atm": "atm",
    "gal": "imperial_gallon",
    "pint": "imperial_pint",
    "qt": "imperial_quart",
    "fl oz": "imperial_fluid_ounce",
    "US gal": "gallon",
    "l": "litre",
    "cc": "cc",
    "cu in": "cubic_inch",
    "cu ft": "cubic_foot",
    "m³": "m**3",
    "gal/h": "imperial_gallon/hour",
    "gal/min": "imperial_gallon/minute",
    "pint/min": "imperial_pint/minute",
    "pint/h": "imperial_pint/hour",
    "l/min": "litre/minute",
    "l/h": "litre/hour",
    "l/s": "litre/second",
    "cc/s": "cc/second",
    "cu ft/min": "cubic_foot/minute",
    "cu in/min": "cubic_inch/minute",
    "m³/s": "m**3/s",
    "ft": "foot",
    "in": "inch",
    "yd": "yard",
    "mile": "mile",
    "nautical mile": "nautical_mile",
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "km": "km",
    "sq in": "inch**2",
    "sq ft": "foot**2",
    "sq cm": "cm**2",
    "sq mm": "mm**2",
    "m²": "m**2",
    "lb": "pound",
    "oz": "ounce",
    "cwt": "UK_hundredweight",
    "ton": "UK_ton",
    "kg": "kg",
    "g": "gram",
    "tonne": "tonne",
    "lb/gal": "pound/imperial_gallon",
    "lb/cu ft": "pound/foot**3",
    "kg/l": "kg/litre",
    "kg/m³": "kg/m**3",
    "lbf": "lbf",
    "kgf": "kgf",
    "N": "newton",
    "kN": "kilonewton",
    "K": "kelvin",
    "kt": "knot",
    "mph": "mile/hour",
    "ft/min": "foot/minute",
    "ft/s": "foot/second",
    "km/h": "km/hour",
    "m/s": "m/s",
    "rpm": "rpm",
    "rad/s": "radian/second",
    "strokes/min": "1/minute",
    "Hz": "1/second",
    "hp": "hp",
    "metric hp": "metric_horsepower",
    "W": "watt",
    "kW": "kilowatt",
    "V": "volt",
    "mV": "millivolt",
    "A": "ampere",
    "mA": "milliampere",
    "ohm": "ohm",
    "S": "siemens",
    "Ah": "ampere_hour",
    "coulomb": "coulomb",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "deg": "degree",
    "rad": "radian",
    "%": "percent",
}
OFFSET = {"°F": "degF", "°C": "degC"}


@pytest.fixture(scope="module")
def pint_own() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def test_every_unit_is_compared_with_pint() -> None:
    assert {unit.name for unit in UNITS if unit.name} == REFERENCE.keys() | OFFSET.keys()


@pytest.mark.parametrize("unit", [u for u in UNITS if u.name in REFERENCE], ids=lambda u: u.name)
def test_sizes_are_those_of_pint(unit, pint_own) -> None:
    theirs = pint_own.Quantity(1.0, REFERENCE[unit.name]).to(SI[unit.dimension] or "dimensionless").magnitude
    # Pint's mercury has 13 595.1 kg/m³ too, so even the inch of mercury agrees to rounding.
    assert unit.size == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("unit", [u for u in UNITS if u.name in OFFSET], ids=lambda u: u.name)
@pytest.mark.parametrize("value", [-40.0, 0.0, 59.0, 212.0])
def test_temperatures_are_those_of_pint(unit, value, pint_own) -> None:
    theirs = pint_own.Quantity(value, OFFSET[unit.name]).to("kelvin").magnitude
    assert value * unit.size + unit.zero == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("unit", [u for u in UNITS if u.name], ids=lambda u: u.name)
def test_our_registry_is_our_table(unit) -> None:
    ours = registry().Quantity(1.0, pint_name(unit)).to(SI[unit.dimension] or "radian / radian").magnitude
    assert ours == pytest.approx(unit.size + unit.zero, rel=1e-12)


def test_a_compound_unit_goes_through_our_registry() -> None:
    assert compound(1.0, "gal / h", "pint / min") == pytest.approx(8 / 60)


@pytest.mark.parametrize("unit", [u for u in UNITS if u.name], ids=lambda u: u.name)
def test_every_spelling_finds_its_unit(unit) -> None:
    for spelling in spellings_of(unit):
        assert unit_spelled(spelling, unit.dimension) == unit, spelling
        dotted = spelling.replace(" ", ". ") + "."
        assert unit_spelled(dotted, unit.dimension) == unit, dotted


@pytest.mark.parametrize(
    "spelling, name",
    [
        ("lb. per sq. in.", "lb/sq in"),
        ("lb/in²", "lb/sq in"),
        ("lbs/sq.in.", "lb/sq in"),
        ("LB./SQ. IN.", "lb/sq in"),
        ("pounds per square inch", "lb/sq in"),
        ("in.Hg", "in Hg"),
        ("ins. Hg", "in Hg"),
        ("inches of mercury", "in Hg"),
        ("galls.", "gal"),
        ("Imperial gallons", "gal"),
        ("U.S. gallons", "US gal"),
        ("r.p.m.", "rpm"),
        ("revs. per min.", "rpm"),
        ("c.c.", "cc"),
        ("cm³", "cc"),
        ("b.h.p.", "hp"),
        ("deg. F", "°F"),
        ("degrees centigrade", "°C"),
        ("m.p.h.", "mph"),
        ("amp-hours", "Ah"),
        ("amp. hr.", "Ah"),
        ("per cent.", "%"),
        ("gal./hr.", "gal/h"),
        ("gallons per hour", "gal/h"),
        ("cu. ft. per min.", "cu ft/min"),
        ("kg/cm2", "kg/sq cm"),
        ("volts", "V"),
        ("v", "V"),
        ("secs.", "s"),
        ("hrs", "h"),
        ("°", "deg"),
        ("double", None),
        ("a", None),
        ("k", None),
        ("galons", None),
        ("", None),
    ],
)
def test_spellings_of_handbooks(spelling, name) -> None:
    unit = unit_spelled(spelling)
    assert (unit.name if unit else None) == name


def test_a_spelling_that_means_two_things_follows_what_is_wanted() -> None:
    assert unit_spelled("lb") != unit_spelled("lb", "force")
    assert unit_spelled("lb", "force").dimension == "force"
    assert unit_spelled("C", "charge").name == "coulomb"
    assert unit_spelled("C", "temperature").name == "°C"
    # A spelling that cannot mean what is wanted still finds its unit, so that the message can name it.
    assert unit_spelled("gal", "pressure").name == "gal"


def test_every_dimension_has_units_and_every_unit_a_source() -> None:
    assert {unit.dimension for unit in UNITS} == set(get_args(Dimension)) == SI.keys()
    assert all(unit.source and unit.size > 0 for unit in UNITS)
    assert len({unit.name for unit in UNITS}) == len(UNITS)


def test_every_unit_is_spoken() -> None:
    for unit in UNITS:
        if unit.name:
            assert all(word.replace(" ", "").isalpha() for word in unit.spoken), unit.name


def test_units_of_a_dimension_stand_together() -> None:
    changes = [one.dimension for one, after in pairwise((*UNITS, UNITS[0])) if one.dimension != after.dimension]
    assert len(changes) == len(set(changes))
    assert units_of("pressure")[0].name == "lb/sq in"
