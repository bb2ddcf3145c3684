"""The fourth lot, of air, hydraulics and electrics: what its first run showed is mended, and must stay so."""

import pytest

from cutaway.narrate.compared import Compared
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from tests.narrate.sentence_first.folders import loaded, spoken, write
from tests.narrate.sentence_first.garganey import BOOK, RIGHT, RIGHT_LATER, TYPE, WRONG, WRONG_LATER


def comparer_of(root, book: str) -> Comparer:
    files = {"type.yaml": TYPE, "sources/hb.md": book, "scripts/a.md": "# A\n\nHallo.\n"}
    return Comparer(Ranking(loaded(write(root, files))))


@pytest.fixture(scope="module")
def garganey(tmp_path_factory) -> Comparer:
    return comparer_of(tmp_path_factory.mktemp("garganey"), BOOK)


def compared(comparer: Comparer, text: str) -> Compared:
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one


@pytest.mark.parametrize("text", [*WRONG, *WRONG_LATER])
def test_what_the_book_does_not_say_is_not_stated(garganey, text) -> None:
    assert compared(garganey, text).verdict != "stated"


@pytest.mark.parametrize("text", [*RIGHT, *RIGHT_LATER])
def test_what_the_book_says_is_no_difference(garganey, text) -> None:
    assert compared(garganey, text).differences == ()


def test_how_many_are_told(garganey, capsys) -> None:
    wrong = [compared(garganey, text).verdict for text in WRONG]
    right = [compared(garganey, text).verdict for text in RIGHT]
    with capsys.disabled():
        print(
            f"\n  fourth lot: of {len(wrong)} wrong sentences {wrong.count('differs')} told as differences, "
            f"{wrong.count('stated')} stated; of {len(right)} right ones {right.count('stated')} stated"
        )
    assert wrong.count("differs") >= 11 and right.count("stated") >= 13


def test_an_amendment_that_is_not_understood_is_told(tmp_path) -> None:
    puzzling = BOOK.replace(
        'In para. 1 for "450 lb. per sq. in." read "400 lb. per sq. in."', "Delete the second line."
    )
    one = compared(comparer_of(tmp_path, puzzling), "Each bottle is charged to 450 lb. per sq. in.")
    assert one.verdict != "stated"
    assert any("§1a" in why for why in (*one.doubts, *(d.why for d in one.differences)))


@pytest.mark.parametrize(
    "amendment",
    [
        'In para. 1 for "450 lb. per sq. in." read "400 lb. per sq. in."',
        "Delete “450 lb. per sq. in.” and substitute “400 lb. per sq. in.”",
        "For 450 lb. per sq. in. substitute 400 lb. per sq. in.",
    ],
)
def test_an_amendment_alters_its_own_clause_and_no_other(tmp_path, amendment) -> None:
    book = BOOK.replace('In para. 1 for "450 lb. per sq. in." read "400 lb. per sq. in."', amendment)
    comparer = comparer_of(tmp_path, book)
    assert compared(comparer, "Each bottle is charged to 400 lb. per sq. in.").verdict == "stated"
    assert [d.sort for d in compared(comparer, "Each bottle is charged to 450 lb. per sq. in.").differences] == [
        "superseded"
    ]
    assert compared(comparer, "Compressed air is stored in two bottles.").verdict == "stated"
