"""The cone of influence: what of a network can reach the signals that are asked for."""

from collections.abc import Iterator
from hashlib import blake2b

from cutaway.machine.expressions import parts_of_expression
from cutaway.machine.network import Network, elements_at
from cutaway.parts.recipe import Across, Content, Expr, Input, ModeIs, Node, Signal, Through

Thing = tuple[str, str]  # its sort and its name


def cone(network: Network, names: frozenset[str]) -> Network:
    """Everything that can influence the named signals (or modes), and nothing else, in the order it had.

    A free node needs every element on it; an element needs its other free nodes, its gate and its drive. A boundary
    needs only what prescribes it: so the cone stops at the open air and at the airframe.
    """
    return Slicer(network).cone(names)


class Slicer:
    """Many cones of one network: what depends on what is found out once, and every part of it is written out once."""

    def __init__(self, network: Network) -> None:
        self._network = network
        self._index = _Index(network)
        self._texts: dict[int, bytes] = {}

    def cone(self, names: frozenset[str]) -> Network:
        """As the function `cone`."""
        index, network = self._index, self._network
        needed = index.reach([("signal" if name in index.signals else "mode", name) for name in sorted(names)])

        def kept(sort: str, name: str) -> bool:
            return (sort, name) in needed

        nodes = tuple(n for n in network.nodes if kept("node", n.name))
        elements = tuple(e for e in network.elements if kept("element", e.name))
        modes = tuple(m for m in network.modes if kept("mode", m.name))
        left = {thing.name for group in (nodes, elements, modes) for thing in group}
        return Network(
            nodes=nodes,
            elements=elements,
            modes=modes,
            inputs=tuple(slot for slot in network.inputs if kept("input", f"{slot.sort} {slot.name}")),
            signals=tuple(pair for pair in network.signals if kept("signal", pair[0])),
            owners=tuple(pair for pair in network.owners if pair[0] in left),
        )

    def digest(self, part: Network, recorded: frozenset[str]) -> str:
        """Stands for the content of a cone of this network and for what is recorded of it."""
        found = blake2b(digest_size=16)
        for group in (part.nodes, part.elements, part.modes, part.inputs, part.signals, part.owners):
            for one in group:
                found.update(self._text(one))
            found.update(b"\0")
        found.update(repr(sorted(recorded)).encode())
        return found.hexdigest()

    def _text(self, one: object) -> bytes:
        """A part of this network, written out; it lives as long as the network, so its identity is its name."""
        text = self._texts.get(id(one))
        if text is None:
            text = self._texts[id(one)] = repr(one).encode()
        return text


def acts_on_itself(network: Network, mode: str) -> bool:
    """Whether a mode can influence its own conditions, through others or through what flows."""
    index = _Index(network)
    return ("mode", mode) in index.reach(list(index.needs(("mode", mode))))


class Influence:
    """Which way effects run in one network: what can change when something else does."""

    def __init__(self, network: Network) -> None:
        index = _Index(network)
        self._moved: dict[Thing, list[Thing]] = {}
        things = (("signal", index.signals), ("mode", index.modes), ("node", index.nodes), ("element", index.elements))
        for sort, named in things:
            for name in named:
                for cause in index.needs((sort, name)):
                    self._moved.setdefault(cause, []).append((sort, name))

    def of(self, thing: Thing) -> set[Thing]:
        """All that a thing can influence, itself among it."""
        reached: set[Thing] = set()
        waiting = [thing]
        while waiting:
            one = waiting.pop()
            if one not in reached:
                reached.add(one)
                waiting.extend(self._moved.get(one, ()))
        return reached


class _Index:
    """Who needs whom in one network. Elements on a node are looked up once, not searched for."""

    def __init__(self, network: Network) -> None:
        self.signals = dict(network.signals)
        self.nodes = {node.name: node for node in network.nodes}
        self.elements = {element.name: element for element in network.elements}
        self.modes = {mode.name: mode for mode in network.modes}
        self.on = elements_at(network)
        self._needs: dict[Thing, tuple[Thing, ...]] = {}

    def reach(self, waiting: list[Thing]) -> set[Thing]:
        """These things, and all that they depend on."""
        needed: set[Thing] = set()
        while waiting:
            thing = waiting.pop()
            if thing not in needed:
                needed.add(thing)
                waiting.extend(self.needs(thing))
        return needed

    def needs(self, thing: Thing) -> tuple[Thing, ...]:
        """What the thing depends on directly."""
        known = self._needs.get(thing)
        if known is None:
            known = self._needs[thing] = tuple(dict.fromkeys(self._found(thing)))
        return known

    def _found(self, thing: Thing) -> Iterator[Thing]:
        sort, name = thing
        if sort == "signal":
            yield from _named_in(self.signals[name])
        elif sort == "mode":
            yield from _named_in(self.modes[name].sets)
            yield from _named_in(self.modes[name].clears)
        elif sort == "node":
            yield from self._of_node(self.nodes[name])
        elif sort == "element":
            element = self.elements[name]
            yield from (("node", node) for node in element.at)
            yield from _named_in(element.gate)
            yield from _named_in(element.drive)

    def _of_node(self, node: Node) -> Iterator[Thing]:
        if node.boundary is None:
            yield from (("element", element.name) for element in self.on[node.name])
        else:
            yield from _named_in(node.boundary)


def _named_in(expression: Expr) -> Iterator[Thing]:
    for one in parts_of_expression(expression):
        match one:
            case Across(node):
                yield ("node", node)
            case Through(element) | Content(element):
                yield ("element", element)
            case ModeIs(mode):
                yield ("mode", mode)
            case Signal(name):
                yield ("signal", name)
            case Input(sort, name):
                yield ("input", f"{sort} {name}")
            case _:
                pass
