"""Laws of air between two nodes: Pa absolute and m³/s of free air (101,325 Pa, 15 °C)."""

from cutaway.parts.laws.shapes import gas_head, hinge, root

Flow = tuple[float, float, float]


def gas_orifice(a: float, b: float, gate: float, drive: float, c: float, core: float) -> Flow:
    """Air through a nozzle, a cock or a pipe (GASROOT).

        flow = gate · C root(head(a) - head(b)),        about C √(a² - b²)

    a, b: Pa absolute. c: C, m³/s of free air per Pa, 0 or above. core: Pa; the flow is laminar while |a² - b²| is
    below its square. drive: not used. Range: above 10 kPa, isothermal. Source: the nozzle relation of ISO 6358 with
    critical ratio 0. Real nozzles choke at ratios up to 0.53; at equal C this passes up to a fifth less near ratio
    0.74, so give C as a flow at a known drop.

    >>> round(gas_orifice(5.0e5, 3.0e5, 1.0, 1.0, 1.0e-9, 5.0e3)[0], 7)
    0.0004
    """
    high, high_slope = gas_head(a)
    low, low_slope = gas_head(b)
    value, slope = root(high - low, core * core)
    return gate * c * value, gate * c * slope * high_slope, -gate * c * slope * low_slope


def gas_one_way(a: float, b: float, gate: float, drive: float, c: float, core: float, crack: float) -> Flow:
    """A non-return valve for air (GASWAY).

        flow = gate · C root(hinge(head(a - crack) - head(b)))

    crack: drop at which it begins to lift, Pa. c, core, gate: as for an orifice. drive: not used. Range and source:
    as for an orifice; the toe is ours.

    >>> gas_one_way(1.04e5, 1.0e5, 1.0, 1.0, 1.0e-9, 5.0e3, 5.0e3)[0]
    0.0
    >>> round(gas_one_way(5.05e5, 3.0e5, 1.0, 1.0, 1.0e-9, 5.0e3, 5.0e3)[0], 6)
    0.0004
    """
    high, high_slope = gas_head(a - crack)
    low, low_slope = gas_head(b)
    lifted, by_head = hinge(high - low, core * core)
    value, slope = root(lifted, core * core)
    factor = gate * c * slope * by_head
    return gate * c * value, factor * high_slope, -factor * low_slope
