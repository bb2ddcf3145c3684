"""What the pages of a quiz show, as records, and the same for a program. Every word of it comes from the inquiry."""

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from cutaway.handbook.records import Folder
from cutaway.inquiry.quiz.proving import order_of
from cutaway.inquiry.quiz.records import Option, QuizQuestion
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.subjects import subjects
from cutaway.wording.quiz import assumed_words, choice_words, question_words, reason_words

FORMAT = 1


@dataclass(frozen=True, slots=True)
class ProofView:
    """A claim behind an option. claim: in the grammar, so that it can be put to the model again. holds: whether the
    option says that it holds."""

    claim: str
    holds: bool


@dataclass(frozen=True, slots=True)
class OptionView:
    """Something to choose. reason: told once it was chosen. cites: the paragraphs behind it, 'hb §25'. it is right
    exactly where each of its claims comes out as it says."""

    text: str
    right: bool
    reason: str
    cites: tuple[str, ...]
    proofs: tuple[ProofView, ...]


@dataclass(frozen=True, slots=True)
class QuestionView:
    """A question. ident: the same for the same question in every quiz. sort: 'shows', 'reads', 'failure', 'marks',
    'step' or 'figure'. script, chapter: where the talk speaks of it, '' where it does not. case: the course of things
    that it is about, in the grammar; '' where no claim of the folder need be about the same."""

    ident: str
    sort: str
    standard: str
    system: str
    script: str
    chapter: str
    text: str
    options: tuple[OptionView, ...]
    case: str = ""

    @property
    def answer(self) -> int:
        """The number of the right option, from 0."""
        return next(number for number, option in enumerate(self.options) if option.right)


@dataclass(frozen=True, slots=True)
class QuizView:
    """A quiz. title: the type's name. stands: what the answers stand on besides the books, '' where on nothing."""

    title: str
    notice: str
    stands: str
    questions: tuple[QuestionView, ...]
    language: str = "en-GB"


def quiz_view(questions: Iterable[QuizQuestion], workshop: Workshop, tried: bool) -> QuizView:
    """The questions as they are shown. tried: whether assumed values were taken to the ends of their ranges."""
    folder = workshop.folder
    every = (one for subject in subjects(folder) for one in workshop.bound(subject)[0].assumptions)
    stands = assumed_words(len({(one.part, one.value) for one in every}), tried)
    return QuizView(folder.type.name, folder.type.notice, stands, tuple(_question(one, folder) for one in questions))


def quiz_json(view: QuizView) -> bytes:
    """A quiz for a program."""
    return (json.dumps(quiz_record(view), ensure_ascii=False, indent=1) + "\n").encode()


def quiz_record(view: QuizView) -> dict[str, object]:
    """A quiz as a record: `docs/quiz.md` says what each field means."""
    return {"format": FORMAT, **asdict(view)}


def quiz_from(text: bytes) -> QuizView:
    """The quiz that `quiz_json` wrote."""
    record = json.loads(text)
    questions = tuple(
        QuestionView(**{**one, "options": tuple(_option_from(option) for option in one["options"])})
        for one in record["questions"]
    )
    kept = {key: value for key, value in record.items() if key not in ("format", "questions")}
    return QuizView(**kept, questions=questions)


def _option_from(record: dict[str, Any]) -> OptionView:
    proofs = tuple(ProofView(**one) for one in record["proofs"])
    return OptionView(**{**record, "cites": tuple(record["cites"]), "proofs": proofs})


def _question(one: QuizQuestion, folder: Folder) -> QuestionView:
    options = tuple(_option(one, option, folder) for option in one.options)
    ident = f"q-{order_of(one.key)[:10]}"
    place = (str(one.subject.name), one.system, one.script, one.chapter)
    return QuestionView(ident, one.sort, *place, question_words(one, folder), options, one.case)


def _option(one: QuizQuestion, option: Option, folder: Folder) -> OptionView:
    proofs = tuple(ProofView(proof.text, proof.holds) for proof in option.proofs)
    words = (choice_words(option.choice, folder), option.right, reason_words(one, option, folder))
    return OptionView(*words, tuple(cite.key for cite in option.cites), proofs)
