"""The standard atmosphere as printed. Heights are geopotential feet unless said; tolerance half a printed step."""

import pytest

from cutaway.parts.laws.atmosphere import isa_density, isa_pressure, isa_temperature
from cutaway.quantities.si import from_si
from cutaway.quantities.units import unit_named
from tests.published.agreement import agrees
from tests.published.checked import checked

FOOT = 0.3048
EARTH = 6_356_766.0  # m, the radius that makes geometric height geopotential

# ICAO Doc 7488 (3rd edition, 1993), tables in feet: pressure in hPa, temperature in K, density ratio.
DOC_7488 = [
    (0, "1013.25", "288.150", "1.0000"),
    (5_000, "843.07", "278.244", "0.8617"),
    (10_000, "696.82", "268.338", "0.7385"),
    (20_000, "465.63", "248.526", "0.5328"),
    (30_000, "300.90", "228.714", "0.3741"),
]

# US Standard Atmosphere 1976 in imperial units, as printed by The Engineering ToolBox: geometric feet, lb/sq in.
GEOMETRIC = [(5_000, "12.228"), (10_000, "10.108"), (20_000, "6.759"), (30_000, "4.373")]

# Air density, per cent of sea level: 'Air temperature, pressure and density vs. altitude', The Engineering ToolBox.
PER_CENT = [
    (2_000, "94.3"),
    (4_000, "88.8"),
    (6_000, "83.6"),
    (8_000, "78.6"),
    (10_000, "73.8"),
    (12_000, "69.3"),
    (14_000, "65.0"),
    (16_000, "60.9"),
]


@pytest.mark.parametrize(("feet", "hectopascals", "kelvin", "ratio"), DOC_7488)
@checked("ICAO Doc 7488, 3rd edition (1993), tables in feet; ambiance 1.3.1 and fluids 1.3.1 agree", "L")
def test_icao(feet: float, hectopascals: str, kelvin: str, ratio: str) -> None:
    height = feet * FOOT
    assert agrees(isa_pressure(height) / 100.0, hectopascals)
    assert agrees(isa_temperature(height), kelvin)
    assert agrees(isa_density(height) / isa_density(0.0), ratio)
    assert agrees(isa_density(0.0), "1.2250")


@pytest.mark.parametrize(("feet", "pounds"), GEOMETRIC)
@checked("US Standard Atmosphere 1976 in imperial units, The Engineering ToolBox, page 604", "P")
def test_geometric_feet(feet: float, pounds: str) -> None:
    z = feet * FOOT
    assert agrees(isa_pressure(EARTH * z / (EARTH + z)) / 6894.757, pounds)


@pytest.mark.parametrize(("feet", "per_cent"), PER_CENT)
@checked("'Air temperature, pressure and density vs. altitude', The Engineering ToolBox, page 461", "P")
def test_density_ratio(feet: float, per_cent: str) -> None:
    assert agrees(100.0 * isa_density(feet * FOOT) / isa_density(0.0), per_cent)


@checked("US Standard Atmosphere 1976, layer table of the barometric formula", "P")
def test_base_of_the_stratosphere() -> None:
    # US Standard Atmosphere 1976, layer table of the barometric formula: 22 632.1 Pa at 11 km. The gas constant's own
    # digits (287.05287 here, 287.053 there) move it by 0.04 Pa, which is added to the half step.
    assert abs(isa_pressure(11_000.0) - 22_632.1) <= 0.05 + 0.04


# Temperature, geometric feet, °F: US Standard Atmosphere 1976 in imperial units, The Engineering ToolBox (A8, read in
# print). At 20 000 ft the page is out in its last digit: -12.255 by definition.
@pytest.mark.parametrize(("feet", "fahrenheit"), [(5_000, "41.17"), (10_000, "23.36"), (30_000, "-47.83")])
@checked("US Standard Atmosphere 1976 in imperial units, The Engineering ToolBox, page 604", "P")
def test_temperature_by_geometric_feet(feet: float, fahrenheit: str) -> None:
    z = feet * FOOT
    assert agrees(from_si(isa_temperature(EARTH * z / (EARTH + z)), unit_named("°F")), fahrenheit)


@checked("US Standard Atmosphere 1976 in imperial units, The Engineering ToolBox, page 604", "P")
def test_the_one_temperature_of_that_page_that_is_out() -> None:
    z = 20_000 * FOOT
    assert abs(from_si(isa_temperature(EARTH * z / (EARTH + z)), unit_named("°F")) - -12.26) <= 0.01


# Temperature, °F, of the table from which PER_CENT is taken (A10, read in print).
@pytest.mark.parametrize(
    ("feet", "fahrenheit"),
    [(2_000, "51.9"), (4_000, "44.7"), (6_000, "37.6"), (8_000, "30.5"), (10_000, "23.3"), (12_000, "16.2"),
     (14_000, "9.1"), (16_000, "1.9")],
)  # fmt: skip
@checked("'Air temperature, pressure and density vs. altitude', The Engineering ToolBox, page 461", "P")
def test_temperature_by_feet(feet: float, fahrenheit: str) -> None:
    assert agrees(from_si(isa_temperature(feet * FOOT), unit_named("°F")), fahrenheit)


# Pressure in inches of mercury (A6: from the standard atmosphere and the conventional inch). A table that is much
# copied drops the third decimal instead of rounding it: 20.57, 19.02, 17.57, 16.21. So those are held one-sided.
@checked("from the standard atmosphere and the conventional inch of mercury (NIST SP 811)", "L")
def test_inches_of_mercury() -> None:
    assert agrees(from_si(isa_pressure(10_000 * FOOT), unit_named("in Hg")), "20.58")
    for feet, cut in ((10_000, 20.57), (12_000, 19.02), (14_000, 17.57), (16_000, 16.21)):
        assert cut <= from_si(isa_pressure(feet * FOOT), unit_named("in Hg")) < cut + 0.01


@checked("US Standard Atmosphere 1976, layer table of the barometric formula", "P")
def test_the_base_of_the_stratosphere_in_feet() -> None:
    """A11: 36 089 ft, 216.65 K, 6.683 in Hg."""
    height = 36_089 * FOOT
    assert agrees(isa_temperature(height), "216.65")
    assert agrees(from_si(isa_pressure(height), unit_named("in Hg")), "6.683")


@pytest.mark.parametrize(("feet", "printed"), [(0, "340.29"), (10_000, "328.39")])
@checked("ambiance 1.3.1", "L")
def test_speed_of_sound(feet: float, printed: str) -> None:
    """A12: a reference run of the package ambiance 1.3.1: root of 1.4 R T, which tests our temperature alone."""
    assert agrees((1.4 * 287.05287 * isa_temperature(feet * FOOT)) ** 0.5, printed)
