"""All files of a pack, from what checking found: nothing is written here."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cutaway.inquiry.verdicts import Undecided
from cutaway.narrate.checked import Checked, Keep, found_here
from cutaway.problems.diagnostic import Problems, in_order
from cutaway.publish.assumed import assumptions
from cutaway.publish.captioning import caption_files
from cutaway.publish.charts import CHARTS
from cutaway.publish.contents_page import title_of
from cutaway.publish.differences import DIFFERENCES
from cutaway.publish.drawings import Desk, draw_sheets
from cutaway.publish.explore.product import EXPLORE
from cutaway.publish.filling import pack_view
from cutaway.publish.handout.product import HANDOUTS
from cutaway.publish.page import page
from cutaway.publish.panels import PANELS
from cutaway.publish.photographs import PHOTOGRAPHS
from cutaway.publish.product import Files, Product, piece_of_product
from cutaway.publish.quiz_product import QUIZ
from cutaway.publish.records_json import problems_json, verdicts_json
from cutaway.publish.sequences import SEQUENCES
from cutaway.publish.view import ProductView

PRODUCTS: tuple[Product, ...] = (PANELS, SEQUENCES, DIFFERENCES, CHARTS, PHOTOGRAPHS, EXPLORE, QUIZ, HANDOUTS)
"""What a pack has besides the page, the captions and the sheets, in the order in which the page leads to it."""


@dataclass(frozen=True, slots=True)
class Contents:
    """What a pack is made of so far. products: what it has besides the page, each with its files."""

    files: Files
    products: tuple[ProductView, ...]


def pack_files(
    checked: Checked,
    desk: Desk,
    problems: Problems,
    stage: Callable[[str], None] = lambda words: None,
    keep: Keep = found_here,
    wanted: Sequence[Product] = PRODUCTS,
) -> tuple[Contents, Problems]:
    """The files by their path in the pack, and all problems.

    problems: those found so far, which the page shows too. stage: told what is made next. keep: where the views of
    scripts may be kept. wanted: what it is to have besides the page, the captions and the sheets.
    """
    settled = not checked.not_yet and not any(isinstance(verdict, Undecided) for verdict in checked.verdicts())
    desk = replace(desk, keep=keep if settled else found_here)
    stage("drawing the sheets")
    sheets, drawings, more = draw_sheets(desk)
    problems += more
    found: dict[str, bytes] = {}
    products: list[ProductView] = []
    for product in wanted:
        files, more = piece_of_product(product, desk, checked, settled, stage)
        files = product.after(files, checked)
        problems += more
        found |= files
        products += [_shown(product, files)] if files else []
    stage("writing the captions and the page")
    captions, more = caption_files(checked, desk.shelf)
    problems = in_order(problems + more)
    view = pack_view(checked, assumptions(desk), sheets, desk.kinds, problems, desk.keep)
    view = replace(view, products=tuple(products))
    words = {
        "index.html": page(view).encode(),
        "verdicts.json": verdicts_json(view),
        "problems.json": problems_json(problems),
    }
    return Contents({**found, **drawings, **captions, **words}, tuple(products)), problems


def _shown(product: Product, files: Files) -> ProductView:
    """A product as the pages of the pack lead to it."""
    titled = tuple((path, title_of(path, files[path])) for path in sorted(files))
    first = tuple(one for one in titled if one[0] == product.first)
    others = tuple(one for one in titled if one[0] != product.first)
    return ProductView(product.name, product.says, first or others, others if first else ())
