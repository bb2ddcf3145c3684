"""The quiz of a pack: twelve questions over the whole type, as a page, as sheets to print, for a program."""

from cutaway.inquiry.quiz.proving import Setter
from cutaway.inquiry.quiz.setting import Wish, quiz
from cutaway.inquiry.quiz.steps import Pace
from cutaway.language.words import words_of
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked
from cutaway.narrate.drill_claims import BETWEEN_STEPS, DRILL_WATCH
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import Desk
from cutaway.publish.product import Files, Product, claims_said
from cutaway.publish.quiz import QuizView, quiz_json, quiz_view
from cutaway.publish.quiz_page import quiz_page, quiz_sheet

FIRST = "quiz.html"
COUNT = 12
UNREAD = ("scripts/", "letters.yaml", "glossary.yaml", "sheets/", "handouts.yaml")
"""How the paths of those files begin on which no question depends; but of the scripts it takes their claims."""


def quiz_files(view: QuizView) -> dict[str, bytes]:
    """A quiz as a page, as sheets to print, and for a program."""
    return {
        FIRST: quiz_page(view).encode(),
        "quiz-sheet.html": quiz_sheet(view).encode(),
        "quiz.json": quiz_json(view),
    }


def _made(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """The quiz with the values as stated: what rests on an assumed value is told by the check of the claims."""
    folder = desk.workshop.folder
    setter = Setter(desk.workshop, desk.told, desk.claims(), words_of(folder, desk.kinds), None, rests=False)
    among = tuple(s for s in subjects(folder) if s.name == s.standard)
    found = quiz(setter, Wish(COUNT, among), Pace(BETWEEN_STEPS, DRILL_WATCH))
    return (quiz_files(quiz_view(found.questions, desk.workshop, tried=False)) if found.questions else {}), ()


QUIZ = Product(
    "Quiz",
    "Questions for visitors, each with its answer, its reason and its paragraphs.",
    "making the quiz",
    _made,
    FIRST,
    UNREAD,
    claims_said,
    checking=False,
)
