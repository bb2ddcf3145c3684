"""A plain page of the pack beside the main one: a heading, what is on it, the notice. It needs no other file."""

from collections.abc import Iterable
from importlib.resources import files

from cutaway.publish.html import el, raw_style

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data: 'self' file:"


def plain_page(title: str, children: Iterable[str], notice: str, language: str = "en-GB") -> str:
    """The page as the text of one HTML file."""
    head = el(
        "head",
        el("meta", charset="utf-8"),
        el("meta", http_equiv="Content-Security-Policy", content=_POLICY),
        el("meta", name="viewport", content="width=device-width, initial-scale=1"),
        el("meta", name="color-scheme", content="light dark"),
        el("title", title),
        raw_style(files("cutaway.publish").joinpath("plain_page.css").read_text(encoding="utf-8")),
    )
    footer = el("footer", el("p", notice)) if notice else ""
    body = el("body", el("main", el("h1", title), *children), footer)
    return "<!DOCTYPE html>\n" + el("html", head, body, lang=language) + "\n"
