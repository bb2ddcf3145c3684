"""The head of a handout: of what type it is, what it is called, what it is not."""

from cutaway.publish.handout.ground import Ground
from cutaway.publish.handout.records import Handout, Kind, Paper
from cutaway.publish.handout.shown import Shown

CALLED = {"visitor": "visitor sheet", "large": "large-print sheet", "booklet": "booklet"}


def headed(ground: Ground, kind: Kind, paper: Paper, shown: Shown | None) -> Handout:
    """A handout with its head alone. shown: the sheet that it is of; None for the whole type."""
    head = ground.checked.folder.type
    system, standard = (shown.system, shown.standard) if shown is not None else ("", "")
    what = ", ".join(word for word in (CALLED[kind], system, standard) if word)
    return Handout(
        kind, paper, head.name, head.name, head.maker, " ".join(head.says.split()), head.notice, standard,
        shown.situation if shown is not None else "", system, called=f"{head.name}: {what}",
    )  # fmt: skip
