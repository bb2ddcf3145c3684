"""Which assumed values the verdicts rest on: asked of a check, answered as text or for a program."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asking import Opened, opened
from cutaway.api.checking import check
from cutaway.inquiry.many import UNHURRIED, Pace
from cutaway.inquiry.questions.rests import Flip, Influential, Rests
from cutaway.inquiry.questions.rests import rests as rests_of
from cutaway.language.print_back import printed_claim
from cutaway.problems.diagnostic import Problems
from cutaway.wording.rests import rests_lines


@dataclass(frozen=True, slots=True, eq=False)
class RestsTold:
    """What the verdicts of a folder rest on."""

    opened: Opened
    found: Rests


def rests(
    folder: Path | str | Opened,
    on: str = "",
    script: str = "",
    progress: Callable[[int], None] | None = None,
    pace: Pace = UNHURRIED,
) -> tuple[RestsTold | None, Problems]:
    """The assumed values that can turn verdicts over, the most influential first, and where to look for them.

    on, script: only these standards, only that script. It is what `check` finds; verdicts that are remembered cost no
    run. pace: how long it may take; the next call goes on from there.
    """
    here, problems = opened(folder, progress)
    if here is None:
        return None, problems
    loaded = here.loaded
    checked, more = check(loaded, on, script, True, mending=False, workshop=here.workshop, pace=pace)
    problems += tuple(p for p in more if checked is None and p not in problems)
    if checked is None:
        return None, problems
    judged = ((claim.claim, claim.judged) for claim in checked.claims())
    return RestsTold(here, rests_of(judged, loaded.folder, loaded.kinds)), problems


def rests_text(told: RestsTold, most: int = 20) -> str:
    """The answer as lines that read aloud."""
    return "\n".join(rests_lines(told.found, told.opened.loaded.folder, most))


def rests_record(told: RestsTold) -> dict[str, object]:
    """The answer for a program."""
    found = told.found
    return {
        "question": "rests",
        "resting": found.resting,
        "firm": found.firm,
        "not tried": found.not_tried,
        "not yet": found.not_yet,
        "values": [_value_record(one) for one in found.values],
    }


def _value_record(one: Influential) -> dict[str, object]:
    return {
        "part": one.part,
        "value": one.value,
        "assumed": one.stated,
        "between": one.between,
        "because": one.because,
        "alone": one.alone,
        "look in": [cite.key for cite in one.likely],
        "verdicts": [_flip_record(flip) for flip in one.flips],
    }


def _flip_record(flip: Flip) -> dict[str, object]:
    return {
        "claim": printed_claim(flip.claim),
        "standard": flip.standard,
        "verdict": "holds" if flip.holds else "fails",
        "flips": flip.flips,
        "together with": [{"part": part, "value": value} for part, value in flip.together],
    }
