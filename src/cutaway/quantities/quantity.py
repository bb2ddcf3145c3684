"""A quantity as a handbook prints it: the figure, its unit, its tolerance or range, gauge or absolute."""

from dataclasses import dataclass
from typing import Literal

Dimension = Literal[
    "pressure",
    "volume",
    "volume flow",
    "length",
    "area",
    "mass",
    "density",
    "force",
    "temperature",
    "speed",
    "angular speed",
    "rate",
    "power",
    "voltage",
    "current",
    "resistance",
    "conductance",
    "charge",
    "time",
    "angle",
    "fraction",
    "number",
]

Datum = Literal["", "gauge", "absolute"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its name as this project writes it, spellings that handbooks use, and its size in SI.

    A value in the unit is `value * size + zero` in the SI unit of its dimension (zero differs from 0 for °F and °C).
    datum: what a pressure in this unit means where the text does not say. spoken: how it is read aloud, singular and
    plural. source: where the size comes from.
    """

    name: str
    dimension: Dimension
    size: float
    spellings: tuple[str, ...]
    spoken: tuple[str, str]
    source: str
    zero: float = 0.0
    datum: Datum = ""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure with its unit, as printed.

    text: the whole spelling as it stood. value, low, high: in `unit`; low and high differ from value for a tolerance
    ('7 ± 0.5') or a range ('0.05 to 0.6', where value is the middle). datum: gauge or absolute for a pressure.
    """

    text: str
    value: float
    low: float
    high: float
    unit: Unit
    datum: Datum = ""

    @property
    def dimension(self) -> Dimension:
        """What kind of thing is measured."""
        return self.unit.dimension

    @property
    def is_range(self) -> bool:
        """Whether more than one value is meant."""
        return self.low != self.high
