"""Generators of random input, for the tests of all rooms."""

from hypothesis import strategies as st

from cutaway.quantities.quantity import Quantity, Unit
from cutaway.quantities.units import UNITS

named_units = st.sampled_from([unit for unit in UNITS if unit.name])
figures = st.decimals(min_value=-99999, max_value=99999, places=3, allow_nan=False).map(float)


@st.composite
def quantities(draw: st.DrawFn) -> Quantity:
    """A single figure, a range or a tolerance in any unit, as it would be printed."""
    unit: Unit = draw(named_units)
    value = draw(figures)
    by = draw(st.sampled_from([0.0, 0.25, 1.0, 12.5]))
    joint = draw(st.sampled_from(["±", "to"]))
    low, high = value - by, value + by
    if not by:
        text = f"{value} {unit.name}"
    elif joint == "±":
        text = f"{value} ± {by} {unit.name}"
    else:
        text = f"{low} to {high} {unit.name}"
    return Quantity(text, value, low, high, unit, unit.datum)
