"""The quiz in a real browser: by keyboard, told to readers of screens, nothing given away before it is asked for."""

from pathlib import Path
from typing import Any

import pytest

from cutaway.draw.theme import contrast
from cutaway.publish.quiz import OptionView, ProofView, QuestionView, QuizView
from cutaway.publish.quiz_page import quiz_page, quiz_sheet


def option(text: str, right: bool, reason: str) -> OptionView:
    return OptionView(text, right, reason, ("hb §25",), (ProofView(f"on Mk 1: {text}", True),))


VIEW = QuizView(
    "Wren",
    "Talks on the ground & nothing else.",
    "4 values that no book gives are assumed.",
    (
        QuestionView("q-1", "shows", "Mk 1", "Fuel", "01", "Tanks", "What does the <red> lamp show?", (
            option("The lamp is out.", False, "That is so before anything is done."),
            option("The lamp is lit.", True, "Because the pressure is 1 lb/sq in. (handbook §25)"),
            option("The lamp is gone.", False, "That is so on the Mk 2, not here."),
        )),
        QuestionView("q-2", "figure", "Mk 2", "Fuel", "", "", "What figure do the books give?", (
            option("2 lb/sq in", False, "That is so on the Mk 1."),
            option("3 lb/sq in", True, "So the books have it. (handbook §25a)"),
        )),
    ),
)  # fmt: skip


@pytest.fixture
def shown(browser: Any, tmp_path: Path) -> Any:
    path = tmp_path / "quiz.html"
    path.write_text(quiz_page(VIEW), encoding="utf-8")
    page = browser.new_page(viewport={"width": 900, "height": 700})
    said: list[str] = []
    asked: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))
    page.goto(path.as_uri())
    yield page
    assert said == [] and asked == [path.as_uri()], "no outside request, no fault"
    page.close()


def told(page: Any, number: int = 0) -> str:
    text: str = page.locator(".told").nth(number).inner_text()
    return text


def test_by_keyboard_nothing_is_told_before_it_is_asked_for(shown: Any) -> None:
    shown.keyboard.press("Tab")
    shown.keyboard.press("Space")
    assert shown.evaluate("document.activeElement.value") == "A" and told(shown) == ""
    shown.keyboard.press("ArrowDown")
    assert shown.evaluate("document.activeElement.value") == "B" and told(shown) == "", "walking over tells nothing"
    shown.keyboard.press("Enter")
    assert told(shown) == "Right. Because the pressure is 1 lb/sq in. (handbook §25)"
    shown.keyboard.press("ArrowDown")
    assert told(shown) == "", "what was told belonged to another choice"
    shown.keyboard.press("Tab")
    assert shown.evaluate("document.activeElement.textContent") == "Show the reason"
    shown.keyboard.press("Space")
    words = told(shown)
    assert words.startswith("Not so. That is so on the Mk 2, not here.")
    assert "The answer: B. The lamp is lit." in words and words.endswith("(handbook §25)")
    assert told(shown, 1) == ""


def test_it_asks_to_choose_first(shown: Any) -> None:
    shown.get_by_role("button", name="Show the reason").nth(1).click()
    assert told(shown, 1) == "Choose an answer first."


def test_readers_of_screens_are_told_the_question_the_choices_and_the_reason(shown: Any) -> None:
    group = shown.get_by_role("group", name="1. What does the <red> lamp show?")
    assert group.get_by_role("radio", name="B. The lamp is lit.").count() == 1
    assert shown.locator(".told").first.get_attribute("role") == "status"
    assert "score" not in shown.content().lower() and "point" not in shown.locator("main").inner_text().lower()


def test_without_the_script_every_answer_stands_closed_behind_its_question(browser: Any, tmp_path: Path) -> None:
    path = tmp_path / "quiz.html"
    path.write_text(quiz_page(VIEW), encoding="utf-8")
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(path.as_uri())
    assert page.get_by_role("button").count() == 0
    text = page.get_by_text("Because the pressure is 1 lb/sq in. (handbook §25)").first
    assert not text.is_visible()
    page.get_by_text("All answers to question 1").click()
    assert text.is_visible()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_have_contrast_and_nothing_runs_out_of_a_small_window(browser: Any, tmp_path: Path, scheme: str) -> None:
    path = tmp_path / "quiz.html"
    path.write_text(quiz_page(VIEW), encoding="utf-8")
    page = browser.new_page(viewport={"width": 320, "height": 600}, color_scheme=scheme)
    page.goto(path.as_uri())
    page.locator("label").nth(1).click()
    page.get_by_role("button").first.click()
    ground = colour(page, "body", "backgroundColor")
    for place in ("legend", "label", ".quiet", ".told p", ".told b", "summary", "footer p"):
        assert contrast(colour(page, place, "color"), ground) >= 4.5, place
    assert contrast(colour(page, "button", "color"), colour(page, "button", "backgroundColor")) >= 4.5
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    page.close()


def colour(page: Any, place: str, which: str) -> str:
    words = page.evaluate(f"getComputedStyle(document.querySelector('{place}')).{which}")
    numbers = words[words.index("(") + 1 : -1].split(",")[:3]
    return "#" + "".join(f"{int(n):02x}" for n in numbers)


def test_on_paper_the_answers_begin_on_a_sheet_of_their_own(browser: Any, tmp_path: Path) -> None:
    path = tmp_path / "quiz-sheet.html"
    path.write_text(quiz_sheet(VIEW), encoding="utf-8")
    page = browser.new_page()
    page.goto(path.as_uri())
    page.emulate_media(media="print")
    answers = page.locator(".sheet-of-answers")
    assert answers.evaluate("one => getComputedStyle(one).breakBefore") == "page"
    assert "Because the pressure" not in page.locator(".sheet-of-questions").inner_text()
    assert "1. B: The lamp is lit. Because the pressure is 1 lb/sq in." in answers.inner_text()
    page.close()
