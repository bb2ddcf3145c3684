"""A network into the flat arrays of a machine."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from cutaway.machine.expressions import driving
from cutaway.machine.layout import (
    DIAGONAL,
    FILL_AT,
    MEDIUM,
    ORDER,
    PARAMETERS,
    SLOT,
    SLOW,
    Fixed,
    Floats,
    Ints,
    Numbers,
)
from cutaway.machine.network import Network
from cutaway.machine.program import Program
from cutaway.machine.scales import BY_MEDIUM, MEDIA
from cutaway.machine.symbolic import Elimination, elimination
from cutaway.machine.uniqueness import classes
from cutaway.parts.laws.elements import CODES, FAMILIES
from cutaway.parts.laws.stores import accumulator, store, tank
from cutaway.parts.recipe import Element, Node
from cutaway.problems.diagnostic import Diagnostic, Problems

STORES = frozenset(("STORE", "ACCUM", "TANK", "JACK", "RAM"))
STEP_ERROR = 5.0e-4


@dataclass(frozen=True, slots=True, eq=False)
class Machine:
    """A network ready to run, opaque outside `machine` but for its names.

    names: the recorded signals, in the order of a run's columns. inputs, modes, elements, nodes: names, in the order
    of the arrays. network: what it was made from. owners: part of each node, element and mode. start_x, start_travel,
    start_modes (-1: by its own condition), start_inputs: the very beginning. structure: what a state must have been
    made with to fit.
    """

    names: tuple[str, ...]
    inputs: tuple[str, ...]
    modes: tuple[str, ...]
    elements: tuple[str, ...]
    nodes: tuple[str, ...]
    network: Network
    owners: tuple[tuple[str, str], ...]
    uniqueness: tuple[tuple[str, str], ...]
    fixed: Fixed
    numbers: Numbers
    start_x: Floats
    start_travel: Floats
    start_modes: Floats
    start_inputs: Floats
    structure: str


def compile_network(
    network: Network, names: tuple[str, ...] | None = None, step_error: float = STEP_ERROR
) -> tuple[Machine, Problems]:
    """The machine of a network.

    names: the signals to record; None for all. step_error: allowed error of a step, in the media's scales; what is
    given here for a closer look costs steps.
    """
    nodes = tuple(n for n in network.nodes if n.boundary is None) + tuple(
        n for n in network.nodes if n.boundary is not None
    )
    free = sum(1 for n in nodes if n.boundary is None)
    at = {node.name: i for i, node in enumerate(nodes)}
    for element in network.elements:
        sound(element, at, free)
    starts, problems = start_across(network, nodes)
    program = _program(network, at)
    signals = dict(network.signals)
    wanted = tuple(signals) if names is None else names
    registers = _written(program, network, nodes, wanted)
    pattern = elimination(free, _edges(network.elements, at, free))
    fixed = _fixed(network, nodes, free, at, pattern, program, registers)
    machine = Machine(
        names=wanted,
        inputs=tuple(slot.name for slot in network.inputs),
        modes=tuple(mode.name for mode in network.modes),
        elements=tuple(element.name for element in network.elements),
        nodes=tuple(node.name for node in nodes),
        network=network,
        owners=network.owners,
        uniqueness=classes(network),
        fixed=fixed,
        numbers=_numbers(network, nodes, program, step_error),
        start_x=np.array([starts[node.name] for node in nodes]),
        start_travel=np.array([start_travel(element) for element in network.elements]),
        start_modes=np.array([-1.0 if mode.started is None else float(mode.started) for mode in network.modes]),
        start_inputs=np.array([slot.value for slot in network.inputs]),
        structure=_structure(network),
    )
    return machine, problems


def sound(element: Element, at: Mapping[str, int], free: int) -> None:
    """Our own faults in a recipe, not the user's: wrong counts, wrong signs, a source that sucks at a free node."""
    kind = FAMILIES[CODES[element.family]]
    assert len(element.at) == kind.terminals, f"{element.name}: {kind.name} has {kind.terminals} terminals"
    assert len(element.parameters) == len(kind.parameters), f"{element.name}: {kind.name} takes {kind.parameters}"
    given = dict(zip(kind.parameters, element.parameters, strict=True))
    for name in kind.above:
        assert given[name] > 0.0, f"{element.name}: {name} must be above 0, not {given[name]}"
    assert all(node in at for node in element.at), f"{element.name}: a node that is not in the network"
    sucks = kind.name == "SOURCE" and at[element.at[0]] < free and given["high"] > 0.0
    assert not sucks, f"{element.name}: a SOURCE may draw from a boundary only; what draws from a node is a PDPUMP"
    holds = element.family in ("STORE", "ACCUM", "TANK", "RAM")
    assert not (holds and at[element.at[0]] >= free), f"{element.name}: a store at a boundary holds nothing"


def start_travel(element: Element) -> float:
    """Where a jack stands at the very beginning; 0 for what has no travel."""
    if element.family not in ("JACK", "RAM"):
        return 0.0
    kind = FAMILIES[CODES[element.family]]
    low = element.parameters[kind.parameters.index("low")]
    return low if element.content is None else element.content


def across_of(family: str, parameters: Iterable[float], content: float, scale: float) -> float:
    """The across value at which a store of that family holds that content: the inverse of its law, by bisection."""
    p = tuple(parameters)

    def holds(x: float) -> float:
        if family == "STORE":
            return store(x, p[0])[0]
        if family == "ACCUM":
            return accumulator(x, p[0], p[1], p[2], p[3])[0]
        return tank(x, p[0], p[1], p[2])[0]

    if family == "STORE":
        return content / p[0]
    low, high = -scale, scale
    while holds(low) > content and low > -1.0e15:
        low *= 2.0
    while holds(high) < content and high < 1.0e15:
        high *= 2.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        low, high = (middle, high) if holds(middle) < content else (low, middle)
    return 0.5 * (low + high)


def start_across(network: Network, nodes: tuple[Node, ...]) -> tuple[dict[str, float], Problems]:
    """The across value of every node at the very beginning: by what its store holds, else as its recipe says."""
    starts = {n.name: BY_MEDIUM[n.medium].start if n.start is None else n.start for n in nodes}
    media = {n.name: n.medium for n in nodes}
    owners = dict(network.owners)
    by: dict[str, Element] = {}
    problems: list[Diagnostic] = []
    for element in network.elements:
        if element.content is None or element.family not in ("STORE", "ACCUM", "TANK"):
            continue
        node = element.at[0]
        scale = BY_MEDIUM[media[node]].across
        across = across_of(element.family, element.parameters, element.content, scale)
        if node not in by:
            starts[node] = across
            by[node] = element
        elif abs(across - starts[node]) > 1.0e-3 * scale:
            problems.append(_two_levels(owners, by[node], element))
    return starts, tuple(problems)


def _two_levels(owners: Mapping[str, str], first: Element, second: Element) -> Diagnostic:
    one, other = owners.get(first.name, first.name), owners.get(second.name, second.name)
    return Diagnostic(
        "M101",
        None,
        f"'{one}' and '{other}' are joined with nothing between them, but begin with different levels or pressures. "
        f"Both begin as '{one}' does.",
        f"Put a cock, a valve or a pipe between '{one}' and '{other}', or start both alike.",
    )


def _program(network: Network, at: Mapping[str, int]) -> Program:
    return Program(
        nodes=at,
        elements={element.name: i for i, element in enumerate(network.elements)},
        modes={mode.name: i for i, mode in enumerate(network.modes)},
        inputs={(slot.sort, slot.name): i for i, slot in enumerate(network.inputs)},
        boundary={node.name: node.boundary for node in network.nodes if node.boundary is not None},
        signals=dict(network.signals),
    )


@dataclass(frozen=True, slots=True)
class _Registers:
    gate: list[int]
    drive: list[int]
    sets: list[int]
    clears: list[int]
    boundary: list[int]
    out: list[int]


def _written(program: Program, network: Network, nodes: tuple[Node, ...], wanted: tuple[str, ...]) -> _Registers:
    """Writes every expression that the run needs; a signal that nobody asks for costs nothing."""
    needed = driving(network)
    for name, expression in network.signals:  # in their own order, so that none calls itself deep
        if name in wanted or name in needed:
            program.named.setdefault(("signal", name), program.register(expression))
    registers = _Registers(
        [program.register(element.gate) for element in network.elements],
        [program.register(element.drive) for element in network.elements],
        [program.register(mode.sets) for mode in network.modes],
        [program.register(mode.clears) for mode in network.modes],
        [program.register(node.boundary) for node in nodes if node.boundary is not None],
        [program.named[("signal", name)] for name in wanted],
    )
    place = program.place
    return _Registers(*([place(r) for r in rs] for rs in (
        registers.gate, registers.drive, registers.sets, registers.clears, registers.boundary, registers.out,
    )))  # fmt: skip


def _edges(elements: tuple[Element, ...], at: Mapping[str, int], free: int) -> frozenset[tuple[int, int]]:
    pairs: set[tuple[int, int]] = set()
    for element in elements:
        ends = sorted({at[name] for name in element.at if at[name] < free})
        pairs.update((a, b) for i, a in enumerate(ends) for b in ends[i + 1 :])
    return frozenset(pairs)


def _slots(terms: list[int], free: int, pattern: Elimination) -> list[int]:
    """Nine places in the matrix, by row and column of the terminals; the waste place where one is not a free node."""
    waste = pattern.places.shape[1]
    return [pattern.place[(a, b)] if 0 <= a < free and 0 <= b < free else waste for a in terms for b in terms]


def _slow(network: Network, nodes: tuple[Node, ...]) -> list[int]:
    """1 for a node with a tank or a battery, 2 for one with a bottle, whose motion alone does not make a run
    unrestful."""
    slow = {node.name: 0 for node in nodes}
    media = {node.name: node.medium for node in nodes}
    for element in network.elements:
        node = element.at[0]
        if element.family == "TANK" or (element.family == "STORE" and media[node] == "current"):
            slow[node] = 1
        elif element.family == "STORE" and media[node] == "air":
            slow[node] = 2
    return [slow[node.name] for node in nodes]


def _ints(values: Iterable[int]) -> Ints:
    return np.array(list(values), np.int64)


def _fixed(
    network: Network, nodes: tuple[Node, ...], free: int, at: Mapping[str, int],
    pattern: Elimination, program: Program, registers: _Registers,
) -> Fixed:  # fmt: skip
    terms = [[at[name] for name in element.at] + [-1] * (3 - len(element.at)) for element in network.elements]
    lines = [
        [CODES[element.family], gate, drive, *term, *_slots(term, free, pattern)]
        for element, gate, drive, term in zip(network.elements, registers.gate, registers.drive, terms, strict=True)
    ]
    by_node = np.zeros((5, len(nodes) + 1), np.int64)
    by_node[DIAGONAL, pattern.order] = np.arange(free)
    by_node[MEDIUM, : len(nodes)] = [MEDIA.index(node.medium) for node in nodes]
    by_node[SLOW, : len(nodes)] = _slow(network, nodes)
    by_node[ORDER, :free] = pattern.order
    by_node[FILL_AT, : free + 1] = pattern.fill_at
    return Fixed(
        size=_ints((free, program.steady())),
        node=by_node,
        element=np.array(lines, np.int64).reshape(len(lines), SLOT + 9),
        fill=pattern.fill,
        target=pattern.target,
        place=pattern.places,
        code=program.finished()[0],
        tables=_ints(program.table_at),
        mode=np.array([registers.sets, registers.clears], np.int64).reshape(2, len(network.modes)),
        stores=_ints(i for i, element in enumerate(network.elements) if element.family in STORES),
        boundary=_ints(registers.boundary),
        out=_ints(registers.out),
    )


def _numbers(network: Network, nodes: tuple[Node, ...], program: Program, step_error: float) -> Numbers:
    parameters = np.zeros((len(network.elements), PARAMETERS))
    for i, element in enumerate(network.elements):
        parameters[i, : len(element.parameters)] = element.parameters
    scales = [BY_MEDIUM[node.medium] for node in nodes]
    stores = capacities(network, nodes)
    return Numbers(
        parameters=parameters,
        constants=program.finished()[1],
        table=np.array([program.table_x, program.table_y], np.float64).reshape(2, len(program.table_x)),
        node=np.array([[s.across for s in scales], [s.through for s in scales], stores, [s.leak for s in scales]]),
        mode=np.array([[m.delay for m in network.modes], [m.dwell for m in network.modes]], np.float64),
        tolerance=np.array([step_error]),
    )


def capacities(network: Network, nodes: tuple[Node, ...]) -> list[float]:
    """The small store of every node, content per unit of across. Air that stands in a bottle, a bag or a ram needs none
    beside it, which would be felt: a brake's bag is no more than five times as large."""
    held = {element.at[0] for element in network.elements if element.family in ("STORE", "RAM")}
    usual = [0.0 if n.medium == "air" and n.name in held else BY_MEDIUM[n.medium].store for n in nodes]
    return [small if n.store is None else n.store for small, n in zip(usual, nodes, strict=True)]


def _structure(network: Network) -> str:
    """A hash of names and joints, without any number that a lane may differ in."""
    digest = hashlib.sha256()
    for node in network.nodes:
        digest.update(f"{node.name}\0{node.medium}\0{node.boundary is None}\n".encode())
    for element in network.elements:
        digest.update(f"{element.name}\0{element.family}\0{element.at}\n".encode())
    for mode in network.modes:
        digest.update(f"{mode.name}\n".encode())
    for slot in network.inputs:
        digest.update(f"{slot.sort}\0{slot.name}\n".encode())
    return digest.hexdigest()[:20]
