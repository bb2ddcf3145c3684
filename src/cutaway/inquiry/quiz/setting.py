"""A quiz of so many questions, spread over sorts, systems and chapters; the same folder gives the same quiz."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import assert_never

from cutaway.inquiry.quiz.candidates import Candidate
from cutaway.inquiry.quiz.failing import failure_candidates
from cutaway.inquiry.quiz.figures import figure_candidates
from cutaway.inquiry.quiz.marks import marks_candidates
from cutaway.inquiry.quiz.proving import Setter, firm, order_of
from cutaway.inquiry.quiz.records import (
    SORTS,
    QuizQuestion,
    Sort,
    WhatReads,
    WhatShows,
    WhichFailure,
    WhichFigure,
    WhichStandards,
    WhichStep,
)
from cutaway.inquiry.quiz.seen import seen_candidates
from cutaway.inquiry.quiz.steps import Pace, step_candidates
from cutaway.language.print_back import printed_claim, printed_scope
from cutaway.machine.subjects import Subject


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted. subjects: of whom is asked. system: '' for all. sorts: which sorts of question."""

    count: int
    subjects: tuple[Subject, ...]
    system: str = ""
    sorts: tuple[Sort, ...] = SORTS


@dataclass(frozen=True, slots=True)
class Quiz:
    """The questions in the order in which they are asked. looked: how many possible ones were put to the model; of:
    how many there were."""

    questions: tuple[QuizQuestion, ...]
    looked: int
    of: int


def quiz(setter: Setter, wish: Wish, pace: Pace, stop: Callable[[], bool] = lambda: False) -> Quiz:
    """A quiz. Candidates are taken up one at a time, always one of the sort, system and chapter that have been asked
    of least; which of those comes next looks like chance and is the same each time. Of one kind of quantity one figure
    is asked, unless figures are all that is wanted."""
    waiting = [one for one in _candidates(setter, wish, pace) if wish.system in ("", one.system)]
    of, looked = len(waiting), 0
    ranks = {one.key: order_of(setter.folder.type.name, one.key) for one in waiting}
    taken: list[QuizQuestion] = []
    counts: Counter[tuple[str, str]] = Counter()
    vain: Counter[tuple[str, str]] = Counter()
    told: set[str] = set()
    while waiting and len(taken) < wish.count and not stop():
        one = min(waiting, key=lambda c: (*_burden(c, counts, vain), ranks[c.key]))
        waiting.remove(one)
        looked += 1
        made = one.make()
        good = made is not None and _tells(made) not in told and wish.system in ("", made.system)
        if good and made is not None and setter.rests:
            made = firm(setter, made)
        if not good or made is None:
            # A sort that seldom gives a question must not be tried to its end before any other. A figure runs nothing.
            vain[("sort", one.sort)] += one.sort != "figure"
            continue
        taken.append(made)
        told.add(_tells(made))
        if one.quantity and wish.sorts != ("figure",):
            waiting = [other for other in waiting if other.quantity != one.quantity]
        counts.update((("sort", made.sort), ("system", made.system), ("chapter", f"{made.script}/{made.chapter}"),
                       ("subject", str(made.subject.name))))  # fmt: skip
    return Quiz(tuple(taken), looked, of)


def _candidates(setter: Setter, wish: Wish, pace: Pace) -> list[Candidate]:
    found: list[Candidate] = []
    if "shows" in wish.sorts or "reads" in wish.sorts:
        found += [one for one in seen_candidates(setter, wish.subjects) if one.sort in wish.sorts]
    if "failure" in wish.sorts:
        found += failure_candidates(setter, wish.subjects)
    if "marks" in wish.sorts:
        found += marks_candidates(setter, wish.subjects)
    if "step" in wish.sorts:
        found += step_candidates(setter, wish.subjects, pace)
    if "figure" in wish.sorts:
        # For visitors only the figures that a talk tells; all where nothing else is wanted.
        found += figure_candidates(setter, wish.subjects, every=wish.sorts == ("figure",))
    return found


_FIGURES_LATE = 2
"""As if so many had been asked already: what it does is asked before what figure it has. A choice of ours."""


def _burden(
    one: Candidate, counts: Counter[tuple[str, str]], vain: Counter[tuple[str, str]]
) -> tuple[float, int, int, int]:
    """How much has been asked already of what a candidate is about."""
    sort = counts[("sort", one.sort)] + vain[("sort", one.sort)] / 4 + (_FIGURES_LATE if one.quantity else 0)
    place = counts[("chapter", f"{one.script}/{one.chapter}")] if one.script else 0
    return sort, counts[("system", one.system)], place, counts[("subject", str(one.subject.name))]


def _tells(one: QuizQuestion) -> str:
    """What a question gives away: the same is not asked twice, be it of another mark."""
    match one.asked:
        case WhatShows(scope=scope) | WhatReads(scope=scope):
            return printed_scope(replace(scope, on=None))
        case WhichFailure(service=service):
            return service
        case WhichFigure(part=part, value=value):
            return f"{part}: {value}"
        case WhichStep(title=title, at=at):
            return f"{title}: {at}"
        case WhichStandards(claim=claim):
            return printed_claim(claim)
        case _:
            assert_never(one.asked)
