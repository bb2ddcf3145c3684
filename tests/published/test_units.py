"""Published sizes of units, as printed, each with its source. The tolerance is half a unit of the last digit."""

import pytest

from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.registry import compound
from cutaway.quantities.si import from_si, shown, to_si
from cutaway.quantities.units import unit_named
from tests.published.agreement import agrees
from tests.published.checked import checked

SP_811 = "NIST SP 811 (2008), appendix B.8"


def q(text: str) -> Quantity:
    quantity, problems = read_quantity(text, whole(TextFile("test", text)))
    assert quantity is not None and problems == ()
    return quantity


def converted(text: str, unit: str) -> float:
    return from_si(to_si(q(text)), unit_named(unit))


@pytest.mark.parametrize(
    "text, printed, unit, source",
    [
        ("1 lb/sq in", "6894.757", "Pa", SP_811),  # U1
        ("1 in Hg", "3386.389", "Pa", SP_811 + ", conventional inch of mercury"),  # U2
        ("1 gal", "1.200950", "US gal", "NIST SP 1038"),  # U3
        ("1 US gal", "3.785412", "l", SP_811),  # U4
        ("1 b.h.p.", "745.6999", "W", SP_811),  # U6
        ("1 metric hp", "735.4988", "W", SP_811),  # U6
        ("1 atm", "14.69595", "lb/sq in", "from the exact definitions"),  # U7
        ("1 atm", "29.92126", "in Hg", "from the conventional inch of mercury"),  # U7
        ("1 in Hg", "0.491154", "lb/sq in", "from U1 and U2"),  # U8
    ],
)
@checked("NIST SP 811 (2008), appendix B.8, and SP 1038; pint 0.25.3 gives the same", "L")
def test_printed_to_their_digits(text, printed, unit, source) -> None:
    assert agrees(converted(text, unit), printed), source


@pytest.mark.parametrize(
    "text, exact, unit",
    [
        ("1 gal", 4.54609, "l"),  # U3
        ("1 US gal", 231, "cu in"),  # U4
        ("1 pint", 0.56826125, "l"),  # U5
        ("1 kt", 1.852, "km/h"),  # U10
        ("1 mph", 1.609344, "km/h"),  # U10
        ("1 ft", 0.3048, "m"),  # U10
        ("1 lb", 0.45359237, "kg"),  # U10
    ],
)
@checked("yard and pound agreement 1959; Weights and Measures Act 1985", "L")
def test_exact_by_definition(text, exact, unit) -> None:
    assert converted(text, unit) == pytest.approx(exact, rel=1e-15)


@pytest.mark.parametrize("fahrenheit, celsius", [("59", 15.0), ("212", 100.0), ("-40", -40.0)])
@checked("definition", "F")
def test_temperatures(fahrenheit, celsius) -> None:
    assert converted(f"{fahrenheit} °F", "°C") == pytest.approx(celsius, abs=1e-9)  # U9, definition


@checked("from the pound and the horse-power of NIST SP 811", "L")
def test_specific_consumption() -> None:
    # U11, from SP 811's pound and horsepower.
    assert compound(1.0, "lb / hp / h", "g / kW / h") == pytest.approx(608.277, abs=0.0005)


@pytest.mark.parametrize("density, printed", [("0.72", "0.4510"), ("0.70", "0.4385"), ("0.74", "0.4635")])
@checked("from the imperial pint and a density that is given", "F")
def test_pints_a_horsepower_hour(density, printed) -> None:
    # U12: half a pint a b.h.p. hour by weight; the density of the petrol is given, not known.
    pounds = to_si(q("0.5 pint")) * to_si(q(f"{density} kg/l")) / to_si(q("1 lb"))
    assert agrees(pounds, printed)


@checked("from the imperial pint and a density that is given", "F")
def test_half_a_pint_at_a_petrol_of_0_72() -> None:
    pounds = to_si(q("0.5 pint")) * to_si(q("0.72 kg/l")) / to_si(q("1 lb"))
    assert agrees(compound(pounds, "lb / hp / h", "g / kW / h"), "274.3")  # U12


@checked("NIST SP 811 and the standard atmosphere", "L")
def test_a_gauge_pressure_is_made_absolute_by_the_standard_atmosphere() -> None:
    # Boost of +9 lb/sq in is 48.25 in Hg absolute where the zero is 14.696 lb/sq in (tables with 14.7 print the same).
    assert agrees(from_si(to_si(q("+9 lb/sq in"), "absolute"), unit_named("in Hg")), "48.25")
    assert agrees(from_si(to_si(q("+25 lb/sq in"), "absolute"), unit_named("in Hg")), "80.82")


@checked("the standard atmosphere by definition", "L")
def test_shown_as_tables_print() -> None:
    assert shown(101325.0, unit_named("mb"), 6) == "1,013.25 mb"
    assert shown(101325.0, unit_named("in Hg"), 4) == "29.92 in Hg"
