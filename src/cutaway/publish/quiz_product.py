"""The quiz of a pack: twelve questions over the whole type, as a page, as sheets to print, for a program."""

from dataclasses import replace

from cutaway.inquiry.quiz.candidates import case_of
from cutaway.inquiry.quiz.proving import Setter
from cutaway.inquiry.quiz.setting import Wish, quiz
from cutaway.inquiry.quiz.steps import Pace
from cutaway.inquiry.verdicts import RestsOn
from cutaway.language.words import words_of
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked
from cutaway.narrate.drill_claims import BETWEEN_STEPS, DRILL_WATCH
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import Desk
from cutaway.publish.product import Files, Product, claims_said
from cutaway.publish.quiz import QuestionView, QuizView, quiz_from, quiz_json, quiz_view
from cutaway.publish.quiz_page import quiz_page, quiz_sheet

FIRST, RECORD = "quiz.html", "quiz.json"
COUNT = 12
SPARE = 4
"""So many more are made for a pack, for those that turn out to rest on an assumed value. A choice of ours."""
UNREAD = ("scripts/", "letters.yaml", "glossary.yaml", "sheets/", "handouts.yaml")
"""How the paths of those files begin on which no question depends; but of the scripts it takes their claims."""


def quiz_files(view: QuizView, root: str = "") -> dict[str, bytes]:
    """A quiz as a page, as sheets to print, and for a program. root: the way to the pack, '' where it is in none."""
    return {
        FIRST: quiz_page(view, root).encode(),
        "quiz-sheet.html": quiz_sheet(view, root).encode(),
        RECORD: quiz_json(view),
    }


def firmly(files: Files, checked: Checked) -> Files:
    """The files of a quiz without the questions about a course of things of which a claim rests on an assumed value."""
    if RECORD not in files:
        return files
    view, resting = quiz_from(files[RECORD]), _resting(checked)
    kept = [one for one in view.questions if not resting & {(one.case, on) for on in _of(one, checked)}]
    return quiz_files(replace(view, questions=tuple(kept[:COUNT])), "./") if kept else {}


def _of(one: QuestionView, checked: Checked) -> frozenset[str]:
    """The standards that a question is about."""
    every = frozenset(str(standard.name) for standard in checked.folder.type.standards)
    return every if one.sort == "marks" else frozenset((one.standard,))


def _resting(checked: Checked) -> frozenset[tuple[str, str]]:
    """The courses of things of which a claim rests on an assumed value, each with the standard on which that is so."""
    return frozenset(
        (case_of(one.claim.scope), str(judged.subject.name))
        for one in checked.claims()
        for judged in one.judged
        if isinstance(judged.verdict, RestsOn) and case_of(one.claim.scope)
    )


def _made(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """The quiz with the values as stated: what rests on an assumed value is left out once the claims are checked."""
    folder = desk.workshop.folder
    setter = Setter(desk.workshop, desk.told, desk.claims(), words_of(folder, desk.kinds), None, rests=False)
    among = tuple(s for s in subjects(folder) if s.name == s.standard)
    found = quiz(setter, Wish(COUNT + SPARE, among), Pace(BETWEEN_STEPS, DRILL_WATCH))
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
    after=firmly,
)
