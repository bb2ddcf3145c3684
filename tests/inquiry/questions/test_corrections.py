"""What a claim that fails would have to say: each correction is the one expected, reads back, and holds."""

from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest

from cutaway.inquiry.check import judge
from cutaway.inquiry.questions.corrections import Correction, corrections
from cutaway.inquiry.questions.standards_named import named_shortly
from cutaway.inquiry.search.changes import Put
from cutaway.inquiry.verdicts import Holds, Stated
from cutaway.language.print_back import printed_claim
from cutaway.quantities.which import Standard, StandardName
from cutaway.wording.corrections import correction_sentence
from tests.inquiry.folders import Folder, folder_at, system

FILES = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\nmods: {mod 3: {fitted to: Mk 2}}\n"
    "standards: [Mk 1, Mk 2, Mk 2 with mod 3]\n",
    "systems/petrol.yaml": system(
        """
upper tank: {kind: tank, capacity: 1 gal}
lower tank: {kind: tank, capacity: 4 gal, at: under the seat}
pump: {kind: hand fuel pump, stroke: 2 cu in, rate: 60 strokes/min}
valve: {kind: fuel relief valve, set at: [{is: 2 lb/sq in, on: Mk 1}, {is: 3 lb/sq in, on: Mk 2}]}
cock: {kind: cock}
battery: {kind: battery, voltage: 12 V, capacity: 30 Ah}
main switch: {kind: switch}
lamp switch: {kind: switch}
lamp: {kind: filament lamp}
torch: {kind: filament lamp, on: Mk 2}
""",
        """
upper tank > cock > pump > valve
valve.outlet > lower tank.outlet
battery > main switch > lamp switch > lamp
{run: main switch > torch, on: Mk 2}
""",
    ),
    "situations.yaml": "situations:\n"
    "  standing: {set: {cock: on}, start: {upper tank: 1 gal, lower tank: 0 gal}}\n"
    "  lit: {from: standing, set: {main switch: on, lamp switch: on}}\n",
}


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("wren"), FILES)


def _mended(wren: Folder, text: str) -> tuple[tuple[Correction, ...], list[str]]:
    claim = wren.claim(text)
    found = judge(claim, wren.workshop, wren.loaded.told, rests=False)
    mended = corrections(claim, found, wren.workshop, wren.loaded.told)
    names = tuple(one.subject.name for one in found)
    return mended, [correction_sentence(one, claim.statement, names, wren.loaded.folder) for one in mended]


@pytest.mark.parametrize(
    ("claim", "wanted"),
    [
        ("torch is fitted", ["True on Mk 2 only.", "On Mk 1, true as 'torch is not fitted'."]),
        ("valve is set at 3 lb/sq in", ["True on Mk 2 only.", "On Mk 1, true as 'valve is set at 2 lb/sq in'."]),
        ("lower tank is at behind the seat", ["True as 'lower tank is at under the seat'."]),
        ("there are 3 tanks", ["True as 'there are 2 tanks'."]),
        ("in lit: battery reads 24 V", ["True at 13 V."]),
        ("in lit: upper tank is above 2 gal", ["True above 0.9 gal."]),
        ("in lit: battery reads above 24 V", ["True above 12.5 V."]),
        ("in lit: battery reads below 5 V", ["True below 12.7 V."]),
        ("in lit: lower tank is above 2 gal", ["True at 0 gal."]),
        ("in standing: lamp is lit", ["True with the main switch at on and the lamp switch at on."]),
        ("in standing, after main switch to on: lamp is lit", ["True only with the lamp switch at on."]),
        ("in lit, always: lamp is lit if main switch is on", ["True only with the lamp switch at on."]),
        ("in lit, always: lamp is lit", ["True with the main switch at on and the lamp switch at on."]),
        ("in lit: battery reads 24 V ± 3", ["True at 12 V ± 3."]),
        ("in standing: upper tank reads 0.2 gal ± 0.15", ["True at 1.0 gal ± 0.15."]),
    ],
)
def test_the_smallest_correction(wren: Folder, claim: str, wanted: list[str]) -> None:
    assert _mended(wren, claim)[1] == wanted


@pytest.mark.parametrize(
    ("claim", "begins"),
    [
        ("in standing, after pump to pumping, within 20 s: upper tank is empty", "True within "),
        (
            "in standing, after pump to pumping, takes 5 to 60 s: upper tank is empty",
            "True if it may take from 5 s to ",
        ),
        ("in standing, after pump to pumping, throughout 30 min: upper tank is not empty", "True throughout "),
        ("in standing, after pump to pumping, at 20 s: upper tank is empty", "True at "),
    ],
)
def test_another_time(wren: Folder, claim: str, begins: str) -> None:
    (one,), (words,) = _mended(wren, claim)
    assert one.sort == "time" and words.startswith(begins)


@pytest.mark.parametrize(
    "claim",
    [
        "torch is fitted",
        "valve is set at 3 lb/sq in",
        "in lit: battery reads 24 V",
        "in lit: battery reads 24 V ± 0.5",
        "in standing: lamp is lit",
        "in standing, after pump to pumping, within 20 s: upper tank is empty",
        "in standing, after pump to pumping, at 20 s: upper tank is empty",
        "in lit, always: lamp is lit if main switch is on",
    ],
)
def test_a_correction_reads_back_and_holds(wren: Folder, claim: str) -> None:
    mended, _ = _mended(wren, claim)
    assert mended
    for one in mended:
        text = printed_claim(one.claim)
        for name in one.standards:
            assert isinstance(wren.verdict(text, on=name), Holds | Stated), (text, name)


def test_of_two_controls_of_which_one_alone_does_only_that_is_told(
    wren: Folder, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A search that moves controls late can miss that one of them does by itself, held from the beginning.
    def in_pairs(puts: tuple[Put, ...], *_: object) -> Iterator[frozenset[Put]]:
        return (frozenset(pair) for pair in combinations(puts, 2))

    monkeypatch.setattr("cutaway.inquiry.questions.corrections.minimal_sets", in_pairs)
    (one,), (words,) = _mended(wren, "in standing, with main switch on: lamp is lit")
    assert one.put == (("lamp switch", "on"),) and words == "True with the lamp switch at on."


def test_what_holds_and_what_nothing_mends_has_none(wren: Folder) -> None:
    assert _mended(wren, "in lit: lamp is lit") == ((), [])
    assert _mended(wren, "in standing, after pump to pumping, never: pump is pumping")[1] == []


def test_standards_in_the_fewest_words() -> None:
    def one(mark: str, *mods: str) -> Standard:
        return Standard(StandardName(f"{mark} with {' and '.join(mods)}" if mods else mark), mark, mods)

    several = (one("Mk 1"), one("Mk 2"), one("Mk 2", "mod 3"), one("Mk 4"))

    def words(*names: str) -> str:
        return named_shortly(several, frozenset(map(StandardName, names)))

    assert words("Mk 2", "Mk 2 with mod 3") == "Mk 2"
    assert words("Mk 2") == "Mk 2 without mod 3"
    assert words("Mk 1", "Mk 2 with mod 3") == "Mk 1 or Mk 2 with mod 3"
    assert words("Mk 1", "Mk 2", "Mk 2 with mod 3", "Mk 4") == "Mk 1 to Mk 4"


def test_a_sentence_that_an_amendment_overtook_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from cutaway.api.checking import check

    monkeypatch.setattr("cutaway.api.checking.memory_file", lambda: None)
    book = (
        "---\ntitle: Handbook\namendments: {A.L. 1: {date: May 1939, says: Alters the valve.}}\n---\n\n"
        "## 1 Relief valve\n\nThe valve opens at 2 lb/sq in.\n\n"
        "## 1a Relief valve, Mk 2\n{on: Mk 2, amendment: A.L. 1}\n\nThe valve opens at 3 lb/sq in.\n"
    )
    parts = system(
        "valve: {kind: fuel relief valve, set at: [{is: 2 lb/sq in, on: Mk 1, cite: hb §1}, "
        "{is: 3 lb/sq in, on: Mk 2, cite: hb §1a}]}\ntank: {kind: tank, capacity: 1 gal}",
        "tank > valve\nvalve.outlet > tank.outlet",
    )
    script = "# Valve\n\n{} opens.\n\n```claim\non {}: valve is set at {} lb/sq in\n```\n"
    for mark, figure, told in (("Mk 2", 2, 1), ("Mk 2", 3, 0), ("Mk 1", 2, 0), ("Mk 1", 3, 0), ("Mk 2", 5, 0)):
        files = {
            "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
            "sources/hb.md": book,
            "systems/fuel.yaml": parts,
            "scripts/valve.md": script.format("It", mark, figure),
        }
        folder_at(tmp_path, files)
        checked, _ = check(tmp_path)
        assert checked is not None
        over = [one for sentence in checked.sentences for one in sentence.overtaken]
        assert len(over) == told, (mark, figure)
        if over:
            (one,) = over
            assert (one.old.number, one.new.number, one.standards) == ("§1", "§1a", ("Mk 2",))
