"""All files of a pack, from what checking found: nothing is written here."""

from collections.abc import Callable, Mapping

from cutaway.inquiry.workshop import Workshop
from cutaway.machine.fitting import Assumption
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems, in_order
from cutaway.publish.captioning import caption_files
from cutaway.publish.drawings import Desk, draw_sheets
from cutaway.publish.filling import pack_view
from cutaway.publish.page import page
from cutaway.publish.product import Product
from cutaway.publish.records_json import problems_json, verdicts_json

PRODUCTS: tuple[Product, ...] = ()
"""What a pack has besides the page, the captions and the sheets, in the order in which the page leads to it."""


def pack_files(
    checked: Checked, desk: Desk, problems: Problems, stage: Callable[[str], None] = lambda words: None
) -> tuple[Mapping[str, bytes], Problems]:
    """The files by their path in the pack, and all problems.

    problems: those found so far, which the page shows too. stage: told what is made next.
    """
    stage("drawing the sheets")
    sheets, drawings, more = draw_sheets(desk)
    problems += more
    products: dict[str, bytes] = {}
    for product in PRODUCTS:
        stage(product.stage)
        files, more = product.make(desk, checked)
        products |= files
        problems += more
    stage("writing the captions and the page")
    captions, more = caption_files(checked)
    problems = in_order(problems + more)
    view = pack_view(checked, _assumptions(desk.workshop), sheets, desk.kinds, problems)
    words = {
        "index.html": page(view).encode(),
        "verdicts.json": verdicts_json(view),
        "problems.json": problems_json(problems),
    }
    return {**products, **drawings, **captions, **words}, problems


def _assumptions(workshop: Workshop) -> tuple[Assumption, ...]:
    """The assumed values of all standards, each once."""
    found: dict[tuple[str, str, str], Assumption] = {}
    for subject in subjects(workshop.folder):
        bound, _ = workshop.bound(subject)
        for one in bound.assumptions:
            found.setdefault((one.part, one.value, one.stated), one)
    return tuple(found.values())
