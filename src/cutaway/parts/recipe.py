"""What a part is made of, numerically: nodes, elements, modes and signals, as frozen data in SI.

A kind's `build` returns a `Recipe`. Names inside a recipe are local ('inlet', 'mid'); `machine.bind` puts the part's
name in front ('engine pump.inlet') and joins the ports that lines connect. The kernel sees only these records,
never a trade part.
"""

from dataclasses import dataclass
from typing import Literal

Medium = Literal["petrol", "oil", "air", "current", "heat", "shaft"]

# ---------------------------------------------------------------------------------------------------------------
# Signals: expressions over what is known at the start of a step. True is 1.0 and false is 0.0.


@dataclass(frozen=True, slots=True)
class Const:
    """A number. Lanes may differ in it without differing in structure."""

    value: float


@dataclass(frozen=True, slots=True)
class Across:
    """The across variable of a node: Pa gauge (petrol, oil), Pa absolute (air), V, °C, or rad/s (shaft)."""

    node: str


@dataclass(frozen=True, slots=True)
class Through:
    """The flow into an element at one of its terminals at the end of the last step.

    m³/s (air: free air), A, W, or N·m (shaft).
    """

    element: str
    terminal: int = 0


@dataclass(frozen=True, slots=True)
class Content:
    """What a TANK, STORE or ACCUM element holds: m³ (air: free-air m³), coulomb, J; for a JACK its travel, m."""

    element: str


@dataclass(frozen=True, slots=True)
class Input:
    """Something set from outside and held between changes.

    sort 'control': the position of a control, as its index in the control's positions, or 0..1 for one that moves
    through a range. sort 'condition': a given condition (height m, airspeed m/s, outside temperature K, load factor g).
    sort 'failure': 1 when the named thing has gone wrong, else 0. name is local to the part for controls and
    failures ('' is the part's only control), global for conditions.
    """

    sort: Literal["control", "condition", "failure"]
    name: str


@dataclass(frozen=True, slots=True)
class ModeIs:
    """1 while the named mode is set."""

    mode: str


@dataclass(frozen=True, slots=True)
class Signal:
    """A named signal of this part, or of the part at the other end of a coupling: `of` is the coupling's name.

    Where the coupling was not given by the author, `otherwise` is used.
    """

    name: str
    of: str = ""
    otherwise: "Expr | None" = None


@dataclass(frozen=True, slots=True)
class Apply:
    """An operation on signals.

    op: add sub mul div neg abs min max · lt le gt ge eq · and or not · step (x: 0 below 0, smooth to 1 at 1) ·
    if (condition, then, else) · sqrt · pow · isa (geopotential height m to pressure Pa).
    """

    op: str
    of: tuple["Expr", ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Linear interpolation in a table; held flat beyond its ends. xs rise strictly."""

    of: "Expr"
    xs: tuple[float, ...]
    ys: tuple[float, ...]


Expr = Const | Across | Through | Content | Input | ModeIs | Signal | Apply | Table

ONE = Const(1.0)
ZERO = Const(0.0)


def apply(op: str, *of: "Expr | float") -> Apply:
    """`Apply` with plain numbers allowed among its arguments."""
    return Apply(op, tuple(Const(float(e)) if isinstance(e, (int, float)) else e for e in of))


def failed(name: str) -> Input:
    """1 when this part's failure `name` is present."""
    return Input("failure", name)


def unless(name: str) -> Apply:
    """0 when this part's failure `name` is present, else 1: multiplies a gate or a drive."""
    return apply("sub", 1.0, failed(name))


# ---------------------------------------------------------------------------------------------------------------
# Nodes, elements, modes

Family = Literal[
    "LIN",
    "ROOT",
    "GASROOT",
    "ONEWAY",
    "GASWAY",
    "RELIEF",
    "REDUCE",
    "MAINTAIN",
    "SOURCE",
    "PDPUMP",
    "DRAW",
    "STORE",
    "ACCUM",
    "TANK",
    "JACK",
    "RAM",
    "RATIO",
    "DRAG",
    "ADVECT",
]


@dataclass(frozen=True, slots=True)
class Node:
    """A point with one pressure, voltage or temperature.

    boundary: None for a free node, else the expression that prescribes it (ambient, reservoir, aircraft negative).
    start: across value at the very beginning. The default small store of its medium is added by the machine; a
    recipe says `store` only where it needs more (content per unit of across: m³/Pa, F, J/K).
    """

    name: str
    medium: Medium
    boundary: Expr | None = None
    start: float | None = None
    store: float | None = None


@dataclass(frozen=True, slots=True)
class Element:
    """One numeric element between nodes, with the parameters of its family in the order that the family states.

    gate and drive are signals ≥ 0; content: what a store holds (or where a jack stands) at the very beginning.
    """

    name: str
    family: Family
    at: tuple[str, ...]
    parameters: tuple[float, ...]
    gate: Expr = ONE
    drive: Expr = ONE
    content: float | None = None


@dataclass(frozen=True, slots=True)
class Mode:
    """A memory of one bit: set when `sets` becomes true (> 0), cleared when `clears` does, each at its located time.

    sets, clears: expressions that are true where positive; give differences ('pressure minus limit'), not
    comparisons, so that the moment can be located. delay: how long `sets` must hold before the mode is set, s.
    dwell: least time in a state, s. started: its value at the very beginning (None: whatever `sets` says then).
    called: the name of the delay among the part's quantities, '' where it is none of them.
    """

    name: str
    sets: Expr
    clears: Expr
    delay: float = 0.0
    dwell: float = 0.0
    started: bool | None = False
    called: str = ""


@dataclass(frozen=True, slots=True)
class Recipe:
    """All that a part brings to the network. signals: named expressions that readings, states and other parts use."""

    nodes: tuple[Node, ...] = ()
    elements: tuple[Element, ...] = ()
    modes: tuple[Mode, ...] = ()
    signals: tuple[tuple[str, Expr], ...] = ()
