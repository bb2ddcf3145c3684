"""Each part, control and term knows its paragraphs."""

import pytest

from cutaway.handbook.known import Known, known_by
from cutaway.handbook.load import load_folder
from cutaway.handbook.search import ParagraphIndex
from tests.handbook.folders import WHINCHAT

FOLDER, _ = load_folder(WHINCHAT)
assert FOLDER is not None
INDEX = ParagraphIndex(FOLDER.sources, FOLDER.glossary)


def known(words: str) -> list[Known]:
    assert FOLDER is not None
    return list(known_by(FOLDER, words, INDEX))


def test_a_part_has_the_paragraphs_of_itself_and_of_its_figures():
    (lamp,) = known("Fuel Lamp")
    assert (lamp.name, lamp.sort) == ("fuel lamp", "part")
    assert {p.number for p in lamp.cited} == {"§25", "§25a", "§25b"}
    assert {p.number for p in lamp.speaking} == {"§16", "§42", "§45", "§47"}


@pytest.mark.parametrize("words", ["engine.starter", "engine starter"])
def test_a_control(words):
    (starter,) = known(words)
    assert (starter.name, starter.sort) == ("engine.starter", "control")
    assert "§8" in {p.number for p in starter.cited}


@pytest.mark.parametrize("words", ["selector cock", "tank selector"])
def test_a_term_goes_by_its_other_words_too(words):
    term = next(one for one in known(words) if one.sort == "term")
    assert [p.number for p in term.cited] == ["§22"]


def test_what_nobody_has_named():
    assert known("hydrangea") == []
