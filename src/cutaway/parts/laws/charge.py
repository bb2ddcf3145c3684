"""From a supercharged engine's ratings to the constants of its charge: blower, throttle, power.

A handbook gives four figures a gear: boost, speed, power and the height up to which that boost is held with the
throttle wide open. With the standard atmosphere, a blower efficiency and a throttle loss they fix everything else.
Every law here is a pure function of SI floats and calls `math` and nothing else.
"""

import math

GAS = 3.5  # gamma / (gamma − 1) of air
CLEARANCE = 7.5  # compression ratio by which the burnt gas left in the cylinders is counted


def heating_ratio(pressure_ratio: float, efficiency: float) -> float:
    """Temperature rise in a blower as a share of the intake temperature.

        rise / temperature = (pressure_ratio^(1/3.5) − 1) / efficiency

    pressure_ratio: outlet to intake, above 0. efficiency: adiabatic, 0 to 1.
    Range: air as a perfect gas. Source: adiabatic compression with an efficiency.

    A ratio of 2.0129 at 0.68:
    >>> round(heating_ratio(2.0129, 0.68), 4)
    0.3254
    """
    return (math.pow(pressure_ratio, 1.0 / GAS) - 1.0) / efficiency


def tip_work(pressure_ratio: float, temperature: float, speed: float, efficiency: float) -> float:
    """The work of the blower's tips as a temperature, for each speed squared: K/(rad/s)².

        work = temperature · rise / temperature / speed²

    pressure_ratio: at the rating. temperature: of the intake air there, K. speed: of the engine there, rad/s.
    efficiency: of the blower. Never below 0: a rating that asks for no blower has none.
    Range: fixed gear, no slip that varies. Source: Euler's turbine equation, where work goes with tip speed squared.

    An engine of 2,850 rpm with +9 lb/sq in at 1,500 m, in K for each rpm²:
    >>> round(tip_work(2.0129, 278.4, 298.451, 0.68) * (math.pi / 30) ** 2 * 1e5, 3)
    1.115
    """
    return max(0.0, temperature * heating_ratio(pressure_ratio, efficiency)) / (speed * speed)


def throttle_constant(loss: float, flow: float, temperature: float) -> float:
    """What the throttle's loss is to the square of what passes it.

        constant = loss / (1 − loss)² / (flow² · temperature)

    loss: share of the outside pressure lost wide open at the rating, 0 to 1. flow: speed · pressure ratio /
    temperature after the blower, at the rating. temperature: of the intake air there, K.
    Range: losses small beside the pressure. Source: orifice relation with the density of the intake air.

    Four per cent, flow as one, at one kelvin:
    >>> round(throttle_constant(0.04, 1.0, 1.0), 6)
    0.043403
    """
    return loss / (1.0 - loss) ** 2 / (flow * flow * temperature)


def power_constant(
    power: float, friction: float, speed: float, manifold: float, exhaust: float, temperature: float
) -> float:
    """What the indicated power is to speed · (manifold − exhaust / 7.5) / √temperature.

        constant = power / (1 − friction) / (speed · (manifold − exhaust / 7.5) / √temperature)

    power: brake power at the rating, W. friction: share of the indicated power lost in friction. speed: rad/s.
    manifold, exhaust: Pa absolute. temperature: of the charge, K.
    Range: burnt gas left at exhaust pressure. Source: textbook charge balance; the root of temperature is usual.

    A rating that needs nothing worked out:
    >>> power_constant(870.0, 0.13, 1.0, 2.0, 7.5, 1.0)
    1000.0
    """
    charge = speed * max(manifold - exhaust / CLEARANCE, 0.01 * manifold) / math.sqrt(temperature)
    return power / (1.0 - friction) / charge


def friction_constant(power: float, friction: float, speed: float) -> float:
    """Friction power for each speed squared, W/(rad/s)².

        constant = power · friction / (1 − friction) / speed²

    power: brake power at the rating, W. friction: share of the indicated power there. speed: rad/s.
    Range: mean friction pressure in proportion to speed. Source: usual in performance reduction.

    >>> friction_constant(870.0, 0.13, 1.0)
    130.0
    """
    return power * friction / (1.0 - friction) / (speed * speed)


def lever_area(opening: float) -> float:
    """Share of the full throttle area at an opening of the throttle.

        area = 0.03 + 0.97 · (1 − cos(π/2 · opening))

    opening: 0 closed, 1 wide open.
    Range: 0 to 1. Source: engineering judgement; the shape is that of a butterfly with a straight linkage.

    Eight tenths of the way:
    >>> round(lever_area(0.8), 3)
    0.7
    """
    return 0.03 + 0.97 * (1.0 - math.cos(0.5 * math.pi * opening))
