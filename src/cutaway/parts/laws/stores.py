"""What a store holds at a given across value, with its slope: the solver differences the content over a step."""

from cutaway.parts.laws.shapes import hinge


def store(x: float, capacity: float) -> tuple[float, float]:
    """A bottle, a battery, a mass of metal, a flywheel (STORE).

        content = C x

    x: Pa absolute, V, °C or rad/s. capacity: C, above 0: volume / 101,325 Pa for a bottle (free-air m³ per Pa),
    coulomb a volt, J/K, kg m². Range: isothermal gas; a battery whose voltage falls in a straight line. Source:
    textbook.

    An 8 l bottle at 21 bar absolute holds 0.166 m³ of free air:
    >>> round(store(2.1e6, 0.008 / 101325.0)[0], 4)
    0.1658
    """
    return capacity * x, capacity


def accumulator(x: float, volume: float, precharge: float, corner: float, wall: float) -> tuple[float, float]:
    """Oil in an accumulator (ACCUM): none below the precharge, then what the gas gives way.

        content = V0 h / (p0 + h) + c0 x,        h = hinge(x - p0);  that is V0 (1 - p0 / p)

    x: Pa gauge. volume: V0, m³ of gas at the precharge. precharge: p0, Pa gauge. corner: Pa. wall: c0, m³/Pa, what
    walls and oil give, above 0. Range: slow (isothermal) working, gas taken by gauge pressures as the trade does,
    which overstates the usable oil a little. Source: Boyle's law.

    Ten gallons at 1000, worked between 1200 and 3000 lb/sq in, gives 5 gallons:
    >>> round(10 * (accumulator(3000.0, 1.0, 1000.0, 1e-6, 0.0)[0] - accumulator(1200.0, 1.0, 1000.0, 1e-6, 0.0)[0]), 4)
    5.0
    """
    above, by_x = hinge(x - precharge, corner)
    gas = precharge + above
    return volume * above / gas + wall * x, volume * precharge / (gas * gas) * by_x + wall


def tank(x: float, capacity: float, corner: float, wall: float) -> tuple[float, float]:
    """Liquid in a vented tank of straight sides (TANK), by the head at its outlet.

        content = C hinge(x) + c0 x

    x: Pa gauge at the outlet. capacity: C = plan area / (density · g), m³/Pa. corner: Pa; the last few millimetres.
    wall: c0, m³/Pa, above 0 and small: below empty the head collapses, so that a pump starves. Range: level tank.
    Source: hydrostatics; the corner is ours.

    0.2 m² filled 0.5 m deep with petrol of 720 kg/m³ holds 100 l:
    >>> round(1000 * tank(720 * 9.80665 * 0.5, 0.2 / (720 * 9.80665), 1.0, 1e-12)[0], 1)
    100.0
    """
    above, by_x = hinge(x, corner)
    return capacity * above + wall * x, capacity * by_x + wall
