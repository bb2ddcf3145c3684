"""The words of a sentence held against the claims under it, on the Whinchat's own scripts with a figure changed."""

import shutil
from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.narrate.claimed import words_and_claims
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from cutaway.problems.diagnostic import Problems
from tests.narrate.sentence_first.folders import WHINCHAT


def told(root: Path) -> Problems:
    """What the words of every claimed sentence say otherwise, without running a claim."""
    loaded, _ = load(root)
    assert loaded is not None
    comparer = Comparer(Ranking(loaded.folder))
    claims = {(one.script, one.sentence.span.start): one.claims for one in loaded.parsed.sentences}
    return tuple(
        problem
        for script in loaded.folder.scripts
        for heard in comparer.ranking.heard(script)
        for problem in words_and_claims(heard, claims[(script.name, heard.sentence.span.start)], comparer)
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shutil.copytree(WHINCHAT, tmp_path / "whinchat")


def changed(folder: Path, old: str, new: str) -> Problems:
    for script in (folder / "scripts").glob("*.md"):
        text = script.read_text(encoding="utf-8")
        if old in text:
            script.write_text(text.replace(old, new, 1), encoding="utf-8")
            return told(folder)
    raise AssertionError(f"no script says '{old}'")


def test_the_demo_has_no_words_against_its_claims() -> None:
    assert told(WHINCHAT) == ()


@pytest.mark.parametrize(
    "old, new, said, claimed",
    [
        ("the lamp was set to light sooner, at three pounds", "at four pounds", "four pounds", "3 lb/sq in"),
        (
            "On the Mk 1 the lamp lights at two pounds",
            "On the Mk 1 the lamp lights at three pounds",
            "three",
            "2 lb/sq",
        ),
        ("Each of them holds eleven gallons", "Each of them holds twelve gallons", "twelve gallons", "11 gal"),
        ("at four and a half inches of mercury", "at five inches of mercury", "five inches", "4.5 in Hg"),
        ("forty degrees of them", "fifty degrees of them", "fifty degrees", "40 degrees"),
        ("opens at three hundred pounds", "opens at two hundred pounds", "two hundred pounds", "300 lb/sq in"),
        ("twelve volts, in a box", "twenty-four volts, in a box", "twenty-four volts", "12 V"),
        ("in less than ten seconds there is petrol", "in less than two seconds there is petrol", "two seconds", "10 s"),
        ("about five pounds", "about seven pounds", "seven pounds", "5 lb/sq in"),
    ],
)
def test_a_changed_figure_is_told_with_both_values(folder, old, new, said, claimed) -> None:
    (one,) = changed(folder, old, new)
    assert one.code == "N807" and said in one.message and claimed in one.message


def test_a_changed_mark_is_told(folder) -> None:
    (one,) = changed(folder, "On the Mk 2 there are electrical gauges", "On the Mk 1 there are electrical gauges")
    assert one.code == "N807" and "Mk 1" in one.message and "Mk 2" in one.message


def test_what_is_fitted_on_another_mark_is_told_over_claims_for_both(folder) -> None:
    (one,) = changed(folder, "On the Mk 2 they fitted a hand pump", "On the Mk 1 they fitted a hand pump")
    assert one.code == "N803" and "Mk 1" in one.message and "§27" in one.message


def test_a_mark_that_there_is_not_is_told_over_claims(folder) -> None:
    problems = changed(folder, "On the Mk 2 there are electrical gauges", "On the Mk 3 there are electrical gauges")
    assert [one.code for one in problems] == ["N803"] and "'Mk 3'" in problems[0].message


@pytest.mark.parametrize(
    "old, new",
    [
        ("forty degrees of them", "40° of them"),
        ("Each of them holds eleven gallons", "Each of them holds 88 pints"),
        ("Half a minute of steady pumping", "Thirty seconds of steady pumping"),
        ("in a box behind the rear seat", "of 25 amp. hr., in a box behind the rear seat"),
    ],
)
def test_the_same_in_other_words_and_what_only_the_book_has_are_right(folder, old, new) -> None:
    assert changed(folder, old, new) == ()


INLET = "in cruising: carburettor.inlet reads"
LATER = "Half a minute later it is lit."


@pytest.mark.parametrize(
    "sentence, claim, told_of",
    [
        ("It lets the pump off at four and a half pounds.", f"{INLET} 4 to 5 lb/sq in", ""),
        ("It lets the pump off at six pounds.", f"{INLET} 4 to 5 lb/sq in", "six pounds"),
        ("It keeps four to five pounds.", f"{INLET} 3.9 to 5.2 lb/sq in", ""),
        ("It keeps four to five pounds.", f"{INLET} 1 to 9 lb/sq in", "four to five pounds"),
        (LATER, "in cruising, with engine pump seized, within 90 s: fuel lamp is lit", ""),
        (LATER, "in cruising, with engine pump seized, within 9 s: fuel lamp is lit", "Half a minute"),
    ],
)
def test_what_lies_in_the_range_of_a_claim_or_is_counted_from_before_is_no_difference(
    folder: Path, sentence: str, claim: str, told_of: str
) -> None:
    more = f"# More\n\n{sentence}\n\n```claim\n{claim}\n```\n"
    (folder / "scripts" / "09-more.md").write_text(more, encoding="utf-8")
    found = [one.message for one in told(folder)]
    assert bool(found) is bool(told_of) and all(told_of in message for message in found), found
