"""Questions for visitors: made of a folder, answered as text, as pages or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asking import Opened, opened
from cutaway.api.checking import standards_named
from cutaway.api.places import memory_file
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.quiz.proving import Setter
from cutaway.inquiry.quiz.records import SORTS, Sort
from cutaway.inquiry.quiz.setting import Quiz, Wish
from cutaway.inquiry.quiz.setting import quiz as quiz_of
from cutaway.inquiry.quiz.steps import Pace
from cutaway.machine.subjects import subjects
from cutaway.narrate.drill_claims import BETWEEN_STEPS, DRILL_WATCH
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.publish.handout.quiz_pdf import can_be_set, quiz_pdf
from cutaway.publish.handout.records import PAPERS, Paper
from cutaway.publish.quiz import QuizView, quiz_view
from cutaway.publish.quiz_page import LETTERS
from cutaway.publish.quiz_product import COUNT, quiz_files
from cutaway.publish.single_file import write_files
from cutaway.wording.quiz import summary_words


@dataclass(frozen=True, slots=True)
class Asked:
    """What is wanted, in the words of the command line. on: only of these standards, '' for all. system: only of that
    one. sorts: only questions of these sorts, empty for all."""

    count: int = COUNT
    on: str = ""
    system: str = ""
    sorts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class QuizMade:
    """A quiz. view: as it is shown. fewer: what is told where fewer questions came of the folder than were wanted."""

    quiz: Quiz
    view: QuizView
    fewer: str


def quiz(
    folder: Path | str | Opened,
    asked: Asked,
    rests: bool = True,
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    memory: Memory | None = None,
) -> tuple[QuizMade | None, Problems]:
    """Questions with computed answers. rests: whether the assumed values are taken to the ends of their ranges, so that
    nothing is asked whose answer rests on them. stop: asked before every question. memory: verdicts of earlier
    sessions; the user's own where None."""
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    wish, more = _wish(here, asked)
    problems += more
    if wish is None:
        return None, problems
    loaded = here.loaded
    memory = Memory(memory_file()) if memory is None else memory
    setter = Setter(here.workshop, loaded.told, loaded.parsed, loaded.words, memory, rests)
    made = quiz_of(setter, wish, Pace(BETWEEN_STEPS, DRILL_WATCH), stop)
    fewer = summary_words(len(made.questions), asked.count, made.looked, stop())
    return QuizMade(made, quiz_view(made.questions, here.workshop, rests), fewer), problems


def _wish(here: Opened, asked: Asked) -> tuple[Wish | None, Problems]:
    folder = here.loaded.folder
    only, problems = standards_named(folder, asked.on)
    systems = [one.name for one in folder.systems]
    system = next((name for name in systems if fold(name) == fold(asked.system)), "")
    if asked.system and not system:
        hint = did_you_mean(asked.system, systems)
        problems += (Diagnostic("I204", None, f"There is no system '{asked.system}' to ask about.", hint),)
    for sort in asked.sorts:
        if fold(sort) not in SORTS:
            message = f"There is no sort of question '{sort}'."
            problems += (Diagnostic("I204", None, message, f"There are: {listed(SORTS)}."),)
    if asked.count < 1:
        problems += (Diagnostic("I204", None, f"A quiz of {asked.count} questions is none.", "Say --count 12."),)
    if has_error(problems):
        return None, problems
    every = tuple(s for s in subjects(folder) if (s.name == s.standard if only is None else s.name in only))
    sorts: tuple[Sort, ...] = tuple(sort for sort in SORTS if not asked.sorts or sort in map(fold, asked.sorts))
    return Wish(asked.count, every, system, sorts), problems


def quiz_text(made: QuizMade) -> str:
    """The questions, then their answers, as lines that read aloud."""
    asked: list[str] = []
    told: list[str] = []
    for number, one in enumerate(made.view.questions, 1):
        asked.append(f"{number}. {one.text}")
        asked += [f"   {letter}. {option.text}" for letter, option in zip(LETTERS, one.options, strict=False)]
        right = one.options[one.answer]
        told.append(f"{number}. {LETTERS[one.answer]}: {right.text.rstrip('.')}. {right.reason}")
        told += [
            f"   Not {letter}: {option.reason}"
            for letter, option in zip(LETTERS, one.options, strict=False)
            if not option.right
        ]
    body = "\n".join(("Questions", *asked, "", "Answers", *told)) if asked else ""
    return "\n".join(part for part in (body, made.view.stands, made.fewer) if part)


def paper_named(words: str) -> tuple[Paper | None, Problems]:
    """The paper of that name: 'a4' or 'letter'."""
    paper = next((one for one in PAPERS if one.name == fold(words)), None)
    if paper is not None:
        return paper, ()
    hint = f"There are: {listed(one.name for one in PAPERS)}."
    return None, (Diagnostic("K505", None, f"There is no paper '{words}'.", hint),)


def write_quiz(made: QuizMade, out: Path, paper: Paper, replace: bool = False) -> tuple[tuple[Path, ...], Problems]:
    """Write the files of a quiz into a folder, PDF only where the typesetter is installed; those that were written."""
    files = dict(quiz_files(made.view))
    if can_be_set():
        files["quiz-sheet.pdf"] = quiz_pdf(made.view, paper)
    return write_files(tuple((out / name, content) for name, content in files.items()), replace)
