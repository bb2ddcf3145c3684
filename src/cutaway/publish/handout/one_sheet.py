"""The handout of one sheet: a page to take away, or the same in large print."""

from collections.abc import Sequence
from dataclasses import replace

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.handout import filling
from cutaway.publish.handout.ground import MOST_PAGES, SMALLEST, Ground
from cutaway.publish.handout.headed import headed
from cutaway.publish.handout.records import Handout, Kind, Paper, Plate
from cutaway.publish.handout.shown import Shown

FEW_PIECES = 4
"""Of how many pages a drawing in large print can be put together; what is on more is told in words too."""


def one_sheet(ground: Ground, kind: Kind, paper: Paper, sheets: tuple[Shown, ...]) -> tuple[Handout | None, Problems]:
    """The first of some sheets that the paper takes, with what is said of it; told in words, or without a drawing,
    where it takes none. None where there is nothing to show."""
    if not sheets:
        return None, ()
    for one in sheets:
        made, problems = _page(ground, kind, paper, one)
        if made is not None:
            return made, problems
    shown = sheets[0]
    words, problems = _in_words(ground, shown) if kind == "large" else ((), ())
    bare = _filled(ground, headed(ground, kind, paper, shown), None, words)
    return bare if kind == "large" else _fitted(ground, bare), (*problems, _too_large(kind, shown))


def of_one_system(ground: Ground, kinds: Sequence[Kind], paper: Paper, sheets: tuple[Shown, ...]) -> tuple[Shown, ...]:
    """The sheets to choose from, whatever the kinds, so that each tells of the same: the first that a page to take away
    has room for, or one of the same system that all kinds take; all where a page has room for none."""
    fits = next((one for one in sheets if _page(ground, "visitor", paper, one)[0] is not None), None)
    if fits is None:
        return sheets
    # Large print needs the most room, so that it decides most often: it is asked first.
    ones = sorted((kind for kind in kinds if kind != "booklet"), key=lambda kind: -SMALLEST[kind])
    own = (one for one in sheets if one.system == fits.system)
    return (next((one for one in own if all(_page(ground, kind, paper, one)[0] for kind in ones)), fits),)


def _page(ground: Ground, kind: Kind, paper: Paper, shown: Shown) -> tuple[Handout | None, Problems]:
    """A handout with the drawing of one sheet; None where the paper does not take it."""
    drawn, problems = ground.plate(kind, paper, shown)
    if drawn is None:
        return None, problems
    words: tuple[str, ...] = ()
    if kind == "large" and len(drawn.tiles) > FEW_PIECES:
        words, more = _in_words(ground, shown)
        problems += more
    made = _filled(ground, headed(ground, kind, paper, shown), drawn, words)
    return made if kind == "large" else _fitted(ground, made), problems


def _fitted(ground: Ground, made: Handout) -> Handout | None:
    """A handout on one page, with less said on it if need be."""
    from cutaway.publish.handout.pdf import on_one_page

    return ground.desk.shelf.piece("page", made, lambda: on_one_page(made))


def _in_words(ground: Ground, shown: Shown) -> tuple[tuple[str, ...], Problems]:
    """A drawing told, less what the sheet says of its own: the cautions and the notice."""
    words, problems = ground.in_words(shown)
    folder = ground.checked.folder
    said = {f"Caution: {one}" for one in filling.cautions_on(ground.view, folder, shown.system, shown.standard)}
    return tuple(one for one in words if one not in said and one != folder.type.notice), problems


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
    if kind == "large":
        what, so = f"{MOST_PAGES[kind]} pages", "the large sheet tells it in words"
    else:
        what, so = "one page", f"it is not on the {kind} sheet"
    message = f"The sheet of {shown.system} on {shown.standard} has words too small on {what}, so {so}."
    hint = (
        "Name a smaller system, with --system or in handouts.yaml, or divide this one into two files of systems/; "
        "the booklet gives a large one several pages."
    )
    return Diagnostic("K511", None, message, hint)
