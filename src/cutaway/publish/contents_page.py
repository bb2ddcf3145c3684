"""The list of all that is in a pack, by what it is, so that whoever gets the folder finds the one file wanted."""

import html
import re
from collections.abc import Mapping, Sequence
from itertools import takewhile

from cutaway.problems.counting import counted
from cutaway.publish.html import Html, el, join
from cutaway.publish.plain_page import plain_page
from cutaway.publish.view import ProductView

Links = Sequence[tuple[str, str]]

_FIRST = "index.html"
_NAMED = {
    _FIRST: "The page: begin here",
    "glossary.html": "Glossary",
    "errata.html": "Errata: what was published and reads otherwise now",
    "errata.json": "The errata, for programs",
    "problems.json": "What is wrong in the type folder, for programs",
    "record.json": "What the pack says, by which a later one knows what changed",
    "verdicts.json": "Every verdict, for programs",
}
"""What the files are that have no product, by their path."""

_SORTS = (
    ("sheets/", "Sheets", "Each system of each standard in each situation, as a drawing (SVG)."),
    ("captions/", "Captions and chapters", "For films: WebVTT and SRT, timed by the reading speed."),
    ("prompter/", "Prompters", "The scripts in large letters, to be read aloud from a screen."),
    ("shots/", "Shot lists", "What is to be seen while each sentence is said."),
    ("", "The page and its records", "Every sentence with its verdict and paragraph, and the same for programs."),
)
"""How paths begin, what is there, and a sentence about it; the last has all the rest, and is shown first."""


def contents_page(name: str, notice: str, files: Mapping[str, bytes], products: Sequence[ProductView]) -> str:
    """The list as a page. products: with the paths that belong to each; all other files go by their folders."""
    left = dict.fromkeys(sorted(files, key=lambda path: (path != _FIRST, path)))
    sections: list[Html] = []
    for product in products:
        for path, _ in (*product.links, *product.others):
            left.pop(path, None)
        sections.append(_section(product.name, product.says, product.links, product.others, together=True))
    for begins, heading, says in _SORTS:
        links = [(path, _NAMED.get(path, title_of(path, files[path]))) for path in left if path.startswith(begins)]
        for path, _ in links:
            del left[path]
        if links:
            sections.append(_section(heading, says, *(((), links) if len(links) > _MANY else (links, ()))))
    return plain_page(f"{name}, what is in the pack", (sections[-1], *sections[:-1]), notice, root="")


def _section(heading: str, says: str, links: Links, others: Links, together: bool = False) -> Html:
    """links: to be seen at once, those of one title together if that is said; others: folded away."""
    shown = el("ul", *(_rows(links) if together else map(_row, links))) if links else ""
    told = counted(len(others), "more file" if links else "file")
    folded = el("details", el("summary", told), el("ul", *_rows(others)), class_="files") if others else ""
    return el("section", el("h2", heading), el("p", says), shown, folded)


def _rows(links: Links) -> list[Html]:
    """Files of one title together, each by what its path has otherwise than the others."""
    found: dict[str, list[str]] = {}
    for path, title in links:
        found.setdefault(title, []).append(path)
    return [_row((those[0], title)) if len(those) == 1 else _several(title, those) for title, those in found.items()]


def _several(title: str, paths: list[str]) -> Html:
    stems = [path.rpartition(".")[0].split("-") for path in paths]
    alike = sum(1 for _ in takewhile(lambda words: len(set(words)) == 1, zip(*stems, strict=False)))
    links = (el("a", " ".join(stem[alike:]) or path, href=path) for path, stem in zip(paths, stems, strict=True))
    return el("li", f"{title}: ", join(links, ", "))


def _row(link: tuple[str, str]) -> Html:
    path, title = link
    return el("li", el("a", title, href=path), *((" ", el("span", path, class_="quiet")) if title != path else ()))


_MANY = 30
"""More files than this are folded away."""


def title_of(path: str, content: bytes) -> str:
    """What a page, a drawing or a handout is called by its own title; another file by its path."""
    if path.endswith((".html", ".svg")):
        found = re.search(rb"<title[^>]*>(.*?)</title>", content[:4000], re.DOTALL)
    elif path.endswith(".pdf"):
        found = re.search(rb"<dc:title>.*?<rdf:li[^>]*>(.*?)</rdf:li>", content, re.DOTALL)
    else:
        return path
    return html.unescape(found[1].decode("utf-8", "replace")).strip() if found else path
