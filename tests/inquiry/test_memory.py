"""Verdicts of earlier sessions: the same verdict comes back, and whatever could change it makes another key."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from cutaway.inquiry.asking import machine_of, ready
from cutaway.inquiry.memory import Memory, key_of
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, RestsOn, Undecided
from tests.inquiry.folders import Folder, folder_at, system

PARTS = system(
    """
upper tank: {kind: tank, capacity: 1 gal}
lower tank: {kind: tank, capacity: 4 gal}
pump:
  kind: hand fuel pump
  rate: 60 strokes/min
  stroke: {assume: 2 cu in, between: 1 to 3 cu in, because: Nobody says.}
valve: {kind: fuel relief valve, set at: 2 lb/sq in}
cock: {kind: cock}
""",
    "upper tank > cock > pump > valve\nvalve.outlet > lower tank.outlet",
)
OTHER = system("battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}", name="Other")
SITUATIONS = "situations:\n  standing:\n    set: {cock: on}\n    start: {lower tank: 1 gal}\n    settle: 10 s\n"
SERVICES = "services:\n  petrol below: lower tank is above 1.5 gal\n"
CLAIM = "in standing, after pump to pumping, within 200 s: upper tank is empty and petrol below is served"


@dataclass
class Texts:
    parts: str = PARTS
    other: str = OTHER
    situations: str = SITUATIONS
    services: str = SERVICES
    claim: str = CLAIM

    def folder(self, path: Path) -> Folder:
        files = {"systems/a.yaml": self.parts, "systems/b.yaml": self.other}
        return folder_at(path, {**files, "situations.yaml": self.situations, "services.yaml": self.services})

    def key(self, path: Path, rests: bool = True) -> str:
        folder = self.folder(path)
        claim = folder.claim(self.claim)
        bound, _ = folder.workshop.bound(folder.subject())
        asked = ready(Question(claim.statement, claim.scope, bound, folder.loaded.told, folder.workshop))
        assert not isinstance(asked, NotModelled)
        made = machine_of(asked)
        assert not isinstance(made, NotModelled)
        return key_of(asked, made, rests)


CHANGED = {
    "value": Texts(parts=PARTS.replace("rate: 60", "rate: 59")),
    "assumed value": Texts(parts=PARTS.replace("assume: 2 cu in", "assume: 2.1 cu in")),
    "range": Texts(parts=PARTS.replace("between: 1 to 3", "between: 1 to 3.5")),
    "line": Texts(parts=PARTS.replace("upper tank > cock > pump", "upper tank > pump > cock")),
    "situation": Texts(situations=SITUATIONS.replace("1 gal", "1.1 gal")),
    "settling": Texts(situations=SITUATIONS.replace("10 s", "11 s")),
    "claim's time": Texts(claim=CLAIM.replace("200 s", "201 s")),
    "claim's action": Texts(claim=CLAIM.replace("pump to pumping", "pump to pumping for 300 s")),
    "claim's statement": Texts(claim=CLAIM.replace("is empty", "is not empty")),
    "service": Texts(services=SERVICES.replace("1.5 gal", "1.6 gal")),
    "rule": Texts(
        parts=PARTS.replace("  rate:", "  rules: [{to: pumping, only when: cock is on}]\n    rate:"),
    ),
}
SAME = {
    "comment": Texts(parts="# A remark.\n" + PARTS, situations="# Another.\n" + SITUATIONS),
    "unrelated part": Texts(other=OTHER.replace("25 Ah", "30 Ah")),
    "unrelated situation": Texts(situations=SITUATIONS + "  flying:\n    settle: 3 s\n"),
    "unrelated service": Texts(services=SERVICES + "  more: upper tank is above 0.1 gal\n"),
    "spacing of the claim": Texts(claim=CLAIM.replace(", after", ",   after")),
}


@pytest.mark.parametrize("what", CHANGED)
def test_what_could_change_a_verdict_changes_its_key(what: str, tmp_path: Path) -> None:
    assert CHANGED[what].key(tmp_path / "a") != Texts().key(tmp_path / "b")


@pytest.mark.parametrize("what", SAME)
def test_what_cannot_does_not(what: str, tmp_path: Path) -> None:
    assert SAME[what].key(tmp_path / "a") == Texts().key(tmp_path / "b")


def test_whether_assumed_values_were_tried_counts(tmp_path: Path) -> None:
    assert Texts().key(tmp_path / "a", rests=False) != Texts().key(tmp_path / "b", rests=True)


CLAIMS = (
    CLAIM,
    "in standing, after pump to pumping, within 100 s: upper tank is empty",
    "in standing, after pump to pumping: upper tank is below 0.5 gal before upper tank is empty",
    "in standing, always: upper tank is not empty if cock is off",
    "in standing, with cock at on: upper tank is empty if cock is off",
    "in standing: upper tank does not depend on cock",
    "in standing: upper tank is the same as with pump at idle",
    "in standing: upper tank rises as height rises from 0 ft to 5000 ft",
)


def test_a_warm_check_runs_nothing_and_says_the_same(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "cache" / "verdicts.sqlite")
    cold = Texts().folder(tmp_path / "a")
    found = [cold.verdict(claim, rests=True, memory=memory) for claim in CLAIMS]
    assert any(isinstance(one, RestsOn) for one in found) and any(isinstance(one, Fails) for one in found)
    warm = Texts().folder(tmp_path / "b")
    again = Memory(tmp_path / "cache" / "verdicts.sqlite")
    assert [warm.verdict(c, rests=True, memory=again) for c in CLAIMS] == found
    assert warm.workshop.runs_made == 0


def test_undecided_is_never_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutaway.inquiry.check.NEAREST", 1)
    monkeypatch.setattr("cutaway.inquiry.check.MOST_COMBINATIONS", 2)
    memory = Memory(None)
    folder = Texts().folder(tmp_path)
    claim = "in standing, always: upper tank is not empty"
    assert isinstance(folder.verdict(claim, memory=memory), Undecided)
    monkeypatch.undo()
    found = folder.verdict(claim, memory=memory)
    assert isinstance(found, Holds) and found.tried == 4


def test_a_file_that_cannot_be_used_costs_only_time(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    memory = Memory(blocked / "verdicts.sqlite")
    folder = Texts().folder(tmp_path / "a")
    assert folder.verdict(CLAIM, memory=memory) == folder.verdict(CLAIM, memory=memory)
