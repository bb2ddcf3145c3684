"""The small demo type: it loads without a word, and every sentence of it holds wherever it is said to."""

import pytest

from cutaway.api.checking import check, standards_named
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import paragraph
from cutaway.inquiry.verdicts import Holds, Stated
from cutaway.narrate.checked import Checked, is_wrong
from cutaway.quantities.prose import states
from tests.whinchat import WHINCHAT


def failing(checked: Checked) -> list[str]:
    """The sentences with a claim that fails on any standard."""
    return [
        one.sentence.text
        for one in checked.sentences
        if any(is_wrong(judged.verdict) for claim in one.claims for judged in claim.judged)
    ]


def test_it_loads_without_a_problem() -> None:
    _, problems = load_folder(WHINCHAT)
    assert problems == ()


def test_every_printed_figure_stands_in_a_paragraph_that_it_cites() -> None:
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
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


@pytest.mark.usefixtures("nothing_remembered")
def test_every_sentence_and_drill_step_holds_on_every_standard_that_it_names() -> None:
    checked, problems = check(WHINCHAT, rests=False)
    assert problems == ()
    assert checked is not None
    unsettled = [
        f"{judged.subject.name}: {claim.claim.span.file.text[claim.claim.span.start : claim.claim.span.end]}"
        for claim in checked.claims()
        for judged in claim.judged
        if not isinstance(judged.verdict, (Holds, Stated))
    ]
    assert unsettled == []


def test_it_is_as_large_as_a_first_type_should_be() -> None:
    checked, _ = check(WHINCHAT, rests=False)
    assert checked is not None
    folder = checked.folder
    assert len(folder.sources) == 1 and 30 <= len(folder.sources[0].paragraphs) <= 50
    assert len(folder.drills) == 2 and len(folder.situations) >= 4
    verdicts = [[judged.verdict for judged in claim.judged] for claim in checked.claims()]
    assert sum(any(isinstance(v, Holds) for v in found) for found in verdicts) >= 30
    assert sum(any(isinstance(v, Stated) for v in found) for found in verdicts) >= 15
    assert len({judged.subject.name for claim in checked.claims() for judged in claim.judged}) == 4


@pytest.mark.parametrize(
    "words, names",
    [
        ("Mk 1", {"Mk 1"}),
        ("Mk 2", {"Mk 2", "Mk 2 with mod 12"}),
        ("Mk 2 with mod 12", {"Mk 2 with mod 12"}),
        ("not Mk 1", {"Mk 2", "Mk 2 with mod 12"}),
        ("all marks", {"Mk 1", "Mk 2", "Mk 2 with mod 12"}),
        ("Whinchat W-17", {"Whinchat W-17"}),
        ("whinchat  w-17", {"Whinchat W-17"}),
        ("Mk 1 or Whinchat W-17", {"Mk 1", "Whinchat W-17"}),
    ],
)
def test_an_airframe_is_meant_only_where_it_is_named(words: str, names: set[str]) -> None:
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    assert standards_named(folder, words) == (names, ())


@pytest.mark.parametrize("words, code", [("Mk 3", "Q120"), ("Mk 1 with mod 12", "Q122"), ("not", "Q121")])
def test_a_standard_that_it_has_not(words: str, code: str) -> None:
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    found, problems = standards_named(folder, words)
    assert [problem.code for problem in problems] == [code]
    assert not found


def test_no_words_ask_for_no_standard_in_particular() -> None:
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    assert standards_named(folder, "") == standards_named(folder, "  ") == (None, ())


def test_the_museum_piece_has_no_hand_pump() -> None:
    """What is said of its mark is not said of it; what is said of every standard can be asked of it."""
    checked, problems = check(WHINCHAT, on="Whinchat W-17", script="01-fuel", rests=False)
    assert checked is not None and problems == ()
    assert {judged.subject.name for claim in checked.claims() for judged in claim.judged} == {"Whinchat W-17"}
    asked = {
        claim.claim.span.file.text[claim.claim.span.start : claim.claim.span.end]
        for claim in checked.claims()
        if claim.judged
    }
    assert not any(words.startswith("on Mk 2:") for words in asked)
    assert failing(checked) == []
