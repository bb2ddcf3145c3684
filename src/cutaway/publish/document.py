"""The shell of every page: one HTML file whose policy lets the browser fetch nothing and run our own script only."""

import base64
import hashlib
from collections.abc import Iterable
from importlib.resources import files

from cutaway.publish.colours import Screens, colours
from cutaway.publish.html import Html, el, raw_script, raw_style


def own(*path: str) -> str:
    """The text of a style sheet or script of ours, by its place in this room."""
    return files("cutaway.publish").joinpath(*path).read_text(encoding="utf-8")


def way_back(root: str) -> Html:
    """The way from a page to the rest of its pack. root: where that is from the page, './'; '' where it is in none."""
    if not root:
        return Html("")
    links = (
        el("a", "The page", href=f"{root}index.html"),
        el("a", "All that is in the pack", href=f"{root}contents.html"),
    )
    return el("nav", *links, class_="back", aria_label="In the pack")


def document(
    title: str,
    style: str,
    body: Iterable[str],
    language: str,
    *,
    images: str = "",
    script: str = "",
    screens: Screens = "both",
    **attributes: str,
) -> str:
    """A page as the text of one HTML file. Same pieces, same bytes.

    images: where pictures may come from, 'data:'; '' for nowhere. script: our own, run at the end of the body.
    style: what the page has beyond what every page has. screens: for which it is coloured. attributes: of the body.
    """
    digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
    policy = ["default-src 'none'", "style-src 'unsafe-inline'"]
    policy += [f"img-src {images}"] if images else []
    policy += [f"script-src 'sha256-{digest}'"] if script else []
    head = el(
        "head",
        el("meta", charset="utf-8"),
        el("meta", http_equiv="Content-Security-Policy", content="; ".join(policy)),
        el("meta", name="viewport", content="width=device-width, initial-scale=1"),
        el("meta", name="color-scheme", content="light dark" if screens == "both" else screens),
        el("title", title),
        raw_style(f"{colours(screens)}{own('every_page.css')}{style}"),
    )
    whole = el("body", *body, raw_script(script) if script else "", **attributes)
    return "<!DOCTYPE html>\n" + el("html", head, whole, lang=language) + "\n"
