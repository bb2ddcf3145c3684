"""Which assumed values can turn a verdict over, against times worked out by hand."""

from collections.abc import Callable
from pathlib import Path

import pytest

from cutaway.inquiry.check import never, not_yet, verdict_for
from cutaway.inquiry.likeliest import Sensed
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.verdicts import NOT_YET, TOO_MANY, Fails, Holds, RestsOn, Verdict
from tests.inquiry.folders import SITUATIONS, Folder, folder_at, system


def pumped(folder: Path, stroke: str, rate: str) -> Folder:
    """A gallon (277.42 cu in) pumped out with a stroke and a rate that no book gives."""
    parts = system(
        f"""
upper tank: {{kind: tank, capacity: 1 gal}}
lower tank: {{kind: tank, capacity: 4 gal}}
pump:
  kind: hand fuel pump
  stroke: {stroke}
  rate: {rate}
valve: {{kind: fuel relief valve, set at: 2 lb/sq in}}
cock: {{kind: cock}}
lamp switch: {{kind: switch}}
""",
        "upper tank > cock > pump > valve\nvalve.outlet > lower tank.outlet",
    )
    return folder_at(folder, {"systems/fuel.yaml": parts, "situations.yaml": SITUATIONS})


def assumed(value: str, between: str) -> str:
    return f"{{assume: {value}, between: {between}, because: Nobody says.}}"


def test_one_value_that_turns_it_over_and_where(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    verdict = folder.verdict("in standing, after pump to pumping, within 200 s: upper tank is empty", rests=True)
    assert isinstance(verdict, RestsOn) and isinstance(verdict.nominal, Holds) and not verdict.together
    (one,) = verdict.influences
    assert (one.part, one.value, one.stated, one.between) == ("pump", "stroke", "2 cu in", "1 to 3 cu in")
    # 277.42 cu in in 200 s at a stroke a second: 1.387 cu in.
    assert one.flips == "below about 1.4 cu in"


def test_a_failure_can_rest_on_a_value_as_well(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1.5 to 4 cu in"), "60 strokes/min")
    verdict = folder.verdict("in standing, after pump to pumping, within 90 s: upper tank is empty", rests=True)
    assert isinstance(verdict, RestsOn) and isinstance(verdict.nominal, Fails)
    (one,) = verdict.influences
    assert one.value == "stroke" and one.flips in ("above about 3 cu in", "above about 3.1 cu in")


def test_two_values_that_turn_it_over_only_together(tmp_path: Path) -> None:
    # By itself the stroke takes it to 173 s and the rate to 166 s, both to 208 s.
    folder = pumped(tmp_path, assumed("2 cu in", "1.6 to 2.1 cu in"), assumed("60 strokes/min", "50 to 61 strokes/min"))
    claim = "in standing, after pump to pumping, within 190 s: upper tank is empty"
    verdict = folder.verdict(claim, rests=True)
    assert isinstance(verdict, RestsOn) and verdict.together
    assert {(i.part, i.value, i.flips) for i in verdict.influences} == {
        ("pump", "stroke", "at the low end of its range"),
        ("pump", "rate", "at the low end of its range"),
    }


def test_a_reading_at_rest_can_rest_on_two_values_together(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1.6 to 2.1 cu in"), assumed("60 strokes/min", "50 to 61 strokes/min"))
    # In 60 s 120 cu in go as stated; 96 or 100 with one of them low, 80 with both: left are 0.57, 0.65, 0.64, 0.71 gal.
    claim = "in standing, after pump to pumping for 60 s, at 90 s: upper tank is below 0.68 gal"
    verdict = folder.verdict(claim, rests=True)
    assert isinstance(verdict, RestsOn) and verdict.together
    assert {i.value for i in verdict.influences} == {"stroke", "rate"}


def test_none_where_no_value_can_turn_it_over(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1.6 to 2.1 cu in"), assumed("60 strokes/min", "50 to 61 strokes/min"))
    verdict = folder.verdict("in standing, after pump to pumping, within 250 s: upper tank is empty", rests=True)
    assert isinstance(verdict, Holds) and verdict.assumed >= 2


def test_what_cannot_reach_the_statement_is_not_run(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1.6 to 2.1 cu in"), "60 strokes/min")
    before = folder.workshop.runs_made
    verdict = folder.verdict("in standing, after lamp switch to on, within 1 s: lamp switch is on", rests=True)
    assert isinstance(verdict, Holds) and verdict.assumed == 0
    assert folder.workshop.runs_made - before <= 2


def test_undecided_at_an_end_is_not_counted_as_tried(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from cutaway.inquiry import resting
    from cutaway.inquiry.memory import Came

    folder = pumped(tmp_path, assumed("2 cu in", "1.9 to 2.1 cu in"), "60 strokes/min")
    claim = "in standing, after pump to pumping, within 250 s: upper tank is empty"
    whole = folder.verdict(claim, rests=True)
    assert isinstance(whole, Holds)
    run = resting._run

    def one_gives_up(bench, variants):  # type: ignore[no-untyped-def]
        found = run(bench, variants)
        return [
            Came(None, None) if v.ends[0][0].value == "stroke" else one for v, one in zip(variants, found, strict=True)
        ]

    monkeypatch.setattr(resting, "_run", one_gives_up)
    fewer = folder.verdict(claim, rests=True)
    assert isinstance(fewer, Holds) and fewer.assumed == whole.assumed - 1


def test_too_many_runs_are_said_and_not_passed_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutaway.inquiry.resting.MOST_RUNS", 1)
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    verdict = folder.verdict("in standing, after pump to pumping, within 200 s: upper tank is empty", rests=True)
    assert isinstance(verdict, Holds) and verdict.assumed == TOO_MANY


def test_what_was_tried_before_it_was_stopped_is_not_run_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutaway.inquiry.resting.BATCH", 1)
    stroke, rate = assumed("2 cu in", "1.6 to 2.1 cu in"), assumed("60 strokes/min", "50 to 61 strokes/min")
    text = "in standing, after pump to pumping, within 250 s: upper tank is empty"

    def verdict(memory: Memory, stop: Callable[[], bool]) -> tuple[Verdict, int]:
        folder = pumped(tmp_path, stroke, rate)  # opened anew, as in another session
        shop = folder.workshop
        found = verdict_for(folder.claim(text), folder.subject(), shop, folder.loaded.told, True, memory, stop)
        return found, shop.runs_made

    whole, in_one_go = verdict(Memory(None), never)
    assert isinstance(whole, Holds) and whole.assumed >= 2
    memory, asked = Memory(tmp_path / "kept.sqlite"), iter([False, False, False, True])
    part, first = verdict(memory, lambda: next(asked, True))
    assert isinstance(part, Holds) and part.assumed == NOT_YET and part.at == whole.at
    rest, second = verdict(Memory(tmp_path / "kept.sqlite"), never)
    assert rest == whole
    assert 0 < second < in_one_go and first < in_one_go
    again, none = verdict(Memory(tmp_path / "kept.sqlite"), never)
    assert again == whole and none == 0


def test_stopped_at_once_it_is_told_as_stated_and_that_is_remembered(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    claim, memory = folder.claim("in standing, after pump to pumping, within 200 s: upper tank is empty"), Memory(None)
    asked = (claim, folder.subject(), folder.workshop, folder.loaded.told)
    verdict = verdict_for(*asked, True, memory, lambda: True)
    assert isinstance(verdict, Holds) and verdict.assumed == NOT_YET
    made = folder.workshop.runs_made
    plain = verdict_for(*asked, False, memory)
    assert isinstance(plain, Holds) and plain.assumed == -1 and folder.workshop.runs_made == made
    assert isinstance(verdict_for(*asked, True, memory), RestsOn)


def test_claims_on_one_cone_are_varied_on_one_machine(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    memory, subject, shop = Memory(None), folder.subject(), folder.workshop
    scope = "in standing, after pump to pumping, within 200 s:"
    claims = [folder.claim(f"{scope} {says}") for says in ("upper tank is empty", "upper tank reads 0 gal ± 0.1")]
    for claim in claims:
        verdict_for(claim, subject, shop, folder.loaded.told, True, memory, lambda: True)
    verdict_for(claims[0], subject, shop, folder.loaded.told, True, memory)
    before = len(shop._made)
    alone = pumped(tmp_path / "alone", assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    expected = alone.verdict(f"{scope} upper tank reads 0 gal ± 0.1", rests=True)
    found = verdict_for(claims[1], subject, shop, folder.loaded.told, True, memory)
    assert isinstance(found, RestsOn) and isinstance(expected, RestsOn)
    assert [one.flips for one in found.influences] == [one.flips for one in expected.influences]
    ends = [key for key in list(shop._made)[before:] if key[2]]
    assert len(ends) <= 6  # those by which the place in the range is found, not the ends themselves


def test_the_likeliest_alone_tells_what_turns_over_and_that_there_may_be_more(tmp_path: Path) -> None:
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), "60 strokes/min")
    claim = folder.claim("in standing, after pump to pumping, within 200 s: upper tank is empty")
    asked = (claim, folder.subject(), folder.workshop, folder.loaded.told, True)
    memory = Memory(None)
    quick = verdict_for(*asked, memory, quick=True)
    assert isinstance(quick, RestsOn) and not_yet(quick)
    assert [(one.part, one.value, one.flips) for one in quick.influences] == [
        ("pump", "stroke", "at the low end of its range")
    ]
    whole = verdict_for(*asked, memory)  # what is not whole is not remembered as if it were
    assert isinstance(whole, RestsOn) and not not_yet(whole)
    assert whole.influences[0].flips.startswith("below about")
    firm = folder.claim("in standing, after pump to pumping, within 2000 s: upper tank is empty")
    left = verdict_for(firm, *asked[1:], memory, quick=True)
    assert isinstance(left, Holds) and left.assumed == NOT_YET


def test_what_turned_one_verdict_over_is_tried_first_of_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("cutaway.inquiry.resting.BATCH", 1)
    folder = pumped(tmp_path, assumed("2 cu in", "1 to 3 cu in"), assumed("60 strokes/min", "59 to 61 strokes/min"))
    sensed = Sensed()

    def verdict(seconds: int, batches: int) -> Verdict:
        claim = folder.claim(f"in standing, after pump to pumping, within {seconds} s: upper tank is empty")
        asked = iter([False] * (batches + 1))  # once before the verdict as stated
        stop = lambda: next(asked, True)  # noqa: E731
        return verdict_for(claim, folder.subject(), folder.workshop, folder.loaded.told, True, None, stop, sensed)

    bound, _ = folder.workshop.bound(folder.subject())
    values = [one.value for one in bound.assumptions]
    before = verdict(190, 1)
    assert values[0] != "stroke" and isinstance(before, Holds), "as they come another is tried first"
    assert isinstance(verdict(200, 100), RestsOn)
    after = verdict(190, 2)
    assert isinstance(after, RestsOn) and not_yet(after) and after.influences[0].value == "stroke"
