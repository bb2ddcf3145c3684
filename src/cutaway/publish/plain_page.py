"""A plain page of the pack beside the main one: a heading, what is on it, the notice. It needs no other file."""

from collections.abc import Iterable

from cutaway.publish.document import document, own, way_back
from cutaway.publish.html import el

_IMAGES = "data: 'self' file:"


def plain_page(
    title: str, children: Iterable[str], notice: str, language: str = "en-GB", root: str = "./", style: str = ""
) -> str:
    """The page as the text of one HTML file. root: the way to the pack's, '' where it is in none. style: of its own."""
    footer = el("footer", el("p", notice)) if notice else ""
    body = (way_back(root), el("main", el("h1", title), *children), footer)
    return document(title, own("plain_page.css") + style, body, language, images=_IMAGES)
