"""How far a search went, as a sentence: 'no single or double failure', never 'no failure'."""

from collections.abc import Sequence

from cutaway.inquiry.questions.asked import HowFar
from cutaway.inquiry.search.changes import Break
from cutaway.problems.counting import counted
from cutaway.wording.asking import the
from cutaway.wording.shown import listed_with, sentence

_SIZES = {1: "single", 2: "double", 3: "triple"}


def up_to(size: int, what: str) -> str:
    """The sizes up to one, as they are said.

    >>> up_to(1, "failure"), up_to(2, "failure"), up_to(3, "change")
    ('single failure', 'single or double failure', 'single, double or triple change')
    """
    names = [_SIZES.get(one, f"{one}-fold") for one in range(1, size + 1)]
    return f"{names[0] if len(names) == 1 else ', '.join(names[:-1]) + ' or ' + names[-1]} {what}"


def scope_words(faultless: tuple[str, ...]) -> str:
    """What counts as a failure, and what does not."""
    nor = f", nor anything in {listed_with((a_kind(kind) for kind in faultless), 'or')}" if faultless else ""
    return (
        "As a failure counts what the library of parts says can go wrong with each kind of part; a broken wire or pipe "
        f"between two parts does not{nor}"
    )


def a_kind(kind: str) -> str:
    """A kind with its article.

    >>> a_kind("fuse"), a_kind("oil tank")
    ('a fuse', 'an oil tank')
    """
    return f"{'an' if kind[:1].lower() in 'aeiou' else 'a'} {kind}"


def alike_words(several: Sequence[tuple[Break, ...]]) -> str:
    """That nothing on the panel tells some failures apart."""
    what = "these two" if len(several) == 2 else f"these {len(several)}"
    names = (" with ".join(f"{the(one.part)} ({one.failure})" for one in of) for of in several)
    return sentence(f"As things stand, nothing that the crew sees or hears tells {what} apart: {listed_with(names)}")


def leaks_words(leaks: tuple[str, ...], does: str) -> str:
    """That a slow leak was looked at once all else was at rest, and what it comes to later was not. does: 'do it'."""
    return (
        f"A slow leak of {listed_with(map(the, leaks))} does not {does} alone by the time that all else is at rest; "
        "what may have leaked away after hours or days was not looked at: ask with --at, as --at '2 h'"
    )


def _counts(far: HowFar, what: str) -> str:
    """How many could matter, how many sets of them were tried, and why not all."""
    could = f"{counted(far.universe, what)} could matter here"
    left = far.possible - far.tried
    if far.asked == 1 and left == 0:
        return f"{could}, and all were tried"
    if far.ended not in ("size", "complete") or left <= 0:
        return f"{could}; {counted(far.tried, 'set')} of them tried"
    were = "was" if far.tried == 1 else "were"
    if far.asked == 1:
        why = "since alone it changes nothing" if left == 1 else "since alone they change nothing"
        return f"{could}: {far.tried:,} {were} tried, and {left:,} passed over, {why}"
    return (
        f"{could}, which make {far.possible:,} sets: {far.tried:,} {were} tried, and {left:,} passed over, since a "
        "part of them changes nothing, or fewer of them do it already"
    )


def bound_words(far: HowFar, what: str, found: int, does: str = "does it") -> tuple[str, ...]:
    """Sentences that say how far it was looked, by what it ended, and how to narrow it. what: 'failure', 'change'."""
    other = "other " if found else ""
    out: list[str] = []
    if far.ended == "complete":
        out.append(
            f"There is no other way within {what}s of this model: every set that could matter has been looked at"
        )
        if not found:
            out[-1] = f"No {what}, nor any number of them together, {does}: every set that could matter was looked at"
    elif far.ended == "size":
        out.append(f"No {other}{up_to(far.asked, what)} {does}; {far.asked + 1} at once were not looked at")
    else:
        through = f"No {other}{up_to(far.done, what)} {does}. " if far.done else ""
        why = {"tries": "the most that is tried", "time": "the time limit", "stopped": "you stopped it"}[far.ended]
        out.append(
            f"{through}The search ended early ({why}): {far.tried:,} of about {far.possible:,} sets of up to "
            f"{far.asked} were looked at, so there may be more. To narrow it, ask of one standard and situation, say "
            "more of what is given, or look for smaller sets with --size"
        )
    out.append(_counts(far, what))
    if far.undecided:
        them = "one of them" if far.undecided == 1 else f"{far.undecided:,} of them"
        out.append(f"Of {them} the model could not say what comes, and so they are not counted among the answers")
    return tuple(out)
