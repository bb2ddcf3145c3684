"""What differs between two standards: asked in words, answered as text, as a table or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asked_text import seen_record
from cutaway.api.asking import Opened, opened
from cutaway.api.running import subject_named
from cutaway.inquiry.questions.compare import Comparison
from cutaway.inquiry.questions.compare import compare as compare_subjects
from cutaway.inquiry.questions.compare_records import Behaviour
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.language.parse import parse_scope
from cutaway.problems.diagnostic import Problems, has_error
from cutaway.problems.span import TextFile, whole
from cutaway.wording.compare import compared_lines, moment_words, positions_briefly, sights
from cutaway.wording.shown import value_words

# After how many movements it is looked if nothing is said: enough for a small aeroplane. A choice of ours.
MOVES = 100

Row = tuple[str, str, str, str]


@dataclass(frozen=True, slots=True, eq=False)
class Compared:
    """A comparison and the folder that it is of."""

    opened: Opened
    found: Comparison


def compare(
    folder: Path | str | Opened,
    one: str,
    other: str,
    situation: str = "",
    stop: Callable[[], bool] = lambda: False,
    progress: Callable[[int], None] | None = None,
    moves: int = MOVES,
) -> tuple[Compared | None, Problems]:
    """What differs between two standards or airframes, first for the crew.

    situation: only in that one; '' for every situation and every step of the drills. moves: after how many single
    movements of a control it is looked besides, at most.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    subjects = [subject_named(here.loaded, name) for name in (one, other)]
    problems += tuple(p for _, more in subjects for p in more)
    if situation:
        scope, more = parse_scope(whole(TextFile("command line", f"in {situation}")), here.loaded.words)
        problems += more
        situation = scope.situation if scope is not None else ""
    (first, _), (second, _) = subjects
    if first is None or second is None or has_error(problems):
        return None, problems
    loaded = here.loaded
    found = compare_subjects(here.workshop, loaded.told, loaded.parsed, first, second, situation, stop, moves)
    return Compared(here, found), problems


def compared_text(compared: Compared) -> str:
    """The answer as lines that read aloud."""
    found = compared.found
    return "\n".join(
        (f"{found.one.name} and {found.other.name}", *compared_lines(found, compared.opened.loaded.folder))
    )


def compared_rows(compared: Compared) -> tuple[Row, ...]:
    """The answer as rows: what, on the one, on the other, where it is written."""
    found, folder = compared.found, compared.opened.loaded.folder
    rows: list[Row] = []
    for c in found.controls:
        rows.append(
            (f"control: {c.name}", positions_briefly(c.one, c.ranged), positions_briefly(c.other, c.ranged), "")
        )
    for i in found.indications:
        rows.append((f"indication: {i.part}", *((i.kind, "–") if i.has == "one" else ("–", i.kind)), ""))
    after_moves = ((moment_words(b.at), b) for b in found.moved.behaviours)
    for when, b in (*sights(found, folder), *after_moves):
        words = (value_words(b.one, folder), value_words(b.other, folder))
        rows.append((f"{when}: {b.one.what}", *words, ""))
    for r in found.underneath:
        named = f"{r.part} ({r.name})" if r.name else r.part
        where = ", ".join((*(c.key for c in r.cites), *r.mods, *r.amendments))
        rows.append((f"{r.what}: {named}", r.one or "–", r.other or "–", where))
    return tuple(rows)


def compared_record(compared: Compared) -> dict[str, object]:
    """The answer for a program; figures in SI."""
    found = compared.found
    return {
        "question": "compare",
        "one": found.one.name,
        "other": found.other.name,
        "controls": [
            {"control": c.name, "part": c.part, "one": list(c.one), "other": list(c.other)} for c in found.controls
        ],
        "indications": [
            {"part": i.part, "kind": i.kind, "on": found.one.name if i.has == "one" else found.other.name}
            for i in found.indications
        ],
        "behaviours": [_behaviour_record(b) for b in (*found.behaviours, *found.moved.behaviours)],
        "moments": found.moments,
        "movements": {"tried": found.moved.tried, "of": found.moved.possible, "nothing": found.moved.nothing},
        "not compared": [
            {"situation": u.at.situation, "drill": u.at.drill, "on": u.on, "because": u.because}
            for u in found.unanswered
        ],
        "underneath": [_difference_record(r) for r in found.underneath],
    }


def _behaviour_record(one: Behaviour) -> dict[str, object]:
    return {
        "situation": one.at.situation,
        "drill": one.at.drill,
        "step": one.at.step,
        "move": {"control": one.at.move[0], "to": one.at.move[1]} if one.at.move is not None else None,
        "what": one.one.what,
        "one": seen_record(one.one),
        "other": seen_record(one.other),
    }


def _difference_record(one: RecordDifference) -> dict[str, object]:
    return {
        "what": one.what,
        "part": one.part,
        "name": one.name,
        "one": one.one,
        "other": one.other,
        "cites": [cite.key for cite in one.cites],
        "mods": list(one.mods),
        "amendments": list(one.amendments),
    }
