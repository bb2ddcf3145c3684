"""The handout of one sheet: a page to take away, or the same in large print."""

from collections.abc import Sequence
from dataclasses import replace

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.handout import filling
from cutaway.publish.handout.ground import MOST_PAGES, SMALLEST, Ground
from cutaway.publish.handout.headed import headed
from cutaway.publish.handout.records import Handout, Kind, Paper, Plate
from cutaway.publish.handout.shown import Shown


def one_sheet(ground: Ground, kind: Kind, paper: Paper, sheets: tuple[Shown, ...]) -> tuple[Handout | None, Problems]:
    """The first of some sheets that the paper takes, with what is said of it; told in words where it takes none.

    None where there is nothing to show.
    """
    made: Plate | None = None
    problems: Problems = ()
    chosen = next(iter(sheets), None)
    for one in sheets:
        made, more = ground.plate(kind, paper, one)
        if made is not None:
            chosen, problems = one, more
            break
    if chosen is None:
        return None, ()
    words: tuple[str, ...] = ()
    if made is None:
        words, problems = ground.in_words(chosen)
        problems += (_too_large(kind, chosen),)
    sheet = _filled(ground, headed(ground, kind, paper, chosen), made, words)
    if kind == "large":
        return sheet, problems
    from cutaway.publish.handout.pdf import on_one_page

    fitted = ground.desk.shelf.piece("page", sheet, lambda: on_one_page(sheet))
    if fitted is None and made is not None:
        bare = replace(sheet, plates=())
        fitted = ground.desk.shelf.piece("page", bare, lambda: on_one_page(bare))
        problems += (_too_large(kind, chosen),)
    return fitted, problems


def taken_by_all(ground: Ground, kinds: Sequence[Kind], paper: Paper, sheets: tuple[Shown, ...]) -> tuple[Shown, ...]:
    """The first sheet that every kind takes, so that the large print is of what the page shows; all where none is."""
    # Large print needs the most room, so that it decides most often: it is asked first.
    ones = sorted((kind for kind in kinds if kind != "booklet"), key=lambda kind: -SMALLEST[kind])
    if len(ones) < 2:
        return sheets
    first = next((one for one in sheets if all(ground.plate(kind, paper, one)[0] for kind in ones)), None)
    return (first,) if first is not None else sheets


def _filled(ground: Ground, sheet: Handout, made: Plate | None, words: tuple[str, ...]) -> Handout:
    folder, view = ground.checked.folder, ground.view
    points = filling.points(view, ground.checked, sheet.system, sheet.standard)
    used = " ".join((*(one.text for one in points), *(made.words if made is not None else words)))
    cautions = filling.cautions_on(view, folder, sheet.system, sheet.standard)
    named = (one for one in filling.books(folder) if any(one.short in point.note for point in points))
    return replace(
        sheet,
        plates=(made,) if made is not None else (),
        words=words if sheet.kind == "large" else (),
        points=points,
        terms=filling.terms_in(folder, (used,)),
        cautions=tuple(one for one in filling.cautions_of(view) if one.text in cautions),
        books=tuple(named) if sheet.kind == "visitor" else (),
    )


def _too_large(kind: Kind, shown: Shown) -> Diagnostic:
    what = "one page" if kind == "visitor" else f"{MOST_PAGES[kind]} pages"
    message = (
        f"The sheet of {shown.system} on {shown.standard} has words too small on {what}, "
        f"so it is not on the {kind} sheet."
    )
    hint = "Name a smaller system, with --system or in handouts.yaml; the booklet gives a large one several pages."
    return Diagnostic("K511", None, message, hint)
