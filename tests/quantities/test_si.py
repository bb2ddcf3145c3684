"""From printed to SI and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import figure, from_si, low_high_si, shown, to_si
from cutaway.quantities.units import unit_named
from tests.strategies import quantities


def q(text):
    return read_quantity(text, whole(TextFile("test", text)))[0]


@pytest.mark.parametrize(
    "text, datum, pascals",
    [
        ("0 lb/sq in", "", 0.0),
        ("0 lb/sq in", "gauge", 0.0),
        ("0 lb/sq in", "absolute", 101325.0),
        ("0 lb/sq in absolute", "", 0.0),
        ("0 lb/sq in absolute", "absolute", 0.0),
        ("0 lb/sq in absolute", "gauge", -101325.0),
        ("1 atm", "gauge", 0.0),
        ("1 bar", "absolute", 1e5),  # a difference: no datum, so nothing to add
    ],
)
def test_the_datum(text, datum, pascals) -> None:
    assert to_si(q(text), datum) == pytest.approx(pascals, abs=1e-9)


def test_both_ends_are_on_the_same_datum() -> None:
    assert low_high_si(q("-1 to 1 bar gauge"), "absolute") == pytest.approx((1325.0, 201325.0))
    assert low_high_si(q("6 V")) == (6.0, 6.0)


@given(quantities())
def test_there_and_back(quantity) -> None:
    assert from_si(to_si(quantity), quantity.unit) == pytest.approx(quantity.value, rel=1e-12, abs=1e-9)
    low, high = low_high_si(quantity)
    assert low <= to_si(quantity) <= high


@pytest.mark.parametrize(
    "value, digits, text",
    [
        (4.5, 3, "4.5"),
        (4.5678, 3, "4.57"),
        (1800.0, 3, "1,800"),
        (1813.4, 3, "1,813"),
        (0.000123456, 3, "0.000123"),
        (-0.5, 3, "-0.5"),
        (-0.0, 3, "0"),
        (0.0, 3, "0"),
        (99.96, 3, "100"),
        (float("nan"), 3, "no figure"),
    ],
)
def test_figures_of_the_house(value, digits, text) -> None:
    assert figure(value, digits) == text


@given(st.floats(min_value=-1e6, max_value=1e6), st.integers(min_value=2, max_value=6))
def test_what_is_shown_reads_back_to_its_digits(value, digits) -> None:
    again = q(shown(value, unit_named("Pa"), digits))
    assert again.value == pytest.approx(value, rel=0.51 * 10.0 ** (1 - digits), abs=1e-300)
