"""What can do nothing in a network as it is joined: parts without a supply, pumps without an inlet, idle controls.

All of it is read off the network's structure; nothing is run. A first model is full of loose ends, so these are
warnings; an airframe with parts missing has them by right and is not asked.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from cutaway.handbook.ports import ports_of
from cutaway.handbook.records import Part
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.network import elements_at
from cutaway.machine.slicing import Influence
from cutaway.machine.wiring import alone
from cutaway.parts.kinds.common import AMBIENT_PRESSURE
from cutaway.parts.recipe import Const, Element, Medium, Node
from cutaway.problems.diagnostic import Diagnostic

# What can put something into a network by itself. A boundary does too, unless it is the airframe or nothing at all.
GIVERS = frozenset(("TANK", "SOURCE", "ACCUM"))
CARRIED: Mapping[Medium, str] = {"petrol": "petrol", "oil": "oil", "air": "air or suction", "current": "current"}


@dataclass(frozen=True, slots=True)
class LooseEnd:
    """One loose end of one subject. sort: 'unsupplied', 'no inlet' or 'idle'. parts: those concerned, in the order of
    the files. medium: what is missing ('' for a control)."""

    sort: str
    parts: tuple[str, ...]
    medium: str = ""


def loose_ends(bound: Bound) -> tuple[LooseEnd, ...]:
    """All loose ends of a subject's network."""
    islands = _Islands(bound)
    return (*islands.unsupplied(), *islands.without_inlet(), *_idle_controls(bound, islands))


class _Islands:
    """The network cut at its boundaries into stretches that something can flow through, gates open or shut."""

    def __init__(self, bound: Bound) -> None:
        self._bound = bound
        self._nodes: dict[str, Node] = {node.name: node for node in bound.network.nodes}
        self._owner = dict(bound.network.owners)
        self._on = elements_at(bound.network)
        self.apart = set(alone(tuple(bound.parts.values()), bound.kinds, bound.wiring))  # told as such already
        self._sharing: dict[str, set[str]] = defaultdict(set)
        for port, node in bound.wiring.joined.items():
            self._sharing[node].add(bound.wiring.owners[port])

    def unsupplied(self) -> Iterator[LooseEnd]:
        """Parts joined to each other but to nothing that gives what they need."""
        seen: set[str] = set()
        for node in self._nodes.values():
            if node.name in seen or node.boundary is not None or node.medium not in CARRIED:
                continue
            reached = self._reach(node.name, None)
            seen |= reached
            parts = self._parts(reached)
            alone = len(parts) == 1 and not self._never_fed(node, parts[0])
            if parts and not alone and not self._supplied(reached):
                yield LooseEnd("unsupplied", parts, CARRIED[node.medium])

    def _never_fed(self, node: Node, part: str) -> bool:
        """Whether a part takes current at a port that nothing is joined to, and is not told as joined to nothing."""
        takes = any(self._outside(end) for element in self._on[node.name] for end in element.at)
        return node.medium == "current" and takes and part not in self.apart

    def without_inlet(self) -> Iterator[LooseEnd]:
        """Pumps that have nothing to draw from."""
        for element in self._bound.network.elements:
            inlet = element.at[0]
            if element.family != "PDPUMP" or self._nodes[inlet].boundary is not None:
                continue
            owner = self._owner.get(element.name, "")
            if self._nodes[inlet].medium not in ("petrol", "oil") or owner not in self._bound.parts:
                continue
            if not self._sharing.get(inlet):  # inside its part, which lets something in by other ways
                continue
            reached = self._reach(inlet, owner)
            if not self._supplied(reached) and self._parts(self._reach(inlet, None)) != (owner,):
                yield LooseEnd("no inlet", (owner,), CARRIED[self._nodes[inlet].medium])

    def used(self, part: Part) -> bool:
        """Whether anything takes what flows where the part is joined. A line that is not finished yet has no end at
        which anything could be taken, and its cocks are not idle but early."""
        ports = (names.node_name(part.name, p.name) for p in ports_of(part, self._bound.kinds[part.kind]))
        reached = {name for port in ports for name in self._reach(self._bound.wiring.joined[port], None)}
        takers = {self._owner.get(e.name) for name in reached if self._outside(name) for e in self._on[name]}
        stores = {self._owner.get(e.name) for e in self._bound.network.elements if e.family in (*GIVERS, "STORE")}
        return bool(takers - stores)

    def _outside(self, name: str) -> bool:
        return self._nodes[name].boundary is not None and not self._gives(name)

    def _reach(self, start: str, without: str | None) -> set[str]:
        """The free nodes that can be reached from one, and the boundaries beside them; without the elements of a
        part."""
        reached, waiting = set[str](), [start]
        while waiting:
            name = waiting.pop()
            if name in reached:
                continue
            reached.add(name)
            if self._nodes[name].boundary is not None:
                continue
            for element in self._on[name]:
                if without is None or self._owner.get(element.name) != without:
                    waiting.extend(element.at)
        return reached

    def _parts(self, reached: Iterable[str]) -> tuple[str, ...]:
        free = [name for name in reached if self._nodes[name].boundary is None]
        here = {self._owner.get(name, "") for name in free} | {part for name in free for part in self._sharing[name]}
        return tuple(str(name) for name in self._bound.parts if name in here)

    def _supplied(self, reached: Iterable[str]) -> bool:
        return any(self._gives(name) for name in reached)

    def _gives(self, name: str) -> bool:
        node = self._nodes[name]
        if node.boundary is not None:
            # Neither the air outside gives, nor the airframe, nor a pipe's open end; a vacuum pump's inlet does.
            idle = AMBIENT_PRESSURE if node.medium == "air" else Const(0.0)
            return node.boundary != idle
        return any(e.family in GIVERS or _large(e, node) for e in self._on[name])


def _large(element: Element, node: Node) -> bool:
    """Whether a store is one of its part's own (a battery, a bottle)."""
    return element.family == "STORE" and element.at == (node.name,)


def _idle_controls(bound: Bound, islands: _Islands) -> Iterator[LooseEnd]:
    """Controls that can be moved and change nothing: no state or reading hangs on them, or one side of the part is
    joined to nothing. What a rule of movement speaks of is not idle."""
    telling = {
        names.signal_name(name, signal)
        for name, part in bound.parts.items()
        for signal in (
            *(state.signal for state in bound.kinds[part.kind].states),
            *(reading.signal for reading in bound.kinds[part.kind].readings),
        )
    }
    spoken = "\n".join(_rules(part) for part in bound.parts.values()).lower()
    shared = Counter(bound.wiring.joined.values())
    influence = Influence(bound.network)
    for (name, control), slot in bound.controls.items():
        part = bound.parts[name]
        if (
            control or name in islands.apart or name.lower() in spoken
        ):  # one control of several may have been replaced by a coupling
            continue
        moved = influence.of(("input", f"control {slot.input}"))
        seen = any(sort == "signal" and signal in telling for sort, signal in moved)
        if not seen or (_one_sided(part, bound, shared) and islands.used(part)):
            yield LooseEnd("idle", (str(name),))


def _rules(part: Part) -> str:
    """The words of a part's rules."""
    spans = [span for rule in part.rules for span in (rule.only_when, rule.then) if span is not None]
    return "\n".join(span.text for span in spans)


def _one_sided(part: Part, bound: Bound, shared: Counter[str]) -> bool:
    """Whether a part with a way in and a way out has one of them joined to nothing."""
    sides: dict[str, list[bool]] = {}
    for port in ports_of(part, bound.kinds[part.kind]):
        if port.default in ("in", "out"):
            node = bound.wiring.joined[names.node_name(part.name, port.name)]
            sides.setdefault(port.default, []).append(shared[node] > 1)
    return len(sides) == 2 and not all(any(joined) for joined in sides.values())


_TOLD = {"unsupplied": "M111", "no inlet": "M112", "idle": "M113"}


def told(bounds: Sequence[Bound]) -> tuple[Diagnostic, ...]:
    """The loose ends of several subjects as problems, each once, with the subjects on which it is so."""
    found: dict[LooseEnd, list[str]] = {}
    parts: dict[str, Part] = {}
    for bound in bounds:
        parts |= {name: part for name, part in bound.parts.items() if name not in parts}
        for end in loose_ends(bound):
            found.setdefault(end, []).append(str(bound.subject.name))
    everywhere = len(bounds)
    return tuple(_told(end, () if len(on) == everywhere else tuple(on), parts) for end, on in found.items())


def _told(end: LooseEnd, standards: tuple[str, ...], parts: Mapping[str, Part]) -> Diagnostic:
    span = parts[end.parts[0]].span
    also = tuple((parts[name].span, name) for name in end.parts[1:4])
    on = f" (on {', '.join(standards)})" if standards else ""
    code = _TOLD[end.sort]
    if end.sort == "unsupplied":
        listed = ", ".join(f"'{name}'" for name in end.parts[:6]) + (" and others" if len(end.parts) > 6 else "")
        joined = "are joined to each other, but" if len(end.parts) > 1 else "is joined"
        message = f"{listed} {joined} to nothing that gives {end.medium}{on}."
        return Diagnostic(
            code, span, message, f"Write the line that brings them {end.medium}, or leave it for later.", also
        )
    if end.sort == "no inlet":
        message = f"'{end.parts[0]}' has no {end.medium} to draw: its inlet leads to no tank{on}."
        return Diagnostic(code, span, message, f"Write a line that ends in '> {end.parts[0]}'.")
    message = f"Nothing depends on '{end.parts[0]}': wherever it is put, nothing that can be seen changes{on}."
    return Diagnostic(code, span, message, "Join both its sides, or name it where it is meant to act.")
