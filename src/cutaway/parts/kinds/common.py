"""Small expressions and stretches of recipe that the kinds of every medium share."""

from functools import reduce

from cutaway.parts.recipe import (
    ONE,
    ZERO,
    Across,
    Apply,
    Const,
    Expr,
    Input,
    Medium,
    Mode,
    Node,
    apply,
    failed,
)

JUDGEMENT = "Engineering judgement."
SEA_LEVEL = 101_325.0
CONTROL = Input("control", "")
# What a shaft has that drives something. What only shows a speed has not the second.
TURNS = ("speed", "rate of turn")
AMBIENT_PRESSURE = apply("isa", Input("condition", "height"))


def product(*of: Expr) -> Expr:
    """All of them multiplied."""
    return reduce(lambda a, b: apply("mul", a, b), of)


def total(*of: Expr) -> Expr:
    """All of them added."""
    return reduce(lambda a, b: apply("add", a, b), of)


def least(*of: Expr) -> Expr:
    """The smallest of them: positive only where all are."""
    return reduce(lambda a, b: apply("min", a, b), of)


def most(*of: Expr) -> Expr:
    """The largest of them: positive where any is."""
    return reduce(lambda a, b: apply("max", a, b), of)


def above(value: Expr, limit: Expr | float) -> Apply:
    """1 where the value is above the limit."""
    return apply("gt", value, limit)


def over(value: Expr, limit: Expr | float) -> Apply:
    """How far the value is above the limit: for modes, which locate where it goes through 0."""
    return apply("sub", value, limit)


def under(value: Expr, limit: Expr | float) -> Apply:
    """How far the value is below the limit."""
    return apply("sub", limit, value)


def when(flag: Expr, size: float = 1.0) -> Apply:
    """A flag as a margin: half of `size` when it is so, minus half when not; goes into `least` and `most`."""
    return apply("mul", size, apply("sub", flag, 0.5))


def when_not(flag: Expr, size: float = 1.0) -> Apply:
    """The margin of a flag's not being so."""
    return apply("mul", size, apply("sub", 0.5, flag))


def no(flag: Expr) -> Apply:
    """1 where the flag is 0."""
    return apply("sub", 1.0, flag)


def within_one(value: Expr) -> Expr:
    """The value, kept between 0 and 1."""
    return apply("min", 1.0, apply("max", 0.0, value))


def between_stops(travel: Expr, stroke: float) -> Expr:
    """How far a piston has gone, m. The law's end stops give a little, so that it can be solved; the trade's do not."""
    return apply("min", stroke, apply("max", 0.0, travel))


def at_position(index: int, control: Expr = CONTROL) -> Apply:
    """1 while the control stands at its position of that index."""
    return apply("eq", control, float(index))


def drops_to(share: float, failure: str) -> Apply:
    """A factor that is 1, and `share` when the failure is present."""
    return apply("sub", 1.0, apply("mul", 1.0 - share, failed(failure)))


def fixed(name: str, medium: Medium, value: Expr = ZERO) -> Node:
    """A boundary: outside air, aircraft negative, an open vent."""
    return Node(name, medium, boundary=value)


def port(name: str, medium: Medium) -> Node:
    """A node that lines join to."""
    return Node(name, medium)


def suction_at(node: str) -> Apply:
    """How far the air at a node is below the air outside, Pa."""
    return apply("sub", AMBIENT_PRESSURE, Across(node))


def latch(name: str, value: Expr, sets_above: float, clears_below: float) -> Mode:
    """Set while a value is above one limit, until it falls below another; at the very beginning as it then stands."""
    return Mode(name, over(value, sets_above), under(value, clears_below), started=None)


def either(a: Expr, b: Expr) -> Expr:
    """1 where either flag is 1."""
    return within_one(total(a, b))


NEVER: Expr = Const(-1.0)
ALWAYS: Expr = ONE
