"""What a law is as data: the function with the range in which it is true; and the laws of sizing and air as a table."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from cutaway.parts.laws import atmosphere, sizing


@dataclass(frozen=True, slots=True, eq=False)
class Law:
    """A law with its range: for each argument named in `within`, the least and greatest value for which it holds."""

    law: Callable[..., float]
    within: Mapping[str, tuple[float, float]]

    @property
    def name(self) -> str:
        """The function's name."""
        return self.law.__name__


LARGE = float("inf")
_HEIGHTS = (-1_000.0, 20_000.0)

LAWS: tuple[Law, ...] = (
    Law(atmosphere.isa_temperature, {"height": _HEIGHTS}),
    Law(atmosphere.isa_pressure, {"height": _HEIGHTS}),
    Law(atmosphere.isa_density, {"height": _HEIGHTS}),
    Law(sizing.flow_conductance, {"flow": (0.0, LARGE), "drop": (1e-3, LARGE)}),
    Law(sizing.orifice_conductance, {"area": (0.0, LARGE), "density": (1.0, 2_000.0), "coefficient": (0.3, 1.0)}),
    Law(sizing.circle_area, {"diameter": (0.0, LARGE)}),
    Law(sizing.air_conductance, {"flow": (0.0, LARGE), "pressure": (5_000.0, 5e6), "suction": (1.0, 101_325.0)}),
    Law(sizing.displacement_conductance, {"displacement": (0.0, LARGE), "pressure": (5_000.0, 5e6)}),
    Law(sizing.static_head, {"density": (1.0, 2_000.0), "height": (0.0, 20.0)}),
    Law(sizing.vessel_capacitance, {"capacity": (0.0, LARGE), "head": (0.0, LARGE)}),
    Law(sizing.stroke_flow, {"stroke": (0.0, LARGE), "rate": (0.0, 10.0)}),
    Law(sizing.slope_to_stall, {"flow": (0.0, LARGE), "stall": (1.0, LARGE), "share": (1e-3, 1.0)}),
    Law(sizing.load_conductance, {"current": (0.0, LARGE), "voltage": (1e-3, LARGE)}),
    Law(sizing.filament_conductance, {"current": (0.0, LARGE), "voltage": (1e-3, LARGE)}),
    Law(sizing.battery_voltage, {"share": (0.0, 1.0), "nominal": (1.0, 200.0)}),
    Law(sizing.stop_stiffness, {"area": (0.0, LARGE), "pressure": (0.0, LARGE), "give": (1e-6, LARGE)}),
)
