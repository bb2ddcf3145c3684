"""The booklet: the scripts to read, the sheets, cautions, glossary, books, credits and the notice."""

from collections.abc import Iterable
from dataclasses import replace

from cutaway.problems.diagnostic import Problems
from cutaway.publish.assumed import assumptions
from cutaway.publish.handout import filling
from cutaway.publish.handout.ground import Ground
from cutaway.publish.handout.headed import headed
from cutaway.publish.handout.records import Handout, Paper, Plate
from cutaway.publish.handout.shown import Shown

CREDITS = (
    "Sheets and notes were made with Cutaway from the type folder's own text: its books, its systems, its scripts.",
    "Set in Libertinus Serif and DejaVu Sans.",
)


def booklet(ground: Ground, paper: Paper, sheets: tuple[Shown, ...]) -> tuple[Handout, Problems]:
    """The booklet with these sheets, in their order."""
    folder = ground.checked.folder
    told, problems = filling.stories(ground.view)
    plates: list[Plate] = []
    for one in sheets:
        made, more = ground.plate("booklet", paper, one)
        problems += more
        plates += [made] if made is not None else []
    assumed = {(one.part, one.value) for one in assumptions(ground.desk)}
    return replace(
        headed(ground, "booklet", paper, None),
        plates=tuple(_alike(plates)),
        stories=tuple(one for one in told if one.chapters),
        terms=filling.terms(folder),
        cautions=filling.cautions_of(ground.view),
        books=filling.books(folder),
        credits=CREDITS,
        assumed=len(assumed),
        tried=ground.desk.rests,
    ), problems


def _alike(plates: Iterable[Plate]) -> list[Plate]:
    """Each look once, with the names of all that look so: 'Whinchat Mk 1, Mk 2: Engine'."""
    found: dict[tuple[str, str], Plate] = {}
    for one in plates:
        key = (one.looks, one.says)
        if key not in found:
            found[key] = one
            continue
        who, _, system = found[key].title.rpartition(": ")
        new = one.title.rpartition(": ")[0].removeprefix(who.partition(" ")[0]).strip()
        found[key] = replace(found[key], title=f"{who}, {new}: {system}")
    return list(found.values())
