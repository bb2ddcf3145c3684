"""Failure sets and diagnoses with printed answers, each found by the search that answers `failures` and `suspects`."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, combinations, product
from math import exp
from pathlib import Path

import numpy as np
import pytest

from cutaway.inquiry.questions.failures import Failures, failures
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.search.chances import chance_of, exact_chance, sum_of_sets
from cutaway.inquiry.search.hitting import hitting_sets
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from tests.inquiry.folders import Folder, folder_at, system
from tests.published.agreement import agrees
from tests.published.checked import checked

Tree = Mapping[str, tuple[str, str]]
Sets = set[frozenset[str]]


@dataclass(frozen=True)
class Event:
    """Something that goes wrong or does not."""

    thing: str


def found(events: Sequence[str], does: Callable[[frozenset[str]], bool], size: int = 9) -> Sets:
    """The minimal sets of events by the search; it must have gone through all that there is."""

    def tried(sets: Sequence[frozenset[Event]]) -> list[bool | None]:
        return [does(frozenset(e.thing for e in one)) for one in sets]

    search: Search[Event] = Search()
    bound = Bound(min(size, len(events)), tries=2_000_000, batch=1024)
    sets = {frozenset(e.thing for e in one) for one in minimal_sets([Event(e) for e in events], tried, bound, search)}
    assert search.ended == "complete" or size < len(events)
    return sets


def happens(tree: Tree, name: str, wrong: frozenset[str]) -> bool:
    """Whether a gate of a tree, or an event, comes about."""
    if name not in tree:
        return name in wrong
    gate, inputs = tree[name]
    return (all if gate == "and" else any)(happens(tree, one, wrong) for one in inputs.split())


def events_of(tree: Tree) -> list[str]:
    return sorted({one for _, inputs in tree.values() for one in inputs.split() if one not in tree})


def of_tree(tree: Tree, size: int = 9) -> Sets:
    """The minimal sets of a tree's 'top'."""
    return found(events_of(tree), lambda wrong: happens(tree, "top", wrong), size)


def sets(*words: str) -> Sets:
    return {frozenset(one.split()) for one in words}


# --- trees ----------------------------------------------------------------------------------------------------------

TANK = {"top": ("or", "T K2 both"), "both": ("and", "S on"), "on": ("or", "S1 K1 R")}


@checked("Fault Tree Handbook, NUREG-0492, 1981, chapter VIII, reduced tree; probabilities from memory", "M")
def test_pressure_tank() -> None:
    """NUREG-0492, the pressure tank: five sets; 3.5016e-5 as their sum, 3.50158e-5 exactly."""
    chances = {"T": 5e-6, "K2": 3e-5, "S": 1e-4, "S1": 3e-5, "K1": 3e-5, "R": 1e-4}
    answer = of_tree(TANK)
    assert answer == sets("T", "K2", "S S1", "S K1", "S R")
    assert agrees(sum_of_sets(answer, chances), "3.5016e-5")
    assert agrees(exact_chance(answer, chances), "3.50158e-5")


THEATRE = {"top": ("and", "mains standby"), "standby": ("or", "generator relay")}


@checked("Operating theatre supply, report printed with rakhimov/scram, input/Theatre", "P")
def test_theatre_supply() -> None:
    """An operating theatre's supply: two sets, 5.940398e-4 and 1.5e-3; 2.094040e-3 summed, 2.064338e-3 exactly."""
    chances = {"mains": 3e-2, "generator": 1.0 - exp(-0.02), "relay": 5e-2}
    answer = of_tree(THEATRE)
    assert answer == sets("mains generator", "mains relay")
    assert agrees(chance_of({"mains", "generator"}, chances), "5.940398e-4")
    assert agrees(chance_of({"mains", "relay"}, chances), "1.500000e-3")
    assert agrees(sum_of_sets(answer, chances), "2.094040e-3")
    exact = exact_chance(answer, chances)
    assert agrees(exact, "2.064338e-3")
    shares = {e: 100.0 * sum_of_sets((s for s in answer if e in s), chances) / exact for e in chances}
    assert agrees(shares["generator"], "28.78") and agrees(shares["mains"], "101.44")
    assert agrees(shares["relay"], "72.66")


# After the model 'Chinese' of rakhimov/scram: a row a gate.
LARGE = {
    "top": ("and", "g1 g2"), "g1": ("or", "e1 e2 e3 g3"), "g2": ("and", "g4 g5"), "g3": ("and", "g6 g7"),
    "g4": ("or", "e4 e5 e6 e7 g8"), "g5": ("or", "e8 g9"), "g6": ("or", "e9 e10 e11 g10"), "g7": ("or", "e12 e13"),
    "g8": ("and", "g11 g12"), "g9": ("and", "g13 g14"), "g10": ("and", "g15 g16"), "g11": ("or", "e14 e15 e16 g17"),
    "g12": ("and", "g18 g19"), "g13": ("or", "e1 e2 e3 g20"), "g14": ("or", "e4 e5 e6 e7 g21"),
    "g15": ("or", "e17 e18"), "g16": ("or", "e19 e20 e21"), "g17": ("and", "g22 g23"),
    "g18": ("or", "e22 e23"), "g19": ("or", "e24 e25"),
    "g20": ("and", "g24 g25"), "g21": ("and", "g26 g27"), "g22": ("or", "e17 e18 e21"), "g23": ("or", "e19 e20"),
    "g24": ("or", "e14 e15 e16 g28"), "g25": ("and", "g29 g30"), "g26": ("or", "e9 e10 e11 g31"),
    "g27": ("or", "e12 e13"), "g28": ("and", "g32 g33"), "g29": ("or", "e22 e23"), "g30": ("or", "e24 e25"),
    "g31": ("and", "g34 g35"), "g32": ("or", "e17 e18 e21"), "g33": ("or", "e19 e20"), "g34": ("or", "e19 e20 e21"),
    "g35": ("or", "e17 e18"),
}  # fmt: skip


@checked("Tree of 25 events, openpra-org/generic-openpsa-models and the tests of rakhimov/scram, 'Chinese'", "P")
def test_large_tree() -> None:
    """A tree of 25 events and 36 gates: 392 sets, 12 of two, 24 of four, 188 of five, 168 of six; 0.00457.

    The figure printed for the exact chance, 0.0045691, is off in its last place: going through all 2^25 states of this
    tree with 0.02 for each event gives 0.00456932, as the sets do.
    """
    answer = of_tree(LARGE, 6)
    sizes = [sum(len(one) == n for one in answer) for n in range(1, 7)]
    assert (sizes, len(answer)) == ([0, 12, 0, 24, 188, 168], 392)
    chances = dict.fromkeys(events_of(LARGE), 0.02)
    assert agrees(exact_chance(answer, chances), "0.00457")
    assert exact_chance(answer, chances) == pytest.approx(0.004569321780497458, rel=1e-12)
    assert agrees(sum_of_sets(answer, chances), "0.004804")


MOTORS = {
    "top": ("and", "closed kept"), "closed": ("or", "K5 fed5"), "fed5": ("and", "k1stays k3"), "k3": ("or", "T2 K5"),
    "kept": ("or", "K2 fed2"), "fed2": ("or", "T1 k1open"), "k1open": ("or", "K1 fed1"), "fed1": ("or", "timer by S1"),
    # The contacts of the three timers are true: the timer's circuit is made.
    "timer": ("and", ""), "by": ("or", "T3"),
    "k1stays": ("or", "K1 fed1inc"), "fed1inc": ("or", "three S1 T1inc"), "three": ("and", "one two four"),
    "one": ("or", "KT1inc T2inc"), "two": ("or", "KT2inc T3inc"), "four": ("or", "KT3inc T4inc"),
}  # fmt: skip


@checked("Three motors with relays and timers, test of rakhimov/scram, input/ThreeMotor", "P")
def test_three_motors() -> None:
    """Three motors, relays and timers: 12 sets; {K5}, {S1,T2}, {K1,T2}, {T1inc,T2} and eight of four; 0.0211538."""
    answer = of_tree(MOTORS)
    assert len(answer) == 12 and {one for one in answer if len(one) < 4} == sets("K5", "S1 T2", "K1 T2", "T1inc T2")
    assert sum(len(one) == 4 for one in answer) == 8
    chances = dict.fromkeys(events_of(MOTORS), 0.02)
    assert agrees(exact_chance(answer, chances), "0.0211538")
    assert agrees(sum_of_sets(answer, chances), "0.0212013")


TRAINS = {"top": ("and", "first second"), "first": ("or", "valve1 pump1"), "second": ("or", "valve2 pump2")}


@checked("Two trains of a valve and a pump, (1 - 0.5 * 0.3) squared; rakhimov/scram, input/TwoTrain", "F")
def test_two_trains() -> None:
    """Two trains of pump and valve: 0.7225."""
    answer = of_tree(TRAINS)
    assert answer == sets("valve1 valve2", "valve1 pump2", "pump1 valve2", "pump1 pump2")
    chances = {"valve1": 0.5, "valve2": 0.5, "pump1": 0.7, "pump2": 0.7}
    assert exact_chance(answer, chances) == pytest.approx(0.7225, abs=1e-15)


FULL_TANK = {
    "top": ("or", "n1 n2 n3 n4 n5 both"), "both": ("and", "first second"), "first": ("or", "n6 n7 n8"),
    "second": ("or", " ".join(f"n{i}" for i in range(9, 17))),
}  # fmt: skip


@checked("Barlow and Chatterjee, Introduction to Fault Tree Analysis, 1973, figures 6, 7, 10, as in yawnoc/sfta", "P")
def test_whole_pressure_tank() -> None:
    """Barlow and Chatterjee's pressure tank: 29 sets, five of one and 24 of two; sum 4.00124e-5."""
    answer = of_tree(FULL_TANK)
    assert [sum(len(one) == n for one in answer) for n in (1, 2, 3)] == [5, 24, 0]
    chances = {f"n{i}": 1e-5 for i in range(2, 17)} | {"n1": 1e-8}
    assert agrees(sum_of_sets(answer, chances), "4.00124e-5")


FIRE = {"top": ("or", "trigger x3 x4 late"), "trigger": ("and", "x1 x2"), "late": ("and", "x5 either"),
        "either": ("or", "x6 x7")}  # fmt: skip


@checked("Barrere and Hankin, arXiv 2007.08255, 2020, figure 1", "P")
def test_fire_protection() -> None:
    """Barrère and Hankin's fire protection: five sets, the likeliest 0.02; 0.0300217 exactly."""
    chances = {"x1": 0.2, "x2": 0.1, "x3": 0.001, "x4": 0.002, "x5": 0.05, "x6": 0.1, "x7": 0.05}
    answer = of_tree(FIRE)
    assert answer == sets("x1 x2", "x3", "x4", "x5 x6", "x5 x7")
    ranked = sorted((chance_of(one, chances) for one in answer), reverse=True)
    assert ranked == pytest.approx([0.02, 0.005, 0.0025, 0.002, 0.001])
    assert agrees(exact_chance(answer, chances), "0.0300217")


# --- diagnoses and hitting sets -------------------------------------------------------------------------------------

# What each of three multipliers and two adders says of the outputs x, y, z: coefficients and a sum.
POLYBOX = {"M1": (1, 0, 0, 6), "M2": (0, 1, 0, 6), "M3": (0, 0, 1, 6), "A1": (1, 1, 0, 10), "A2": (0, 1, 1, 12)}


def can_be(whole: Sequence[tuple[int, ...]]) -> bool:
    """Whether what whole parts say can all be true."""
    if not whole:
        return True
    rows = np.array(whole, dtype=float)
    return bool(np.linalg.matrix_rank(rows) == np.linalg.matrix_rank(rows[:, :-1]))


@checked("de Kleer and Williams, Artificial Intelligence 32, 1987, three multipliers and two adders", "P")
def test_polybox() -> None:
    """De Kleer and Williams' box: diagnoses {M1}, {A1}, {M2,M3}, {M2,A2}; conflicts {M1,M2,A1}, {M1,M3,A1,A2}."""
    parts = list(POLYBOX)
    diagnoses = found(parts, lambda wrong: can_be([row for part, row in POLYBOX.items() if part not in wrong]))
    assert diagnoses == sets("M1", "A1", "M2 M3", "M2 A2")
    conflicts = found(parts, lambda held: not can_be([POLYBOX[part] for part in sorted(held)]))
    assert conflicts == sets("M1 M2 A1", "M1 M3 A1 A2")
    assert set(hitting_sets(list(conflicts))) == diagnoses
    assert set(hitting_sets(list(diagnoses))) == conflicts


@checked("Reiter, Artificial Intelligence 32, 1987, the tree of hitting sets; the family from memory", "M")
def test_hitting_sets_of_seven() -> None:
    """Reiter's example: {1,2}, {2,3,6}, {2,5,6}, {1,3,4}, {1,4,5}, {3,4,6}."""
    family = [frozenset(map(int, one)) for one in ("245", "123", "135", "246", "24", "235", "16")]
    assert {"".join(map(str, sorted(one))) for one in hitting_sets(family)} == {"12", "236", "256", "134", "145", "346"}


@checked("Smallest example of hitting sets, a course guide on diagnosis", "P")
def test_hitting_sets_of_two() -> None:
    """{A,B} and {B,C}: {B} and {A,C}."""
    assert set(hitting_sets([frozenset("AB"), frozenset("BC")])) == {frozenset("B"), frozenset("AC")}


GATES = {"10": ("1", "3"), "11": ("3", "6"), "16": ("2", "11"), "19": ("11", "7"), "22": ("10", "16"),
         "23": ("16", "19")}  # fmt: skip


def outputs(inputs: Sequence[int], wrong: frozenset[str]) -> tuple[int, int]:
    """Lines 22 and 23 of the circuit; a gate that is wrong gives the opposite."""
    line = dict(zip(("1", "2", "3", "6", "7"), inputs, strict=True))
    for gate, (a, b) in GATES.items():
        line[gate] = (1 - (line[a] & line[b])) ^ (gate in wrong)
    return line["22"], line["23"]


@checked("ISCAS-85, circuit c17; netlist as published, table over its 32 inputs from two ways of running it", "F")
def test_circuit_of_six_gates() -> None:
    """ISCAS-85 c17: 22 = 00000000111111000000111111111111, 23 = 01010100111111000101010011111100."""
    every = list(product((0, 1), repeat=5))
    told = [outputs(inputs, frozenset()) for inputs in every]
    assert "".join(str(a) for a, _ in told) == "00000000111111000000111111111111"
    assert "".join(str(b) for _, b in told) == "01010100111111000101010011111100"
    for inputs, right in zip(every, told, strict=True):
        seen = (1 - right[0], right[1])
        answer = found(list(GATES), lambda wrong, i=inputs, s=seen: outputs(i, wrong) == s)  # type: ignore[misc]
        subsets = chain.from_iterable(combinations(GATES, n) for n in range(7))
        doing = [frozenset(one) for one in subsets if outputs(inputs, frozenset(one)) == seen]
        assert answer == {one for one in doing if not any(other < one for other in doing)}
        assert frozenset({"22"}) in answer


# --- type folders ---------------------------------------------------------------------------------------------------


def lost_by(folder: Folder, statement: str, size: int) -> Sets:
    """The minimal failure sets of a statement in a folder, by part, of those parts that are switched."""
    claim = folder.claim(f"in set up, at 20 s: {statement}")
    bound, _ = folder.workshop.bound(folder.subject())
    base = base_of(Question(claim.statement, claim.scope, bound, folder.loaded.told, folder.workshop))
    assert isinstance(base, Base)
    answer = failures(base, Bound(size))
    assert isinstance(answer, Failures) and answer.far.undecided == 0
    of = (twin for one in answer.sets for twin in (one.of, *one.twins))
    every = [frozenset((b.part, b.failure) for b in one) for one in of]
    switches = {name for name, part in bound.parts.items() if part.kind == "switch"}
    return {frozenset(part for part, _ in one) for one in every if all(part in switches for part, _ in one)}


BRIDGE = system(
    """
battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
supply: {kind: junction}
left: {kind: junction}
right: {kind: junction}
far: {kind: junction}
one: {kind: switch}
two: {kind: switch}
three: {kind: switch}
four: {kind: switch}
five: {kind: switch}
consumer: {kind: electrical load, current: 2 A, fed by: far.any}
""",
    """
battery > supply
supply > one > left
supply > two > right
left > three > far
right > four > far
left > five > right
""",
)


@checked("Two-terminal reliability of the bridge, 2p^2 + 2p^3 - 5p^4 + 2p^5; enumeration of 32 states agrees", "F")
def test_bridge_of_five_switches(tmp_path: Path) -> None:
    """The bridge, as a circuit of five switches: cuts {1,2}, {3,4}, {1,5,4}, {2,5,3}; 0.97848 at 0.9."""
    settings = ", ".join(f"{name}: on" for name in ("one", "two", "three", "four", "five"))
    situations = f"situations:\n  set up:\n    settle: 30 s\n    set: {{{settings}}}\n"
    folder = folder_at(tmp_path, {"systems/bridge.yaml": BRIDGE, "situations.yaml": situations})
    cuts = lost_by(folder, "consumer is working", 3)
    assert cuts == sets("one two", "three four", "one five four", "two five three")
    for p, printed in ((0.9, 0.97848), (0.95, 0.994780625), (0.99, 0.9997980498), (0.5, 0.5)):
        chances = dict.fromkeys(("one", "two", "three", "four", "five"), 1.0 - p)
        assert 1.0 - exact_chance(cuts, chances) == pytest.approx(printed, abs=1e-12)


SUPPLY = system(
    """
mains: {kind: battery, capacity: 100 Ah, voltage: 12 V}
generator: {kind: battery, capacity: 100 Ah, voltage: 12 V}
mains lead: {kind: switch}
generator lead: {kind: switch}
relay: {kind: switch}
theatre: {kind: junction}
lights: {kind: electrical load, current: 2 A, fed by: theatre.any}
""",
    """
mains > mains lead > theatre
generator > generator lead > relay > theatre
""",
)


@checked("Operating theatre supply, report printed with rakhimov/scram, input/Theatre, as a type folder", "P")
def test_theatre_supply_as_a_circuit(tmp_path: Path) -> None:
    """The same supply as a circuit: mains with the generator, or mains with its relay."""
    situations = "situations:\n  set up:\n    settle: 30 s\n    set: {mains lead: on, generator lead: on, relay: on}\n"
    folder = folder_at(tmp_path, {"systems/supply.yaml": SUPPLY, "situations.yaml": situations})
    found_sets = lost_by(folder, "lights are working", 2)
    assert found_sets == {frozenset({"mains lead", "generator lead"}), frozenset({"mains lead", "relay"})}
