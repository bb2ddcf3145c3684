"""The large demo type: it loads without a word, every claim holds wherever it is said, and what is made wrong fails.

The folder is run once and its verdicts are remembered in a file of this session, so that the copy with wrong sentences
runs only what was changed.
"""

import shutil
from collections import Counter
from pathlib import Path

import pytest

from cutaway.api.checking import check
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, paragraph
from cutaway.inquiry.verdicts import Holds, NotModelled, Stated, Undecided
from cutaway.machine.bind import bind
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked, is_wrong
from cutaway.parts.library import KINDS
from cutaway.quantities.prose import states

TURNSTONE = Path(__file__).parent.parent / "demo" / "turnstone"
STANDARDS = {"Mk 1", "Mk 2", "Mk 2 with mod 31", "Mk 4", "Mk 4 with mod 57"}
MUSEUM = "Turnstone TS-204"

# What is put in place of what, in which script, how the sentence then begins, and the standards on which it must fail.
WRONG = {
    "the throttle of the horn": (
        "02-oil-and-wheels",
        (
            ("it listens to the port throttle only", "it listens to the starboard throttle only"),
            (
                "on Mk 1, in cruising, after port throttle to closed, within 5 s: horn is sounding",
                "on Mk 1, in cruising, after starboard throttle to closed, within 5 s: horn is sounding",
            ),
        ),
        "On the Mk 1 it listens to the starboard throttle",
        {"Mk 1"},
    ),
    "the setting of the fuel lamps": (
        "01-petrol-and-engines",
        (
            ("On the Mk 4 they light at ten,", "On the Mk 4 they light at eight,"),
            ("port fuel lamp lights at 10 lb/sq in falling", "port fuel lamp lights at 8 lb/sq in falling"),
        ),
        "On the Mk 4 they light at eight",
        {"Mk 4"},
    ),
    "the boost of a mod": (
        "01-petrol-and-engines",
        (
            ("with mod 57 it is sixteen", "with mod 57 it is eighteen"),
            ("port boost gauge reads 16 lb/sq in ± 0.5", "port boost gauge reads 18 lb/sq in ± 0.5"),
        ),
        "A Tamar 7 gives fourteen there, and with mod 57 it is eighteen",
        {"Mk 4 with mod 57"},
    ),
    "the amendment": (
        "02-oil-and-wheels",
        (
            (
                "we go by the later, which says six hundred pounds",
                "we go by the earlier, which says seven hundred pounds",
            ),
            ("automatic cut-out has cut-in of 600 lb/sq in", "automatic cut-out has cut-in of 700 lb/sq in"),
        ),
        "Two amendments disagree about the cut-in of the Mk 2, and we go by the earlier",
        {"Mk 2", "Mk 2 with mod 31"},
    ),
    "the place": (
        "02-oil-and-wheels",
        (
            ("air and oil on the left wall of the hull", "air and oil under the cabin floor"),
            ("accumulator is at left wall of the hull", "accumulator is at under the cabin floor"),
        ),
        "The pumps fill an accumulator",
        STANDARDS,
    ),
    "what stands in the way": (
        "02-oil-and-wheels",
        (
            ("Nothing else stands in its way, not even the ground.", "On the ground it does nothing whatever."),
            (
                "after undercarriage lever to up, within 60 s: wheels down and locked is not served",
                "after undercarriage lever to up, throughout 60 s: wheels down and locked is served",
            ),
        ),
        "On the ground it does nothing",
        STANDARDS,
    ),
    "how the instruments are lost": (
        "03-air-current-and-suction",
        (
            (
                "Lose the starboard pump instead, and you need do nothing.",
                "Lose the starboard pump instead, and they go.",
            ),
            (
                "with starboard vacuum pump sheared, throughout 10 min: flying instruments are served",
                "with starboard vacuum pump sheared, within 10 min: flying instruments are not served",
            ),
        ),
        "Lose the starboard pump instead",
        STANDARDS,
    ),
}


def words_of(claim: object) -> str:
    span = claim.claim.span  # type: ignore[attr-defined]
    return str(span.file.text[span.start : span.end])


@pytest.fixture(scope="module")
def remembered(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file in which this session's verdicts are kept; nothing of an earlier session is in it."""
    return tmp_path_factory.mktemp("memory") / "verdicts.sqlite"


def checked_with(folder: Path, memory: Path) -> tuple[Checked, tuple[object, ...]]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.checking.memory_file", lambda: memory)
        checked, problems = check(folder, rests=False, mending=False)
    assert checked is not None
    return checked, problems


@pytest.fixture(scope="module")
def folder() -> Folder:
    loaded, problems = load_folder(TURNSTONE)
    assert loaded is not None and problems == ()
    return loaded


@pytest.fixture(scope="module")
def whole(remembered: Path) -> Checked:
    checked, problems = checked_with(TURNSTONE, remembered)
    assert problems == ()
    return checked


def test_every_claim_has_a_verdict_and_none_fails(whole: Checked) -> None:
    unsettled = [
        f"{judged.subject.name}: {words_of(claim)}: {judged.verdict}"
        for claim in whole.claims()
        for judged in claim.judged
        if not isinstance(judged.verdict, (Holds, Stated))
    ]
    assert unsettled == []
    assert all(claim.judged for claim in whole.claims())


def test_it_has_claims_of_both_sorts_on_every_standard(whole: Checked) -> None:
    done = [c for c in whole.claims() if any(isinstance(j.verdict, Holds) for j in c.judged)]
    built = [c for c in whole.claims() if any(isinstance(j.verdict, Stated) for j in c.judged)]
    assert len(done) >= 120 and len(built) >= 40
    each = Counter(str(judged.subject.name) for claim in whole.claims() for judged in claim.judged)
    assert set(each) == STANDARDS | {MUSEUM}
    assert all(each[name] >= 120 for name in STANDARDS)
    judged_on = {frozenset(judged.subject.name for judged in claim.judged) for claim in whole.claims()}
    assert len(judged_on) >= 8, "the marks hardly differ"


def test_every_sentence_is_claimed_cited_or_said_by_the_way(whole: Checked) -> None:
    assert [one.sentence.text for one in whole.sentences if one.unchecked] == []


def test_it_is_a_whole_aircraft(folder: Folder) -> None:
    for subject in subjects(folder):
        bound, problems = bind(folder, subject, KINDS)
        assert problems == ()
        assert len(bound.parts) >= 140, subject.name
    assert len({part.kind for part in folder.parts}) >= 60
    assert len(folder.sources) == 2 and 110 <= len(folder.sources[0].paragraphs) <= 140
    assert len(folder.scripts) == 4 and len(folder.drills) >= 6 and len(folder.decided) >= 1


def test_every_printed_figure_stands_in_a_paragraph_that_it_cites(folder: Folder) -> None:
    lost = [
        f"{part.name}: {value.name} {given.quantity.text}"
        for part in folder.parts
        for value in part.values
        for given in value.givens
        if not given.assumed
        and not any(
            states(book.text, given.quantity)
            for cite in given.cites or part.cites
            if (book := paragraph(folder, cite)) is not None
        )
    ]
    assert lost == []


@pytest.fixture(scope="module")
def made_wrong(tmp_path_factory: pytest.TempPathFactory, remembered: Path, whole: Checked) -> dict[str, set[str]]:
    """The sentences that fail when all are made wrong in one copy, each with the standards on which it does."""
    del whole  # its verdicts are remembered by now
    copy = Path(shutil.copytree(TURNSTONE, tmp_path_factory.mktemp("wrong") / "turnstone"))
    for script, edits, _, _ in WRONG.values():
        path = copy / "scripts" / f"{script}.md"
        text = path.read_text(encoding="utf-8")
        for find, put in edits:
            assert text.count(find) == 1, find
            text = text.replace(find, put)
        path.write_text(text, encoding="utf-8")
    checked, _ = checked_with(copy, remembered)
    found: dict[str, set[str]] = {}
    for one in checked.sentences:
        on = {str(j.subject.name) for claim in one.claims for j in claim.judged if is_wrong(j.verdict)}
        if on:
            found[one.sentence.text] = on
    assert not [c for step in checked.steps for c in step.claims for j in c.judged if is_wrong(j.verdict)]
    return found


@pytest.mark.parametrize("name", WRONG)
def test_a_sentence_made_wrong_fails_where_it_is_wrong(name: str, made_wrong: dict[str, set[str]]) -> None:
    _, _, begins, standards = WRONG[name]
    (on,) = [on for sentence, on in made_wrong.items() if sentence.startswith(begins)]
    assert on == standards


def test_no_other_sentence_fails(made_wrong: dict[str, set[str]]) -> None:
    begins = tuple(begins for _, _, begins, _ in WRONG.values())
    assert [sentence for sentence in made_wrong if not sentence.startswith(begins)] == []


def of_the_museum(whole: Checked) -> list[tuple[str, object]]:
    return [
        (words_of(claim), judged.verdict)
        for one in whole.sentences
        for claim in one.claims
        for judged in claim.judged
        if judged.subject.name == MUSEUM
    ]


def test_what_can_be_shown_on_the_museum_piece_was_run_on_it(whole: Checked) -> None:
    said = of_the_museum(whole)
    shown = [words for words, verdict in said if isinstance(verdict, Holds) and "in museum display" in words]
    assert len(shown) >= 20
    assert not [words for words, verdict in said if isinstance(verdict, (NotModelled, Undecided))]
    for starter in ("port", "starboard"):
        assert any(f"{starter} starter button to pressed" in words for words in shown)


def test_the_museum_piece_lacks_what_would_be_dangerous(folder: Folder) -> None:
    (museum,) = [one for one in folder.type.airframes if one.name == MUSEUM]
    assert {"port fire bottle", "starboard fire bottle"} <= {str(name) for name in museum.missing}
    assert {"port starter", "starboard starter", "emergency bottle"} <= {str(name) for name in museum.disconnected}


def test_what_can_hurt_carries_its_caution(folder: Folder) -> None:
    for name in ("accumulator", "air bottle", "port engine", "port fire bottle", "port leg jack", "port battery"):
        parts = [part for part in folder.parts if part.name == name]
        assert parts and all(part.caution for part in parts), name
