"""An exploration says what the engine says: stops, what leads from one to the next, and what they have in common."""

import shutil
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from cutaway.api.loading import load
from cutaway.draw.showing import showing
from cutaway.inquiry.explore import Explored, Led, Refused, Unfollowed, begun, explored, walk_to
from cutaway.inquiry.explore_alike import Fineness
from cutaway.inquiry.explore_checked import disagreeing, legs_of, random_walks
from cutaway.inquiry.explore_choose import answering, chosen
from cutaway.inquiry.explore_ground import Movement, ground_for
from cutaway.inquiry.explore_told import Watch, happenings
from cutaway.inquiry.snapshot import in_situation
from cutaway.inquiry.told import legs_for
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.machine.names import signal_name
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import subjects

TRADE = Path(__file__).parents[1] / "trade"
FLAPS = TRADE / "01-flaps-and-accumulator"


class Grounds:
    """A folder's first standard, ready to be explored from a situation."""

    def __init__(self, folder: Path, system: str, situation: str, settle: float) -> None:
        loaded, _ = load(folder)
        assert loaded is not None
        self.workshop = Workshop(loaded.folder, loaded.kinds)
        self.subject = subjects(loaded.folder)[0]
        self.bound, _ = self.workshop.bound(self.subject)
        here = next(one for one in loaded.folder.situations if one.name == situation)
        self.seen = showing(loaded.folder, self.subject, system, loaded.kinds)
        legs = legs_for(loaded.folder, loaded.told, self.bound, in_situation(situation, here.span))
        shown = self.seen.signals & {name for name, _ in self.bound.network.signals}
        ground = ground_for(self.workshop, loaded.told, self.bound, legs, shown, settle, here.span)
        start = begun(ground, self.seen.of)
        assert not isinstance(start, Outcome)
        self.ground, self.start, self.waited = start

    def explored(self, controls: tuple[str, ...], most: int, watch: tuple[Watch, ...] = (), **more: Any) -> Explored:
        slots = tuple(slot for slot in self.bound.controls.values() if slot.input in controls)
        ground = replace(self.ground, controls=slots)
        return explored(ground, self.start, self.waited, self.seen.of, watch, most, **more)


@pytest.fixture(scope="module")
def flaps() -> Grounds:
    return Grounds(FLAPS, "Flaps", "flying", 60.0)


@pytest.fixture(scope="module")
def found(flaps: Grounds) -> Explored:
    watch = (Watch("flaps", signal_name("flaps", "down"), "down", ""),
             Watch("cut-out", signal_name("cut-out", "idling"), "idling", "charging"))  # fmt: skip
    return flaps.explored(("flap selector",), 150, watch)


def move(found: Explored, words: str, back: float = 0.0) -> Movement:
    return next(m for m in found.movements if m.words == words and m.back == back)


def go(found: Explored, *movements: Movement) -> int:
    at = 0
    for movement in movements:
        arc = found.stops[at].arcs[movement]
        assert isinstance(arc, Led), arc
        at = arc.to
    return at


def test_all_that_can_come_of_one_selector_is_found(found: Explored) -> None:
    assert found.whole
    assert 20 < len(found.stops) < 150
    for number, stop in enumerate(found.stops):
        # Where the selector stands it cannot be put, neither to be left nor to be let go.
        assert len(stop.arcs) == len(found.movements) - 2 == 5
        assert go(found, *walk_to(found, number)) == number


def test_random_walks_come_to_what_the_engine_comes_to(found: Explored, flaps: Grounds) -> None:
    walks = random_walks(found, 60, 10, seed=3)
    assert sum(len(walk.movements) > 5 for walk in walks) > 10
    assert len({walk.stops[-1] for walk in walks}) > 15
    assert list(disagreeing(found, walks, flaps.seen.of)) == []


def test_a_walk_to_another_stop_is_found_out(found: Explored, flaps: Grounds) -> None:
    """The check bites: a walk that is said to end elsewhere disagrees."""
    walk = next(w for w in random_walks(found, 20, 6, seed=5) if w.stops[-1] != 0)
    wrong = replace(walk, stops=(*walk.stops[:-1], 0))
    assert list(disagreeing(found, [wrong], flaps.seen.of)) == [wrong]


def test_flaps_that_stick_go_down_once_the_selector_is_reversed(found: Explored) -> None:
    down, wait = move(found, "down"), move(found, "")
    stuck = go(found, down, wait, wait)
    angle = signal_name("flaps", "angle")
    assert 0.3 < found.stops[stuck].here.values[angle] < 0.5
    assert go(found, down, wait, wait, wait) == stuck  # waiting helps nothing
    free = go(found, down, wait, wait, move(found, "up", back=1.0))
    assert found.stops[free].here.values[angle] > 1.0
    arc = found.stops[stuck].arcs[move(found, "up", back=1.0)]
    assert isinstance(arc, Led)
    told = [(one.part, one.words) for one in arc.happened]
    assert told == [("cut-out", "charging"), ("flaps", "down"), ("cut-out", "idling")]
    assert 0.0 < arc.happened[0].time < arc.happened[1].time < arc.happened[2].time < 30.0


def test_beyond_the_bound_nothing_is_told(flaps: Grounds) -> None:
    few = flaps.explored(("flap selector",), 4)
    assert len(few.stops) == 4 and not few.whole
    arcs = [arc for stop in few.stops for arc in stop.arcs.values()]
    assert Unfollowed("bound") in arcs
    assert all(arc.to < 4 for arc in arcs if isinstance(arc, Led))


def test_one_may_stop_and_keep_what_is_known(flaps: Grounds) -> None:
    none = flaps.explored(("flap selector",), 50, stop=lambda: True)
    assert len(none.stops) == 1 and not none.whole


def test_what_is_burnt_is_kept(found: Explored, flaps: Grounds) -> None:
    """The tank of a running engine holds after a long walk what it held at the beginning."""
    assert [one.element for one in found.ground.kept] == ["tank.fuel"]
    walk = max(random_walks(found, 20, 10, seed=2), key=lambda w: len(w.movements))
    legs = legs_of(found, walk.movements)
    (run,) = flaps.workshop.runs([Request(found.ground.made, legs, (), 0.05)])
    assert not isinstance(run, Outcome)
    name = signal_name("tank", "contents")
    assert run.column(name)[-1] == pytest.approx(found.stops[0].here.values[name], rel=1e-4)


def test_controls_are_chosen_by_what_they_change(flaps: Grounds) -> None:
    own = frozenset(flaps.seen.parts)
    slots = chosen(flaps.ground, flaps.start, flaps.seen.pieces, own, 3)
    assert "flap selector" in {slot.input for slot in slots}
    assert {slot.input for slot in slots} <= {"flap selector", "ignition switch", "throttle"}
    assert [s.input for s in chosen(flaps.ground, flaps.start, flaps.seen.pieces, own, 1)] == ["flap selector"]


def test_what_answers_to_no_control_is_not_told_of(flaps: Grounds, found: Explored) -> None:
    def pieces(values: Any) -> tuple[bool, float]:
        return values[signal_name("flaps", "angle")] > 0.1, values["set throttle"]

    assert answering(found.ground, flaps.start, pieces) == (True, False)


@dataclass
class Traced:
    names: tuple[str, ...]
    times: Any
    values: Any


def test_a_state_that_comes_and_goes_is_told_once() -> None:
    run = Traced(("x",), np.arange(8.0), np.array([[0], [1], [0], [1], [0], [1], [0], [1]], float))
    (on, off) = happenings(run, (Watch("lamp", "x", "lit", "out"),))  # type: ignore[arg-type]
    assert (on.words, on.time, on.times) == ("lit", 1.0, 4)
    assert (off.words, off.time, off.times) == ("out", 2.0, 3)


def test_a_movement_that_a_rule_forbids_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / "ruled"
    shutil.copytree(FLAPS, folder)
    file = folder / "systems" / "hydraulics.yaml"
    text = file.read_text(encoding="utf-8")
    old = "flap selector: {kind: selector valve, flow: 30 gal/h}"
    assert old in text
    new = old.replace("}", ", rules: [{to: down, only when: throttle is closed}]}")
    file.write_text(text.replace(old, new), encoding="utf-8")
    grounds = Grounds(folder, "Flaps", "flying", 20.0)
    found = grounds.explored(("flap selector", "throttle"), 12)
    arc = found.stops[0].arcs[move(found, "down")]
    assert isinstance(arc, Refused) and arc.asks == ("throttle is closed",)
    closed = found.stops[0].arcs[next(m for m in found.movements if m.part == "throttle" and m.value == 0.0)]
    assert isinstance(closed, Led)
    assert not isinstance(found.stops[closed.to].arcs[move(found, "down")], Refused)


def test_the_finer_the_more_is_kept_apart(flaps: Grounds) -> None:
    coarse, fine = (
        flaps.explored(("flap selector",), 60, fine=Fineness(stores, pipes))
        for stores, pipes in ((1.0, 10.0), (1e-9, 1e-9))
    )
    led = [sum(isinstance(arc, Led) for stop in one.stops for arc in stop.arcs.values()) for one in (coarse, fine)]
    assert coarse.whole and not fine.whole
    assert len(coarse.stops) < 60 == len(fine.stops) and led[1] < 5 * 60
