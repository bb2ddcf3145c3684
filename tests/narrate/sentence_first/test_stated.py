"""'Stated' is said of nothing that the books do not support: marks, altered paragraphs, things not there."""

import pytest

from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer, told
from tests.narrate.sentence_first.folders import loaded, spoken, write
from tests.narrate.sentence_first.held_out import RIGHT, RIGHT_LATER, WRONG, WRONG_LATER


def compared(comparer, text: str):
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one


@pytest.mark.parametrize("text", [*(text for text, _ in WRONG), *WRONG_LATER])
def test_what_the_book_does_not_support_is_not_stated(comparer, text) -> None:
    assert compared(comparer, text).verdict != "stated"


@pytest.mark.parametrize("text", [*RIGHT, *RIGHT_LATER])
def test_what_the_book_says_is_no_difference(comparer, text) -> None:
    assert compared(comparer, text).differences == ()


def test_how_many_of_the_held_out_are_told_and_stated(comparer, capsys) -> None:
    wrong = [compared(comparer, text) for text in (*(text for text, _ in WRONG), *WRONG_LATER)]
    right = [compared(comparer, text) for text in (*RIGHT, *RIGHT_LATER)]
    told = sum(one.verdict == "differs" for one in wrong)
    with capsys.disabled():
        print(
            f"\n  held out: of {len(wrong)} wrong sentences {told} told as differences, none stated; "
            f"of {len(right)} right ones {sum(one.verdict == 'stated' for one in right)} stated"
        )
    assert told >= 22


@pytest.mark.parametrize(
    "text, number, words",
    [
        ("On the Mk 1 the flap indicator is fed from the instrument bus bar.", "§16", "Mk 2"),
        ("The Mk 2 has a fuel pressure gauge.", "§25a", "which has no fuel pressure gauge"),
        ("There is no hand pump for petrol on the Mk 2.", "§2", "a hand pump for petrol"),
        ("The generator gives more than 20 amp.", "§14", "not more than 20 amp"),
    ],
)
def test_the_reason_is_told_with_the_book_s_own_words(comparer, text, number, words) -> None:
    reasons = [one.why for one in compared(comparer, text).differences]
    assert any(number in why and words in why for why in reasons)


@pytest.mark.parametrize(
    "text, strange",
    [
        ("The Mk 3 carries electrical contents gauges.", "Mk 3"),
        ("The Mark III had a bigger tank.", "Mark III"),
        ("Aeroplanes with Mod. 40 have a lamp switch.", "Mod. 40"),
        ("The Mk 1 with mod 12 has a lamp switch.", "Mk 1 with mod 12"),
    ],
)
def test_a_mark_that_the_folder_does_not_have_is_told(comparer, text, strange) -> None:
    (one,) = [d for d in compared(comparer, text).differences if d.sort == "mark"]
    assert one.said == strange and "type.yaml has only" in one.why


@pytest.mark.parametrize(
    "text", ["Mark two inches on the rod.", "A Merlin Mk III stands beside her.", "On the Mark Two the gauge has gone."]
)
def test_what_is_no_strange_mark(comparer, text) -> None:
    assert not [d for d in compared(comparer, text).differences if "type.yaml" in d.why]


def test_a_figure_of_a_paragraph_that_was_altered_is_told(comparer) -> None:
    one = compared(comparer, "On the Mk 2 the lamp lights below 2 lb./sq. in.")
    assert [problem.code for problem in told(one)] == ["N806"]
    assert "§25 was altered by §25a, A.L. 1" in told(one)[0].message
    assert told(compared(comparer, "On the Mk 1 the lamp lights below 2 lb./sq. in.")) == ()


TWO_TANKS = "Each engine has an inboard tank of 54 gallons and an outboard tank of 30 gallons."


@pytest.mark.parametrize(
    "text, crossed",
    [
        ("Each engine has two tanks, of fifty-four and thirty gallons.", ""),
        ("Each engine has an outboard tank of thirty gallons.", ""),
        ("Each engine has an inboard tank of thirty gallons.", "'inboard'"),
    ],
)
def test_what_has_two_things_is_said_of_either_figure(tmp_path, text, crossed) -> None:
    book = f"---\ntitle: Wren handbook\n---\n\n## 1 Petrol tanks\n\n{TWO_TANKS}\n"
    folder = loaded(write(tmp_path, {"type.yaml": "name: Wren\nmarks: [Mk 1]\n", "sources/hb.md": book}))
    one = compared(Comparer(Ranking(folder)), text)
    reasons = [why for why in (*one.doubts, *(d.why for d in one.differences)) if "another figure" in why]
    assert bool(reasons) is bool(crossed) and all(crossed in why for why in reasons)
