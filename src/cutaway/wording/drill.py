"""A drill step by step, in sentences that read aloud: what each step does, what it protects, whether it matters."""

from collections import Counter
from collections.abc import Sequence

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.drill import DrillTold, Otherwise, Sight, StepTold, Turned
from cutaway.language.syntax import Wait
from cutaway.problems.counting import counted
from cutaway.wording.asking import action_words, are, the
from cutaway.wording.otherwise import spoken
from cutaway.wording.shown import all_noticed, listed_with, sentence, sides_together

# How many things of one sort are told of one step before the rest is only counted. A choice of ours.
MOST_TOLD = 4


def drill_lines(told: DrillTold, folder: Folder) -> tuple[str, ...]:
    """The drill, a line each: every step, then which of them matter."""
    sights = Counter({step.number: sum(1 for one in step.sights if one.seen) for step in told.steps})
    return (*(line for step in told.steps for line in step_lines(step, folder, sights)), *summary_lines(told))


def step_lines(step: StepTold, folder: Folder, sights: Counter[int]) -> tuple[str, ...]:
    """One step: what is done, what it changes, what is seen, what comes of leaving it out or exchanging it. sights: how
    many things are seen in each step of the drill."""
    out = [f"{step.number}. {sentence(action_words(step.actions)) if step.actions else 'A look, and nothing moved.'}"]
    if step.missing:
        out.append(sentence(f"Not on this standard: {listed_with(step.missing)}"))
    out += [sentence(f"{the(one.what)} is {one.state} by a rule") for one in step.refused]
    if step.actions:
        out.append(_changes(step, folder))
    out += [_sight(one) for one in step.sights]
    if step.without is not None:
        out.append(_without(step, folder, sights))
    if step.exchanged is not None:
        out.append(_exchanged(step, step.exchanged, folder, sights))
    return (out[0], *(f"   {line}" for line in out[1:]))


def summary_lines(told: DrillTold) -> tuple[str, ...]:
    """Which steps matter, which only protect the end, which do nothing."""
    acting = [step for step in told.steps if step.actions]
    sorts = (
        ("Something that the drill looks for is not seen without", [s for s in acting if s.without and s.without.lost]),
        (
            "All that the drill looks for is seen, but the end is another without",
            [s for s in acting if s.needed and not (s.without and s.without.lost)],
        ),
        (
            "Nothing in the rest of this drill depends on",
            [s for s in acting if not s.needed and not s.idle and not s.waits],
        ),
        ("In this model nothing comes of", [s for s in acting if s.idle]),
    )
    out = [sentence(f"{words} {_any_of([step.number for step in several])}") for words, several in sorts if several]
    out += _only("looks", [step.number for step in told.steps if not step.actions])
    out += _only("waits", [step.number for step in acting if step.waits and not step.needed])
    ways = (
        "as written, with each step left out that does anything, and with each two of these exchanged that follow each "
        "other; a step that only looks goes with the one before it"
    )
    out.append(sentence(f"It was gone through {counted(told.variants, 'time')}: {ways}"))
    return tuple(out)


def _only(does: str, steps: Sequence[int]) -> list[str]:
    """The steps in which nothing is moved. does: what is done in them instead, 'looks'."""
    if not steps:
        return []
    return [f"Nothing is moved in {_steps(steps)}, which only {does if len(steps) == 1 else does.removesuffix('s')}."]


def _steps(numbers: Sequence[int]) -> str:
    return f"{'step' if len(numbers) == 1 else 'steps'} {listed_with(str(one) for one in numbers)}"


def _any_of(numbers: Sequence[int]) -> str:
    """Steps of which each by itself is meant: 'step 3 or without step 5'."""
    return listed_with((f"step {one}" for one in numbers), "or without" if len(numbers) == 2 else "or")


def _changes(step: StepTold, folder: Folder) -> str:
    moved = [one for one in step.turned if one.moves]
    others = [one for one in step.turned if not one.moves]
    words = _all_turned(moved) + all_noticed(step.changed, folder, since=True) + _all_turned(others)
    words += all_noticed(step.shifted, folder, since=True)
    if words:
        return sentence(f"Then {_few(words)}")
    if all(isinstance(action, Wait) for action in step.actions):
        return "Nothing else changes in that time." if not step.passing else "What changes in that time is slight."
    if step.passing:
        what = [the(part) for part in step.passing]
        changing = f"{_few(what)} {_changing(step.passing)}"
        return sentence(f"Meanwhile {changing}, but all is nearly as it was when the step is over")
    return "Nothing changes but what is moved."


def _changing(parts: Sequence[str]) -> str:
    return "changes" if len(parts) == 1 and are(parts[0]) == "is" else "change"


def _sight(one: Sight) -> str:
    words = spoken(one.statement.span.words)
    match one.seen:
        case True:
            return f"Seen: {words}."
        case False:
            return f"Not seen: {words}."
        case None:
            return f"It cannot be said whether this is seen: {words}."


def _without(step: StepTold, folder: Folder, sights: Counter[int]) -> str:
    assert step.without is not None
    if not step.without.matters:
        if step.waits:
            return "Without this wait nothing later in the drill is otherwise."
        if step.idle:
            return "Without this step nothing is otherwise: it does nothing in this model."
        return "Without this step nothing else in the drill is otherwise, nor how things stand at its end."
    return _comes(f"Without step {step.number}", step.without, folder, sights)


def _exchanged(step: StepTold, exchanged: Otherwise, folder: Folder, sights: Counter[int]) -> str:
    begin = f"Steps {step.number} and {step.with_next} exchanged"
    if not exchanged.matters:
        return f"{begin}, nothing is otherwise."
    return _comes(begin, exchanged, folder, sights)


def _comes(begin: str, other: Otherwise, folder: Folder, sights: Counter[int]) -> str:
    """What comes of doing it otherwise: what is no longer seen, what a rule holds back, what the end is."""
    if other.gone:
        return sentence(f"{begin}, nothing can be said: {other.gone}")
    parts: list[str] = []
    if other.refused:
        parts.append(_few([f"{the(one.what)} is {one.state} by a rule" for one in other.refused]))
    if other.lost:
        parts.append(_lost(other.lost, sights))
    elif not other.undecided:
        parts.append("all that the drill looks for is seen all the same")
    if other.undecided:
        parts.append(f"of {counted(other.undecided, 'sight')} nothing can be said")
    end = _ends(other, folder)
    parts.append(f"in the end {end}" if end else "the end is the same")
    return sentence(f"{begin}, {'; '.join(parts)}")


def _lost(several: Sequence[Sight], sights: Counter[int]) -> str:
    """What is no longer seen: of a step that shows nothing any more by its number, else in its words."""
    counts = Counter(one.number for one in several)
    whole = [number for number, count in counts.items() if count == sights[number]]
    words = [f"what {_steps(whole)} {'looks' if len(whole) == 1 else 'look'} for"] if whole else []
    words += [f"'{spoken(one.statement.span.words)}' (step {one.number})" for one in several if one.number not in whole]
    return f"{_few(words)} {'is' if len(words) == 1 else 'are'} not seen"


def _ends(other: Otherwise, folder: Folder) -> str:
    """What is otherwise in the end: what the crew notice, else what else there is; the rest only counted."""
    if other.end:
        return _few(all_noticed(other.end, folder), more=len(other.turned) + len(other.shifted))
    return _few(_all_turned(other.turned) + all_noticed(other.shifted, folder))


def _few(words: Sequence[str], more: int = 0) -> str:
    """The first few of some things, the rest of them (and `more`) only counted."""
    left = max(0, len(words) - MOST_TOLD) + more
    told = words[:MOST_TOLD]
    if any(", " in one for one in told):
        return "; ".join((*told, *([f"and {counted(left, 'thing')} more"] if left else [])))
    return f"{', '.join(told)} and {counted(left, 'thing')} more" if left else listed_with(words)


def _all_turned(several: Sequence[Turned]) -> list[str]:
    """Each thing by what it is now; that it is not what it was goes without saying then."""
    plain = {one.part for one in several if not one.now.startswith("not ")}
    told = [one for one in several if one.part not in plain or not one.now.startswith("not ")]
    return sides_together([(one.part, _turned(one)) for one in told])


def _turned(one: Turned) -> str:
    return f"{the(one.part)} {are(one.part)} {one.now}"
