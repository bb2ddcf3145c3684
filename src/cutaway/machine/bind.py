"""From a folder's records to the numeric network of one subject, everything in SI."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.records import Folder, Part
from cutaway.machine import names
from cutaway.machine.expressions import renamed, signals_in
from cutaway.machine.fitting import Assumption, fitted
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.subjects import Subject, lines_of, parts_of
from cutaway.machine.wiring import Wiring, ports_of, wire
from cutaway.parts.kind import Fit, Kind
from cutaway.parts.recipe import (
    Across,
    Apply,
    Const,
    Content,
    Element,
    Expr,
    Input,
    Medium,
    Mode,
    ModeIs,
    Node,
    Recipe,
    Signal,
    Through,
)
from cutaway.problems.diagnostic import Diagnostic, Problems

CONDITIONS = (
    InputSlot("height", "condition", 0.0),
    InputSlot("airspeed", "condition", 0.0),
    InputSlot("temperature", "condition", 288.15),
)


@dataclass(frozen=True, slots=True)
class ControlSlot:
    """A control as a machine sees it: its input's name and the value of each named position.

    values: the position's index, or 0..1 for a control that moves through a range.
    """

    part: str
    control: str
    input: str
    positions: tuple[str, ...]
    ranged: bool
    springs_back: bool

    def value(self, position: str) -> float:
        """The input's value for a named position."""
        index = self.positions.index(position)
        return index / (len(self.positions) - 1) if self.ranged and len(self.positions) > 1 else float(index)


@dataclass(frozen=True, slots=True)
class ContentSlot:
    """What `start` may set of a part: the element that holds it, and the most that it can hold, SI (None: no limit)."""

    part: str
    element: str
    dimension: str
    full: float | None


@dataclass(frozen=True, slots=True)
class Piece:
    """What one part brings, with full names."""

    nodes: tuple[Node, ...]
    elements: tuple[Element, ...]
    modes: tuple[Mode, ...]
    signals: tuple[tuple[str, Expr], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Bound:
    """A subject's network, with what is needed to speak of it and to make it again with other values."""

    subject: Subject
    network: Network
    assumptions: tuple[Assumption, ...]
    controls: Mapping[tuple[str, str], ControlSlot]
    contents: Mapping[str, ContentSlot]
    parts: Mapping[str, Part]
    fits: Mapping[str, Fit]
    pieces: Mapping[str, Piece]
    wiring: Wiring
    kinds: Mapping[str, Kind]


def bind(folder: Folder, subject: Subject, kinds: Mapping[str, Kind]) -> tuple[Bound, Problems]:
    """The network of one subject. A part that cannot be made, for want of a figure or a line, is left out of it."""
    fits: dict[str, Fit] = {}
    assumptions: list[Assumption] = []
    parts = parts_of(folder, subject)
    wiring = wire(parts, lines_of(folder, subject), kinds, subject)
    for part in parts:
        kind = kinds[part.kind]
        si, assumed = fitted(part, kind, subject.standard)
        medium = _medium(part, kind, wiring)
        if si is None or (medium is None and any(p.medium is None for p in kind.ports)):
            continue
        coupled = frozenset(name for owner, name in wiring.coupled if owner == part.name)
        fits[part.name] = Fit(si, dict(part.lists), coupled, medium)
        assumptions.extend(assumed)
    here = {str(part.name): part for part in parts if part.name in fits}
    wiring = replace(wiring, coupled={k: v for k, v in wiring.coupled.items() if k[0] in fits and v[0] in fits})
    pieces = {name: make_piece(name, kinds[part.kind], fits[name], wiring) for name, part in here.items()}
    controls = {(c.part, c.control): c for part in here.values() for c in _controls(part, kinds[part.kind])}
    network, problems = assemble(pieces, wiring, _inputs(here, controls, kinds))
    contents = {
        name: _content(name, kinds[part.kind], fits[name]) for name, part in here.items() if kinds[part.kind].contents
    }
    bound = Bound(subject, network, tuple(assumptions), controls, contents, here, fits, pieces, wiring, kinds)
    return bound, problems


def vary_within(bound: Bound, network: Network, values: Mapping[tuple[str, str], float]) -> Network:
    """A network cut from the bound one, with other values, SI, for some (part, quantity); the network itself where
    nothing in it depends on them."""
    changed: dict[str, dict[str, float]] = {}
    for (part, value), si in values.items():
        changed.setdefault(part, {})[value] = si
    elements: dict[str, Element] = {}
    modes: dict[str, Mode] = {}
    signals: dict[str, Expr] = {}
    pieces = dict(bound.pieces)
    for part, new in changed.items():
        fit = replace(bound.fits[part], si={**bound.fits[part].si, **new})
        old, piece = pieces[part], make_piece(part, bound.kinds[bound.parts[part].kind], fit, bound.wiring)
        pieces[part] = piece
        elements.update({e.name: e for e, was in zip(piece.elements, old.elements, strict=True) if e != was})
        modes.update({m.name: m for m, was in zip(piece.modes, old.modes, strict=True) if m != was})
        signals.update({n: e for (n, e), (_, was) in zip(piece.signals, old.signals, strict=True) if e != was})
    nodes = _varied_nodes(bound, network, pieces, changed)
    here = {e.name for e in network.elements} | {m.name for m in network.modes} | {name for name, _ in network.signals}
    if nodes == network.nodes and here.isdisjoint([*elements, *modes, *signals]):
        return network
    return replace(
        network,
        nodes=nodes,
        elements=tuple(elements.get(e.name, e) for e in network.elements),
        modes=tuple(modes.get(m.name, m) for m in network.modes),
        signals=tuple((name, signals.get(name, e)) for name, e in network.signals),
    )


def _varied_nodes(
    bound: Bound, network: Network, pieces: Mapping[str, Piece], changed: Mapping[str, object]
) -> tuple[Node, ...]:
    """The network's nodes once more from the pieces, where a changed part has a say in them."""
    if all(pieces[part].nodes == bound.pieces[part].nodes for part in changed):
        return network.nodes
    merged = _merged_nodes(pieces, bound.wiring)
    return tuple(merged[node.name] for node in network.nodes)


def _merged_nodes(pieces: Mapping[str, Piece], wiring: Wiring) -> dict[str, Node]:
    merged: dict[str, Node] = {name: Node(name, medium) for name, medium in wiring.media.items()}
    for piece in pieces.values():
        for node in piece.nodes:
            merged[node.name] = _merge(merged.get(node.name), node)
    return merged


def _medium(part: Part, kind: Kind, wiring: Wiring) -> Medium | None:
    for name, medium in ports_of(part, kind):
        if medium is None:
            return wiring.media.get(wiring.joined[names.node_name(part.name, name)])
    return None


def _controls(part: Part, kind: Kind) -> tuple[ControlSlot, ...]:
    lists = dict(part.lists)
    return tuple(
        ControlSlot(
            part.name,
            control.name,
            names.control_name(part.name, control.name),
            control.positions + (lists.get(control.each, ()) if control.each else ()),
            control.ranged,
            control.springs_back,
        )
        for control in kind.controls
    )


def _content(name: str, kind: Kind, fit: Fit) -> ContentSlot:
    content = kind.contents[0]
    full = fit.si.get(content.full) if content.full else None
    return ContentSlot(name, names.element_name(name, content.element), content.dimension, full)


def _inputs(
    parts: Mapping[str, Part], controls: Mapping[tuple[str, str], ControlSlot], kinds: Mapping[str, Kind]
) -> tuple[InputSlot, ...]:
    slots = list(CONDITIONS)
    slots.extend(InputSlot(slot.input, "control", 0.0) for slot in controls.values())
    for name, part in parts.items():
        slots.extend(InputSlot(names.failure_name(name, f.name), "failure", 0.0) for f in kinds[part.kind].failures)
    return tuple(slots)


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
                if (part, name) in wiring.coupled:
                    other, port = wiring.coupled[(part, name)]
                    full = names.node_name(other, port)
                else:
                    full = names.node_name(part, name)
                return Across(wiring.joined.get(full, full))
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


def assemble(pieces: Mapping[str, Piece], wiring: Wiring, inputs: tuple[InputSlot, ...]) -> tuple[Network, Problems]:
    """Put the pieces together to one network, its signals in an order in which each uses only earlier ones."""
    merged = _merged_nodes(pieces, wiring)
    owners: dict[str, str] = {name: name.rsplit(".", 1)[0] for name in merged}
    for part, piece in pieces.items():
        owners.update({e.name: part for e in piece.elements})
        owners.update({m.name: part for m in piece.modes})
    signals = {name: e for piece in pieces.values() for name, e in piece.signals}
    signals.update({names.set_name(slot.name): Input(slot.sort, slot.name) for slot in inputs})
    ordered, problems = _in_use_order(signals)
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


def _in_use_order(signals: Mapping[str, Expr]) -> tuple[list[tuple[str, Expr]], Problems]:
    """Each signal after those it uses (depth first); one that ends in itself is left at 0 and told."""
    done: dict[str, Expr] = {}
    open_: list[str] = []
    problems: list[Diagnostic] = []

    def visit(name: str) -> None:
        if name in done:
            return
        if name in open_:
            ring = open_[open_.index(name) :]
            parts = " and ".join(sorted({one.split(":")[0] for one in ring}))
            problems.append(
                Diagnostic(
                    "M203",
                    None,
                    f"{parts} depend on each other at the same instant, so neither can be worked out first.",
                    "Take away one of the couplings between them.",
                )
            )
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
    return list(done.items()), tuple(problems)
