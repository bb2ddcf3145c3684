"""Panels, differences and quiz as products of a pack: what they lead to is there, and they say what the records say."""

import json
import re
from dataclasses import replace
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path

import pytest

from cutaway.api.compare import compare
from cutaway.api.quiz import Asked, QuizMade, quiz
from cutaway.inquiry.check import Judged
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.compare import IndicationDifference
from cutaway.inquiry.questions.compare_records import Behaviour
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.inquiry.quiz.records import SORTS
from cutaway.inquiry.verdicts import Holds, RestsOn
from cutaway.language.parse import parse_claim
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked, CheckedStep, JudgedClaim
from cutaway.problems.span import TextFile, whole
from cutaway.publish.differences import DIFFERENCES, comparisons
from cutaway.publish.differences_page import Differing, differences_page
from cutaway.publish.drawings import Desk
from cutaway.publish.handout.quiz_pdf import quiz_pdf
from cutaway.publish.handout.records import PAPERS, Paper
from cutaway.publish.panels import PANELS
from cutaway.publish.product import Files, Product
from cutaway.publish.quiz import quiz_view
from cutaway.publish.quiz_product import QUIZ
from cutaway.wording.shown import value_words
from tests.inquiry.questions.asking import whinchat

NOTHING = Checked(whinchat().loaded.folder, (), (), 0)


@lru_cache(maxsize=1)
def desk() -> Desk:
    here = whinchat()
    return Desk(here.workshop, here.loaded.told, here.loaded.kinds, None)


@lru_cache(maxsize=1)
def made() -> QuizMade:
    found, _ = quiz(whinchat(), Asked(12), rests=False, memory=Memory(None))
    assert found is not None
    return found


@lru_cache(maxsize=3)
def files(product: Product) -> Files:
    found, problems = product.make(desk(), NOTHING)
    assert problems == () and product.first in found
    return product.after(found, NOTHING)


class Page(HTMLParser):
    """The links, the ids and the words of a page, and every tag closed in its turn."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.idents: list[str] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.links += [found[key] or "" for key in ("href", "src") if key in found]
        self.idents += [found["id"] or ""] if "id" in found else []
        if tag not in ("meta", "input", "br", "img"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.mark.parametrize("product", [PANELS, DIFFERENCES, QUIZ], ids=lambda one: one.name)
def test_the_pages_are_whole_and_ask_for_nothing_that_is_not_there(product: Product) -> None:
    made = files(product)
    for name, content in made.items():
        text = content.decode()
        if not name.endswith(".html"):
            continue
        page = Page(text)
        assert len(page.idents) == len(set(page.idents))
        # Every pack has these two besides.
        assert {"./index.html", "./contents.html"} <= set(page.links)
        for link in (one for one in page.links if not one.startswith("./")):
            assert link in made or link.removeprefix("#") in page.idents, link
        assert "http:" not in text and "https:" not in text
        assert whinchat().loaded.folder.type.notice in " ".join(page.words).replace("\n", " ")


def test_there_is_a_panel_for_each_standard_in_each_situation() -> None:
    folder = whinchat().loaded.folder
    drawn = [name for name in files(PANELS) if name.startswith("panels/")]
    words = re.sub(r"<[^>]+>", " ", files(PANELS)["panels.html"].decode())
    for standard in ("Mk 1", "Mk 2", "Mk 2 with mod 12", "Whinchat W-17"):
        for situation in folder.situations:
            stem = f"panels/{standard} {situation.name}".lower().replace(" ", "-")
            assert any(name.startswith(stem) for name in drawn), stem
            assert f"{standard}, {situation.name}" in words
    cruising = files(PANELS)["panels/mk-1-cruising.svg"].decode()
    assert (
        re.search(r">4\.\d+ lb/sq in<", cruising)
        and "FUEL PRESS" in cruising
        and "prefers-color-scheme:dark" in cruising
    )
    assert "fuel pressure gauge" not in files(PANELS)["panels/mk-2-cruising.svg"].decode()


def test_neighbours_are_compared_and_an_airframe_with_its_standard() -> None:
    pairs = [(one.one.name, one.other.name) for one in comparisons(desk())]
    assert pairs == [("Mk 1", "Mk 2"), ("Mk 2", "Mk 2 with mod 12"), ("Mk 2", "Whinchat W-17")]


def test_the_page_says_what_the_question_says() -> None:
    """Controls, indications and records as `cutaway compare` has them, and in each situation the same is seen."""
    found, problems = compare(whinchat(), "Mk 1", "Mk 2", "parked")
    assert found is not None and not problems
    asked, mine = found.found, comparisons(desk())[0]
    assert (mine.controls, mine.indications, mine.underneath) == (asked.controls, asked.indications, asked.underneath)

    def seen(several: tuple[Behaviour, ...]) -> set[tuple[str, ...]]:
        folder = whinchat().loaded.folder
        return {
            (b.one.what, value_words(b.one, folder), value_words(b.other, folder))
            for b in several
            if b.at.situation == "parked"
        }

    assert seen(mine.behaviours) == seen(asked.behaviours) != set()
    text = " ".join(Page(files(DIFFERENCES)["differences.html"].decode()).words)
    for words in (
        "hand pump",
        "idle / pumping",
        "fuel lamp: lights below",
        "2 lb/sq in",
        "3 lb/sq in",
        "A.L. 1",
        "hb §25a",
    ):
        assert words in text


def test_what_is_of_another_kind_on_each_is_one_row_and_no_paragraph_is_named_twice() -> None:
    here = whinchat()
    (first, *_) = comparisons(desk())
    cite = next(cite for part in here.loaded.folder.parts for cite in part.cites)
    again = replace(cite, span=replace(cite.span, start=cite.span.start + 1))
    record = RecordDifference("kind", "flap indicator", "", "a", "b", (cite, again), (), ())
    shown = (
        IndicationDifference("flap indicator", "mechanical indicator", "one"),
        IndicationDifference("flap indicator", "remote indicator", "other"),
    )
    page = differences_page(
        [Differing(replace(first, indications=shown, underneath=(record,)), ())], here.loaded.folder
    )
    (row,) = re.findall(r"<tr><th scope=\"row\">flap indicator</th>.*?</tr>", page)
    words = re.findall(r"<td[^>]*>(.*?)</td>", row)
    assert words[:3] == ["mechanical indicator", "remote indicator", cite.key]


def test_a_sheet_marks_what_only_one_has_where_a_system_differs() -> None:
    drawn = {name for name in files(DIFFERENCES) if name.endswith(".svg")}
    assert {f"differences/{system}-mk-1-and-mk-2.svg" for system in ("electrics", "flaps", "fuel")} <= drawn
    assert not any("vacuum" in name or "engine" in name for name in drawn), "what is the same is not drawn"
    fuel = files(DIFFERENCES)["differences/fuel-mk-1-and-mk-2.svg"].decode()
    assert "hand pump" in fuel and "fuel pressure gauge" in fuel and "only on Mk 2" in fuel and "only on Mk 1" in fuel


def test_a_quiz_as_page_sheets_and_record_asks_the_same() -> None:
    made = files(QUIZ)
    record = json.loads(made["quiz.json"])
    assert record["format"] == 1 and len(record["questions"]) == 12
    assert "values that no book gives are assumed" in record["stands"]
    screen = " ".join(Page(made["quiz.html"].decode()).words)
    printed = " ".join(Page(made["quiz-sheet.html"].decode()).words)
    for question in record["questions"]:
        assert question["text"] in screen and question["text"] in printed
        assert [option["right"] for option in question["options"]].count(True) == 1
        assert all(proof["claim"].startswith("on ") for option in question["options"] for proof in option["proofs"])
        for option in question["options"]:
            assert option["text"] in screen and option["text"] in printed
            assert option["reason"] in screen and option["reason"] in printed
    before, _, after = printed.partition("Whinchat: answers")
    right = next(option for option in record["questions"][0]["options"] if option["right"])
    assert right["reason"] not in before and right["reason"] in after, "no answer stands on the sheet of questions"


def test_a_pack_asks_nothing_of_which_its_check_says_that_it_rests_on_an_assumed_value() -> None:
    here = whinchat()
    asked = json.loads(files(QUIZ)["quiz.json"])["questions"]
    first = next(one for one in asked if one["case"] and one["sort"] == "shows")
    claim, problems = parse_claim(
        whole(TextFile("again", first["options"][0]["proofs"][0]["claim"])), here.loaded.words
    )
    assert claim is not None and not problems
    subject = next(one for one in subjects(here.loaded.folder) if one.name == first["standard"])
    resting = JudgedClaim(claim, (Judged(subject, RestsOn(Holds(0.0, (), ()), ())),))
    (drill, *_), checked = here.loaded.folder.drills, NOTHING
    checked = replace(checked, steps=(CheckedStep(drill, drill.steps[0], (resting,)),))
    made, _ = QUIZ.make(desk(), NOTHING)
    kept = json.loads(QUIZ.after(made, checked)["quiz.json"])["questions"]
    assert not any((one["case"], one["standard"]) == (first["case"], first["standard"]) for one in kept)
    assert len(kept) == len(asked) == 12, "others take its place"
    # What is not about that course of things is asked as before.
    others = [one for one in asked if one["case"] != first["case"]]
    assert [one for one in kept if one in others] == others


@pytest.mark.parametrize("paper", PAPERS, ids=lambda one: one.name)
def test_the_quiz_as_pdf_has_its_answers_on_sheets_of_their_own(paper: Paper) -> None:
    pytest.importorskip("typst")
    pdfium = pytest.importorskip("pypdfium2")
    view = quiz_view(made().quiz.questions[:6], whinchat().workshop, tried=False)
    content = quiz_pdf(view, paper)
    assert content == quiz_pdf(view, paper)
    pages = pdfium.PdfDocument(content)
    texts = [" ".join(page.get_textpage().get_text_range().split()) for page in pages]
    assert [round(side) for side in pages[0].get_size()] == [round(paper.width), round(paper.height)]
    first = next(i for i, text in enumerate(texts) if "Whinchat: answers" in text)
    asked, told = " ".join(texts[:first]), " ".join(texts[first:])
    for one in view.questions:
        right = one.options[one.answer]
        assert one.text in asked and all(option.text in asked for option in one.options)
        assert right.reason in told and right.reason not in asked


def test_every_field_of_the_record_is_on_the_page_that_explains_it() -> None:
    page = (Path(__file__).parents[2] / "docs" / "quiz.md").read_text(encoding="utf-8")
    record = json.loads(files(QUIZ)["quiz.json"])
    question = record["questions"][0]
    option = question["options"][0]
    told = {name for row in re.findall(r"^\| (`[^|]+`) \|", page, re.MULTILINE) for name in re.findall(r"`(\w+)`", row)}
    fields = {*record, *question, *option, *option["proofs"][0]}
    assert fields <= told and told - fields <= set(SORTS)
