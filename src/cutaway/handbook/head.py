"""What every reader of the folder needs to know of type.yaml and the sources, and the reading of `on:` and `cite:`."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.door import several_of, wrong_form
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Faulty, Node, Words
from cutaway.handbook.records import AircraftType, Cite, Paragraph, SourceKey
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import StandardName, Which, every, read_which

_CITE = re.compile(r"^\s*(?:(?P<source>[^§]*?)[\s,]*)§\s*(?P<number>\d+\s?[a-z]?)\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Head:
    """The type and the paragraphs that can be cited. unread: keys of sources that are there but could not be read."""

    type: AircraftType
    paragraphs: Mapping[tuple[SourceKey, str], Paragraph]
    sources: tuple[SourceKey, ...]
    unread: frozenset[str]


def read_on(node: Node | None, head: Head, airframes: bool = False) -> tuple[Which | None, Problems]:
    """The standards that an `on:` names; all of them where there is none.

    airframes: whether one aeroplane can be named too, as it can where something is done with it, not where it is built.
    """
    if node is None or (isinstance(node, Words) and node.empty):
        return every(head.type.standards), ()
    if isinstance(node, Faulty):
        return None, ()
    names: frozenset[StandardName] = frozenset()
    words: list[str] = []
    problems: Problems = ()
    for item in several_of(node):
        if not isinstance(item, Words):
            more: Problems = () if isinstance(item, Faulty) else (wrong_form(item, "'on'", "words"),)
            return None, problems + more
        one = _airframe(item.text, head) if airframes else None
        which, more = read_on_text(item.text, item.span, head) if one is None else (one, ())
        problems += more
        if which is None:
            return None, problems
        names |= which.names
        words.append(which.words)
    return Which(" or ".join(words), names), problems


def _airframe(text: str, head: Head) -> Which | None:
    """The one aeroplane that some words name."""
    name = next((a.name for a in head.type.airframes if fold(a.name) == fold(text)), None)
    return None if name is None else Which(name, frozenset((StandardName(name),)))


def read_on_text(text: str, span: Span, head: Head) -> tuple[Which | None, Problems]:
    """The standards that some words name."""
    airframe = next((a for a in head.type.airframes if fold(a.name) == fold(text)), None)
    if airframe is not None:
        return None, (
            Diagnostic(
                "H803",
                span,
                f"'{text}' is an airframe: what is said of its standard goes for every aeroplane of that standard.",
                f"Write on: {airframe.standard}, and name what this one lacks under 'missing' in type.yaml.",
            ),
        )
    mods = tuple(mod.name for mod in head.type.mods)
    return read_which(text, span, head.type.marks, mods, head.type.standards)


def read_cites(node: Node | None, head: Head, default: str) -> tuple[tuple[Cite, ...], Problems]:
    """The paragraphs that a `cite:` names; one that does not exist is told and left out."""
    cites: list[Cite] = []
    problems: Problems = ()
    for item in several_of(node):
        if isinstance(item, Words):
            some, more = read_cites_text(item.text, item.span, head, default)
            cites.extend(some)
            problems += more
        elif not isinstance(item, Faulty):
            problems += (wrong_form(item, "'cite'", "a paragraph such as §21"),)
    return tuple(cites), problems


def read_cites_text(text: str, span: Span, head: Head, default: str) -> tuple[tuple[Cite, ...], Problems]:
    """The paragraphs that some words name: '§21', 'hb §21', '§21, §22'."""
    cites: list[Cite] = []
    problems: Problems = ()
    source = default
    for piece in re.split(r",|;|\band\b", text):
        if not piece.strip():
            continue
        match = _CITE.match(piece)
        if match is None:
            return tuple(cites), (*problems, _not_a_cite(text, span, head, default))
        source = match["source"] or source
        cite, more = _find(source, "§" + match["number"].replace(" ", "").lower(), span, head)
        problems += more
        if cite is not None:
            cites.append(cite)
    return tuple(cites), problems


def _find(source: str, number: str, span: Span, head: Head) -> tuple[Cite | None, Problems]:
    if not source and len(head.sources) != 1:
        if not head.sources:
            unread: Problems = () if head.unread else (_no_sources(number, span),)
            return None, unread
        return None, (
            Diagnostic(
                "H204",
                span,
                f"'{number}' does not say of which source.",
                f"Write {listed([f'{key} {number}' for key in head.sources], 'or')}.",
            ),
        )
    key = next((k for k in head.sources if fold(k) == fold(source)), None) if source else head.sources[0]
    if key is None:
        if fold(source) in head.unread:
            return None, ()
        if not head.sources:
            return None, (_no_sources(f"{source} {number}", span),)
        return None, (Diagnostic("H202", span, f"There is no source '{source}'.", did_you_mean(source, head.sources)),)
    if (key, number) in head.paragraphs:
        return Cite(key, number, span), ()
    known = [n for k, n in head.paragraphs if k == key]
    return None, (Diagnostic("H201", span, f"There is no paragraph {number} in {key}.", _near_number(number, known)),)


def _near_number(number: str, known: list[str]) -> str:
    figure = int(re.sub(r"\D", "", number) or 0)
    near = sorted(known, key=lambda n: (abs(int(re.sub(r"\D", "", n)) - figure), n))[:4]
    return (
        f"Near it there is {listed(near)}." if near else "The source has no paragraphs: each begins with '## 21 Title'."
    )


NO_SOURCES = "Put the handbook's paragraphs into sources/hb.md, each under a heading such as '## 21 Fuel cocks'."


def _no_sources(what: str, span: Span) -> Diagnostic:
    return Diagnostic("H202", span, f"'{what}' cites a book, but there is none in sources/.", NO_SOURCES)


def _not_a_cite(text: str, span: Span, head: Head, default: str) -> Diagnostic:
    number = re.search(r"\d+\s?[a-z]?\b", text)
    key = default or (head.sources[0] if head.sources else "hb")
    example = f"{key} §{number[0] if number else '21'}"
    return Diagnostic(
        "H203", span, f"'{text}' does not name a paragraph.", f"Write {example}, or [§21, §22] for several."
    )
