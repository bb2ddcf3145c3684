"""Dead wires: what is joined to nothing that gives current stays at no volts, whatever contacts are made in it."""

from collections.abc import Callable, Iterable

from cutaway.machine.compile import Machine
from cutaway.machine.network import Network
from cutaway.machine.records import State
from cutaway.parts.recipe import Const

Thing = tuple[str, str]
# What passes nothing where both its ends stand alike: a wire's resistance, and a filament's, which grows as it glows.
_RESISTANCES = frozenset({"LIN", "ROOT"})
# A wire at less than this is at no volts: no lamp or relay knows of a microvolt. A choice of ours.
STILL = 1.0e-6


def at_nothing(machine: Machine, state: State) -> frozenset[str]:
    """The nodes that stand at nothing in a state: among them the wires that may be dead."""
    return frozenset(name for name, x in zip(machine.nodes, state.x.tolist(), strict=True) if abs(x) <= STILL)


class Wires:
    """The wires of a network that stand at no volts now, and how they are joined.

    A stretch of them is dead for good if nothing but resistances can ever join it to anything, and those lead to no
    other place than the stretch itself and the aircraft's negative: no battery, generator or motor is in it.
    """

    def __init__(self, network: Network, still: Iterable[str]) -> None:
        wanted = frozenset(still)
        self._still = frozenset(
            node.name
            for node in network.nodes
            if node.medium == "current" and node.boundary is None and node.name in wanted
        )
        nothing = frozenset(node.name for node in network.nodes if node.boundary == Const(0.0))
        self._on: dict[str, list[tuple[str, bool, tuple[str, ...]]]] = {name: [] for name in self._still}
        for element in network.elements:
            ends = tuple(node for node in dict.fromkeys(element.at) if node not in nothing)
            for node in ends:
                if node in self._still:
                    self._on[node].append((element.name, element.family in _RESISTANCES, ends))

    def elements(self) -> frozenset[str]:
        """The names of what stands on these wires."""
        return frozenset(name for several in self._on.values() for name, _, _ in several)

    def dead(self, shut: Callable[[str], bool]) -> frozenset[Thing]:
        """The dead wires and the resistances on them, while some elements are shut for good."""
        found: set[Thing] = set()
        left = set(self._still)
        while left:
            stretch, inside, alive = [left.pop()], set[Thing](), False
            for node in stretch:  # grows as it is walked
                inside.add(("node", node))
                for name, resistance, ends in self._on[node]:
                    if shut(name):
                        continue
                    inside.add(("element", name))
                    alive = alive or not resistance or any(end not in self._still for end in ends)
                    stretch += [end for end in ends if end in left]
                    left.difference_update(ends)
            if not alive:
                found |= inside
        return frozenset(found)
