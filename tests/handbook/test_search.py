"""Finding paragraphs."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.handbook.search import ParagraphIndex, search_paragraphs
from tests.handbook.folders import WHINCHAT

FOLDER, _ = load_folder(WHINCHAT)
assert FOLDER is not None
WHINCHAT_FOLDER: Folder = FOLDER
INDEX = ParagraphIndex(WHINCHAT_FOLDER.sources)


def numbers(words: str, limit: int = 3) -> list[str]:
    return [hit.paragraph.number for hit in search_paragraphs(WHINCHAT_FOLDER, words, limit)]


@pytest.mark.parametrize(
    "words, first",
    [("petrol tanks", "§21"), ("relief valves set", "§38a"), ("battery switch", "§13"), ("Charging LAMP", "§15")],
)
def test_the_paragraph_that_is_about_it_comes_first(words, first):
    assert numbers(words)[0] == first


def test_the_ending_of_a_word_does_not_matter():
    assert numbers("filters") == numbers("filter")


def test_a_misspelt_word_finds_what_was_meant():
    hits = search_paragraphs(WHINCHAT_FOLDER, "carburetter", 1)
    assert hits[0].instead == (("carburetter", "carburettor"),)
    assert hits[0].paragraph.number == "§24a"


@pytest.mark.parametrize(
    "words, first, instead",
    [
        ("gasoline tanks", "§21", ("gasoline", "petrol")),
        ("strainer", "§23", ("strainer", "filter")),
        ("airscrew fixed pitch", "§1", ("airscrew", "propeller")),
        ("lampswitch", "§25b", ("lampswitch", "lamp switch")),
    ],
)
def test_another_word_or_spelling_finds_the_books_own(words, first, instead):
    hits = search_paragraphs(WHINCHAT_FOLDER, words, 3)
    assert hits[0].paragraph.number == first
    assert instead in hits[0].instead


def test_the_glossary_says_what_else_a_thing_is_called():
    assert "selector cock" not in " ".join(p.text + p.title for p in INDEX.paragraphs).lower()
    hits = search_paragraphs(WHINCHAT_FOLDER, "selector cock", 1)
    assert hits[0].paragraph.number == "§22"


def test_a_name_is_found_whole_and_with_any_ending():
    numbers_of = [p.number for p in INDEX.speaks_of("hand pumps")]
    assert numbers_of == ["§2", "§27", "§36", "§46"]
    assert INDEX.speaks_of("") == ()


def test_scores_fall_and_the_limit_holds():
    hits = INDEX.search("fuel lamp pressure pump", 5)
    assert len(hits) == 5
    assert [hit.score for hit in hits] == sorted((hit.score for hit in hits), reverse=True)
    assert INDEX.search("fuel", 0) == ()


@pytest.mark.parametrize(
    "words", ["", "   ", '"', "'; DROP TABLE paragraphs", "NEAR(", "a AND", "^*-:()", "xyzzyq", "\0", "§"]
)
def test_odd_words_find_something_or_nothing_and_never_raise(words):
    assert isinstance(INDEX.search(words), tuple)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=60))
def test_any_words_can_be_searched(words):
    assert len(INDEX.search(words, 3)) <= 3


def test_a_folder_without_sources():
    assert ParagraphIndex(()).search("fuel") == ()
