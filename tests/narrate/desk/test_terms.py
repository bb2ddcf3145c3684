"""Terms over a series: each is introduced before it is used."""

import pytest

from cutaway.narrate.terms import Where
from cutaway.publish.glossary_page import glossary_page

COCK = "terms:\n  cock: {means: A valve that is turned by hand., said as: cock, introduced: %s}\n"


def codes(problems) -> list[str]:
    return [problem.code for problem in problems]


def test_the_first_use_in_the_named_film_introduces(series) -> None:
    looked, problems = series("All is well. The cock is shut.", "The cocks again.", COCK % "01-fuel")
    assert codes(problems) == []
    (use,) = looked.terms
    assert use.introduced == Where(0, 1) and not use.marked
    assert use.uses == (Where(0, 1), Where(1, 0))


def test_n901_a_use_in_an_earlier_film(series) -> None:
    _, problems = series("The cock is shut.", "A cock is a valve.", COCK % "02-more")
    assert codes(problems) == ["N901"]
    assert "02-more" in problems[0].message and "`introduces: cock`" in problems[0].hint


def test_n901_a_use_before_the_mark_in_the_same_film(series) -> None:
    _, problems = series("The cock is shut. A cock is a valve. `introduces: cock`", "", COCK % "01-fuel")
    assert codes(problems) == ["N901"]
    looked, problems = series("A cock is a valve. `introduces: cock` The cock is shut.", "", COCK % "01-fuel")
    assert codes(problems) == [] and looked.terms[0].marked


def test_n902_a_film_that_never_speaks_of_it(series) -> None:
    _, problems = series("All is well.", "The cock is shut.", COCK % "01-fuel")
    assert codes(problems) == ["N902"]
    assert "introduced: 02-more" in problems[0].hint


def test_n903_a_term_that_nobody_introduces(series) -> None:
    _, problems = series("The cock is shut.", "", "terms:\n  cock: {means: A valve.}\n")
    assert codes(problems) == ["N903"]


def test_n904_an_introduction_of_no_term(series) -> None:
    _, problems = series("The cock is shut. `introduces: cokc`", "", COCK % "01-fuel")
    assert codes(problems) == ["N904"]
    assert problems[0].hint == "Did you mean cock?"


@pytest.mark.parametrize(
    "text, found",
    [("A peacock flew.", False), ("Both COCKS are shut.", True), ("The cock-pit.", True), ("Cocky.", False)],
)
def test_a_term_is_a_word_of_its_own(series, text, found) -> None:
    looked, _ = series(text, "", COCK % "01-fuel")
    assert bool(looked.terms[0].uses) is found


def test_the_way_it_is_said_counts_as_the_term(series) -> None:
    glossary = "terms:\n  lb/sq in: {means: A pressure., said as: pounds to the square inch, introduced: 01-fuel}\n"
    looked, _ = series("Two pounds to the square inch.", "", glossary)
    assert looked.terms[0].uses == (Where(0, 0),)


def test_two_reading_levels_are_kept(series) -> None:
    looked, problems = series("", "", "terms:\n  cock: {means: A valve., simply: A tap., introduced: 01-fuel}\n")
    assert looked.terms[0].term.simply == "A tap." and looked.terms[0].term.meaning == "A valve."
    assert codes(problems) == []


def test_the_glossary_page_has_both_levels_and_no_stop_too_many(series) -> None:
    glossary = "terms:\n  cock: {means: A valve that is turned by hand., simply: A tap., also: [c.k.]}\n"
    looked, _ = series("The cock is a tap. `aside`", glossary=glossary)
    page = glossary_page(looked)
    assert page.index("A tap.") < page.index("A valve that is turned by hand.")
    assert "Also: c.k." in page and "c.k.." not in page
