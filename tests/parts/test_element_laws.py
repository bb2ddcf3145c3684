"""Every law of the element families: right in sign, monotone, smooth through its corners, true to its slopes."""

from collections.abc import Callable
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.machine import layout
from cutaway.machine.kernel_assembly import held, two_ended
from cutaway.parts.laws import jacks
from cutaway.parts.laws.current import motor
from cutaway.parts.laws.elements import CODES, FAMILIES
from cutaway.parts.laws.shapes import clamp, gas_head, hinge, opening, root

# Parameters and a range of across values for each two-ended family, of the size that parts use.
LIQUID, GAS, VOLTS = (-5.0e5, 2.0e7), (1.0e2, 3.0e6), (-5.0, 40.0)
TWO_ENDED: dict[str, tuple[tuple[float, ...], tuple[float, float]]] = {
    "LIN": ((1.0e-10,), LIQUID),
    "ROOT": ((1.0e-7, 5.0e3), LIQUID),
    "GASROOT": ((1.0e-9, 3.0e3), GAS),
    "ONEWAY": ((1.0e-7, 5.0e3, 3.0e4, 1.0e-16), LIQUID),
    "GASWAY": ((1.0e-9, 3.0e3, 5.0e3), GAS),
    "RELIEF": ((1.0e-7, 5.0e3, 1.0e7, 5.0e5), LIQUID),
    "REDUCE": ((1.0e-7, 5.0e3, 7.0e5, 5.0e4), (0.0, 3.0e6)),
    "MAINTAIN": ((1.0e-7, 5.0e3, 1.1e6, 1.0e5), (0.0, 3.0e6)),
    "SOURCE": ((28.0, 20.0, 0.0, 40.0, 0.5), VOLTS),
    "PDPUMP": ((9.0e6, 1.0e-10, 1.0e-4, -2.0e4, 1.0e4, 1.0e-6), LIQUID),
    "DRAW": ((6.0e-5, 1.0e3, 4.0e3), (-5.0e3, 2.0e4)),
    "DRAG": ((0.2, 6.0, 0.001), (-400.0, 400.0)),
    "ADVECT": ((3.6e6,), (0.0, 120.0)),
}
STORES = {
    "STORE": ((1.0e-8,), (1.0e3, 3.0e6)),
    "ACCUM": ((1.5e-3, 3.5e6, 2.0e4, 1.0e-14), (-1.0e5, 2.0e7)),
    "TANK": ((1.0e-5, 20.0, 1.0e-12), (-5.0e3, 5.0e3)),
}
SHARE = st.floats(0.0, 1.0)


def law(name: str) -> Callable[[float, float, float, float], tuple[float, float, float]]:
    """The law of a family with its parameters filled in."""
    parameters = TWO_ENDED[name][0]
    return lambda a, b, gate, drive: two_ended(CODES[name], a, b, gate, drive, parameters)  # type: ignore[arg-type]


def at(name: str, share: float) -> float:
    """An across value of the family's range."""
    low, high = TWO_ENDED[name][1]
    return low + share * (high - low)


def test_the_kernel_counts_the_families_as_the_table_does() -> None:
    assert {f.name: getattr(layout, f.name) for f in FAMILIES} == CODES
    covered = set(TWO_ENDED) | set(STORES) | {"JACK", "RAM", "RATIO"}
    assert covered == set(CODES)
    assert max(len(f.parameters) for f in FAMILIES) == layout.PARAMETERS


@pytest.mark.parametrize("name", TWO_ENDED)
@given(a=SHARE, b=SHARE, more=SHARE, gate=SHARE, drive=st.floats(0.0, 1.5))
def test_flow_rises_with_the_first_end_and_falls_with_the_second(
    name: str, a: float, b: float, more: float, gate: float, drive: float
) -> None:
    flow, first, second, higher = law(name), at(name, a), at(name, b), at(name, max(a, more))
    here, by_a, by_b = flow(first, second, gate, drive)
    there = flow(higher, second, gate, drive)[0]
    against = flow(second, higher, gate, drive)[0]
    low, high = TWO_ENDED[name][1]
    slack = 1.0e-12 * (abs(here) + abs(there) + abs(flow(high, low, 1.0, 1.0)[0]))
    assert there >= here - slack
    assert against <= flow(second, first, gate, drive)[0] + slack + 1.0e-12 * abs(against)
    assert by_a >= 0.0
    assert by_b <= 0.0


@pytest.mark.parametrize("name", TWO_ENDED)
@given(a=SHARE, b=SHARE, gate=st.floats(0.1, 1.0), drive=st.floats(0.1, 1.5))
def test_slopes_are_those_of_the_flow(name: str, a: float, b: float, gate: float, drive: float) -> None:
    """Against central differences; at a corner (hinges are smooth once, not twice) less can be asked."""
    flow, first, second = law(name), at(name, a), at(name, b)
    low, high = TWO_ENDED[name][1]
    step = 1.0e-9 * (high - low)
    _, by_a, by_b = flow(first, second, gate, drive)
    for slope, side in ((by_a, (1.0, 0.0)), (by_b, (0.0, 1.0))):
        ahead = flow(first + side[0] * step, second + side[1] * step, gate, drive)
        behind = flow(first - side[0] * step, second - side[1] * step, gate, drive)
        which = 1 if side[0] else 2
        change = abs(ahead[which] - behind[which])  # how much the slope itself turns between the two
        assert (ahead[0] - behind[0]) / (2.0 * step) == pytest.approx(
            slope, abs=change + 1.0e-5 * abs(slope) + 1.0e-9 * (abs(ahead[0]) + 1.0e-12) / step
        )


@pytest.mark.parametrize("name", ["LIN", "ROOT", "GASROOT", "DRAG", "ONEWAY", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN"])
@given(a=SHARE, gate=SHARE)
def test_no_drop_no_flow(name: str, a: float, gate: float) -> None:
    assert law(name)(at(name, a), at(name, a), gate, 1.0)[0] == 0.0


@pytest.mark.parametrize(
    "name", ["ROOT", "GASROOT", "ONEWAY", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN", "LIN", "DRAW", "PDPUMP", "SOURCE"]
)
@given(a=SHARE, b=SHARE)
def test_a_shut_gate_is_exactly_shut(name: str, a: float, b: float) -> None:
    creep = TWO_ENDED[name][0][3] if name == "ONEWAY" else 0.0
    flow = law(name)(at(name, a), at(name, b), 0.0, 1.0)[0]
    assert flow == creep * (at(name, a) - at(name, b))


@pytest.mark.parametrize("name", ["ONEWAY", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN"])
@given(a=SHARE, b=SHARE)
def test_valves_let_nothing_back_but_their_creep(name: str, a: float, b: float) -> None:
    low, high = sorted((at(name, a), at(name, b)))
    creep = 1.0e-16 * (high - low) if name == "ONEWAY" else 0.0
    assert -law(name)(low, high, 1.0, 1.0)[0] <= creep * (1.0 + 1.0e-12)


@given(drop=st.floats(1.0e3, 1.0e8))
def test_the_root_is_the_orifice_relation_outside_its_core(drop: float) -> None:
    assert root(drop, 10.0)[0] == pytest.approx(sqrt(drop), rel=1.0e-4)
    assert root(-drop, 10.0)[0] == -root(drop, 10.0)[0]


@pytest.mark.parametrize(("shape", "corners"), [
    (lambda t: hinge(t, 2.0), (0.0, 2.0)), (opening, (0.0, 1.0)),
    (lambda t: clamp(t, 0.0, 10.0, 1.0), (-0.5, 0.5, 9.5, 10.5)),
    (lambda t: gas_head(1.0e4 * t), (1.0,)), (lambda t: root(t, 1.0), (0.0,)),
])  # fmt: skip
def test_shapes_and_their_slopes_meet_at_the_corners(
    shape: Callable[[float], tuple[float, float]], corners: tuple[float, ...]
) -> None:
    for corner in corners:
        before, after = shape(corner - 1.0e-9), shape(corner + 1.0e-9)
        size = abs(before[0]) + abs(before[1]) + 1.0
        assert after[0] == pytest.approx(before[0], abs=1.0e-8 * size)
        assert after[1] == pytest.approx(before[1], abs=1.0e-8 * size)


@pytest.mark.parametrize("name", STORES)
@given(x=SHARE, y=SHARE)
def test_a_store_holds_more_at_more(name: str, x: float, y: float) -> None:
    parameters, (low, high) = STORES[name]
    first, second = (low + s * (high - low) for s in sorted((x, y)))
    less, slope = held(CODES[name], first, parameters)  # type: ignore[arg-type]
    more, _ = held(CODES[name], second, parameters)  # type: ignore[arg-type]
    assert slope > 0.0
    assert more >= less
    step = 1.0e-6 * (high - low)
    ahead, after = held(CODES[name], first + step, parameters)  # type: ignore[arg-type]
    behind, before = held(CODES[name], first - step, parameters)  # type: ignore[arg-type]
    assert (ahead - behind) / (2.0 * step) == pytest.approx(slope, rel=1.0e-5, abs=abs(after - before))


JACK = (12.0e-4, 8.0e-4, 300.0, 2000.0, 5000.0, 0.0, 7000.0, 0.0, 0.3, 1.0e8)


@given(
    cap=st.floats(0.0, 2.0e7),
    rod=st.floats(0.0, 2.0e7),
    travel=st.floats(0.0, 0.3),
    step=st.floats(1.0e-6, 10.0),
    more=st.floats(0.0, 1.0e6),
)
def test_a_jack_is_the_root_of_its_balance_and_moves_with_its_push(
    cap: float, rod: float, travel: float, step: float, more: float
) -> None:
    speed, slope = jacks.jack(cap, rod, travel, step, 1.0, 1.0, *JACK)
    end = jacks.stops(travel + step * speed, 0.0, 0.3, 1.0e8)[0]
    force = JACK[0] * cap - JACK[1] * rod - 7000.0 - 5000.0 * (travel + step * speed) - end
    assert jacks.glide(force, 300.0, 2000.0)[0] == pytest.approx(
        speed, abs=2.0e-12 * (1.0 + abs(speed)) * (1.0 + 5.1e4 * step) + 1.0e-12
    )
    assert slope >= 0.0
    assert jacks.jack(cap + more, rod, travel, step, 1.0, 1.0, *JACK)[0] >= speed - 1.0e-11
    assert jacks.jack(cap, rod + more, travel, step, 1.0, 1.0, *JACK)[0] <= speed + 1.0e-11
    assert -0.01 < travel + step * speed < 0.31


@given(pressure=st.floats(1.0e4, 2.0e6), travel=st.floats(0.0, 0.08), more=st.floats(0.0, 1.0e5))
def test_a_ram_goes_out_under_pressure(pressure: float, travel: float, more: float) -> None:
    ends = (20.0e-4, 20.0, 500.0, 6000.0, 0.0, 300.0, 0.0, 0.08, 1.0e8)
    speed, slope = jacks.ram(pressure, travel, 0.01, 1.0, 1.0, *ends)
    assert slope >= 0.0
    assert jacks.ram(pressure + more, travel, 0.01, 1.0, 1.0, *ends)[0] >= speed - 1.0e-12
    held_now, by = jacks.ram_content(pressure, travel, 20.0e-4, 0.0, 1.0e-5)
    assert by > 0.0
    assert jacks.ram_content(pressure, travel + 0.001, 20.0e-4, 0.0, 1.0e-5)[0] > held_now


@given(volts=st.floats(-30.0, 30.0), speed=st.floats(-400.0, 400.0))
def test_a_motor_draws_nothing_at_the_speed_of_its_volts(volts: float, speed: float) -> None:
    current, slope = motor(volts, 0.0, speed, 1.0, 0.06, 0.5)
    assert current == pytest.approx((volts - 0.06 * speed) / 0.5)
    assert slope == 2.0
    assert motor(0.06 * speed, 0.0, speed, 1.0, 0.06, 0.5)[0] == pytest.approx(0.0, abs=1.0e-12)
