"""The machine of a network that differs from another's in numbers only: their structure is worked out once."""

from dataclasses import replace

import numpy as np

from cutaway.machine.compile import Machine, capacities, sound, start_across, start_travel
from cutaway.machine.layout import CAPACITY, FREE
from cutaway.machine.network import Network
from cutaway.problems.diagnostic import Problems


def renumbered(machine: Machine, network: Network) -> tuple[Machine, Problems] | None:
    """The machine of `network` from that of another; None where more differs than the parameters and contents of
    elements and the stores and starts of nodes, and it has to be compiled."""
    old = machine.network
    if not _same_but_for_numbers(old, network):
        return None
    by_name = {node.name: node for node in network.nodes}
    nodes = tuple(by_name[name] for name in machine.nodes)
    starts, problems = start_across(network, nodes)
    parameters, by_node = machine.numbers.parameters.copy(), machine.numbers.node.copy()
    at, free = {name: i for i, name in enumerate(machine.nodes)}, int(machine.fixed.size[FREE])
    for i, element in enumerate(network.elements):
        sound(element, at, free)
        parameters[i, : len(element.parameters)] = element.parameters
    by_node[CAPACITY] = capacities(network, nodes)
    numbers = machine.numbers._replace(parameters=parameters, node=by_node)
    return replace(
        machine,
        network=network,
        numbers=numbers,
        start_x=np.array([starts[name] for name in machine.nodes]),
        start_travel=np.array([start_travel(element) for element in network.elements]),
    ), problems


def _same_but_for_numbers(old: Network, new: Network) -> bool:
    if len(old.nodes) != len(new.nodes) or len(old.elements) != len(new.elements):
        return False
    rest = ((n.modes, n.inputs, n.signals, n.owners) for n in (old, new))
    nodes = (tuple((n.name, n.medium, n.boundary) for n in one.nodes) for one in (old, new))
    elements = (tuple((e.name, e.family, e.at, e.gate, e.drive) for e in one.elements) for one in (old, new))
    return all(next(both) == next(both) for both in (rest, nodes, elements))
