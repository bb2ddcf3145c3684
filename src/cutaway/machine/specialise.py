"""A network with some inputs held for good: what they shut is cut out, so that fewer things can reach a question."""

from collections.abc import Mapping
from dataclasses import replace
from math import inf

from cutaway.machine.kernel_signals import calculated
from cutaway.machine.layout import OPERATIONS
from cutaway.machine.network import Network
from cutaway.parts.recipe import Apply, Const, Element, Expr, Input, Mode, ModeIs, Signal, Table, Through

# Families whose flow is nothing when the gate is 0, and those for which the same is true of the drive.
_GATED = frozenset({"LIN", "ROOT", "GASROOT", "GASWAY", "REDUCE", "MAINTAIN", "PDPUMP", "DRAW", "RATIO", "ADVECT"})
_DRIVEN = frozenset({"PDPUMP", "DRAW", "ADVECT"})
_FLAGS = frozenset({"lt", "le", "gt", "ge", "eq", "and", "or", "not", "step"})


def held_for_good(network: Network, values: Mapping[str, float], from_the_start: bool = False) -> Network:
    """The network with inputs held at values (by name): their effect worked out as far as it is certain, and elements
    that can then pass nothing left out. Good for finding what can reach a signal; not for running, since what an input
    did before it was held is forgotten.

    from_the_start: the inputs never stood anywhere else, so that a mode which cannot be set never was.
    """
    shut: frozenset[str] = frozenset()
    never: frozenset[str] = frozenset()
    known = network
    while True:
        # What has been worked out once is gone on from: it is shorter, and nothing in it becomes less certain.
        known = _worked_out(known, values, shut, never)
        now_shut = shut | {e.name for e in known.elements if passes_nothing(e)}
        now_never = never | {m.name for m in known.modes if is_never_set(m, from_the_start)}
        if now_shut == shut and now_never == never:
            return replace(known, elements=tuple(e for e in known.elements if e.name not in shut))
        shut, never = now_shut, now_never


def _worked_out(network: Network, values: Mapping[str, float], shut: frozenset[str], never: frozenset[str]) -> Network:
    """The network with its expressions worked out, given what is shut and never set so far."""
    known: dict[str, Expr] = {}

    def certain(expression: Expr) -> Expr:
        """As far as it is certain; the very same where nothing of it is."""
        match expression:
            case Apply(op=op, of=inner):
                of = tuple(certain(one) for one in inner)
                same = all(a is b for a, b in zip(of, inner, strict=True))
                if same and not any(isinstance(one, Const) for one in of):
                    return expression
                return applied(op, of)
            case Table(of=inner_one):
                of_one = certain(inner_one)
                return expression if of_one is inner_one else replace(expression, of=of_one)
            case Input(name=name) if name in values:
                return Const(values[name])
            case Through(element=name) if name in shut:
                return Const(0.0)
            case ModeIs(mode=name) if name in never:
                return Const(0.0)
            case Signal(name=name, of="") if isinstance(known.get(name), Const):
                return known[name]
            case _:
                return expression

    for name, expression in network.signals:
        known[name] = certain(expression)
    return replace(
        network,
        nodes=tuple(replace(n, boundary=certain(n.boundary)) if n.boundary else n for n in network.nodes),
        signals=tuple(known.items()),
        elements=tuple(replace(e, gate=certain(e.gate), drive=certain(e.drive)) for e in network.elements),
        modes=tuple(replace(m, sets=certain(m.sets), clears=certain(m.clears)) for m in network.modes),
    )


def passes_nothing(element: Element) -> bool:
    """Whether an element is shut for good."""
    shut = element.family in _GATED and element.gate == Const(0.0)
    return shut or (element.family in _DRIVEN and element.drive == Const(0.0))


def is_never_set(mode: Mode, from_the_start: bool) -> bool:
    """Whether a mode is not set and never will be: nothing can set it, and it began so or is cleared at once."""
    if bounds(mode.sets)[1] > 0.0:
        return False
    cleared = bounds(mode.clears)[0] > 0.0 and mode.dwell == 0.0
    return cleared or (from_the_start and mode.started is not True)


def applied(op: str, of: tuple[Expr, ...]) -> Expr:
    """An operation on what has been folded, worked out as far as it is certain."""
    numbers = [one.value for one in of if isinstance(one, Const)]
    if op in ("mul", "and") and 0.0 in numbers:
        return Const(0.0)
    if op == "or" and any(n > 0.0 for n in numbers):
        return Const(1.0)
    if op == "if" and isinstance(of[0], Const):
        return of[1] if of[0].value > 0.0 else of[2]
    if len(numbers) == len(of):
        a, b, c = (*numbers, 0.0, 0.0)[:3]
        return Const(float(calculated(OPERATIONS[op], a, b, c)))
    return Apply(op, of)


def bounds(expression: Expr) -> tuple[float, float]:
    """Between what an expression always lies, as far as that can be seen from it."""
    match expression:
        case Const(value=value):
            return value, value
        case ModeIs():
            return 0.0, 1.0
        case Table(ys=ys):
            return min(ys), max(ys)
        case Apply(op=op, of=inner):
            return _bounds(op, [bounds(one) for one in inner])
        case _:
            return -inf, inf


def _bounds(op: str, of: list[tuple[float, float]]) -> tuple[float, float]:
    if op in _FLAGS:
        return 0.0, 1.0
    lows, highs = [low for low, _ in of], [high for _, high in of]
    match op:
        case "min":
            return min(lows), min(highs)
        case "max":
            return max(lows), max(highs)
        case "add":
            return sum(lows), sum(highs)
        case "sub":
            return lows[0] - highs[1], highs[0] - lows[1]
        case "neg":
            return -highs[0], -lows[0]
        case "mul" if all(abs(end) < inf for end in (*lows, *highs)):
            ends = [a * b for a in of[0] for b in of[1]]
            return min(ends), max(ends)
        case "if":
            return min(lows[1:]), max(highs[1:])
        case _:
            return -inf, inf
