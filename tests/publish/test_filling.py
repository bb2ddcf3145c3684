"""From verdicts to what the page shows: what is wrong stays wrong, what is behind it is named."""

import pytest

from cutaway.handbook.records import Cite, Folder, Script, Sentence
from cutaway.inquiry.check import Judged
from cutaway.inquiry.verdicts import Empty, Fails, Holds, Influence, NotModelled, RestsOn, Stated, Undecided, Verdict
from cutaway.machine.subjects import Subject
from cutaway.narrate.checked import Checked, CheckedSentence, JudgedClaim
from cutaway.narrate.citing import cite_verdict
from cutaway.parts.library import KINDS
from cutaway.problems.span import Span, TextFile, whole
from cutaway.publish.filling import carried, cautions, cites_of, pack_view
from cutaway.publish.view import SentenceView
from tests.publish.demo import claim_of, loaded

CITE = Cite("hb", "§25", Span(TextFile("x", "x"), 0, 1))
FAILS = Fails(40.0, "never came", (), (CITE,))
HOLDS = Holds(31.0, (), (CITE,))
INFLUENCE = Influence(
    "filter", "drop", "0.2 lb/sq in", "0.05 to 0.6 lb/sq in", "above 0.41 lb/sq in", "the book is silent"
)


def judged(verdict: Verdict) -> JudgedClaim:
    """One claim of the demo with a verdict of our own, for one standard."""
    folder = loaded().folder
    subject = Subject(folder.type.standards[0].name, folder.type.standards[0].name)
    return JudgedClaim(claim_of(loaded()), (Judged(subject, verdict),))


def shown(text: str, verdict: Verdict | None = None, cites: tuple[Cite, ...] = ()) -> SentenceView:
    """A sentence as the page shows it."""
    folder: Folder = loaded().folder
    file = TextFile("scripts/x.md", text)
    spans = (whole(file),) if verdict is not None else ()
    sentence = Sentence(text, "", 0, spans, cites, False, whole(file))
    claims = (judged(verdict),) if verdict is not None else ()
    stated, at_odds = cite_verdict(sentence, folder)
    one = CheckedSentence(Script("x", "X", (sentence,), whole(file)), sentence, claims, stated is not None, (), at_odds)
    view = pack_view(Checked(folder, (one,), (), 0), (), (), KINDS, ())
    return view.scripts[0].sentences[0]


@pytest.mark.parametrize(
    "verdict, wrong",
    [
        (HOLDS, False),
        (FAILS, True),
        (RestsOn(HOLDS, (INFLUENCE,)), False),
        (RestsOn(FAILS, (INFLUENCE,)), True),
        (Stated((CITE,), "so"), False),
        (NotModelled(("hand pump",)), False),
        (Empty("throttle is open", 4), True),
        (Undecided("2,000 cases were tried"), False),
    ],
)
def test_what_must_be_mended_is_marked(verdict: Verdict, wrong: bool) -> None:
    assert shown("The lamp is lit.", verdict).wrong is wrong


@pytest.mark.parametrize(
    "verdict, cites", [(HOLDS, ("hb §25",)), (RestsOn(FAILS, (INFLUENCE,)), ("hb §25",)), (Undecided("x"), ())]
)
def test_the_paragraphs_behind_a_verdict_are_kept(verdict: Verdict, cites: tuple[str, ...]) -> None:
    assert cites_of(judged(verdict)) == cites


@pytest.mark.parametrize(
    "text, number, verdict, words",
    [
        ("It lights below 2 lb/sq in.", "§25", "stated", "Its figures (2 lb/sq in) stand in §25."),
        ("It lights below 9 lb/sq in.", "§25", "fails", "The sentence says '9 lb/sq in', and §25 has"),
        ("It is a red lamp.", "§25", "reported", "It has no figure that could be compared."),
        ("It is a red lamp.", "§999", "fails", "§999, which is not in the books"),
    ],
)
def test_a_sentence_that_reports_says_how_far_it_was_compared(text: str, number: str, verdict: str, words: str) -> None:
    found = shown(text, cites=(Cite("hb", number, CITE.span),))
    assert (found.kind, found.cite_verdict, found.wrong) == ("cited", verdict, verdict == "fails")
    assert words in found.cite_words


def test_the_caution_of_a_paragraph_stands_beside_the_sentence_that_cites_it() -> None:
    folder = loaded().folder
    book = next(one for source in folder.sources for one in source.paragraphs if one.number == "§36")
    (text,) = book.cautions
    assert text in carried((), (Cite(book.source, book.number, book.span),), folder, KINDS)
    assert text not in carried((), (), folder, KINDS)
    assert text in {one.text for one in cautions(folder, KINDS)}
