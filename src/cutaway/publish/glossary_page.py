"""The glossary as a page of two reading levels: in full, or simply, as the reader chooses."""

from cutaway.narrate.desk import Desk, film_at
from cutaway.narrate.terms import TermUse
from cutaway.publish.html import Html, el, join
from cutaway.publish.plain_page import plain_page


def glossary_page(desk: Desk) -> str:
    """Every term, first simply and then in full; a term with one level has it in both."""
    folder = desk.folder
    terms = sorted(desk.terms, key=lambda use: use.term.name.lower())
    simply = el("dl", *(_entry(use, desk, use.term.simply or use.term.meaning) for use in terms))
    full = el("dl", *(_entry(use, desk, use.term.meaning) for use in terms))
    places = el("p", el("a", "Simply", href="#simply"), " · ", el("a", "In full", href="#full"))
    sections = (
        el("section", el("h2", "Simply", id="simply"), simply, aria_labelledby="simply"),
        el("section", el("h2", "In full", id="full"), full, aria_labelledby="full"),
    )
    return plain_page(f"{folder.type.name}, glossary", (places, *sections), folder.type.notice)


def _entry(use: TermUse, desk: Desk, meaning: str) -> Html:
    term = use.term
    said = f" (said: {term.said_as})" if term.said_as and term.said_as.lower() != term.name.lower() else ""
    more = [f"Also: {', '.join(term.also).rstrip('.')}."] if term.also else []
    if use.introduced is not None:
        film, number = film_at(desk.folder, use.introduced)
        more.append(f"First explained in {film}, sentence {number}.")
    more.extend(f"From {cite.source} {cite.number}." for cite in term.cites)
    small = el("div", " ".join(more), class_="quiet") if more else ""
    return join((el("dt", term.name, el("span", said, class_="quiet") if said else ""), el("dd", meaning, small)))
