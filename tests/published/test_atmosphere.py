"""The standard atmosphere as printed. Heights are geopotential feet unless said; tolerance half a printed step."""

import pytest

from cutaway.parts.laws.atmosphere import isa_density, isa_pressure, isa_temperature
from tests.published.agreement import agrees

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
def test_icao(feet: float, hectopascals: str, kelvin: str, ratio: str) -> None:
    height = feet * FOOT
    assert agrees(isa_pressure(height) / 100.0, hectopascals)
    assert agrees(isa_temperature(height), kelvin)
    assert agrees(isa_density(height) / isa_density(0.0), ratio)
    assert agrees(isa_density(0.0), "1.2250")


@pytest.mark.parametrize(("feet", "pounds"), GEOMETRIC)
def test_geometric_feet(feet: float, pounds: str) -> None:
    z = feet * FOOT
    assert agrees(isa_pressure(EARTH * z / (EARTH + z)) / 6894.757, pounds)


@pytest.mark.parametrize(("feet", "per_cent"), PER_CENT)
def test_density_ratio(feet: float, per_cent: str) -> None:
    assert agrees(100.0 * isa_density(feet * FOOT) / isa_density(0.0), per_cent)


def test_base_of_the_stratosphere() -> None:
    # US Standard Atmosphere 1976, layer table of the barometric formula: 22 632.1 Pa at 11 km. The gas constant's own
    # digits (287.05287 here, 287.053 there) move it by 0.04 Pa, which is added to the half step.
    assert abs(isa_pressure(11_000.0) - 22_632.1) <= 0.05 + 0.04
