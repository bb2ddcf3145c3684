"""Figures of several parts that defeat one another: a cut-out above the relief valve, a lamp above the pump's pressure.

Read off the network's structure and the figures; nothing is run. What is assumed counts with the end of its range that
makes the fewest complaints, and pumps in a row count together, so that what is told is so whatever the crew does. Only
what the kinds say of their figures (`levels`) is compared.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from cutaway.handbook.ports import ports_of
from cutaway.handbook.records import Part, given_on
from cutaway.machine import names
from cutaway.machine.bind import Bound
from cutaway.machine.network import elements_at
from cutaway.parts.kind import Level
from cutaway.parts.kinds.common import AMBIENT_PRESSURE
from cutaway.parts.recipe import ONE, Const, Element, Node
from cutaway.problems.diagnostic import Diagnostic
from cutaway.problems.span import Span

# What passes one way only: nothing behind it comes to what is before it.
_FORWARD = frozenset(("ONEWAY", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN", "SOURCE", "PDPUMP", "DRAW"))
_DRIVES = frozenset(("SOURCE", "PDPUMP"))
_SLACK = 1.001
UNSAID = "where nothing is said"


@dataclass(frozen=True, slots=True)
class Meant:
    """A figure of a part and what it means. words: the figure as written."""

    part: str
    level: Level
    words: str


@dataclass(frozen=True, slots=True)
class OutOfReach:
    """A figure that the pressure does not come to, and the figure of another part that keeps it from there."""

    wanted: Meant
    kept: Meant


@dataclass(frozen=True, slots=True)
class _Stands:
    """A figure at its node, with the ends of its range, SI."""

    meant: Meant
    node: str
    low: float
    high: float


def out_of_reach(bound: Bound) -> tuple[OutOfReach, ...]:
    """Every figure of a subject that another defeats, with the one that does so most."""
    net = _Net(bound)
    found = ((one, net.kept_by(one)) for one in net.standing if one.meant.level.sort == "needs")
    return tuple(OutOfReach(one.meant, by) for one, by in found if by is not None)


class _Net:
    """The network as ways by which pressure, or suction, comes to a node."""

    def __init__(self, bound: Bound) -> None:
        self._bound = bound
        self._nodes: dict[str, Node] = {node.name: node for node in bound.network.nodes}
        self._owner = dict(bound.network.owners)
        self._on = elements_at(bound.network)
        self._vessels = self._vented()
        self._ends = {(a.part, a.value): (a.low, a.high) for a in bound.assumptions}
        self.standing = tuple(self._all())
        self._giving: dict[str, list[_Stands]] = defaultdict(list)
        for one in self.standing:
            if one.meant.level.sort == "gives":
                self._giving[one.node].append(one)

    def _vented(self) -> set[str]:
        """The nodes of vented vessels, which stand under no more than their own head whatever is pumped into them."""
        tanks = {e.at[0]: self._owner.get(e.name) for e in self._bound.network.elements if e.family == "TANK"}
        inside = (e for name in tanks for e in self._on[name] if e.family == "LIN" and e.gate == ONE)
        return {end for e in inside if self._owner.get(e.name) in tanks.values() for end in e.at} | set(tanks)

    def _all(self) -> Iterator[_Stands]:
        for name, part in self._bound.parts.items():
            for level in self._bound.kinds[part.kind].levels:
                node = self._node(name, level.at)
                if node is not None and level.quantity in self._bound.fits[name].si:
                    si = self._bound.fits[name].si[level.quantity]
                    low, high = self._ends.get((name, level.quantity), (si, si))
                    meant = Meant(name, level, self._words(part, level))
                    yield _Stands(meant, node, low * level.per, high * level.per)

    def _node(self, part: str, at: str) -> str | None:
        """The node of a port, or of the port that a coupling names; None where the subject has no such."""
        if (part, at) in self._bound.wiring.coupled:
            part, at = self._bound.wiring.coupled[(part, at)]
        return self._bound.wiring.joined.get(names.node_name(part, at))

    def _words(self, part: Part, level: Level) -> str:
        given = given_on(part, level.quantity, self._bound.subject.standard)
        if given is not None:
            return f"{given.quantity.text} ({given.between.text})" if given.between else given.quantity.text
        want = next(want for want in self._bound.kinds[part.kind].wants if want.name == level.quantity)
        return f"{want.default} {UNSAID}"

    # --- what keeps a figure from being reached

    def kept_by(self, wanted: _Stands) -> Meant | None:
        """What keeps the pressure at a figure's node below it, None where nothing is known to."""
        suction = wanted.meant.level.suction
        lower = [
            one
            for one in self.standing
            if one.meant.level.sort in ("holds", "limits")
            and one.meant.part != wanted.meant.part
            and one.meant.level.suction == suction
            and self._keeps(one, wanted)
        ]
        if lower:
            return min(lower, key=lambda one: one.high).meant
        if suction:
            return None
        most = self._most(wanted.node, frozenset())
        if most is None or most[1] is None or wanted.low <= most[0] * _SLACK:
            return None
        return most[1].meant

    def _keeps(self, one: _Stands, wanted: _Stands) -> bool:
        """Whether nothing raises the wanted node but by way of a valve that stands lower."""
        behind = self._behind(one)
        if behind is None or wanted.low <= (one.high + behind) * _SLACK:
            return False
        suction = wanted.meant.level.suction
        if one.meant.level.sort == "holds":
            apart = not self._driven(wanted.node, suction, node=one.node)
        else:
            apart = not self._driven(wanted.node, suction, part=one.meant.part)
        return apart and self._driven(wanted.node, suction)

    def _behind(self, one: _Stands) -> float | None:
        """The pressure into which a valve opens, which comes on top of its setting; None where that is not known."""
        if one.meant.level.sort != "holds" or one.meant.level.suction:
            return 0.0
        valve = next((e for e in self._on[one.node] if self._owner.get(e.name) == one.meant.part), None)
        if valve is None or len(valve.at) < 2:
            return None
        outlet = valve.at[1]
        if outlet in self._vessels or self._nodes[outlet].boundary is not None:
            return 0.0
        if not self._drains(outlet):
            return None
        most = self._most(outlet, frozenset((one.meant.part,)))
        return None if most is None else most[0]

    def _drains(self, start: str) -> bool:
        """Whether what comes there can go on to a vessel or out."""
        reached, waiting = set[str](), [start]
        while waiting:
            name = waiting.pop()
            if name in self._vessels or self._nodes[name].boundary is not None:
                return True
            if name not in reached:
                reached.add(name)
                waiting.extend(
                    end for e in self._on[name] if e.at[0] == name or e.family not in _FORWARD for end in e.at
                )
        return False

    # --- what raises a node

    def _before(self, name: str, suction: bool) -> Iterator[tuple[Element, str]]:
        """The elements through which a node's pressure is raised, or its suction, each with its other end."""
        for element in self._on[name]:
            if len(element.at) < 2 or (element.family in _FORWARD and element.at[0 if suction else 1] != name):
                continue
            yield from ((element, end) for end in element.at[:2] if end != name)

    def _driven(self, start: str, suction: bool, node: str = "", part: str = "") -> bool:
        """Whether a pump or a supply raises a node; not by way of another node, or not through a part."""
        reached, waiting = {node}, [start]
        while waiting:
            name = waiting.pop()
            if name in reached:
                continue
            reached.add(name)
            if self._nodes[name].boundary is not None:
                if self._supplies(self._nodes[name]):
                    return True
                continue
            for element, end in self._before(name, suction):
                if part and self._owner.get(element.name) == part:
                    continue
                if element.family in _DRIVES:
                    return True
                if end not in self._vessels:
                    waiting.append(end)
        return False

    def _supplies(self, node: Node) -> bool:
        """Whether a boundary gives something: not the air outside, nor an open end."""
        return node.boundary != (AMBIENT_PRESSURE if node.medium == "air" else Const(0.0))

    def _most(self, start: str, seen: frozenset[str]) -> tuple[float, _Stands | None] | None:
        """The most that all that feed a node can bring it to, pumps in a row together, and the one that gives most of
        it, if any does; None where one of them says nothing of itself."""
        best: tuple[float, _Stands | None] = 0.0, None
        reached, waiting = set[str](), [start]
        while waiting:
            name = waiting.pop()
            if name in reached:
                continue
            reached.add(name)
            givers = self._giving.get(name, [])
            for giver in givers:
                if giver.meant.part in seen:
                    continue
                total = self._with_inlet(giver, seen)
                if total is None:
                    return None
                if total > best[0]:
                    best = total, giver
            owners = {giver.meant.part for giver in givers}
            if name in self._vessels:
                continue
            if self._nodes[name].boundary is not None:
                if self._supplies(self._nodes[name]):
                    return None
                continue
            for element, end in self._before(name, False):
                if self._owner.get(element.name, "") in owners:
                    continue
                if element.family in _DRIVES:
                    return None
                waiting.append(end)
        return best

    def _with_inlet(self, giver: _Stands, seen: frozenset[str]) -> float | None:
        """What a pump gives together with what comes to its inlet."""
        part = giver.meant.part
        total = giver.high
        medium = self._nodes[giver.node].medium
        for port in ports_of(self._bound.parts[part], self._bound.kinds[self._bound.parts[part].kind]):
            node = self._bound.wiring.joined[names.node_name(part, port.name)]
            if node == giver.node or self._nodes[node].medium != medium:
                continue
            more = self._most(node, seen | {part})
            if more is None:
                return None
            total += more[0]
        return total


def told(bounds: Sequence[Bound]) -> tuple[Diagnostic, ...]:
    """What is out of reach on several subjects, each once, with the subjects on which it is so."""
    found: dict[OutOfReach, list[Bound]] = {}
    for bound in bounds:
        for one in out_of_reach(bound):
            found.setdefault(one, []).append(bound)
    return tuple(_told(one, on, len(on) == len(bounds)) for one, on in found.items())


def _told(one: OutOfReach, on: Sequence[Bound], everywhere: bool) -> Diagnostic:
    wanted, kept = one.wanted, one.kept
    marks = "" if everywhere else f" (on {', '.join(str(bound.subject.name) for bound in on)})"
    parts: Mapping[str, Part] = on[0].parts
    span, other = (_span(parts[m.part], m.level, on[0]) for m in (wanted, kept))
    return Diagnostic(
        "M114",
        span,
        f"'{wanted.part}' {wanted.level.does} {wanted.words}, but '{kept.part}' {kept.level.does} {kept.words}{marks}: "
        f"{wanted.level.never}.",
        _hint(one),
        ((other, f"'{kept.level.quantity}' of {kept.part}:"),),
    )


def _hint(one: OutOfReach) -> str:
    unsaid = next((m for m in (one.wanted, one.kept) if m.words.endswith(UNSAID)), None)
    if unsaid is not None:
        return f"Give {unsaid.part} its {unsaid.level.quantity}, and look whether the two are joined as the book says."
    return "Look whether both figures are as the book has them, and whether the two are joined as it says."


def _span(part: Part, level: Level, bound: Bound) -> Span:
    given = given_on(part, level.quantity, bound.subject.standard)
    return given.span if given is not None else part.span
