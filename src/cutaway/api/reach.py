"""The shortest way to a thing: asked in words, answered as text or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asked_text import asked_words, meaning, opening, seen_record
from cutaway.api.asking import Asked, Opened, base_for, opened
from cutaway.inquiry.questions.detour import Detour
from cutaway.inquiry.questions.reach import AlreadyThere, NothingToMove, ReachAnswer, Reached, Way
from cutaway.inquiry.questions.reach import reach as reach_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.movements import Hand
from cutaway.inquiry.verdicts import Undecided
from cutaway.language.print_back import printed_actions
from cutaway.language.syntax import Action
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.wording.reach import nothing_words, reach_lines, there_words
from cutaway.wording.shown import sentence

# How many sequences are tried at most where nothing is said. A choice of ours.
MOST_TRIES = 100_000


@dataclass(frozen=True, slots=True, eq=False)
class ReachTold:
    """The question, what it was asked of, and the answer."""

    opened: Opened
    asked: Asked
    base: Base
    subject: Subject
    answer: ReachAnswer


def reach(
    folder: Path | str | Opened,
    asked: Asked,
    size: int = 3,
    most: int = 5,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    as_found: Callable[[tuple[Action, ...]], None] = lambda one: None,
) -> tuple[ReachTold | None, Problems]:
    """The shortest sequences of movements, of up to `size`, after which a statement is true.

    most: how many are told. seconds: how long to look. stop: asked now and then whether to end with what is known.
    as_found: told each at once.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    base, subject, more = base_for(here.loaded, here.workshop, asked)
    if base is None or subject is None:
        return None, (*problems, *more)
    answer = reach_of(base, Bound(size, MOST_TRIES, seconds, batch=32), most, stop, as_found)
    return ReachTold(here, asked, base, subject, answer), (*problems, *more)


def reach_text(told: ReachTold) -> str:
    """The answer as lines that read aloud."""
    folder, question = told.opened.loaded.folder, asked_words(told.base, told.opened.loaded)
    meant = meaning(told.base, told.opened.loaded)
    match told.answer:
        case Reached():
            body = reach_lines(told.answer, question, folder)
        case AlreadyThere():
            body = (there_words(told.answer, question, folder),)
        case NothingToMove():
            body = (nothing_words(told.answer, question, folder),)
        case Undecided(because=because):
            body = (sentence(f"That cannot be said here: {because}"),)
    where = opening(told.asked, told.subject, told.opened.loaded)
    return "\n".join((f"How to get there, {where}: {question}", *meant, *body))


def reach_record(told: ReachTold) -> dict[str, object]:
    """The answer for a program; figures in SI."""
    record: dict[str, object] = {
        "question": "reach",
        "statement": told.asked.statement,
        "subject": told.subject.name,
        "situation": told.asked.situation,
    }
    match told.answer:
        case Reached() as found:
            record |= _reached_record(found)
        case AlreadyThere(seen=seen):
            record |= {"answer": "already so", "seen": [seen_record(one) for one in seen]}
        case NothingToMove(seen=seen):
            record |= {"answer": "nothing to move", "seen": [seen_record(one) for one in seen]}
        case Undecided(because=because):
            record |= {"answer": "undecided", "because": because}
    return record


def _reached_record(found: Reached) -> dict[str, object]:
    tries = found.tries
    return {
        "answer": "found" if found.ways else "none",
        "seen": [seen_record(one) for one in found.seen],
        "ways": [_way_record(one) for one in found.ways],
        "more": found.more,
        "direct": None if found.detour is None else _detour_record(found.detour),
        "refused": [{**_hand_record(one.hand), "asks": list(one.asks), "does": one.does} for one in found.refused],
        "bound": {
            "ended": tries.ended,
            "length": tries.asked,
            "length done": tries.done,
            "controls": tries.controls,
            "movements": tries.movements,
            "tried": tries.tried,
            "passed over": tries.passed_over,
            "same": tries.same,
            "runs": tries.runs,
            "undecided": tries.undecided,
            "holds": tries.holds,
        },
    }


def _way_record(one: Way) -> dict[str, object]:
    return {
        "moves": [_hand_record(hand) for hand in one.moves],
        "actions": printed_actions(one.actions),
        "orders": one.orders,
        "choices": [list(places) for places in one.choices],
        "after": one.at,
        "seen": [seen_record(seen) for seen in one.seen],
        "cites": [cite.key for cite in one.cites],
    }


def _hand_record(one: Hand) -> dict[str, object]:
    return {
        "part": one.part, "control": one.control, "position": one.words, "value": one.value, "held": one.held,
        "while next": one.through,
    }  # fmt: skip


def _detour_record(one: Detour) -> dict[str, object]:
    return {
        "moves": [_hand_record(hand) for hand in one.to],
        "seen": [seen_record(seen) for seen in one.seen],
        "stays": [
            {"part": s.part, "state": s.state, "instead": s.instead, "at": s.at, "set at": dict(s.figures)}
            for s in one.stays
        ],
        "dials": [
            {
                "direct": seen_record(dial.direct),
                "turning": seen_record(dial.turning),
                "passing": None if dial.passing is None else seen_record(dial.passing),
            }
            for dial in one.dials
        ],
    }
