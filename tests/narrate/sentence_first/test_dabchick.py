"""What a fresh user found: nothing that her book does not say may be called stated."""

import pytest

from cutaway.narrate.compared import Compared
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from tests.narrate.sentence_first.dabchick import BOOK, RIGGING, RIGHT, TYPE, WRONG
from tests.narrate.sentence_first.folders import loaded, spoken, write


@pytest.fixture(scope="module")
def dabchick(tmp_path_factory) -> Comparer:
    files = {"type.yaml": TYPE, "sources/hb.md": BOOK, "sources/rigging.md": RIGGING, "scripts/a.md": "# A\n\nHallo.\n"}
    return Comparer(Ranking(loaded(write(tmp_path_factory.mktemp("dabchick"), files))))


def compared(comparer: Comparer, text: str) -> Compared:
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one


@pytest.mark.parametrize("text", WRONG)
def test_what_the_book_does_not_say_is_not_stated(dabchick, text) -> None:
    assert compared(dabchick, text).verdict != "stated"


@pytest.mark.parametrize("text", RIGHT)
def test_what_the_book_says_is_no_difference(dabchick, text) -> None:
    assert compared(dabchick, text).differences == ()


def test_how_many_are_told(dabchick, capsys) -> None:
    wrong = [compared(dabchick, text).verdict for text in WRONG]
    right = [compared(dabchick, text).verdict for text in RIGHT]
    with capsys.disabled():
        print(
            f"\n  third lot: of {len(wrong)} wrong sentences {wrong.count('differs')} told as differences, "
            f"{wrong.count('stated')} stated; "
            f"of {len(right)} right ones {right.count('stated')} stated"
        )
    assert wrong.count("differs") >= 85 and right.count("stated") >= 34


@pytest.mark.parametrize(
    "text, words",
    [
        ("The brakes of the Mk 2 are worked by cables.", "Nothing in hb §17 speaks of 'cables'."),
        ("Petrol reaches the carburettor by gravity.", "hb §2 says it for Mk 1 only."),
        ("The weight empty is 1,700 pounds.", "has no '1,700 pounds': 'The weight empty is 1,080 lb.'"),
        ("The stagger is eighteen inches on the Mk 1 only.", "rigging §1 has no 'only' there"),
    ],
)
def test_an_open_sentence_is_told_what_is_lacking(dabchick, text, words) -> None:
    one = compared(dabchick, text)
    assert one.verdict == "open" and any(words in doubt for doubt in one.doubts)


@pytest.mark.parametrize(
    "text, sort, words",
    [
        ("The Dabchick is powered by two Severn III engines.", "figure", "'two Severn', and hb §1 has 'one Severn'"),
        ("The Dabchick is powered by one Severn II engine.", "figure", "'Severn II', and hb §1 has 'Severn III'"),
        ("The slats must be unlocked before aerobatics.", "caution", "'unlocked' where hb §16 has 'locked'"),
        ("There are no wheel brakes on the Mk 2.", "caution", "denies 'wheel brakes', which hb §17 speaks of"),
        ("The speed in a dive must not exceed 170 m.p.h.", "superseded", "§14 was altered by hb §14a"),
        ("The engine covers are put on after the controls are locked.", "caution", "the other way round"),
    ],
)
def test_a_difference_is_told_with_the_book_s_words_and_its_book(dabchick, text, sort, words) -> None:
    assert any(one.sort == sort and words in one.why for one in compared(dabchick, text).differences)
