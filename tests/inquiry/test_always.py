"""'always' and 'sometimes' against a plain going through of all positions, written here, on random small networks."""

import random
from itertools import product
from pathlib import Path

import pytest

from cutaway.inquiry.asking import machine_of, ready
from cutaway.inquiry.positions import free_controls
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.verdicts import Fails, Holds
from cutaway.machine.records import Change, Job, Run
from cutaway.machine.run import run_jobs
from tests.inquiry.folders import Folder, folder_at, system

SETTLE = 30.0


def random_circuit(number: int) -> tuple[str, list[str]]:
    """A tree of switches behind a battery with a lamp load behind most of them, and the names of the switches."""
    rng = random.Random(number)
    count = rng.randint(2, 5)
    switches = [f"switch {i}" for i in range(count)]
    parts = ["battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}", "bus: {kind: bus}"]
    lines = ["battery > bus"]
    for i, name in enumerate(switches):
        parts.append(f"{name}: {{kind: switch}}")
        above = "bus" if i == 0 or rng.random() < 0.4 else f"{rng.choice(switches[:i])}.outlet"
        lines.append(f"{above} > {name}.inlet")
        parts.append(f"load {i}: {{kind: electrical load, current: 1 A, fed by: {name}.outlet}}")
    if count > 2 and rng.random() < 0.5:
        one, other = rng.sample(switches[1:], 2)
        lines.append(f"{one}.outlet > {other}.outlet")
    return system("\n".join(parts), "\n".join(lines)), switches


def random_claim(number: int, switches: list[str]) -> str:
    rng = random.Random(1000 + number)
    last = len(switches) - 1
    statement = f"load {last} is {rng.choice(('working', 'dead'))}"
    condition = " and ".join(f"{s} is {rng.choice(('on', 'off'))}" for s in rng.sample(switches, rng.randint(1, 2)))
    held = f"with {switches[0]} at {rng.choice(('on', 'off'))}, " if rng.random() < 0.4 else ""
    form = rng.choice((f"{statement} if {condition}", f"{statement} or {condition}", statement))
    return f"{held}{{modality}}: {form}"


def end_of(folder: Folder, question: Question, where: dict[str, float]) -> Run:
    """The run of the whole network, nothing cut, with the switches there from the beginning."""
    bound = question.bound
    whole = folder.workshop.made(bound, frozenset(name for name, _ in bound.network.signals))
    changes = tuple(Change(0.0, name, value) for name, value in where.items())
    (run,) = run_jobs([Job(whole.machine, None, (), changes, SETTLE)], 1)
    return run


def is_so(text: str, run: Run) -> bool:
    """'load 2 is working', 'switch 1 is on' and their like, joined by and, or, if, read off the end of a run."""
    if " if " in text:
        then, condition = text.split(" if ")
        return is_so(then, run) or not is_so(condition, run)
    if " or " in text:
        return any(is_so(one, run) for one in text.split(" or "))
    if " and " in text:
        return all(is_so(one, run) for one in text.split(" and "))
    name, word = text.split(" is ")
    signal = f"set {name}" if name.startswith("switch") else f"{name}: working"
    return bool(run.column(signal)[-1] > 0.5) == (word in ("on", "working"))


@pytest.mark.parametrize("number", range(24))
def test_the_same_as_going_through_all(number: int, tmp_path: Path) -> None:
    text, switches = random_circuit(number)
    folder = folder_at(tmp_path, {"systems/a.yaml": text})
    form = random_claim(number, switches)
    statement = form.split(": ")[1]
    fixed = {switches[0]: float("at on" in form)} if form.startswith("with") else {}
    premise = statement.split(" if ")[1] if " if " in statement else ""

    for modality, decides in (("always", Fails), ("sometimes", Holds)):
        claim = form.format(modality=modality)
        verdict = folder.verdict(claim)
        question = Question(
            folder.claim(claim).statement, folder.claim(claim).scope,
            folder.workshop.bound(folder.subject())[0], folder.loaded.told, folder.workshop,
        )  # fmt: skip
        found: list[tuple[int, bool, bool]] = []
        for values in product((0.0, 1.0), repeat=len(switches)):
            where = dict(zip(switches, values, strict=True))
            if any(where[name] != value for name, value in fixed.items()):
                continue
            run = end_of(folder, question, where)
            moved = sum(1 for name, value in where.items() if value and name not in fixed)
            found.append((moved, is_so(statement, run), not premise or is_so(premise, run)))
        arising = [(moved, so) for moved, so, arises in found if arises]
        if not arising:
            assert type(verdict).__name__ == "Empty"
            continue
        wanted = all(so for _, so in arising) if modality == "always" else any(so for _, so in arising)
        assert isinstance(verdict, Holds if wanted else Fails), (claim, verdict)
        if isinstance(verdict, decides):
            deciding = [moved for moved, so in arising if so != (modality == "always")]
            setup = verdict.witness if isinstance(verdict, Holds) else verdict.counterexample
            assert setup is not None
            # No case that decides has fewer switches moved, apart from those that the condition itself puts.
            assert len(setup.chosen) <= min(deciding), (claim, verdict)


@pytest.mark.parametrize("number", range(24))
def test_what_is_not_gone_through_does_not_matter(number: int, tmp_path: Path) -> None:
    text, switches = random_circuit(number)
    folder = folder_at(tmp_path, {"systems/a.yaml": text})
    rng = random.Random(2000 + number)
    held = {name: float(rng.random() < 0.3) for name in rng.sample(switches, len(switches) // 2)}
    claim = folder.claim(f"load {len(switches) - 1} is working")
    bound = folder.workshop.bound(folder.subject())[0]
    question = ready(Question(claim.statement, claim.scope, bound, folder.loaded.told, folder.workshop))
    assert isinstance(question, Question)
    made = machine_of(question)
    assert not hasattr(made, "missing")
    sound = {i.name: 0.0 for i in bound.network.inputs if i.sort == "failure"}
    free = {s.input for s in free_controls(bound, made.network, made.signals, {**sound, **held}, frozenset())}
    pruned = [name for name in switches if name not in held and name not in free]
    signal = f"load {len(switches) - 1}: current"
    base = {name: float(rng.random() < 0.5) for name in switches} | held
    plain = end_of(folder, question, base)
    for name in pruned:
        other = end_of(folder, question, base | {name: 1.0 - base[name]})
        assert other.column(signal)[-1] == pytest.approx(plain.column(signal)[-1], rel=1e-4, abs=1e-6), (name, held)
