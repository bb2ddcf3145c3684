"""A network with some inputs held for good: what they shut is cut out, so that fewer things can reach a question."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.machine.expressions import renamed
from cutaway.machine.kernel_signals import calculated
from cutaway.machine.layout import OPERATIONS
from cutaway.machine.network import Network
from cutaway.parts.recipe import Apply, Const, Element, Expr, Input, Signal, Table

# Families whose flow is nothing when the gate is 0, and those for which the same is true of the drive.
_GATED = frozenset({"LIN", "ROOT", "GASROOT", "GASWAY", "REDUCE", "MAINTAIN", "PDPUMP", "DRAW", "RATIO", "ADVECT"})
_DRIVEN = frozenset({"PDPUMP", "DRAW", "ADVECT"})


def held_for_good(network: Network, values: Mapping[str, float]) -> Network:
    """The network with inputs held at values (by name): their effect worked out as far as it is certain, and elements
    that can then pass nothing left out. Good for finding what can reach a signal; not for running, since what an input
    did before it was held is forgotten."""
    known: dict[str, Expr] = {}

    def leaf(expression: Expr) -> Expr:
        match expression:
            case Input(name=name) if name in values:
                return Const(values[name])
            case Signal(name=name, of="") if isinstance(known.get(name), Const):
                return known[name]
            case _:
                return expression

    signals: list[tuple[str, Expr]] = []
    for name, expression in network.signals:
        known[name] = folded(renamed(expression, leaf))
        signals.append((name, known[name]))
    elements = tuple(
        replace(e, gate=folded(renamed(e.gate, leaf)), drive=folded(renamed(e.drive, leaf))) for e in network.elements
    )
    return replace(
        network,
        signals=tuple(signals),
        elements=tuple(e for e in elements if not passes_nothing(e)),
        modes=tuple(
            replace(m, sets=folded(renamed(m.sets, leaf)), clears=folded(renamed(m.clears, leaf)))
            for m in network.modes
        ),
    )


def passes_nothing(element: Element) -> bool:
    """Whether an element is shut for good."""
    shut = element.family in _GATED and element.gate == Const(0.0)
    return shut or (element.family in _DRIVEN and element.drive == Const(0.0))


def folded(expression: Expr) -> Expr:
    """The expression with what is certain worked out: constants, nothing times anything, no and anything."""
    match expression:
        case Apply(op=op, of=inner):
            of = tuple(folded(one) for one in inner)
            return _applied(op, of)
        case Table(of=inner_one):
            return replace(expression, of=folded(inner_one))
        case _:
            return expression


def _applied(op: str, of: tuple[Expr, ...]) -> Expr:
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
