"""Walking through signal expressions: what they name, and the same expression with other names."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from cutaway.machine.network import Network
from cutaway.parts.recipe import Across, Apply, Const, Content, Expr, Input, ModeIs, Signal, Table, Through


def parts_of_expression(expression: Expr) -> Iterator[Expr]:
    """The expression and all that stand inside it."""
    yield expression
    match expression:
        case Apply(of=inner):
            for one in inner:
                yield from parts_of_expression(one)
        case Table(of=inner_one):
            yield from parts_of_expression(inner_one)
        case Signal(otherwise=other) if other is not None:
            yield from parts_of_expression(other)
        case _:
            pass


def signals_in(expression: Expr) -> Iterator[str]:
    """The names of the signals that the expression uses."""
    for one in parts_of_expression(expression):
        if isinstance(one, Signal):
            yield one.name


def driving(network: Network) -> frozenset[str]:
    """The names of the signals that decide what happens: used by elements, modes or boundaries, or by such signals."""
    expressions = dict(network.signals)
    waiting = [e for element in network.elements for e in (element.gate, element.drive)]
    waiting += [e for mode in network.modes for e in (mode.sets, mode.clears)]
    waiting += [node.boundary for node in network.nodes if node.boundary is not None]
    found: set[str] = set()
    while waiting:
        for name in signals_in(waiting.pop()):
            if name not in found:
                found.add(name)
                waiting.append(expressions[name])
    return frozenset(found)


def renamed(expression: Expr, leaf: Callable[[Expr], Expr]) -> Expr:
    """The expression with `leaf` applied to everything in it that names something."""
    match expression:
        case Apply(of=inner):
            return replace(expression, of=tuple(renamed(one, leaf) for one in inner))
        case Table(of=inner_one):
            return replace(expression, of=renamed(inner_one, leaf))
        case Const():
            return expression
        case Across() | Through() | Content() | Input() | ModeIs() | Signal():
            return leaf(expression)
