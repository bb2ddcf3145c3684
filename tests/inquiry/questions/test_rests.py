"""Which assumed values turn which verdicts over, in order of their influence, and where the books may give them."""

from pathlib import Path

import pytest

from cutaway.api.rests import rests, rests_record, rests_text
from cutaway.inquiry.many import Pace
from tests.inquiry.folders import folder_at, system

FILES = {
    "sources/hb.md": "---\ntitle: Handbook\n---\n\n## 1 Pump\n\nThe hand pump is worked at a good rate, of which the "
    "rigger's book says more.\n\n## 2 Hand pump, stroke\n\nThe stroke of the pump is short, say 2 cu in.\n\n"
    "## 3 Seats\n\nThere are two.\n",
    "systems/petrol.yaml": system(
        """
upper tank: {kind: tank, capacity: 1 gal}
lower tank: {kind: tank, capacity: 4 gal}
pump:
    kind: hand fuel pump
    stroke: {assume: 2 cu in, between: 1 to 4 cu in, because: Measured by eye.}
    rate: {assume: 60 strokes/min, between: 59 to 61 strokes/min, because: By the clock.}
valve: {kind: fuel relief valve, set at: 2 lb/sq in}
cock: {kind: cock}
""",
        "upper tank > cock > pump > valve\nvalve.outlet > lower tank.outlet",
    ),
    "situations.yaml": "situations:\n  standing: {set: {cock: on}, start: {upper tank: 1 gal, lower tank: 0 gal}}\n",
    "scripts/pump.md": "# Pump\n\nIt is soon empty.\n\n```claim\n"
    "in standing, after pump to pumping, within 200 s: upper tank is empty\n"
    "in standing, after pump to pumping, within 90 s: upper tank is empty\n"
    "in standing, after pump to pumping, within 140 s: upper tank is empty\n"
    "in standing: cock is on\n```\n",
}


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory):
    place = tmp_path_factory.mktemp("wren")
    folder_at(place, FILES)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.checking.memory_file", lambda: None)
        found, problems = rests(place)
    assert found is not None and problems == ()
    return found


def test_values_are_ranked_by_the_verdicts_that_they_turn(told) -> None:
    names = [(one.part, one.value, one.alone) for one in told.found.values]
    assert names[0] == ("pump", "stroke", 3)
    counts = [one.alone for one in told.found.values]
    assert counts == sorted(counts, reverse=True)
    assert told.found.resting == 3


def test_each_flip_names_its_claim_and_which_way(told) -> None:
    stroke = told.found.values[0]
    ways = {flip.claim.scope.when.first: flip.holds for flip in stroke.flips}
    assert ways[200.0] is True and ways[90.0] is False


def test_the_likeliest_paragraph_comes_first(told) -> None:
    assert [(c.source, c.number) for c in told.found.values[0].likely][:1] == [("hb", "§2")]
    assert ("hb", "§3") not in [(c.source, c.number) for one in told.found.values for c in one.likely]


def test_it_reads_aloud_and_as_data(told) -> None:
    text = rests_text(told)
    assert text.splitlines()[1].startswith("Look first for the stroke of the pump, in hb §2 (Hand pump, stroke)")
    assert "Measured by eye." in text
    record = rests_record(told)
    assert record["resting"] == 3 and record["values"][0]["look in"][0] == "hb §2"  # type: ignore[index]


def test_stopped_it_tells_what_is_known_and_goes_on_from_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, told
) -> None:
    monkeypatch.setattr("cutaway.api.checking.memory_file", lambda: tmp_path / "kept" / "verdicts.sqlite")
    monkeypatch.setattr("cutaway.inquiry.resting.BATCH", 1)
    folder_at(tmp_path, FILES)
    seen: list[tuple[int, int]] = []
    # With one verdict tried the next is begun and broken off.
    pace = Pace(lambda: bool(seen) and seen[-1][0] >= 1, None, lambda done, of: seen.append((done, of)))
    part, _ = rests(tmp_path, pace=pace)
    assert part is not None and part.found.not_yet == 3 and seen == [(0, 4), (1, 4)]
    assert "3 verdicts are still to be tried" in rests_text(part).splitlines()[-1]
    assert rests_record(part)["not yet"] == 3
    # The one that its time is nearest to comes first: 139 s of 140 s.
    assert {flip.claim.scope.when.first for one in part.found.values for flip in one.flips} == {140.0}
    whole, _ = rests(tmp_path)
    assert whole is not None and rests_text(whole) == rests_text(told)
    again, _ = rests(tmp_path)
    assert again is not None and again.opened.workshop.runs_made == 0


def test_where_nothing_rests_that_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutaway.api.checking.memory_file", lambda: None)
    script = "# Pump\n\nIt is on.\n\n```claim\nin standing: upper tank is not empty\nlower tank is fitted\n```\n"
    folder_at(tmp_path, {**FILES, "scripts/pump.md": script})
    found, _ = rests(tmp_path)
    assert found is not None and found.found.values == ()
    assert rests_text(found).startswith("Nothing rests on an assumed value")
