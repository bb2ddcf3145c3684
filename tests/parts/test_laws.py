"""The laws of sizing and of the atmosphere: ranges that are about their own arguments, and round trips."""

import inspect
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.parts.laws.atmosphere import isa_density, isa_pressure, isa_temperature
from cutaway.parts.laws.law import LAWS, Law
from cutaway.parts.laws.sizing import air_conductance, flow_conductance, vessel_capacitance

EVERY = pytest.mark.parametrize("law", LAWS, ids=lambda law: law.name)


@EVERY
def test_a_range_is_about_an_argument_and_the_docstring_tells_it(law: Law) -> None:
    assert set(law.within) <= set(inspect.signature(law.law).parameters)
    assert all(low < high for low, high in law.within.values())
    text = law.law.__doc__ or ""
    assert "Range:" in text and "Source:" in text and ">>>" in text


@EVERY
def test_a_law_calls_math_and_nothing_else(law: Law) -> None:
    assert set(law.law.__code__.co_names) <= {"math", "min", *dir(math)}


def test_every_law_stands_in_the_table() -> None:
    from cutaway.parts.laws import atmosphere, sizing

    written = {f for room in (atmosphere, sizing) for _, f in inspect.getmembers(room, inspect.isfunction)}
    assert written == {law.law for law in LAWS}


@given(st.floats(1e-7, 1e-2), st.floats(1.0, 1e6))
def test_a_conductance_gives_its_flow_back(flow: float, drop: float) -> None:
    assert math.isclose(flow_conductance(flow, drop) * math.sqrt(drop), flow, rel_tol=1e-12)


@given(st.floats(1e-5, 1e-2), st.floats(2e4, 2e5), st.floats(0.01, 0.6))
def test_an_air_conductance_gives_its_flow_back(flow: float, pressure: float, share: float) -> None:
    inside = pressure * (1.0 - share)
    conductance = air_conductance(flow, pressure, pressure * share)
    assert math.isclose(conductance * math.sqrt(pressure**2 - inside**2), flow, rel_tol=1e-9)


@given(st.floats(1e-3, 1.0), st.floats(500.0, 2e4))
def test_a_vessel_holds_its_capacity_at_its_head(capacity: float, head: float) -> None:
    toe, foot = 0.02 * head, 1e-4 * capacity / head
    slope = vessel_capacitance(capacity, head, toe, foot)
    assert math.isclose(slope * (head - toe / 2) + foot * head, capacity, rel_tol=1e-12)


@pytest.mark.parametrize("height", [0.0, 1000.0, 5000.0, 10_999.0, 11_001.0, 15_000.0])
def test_the_atmosphere_is_in_balance_with_its_own_weight(height: float) -> None:
    step = 0.5
    slope = (isa_pressure(height + step) - isa_pressure(height - step)) / (2 * step)
    assert math.isclose(slope, -9.80665 * isa_density(height), rel_tol=1e-4)


def test_the_layers_meet() -> None:
    assert math.isclose(isa_pressure(11_000.0 - 1e-6), isa_pressure(11_000.0 + 1e-6), rel_tol=1e-9)
    assert isa_temperature(12_000.0) == isa_temperature(11_000.0)
    assert math.isclose(isa_temperature(11_000.0), 216.65)
