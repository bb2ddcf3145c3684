"""Every sort of moment end to end: a hand pump empties a tank, whose time is its volume by the pump's flow."""

import pytest

from cutaway.inquiry.course import course_of
from cutaway.inquiry.verdicts import Empty, Fails, Holds, Undecided
from tests.inquiry.folders import PUMPED, SITUATIONS, Folder, folder_at

# One gallon is 277.42 cu in; two cubic inches a stroke and sixty strokes a minute. The pump is no perfect pump, and a
# tank is called empty when next to nothing is left: two parts in a hundred.
EMPTYING = 277.42 / 2.0
NEAR = 0.02


@pytest.fixture(scope="module")
def pumped(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("pumped"), {"systems/fuel.yaml": PUMPED, "situations.yaml": SITUATIONS})


def test_within(pumped: Folder) -> None:
    verdict = pumped.verdict("in standing, after pump to pumping, within 200 s: upper tank is empty")
    assert isinstance(verdict, Holds)
    assert verdict.at == pytest.approx(EMPTYING, rel=NEAR)


def test_within_too_little_time_says_when_it_comes(pumped: Folder) -> None:
    verdict = pumped.verdict("in standing, after pump to pumping, within 60 s: upper tank is empty")
    assert isinstance(verdict, Fails) and verdict.why == "too late"
    assert verdict.at == pytest.approx(EMPTYING, rel=NEAR)


def test_takes(pumped: Folder) -> None:
    holds = pumped.verdict("in standing, after pump to pumping, takes 2 to 2.5 min: upper tank is empty")
    assert isinstance(holds, Holds) and holds.at == pytest.approx(EMPTYING, rel=NEAR)
    early = pumped.verdict("in standing, after pump to pumping, takes 3 to 5 min: upper tank is empty")
    assert isinstance(early, Fails) and early.why == "too early"


def test_at_reads_the_content_at_that_moment(pumped: Folder) -> None:
    # After 60 s of pumping 120 cu in of 277.42 have gone.
    left = 1.0 - 120.0 / 277.42
    verdict = pumped.verdict(
        f"in standing, after pump to pumping for 60 s, at 120 s: upper tank reads {left:.3f} gal ± 0.01"
    )
    assert isinstance(verdict, Holds)
    wrong = pumped.verdict("in standing, after pump to pumping for 60 s, at 120 s: upper tank reads 0.9 gal ± 0.01")
    assert isinstance(wrong, Fails) and wrong.why == "not so"
    (seen,) = wrong.seen
    assert seen.value == pytest.approx(left * 0.00454609, rel=NEAR)


def test_throughout(pumped: Folder) -> None:
    start = "in standing, after pump to pumping, throughout"
    assert isinstance(pumped.verdict(f"{start} 2 min: upper tank is not empty"), Holds)
    stops = pumped.verdict(f"{start} 5 min: upper tank is not empty")
    assert isinstance(stops, Fails) and stops.why == "stopped being so"
    assert stops.at == pytest.approx(EMPTYING, rel=NEAR)


def test_never_is_watched_until_nothing_moves(pumped: Folder) -> None:
    assert isinstance(pumped.verdict("in standing, after cock to off, never: upper tank is empty"), Holds)
    was = pumped.verdict("in standing, after pump to pumping, never: upper tank is empty")
    assert isinstance(was, Fails) and was.why == "was so"
    assert was.at == pytest.approx(EMPTYING, rel=NEAR)


def test_what_ends_with_the_action_was_never_so_after_it(pumped: Folder) -> None:
    assert isinstance(pumped.verdict("in standing, after cock to off, never: cock is on"), Holds)
    taken = pumped.verdict("in standing, after cock to off, takes 0 to 5 s: cock is on")
    assert isinstance(taken, Fails) and taken.why == "never came"


def test_settled_is_read_while_tanks_slowly_empty(pumped: Folder) -> None:
    # Two minutes of pumping have left petrol in the tank: that it is empty in the end must be claimed with a time.
    settled = pumped.verdict("in standing, after pump to pumping: upper tank is empty")
    assert isinstance(settled, Fails) and settled.why == "not so" and settled.at == pytest.approx(120.0)


def test_settled_without_actions_is_read_at_the_end_of_the_situation(pumped: Folder) -> None:
    assert isinstance(pumped.verdict("in standing: upper tank reads 1.00 gal and lower tank reads 1.00 gal"), Holds)


def test_the_clock_starts_with_the_last_action_and_moves_on_with_a_wait(pumped: Folder) -> None:
    waited = pumped.verdict("in standing, after pump to pumping then wait 60 s, within 200 s: upper tank is empty")
    assert isinstance(waited, Holds) and waited.at == pytest.approx(EMPTYING - 60.0, abs=3.0)
    later = pumped.verdict(
        "in standing, after pump to pumping for 60 s then cock to off then cock to on then pump to pumping, "
        "within 200 s: upper tank is empty"
    )
    assert isinstance(later, Holds) and later.at == pytest.approx(EMPTYING - 60.0, abs=3.0)


def test_a_condition_that_never_arises_is_empty(pumped: Folder) -> None:
    held = pumped.verdict("in standing, with cock at on: upper tank is empty if cock is off")
    assert isinstance(held, Empty) and held.condition == "cock is off"
    some = pumped.verdict("in standing, with cock at on, sometimes: upper tank is not empty if cock is off")
    assert isinstance(some, Empty)
    each = pumped.verdict(
        "in standing, with cock at on: (upper tank is not empty if cock is on) and (lower tank is empty if cock is off)"
    )
    assert isinstance(each, Empty) and each.condition == "cock is off"
    only = pumped.verdict("in standing: upper tank is empty only if cock is off")
    assert isinstance(only, Empty) and only.condition == "upper tank is empty"


def test_a_range_is_tried_at_its_ends_and_middle_and_says_at_which_it_fails(pumped: Folder) -> None:
    scope = "in standing, with upper tank at 0.2 to 1 gal, after pump to pumping, within"
    assert isinstance(pumped.verdict(f"{scope} 145 s: upper tank is empty"), Holds)
    verdict = pumped.verdict(f"{scope} 60 s: upper tank is empty")
    assert isinstance(verdict, Fails) and verdict.counterexample is not None
    assert verdict.counterexample.chosen == (("upper tank", "0.6 gal"),)
    always = pumped.verdict(
        "in standing, with upper tank at 0.2 to 1 gal, always: upper tank is not empty if pump is idle"
    )
    assert isinstance(always, Holds) and always.tried == 6


def test_sometimes_with_a_moment(pumped: Folder) -> None:
    witness = pumped.verdict("in standing, sometimes, within 200 s: upper tank is empty")
    assert isinstance(witness, Holds) and witness.witness is not None
    assert witness.witness.chosen == (("pump", "pumping"),)
    none = pumped.verdict("in standing, sometimes, at 20 s: upper tank is empty")
    assert isinstance(none, Fails) and none.why == "no case" and none.tried == 4


def test_what_a_bound_leaves_out_is_undecided_and_not_true(pumped: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutaway.inquiry.check.NEAREST", 1)
    monkeypatch.setattr("cutaway.inquiry.check.MOST_COMBINATIONS", 2)
    verdict = pumped.verdict("in standing, always: upper tank is not empty")
    assert isinstance(verdict, Undecided) and "of 4 combinations" in verdict.because


def test_a_control_is_held_while_others_are_moved(pumped: Folder) -> None:
    """The same strokes as with 'for': it is let go when the wait is over, or a moment after the last that was moved."""
    left = 1.0 - 120.0 / 277.42
    reads = f"upper tank reads {left:.3f} gal ± 0.01"
    assert isinstance(pumped.verdict(f"in standing, after pump to pumping while wait 60 s, at 60 s: {reads}"), Holds)
    both = "after pump to pumping while (cock to off then wait 5 s)"
    assert isinstance(pumped.verdict(f"in standing, {both}, within 1 s: pump is idle"), Holds)
    assert isinstance(pumped.verdict(f"in standing, {both} then wait 1 s, at 1 s: pump is pumping"), Fails)


def test_when_each_is_moved_and_let_go(pumped: Folder) -> None:
    bound, _ = pumped.workshop.bound(pumped.subject())
    during = "cock to on then wait 5 s then cock to off"
    claim = pumped.claim(f"after pump to pumping while ({during}) then cock to on: cock is on")
    moved = course_of(claim.scope.actions, bound, 0.0, {}).movements
    assert [(m.time, m.position) for m in moved] == [
        (0.0, "pumping"), (1.0, "on"), (6.0, "off"), (7.0, "idle"), (8.0, "on"),
    ]  # fmt: skip
