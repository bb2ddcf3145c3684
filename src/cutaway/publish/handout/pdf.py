"""A handout set as PDF: tagged, with its fonts inside, nothing asked of a network; the same records, the same bytes."""

import json
from collections.abc import Callable
from dataclasses import asdict, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from cutaway.draw.measure import font_file
from cutaway.publish.handout.records import Handout

if TYPE_CHECKING:
    import typst

TEMPLATE = Path(__file__).with_name("handout.typ")


def pdf_of(handout: Handout, template: bytes | None = None) -> bytes:
    """The handout as PDF."""
    import typst

    made = typst.compile(
        template or _template(),
        sys_inputs=_inputs(handout),
        font_paths=fonts(),
        # Universal accessibility: what a reader of tags could not follow is then refused.
        pdf_standards=["ua-1"],
    )
    assert isinstance(made, bytes)
    return made


def pages_of(handout: Handout) -> int:
    """How many pages it takes."""
    import typst

    found = typst.query(
        _template(),
        "<last-page>",
        field="value",
        one=True,
        sys_inputs=_inputs(handout),
        font_paths=fonts(),
    )
    return int(json.loads(found))


def on_one_page(handout: Handout, pages: Callable[[Handout], int] = pages_of) -> Handout | None:
    """The handout with so many points and terms as fit on its page; None where it does not fit with none of either."""
    while pages(handout) > 1:
        if len(handout.terms) > 3 or (handout.terms and len(handout.points) <= 2):
            handout = replace(handout, terms=handout.terms[:-1])
        elif handout.points:
            handout = replace(handout, points=handout.points[:-1])
        else:
            return None
    return handout


@cache
def _template() -> bytes:
    return TEMPLATE.read_bytes()


def _inputs(handout: Handout) -> dict[str, str]:
    return {"data": json.dumps(asdict(handout), ensure_ascii=False)}


@cache
def fonts() -> "typst.Fonts":
    """The font of the drawings, and those that the typesetter carries; none of this machine, so that all are alike."""
    import typst

    plain = font_file()
    return typst.Fonts(include_system_fonts=False, font_paths=[str(plain.parent)] if plain is not None else [])
