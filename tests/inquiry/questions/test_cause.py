"""The chain of cause: right on random circuits and pipes, and as a handbook would tell it on the Whinchat."""

from pathlib import Path

import pytest

from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.cause import MOST_LINKS, chain
from cutaway.inquiry.questions.links import Broken, Charged, Cut, Fed, Is, Link, Reads, Stands, Tied, Unjoined, Unmoved
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.search.changes import Alteration, Put, in_words
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.trying import Trying, holds
from cutaway.inquiry.search.universe import universe
from cutaway.wording.links import link_words
from cutaway.wording.why import because_lines
from tests.inquiry.folders import Folder, folder_at, system
from tests.inquiry.questions.asking import base
from tests.inquiry.search.random_folders import random_folder

SYSTEMS = 60


def links_of(found: Base) -> tuple[bool, tuple[Link, ...]]:
    looked = holds(found).looked
    assert isinstance(looked, Looked)
    return looked.decision.holds, chain(found, looked)


def of_random(folder: Path, number: int) -> Base:
    files, claim = random_folder(number)
    opened = folder_at(folder, files)
    read = opened.claim(claim)
    bound, _ = opened.workshop.bound(opened.subject())
    found = base_of(Question(read.statement, read.scope, bound, opened.loaded.told, opened.workshop))
    assert isinstance(found, Base)
    return found


def test_on_random_systems_the_way_alone_feeds_and_the_cut_alone_was_missing(tmp_path: Path) -> None:
    fed = cut = 0
    for number in range(SYSTEMS):
        found = of_random(tmp_path / str(number), number)
        puts = [a for a in universe(found, frozenset({"control"})) if isinstance(a, Put)]
        so, links = links_of(found)
        assert len(links) <= MOST_LINKS
        if so:
            ways = [one for one in links if isinstance(one, Fed)]
            assert len(ways) == 1 and ways[0].supply == "supply", (number, links)
            on_the_way = {step.part for step in ways[0].steps}
            # Everything that can be shut besides what stands on the way is shut: it is fed all the same.
            shut = frozenset(a for a in puts if a.part not in on_the_way and a.words in ("off", "idle"))
            made = {p.name for p in found.question.bound.parts.values() if p.kind == "interlocked switch"}
            if not made & on_the_way:
                assert Trying(found, wanted=True)([shut]) == [True], (number, links)
                fed += 1
        else:
            gaps = [one for one in links if isinstance(one, Cut)]
            assert len(gaps) == 1, (number, links)
            missing = {step.part for step in gaps[0].steps}
            opened = frozenset(a for a in puts if a.part in missing and a.words == "on")
            assert {a.part for a in opened} == missing
            assert Trying(found, wanted=True)([opened]) == [True], (number, links)
            search: Search[Alteration] = Search()
            smallest = min(map(len, minimal_sets(puts, Trying(found, wanted=True), Bound(3), search)), default=4)
            linked = any(p.kind == "interlocked switch" for p in found.question.bound.parts.values())
            assert len(missing) == smallest or linked, (number, links)
            cut += 1
    assert fed >= 30 and cut >= 8


def test_a_lamp_that_is_fed_by_current_for_want_of_pressure() -> None:
    so, links = links_of(base("fuel lamp is lit", "cruising", given=("tank selector blocked",)))
    assert so and links[0] == Is("fuel lamp", "lit", links[0].cites)  # type: ignore[union-attr]
    reads = [(one.what, one.above) for one in links if isinstance(one, Reads)]
    assert ("carburettor inlet", False) in reads and ("fuel lamp", True) in reads
    (current,) = (one for one in links if isinstance(one, Fed))
    assert (current.supply, current.medium) == ("battery", "current")
    steps = [(step.part, step.setting) for step in current.steps]
    assert steps == [("battery switch", "on"), ("instrument fuse", "whole"), ("instrument switch", "on")]
    (petrol,) = (one for one in links if isinstance(one, Cut))
    assert (petrol.supply, petrol.steps[0].failure) == ("port tank", "blocked")
    assert [(one.part, one.failure) for one in links if isinstance(one, Broken)] == [("tank selector", "blocked")]


def test_across_a_coupling_from_the_pump_to_the_engine() -> None:
    so, links = links_of(base("fuel lamp is out", "cruising"))
    assert so
    (way,) = (one for one in links if isinstance(one, Fed))
    assert [step.part for step in way.steps] == ["tank selector", "filter", "engine pump"]
    assert way.steps[0].setting == "port tank"
    tied = {(one.part, one.by, one.to, one.state) for one in links if isinstance(one, Tied)}
    assert ("engine pump", "driven by", "engine", "running") in tied
    assert Stands("ignition switch", "both", ()) in [
        Stands(s.control, s.position, ()) for s in links if isinstance(s, Stands)
    ]


def test_suction_is_drawn_and_is_missing() -> None:
    so, links = links_of(base("flying instruments", "cruising"))
    drawn = [one for one in links if isinstance(one, Fed) and one.drawn]
    assert so and drawn and drawn[0].supply == "vacuum pump"
    so, links = links_of(base("flying instruments", "parked"))
    gaps = [one for one in links if isinstance(one, Cut)]
    assert not so and gaps and gaps[0].drawn and gaps[0].steps[0].part == "vacuum pump"
    assert any(isinstance(one, Tied) and (one.to, one.state) == ("engine", "stopped") for one in links)


def test_what_is_dead_tells_every_switch_in_its_way() -> None:
    so, links = links_of(base("fuel lamp is lit", "parked"))
    (gap,) = (one for one in links if isinstance(one, Cut))
    assert not so and {step.part for step in gap.steps} == {"battery switch", "instrument switch"}
    assert gap.supply == "battery" and {step.setting for step in gap.steps} == {"off"}


def test_a_pump_that_stands_still_beside_its_by_pass() -> None:
    _, links = links_of(base("fuel lamp is lit", "cruising", given=("engine pump seized",)))
    (gap,) = (one for one in links if isinstance(one, Cut))
    assert [(step.part, step.failure) for step in gap.steps] == [("engine pump", "seized")]


@pytest.mark.parametrize("situation", ["parked", "cruising", "gliding"])
@pytest.mark.parametrize("statement", ["fuel lamp is lit", "engine is running", "flying instruments", "flaps are down"])
def test_every_link_is_cited_or_a_condition(statement: str, situation: str) -> None:
    _, links = links_of(base(statement, situation))
    assert links and len(set(links)) == len(links)
    assert all(one.cites for one in links if hasattr(one, "cites"))


def test_in_words_tells_a_change() -> None:
    assert in_words(Put("tank selector", "", "tank selector", 0.0, "off")) == "tank selector at off"


LOOSE = system(
    """
battery: {kind: battery, voltage: 12 V, capacity: 30 Ah}
main switch: {kind: switch}
lamp: {kind: filament lamp}
lone lamp: {kind: filament lamp}
far lamp: {kind: filament lamp}
far switch: {kind: switch}
throttle: {kind: throttle}
ignition: {kind: magneto switch}
tank: {kind: tank, capacity: 10 gal}
petrol cock: {kind: cock}
carburettor: {kind: carburettor, lowest pressure: 0.1 lb/sq in}
engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: ignition}
compressor: {kind: air compressor, driven by: engine, delivery: 2 cu ft/min}
bottle: {kind: air bottle, volume: 0.2 cu ft}
""",
    """
battery > main switch > lamp
far switch > far lamp
tank > petrol cock > carburettor
compressor > bottle
""",
)


@pytest.fixture(scope="module")
def loose(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    """Lamps that nothing feeds, and an air bottle that nobody has charged."""
    return folder_at(tmp_path_factory.mktemp("loose"), {"systems/a.yaml": LOOSE})


def told_of(loose: Folder, claim: str) -> tuple[tuple[Link, ...], list[str]]:
    read = loose.claim(claim)
    bound, _ = loose.workshop.bound(loose.subject())
    found = base_of(Question(read.statement, read.scope, bound, loose.loaded.told, loose.workshop))
    assert isinstance(found, Base)
    _, links = links_of(found)
    return links, [link_words(one, loose.loaded.folder) for one in links]


def test_what_nothing_is_joined_to_is_said_to_be_so(loose: Folder) -> None:
    links, words = told_of(loose, "lone lamp is out")
    assert links[1:] == (Unjoined("lone lamp", "current", False, False, ()),)
    assert words[1] == "nothing that gives current is joined to the lone lamp"
    links, words = told_of(loose, "far lamp is out")
    assert links[1:] == (Unjoined("far lamp", "current", False, True, ()),)
    assert words[1].endswith("the far lamp, directly or by way of others")
    assert not any(isinstance(one, Unjoined) for one in told_of(loose, "lamp is out")[0])


def test_an_empty_bottle_leads_to_what_would_fill_it(loose: Folder) -> None:
    links, words = told_of(loose, "bottle is above 100 lb/sq in")
    (gap,) = (one for one in links if isinstance(one, Cut) and one.medium == "air")
    assert (gap.part, gap.supply, [step.part for step in gap.steps]) == ("bottle", "compressor", ["compressor"])
    assert "no air comes to the bottle from the compressor, because the compressor gives nothing" in words
    assert any(isinstance(one, Tied) and (one.part, one.to) == ("compressor", "engine") for one in links)


def test_a_gauge_of_an_accumulator_leads_to_what_filled_it_and_to_what_let_the_pump_off(tmp_path: Path) -> None:
    parts = """
reservoir: {kind: reservoir, capacity: 1 gal}
hand pump: {kind: hydraulic hand pump, stroke: 40 cc}
cut-out: {kind: automatic cut-out, cut-out: 500 lb/sq in, cut-in: 400 lb/sq in}
accumulator: {kind: accumulator, volume: 20 cu in, air pressure: 200 lb/sq in}
gauge: {kind: oil pressure gauge, senses: accumulator.oil}
"""
    lines = "reservoir > hand pump > cut-out > accumulator\ncut-out.return > reservoir"
    pumped = folder_at(tmp_path, {"systems/a.yaml": system(parts, lines)})
    links, words = told_of(pumped, "with hand pump pumping: gauge reads above 300 lb/sq in")
    (held,) = (one for one in links if isinstance(one, Charged))
    assert (held.part, held.supply) == ("accumulator", "reservoir")
    assert [(step.part, step.setting) for step in held.steps] == [("hand pump", "pumping"), ("cut-out", "idling")]
    assert any("at which the cut-out becomes" in one and "00 lb/sq in" in one for one in words), words
    assert not any("from the accumulator" in one and "gauge" in one for one in words), words


LEG = """
reservoir: {kind: reservoir, capacity: 1 gal}
hand pump: {kind: hydraulic hand pump, stroke: 40 cc}
cut-out: {kind: automatic cut-out, cut-out: 500 lb/sq in, cut-in: 400 lb/sq in}
accumulator: {kind: accumulator, volume: 20 cu in, air pressure: 200 lb/sq in}
lever: {kind: two-position selector}
leg jack: {kind: jack, area: 1 sq in, stroke: 4 in}
leg: {kind: leg, moved by: leg jack}
"""
LEG_LINES = """
reservoir > hand pump > cut-out > accumulator
cut-out.return > reservoir
accumulator > lever > reservoir
lever.down > leg jack.extend
lever.up > leg jack.retract
"""


@pytest.fixture(scope="module")
def legged(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    """A leg that an accumulator moves, which a hand pump fills."""
    return folder_at(tmp_path_factory.mktemp("legged"), {"systems/a.yaml": system(LEG, LEG_LINES)})


def test_a_leg_leads_past_its_jack_and_the_accumulator_to_the_pump(legged: Folder) -> None:
    links, words = told_of(legged, "with hand pump pumping: leg is locked down")
    (fed,) = (one for one in links if isinstance(one, Fed) and one.part == "leg jack")
    assert (fed.supply, [step.part for step in fed.steps]) == ("accumulator", ["lever"])
    (held,) = (one for one in links if isinstance(one, Charged))
    assert (held.part, held.supply) == ("accumulator", "reservoir")
    assert "hand pump" in [step.part for step in held.steps]
    assert not any(isinstance(one, Unmoved) for one in links)
    # That the cut-out has the pressure of what it fills says nothing more.
    assert not any("comes to the cut-out from the accumulator" in one for one in words), words


def test_a_leg_that_nothing_pushes_stays_as_it_is(legged: Folder) -> None:
    links, words = told_of(legged, "leg is locked down")
    assert [one.part for one in links if isinstance(one, Unmoved)] == ["leg jack"]
    assert "nothing pushes the leg jack either way, and so it stays as it is" in words


def test_a_chain_that_comes_round_says_so(loose: Folder) -> None:
    begin = Is("engine", "stopped", ())
    pump = Tied("pump", "driven by", "engine", "stopped", ())
    cut = Cut("carburettor", "tank", (), "petrol", False, ())
    lines = because_lines((begin, cut, pump), loose.loaded.folder)
    assert (
        lines[-1]
        == "The pump is driven by the engine, which is stopped: there the chain comes round to where it began."
    )
    assert "comes round" not in because_lines((Is("lamp", "lit", ()), cut, pump), loose.loaded.folder)[-1]


SERIES = """
    tank: {kind: tank, capacity: 20 gal}
    cock: {kind: cock}
    hand pump: {kind: hand fuel pump}
    mains: {kind: external supply socket}
    drive: {kind: electric motor, fed by: mains.outlet}
    driven pump: {kind: engine-driven fuel pump, driven by: drive}
    carburettor: {kind: carburettor, full flow: 10 gal/h}
    spout: {kind: jettison valve, flow: 5 gal/h}
"""


def test_a_pump_at_rest_that_lets_petrol_by_is_named_only_where_nothing_else_pumps(tmp_path: Path) -> None:
    lines = "tank > cock > hand pump > driven pump > carburettor\ndriven pump.outlet > spout"
    opened = folder_at(tmp_path, {"systems/fuel.yaml": system(SERIES, lines)})
    bound, _ = opened.workshop.bound(opened.subject())

    def steps(claim: str) -> list[str]:
        read = opened.claim(claim)
        found = base_of(Question(read.statement, read.scope, bound, opened.loaded.told, opened.workshop))
        assert isinstance(found, Base)
        so, links = links_of(found)
        (cut,) = (one for one in links if isinstance(one, Cut) and one.medium == "petrol")
        assert not so
        return sorted(step.part for step in cut.steps)

    pumped = "with spout at open, with mains at connected"
    assert steps(f"{pumped}, with cock at off: carburettor is fed") == ["cock"]
    assert steps("with cock at off: carburettor is fed") == ["cock", "driven pump", "hand pump"]
    assert steps("with cock at on: carburettor is fed") == ["driven pump", "hand pump"]
    assert steps(f"{pumped}, with cock at on, with tank 0 gal: carburettor is fed") == []
