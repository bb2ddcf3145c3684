"""A quiz set as PDF: questions to tick, then the answers on sheets of their own; tagged, its fonts inside."""

import json
from importlib.util import find_spec
from pathlib import Path

from cutaway.publish.handout.pdf import fonts
from cutaway.publish.handout.records import Paper
from cutaway.publish.quiz import QuizView, quiz_record

TEMPLATE = Path(__file__).with_name("quiz.typ")


def can_be_set() -> bool:
    """Whether the typesetter is there."""
    return find_spec("typst") is not None


def quiz_pdf(view: QuizView, paper: Paper) -> bytes:
    """The quiz on a paper; the same quiz gives the same bytes."""
    import typst

    data = json.dumps({**quiz_record(view), "paper": paper.known_as}, ensure_ascii=False)
    made = typst.compile(
        TEMPLATE.read_bytes(),
        sys_inputs={"data": data},
        font_paths=fonts(),
        # Universal accessibility: what a reader of tags could not follow is then refused.
        pdf_standards=["ua-1"],
    )
    assert isinstance(made, bytes)
    return made
