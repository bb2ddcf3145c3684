"""Stretches of recipe for compressed air. Nodes are absolute; what authors give and crews read is above ambient."""

from cutaway.parts.kind import Port, Want
from cutaway.parts.kinds.common import AMBIENT_PRESSURE, JUDGEMENT, SEA_LEVEL, fixed, total
from cutaway.parts.laws.sizing import flow_conductance
from cutaway.parts.recipe import ONE, Across, Const, Element, Expr, apply

CORE = 5_000.0  # Pa: below this difference the flow of air counts as laminar
TEN_POUNDS = 68_947.57  # Pa in 10 lb/sq in: the drop at which cocks and valves for air are rated here
RATED_AT = SEA_LEVEL + 10.0 * TEN_POUNDS  # 100 lb/sq in on the inlet's gauge while that is measured
OUTSIDE = fixed("outside", "air", AMBIENT_PRESSURE)
CAUTION = "Air in a bottle or its pipes is stored energy. Let it off by the approved way before a joint is touched."

INLET = Port("inlet", "air", "west", "in")
OUTLET = Port("outlet", "air", "east", "out")
FLOW = Want(
    "flow",
    "volume flow",
    "Free air that it passes at a drop of 10 lb/sq in, with 100 lb/sq in on its inlet.",
    default="12 cu ft/min",
    between="4 to 40 cu ft/min",
    because=f"{JUDGEMENT} A valve or cock with quarter-inch ways.",
)


def conductance(flow: float, drop: float = TEN_POUNDS, upstream: float = RATED_AT) -> float:
    """The nozzle constant of a passage from the free air that it passes at a drop, m³/s per Pa (as ISO 6358 with a
    critical ratio of 0). flow: m³/s of free air. drop, upstream: Pa, the second absolute."""
    low = max(upstream - drop, 0.0)
    return float(flow / (upstream * upstream - low * low) ** 0.5)


def passage(name: str, ends: tuple[str, str], flow: float, gate: Expr = ONE) -> Element:
    """A way through a cock or a valve for air."""
    return Element(name, "GASROOT", ends, (conductance(flow), CORE), gate=gate)


def valve_constant(flow: float) -> float:
    """The constant of a valve that throttles by the difference of its two pressures, m³/s per √Pa."""
    return flow_conductance(flow, TEN_POUNDS)


def gauge_at(node: str) -> Expr:
    """How far the air at a node is above the air outside, Pa."""
    return apply("sub", Across(node), AMBIENT_PRESSURE)


def setting_of(pressure: float) -> tuple[float, Expr]:
    """A spring's setting above ambient, as the absolute setting at sea level and the factor on it at any height."""
    at_sea_level = pressure + SEA_LEVEL
    return at_sea_level, apply("div", total(Const(pressure), AMBIENT_PRESSURE), at_sea_level)
