"""Handouts set as files: which sheet or booklet, what stands on it, the PDF."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.draw.svg import slug
from cutaway.problems.diagnostic import Problems
from cutaway.publish.handout.booklet import booklet
from cutaway.publish.handout.ground import Ground
from cutaway.publish.handout.one_sheet import of_one_system, one_sheet
from cutaway.publish.handout.records import Handout, Kind, Paper
from cutaway.publish.handout.shown import Shown


@dataclass(frozen=True, slots=True)
class Set:
    """A handout that was set. pages, plates: how many it has."""

    handout: Handout
    pdf: bytes
    pages: int
    plates: int

    @property
    def stem(self) -> str:
        """What its file is called where nobody gave it a name."""
        made = self.handout
        words = made.kind if made.kind == "booklet" else f"{made.kind} {made.system} {made.standard}"
        return slug(f"{words} {made.paper.name}")


def handouts_of(
    ground: Ground, kinds: Sequence[Kind], papers: Sequence[Paper], sheets: tuple[Shown, ...], name: str = ""
) -> tuple[tuple[Set, ...], Problems]:
    """A handout of every kind on every paper; those of one sheet all of one system, and of one sheet where there is one
    that all take. name: what the author calls it."""
    found: list[Set] = []
    problems: Problems = ()
    single = any(kind != "booklet" for kind in kinds)
    alike = {paper: of_one_system(ground, kinds, paper, sheets) for paper in papers if single}
    for kind in kinds:
        for paper in papers:
            some = sheets if kind == "booklet" else alike[paper]
            made, more = _handout_of(ground, kind, paper, some, name)
            problems += more
            found += [made] if made is not None else []
    return tuple(found), problems


def _handout_of(
    ground: Ground, kind: Kind, paper: Paper, sheets: tuple[Shown, ...], name: str
) -> tuple[Set | None, Problems]:
    """A handout of some sheets: all of them in a booklet, else the first that the paper takes; None where there is
    nothing to show. It is set again only where something on it is another."""
    if kind == "booklet":
        made, problems = booklet(ground, paper, sheets)
    else:
        one, problems = one_sheet(ground, kind, paper, sheets)
        if one is None:
            return None, problems
        made = one
    if name:
        made = replace(made, called=f"{made.type}: {name}, {made.called.removeprefix(f'{made.type}: ')}")
    pdf, pages = ground.desk.shelf.piece("handout", made, lambda: _set(made))
    return Set(made, pdf, pages, len(made.plates)), problems


def _set(made: Handout) -> tuple[bytes, int]:
    from cutaway.publish.handout.pdf import pages_of, pdf_of

    return pdf_of(made), pages_of(made)
