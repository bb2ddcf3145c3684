"""The moments of a sheet in `sheets/*.yaml`: what is run, and when it is looked at."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.door import several_of
from cutaway.handbook.names import did_you_mean, fold, one_line
from cutaway.handbook.nodes import Block, Node, Words
from cutaway.handbook.records import AskedMoment, Drill, SheetRun
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

LONGEST = 2 * 24 * 3600.0
"""The latest moment, s: two days, more than any tank or battery lasts."""
MOST = 60
"""How many moments a sheet may have."""

_KEYS = ("with", "do", "drill", "at")
_STEP = re.compile(r"step (\d{1,6})")
_WORDS = "Write before, a time such as 5 s, settled, or with a drill step 3."


@dataclass(frozen=True, slots=True)
class RunsKnown:
    """What the run of a sheet can name. drills: by their names and titles. lost: names that could not be read."""

    drills: Mapping[str, Drill]
    lost: frozenset[str]


def asks_for_run(block: Block) -> bool:
    """Whether a sheet is to show moments of a run."""
    return any(_places(block.get(key)) for key in _KEYS)


def read_run(
    block: Block, sheet: str, situations: tuple[str, ...], known: RunsKnown
) -> tuple[SheetRun | None, Problems]:
    """What is run on a sheet, None where it is to be drawn as situations settle, or where that is not understood.

    situations: those that it names under 'in'.
    """
    do, drill, at = (block.get(key) for key in ("do", "drill", "at"))
    failed = _places(block.get("with"))
    if not asks_for_run(block):
        return None, ()
    key = next(entry.key.span for entry in block.entries if fold(entry.key.text) in _KEYS)
    if isinstance(drill, Words) and not drill.empty:
        gone_through, problems = _drill(drill, sheet, block, known)
        if gone_through is None:
            return None, problems
        moments, more = _moments(at, key, sheet, gone_through)
        run = SheetRun(gone_through.situation, gone_through.name, failed, None, moments)
        return (None if has_error(problems + more) else run), problems + more
    if len(situations) != 1:
        inside = block.entry("in")
        if inside is not None and not situations:
            return None, ()  # told already
        message = f"The sheet '{sheet}' shows moments of a run, which begins in one situation."
        return None, (Diagnostic("H961", inside.key.span if inside else key, message, "Write in: and its name."),)
    moments, problems = _moments(at, key, sheet, None)
    done = _places(do)
    run = SheetRun(situations[0], "", failed, done[0] if done else None, moments)
    return (None if has_error(problems) else run), problems


def _drill(words: Words, sheet: str, block: Block, known: RunsKnown) -> tuple[Drill | None, Problems]:
    beside = next((entry for key in ("in", "do") if (entry := block.entry(key)) is not None), None)
    if beside is not None:
        message = f"The sheet '{sheet}' has '{one_line(beside.key.text)}' beside a drill, which says that itself."
        hint = "Leave out either the drill or 'in' and 'do'."
        return None, (Diagnostic("H961", beside.key.span, message, hint),)
    found = known.drills.get(fold(words.text))
    if found is not None or fold(words.text) in known.lost:
        return found, ()
    message = f"The sheet '{sheet}' goes through the drill '{one_line(words.text)}', but there is no such drill."
    names = [drill.name for drill in known.drills.values()]
    hint = did_you_mean(words.text, names) or "The folder has no drill yet."
    return None, (Diagnostic("H962", words.span, message, hint),)


def _moments(node: Node | None, key: Span, sheet: str, drill: Drill | None) -> tuple[tuple[AskedMoment, ...], Problems]:
    """The moments that are named. Where none is: before, at once and once settled; of a drill none, since the language
    knows in which of its steps something is done."""
    asked = [one for one in several_of(node) if isinstance(one, Words) and not one.empty]
    if not asked:
        if drill is not None:
            return (), ()
        before, settled = AskedMoment("before", 0.0, key), AskedMoment("settled", 0.0, key)
        return (before, AskedMoment("time", 0.0, key), settled), ()
    found: list[AskedMoment] = []
    problems: Problems = ()
    for words in asked:
        one, more = _moment(words, sheet, drill)
        problems += more
        found += [] if one is None else [one]
    if len(found) > MOST:
        message = f"The sheet '{sheet}' has {len(found)} moments, more than the {MOST} that a sheet may have."
        problems += (Diagnostic("H960", asked[MOST].span, message, "Leave some out."),)
    return tuple(found), problems


def _moment(words: Words, sheet: str, drill: Drill | None) -> tuple[AskedMoment | None, Problems]:
    said = fold(words.text)
    if said in ("before", "settled"):
        return AskedMoment("before" if said == "before" else "settled", 0.0, words.span), ()
    step = _STEP.fullmatch(said)
    if step is not None:
        return _step(int(step[1]), words, sheet, drill)
    quantity, problems = read_quantity(words.text, words.span, "time") if said[:1].isdigit() else (None, ())
    if problems:
        return None, problems
    if quantity is not None and not quantity.is_range and to_si(quantity) <= LONGEST:
        return AskedMoment("time", to_si(quantity), words.span), ()
    message = f"The sheet '{sheet}' is to be drawn at '{one_line(words.text)}', which is no moment of a run."
    hint = "Write one time of up to 48 hours: 5 s" if quantity is not None else _WORDS
    return None, (Diagnostic("H960", words.span, message, hint),)


def _step(number: int, words: Words, sheet: str, drill: Drill | None) -> tuple[AskedMoment | None, Problems]:
    if drill is not None and any(step.number == number for step in drill.steps):
        return AskedMoment("step", float(number), words.span), ()
    message = f"The sheet '{sheet}' is to be drawn after step {number}, but "
    message += "it goes through no drill." if drill is None else f"the drill {drill.name} has no such step."
    hint = "Write drill: and its name." if drill is None else f"Write a step from 1 to {len(drill.steps)}."
    return None, (Diagnostic("H960", words.span, message, hint),)


def _places(node: Node | None) -> tuple[Span, ...]:
    return tuple(item.span for item in several_of(node) if isinstance(item, Words) and not item.empty)
