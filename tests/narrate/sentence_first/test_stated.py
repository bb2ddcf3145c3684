"""'Stated' is said of nothing that the books do not support: marks, altered paragraphs, things not there."""

import pytest

from cutaway.narrate.sentence_first import told
from tests.narrate.sentence_first.folders import spoken
from tests.narrate.sentence_first.held_out import RIGHT, WRONG


def compared(comparer, text: str):
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one


@pytest.mark.parametrize("text, against", WRONG)
def test_what_the_book_does_not_support_is_not_stated(comparer, text, against) -> None:
    assert compared(comparer, text).verdict != "stated"


@pytest.mark.parametrize("text", RIGHT)
def test_what_the_book_says_is_no_difference(comparer, text) -> None:
    assert compared(comparer, text).differences == ()


def test_how_many_of_the_held_out_are_told_and_stated(comparer, capsys) -> None:
    wrong = [compared(comparer, text) for text, _ in WRONG]
    right = [compared(comparer, text) for text in RIGHT]
    told = sum(one.verdict == "differs" for one in wrong)
    with capsys.disabled():
        print(
            f"\n  held out: of {len(wrong)} wrong sentences {told} told as differences, none stated; "
            f"of {len(right)} right ones {sum(one.verdict == 'stated' for one in right)} stated"
        )
    assert told >= 10


def test_a_figure_of_a_paragraph_that_was_altered_is_told(comparer) -> None:
    one = compared(comparer, "On the Mk 2 the lamp lights below 2 lb./sq. in.")
    assert [problem.code for problem in told(one)] == ["N806"]
    assert "§25 was altered by §25a, A.L. 1" in told(one)[0].message
    assert told(compared(comparer, "On the Mk 1 the lamp lights below 2 lb./sq. in.")) == ()
