"""Claims and drills that were written and are not judged: how many, and what keeps them from it, each told once."""

from collections.abc import Iterator
from pathlib import Path

from cutaway.handbook.names import listed
from cutaway.language.name_index import key
from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.problems.counting import counted
from cutaway.problems.span import Span, place


def unjudged(checked: Checked) -> tuple[Span, ...]:
    """The claims of the scripts that were left out, in their order."""
    return tuple(span for one in checked.sentences for span in _left_out(one))


def waits(one: CheckedSentence) -> bool:
    """Whether all that would check a sentence was left out."""
    return bool(_left_out(one)) and not one.claims and not one.sentence.cites


def _left_out(one: CheckedSentence) -> tuple[Span, ...]:
    judged = {claim.claim.span for claim in one.claims}
    return tuple(span for span in one.sentence.claims if span not in judged)


def unjudged_lines(checked: Checked) -> Iterator[str]:
    """How many claims have no verdict, and why; the drills that went with them."""
    spans = unjudged(checked)
    names = [_names(span, checked) for span in spans]
    told = sum(1 for each in names if not each)
    if spans:
        more = "more " if any(claim.judged for claim in checked.claims()) else ""
        have = "has" if len(spans) == 1 else "have"
        of = listed(sorted({name for each in names for name in each}))
        wrong = f"of what is wrong in the folder ({of})"
        it = "it" if len(spans) == 1 else "they"
        if checked.folder.unread:
            why = f"{listed(checked.folder.unread)} could not be read"
        elif not told:
            why = f"{it} {_speak(len(spans))} {wrong}"
        elif told == len(spans):
            why = f"{it} could not be understood"
        else:
            why = f"{len(spans) - told} {_speak(len(spans) - told)} {wrong}, {told} could not be understood"
        yield f"{counted(len(spans), f'{more}claim')} {have} no verdict: {why}."
    drills = _lost_drills(checked)
    if drills:
        yield f"{counted(len(drills), 'drill')} {'is' if len(drills) == 1 else 'are'} left out too: {listed(drills)}."


def _speak(count: int) -> str:
    return "speaks" if count == 1 else "speak"


def _names(span: Span, checked: Checked) -> tuple[str, ...]:
    """What was left out that a claim speaks of: the longest names only."""
    text = f" {key(span.words.replace(',', ' ').replace(':', ' '))} "
    found = [name for name in checked.folder.left_out if f" {key(name)} " in text or f" {key(name)}." in text]
    return tuple(name for name in found if not any(name != other and name in other for other in found))


def _lost_drills(checked: Checked) -> list[str]:
    kept = {drill.name for drill in checked.folder.drills}
    files = [Path(file.path).stem for file in checked.folder.files if file.path.startswith("drills/")]
    return [name for name in files if name not in kept]


def unjudged_record(checked: Checked) -> list[dict[str, object]]:
    """The same for a program."""
    return [
        {
            "place": f"{span.file.path}:{place(span).line}",
            "claim": span.words,
            "left out": list(_names(span, checked)),
        }
        for span in unjudged(checked)
    ]
