"""The pieces of all parts put together to one network."""

from collections.abc import Mapping

from cutaway.machine import names
from cutaway.machine.expressions import signals_in
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.pieces import Piece
from cutaway.machine.wiring import Wiring
from cutaway.parts.recipe import Const, Expr, Input, Node
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


def assemble(
    pieces: Mapping[str, Piece], wiring: Wiring, inputs: tuple[InputSlot, ...], spans: Mapping[str, Span] | None = None
) -> tuple[Network, Problems]:
    """Put the pieces together to one network, its signals in an order in which each uses only earlier ones.

    spans: where each part was written, for what is wrong with it.
    """
    merged = merged_nodes(pieces, wiring)
    owners: dict[str, str] = {name: wiring.owners.get(name, name.rsplit(".", 1)[0]) for name in merged}
    for part, piece in pieces.items():
        owners.update({n.name: part for n in piece.nodes if n.name not in wiring.owners})
        owners.update({e.name: part for e in piece.elements})
        owners.update({m.name: part for m in piece.modes})
    signals = {name: e for piece in pieces.values() for name, e in piece.signals}
    signals.update({names.set_name(slot.name): Input(slot.sort, slot.name) for slot in inputs})
    ordered, problems = _in_use_order(signals, spans or {})
    network = Network(
        tuple(merged.values()),
        tuple(e for piece in pieces.values() for e in piece.elements),
        tuple(m for piece in pieces.values() for m in piece.modes),
        inputs,
        tuple(ordered),
        tuple(owners.items()),
    )
    return network, problems


def _merge(old: Node | None, new: Node) -> Node:
    if old is None:
        return new
    return Node(
        old.name,
        old.medium,
        old.boundary if old.boundary is not None else new.boundary,
        old.start if old.start is not None else new.start,
        (old.store or 0.0) + (new.store or 0.0) or None,
    )


def _in_use_order(signals: Mapping[str, Expr], spans: Mapping[str, Span]) -> tuple[list[tuple[str, Expr]], Problems]:
    """Each signal after those it uses (depth first); one that ends in itself is left at 0 and told."""
    done: dict[str, Expr] = {}
    open_: list[str] = []
    problems: list[Diagnostic] = []

    def visit(name: str) -> None:
        if name in done:
            return
        if name in open_:
            problems.append(_circle(open_[open_.index(name) :], spans))
            done[name] = Const(0.0)
            return
        open_.append(name)
        for used in signals_in(signals[name]):
            if used in signals:
                visit(used)
        open_.pop()
        done.setdefault(name, signals[name])

    for name in signals:
        visit(name)
    return list(done.items()), tuple(dict.fromkeys(problems))


def _circle(ring: list[str], spans: Mapping[str, Span]) -> Diagnostic:
    parts = sorted({signal.split(":")[0] for signal in ring})
    words = " and ".join(parts)
    what = f"{words} depend on each other" if len(parts) > 1 else f"{words} depends on itself"
    return Diagnostic(
        "M203",
        spans.get(parts[0]),
        f"{what} at the same instant, so that nothing can be worked out first.",
        "Take away one of the couplings between them." if len(parts) > 1 else "Couple it to another part.",
    )


def merged_nodes(pieces: Mapping[str, Piece], wiring: Wiring) -> dict[str, Node]:
    merged: dict[str, Node] = {name: Node(name, medium) for name, medium in wiring.media.items()}
    for piece in pieces.values():
        for node in piece.nodes:
            merged[node.name] = _merge(merged.get(node.name), node)
    return merged
