"""The smooth shapes that the laws are made of: each with its slope, both defined everywhere."""

import math


def root(drop: float, core: float) -> tuple[float, float]:
    """Signed square root with a laminar core, and its slope.

        root = drop / (drop² + core²)^¼        slope = (½ drop² + core²) / (drop² + core²)^(5/4)

    drop: any unit. core: width of the laminar core, same unit, above 0. The result has the unit's square root.
    Range: everywhere; within 0.3 % of ±√|drop| once |drop| is 10 cores or more. Source: the square-root law is the
    orifice relation; its rounding at zero is ours, so that the slope stays finite and above 0.

    >>> root(100.0, 1.0)
    (9.9997500, 0.0500037)
    >>> root(0.0, 4.0)
    (0.0, 0.5)
    """
    square = drop * drop + core * core
    quarter = math.sqrt(math.sqrt(square))
    return drop / quarter, (0.5 * drop * drop + core * core) / (square * quarter)


def hinge(excess: float, corner: float) -> tuple[float, float]:
    """Nothing below zero, then a parabola as far as the corner, then a straight line of slope 1; and its slope.

        hinge = 0 | excess² / (2 corner) | excess - corner / 2

    excess, corner: same unit; corner above 0. Range: everywhere. Source: ours. Shut is exactly shut, which a softened
    exponential would not be.

    >>> hinge(-1.0, 2.0), hinge(1.0, 2.0), hinge(5.0, 2.0)
    ((0.0, 0.0), (0.25, 0.5), (4.0, 1.0))
    """
    if excess <= 0.0:
        return 0.0, 0.0
    if excess < corner:
        return 0.5 * excess * excess / corner, excess / corner
    return excess - 0.5 * corner, 1.0


def opening(fraction: float) -> tuple[float, float]:
    """How far a valve is open, 0 to 1, on its way from shut (0) to full (1); and its slope.

        opening = t² (3 - 2 t) between 0 and 1

    Range: everywhere; flat outside 0 to 1. Source: ours (the cubic with level ends).

    >>> opening(-0.1), opening(0.5), opening(2.0)
    ((0.0, 0.0), (0.5, 1.5), (1.0, 0.0))
    """
    if fraction <= 0.0:
        return 0.0, 0.0
    if fraction >= 1.0:
        return 1.0, 0.0
    return fraction * fraction * (3.0 - 2.0 * fraction), 6.0 * fraction * (1.0 - fraction)


def clamp(value: float, low: float, high: float, corner: float) -> tuple[float, float]:
    """The value held between two limits with rounded corners, and its slope, 0 to 1.

        clamp = low + hinge(value - low + corner / 2) - hinge(value - high + corner / 2)

    All in one unit; corner above 0. Range: everywhere; exactly `value` where it is half a corner or more inside both
    limits. Source: ours.

    >>> clamp(-3.0, 0.0, 10.0, 1.0), clamp(4.0, 0.0, 10.0, 1.0), clamp(12.0, 0.0, 10.0, 1.0)
    ((0.0, 0.0), (4.0, 1.0), (10.0, 0.0))
    >>> clamp(4.0, 0.0, 0.0, 1.0)
    (0.0, 0.0)
    """
    below, below_slope = hinge(value - low + 0.5 * corner, corner)
    above, above_slope = hinge(value - high + 0.5 * corner, corner)
    return low + below - above, below_slope - above_slope


def gas_head(pressure: float) -> tuple[float, float]:
    """The square of an absolute pressure, Pa², carried on as a straight line below 10 kPa; and its slope.

        head = p²    above 10 kPa;        head = 2 · 10⁴ p - 10⁸    below

    pressure: Pa absolute. Range: meant for pressures above 10 kPa. Source: the square is the isothermal restrictor
    relation (flow by the difference of the squares); the straight line is ours: without it a solver can run off below
    a vacuum.

    >>> gas_head(2.0e5)
    (4.0e10, 4.0e5)
    >>> gas_head(0.0)
    (-1.0e8, 2.0e4)
    """
    if pressure > 1.0e4:
        return pressure * pressure, 2.0 * pressure
    return 2.0e4 * pressure - 1.0e8, 2.0e4
