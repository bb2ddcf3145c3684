"""The conditions of the world: what each is measured in, and within what it can be."""

from dataclasses import dataclass

from cutaway.quantities.quantity import Dimension, Quantity
from cutaway.quantities.si import low_high_si


@dataclass(frozen=True, slots=True)
class WorldCondition:
    """low, high: SI, geopotential height in m, airspeed in m/s, temperature in K, load factor in g. words: the same as
    it is told."""

    name: str
    dimension: Dimension
    low: float
    high: float
    words: str


# The height is that of the standard atmosphere in `parts/laws/atmosphere.py`; the others are choices of ours, wide of
# anything that an aeroplane of the piston age met.
CONDITIONS = (
    WorldCondition("height", "length", -1000.0, 20000.0, "-3000 to 65000 ft"),
    WorldCondition("airspeed", "speed", 0.0, 350.0, "0 to 680 kt"),
    WorldCondition("temperature", "temperature", 180.0, 340.0, "-93 to 66 °C"),
    WorldCondition("load factor", "number", -6.0, 12.0, "-6 to 12"),
)


def out_of_this_world(condition: WorldCondition, quantity: Quantity) -> bool:
    """Whether a height, an airspeed and so on, or an end of its range, is none that there is."""
    low, high = low_high_si(quantity)
    return low < condition.low or high > condition.high
