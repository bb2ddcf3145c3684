"""From records to networks: other values, missing parts, couplings with nothing at the other end, circles."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.inquiry.verdicts import Holds
from cutaway.machine.bind import bind, vary_within
from cutaway.machine.slicing import cone
from cutaway.machine.subjects import subjects
from tests.inquiry.folders import folder_at, system

BASE = """
tank: {kind: tank, capacity: 10 gal, head: <head>}
cock: {kind: cock}
pump: {kind: hand fuel pump, stroke: <stroke>, rate: 40 strokes/min}
carburettor: {kind: carburettor}
battery: {kind: battery, capacity: 25 Ah, voltage: 12 V, resistance: <resistance>}
master: {kind: switch}
bus: {kind: bus}
lamp: {kind: low-pressure lamp, senses: carburettor.inlet, fed by: bus, lights below: 2 lb/sq in, delay: <delay>}
gauge: {kind: fuel pressure gauge, senses: carburettor.inlet}
"""
LINES = "tank > cock > pump > carburettor\nbattery > master > bus"
VALUES = {"head": "10 in", "stroke": "2 cu in", "resistance": "0.05 ohm", "delay": "1 s"}
OTHERS = {"head": "15 in", "stroke": "3 cu in", "resistance": "0.09 ohm", "delay": "3 s"}
PARTS = {"head": "tank", "stroke": "pump", "resistance": "battery", "delay": "lamp"}


def written(values: dict[str, str]) -> str:
    text = BASE
    for name, value in values.items():
        text = text.replace(f"<{name}>", value)
    return system(text, LINES)


@pytest.mark.parametrize("name", VALUES)
def test_a_varied_value_is_as_if_it_had_been_written(name: str, tmp_path: Path) -> None:
    between = "{assume: VALUE, between: VALUE to OTHER, because: Nobody says.}"
    text = between.replace("VALUE", VALUES[name]).replace("OTHER", OTHERS[name])
    stated = folder_at(tmp_path / "a", {"systems/a.yaml": written({**VALUES, name: text})})
    bound, _ = stated.workshop.bound(stated.subject())
    (assumption,) = [a for a in bound.assumptions if (a.part, a.value) == (PARTS[name], name)]
    other = folder_at(tmp_path / "b", {"systems/a.yaml": written({**VALUES, name: OTHERS[name]})})
    wanted, _ = other.workshop.bound(other.subject())
    signals = frozenset({"lamp: lit", "gauge: shown"} & {n for n, _ in bound.network.signals})
    high = max(assumption.low, assumption.high)
    made = vary_within(bound, cone(bound.network, signals), {(PARTS[name], name): high}, signals)
    assert made == cone(wanted.network, signals)
    assert made != cone(bound.network, signals)


def test_a_value_that_cannot_reach_gives_the_network_itself(tmp_path: Path) -> None:
    folder = folder_at(tmp_path, {"systems/a.yaml": written(VALUES)})
    bound, _ = folder.workshop.bound(folder.subject())
    signals = frozenset({"set master"})
    network = cone(bound.network, signals)
    assert vary_within(bound, network, {("pump", "stroke"): 1e-5}, signals) is network


AIRFRAMES = """name: Wren
marks: [Mk 1]
airframes:
  Wren A: {standard: Mk 1, missing: [carburettor]}
  Wren B: {standard: Mk 1, disconnected: [gauge]}
  Wren C: {standard: Mk 1, missing: [pump]}
  Wren D: {standard: Mk 1, missing: [battery, bus]}
"""
SET = "situations:\n  set:\n    set: {cock: on, master: on}\n    settle: 10 s\n"


@pytest.mark.parametrize(
    ("airframe", "claim"),
    [
        ("Mk 1", "in set, after pump to pumping, within 20 s: gauge is above 3 lb/sq in and lamp is out"),
        ("Wren A", "in set, after pump to pumping, throughout 20 s: gauge reads 0.0 lb/sq in"),
        ("Wren A", "in set: lamp is lit"),
        ("Wren B", "in set, after pump to pumping, at 20 s: gauge reads 0.0 lb/sq in and lamp is out"),
        ("Wren C", "in set: gauge reads 0.0 lb/sq in and lamp is lit"),
        ("Wren D", "in set: lamp is out"),
    ],
)
def test_an_airframe_runs_without_what_it_lacks(airframe: str, claim: str, tmp_path: Path) -> None:
    files = {"type.yaml": AIRFRAMES, "systems/a.yaml": written(VALUES), "situations.yaml": SET}
    folder = folder_at(tmp_path, files)
    assert folder.problems == ()
    assert isinstance(folder.verdict(claim, airframe), Holds)


def test_a_suction_pipe_that_is_off_is_open_to_the_air(tmp_path: Path) -> None:
    parts = system("relief: {kind: suction relief valve}\ngauge: {kind: suction gauge, senses: relief.line}")
    about = "name: Wren\nmarks: [Mk 1]\nairframes:\n  Wren A: {standard: Mk 1, missing: [relief]}\n"
    folder = folder_at(tmp_path, {"type.yaml": about, "systems/a.yaml": parts})
    assert isinstance(folder.verdict("with height 8000 ft: gauge reads 0.0 in Hg", "Wren A"), Holds)


def test_no_figure_no_part_and_what_senses_it_still_runs(tmp_path: Path) -> None:
    # The jack lacks its area, which the reader of the folder tells; what it should drive is bound without it.
    files = {"systems/a.yaml": written(VALUES)}
    folder = folder_at(tmp_path, files)
    part = next(p for p in folder.loaded.folder.parts if p.name == "battery")
    without = replace(
        folder.loaded.folder,
        parts=tuple(
            replace(p, values=tuple(v for v in p.values if v.name != "capacity")) if p is part else p
            for p in folder.loaded.folder.parts
        ),
    )
    bound, problems = bind(without, subjects(without)[0], folder.loaded.kinds)
    assert problems == () and "battery" not in bound.parts and "lamp" in bound.parts


def test_parts_that_wait_for_each_other_are_told_once(tmp_path: Path) -> None:
    parts = system(
        "one: {kind: position indicator, shows: other}\nother: {kind: position indicator, shows: one}\n",
    )
    about = "name: Wren\nmarks: [Mk 1, Mk 2]\n"
    folder = folder_at(tmp_path, {"type.yaml": about, "systems/a.yaml": parts})
    (problem,) = [p for p in folder.problems if p.code == "M203"]
    assert "one and other depend on each other" in problem.message
    assert problem.span is not None and problem.span.file.path == "systems/a.yaml"


def test_what_compiling_tells_reaches_the_user_once(tmp_path: Path) -> None:
    parts = system(
        "high tank: {kind: tank, capacity: 9 gal, head: 20 in}\nlow tank: {kind: tank, capacity: 9 gal, head: 5 in}\n",
        "high tank.outlet > low tank.outlet",
    )
    about = "name: Wren\nmarks: [Mk 1, Mk 2]\n"
    folder = folder_at(tmp_path, {"type.yaml": about, "systems/a.yaml": parts})
    assert [p.code for p in folder.problems if p.code.startswith("M")] == ["M101"]
