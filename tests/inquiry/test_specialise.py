"""What is cut out of a cone because inputs are held really does not matter: the same traces at every position."""

import random
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from cutaway.machine.bind import Bound
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Change, Job, Run
from cutaway.machine.run import run_jobs
from cutaway.machine.slicing import cone
from cutaway.machine.specialise import applied, bounds, held_for_good
from cutaway.parts.recipe import (
    Across,
    Apply,
    Const,
    Element,
    Input,
    Mode,
    ModeIs,
    Node,
    Signal,
    Through,
    apply,
)
from tests.inquiry.folders import folder_at, system

PARTS = system(
    """
tank: {kind: tank, capacity: 10 gal}
cock: {kind: cock}
pump: {kind: hand fuel pump}
carburettor: {kind: carburettor}
throttle: {kind: throttle}
ignition: {kind: magneto switch}
engine: {kind: engine, throttle: throttle, ignition: ignition, fuel from: carburettor}
generator: {kind: generator, driven by: engine}
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
master: {kind: switch}
bus: {kind: bus}
fuse: {kind: fuse, rating: 5 A}
light switch: {kind: switch}
light: {kind: electrical load, current: 2 A, fed by: light switch.outlet}
lamp switch: {kind: switch}
lamp: {kind: low-pressure lamp, senses: carburettor.inlet, fed by: lamp switch.outlet, lights below: 2 lb/sq in}
""",
    """
tank > cock > pump > carburettor
battery > master > bus
generator > bus
bus > fuse > light switch
bus > lamp switch
""",
)
ASKED = ("light: current", "lamp: lit", "engine: rate of turn", "fuse: current", "carburettor: fed")


@lru_cache(maxsize=1)
def aircraft(folder: Path) -> Bound:
    """The whole of it, bound once."""
    made = folder_at(folder, {"systems/a.yaml": PARTS})
    return made.workshop.bound(made.subject())[0]


@pytest.fixture(scope="module")
def bound(tmp_path_factory: pytest.TempPathFactory) -> Bound:
    return aircraft(tmp_path_factory.mktemp("whole"))


def run_with(bound: Bound, where: dict[str, float], signal: str) -> Run:
    from cutaway.machine.compile import compile_network

    machine, _ = compile_network(bound.network, (signal,))
    changes = tuple(Change(0.0, name, value) for name, value in where.items())
    (run,) = run_jobs([Job(machine, None, (), changes, 40.0)], 1)
    assert run.outcome.kind == "done"
    return run


def at_moments(run: Run) -> np.ndarray:
    return np.interp(np.linspace(1.0, 40.0, 40), run.times, run.values[:, 0])


def test_what_is_cut_out_does_not_matter(bound: Bound) -> None:
    slots = {slot.input: slot for slot in bound.controls.values()}
    sound = {i.name: 0.0 for i in bound.network.inputs if i.sort == "failure"}
    tried = 0
    for number in range(30):
        rng = random.Random(number)
        signal = ASKED[number % len(ASKED)]
        held = {name: float(rng.choice((0, 0, 1))) for name in rng.sample(sorted(slots), 4)}
        kept = cone(held_for_good(bound.network, {**sound, **held}), frozenset({signal}))
        pruned = slots.keys() - held.keys() - {slot.name for slot in kept.inputs}
        base = {name: float(rng.randint(0, len(slot.positions) - 1)) for name, slot in slots.items()} | held
        plain = at_moments(run_with(bound, base, signal)) if pruned else np.zeros(1)
        scale = max(float(np.abs(plain).max()), 1e-3)
        for name in sorted(pruned):
            for position in range(len(slots[name].positions)):
                other = at_moments(run_with(bound, base | {name: float(position)}, signal))
                assert np.abs(other - plain).max() < 0.02 * scale, (signal, held, name, position)
                tried += 1
    assert tried > 40


def test_a_dead_engine_needs_no_throttle(bound: Bound) -> None:
    def reached(**held: float) -> set[str]:
        sound = {i.name: 0.0 for i in bound.network.inputs if i.sort == "failure"}
        values = {**sound, **{name.replace("_", " "): value for name, value in held.items()}}
        network = cone(held_for_good(bound.network, values), frozenset({"engine: rate of turn"}))
        return {slot.name for slot in network.inputs if slot.sort == "control"}

    assert {"throttle", "cock", "engine.starter"} <= reached()
    assert reached(ignition=0.0) == {"engine.starter"}


def small(gate: Input | Const, *, started: bool | None = False, dwell: float = 0.0) -> Network:
    """A source through a gated element to a node, and a mode that only its flow can set."""
    return Network(
        (Node("source", "oil", boundary=Const(1e6)), Node("end", "oil"), Node("drain", "oil", boundary=Const(0.0))),
        (
            Element("way", "LIN", ("source", "end"), (1e-10,), gate=gate),
            Element("leak", "LIN", ("end", "drain"), (1e-10,), gate=ModeIs("open")),
        ),
        (Mode("open", apply("min", Signal("flow"), -1.0), apply("max", Signal("flow"), -2.0), 0.0, dwell, started),),
        (InputSlot("cock", "control", 0.0),),
        (("flow", Through("way")), ("pressure", Across("end"))),
        (),
    )


def test_what_flows_through_a_shut_element_is_nothing() -> None:
    network = held_for_good(small(Input("control", "cock")), {"cock": 0.0})
    assert dict(network.signals)["flow"] == Const(0.0)
    assert [e.name for e in network.elements] == ["leak"]


def test_a_mode_that_nothing_sets_is_off_if_it_began_so_or_is_cleared() -> None:
    shut = {"cock": 0.0}
    # Its clearing asks for more than nothing flowing gives (max of 0 and -2 is 0), so only its beginning can tell.
    assert "leak" in {e.name for e in held_for_good(small(Input("control", "cock")), shut).elements}
    assert "leak" not in {e.name for e in held_for_good(small(Input("control", "cock")), shut, True).elements}
    on = held_for_good(small(Input("control", "cock"), started=True), shut, True)
    assert "leak" in {e.name for e in on.elements}


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        (apply("min", Const(-0.5), Across("x")), (-np.inf, -0.5)),
        (apply("max", Const(0.5), Across("x")), (0.5, np.inf)),
        (apply("sub", 1.0, ModeIs("m")), (0.0, 1.0)),
        (apply("mul", -2.0, ModeIs("m")), (-2.0, 0.0)),
        (apply("gt", Across("x"), 3.0), (0.0, 1.0)),
        (apply("if", Across("x"), 2.0, 5.0), (2.0, 5.0)),
        (apply("add", ModeIs("m"), ModeIs("n")), (0.0, 2.0)),
        (apply("neg", ModeIs("m")), (-1.0, 0.0)),
        (apply("mul", Across("x"), ModeIs("m")), (-np.inf, np.inf)),
    ],
)
def test_bounds(expression: Apply, expected: tuple[float, float]) -> None:
    assert bounds(expression) == expected


def test_working_out() -> None:
    x, y, nought, one = Across("x"), Across("y"), Const(0.0), Const(1.0)
    assert applied("mul", (x, nought)) == nought
    assert applied("or", (x, one)) == one
    assert applied("if", (one, x, y)) == x
    assert applied("eq", (one, one)) == one
    assert applied("sub", (x, one)) == apply("sub", x, 1.0)
