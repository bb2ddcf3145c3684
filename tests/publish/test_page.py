"""The page as text: everything of the view is in it, escaped, and nothing asks for the network."""

import html
import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.draw.shapes import Picture, Text
from cutaway.draw.svg import write_inner_svg
from cutaway.problems.diagnostic import Diagnostic
from cutaway.problems.span import Span, TextFile
from cutaway.publish.html import anchor, el
from cutaway.publish.page import page
from cutaway.publish.page_script import SIGNS, WORST_FIRST, worst
from cutaway.publish.records_json import problems_json, verdicts_json
from cutaway.publish.view import (
    CautionView,
    ClaimView,
    PackView,
    ParagraphView,
    ProductView,
    ScriptView,
    SentenceView,
    SheetView,
    TermView,
    VerdictView,
)
from tests.publish.valid_html import faults

NASTY = "<script>alert('x & \"y\"')</script>"


class Reader(HTMLParser):
    """Collects the text, and checks that every element is closed in order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.text: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in ("meta", "img", "input", "br", "source"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(text: str) -> Reader:
    reader = Reader()
    reader.feed(text)
    assert reader.open == []
    return reader


def drawing(words: str) -> str:
    """A picture with the words in it, as sheets are written for the page."""
    return write_inner_svg(Picture((90.0, 50.0), (Text((1.0, 2.0), words, "name", 17.0),), words, words, (words,)))


def view_of(words: str, **more: object) -> PackView:
    """A view with the same words in every place that takes any."""
    verdict = VerdictView(words, "holds", words, words)
    sentence = SentenceView(words, words, 1, "claimed", words, (ClaimView(words, (verdict,), (words,)),), (words,))
    unchecked = SentenceView(words, words, 1, "unchecked", words, likely=(words,))
    step = SentenceView(words, "", 0, "step", words, caution=words)
    here = Span(TextFile(words, words), 0, 1)
    return PackView(
        words,
        words,
        words,
        words,
        (words,),
        (),
        (ScriptView(words, words, (sentence, unchecked), words, words),),
        (ScriptView(words, words, (step,), says=words),),
        (SheetView(words, words, words, words, (words,), drawing(words)),),
        (ParagraphView(words, words, words, words, words, words, (words,)),),
        (TermView(words, words, words, (words,), (words,)),),
        (CautionView(words, words, (words,)),),
        problems=(Diagnostic("N101", here, words, words),),
        made=words,
    )


def test_a_sheet_without_its_drawing_is_shown_from_its_file() -> None:
    """A type with very many sheets has them as files only; a page with all of them would be slow to open."""
    view = view_of("a")
    files = replace(view, sheets=tuple(replace(one, svg="", path="sheets/a.svg") for one in view.sheets))
    made = page(files)
    shown = '<img src="sheets/a.svg" alt="a, a, a" loading="lazy" aria-describedby="w1">'
    assert shown in made and '<li id="w1">a</li>' in made and "<svg" not in made
    assert "img-src data: 'self' file:" in html.unescape(made) and "file:" not in html.unescape(page(view))
    assert faults(made) == []


def test_what_else_is_in_the_pack_is_led_to() -> None:
    products = (ProductView("Panels", "Every control & lamp.", (("panels.html", "Wren: panels"),)),)
    made = page(replace(view_of("a"), products=products))
    assert '<a href="panels.html">Wren: panels</a>' in made and "Every control &amp; lamp." in made
    assert 'href="#more"' in made and 'href="contents.html"' in made


def test_a_caution_told_before_is_linked_outside_what_opens_the_row() -> None:
    """A link in a summary can be reached neither by keyboard nor by a screen reader."""
    one = SentenceView("It is shut.", "", 1, "claimed", claims=(ClaimView("a", ()),), carried=("Mind it.",))
    view = replace(
        view_of("a"),
        scripts=(ScriptView("s", "s", (one, replace(one, text="It is open."))),),
        cautions=(CautionView("Mind it.", "a", ()),),
    )
    rows = re.findall(r"<summary.*?</summary>", page(view))
    assert len(rows) > 1 and not any("<a " in row for row in rows)
    assert "Caution 1" in rows[1] and page(view).count('href="#caution.1"') == 1


def test_a_caution_is_told_in_full_once_and_then_pointed_to() -> None:
    base = view_of("words")
    text = "Hands clear of the flaps."
    spoken = SentenceView("It moves.", "", 1, "claimed", "0:01", carried=(text,))
    script = ScriptView("a", "A", (spoken, replace(spoken, text="It moves again.")))
    made = page(replace(base, scripts=(script,), drills=(), cautions=(CautionView(text, "flap jack"),)))
    assert made.count(f"<strong>Caution: </strong>{text}") == 1
    assert re.search(r'<a[^>]*href="#caution.1"[^>]*>Caution 1</a>', made)
    assert 'id="caution.1"' in made


def test_what_the_page_is_for_and_what_its_verdicts_mean_stands_at_the_top() -> None:
    made = page(view_of("a"))
    head = made.partition("<main")[0]
    assert "has been put to the books" in head and "How many sentences have which verdict" in head
    told = re.findall(r"<li><b class=\"([a-z-]+)\">", head.partition("What the verdicts mean")[2])
    assert told == ["holds"], "of those that there are, and of no others"


def test_nothing_of_the_user_becomes_markup() -> None:
    reader = read(page(view_of(NASTY)))
    assert not [tag for tag, _ in reader.tags if tag == "script"]
    assert "".join(reader.text).count(NASTY) > 20


@given(st.text(st.characters(codec="utf-8", exclude_characters="\r\x00"), min_size=1, max_size=12))
def test_any_text_stays_text(words: str) -> None:
    reader = read(page(view_of(words)))
    assert {tag for tag, _ in reader.tags} <= {
        *("html", "head", "meta", "title", "style", "body", "a", "header", "p", "h1", "h2", "h3", "div", "table"),
        *("caption", "thead", "tbody", "tr", "th", "td", "b", "span", "nav", "main", "section", "ol", "ul", "li"),
        *("details", "summary", "blockquote", "strong", "figure", "img", "figcaption", "dl", "dt", "dd", "code"),
        *("br", "article", "footer", "svg", "rect", "text"),
    }


def test_the_same_view_gives_the_same_page() -> None:
    assert page(view_of("a")) == page(view_of("a"))


def test_an_empty_view_is_a_whole_page_with_its_notice() -> None:
    reader = read(page(PackView("Whinchat", "", "", "Not flight advice.", ())))
    assert "".join(reader.text).count("Not flight advice.") == 2
    assert ("html", {"lang": "en-GB"}) in reader.tags


def test_every_picture_has_words_and_every_heading_its_level() -> None:
    reader = read(page(view_of("a b")))
    pictures = [attrs["aria-labelledby"] for tag, attrs in reader.tags if attrs.get("role") == "img"]
    assert pictures == ["a-b-title"]
    assert ("title", {"id": "a-b-title"}) in reader.tags
    levels = [int(tag[1]) for tag, _ in reader.tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_nothing_names_a_place_outside() -> None:
    text = page(view_of("a")).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|//[a-z]|@import|url\(", text)


def test_the_worst_verdict_is_shown_and_each_kind_has_a_sign() -> None:
    assert set(WORST_FIRST) == set(SIGNS)
    assert len(set(SIGNS.values())) == len(SIGNS)
    claims = tuple(
        ClaimView(kind, (VerdictView("Mk 1", kind, kind, kind),)) for kind in ("holds", "fails", "rests-on", "stated")
    )
    sentence = SentenceView("x", "", 1, "claimed", claims=claims)
    shown = worst(sentence, "Mk 1")
    assert shown is not None
    assert shown.kind == "fails"
    assert worst(sentence, "Mk 2") is None


def test_a_claim_that_holds_on_one_standard_only_is_not_shown_for_every_one() -> None:
    verdict = VerdictView("Mk 1", "holds", "Holds", "Holds: so it is.")
    script = ScriptView("x", "X", (SentenceView("Said.", "", 1, "claimed", claims=(ClaimView("c", (verdict,)),)),))
    text = page(PackView("W", "", "", "n", ("Mk 1", "Mk 2"), scripts=(script,)))
    assert "every standard" not in text.lower()
    assert '<span class="on">Mk 1</span>' in text


@pytest.mark.parametrize("one, other", [("hb §25", "hb 25"), ("a b", "a-b"), ("Mk", "mk"), ("§1", "§ 1")])
def test_different_names_have_different_anchors(one: str, other: str) -> None:
    assert anchor(one) != anchor(other)


def test_an_empty_alt_is_kept_and_other_empty_attributes_are_not() -> None:
    assert el("img", alt="", class_="", src="x") == '<img alt="" src="x">'


def test_the_json_says_what_the_page_says() -> None:
    view = view_of("Hallam & Reeve §1")
    record = json.loads(verdicts_json(view))
    assert record["scripts"][0]["sentences"][0]["claims"][0]["verdicts"][0] == {
        "standard": "Hallam & Reeve §1",
        "kind": "holds",
        "heading": "Hallam & Reeve §1",
        "sentence": "Hallam & Reeve §1",
        "wrong": False,
    }
    assert json.loads(problems_json(view.problems))["problems"][0]["code"] == "N101"
    assert verdicts_json(view) == verdicts_json(view)
