"""Steady networks against the EPANET engine, which solves them in another way (heads and flows together, at every
link).

Both can express one law: a pipe so short and smooth that only its minor loss counts, head = K v²/2g, which is our ROOT.
"""

from math import pi, sqrt
from pathlib import Path

import numpy as np
import pytest

from cutaway.machine.network import Network
from cutaway.machine.run import values_at
from cutaway.parts.recipe import Across, Const, Element, Node, Through
from tests.machine.running import run
from tests.published.checked import checked

wntr = pytest.importorskip("wntr")

DENSITY, GRAVITY = 998.2, 9.81  # EPANET's own gravity is 32.2 ft/s²; it enters the minor loss alone
EPANET_GRAVITY = 32.2 * 0.3048
Pipe = tuple[str, str, str, float, float]


def random_grid(seed: int) -> tuple[dict[str, float], list[str], list[Pipe]]:
    """Two reservoirs with their heads, a grid of junctions, and pipes (name, ends, bore m, minor loss)."""
    rng = np.random.default_rng(seed)
    junctions = [f"J{i}" for i in range(9)]
    ends = [(i, i + 1) for i in range(9) if i % 3 < 2] + [(i, i + 3) for i in range(6)]
    pipes: list[Pipe] = [("P0", "R0", "J0", 0.02, 20.0), ("P1", "R1", "J8", 0.02, 20.0)]
    for n, (a, b) in enumerate(ends):
        bore, loss = float(rng.uniform(0.008, 0.03)), float(10.0 ** rng.uniform(0.5, 2.5))
        pipes.append((f"P{n + 2}", junctions[a], junctions[b], bore, loss))
    return {"R0": 20.0, "R1": 5.0}, junctions, pipes


def by_epanet(heads: dict[str, float], junctions: list[str], pipes: list[Pipe], folder: Path) -> dict[str, float]:
    """Heads, m, and flows, m³/s, by name."""
    model = wntr.network.WaterNetworkModel()
    for name in junctions:
        model.add_junction(name, base_demand=0.0, elevation=0.0)
    for name, head in heads.items():
        model.add_reservoir(name, base_head=head)
    for name, a, b, bore, loss in pipes:
        model.add_pipe(name, a, b, length=1.0e-4, diameter=bore, roughness=1000.0, minor_loss=loss)
    model.options.hydraulic.accuracy = 1.0e-8
    model.options.time.duration = 0
    found = wntr.sim.EpanetSimulator(model).run_sim(file_prefix=str(folder / "grid"))
    return {**found.node["head"].iloc[0].to_dict(), **found.link["flowrate"].iloc[0].to_dict()}


def ours(heads: dict[str, float], junctions: list[str], pipes: list[Pipe]) -> dict[str, float]:
    """The same by the kernel, run to rest."""
    weight = DENSITY * GRAVITY
    nodes = [Node(name, "petrol") for name in junctions]
    nodes += [Node(name, "petrol", boundary=Const(head * weight)) for name, head in heads.items()]
    elements = []
    for name, a, b, bore, loss in pipes:
        per_head = pi * bore**2 / 4.0 * sqrt(2.0 * EPANET_GRAVITY / loss)
        elements.append(Element(name, "ROOT", (a, b), (per_head / sqrt(weight), 1.0)))
    signals = tuple((n, Across(n)) for n in junctions) + tuple((e.name, Through(e.name)) for e in elements)
    network = Network(tuple(nodes), tuple(elements), (), (), signals, ())
    found = run(network, 60.0)
    values = dict(zip(found.names, values_at(found, 60.0).tolist(), strict=True))
    return {name: value / weight if name in junctions else value for name, value in values.items()}


@pytest.mark.parametrize("seed", range(4))
@checked("EPANET 2.2 in wntr 1.5.0, on networks drawn at random", "L")
def test_a_grid_of_minor_losses(seed: int, tmp_path: Path) -> None:
    """Heads to a millimetre in 20 m (EPANET stores them in single precision), flows to a thousandth of the largest."""
    case = random_grid(seed)
    theirs, mine = by_epanet(*case, tmp_path), ours(*case)
    largest = max(abs(theirs[pipe[0]]) for pipe in case[2])
    assert largest > 1.0e-4
    for name in case[1]:
        assert mine[name] == pytest.approx(theirs[name], abs=1.0e-3), name
    for name, *_ in case[2]:
        assert mine[name] == pytest.approx(theirs[name], abs=1.0e-3 * largest), name
