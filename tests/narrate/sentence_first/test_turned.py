"""A 'no' that a book says by the way, held against sentences that assert or deny the same thing."""

from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.marks_named import MarkNames
from cutaway.narrate.clauses import clauses_in
from cutaway.narrate.overlap import BookSentence
from cutaway.narrate.turned import caution_differences

DEMO = Path(__file__).parents[3] / "demo" / "whinchat"
BOOK = BookSentence("On Mk 2, which has no fuel pressure gauge, the lamp is set to light sooner.", False, 0.3, 1.0)


@pytest.mark.parametrize(
    ("said", "turned"),
    [
        ("The Mk 2 has a fuel pressure gauge.", True),
        ("The Mk 2 has no fuel pressure gauge.", False),
        ("On Mk 2 the lamp is set to light sooner.", False),
    ],
)
def test_what_a_book_denies_by_the_way(said: str, turned: bool) -> None:
    folder, _ = load_folder(DEMO)
    assert folder is not None
    paragraph = folder.sources[0].paragraphs[0]
    assert bool(caution_differences(said, paragraph, BOOK)) is turned


JOINED = BookSentence("A float gauge stands on each wing and needs no current.", False, 0.7, 1.0)


@pytest.mark.parametrize(
    ("said", "turned"),
    [
        ("A float gauge stands on each wing.", False),
        ("A float gauge stands on each wing and needs current.", True),
        ("A float gauge stands on each wing and needs no current.", False),
    ],
)
def test_a_denial_that_is_joined_on_denies_nothing_of_the_rest(said: str, turned: bool) -> None:
    folder, _ = load_folder(DEMO)
    assert folder is not None
    assert bool(caution_differences(said, folder.sources[0].paragraphs[0], JOINED)) is turned
    first, second = clauses_in(JOINED.text, frozenset(), MarkNames(folder.type))
    assert (first.denied, second.denied) == (False, True)
