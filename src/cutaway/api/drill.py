"""What the steps of a drill are for: asked by the drill's name, answered as text or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asked_text import noticed_record
from cutaway.api.asking import Opened, opened
from cutaway.api.checking import standards_named
from cutaway.handbook.names import did_you_mean
from cutaway.handbook.records import Drill
from cutaway.inquiry.questions.drill import DrillTold, Otherwise, Pace, Sight, StepTold
from cutaway.inquiry.questions.drill import drill as drill_of
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.verdicts import Undecided
from cutaway.language.print_back import printed_actions
from cutaway.language.syntax import And, Scope, When
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.drill_claims import BETWEEN_STEPS, DRILL_WATCH
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.wording.drill import drill_lines
from cutaway.wording.shown import listed_with, sentence


@dataclass(frozen=True, slots=True, eq=False)
class DrillAnswer:
    """A drill on one standard or airframe."""

    drill: Drill
    subject: Subject
    answer: DrillTold | Undecided


@dataclass(frozen=True, slots=True, eq=False)
class DrillsTold:
    """The answers, the drills in the order of the folder, each on all that it is for."""

    opened: Opened
    answers: tuple[DrillAnswer, ...]


def drill(
    folder: Path | str | Opened,
    name: str,
    on: str = "",
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
) -> tuple[DrillsTold | None, Problems]:
    """Every step of a drill, left out and exchanged with the next, on each standard that it is for.

    name: of the drill's file or its title, or how several begin: 'starting' means 'starting-mk-1' and 'starting-mk-4'.
    on: only these standards or airframes. stop: asked before every step whether to end with what is known.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    loaded = here.loaded
    drills = _named(loaded.folder.drills, name)
    only, more = standards_named(loaded.folder, on)
    if not drills:
        more = (*more, _unknown(loaded.folder.drills, name))
    wanted = [
        (one, subject)
        for one in drills
        for subject in subjects(loaded.folder)
        if _is_for(one, subject) and (_is_asked(one, subject) if only is None else subject.name in only)
    ]
    if drills and not wanted and not has_error(more):
        words = f"'{drills[0].title}' is not for {on}."
        more = (*more, Diagnostic("I203", None, words, f"It is for {drills[0].on.words or 'every standard'}."))
    if has_error(more):
        return None, (*problems, *more)
    answers: list[DrillAnswer] = []
    for one, subject in wanted:
        if not stop():
            answers.append(DrillAnswer(one, subject, _answer(here, one, subject, stop)))
    return DrillsTold(here, tuple(answers)), (*problems, *more)


def _answer(here: Opened, one: Drill, subject: Subject, stop: Callable[[], bool]) -> DrillTold | Undecided:
    bound, _ = here.workshop.bound(subject)
    scope = Scope(None, one.situation, (), (), (), (), When(), "", one.span)
    question = Question(And((), one.span), scope, bound, here.loaded.told, here.workshop)
    steps = tuple(step for step in here.loaded.parsed.steps if step.drill == one.name)
    return drill_of(question, steps, Pace(BETWEEN_STEPS, DRILL_WATCH), stop)


def _is_for(one: Drill, subject: Subject) -> bool:
    return not one.on.words or subject.standard in one.on.names or subject.name in one.on.names


def _is_asked(one: Drill, subject: Subject) -> bool:
    """Whether a drill is told of a subject when none was named: standards, and the aeroplanes that it names itself."""
    return subject.name == subject.standard or subject.name in one.on.names


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").split())


def _named(drills: tuple[Drill, ...], words: str) -> tuple[Drill, ...]:
    """The drills that words mean: that of the name or title, or all whose name or title begins so."""
    asked = _plain(words)
    exact = tuple(one for one in drills if asked in (_plain(one.name), _plain(one.title)))
    return exact or tuple(
        one for one in drills if asked and (_plain(one.name).startswith(asked) or _plain(one.title).startswith(asked))
    )


def _unknown(drills: tuple[Drill, ...], name: str) -> Diagnostic:
    names = [one.name for one in drills]
    near = did_you_mean(name, (*names, *(one.title for one in drills)))
    there = f"There are: {', '.join(names)}." if names else "This folder has no drills."
    return Diagnostic("I202", None, f"There is no drill '{name}'.", near or there)


def drills_text(told: DrillsTold) -> str:
    """The answers as lines that read aloud; where a drill goes alike on several standards it is told once."""
    folder = told.opened.loaded.folder
    grouped: dict[tuple[str, tuple[str, ...]], list[DrillAnswer]] = {}
    for one in told.answers:
        if isinstance(one.answer, Undecided):
            body: tuple[str, ...] = (sentence(f"That cannot be said here: {one.answer.because}"),)
        else:
            body = drill_lines(one.answer, folder)
        grouped.setdefault((one.drill.name, body), []).append(one)
    out: list[str] = []
    for (_, body), several in grouped.items():
        first = several[0].drill
        on = listed_with(one.subject.name for one in several)
        out += [f"{first.title}, on {on}, from {first.situation or 'the very beginning'}", *body, ""]
    return "\n".join(out).rstrip()


def drills_record(told: DrillsTold) -> dict[str, object]:
    """The answers for a program."""
    return {"question": "drill", "drills": [_answer_record(one) for one in told.answers]}


def _answer_record(one: DrillAnswer) -> dict[str, object]:
    record: dict[str, object] = {
        "drill": one.drill.name,
        "title": one.drill.title,
        "subject": one.subject.name,
        "situation": one.drill.situation,
    }
    if isinstance(one.answer, Undecided):
        return {**record, "answer": "undecided", "because": one.answer.because}
    steps = [_step_record(step) for step in one.answer.steps]
    return {**record, "answer": "found", "steps": steps, "variants": one.answer.variants, "runs": one.answer.runs}


def _step_record(step: StepTold) -> dict[str, object]:
    return {
        "number": step.number,
        "text": step.text,
        "actions": printed_actions(step.actions),
        "missing": list(step.missing),
        "sights": [_sight_record(one) for one in step.sights],
        "changed": [noticed_record(one) for one in step.changed],
        "turned": [{"part": one.part, "before": one.before, "now": one.now} for one in step.turned],
        "shifted": [noticed_record(one) for one in step.shifted],
        "held back": [{"control": one.what, "told": one.state} for one in step.refused],
        "idle": step.idle,
        "waits": step.waits,
        "without": None if step.without is None else _otherwise_record(step.without),
        "exchanged with": step.with_next or None,
        "exchanged": None if step.exchanged is None else _otherwise_record(step.exchanged),
    }


def _sight_record(one: Sight) -> dict[str, object]:
    return {"step": one.number, "statement": one.statement.span.words, "seen": one.seen}


def _otherwise_record(one: Otherwise) -> dict[str, object]:
    return {
        "matters": one.matters,
        "lost": [_sight_record(sight) for sight in one.lost],
        "undecided": one.undecided,
        "end": [noticed_record(noted) for noted in one.end],
        "turned": [{"part": t.part, "before": t.before, "now": t.now} for t in one.turned],
        "shifted": [noticed_record(noted) for noted in one.shifted],
        "held back": [{"control": seen.what, "told": seen.state} for seen in one.refused],
        "because": one.gone,
    }
