"""Recipes that petrol and oil parts share: vessels, cocks, pumps, valves. The liquid's own figures are here, once."""

from dataclasses import dataclass

from cutaway.parts.kinds.common import at_position, drops_to, fixed, latch, over, port, product, under
from cutaway.parts.laws.sizing import (
    circle_area,
    flow_conductance,
    orifice_conductance,
    slope_to_stall,
    static_head,
    stroke_flow,
    vessel_capacitance,
)
from cutaway.parts.recipe import (
    ONE,
    ZERO,
    Across,
    Const,
    Content,
    Element,
    Expr,
    Medium,
    Mode,
    ModeIs,
    Node,
    Recipe,
    apply,
    failed,
    unless,
)


@dataclass(frozen=True, slots=True)
class Liquid:
    """A liquid as its parts need it, SI.

    core: pressure difference below which flow counts as laminar. crack: what opens a non-return valve. cavitates,
    recovers: gauge pressures at a pump's inlet at which it gives nothing, and from which it gives all.
    """

    medium: Medium
    density: float
    core: float
    crack: float
    cavitates: float
    recovers: float


PETROL = Liquid("petrol", 720.0, 200.0, 100.0, -6_000.0, -2_000.0)
OIL = Liquid("oil", 870.0, 5_000.0, 30_000.0, -50_000.0, -20_000.0)

EMPTY_BELOW, EMPTY_UNTIL = 0.01, 0.02


def vessel(liquid: Liquid, capacity: float, head: float, at: str, name: str) -> Element:
    """What holds a liquid under its own head; full at the very beginning."""
    full = static_head(liquid.density, head)
    # Sucked below empty, a vessel must answer with a steep fall, or a pump could draw on for ever.
    toe, foot = 0.02 * full, 1e-4 * capacity / full
    slope = vessel_capacitance(capacity, full, toe, foot)
    return Element(name, "TANK", (at,), (slope, toe, foot), content=capacity)


def contents_of(element: str) -> Expr:
    """What a vessel holds; the trace that is drawn from below empty counts as nothing."""
    return apply("max", 0.0, Content(element))


def empty_mode(element: str, capacity: float) -> Mode:
    """Set when hardly anything is left, cleared when a little more has come back."""
    left = apply("sub", 0.0, Content(element))
    return latch("empty", left, -EMPTY_BELOW * capacity, -EMPTY_UNTIL * capacity)


def vessel_signals(element: str, capacity: float) -> tuple[tuple[str, Expr], ...]:
    """What a vessel tells others: contents, capacity, empty."""
    return (("contents", contents_of(element)), ("capacity", Const(capacity)), ("empty", ModeIs("empty")))


def hole(liquid: Liquid, at: str, diameter: float, failure: str) -> tuple[Element, Node]:
    """A hole to the open air that is there when the failure is."""
    conductance = orifice_conductance(circle_area(diameter), liquid.density, 0.6)
    open_air = fixed("open air", liquid.medium)
    return Element("hole", "ROOT", (at, open_air.name), (conductance, liquid.core), gate=failed(failure)), open_air


def way(liquid: Liquid, name: str, ends: tuple[str, str], flow: float, drop: float, gate: Expr = ONE) -> Element:
    """A passage that loses `drop` at `flow`, in either direction."""
    return Element(name, "ROOT", ends, (flow_conductance(flow, drop), liquid.core), gate=gate)


def one_way(liquid: Liquid, name: str, ends: tuple[str, str], flow: float, drop: float, gate: Expr = ONE) -> Element:
    """A passage with a flap that shuts behind the flow."""
    parameters = (flow_conductance(flow, drop), liquid.core, liquid.crack, 0.0)
    return Element(name, "ONEWAY", ends, parameters, gate=gate)


def pump(
    liquid: Liquid, name: str, ends: tuple[str, str], delivery: float, stall: float, share: float, drive: Expr
) -> Element:
    """A pump that gives its delivery until near its stall pressure, and nothing where its inlet is starved."""
    slope = slope_to_stall(delivery, stall, share)
    starved = (liquid.cavitates, liquid.recovers - liquid.cavitates)
    return Element(name, "PDPUMP", ends, (stall, slope, delivery, *starved, 0.01 * delivery), drive=drive)


def relief(
    liquid: Liquid, name: str, ends: tuple[str, str], opens: float, band: float, flow: float, spring: Expr = ONE
) -> Element:
    """A valve that begins to open at `opens`, times the strength of its spring, and passes `flow` once wide open."""
    conductance = flow_conductance(flow, opens + band)
    return Element(name, "RELIEF", ends, (conductance, liquid.core, opens, band), drive=spring)


def hand_pump(liquid: Liquid, stroke: float, rate: float, stall: float) -> Recipe:
    """A pump worked by a lever. At rest its own two valves let liquid pass forwards, never back."""
    delivery = stroke_flow(stroke, rate)
    working = at_position(1)
    drive = product(working, drops_to(0.3, "leaking washer"))
    ends = ("inlet", "outlet")
    elements = (
        pump(liquid, "piston", ends, delivery, stall, 0.2, drive),
        one_way(liquid, "valves", ends, 2.0 * delivery, 0.02 * stall),
    )
    nodes = (port("inlet", liquid.medium), port("outlet", liquid.medium))
    return Recipe(nodes, elements, signals=(("working", working),))


def relief_recipe(liquid: Liquid, elements: tuple[Element, ...], opens: Expr, held_open: Expr = ZERO) -> Recipe:
    """A relief valve by itself: its elements, and the state of being open at the pressure difference `opens`."""
    difference = apply("sub", Across("inlet"), Across("outlet"))
    nearly = apply("mul", 0.99, opens)
    opened = Mode("open", over(difference, opens), under(difference, nearly), started=None)
    nodes = (port("inlet", liquid.medium), port("outlet", liquid.medium))
    return Recipe(nodes, elements, (opened,), (("open", apply("max", ModeIs("open"), held_open)),))


def non_return_valve(liquid: Liquid, flow: float, drop: float) -> Recipe:
    """A non-return valve; stuck open it passes both ways."""
    ends = ("inlet", "outlet")
    elements = (
        one_way(liquid, "flap", ends, flow, drop, gate=unless("stuck open")),
        way(liquid, "held open", ends, flow, drop, gate=failed("stuck open")),
    )
    nodes = (port("inlet", liquid.medium), port("outlet", liquid.medium))
    return Recipe(nodes, elements)
