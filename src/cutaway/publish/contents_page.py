"""The list of all that is in a pack, by what it is, so that whoever gets the folder finds the one file wanted."""

import html
import re
from collections.abc import Iterable, Mapping, Sequence

from cutaway.publish.html import Html, el
from cutaway.publish.plain_page import plain_page
from cutaway.publish.view import ProductView

_SORTS = (
    ("sheets/", "Sheets", "Each system of each standard in each situation, as a drawing (SVG)."),
    ("captions/", "Captions and chapters", "For films: WebVTT and SRT, timed by the reading speed."),
    ("prompter/", "Prompters", "The scripts in large letters, to be read aloud from a screen."),
    ("shots/", "Shot lists", "What is to be seen while each sentence is said."),
    ("", "The page and its records", "Every sentence with its verdict and paragraph, and the same for programs."),
)
"""How paths begin, what is there, and a sentence about it; the last has all the rest."""


def contents_page(name: str, notice: str, files: Mapping[str, bytes], products: Sequence[ProductView]) -> str:
    """The list as a page. products: with the paths that belong to each; all other files go by their folders."""
    left = dict.fromkeys(sorted(files))
    sections: list[Html] = []
    for product in products:
        paths = [path for path, _ in product.links if path in left]
        for path in paths:
            del left[path]
        sections.append(_section(product.name, product.says, product.links))
    for begins, heading, says in _SORTS:
        paths = [path for path in left if path.startswith(begins)]
        for path in paths:
            del left[path]
        if paths:
            sections.append(_section(heading, says, [(path, title_of(path, files[path])) for path in paths]))
    return plain_page(f"{name}, what is in the pack", sections, notice)


def _section(heading: str, says: str, links: Iterable[tuple[str, str]]) -> Html:
    rows = [
        el("li", el("a", title, href=path), *((" ", el("span", path, class_="quiet")) if title != path else ()))
        for path, title in links
    ]
    told = f"{len(rows)} files" if len(rows) > 1 else "1 file"
    listed = el("details", el("summary", told), el("ul", *rows)) if len(rows) > _MANY else el("ul", *rows)
    return el("section", el("h2", heading), el("p", says), listed)


_MANY = 30
"""More files than this are folded away."""


def title_of(path: str, content: bytes) -> str:
    """What a page or a drawing is called by its own title; another file by its path."""
    if not path.endswith((".html", ".svg")):
        return path
    found = re.search(rb"<title[^>]*>(.*?)</title>", content[:4000], re.DOTALL)
    return html.unescape(found[1].decode("utf-8", "replace")).strip() if found else path
