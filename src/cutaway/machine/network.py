"""The numeric network of one standard: what the compiler takes. All in SI, all names full ('engine pump.inlet')."""

from dataclasses import dataclass
from typing import Literal

from cutaway.parts.recipe import Element, Expr, Mode, Node


@dataclass(frozen=True, slots=True)
class InputSlot:
    """Something set from outside, with its value when nothing is said.

    name: a control 'tank selector' or 'engine.starter', a condition 'height', a failure 'engine pump: seized'.
    """

    name: str
    sort: Literal["control", "condition", "failure"]
    value: float


@dataclass(frozen=True, slots=True)
class Network:
    """Nodes, elements, modes, inputs and named signals. In its expressions every name is full and every
    `Signal(of=…)` is already resolved to a signal of this network.

    signals: name and expression, in an order in which each uses only earlier ones. owners: the part that each node,
    element and mode belongs to, by name, for messages and for slicing.
    """

    nodes: tuple[Node, ...]
    elements: tuple[Element, ...]
    modes: tuple[Mode, ...]
    inputs: tuple[InputSlot, ...]
    signals: tuple[tuple[str, Expr], ...]
    owners: tuple[tuple[str, str], ...]


def elements_at(network: Network) -> dict[str, list[Element]]:
    """The elements that touch each node, in the network's order, each once."""
    found: dict[str, list[Element]] = {node.name: [] for node in network.nodes}
    for element in network.elements:
        for node in dict.fromkeys(element.at):
            found[node].append(element)
    return found
