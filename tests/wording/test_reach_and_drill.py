"""The words of the shortest way and of a drill: how far it was looked, and what a step is worth."""

import pytest

from cutaway.inquiry.questions.drill import DrillTold, Otherwise, StepTold, Turned
from cutaway.inquiry.questions.reach import Reached, Tries
from cutaway.inquiry.search.sequences import Ended
from cutaway.language.syntax import Action, ControlRef, Move, Wait
from cutaway.problems.span import TextFile, whole
from cutaway.wording.drill import summary_lines
from cutaway.wording.reach import tries_words

ON = Move(ControlRef("master", ""), "on", None, None, whole(TextFile("test", "master to on")))  # type: ignore[arg-type]
PAUSE = Wait(5.0, whole(TextFile("test", "wait 5 s")))
NOTHING = Otherwise((), 0, (), (), ())
DARK = Otherwise((), 0, (), (Turned("lamp", "lit", "out"),), ())


@pytest.mark.parametrize(
    ("ended", "done", "says"),
    [
        ("found", 2, "No shorter one does it: every single movement was looked at"),
        ("found", 3, "every sequence of up to 2 movements was looked at"),
        ("complete", 2, "every state to be had was looked at"),
        (
            "length",
            3,
            "No sequence of up to 3 movements brings it about that the lamp is lit; longer sequences were not",
        ),
        ("time", 2, "The search ended early (the time limit): no sequence of up to 2 movements does it"),
        ("stopped", 0, "The search ended early (you stopped it): Of longer ones there may be one"),
        ("tries", 1, "(the most that is tried): no single movement does it"),
    ],
)
def test_the_bound_is_said(ended: Ended, done: int, says: str) -> None:
    tries = Tries(4, 9, 3, done, 120, 30, 5, 150, 2, ended)
    words = tries_words(Reached((), (), 0, None, (), tries), "the lamp is lit")
    assert says in words[0]
    assert "120 sequences tried, 30 more passed over" in words[1]
    assert words[2].startswith("Of 2 sequences the model could not say")


def step(number: int, without: Otherwise | None, passing: bool, action: Action = ON) -> StepTold:
    actions = (action,) if without is not None else ()
    return StepTold(number, "", actions, (), (), (), (), (), ("lamp",) if passing else (), without, 0, None)


def test_what_steps_are_worth() -> None:
    steps = (step(1, None, False), step(2, NOTHING, False), step(3, NOTHING, True), step(4, DARK, True),
             step(5, NOTHING, True, PAUSE), step(6, DARK, True, PAUSE))  # fmt: skip
    assert summary_lines(DrillTold(steps, 6, 12))[:-1] == (
        "All that the drill looks for is seen, but the end is another without step 4 or without step 6.",
        "Nothing in the rest of this drill depends on step 3.",
        "In this model nothing comes of step 2.",
        "Nothing is moved in step 1, which only looks.",
        "Nothing is moved in step 5, which only waits.",
    )
