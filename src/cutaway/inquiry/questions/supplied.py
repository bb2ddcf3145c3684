"""The way from a supply to a point: which elements the flow comes by, or which shut ones stand nearest in its way."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush

from cutaway.inquiry.questions.watched import Watched, is_shut
from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.laws.atmosphere import isa_pressure
from cutaway.parts.recipe import Across, Const, Content, Element, Input, Node, Through

# Elements that pass only from their first end to their second, and those in which something is held.
ONE_WAY = frozenset({"ONEWAY", "GASWAY", "RELIEF", "PDPUMP", "SOURCE", "REDUCE", "MAINTAIN", "DRAW"})
STORES = frozenset({"STORE", "TANK", "ACCUM"})
LONGEST = 40
# A pressure so near to that of the air outside is no suction and no pressure, as a share of it.
NEAR = 0.01
# A pump that is turned by less than this, as a share of its rated speed, may itself be why too little comes by an open
# way: a choice of ours.
PUMPS = 0.25
# What a tank holds that is as good as empty, m³: a cubic centimetre.
DRY = 1e-6


@dataclass(frozen=True, slots=True)
class Way:
    """elements: those of a way, from the point to the supply. end: the store element or boundary node that supplies.
    shut: those of them that pass nothing."""

    elements: tuple[Element, ...]
    end: str
    shut: tuple[Element, ...]


class Ways:
    """The elements on each point of a network, once for many questions."""

    def __init__(self, watched: Watched) -> None:
        self.watched = watched
        self.nodes = {node.name: node for node in watched.network.nodes}
        self.on: dict[str, list[Element]] = defaultdict(list)
        for element in watched.network.elements:
            for at in dict.fromkeys(element.at):
                self.on[at].append(element)
        # What a jack's own lock holds back supplies nothing.
        moving = {watched.owners.get(e.name) for e in watched.network.elements if e.family in ("JACK", "RAM")}
        held = (e for e in watched.network.elements if e.family in STORES)
        self.stores = {e.name for e in held if watched.owners.get(e.name) not in moving}

    def outside(self) -> float:
        """The pressure of the air outside, Pa."""
        height = Input("condition", "height")
        return isa_pressure(self.watched.values.get(height, 0.0))

    def drawn(self, node: str) -> bool:
        """Whether what matters at a point is suction: air at less than the pressure outside, or such a pipe."""
        if self.nodes[node].medium != "air":
            return False
        low = self.watched.value(Across(node)) < self.outside() * (1.0 - NEAR)
        return low or self._reaches_nothing(node)

    def _reaches_nothing(self, node: str) -> bool:
        """Whether a pipe leads, open or shut, to what draws air, and to no store or source of pressure."""
        way = self.nearest(node, drawn=True)
        return way is not None and self.nearest(node, drawn=False) is None

    def fed(self, node: str, drawn: bool) -> Way | None:
        """The way that most of the flow comes by (or, of air drawn, goes by); where nothing flows, the nearest open
        way. None where there is neither."""
        found: list[Element] = []
        at, seen = node, {node}
        while len(found) < LONGEST:
            step = self._most(at, drawn)
            if step is None:
                break
            element, other = step
            found.append(element)
            if other is None:
                return Way(tuple(found), element.name, ())
            if self._supplies(other, drawn):
                return Way(tuple(found), other, ())
            if other in seen:
                break
            seen.add(other)
            at = other
        way = self.nearest(node, drawn)
        return way if way is not None and not way.shut else None

    def _most(self, node: str, drawn: bool) -> tuple[Element, str | None] | None:
        """The element by which most comes to a point, and the point at its other end, None for a store."""
        best: tuple[float, Element, str | None] | None = None
        for element in self.on[node]:
            terminal = element.at.index(node)
            comes = -self.watched.values[Through(element.name, terminal)] * (-1.0 if drawn else 1.0)
            other = next((at for at in element.at if at != node), None)
            if comes > 1e-12 and (best is None or comes > best[0]) and (other or element.name in self.stores):
                best = (comes, element, other)
        return best[1:] if best is not None else None

    def nearest(
        self, node: str, drawn: bool, beyond: frozenset[str] = frozenset(), without: frozenset[str] = frozenset()
    ) -> Way | None:
        """The way to a supply with the fewest shut elements in it, of these the shortest. beyond: stores that are asked
        what would fill them, a compressor, say, and are no supply themselves. without: supplies that are passed over,
        by the name of their part."""
        best = {node: (0, 0)}
        before: dict[str, tuple[Element, str]] = {}
        waiting: list[tuple[int, int, str]] = [(0, 0, node)]
        while waiting:
            shut, length, at = heappop(waiting)
            if (shut, length) > best[at]:
                continue
            if beyond and at != node and self._compressed_into(before[at][0], at):
                return self._back(before, node, at, before[at][0].name)
            store = self._store_at(at, beyond) if not drawn else None
            end = store.name if store is not None else at
            if (store is not None or (at != node and self._supplies(at, drawn))) and self._owner(end) not in without:
                return self._back(before, node, at, end)
            if self.nodes[at].boundary is not None:
                continue
            for element, other in self._upstream(at, drawn):
                cost = (shut + self._hindrance(element), length + 1)
                if cost < best.get(other, (LONGEST, LONGEST)):
                    best[other], before[other] = cost, (element, at)
                    heappush(waiting, (*cost, other))
        return None

    def _owner(self, name: str) -> str:
        return self.watched.owners.get(name, name.split(".")[0])

    def _hindrance(self, element: Element) -> int:
        """How much an element stands in the way: nothing where it passes; a control that can be moved less than a part
        that would first have to run or pull in."""
        if not is_shut(self.watched, element):
            return 0
        return 2 if any(isinstance(one, Input) for one in parts_of_expression(element.gate)) else 3

    def _back(self, before: dict[str, tuple[Element, str]], start: str, at: str, end: str) -> Way:
        found: list[Element] = []
        while at != start:
            element, at = before[at]
            found.append(element)
        found.reverse()
        return Way(tuple(found), end, tuple(e for e in found if is_shut(self.watched, e)))

    def _upstream(self, node: str, drawn: bool) -> Iterator[tuple[Element, str]]:
        for element in self.on[node]:
            if len(element.at) != 2 or element.at[0] == element.at[1] or element.family in ("JACK", "DRAG", "ADVECT"):
                continue
            here = element.at.index(node)
            if _passes_one_way(element) and here == (1 if drawn else 0):
                continue
            if _is_leak(element):
                continue
            yield element, element.at[1 - here]

    def idle(self, way: Way) -> tuple[Element, ...]:
        """The pumps along a way that do not pump, where something else, a by-pass, lets it by."""
        return tuple(e for e in self._pumps(way) if is_shut(self.watched, e))

    def wants_pump(self, way: Way, limit: float | None) -> bool:
        """Whether the pumps along a way that do not pump are missed: not where another pumps in the same way, or where
        something is shut and the supply's own head would do without."""
        enough = 0.0 if way.shut else PUMPS
        if any(not is_shut(self.watched, e) and self.watched.value(e.gate) > enough for e in self._pumps(way)):
            return False
        if not way.shut or limit is None or way.end not in self.stores:
            return True
        store = next(e for e in self.watched.network.elements if e.name == way.end)
        return self.watched.value(Across(store.at[0])) < limit

    def is_dry(self, way: Way) -> bool:
        """Whether a way comes from a tank in which nothing is left."""
        element = next((e for e in self.watched.network.elements if e.name == way.end), None)
        return element is not None and element.family == "TANK" and self.watched.value(Content(way.end)) <= DRY

    def _pumps(self, way: Way) -> tuple[Element, ...]:
        beside = (e for one in way.elements for e in self.on[one.at[0]] if set(e.at) == set(one.at))
        return tuple(e for e in dict.fromkeys(beside) if e.family == "PDPUMP")

    def _compressed_into(self, element: Element, at: str) -> bool:
        """Whether an element takes the air outside, which is at this point of it, and gives it at a pressure."""
        point = self.nodes[at]
        return (
            element.family == "SOURCE" and point.medium == "air" and point.boundary is not None and _is_outside(point)
        )

    def _store_at(self, node: str, beyond: frozenset[str]) -> Element | None:
        return next((e for e in self.on[node] if e.name in self.stores and e.name not in beyond), None)

    def _supplies(self, node: str, drawn: bool) -> bool:
        """Whether a point is where something comes from: a boundary that is not the airframe or the air outside."""
        one: Node = self.nodes[node]
        if one.boundary is None:
            return False
        if one.medium == "air":
            nothing = one.boundary == Const(0.0)
            return nothing if drawn else not nothing and not _is_outside(one)
        return one.boundary != Const(0.0) and not drawn


def _is_outside(node: Node) -> bool:
    """Whether a boundary of air is the air outside: of the height alone."""
    return "isa" in repr(node.boundary)


def _passes_one_way(element: Element) -> bool:
    """Whether an element passes only from its first end to its second; a source may do both, by its limits."""
    if element.family == "SOURCE":
        return element.parameters[2] >= 0.0
    return element.family in ONE_WAY


def _is_leak(element: Element) -> bool:
    """Whether an element opens only when something is wrong: a leak is no way for a supply to come by."""
    return isinstance(element.gate, Input) and element.gate.sort == "failure"
