"""From a folder's records to the numeric network of one subject, everything in SI."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from cutaway.handbook.ports import ports_of
from cutaway.handbook.records import Folder, Part, parts_on
from cutaway.machine import names
from cutaway.machine.assembling import assemble, merged_nodes
from cutaway.machine.fitting import Assumption, fitted, fitted_tables
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.pieces import Piece, make_piece
from cutaway.machine.slicing import cone
from cutaway.machine.subjects import Subject, lines_of, parts_of
from cutaway.machine.wiring import Wiring, wire
from cutaway.parts.kind import Fit, Kind
from cutaway.parts.recipe import Medium, Node
from cutaway.problems.diagnostic import Problems

__all__ = ["CONDITIONS", "Bound", "ContentSlot", "ControlSlot", "assemble", "bind", "make_piece", "vary_within"]

CONDITIONS = (
    InputSlot("height", "condition", 0.0),
    InputSlot("airspeed", "condition", 0.0),
    InputSlot("temperature", "condition", 288.15),
    InputSlot("load factor", "condition", 1.0),
)


@dataclass(frozen=True, slots=True)
class ControlSlot:
    """A control as a machine sees it: its input's name and the value of each named position.

    values: the position's index, or 0..1 for a control that moves through a range. points: where the named positions
    of such a control stand, evenly where it is empty.
    """

    part: str
    control: str
    input: str
    positions: tuple[str, ...]
    ranged: bool
    springs_back: bool
    points: tuple[float, ...] = ()

    @property
    def spoken(self) -> str:
        """What it is called: 'engine starter', or by its part's name alone where that has one control."""
        return f"{self.part} {self.control}".strip()

    def value(self, position: str) -> float:
        """The input's value for a named position."""
        index = self.positions.index(position)
        if self.points:
            return self.points[index]
        return index / (len(self.positions) - 1) if self.ranged and len(self.positions) > 1 else float(index)


@dataclass(frozen=True, slots=True)
class ContentSlot:
    """What `start` may set of a part: the element that holds it, and the most that can be set, SI (None: no limit).

    held: the element's content for what is set.
    """

    part: str
    element: str
    dimension: str
    full: float | None
    held: Callable[[float], float] = float


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
    parts = parts_of(folder, subject)
    wiring = wire(parts, lines_of(folder, subject), kinds, subject)
    here, figures, assumptions = _makeable(parts, kinds, wiring, subject)
    wiring = _between(wiring, here, kinds, parts_on(folder, subject.standard), subject)
    fits = {name: _fit(part, kinds[part.kind], figures[name], wiring, subject) for name, part in here.items()}
    pieces = {name: make_piece(name, kinds[part.kind], fits[name], wiring) for name, part in here.items()}
    controls = {(c.part, c.control): c for part in here.values() for c in _controls(part, kinds[part.kind])}
    spans = {name: part.span for name, part in here.items()}
    network, problems = assemble(pieces, wiring, _inputs(here, controls, kinds), spans)
    contents = {
        name: _content(name, kinds[part.kind], fits[name]) for name, part in here.items() if kinds[part.kind].contents
    }
    return Bound(subject, network, assumptions, controls, contents, here, fits, pieces, wiring, kinds), problems


def _fit(part: Part, kind: Kind, figures: dict[str, float], wiring: Wiring, subject: Subject) -> Fit:
    coupled = _couplings(part.name, wiring)
    tables = fitted_tables(part, kind, subject.standard)
    return Fit(figures, dict(part.lists), coupled, _medium(part, kind, wiring), tables)


def _makeable(
    parts: Sequence[Part], kinds: Mapping[str, Kind], wiring: Wiring, subject: Subject
) -> tuple[dict[str, Part], dict[str, dict[str, float]], tuple[Assumption, ...]]:
    """The parts that have all their figures and whose ports have a medium, with their figures in SI."""
    here: dict[str, Part] = {}
    figures: dict[str, dict[str, float]] = {}
    assumptions: list[Assumption] = []
    for part in parts:
        kind = kinds[part.kind]
        si, assumed = fitted(part, kind, subject.standard)
        joined = _medium(part, kind, wiring) is not None or all(p.medium is not None for p in kind.ports)
        if si is not None and joined:
            here[part.name], figures[part.name] = part, si
            assumptions.extend(assumed)
    return here, figures, tuple(assumptions)


def _between(
    wiring: Wiring, here: Mapping[str, Part], kinds: Mapping[str, Kind], everyone: Sequence[Part], subject: Subject
) -> Wiring:
    """The wiring with the couplings whose both ends are there; what should sense a point that is not is left open."""
    coupled = {k: v for k, v in wiring.coupled.items() if k[0] in here and v[0] in here}
    media = {(str(part.name), p.name): p.medium for part in everyone for p in ports_of(part, kinds[part.kind])}
    left_open: dict[tuple[str, str], Medium | None] = {}
    for name, part in here.items():
        links = {link.name: link for link in part.links if subject.standard in link.on.names}
        for coupling in kinds[part.kind].couplings:
            if coupling.to == "node" and (name, coupling.name) not in coupled:
                link = links.get(coupling.name)
                left_open[(name, coupling.name)] = media.get((link.target.part, link.target.inner)) if link else None
    return replace(wiring, coupled=coupled, left_open=left_open)


def _couplings(part: str, wiring: Wiring) -> frozenset[str]:
    return frozenset(name for owner, name in wiring.coupled if owner == part)


def vary_within(
    bound: Bound, network: Network, values: Mapping[tuple[str, str], float], signals: frozenset[str]
) -> Network:
    """The cone of some signals, cut from the bound network, with other values, SI, for some (part, quantity); the
    network itself where nothing in it depends on them."""
    changed: dict[str, dict[str, float]] = {}
    for (part, value), si in values.items():
        changed.setdefault(part, {})[value] = si
    new = {part: _piece_with(bound, part, si) for part, si in changed.items()}
    if any(_names(piece) != _names(bound.pieces[part]) for part, piece in new.items()):
        whole, _ = assemble({**bound.pieces, **new}, bound.wiring, bound.network.inputs, {})
        return cone(replace(whole, nodes=_by_hand(bound, whole.nodes)), signals)
    elements = {e.name: e for part, p in new.items() for e in _other(p.elements, bound.pieces[part].elements)}
    modes = {m.name: m for part, p in new.items() for m in _other(p.modes, bound.pieces[part].modes)}
    expressions = dict(s for part, p in new.items() for s in _other(p.signals, bound.pieces[part].signals))
    nodes = _varied_nodes(bound, network, new)
    here = {e.name for e in network.elements} | {m.name for m in network.modes} | {name for name, _ in network.signals}
    if nodes == network.nodes and here.isdisjoint([*elements, *modes, *expressions]):
        return network
    return replace(
        network,
        nodes=nodes,
        elements=tuple(elements.get(e.name, e) for e in network.elements),
        modes=tuple(modes.get(m.name, m) for m in network.modes),
        signals=tuple((name, expressions.get(name, e)) for name, e in network.signals),
    )


def _piece_with(bound: Bound, part: str, values: Mapping[str, float]) -> Piece:
    fit = replace(bound.fits[part], si={**bound.fits[part].si, **values})
    return make_piece(part, bound.kinds[bound.parts[part].kind], fit, bound.wiring)


def _names(piece: Piece) -> tuple[tuple[str, ...], ...]:
    """What a piece is made of, whatever the figures in it."""
    things = (piece.nodes, piece.elements, piece.modes)
    return (*(tuple(thing.name for thing in group) for group in things), tuple(name for name, _ in piece.signals))


T = TypeVar("T")


def _other(new: Sequence[T], old: Sequence[T]) -> list[T]:
    return [one for one, was in zip(new, old, strict=True) if one != was]


def _varied_nodes(bound: Bound, network: Network, new: Mapping[str, Piece]) -> tuple[Node, ...]:
    """The network's nodes once more from the pieces, where a changed part has a say in them."""
    if all(piece.nodes == bound.pieces[part].nodes for part, piece in new.items()):
        return network.nodes
    merged = merged_nodes({**bound.pieces, **new}, bound.wiring)
    return _by_hand(bound, tuple(merged[node.name] for node in network.nodes))


def _by_hand(bound: Bound, nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Nodes made anew, those that a test bench holds still held."""
    made = merged_nodes(bound.pieces, bound.wiring)
    held = {n.name: n.boundary for n in bound.network.nodes if n.boundary != made[n.name].boundary}
    return tuple(replace(n, boundary=held[n.name]) if n.name in held else n for n in nodes)


def _medium(part: Part, kind: Kind, wiring: Wiring) -> Medium | None:
    for port in ports_of(part, kind):
        if port.medium is None:
            return wiring.media.get(wiring.joined[names.node_name(part.name, port.name)])
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
            control.points,
        )
        for control in kind.controls
    )


def _content(name: str, kind: Kind, fit: Fit) -> ContentSlot:
    content = kind.contents[0]
    full = fit.si.get(content.full) if content.full else None
    element, held_at = names.element_name(name, content.element), content.held_at
    if held_at is None:
        return ContentSlot(name, element, content.dimension, full)
    return ContentSlot(name, element, content.dimension, full, lambda level: held_at(level, fit.si))


def _inputs(
    parts: Mapping[str, Part], controls: Mapping[tuple[str, str], ControlSlot], kinds: Mapping[str, Kind]
) -> tuple[InputSlot, ...]:
    slots = list(CONDITIONS)
    slots.extend(InputSlot(slot.input, "control", 0.0) for slot in controls.values())
    for name, part in parts.items():
        slots.extend(InputSlot(names.failure_name(name, f.name), "failure", 0.0) for f in kinds[part.kind].failures)
    return tuple(slots)
