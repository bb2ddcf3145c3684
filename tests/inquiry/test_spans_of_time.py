"""Stretches of time against a plain definition: sampled at many instants, and/or/not must agree with Python's own."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from cutaway.inquiry.spans_of_time import Times, both, complement, either, of_flags, of_positive

UNTIL = 10.0


@st.composite
def stretches(draw: st.DrawFn) -> Times:
    """Some disjoint stretches with whole-number ends, so that instants in between are never at an end."""
    ends = sorted(draw(st.sets(st.integers(0, 10), max_size=8)))
    pairs = [(float(a), float(b)) for a, b in zip(ends[::2], ends[1::2], strict=False)]
    return Times(tuple(pairs), UNTIL)


INSTANTS = [i + 0.5 for i in range(10)]


@given(stretches(), stretches())
def test_joined_as_python_joins_them(a: Times, b: Times) -> None:
    for t in INSTANTS:
        assert both(a, b).holds_at(t) == (a.holds_at(t) and b.holds_at(t))
        assert either(a, b).holds_at(t) == (a.holds_at(t) or b.holds_at(t))
        assert complement(a).holds_at(t) == (not a.holds_at(t))


@given(stretches())
def test_stretches_stay_in_order_and_apart(a: Times) -> None:
    for times in (complement(a), either(a, complement(a)), both(a, a)):
        assert all(s <= e for s, e in times.stretches)
        assert all(e1 < s2 for (_, e1), (s2, _) in zip(times.stretches, times.stretches[1:], strict=False))


def test_first_counts_from_the_clock() -> None:
    times = Times(((1.0, 2.0), (5.0, 10.0)), UNTIL)
    assert times.first(0.0) == 1.0
    assert times.first(1.5) == 1.5
    assert times.first(3.0) == 5.0
    assert Times((), UNTIL).first(0.0) is None
    assert times.first_not(5.5) is None


def test_a_crossing_lies_on_the_straight_line() -> None:
    times = np.array([0.0, 10.0])
    found = of_positive(times, np.array([-1.0, 3.0]), UNTIL)
    assert found.stretches == ((2.5, 10.0),)


def test_a_dead_instrument_reads_nothing() -> None:
    times = np.array([0.0, 4.0, 4.0, 10.0])
    found = of_positive(times, np.array([1.0, 1.0, np.nan, np.nan]), UNTIL)
    assert found.stretches == ((0.0, 4.0),)


def test_a_jump_counts_from_its_instant() -> None:
    times = np.array([0.0, 3.0, 3.0, 10.0])
    assert of_flags(times, np.array([0.0, 0.0, 1.0, 1.0]), UNTIL).stretches == ((3.0, 10.0),)
