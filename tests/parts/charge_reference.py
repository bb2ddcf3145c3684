"""The charge of a supercharged engine once more, written apart from the library: a fixed point by root finding.

Nothing here is imported from the package. The throttle's equation is solved by brentq for the pressure behind it, and
the boost control by brentq for the area it must leave; the library has closed forms for both.
"""

import math
from dataclasses import dataclass

from scipy.optimize import brentq

GAMMA = 1.4
E = (GAMMA - 1.0) / GAMMA


def air(height: float, warmer: float = 0.0) -> tuple[float, float]:
    """Pressure, Pa, and temperature, K, of the ICAO atmosphere below 11 km."""
    standard = 288.15 - 0.0065 * height
    return 101_325.0 * (standard / 288.15) ** 5.255_879_7, standard + warmer


@dataclass(frozen=True)
class Rating:
    """Boost in Pa above standard, speed in rad/s, height in m, power in W."""

    boost: float
    speed: float
    height: float
    power: float
    efficiency: float = 0.68
    loss: float = 0.04
    friction: float = 0.13


class Reference:
    """One gear of an engine."""

    def __init__(self, rating: Rating) -> None:
        self.r = rating
        p, t = air(rating.height)
        ratio = (101_325.0 + rating.boost) / (p * (1.0 - rating.loss))
        self.w = (ratio**E - 1.0) / rating.efficiency * t / rating.speed**2
        # So that the loss at the rating is the stated share of the outside pressure, wide open.
        flow = rating.speed * p * (1.0 - rating.loss) * ratio / (t + self.w * rating.speed**2)
        self.c = rating.loss * p * p / (flow**2 * t)
        self.k = 1.0
        self.k = rating.power / (1.0 - rating.friction) / self.indicated(rating.speed, 101_325.0 + rating.boost, p, t)

    def blower(self, speed: float, t: float) -> tuple[float, float]:
        """Pressure ratio and temperature behind the blower."""
        rise = self.w * speed**2
        return (1.0 + self.r.efficiency * rise / t) ** (1.0 / E), t + rise

    def behind_throttle(self, area: float, speed: float, p: float, t: float) -> float:
        """The pressure at which what passes the throttle is what the cylinders take."""
        ratio, after = self.blower(speed, t)

        def surplus(p1: float) -> float:
            return (p - p1) - self.c * (speed * p1 * ratio / after / area) ** 2 * t / p

        return float(brentq(surplus, 0.0, p, xtol=1e-10, rtol=1e-15))

    def manifold(self, area: float, allowed: float, speed: float, p: float, t: float) -> float:
        """Pressure in the induction pipe; the control closes the throttle until it holds what is allowed."""
        ratio, _ = self.blower(speed, t)

        def over(a: float) -> float:
            return self.behind_throttle(a, speed, p, t) * ratio - allowed

        if over(area) <= 0.0:
            return over(area) + allowed
        held = brentq(over, 1e-6, area, xtol=1e-15, rtol=1e-15)
        return float(over(held) + allowed)

    def indicated(self, speed: float, manifold: float, p: float, t: float) -> float:
        """Indicated power."""
        return self.k * speed * (manifold - p / 7.5) / math.sqrt(self.blower(speed, t)[1])

    def power(self, manifold: float, speed: float, p: float, t: float) -> float:
        """Brake power."""
        lost = self.r.power * self.r.friction / (1.0 - self.r.friction) * (speed / self.r.speed) ** 2
        return self.indicated(speed, manifold, p, t) - lost


def area(opening: float) -> float:
    """Share of the throttle's area."""
    return 0.03 + 0.97 * (1.0 - math.cos(math.pi / 2.0 * opening))
