"""What an expression owes its value to: the leaves that decide, each with the direction in which it matters."""

from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.inquiry.questions.watched import Watched
from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.recipe import Across, Apply, Const, Content, Expr, Input, ModeIs, Signal, Table, Through

NOUGHT = 1e-9


@dataclass(frozen=True, slots=True)
class Leaf:
    """One thing that an expression's value comes from. high: whether it is asked why it is as much as it is (or so),
    rather than why no more (or not so)."""

    of: Expr
    high: bool


@dataclass(frozen=True, slots=True)
class Limit:
    """A value against a limit. above: whether it is above it."""

    of: Expr
    limit: Expr
    above: bool


def deciding(watched: Watched, expression: Expr, high: bool) -> Iterator[Leaf | Limit]:
    """The leaves and comparisons to which an expression owes that it is as high, or as low, as it is."""
    match expression:
        case Const():
            return
        case Apply(op=op, of=of):
            yield from _of_operation(watched, op, of, high)
        case Table(of=of, ys=ys):
            yield from deciding(watched, of, high == (ys[-1] >= ys[0]))
        case _:
            yield Leaf(expression, high)


def _of_operation(watched: Watched, op: str, of: tuple[Expr, ...], high: bool) -> Iterator[Leaf | Limit]:
    if op in ("mul", "and", "min"):
        yield from _all(watched, of if high else _culprits(watched, op, of), high)
    elif op in ("add", "or", "max"):
        yield from _all(watched, _givers(watched, op, of) if high else of, high)
    elif op in ("sub", "gt", "ge", "lt", "le"):
        a, b = of if op in ("sub", "gt", "ge") else (of[1], of[0])
        yield from _difference(watched, a, b, high)
    elif op == "eq":
        yield from _all(watched, of, high)
    elif op in ("not", "neg"):
        yield from deciding(watched, of[0], not high)
    elif op == "if":
        so = watched.value(of[0]) > 0.0
        yield from deciding(watched, of[0], so)
        yield from deciding(watched, of[1] if so else of[2], high)
    elif op == "div":
        yield from deciding(watched, of[0], high)
        yield from deciding(watched, of[1], not high)
    else:  # step, sqrt, pow, abs: they rise with what is first in them
        yield from deciding(watched, of[0], high)


def _all(watched: Watched, of: tuple[Expr, ...], high: bool) -> Iterator[Leaf | Limit]:
    for one in of:
        yield from deciding(watched, one, high)


def _culprits(watched: Watched, op: str, of: tuple[Expr, ...]) -> tuple[Expr, ...]:
    """Of factors or margins those that bring the whole down; all where none is nought."""
    values = [watched.value(one) for one in of]
    down = tuple(one for one, value in zip(of, values, strict=True) if value <= NOUGHT)
    if down:
        # What is nought for good needs no other reason.
        return () if any(isinstance(one, Const) for one in down) else down
    return (of[values.index(min(values))],) if op == "min" else of


def _givers(watched: Watched, op: str, of: tuple[Expr, ...]) -> tuple[Expr, ...]:
    """Of summands or choices those that bring the whole up; all where none does."""
    values = [watched.value(one) for one in of]
    if op == "max":
        return (of[values.index(max(values))],)
    return tuple(one for one, value in zip(of, values, strict=True) if value > NOUGHT) or of


def _difference(watched: Watched, a: Expr, b: Expr, high: bool) -> Iterator[Leaf | Limit]:
    """'a is more than b'. Of two flags, or a flag and a number, only the flags; else a value against its limit. How far
    a thing is above the air outside is no limit to it."""
    if is_outside(a) or is_outside(b):
        yield from deciding(watched, a, high)
        yield from deciding(watched, b, not high)
    elif is_measured(watched, a) and not is_measured(watched, b):
        yield Limit(a, b, watched.value(a) > watched.value(b))
    elif is_measured(watched, b) and not is_measured(watched, a):
        yield Limit(b, a, watched.value(b) > watched.value(a))
    else:
        yield from deciding(watched, a, high)
        yield from deciding(watched, b, not high)


def is_outside(expression: Expr) -> bool:
    """Whether an expression is of the world outside alone: the air's pressure, its warmth."""
    leaves = [one for one in parts_of_expression(expression) if isinstance(one, Across | Through | Content | Signal)]
    return not leaves and any(
        isinstance(one, Input) and one.sort == "condition" for one in parts_of_expression(expression)
    )


def is_measured(watched: Watched, expression: Expr) -> bool:
    """Whether an expression is of something that is measured, rather than of what is so or not so, or a number."""
    for one in parts_of_expression(expression):
        match one:
            case Across() | Through() | Content():
                return True
            case Signal(name=name) if is_measured(watched, watched.signals[name]):
                return not _is_flag(watched.signals[name])
            case _:
                pass
    return False


def _is_flag(expression: Expr) -> bool:
    """Whether an expression is one that is so or not so."""
    match expression:
        case Apply(op="gt" | "ge" | "lt" | "le" | "eq" | "and" | "or" | "not"):
            return True
        case Apply(op="mul", of=of):
            return any(_is_flag(one) for one in of)
        case ModeIs() | Input():
            return True
        case _:
            return False
