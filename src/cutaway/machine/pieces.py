"""What one part brings to a network: its kind's recipe with full names, its couplings resolved."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from cutaway.machine import names
from cutaway.machine.expressions import renamed
from cutaway.machine.wiring import Wiring
from cutaway.parts.kind import Fit, Kind
from cutaway.parts.recipe import (
    Across,
    Apply,
    Const,
    Content,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Through,
)


@dataclass(frozen=True, slots=True)
class Piece:
    """What one part brings, with full names."""

    nodes: tuple[Node, ...]
    elements: tuple[Element, ...]
    modes: tuple[Mode, ...]
    signals: tuple[tuple[str, Expr], ...]


def make_piece(part: str, kind: Kind, fit: Fit, wiring: Wiring) -> Piece:
    """One part's recipe with full names: ports by the node they share, couplings by the part they reach."""
    recipe = kind.build(fit)
    leaf = _resolver(part, wiring)

    def node(name: str) -> str:
        full = names.node_name(part, name)
        return wiring.joined.get(full, full)

    nodes = tuple(
        replace(n, name=node(n.name), boundary=renamed(n.boundary, leaf) if n.boundary is not None else None)
        for n in recipe.nodes
    )
    elements = tuple(
        replace(
            e,
            name=names.element_name(part, e.name),
            at=tuple(node(n) for n in e.at),
            gate=renamed(e.gate, leaf),
            drive=renamed(e.drive, leaf),
        )
        for e in recipe.elements
    )
    modes = tuple(
        replace(m, name=names.mode_name(part, m.name), sets=renamed(m.sets, leaf), clears=renamed(m.clears, leaf))
        for m in recipe.modes
    )
    signals = [(names.signal_name(part, name), renamed(e, leaf)) for name, e in recipe.signals]
    signals.extend(_port_signals(part, kind, fit, recipe, leaf))
    return Piece(nodes, elements, modes, tuple(signals))


def _port_signals(
    part: str, kind: Kind, fit: Fit, recipe: Recipe, leaf: Callable[[Expr], Expr]
) -> list[tuple[str, Expr]]:
    out: list[tuple[str, Expr]] = []
    for port in kind.ports:
        for name in fit.lists.get(port.each, ()) if port.each else (port.name,):
            out.append((names.node_name(part, name), renamed(Across(name), leaf)))
            through = tuple(
                Through(element.name, terminal)
                for element in recipe.elements
                for terminal, at in enumerate(element.at)
                if at == name
            )
            flow: Expr = Const(0.0) if not through else through[0]
            for one in through[1:]:
                flow = Apply("add", (flow, one))
            out.append((names.flow_name(part, name), renamed(flow, leaf)))
    return out


def _resolver(part: str, wiring: Wiring) -> Callable[[Expr], Expr]:
    def leaf(expression: Expr) -> Expr:
        match expression:
            case Across(node=name):
                return _across(part, name, wiring)
            case Through(element=name):
                return replace(expression, element=names.element_name(part, name))
            case Content(element=name):
                return Content(names.element_name(part, name))
            case ModeIs(mode=name):
                return ModeIs(names.mode_name(part, name))
            case Input(sort="control", name=name):
                return Input("control", names.control_name(part, name))
            case Input(sort="failure", name=name):
                return Input("failure", names.failure_name(part, name))
            case Signal(name=name, of=""):
                return Signal(names.signal_name(part, name))
            case Signal(name=name, of=coupling, otherwise=otherwise):
                if (part, coupling) in wiring.coupled:
                    return Signal(names.signal_name(wiring.coupled[(part, coupling)][0], name))
                return renamed(otherwise, leaf) if otherwise is not None else Const(0.0)
            case _:
                return expression

    return leaf


def _across(part: str, name: str, wiring: Wiring) -> Expr:
    """What stands at a node of the part, or at the point that a coupling senses; a pipe whose other end is not there
    is open to the air outside, a wire has no voltage."""
    if (part, name) in wiring.left_open:
        outside = Apply("isa", (Input("condition", "height"),))
        return outside if wiring.left_open[(part, name)] == "air" else Const(0.0)
    full = names.node_name(*wiring.coupled.get((part, name), (part, name)))
    return Across(wiring.joined.get(full, full))
