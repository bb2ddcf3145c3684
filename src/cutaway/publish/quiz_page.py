"""A quiz as pages: one to be answered on a screen, one to be printed with its answers on sheets of their own.

Each is one file that asks nothing of a network. On the screen the reason is shown once somebody has answered; without
the script every answer stands behind its question, closed.
"""

from cutaway.publish.document import document, own, way_back
from cutaway.publish.html import Html, el
from cutaway.publish.quiz import OptionView, QuestionView, QuizView

LETTERS = "ABCDEFGH"


def quiz_page(view: QuizView, root: str = "") -> str:
    """The quiz to be answered on a screen, as the text of an HTML file. root: the way to its pack, '' for none."""
    lead = el("p", "Choose, and have the reason shown. Nothing is counted.", class_="quiet")
    asked = [_asked(number, one) for number, one in enumerate(view.questions, 1)]
    body = (el("h1", f"{view.title}: questions"), lead, *asked)
    return _quiz(view, f"{view.title}: questions", body, root, own("quiz.js"))


def quiz_sheet(view: QuizView, root: str = "") -> str:
    """The quiz to be printed: the questions, then the answers from a new sheet on, as the text of an HTML file."""
    asked = [_printed(number, one) for number, one in enumerate(view.questions, 1)]
    told = [_answered(number, one) for number, one in enumerate(view.questions, 1)]
    questions = el("section", el("h1", f"{view.title}: questions"), *asked, class_="sheet-of-questions")
    answers = el("section", el("h1", f"{view.title}: answers"), *told, class_="sheet-of-answers")
    return _quiz(view, f"{view.title}: questions and answers", (questions, answers), root)


def _quiz(view: QuizView, title: str, children: tuple[Html, ...], root: str, script: str = "") -> str:
    footer = el("footer", *(el("p", words) for words in (view.stands, view.notice) if words))
    body = (way_back(root), el("main", *children), footer)
    return document(title, own("quiz.css"), body, view.language, script=script)


def _asked(number: int, one: QuestionView) -> Html:
    """One question: its options to choose from, a button that says why, and all reasons for who has no script."""
    options = [_to_choose(one, letter, option) for letter, option in zip(LETTERS, one.options, strict=False)]
    legend = el("legend", el("span", f"{number}. ", class_="number"), one.text)
    form = el(
        "form",
        el("fieldset", legend, *options),
        el("button", "Show the reason", type="submit", hidden=True),
        el("div", "", class_="told", role="status"),
        data_answer=LETTERS[one.answer],
        id=one.ident,
    )
    reasons = [el("li", el("b", f"{_word(option)}: {option.text}"), " ", option.reason) for option in one.options]
    every = el("details", el("summary", f"All answers to question {number}"), el("ul", *reasons))
    return el("section", form, every, class_="question")


def _to_choose(one: QuestionView, letter: str, option: OptionView) -> Html:
    ident = f"{one.ident}-{letter}"
    button = el("input", type="radio", name=one.ident, id=ident, value=letter)
    label = el("label", el("span", f"{letter}. ", class_="letter"), option.text, for_=ident)
    reason = el("p", el("b", f"{_word(option)}. "), option.reason, class_="right" if option.right else "wrong")
    return el("div", button, label, el("template", reason), class_="option")


def _word(option: OptionView) -> str:
    return "Right" if option.right else "Not so"


# --- on paper ------------------------------------------------------------------------------------------------------


def _printed(number: int, one: QuestionView) -> Html:
    rows = [el("li", el("span", "", class_="box"), option.text) for option in one.options]
    return el("section", el("p", el("b", f"{number}. "), one.text), el("ol", *rows, type="A"), class_="question")


def _answered(number: int, one: QuestionView) -> Html:
    right = one.options[one.answer]
    others = [
        el("li", el("b", f"Not {letter}. "), option.reason)
        for letter, option in zip(LETTERS, one.options, strict=False)
        if not option.right
    ]
    answer = el("p", el("b", f"{number}. {LETTERS[one.answer]}: {right.text.rstrip('.')}."), " ", right.reason)
    return el("section", answer, el("ul", *others), class_="question")
