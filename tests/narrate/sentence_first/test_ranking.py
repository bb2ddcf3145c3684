"""The likeliest paragraphs of a sentence: the bar of 50 among 60, and what else counts beside words."""

from cutaway.narrate.likely import Ranking
from tests.narrate.sentence_first.folders import loaded, spoken, write
from tests.narrate.sentence_first.sandpiper import BOOK, TRUE, TYPE
from tests.narrate.sentence_first.truth import RIGHT


def label(text: str) -> tuple[str, ...]:
    return next((right for start, right in RIGHT.items() if text.startswith(start)), ())


def test_the_right_paragraph_is_among_the_first_three_for_fifty_of_sixty(bare, capsys) -> None:
    ranking = Ranking(bare)
    labelled = [one for one in ranking.heard(bare.scripts[0]) if label(one.sentence.text)]
    assert len(labelled) == 60
    found = [[likely.paragraph.number for likely in ranking.likeliest(one)] for one in labelled]
    rights = [label(one.sentence.text) for one in labelled]
    good = sum(bool(set(got) & set(right)) for got, right in zip(found, rights, strict=True))
    first = sum(bool(got) and got[0] in right for got, right in zip(found, rights, strict=True))
    with capsys.disabled():
        print(f"\n  sentence first: right paragraph among three for {good} of 60, first for {first}")
    assert good >= 50


def test_another_book_on_which_nothing_was_tuned(tmp_path) -> None:
    files = {"type.yaml": TYPE, "sources/hb.md": BOOK, "scripts/a.md": "# A\n\nHallo.\n"}
    ranking = Ranking(loaded(write(tmp_path, files)))
    heard = ranking.heard(spoken(*(text for text, _ in TRUE)))
    missed = [
        text
        for one, (text, right) in zip(heard, TRUE, strict=True)
        if right not in [likely.paragraph.number for likely in ranking.likeliest(one)]
    ]
    assert missed == []


def test_a_sentence_that_points_back_leans_on_the_one_before(bare) -> None:
    ranking = Ranking(bare)
    heard = ranking.heard(bare.scripts[0])
    at = next(i for i, one in enumerate(heard) if one.sentence.text.startswith("They want three"))
    assert "§34" in [likely.paragraph.number for likely in ranking.likeliest(heard[at])]


def test_the_figure_tells_two_like_paragraphs_apart(bare) -> None:
    ranking = Ranking(bare)
    two, three = ranking.heard(spoken("The lamp lights below 2 lb./sq. in.", "The lamp lights below 3 lb./sq. in."))
    assert ranking.likeliest(two)[0].paragraph.number == "§25"
    assert ranking.likeliest(three)[0].paragraph.number == "§25a"


def test_a_sentence_of_no_known_word_has_no_paragraph(bare) -> None:
    ranking = Ranking(bare)
    (heard,) = ranking.heard(spoken("Xyzzyq frobnicated wuggishly."))
    assert ranking.likeliest(heard) == ()
