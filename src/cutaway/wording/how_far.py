"""How far a search went, as a sentence: 'no single or double failure', never 'no failure'."""

from cutaway.inquiry.questions.asked import HowFar
from cutaway.problems.counting import counted

_SIZES = {1: "single", 2: "double", 3: "triple"}


def up_to(size: int, what: str) -> str:
    """The sizes up to one, as they are said.

    >>> up_to(1, "failure"), up_to(2, "failure"), up_to(3, "change")
    ('single failure', 'single or double failure', 'single, double or triple change')
    """
    names = [_SIZES.get(one, f"{one}-fold") for one in range(1, size + 1)]
    return f"{names[0] if len(names) == 1 else ', '.join(names[:-1]) + ' or ' + names[-1]} {what}"


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
    out.append(f"{counted(far.universe, what)} could matter here; {counted(far.tried, 'set')} of them tried")
    if far.undecided:
        them = "one of them" if far.undecided == 1 else f"{far.undecided:,} of them"
        out.append(f"Of {them} the model could not say what comes, and so they are not counted among the answers")
    return tuple(out)
