"""A text as it is read aloud: the glossary's own forms first, then figures, units and signs by the general rules."""

import re

from cutaway.handbook.records import Folder, Term
from cutaway.quantities.spoken import spoken


def spoken_form(text: str, glossary: tuple[Term, ...] = ()) -> str:
    """The text in words only. A term of the glossary (or another word for it) with 'said as' is said that way."""
    said = _said_as(glossary)
    if not said:
        return spoken(text)
    terms = re.compile(
        r"(?<!\w)(" + "|".join(re.escape(word) for word in sorted(said, key=len, reverse=True)) + r")(?!\w)",
        re.IGNORECASE,
    )
    # Split at the terms, so that the general rules cannot read a said form a second time.
    parts = terms.split(text)
    return "".join(said[part.lower()] if at % 2 else _between(part) for at, part in enumerate(parts))


def spoken_terms(folder: Folder) -> tuple[Term, ...]:
    """The glossary, and after it the project's own pronunciations in the same form: what `spoken_form` goes by."""
    named = {term.name.lower() for term in folder.glossary if term.said_as}
    said = (Term(one.written, "", one.said_as, (), "", (), one.span) for one in folder.pronounced)
    return folder.glossary + tuple(term for term in said if term.name.lower() not in named)


def _said_as(glossary: tuple[Term, ...]) -> dict[str, str]:
    said: dict[str, str] = {}
    for term in glossary:
        if term.said_as:
            said[term.name.lower()] = term.said_as
    return said


def _between(text: str) -> str:
    """The text between two terms, with its own blanks at both ends kept."""
    inner = text.strip()
    if not inner:
        return text
    lead = text[: len(text) - len(text.lstrip())]
    tail = text[len(text.rstrip()) :]
    return lead + spoken(inner) + tail
