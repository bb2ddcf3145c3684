"""The page of the sequences: of each its stills in order, with their moments, and the way to the moving drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.publish.html import Html, anchor, el
from cutaway.publish.plain_page import plain_page


@dataclass(frozen=True, slots=True)
class StillView:
    """A still. moment: when it is. says: what was done then, '' where the moment says all. words: its alternative."""

    path: str
    moment: str
    says: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SequenceView:
    """A sequence. moving: the file of the moving drawing, '' where there is one moment only."""

    title: str
    says: str
    moving: str
    stills: tuple[StillView, ...]


_STYLE = "ol.stills { list-style: none; padding: 0; } ol.stills figure { margin: 0 0 2rem; }\n"
"""The stills bear their numbers themselves."""


def sequences_page(name: str, notice: str, views: Sequence[SequenceView]) -> str:
    """The page as text."""
    places = el("ul", *(el("li", el("a", one.title, href=f"#{_anchor(one)}")) for one in views))
    return plain_page(f"{name}, sequences", (places, *map(_section, views)), notice, style=_STYLE)


def _anchor(one: SequenceView) -> str:
    return anchor("sequence", one.stills[0].path)


def _section(one: SequenceView) -> Html:
    moving = el("p", el("a", "All moments as one moving drawing", href=one.moving)) if one.moving else ""
    figures = el("ol", *(el("li", _figure(still)) for still in one.stills), class_="stills")
    return el("section", el("h2", one.title, id=_anchor(one)), el("p", one.says), moving, figures,
              aria_labelledby=_anchor(one))  # fmt: skip


def _figure(still: StillView) -> Html:
    says = f": {still.says}" if still.says else ""
    picture = el("a", el("img", src=still.path, alt=" ".join(still.words), loading="lazy"), href=still.path)
    told = el("details", el("summary", "In words"), el("ul", *(el("li", line) for line in still.words)))
    return el("figure", el("div", picture, class_="drawn"), el("figcaption", el("b", still.moment), says), told)
