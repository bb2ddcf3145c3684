"""A figure held against the book and against its kind: what looks wrong but may be right, and where to look."""

import re
from dataclasses import dataclass
from functools import lru_cache

from cutaway.handbook.head import Head
from cutaway.handbook.names import a, listed
from cutaway.handbook.records import Cite, Folder, Given, Paragraph, paragraph
from cutaway.handbook.tables import plain_text
from cutaway.parts.kind import Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.prose import figures_in, states, states_without_unit
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import low_high_si
from cutaway.quantities.which import StandardName, Which


@dataclass(frozen=True, slots=True)
class Owner:
    """The part whose quantities are read: its name in the file, its standards, what it cites, its system's source."""

    name: str
    kind: str
    on: Which
    cites: tuple[Cite, ...]
    source: str


@lru_cache(maxsize=2048)
def own_quantity(text: str, want: Want) -> Quantity | None:
    """A default or a range that the kind itself states."""
    if not text:
        return None
    quantity, _ = read_quantity(text, whole(TextFile("", text)), want.dimension)
    return quantity


def usual_quantity(want: Want) -> Quantity | None:
    """What is usual for a quantity, as far as its kind says: a range, else the figure that is assumed."""
    return own_quantity(want.usual or want.between or want.default, want)


def doubts(given: Given, want: Want, owner: Owner, head: Head) -> Problems:
    """Warnings: outside the usual range, not in the paragraph that is cited, a paragraph of another mark."""
    problems: Problems = ()
    quantity = given.quantity
    usual = given.between if given.assumed else own_quantity(want.usual or want.between, want)
    if usual is not None and usual.datum in ("", quantity.datum) and not _within(quantity, usual):
        whose = "the range that is given for it" if given.assumed else f"what is usual for {a(owner.kind)}"
        problems += (
            Diagnostic(
                "H304",
                given.span,
                f"'{want.name}' of {owner.name} is {quantity.text}, outside {whose}, {usual.text}.",
                "Look whether the figure and its unit are as the book has them.",
            ),
        )
    paragraphs = tuple(p for c in given.cites if (p := head.paragraphs.get((c.source, c.number))) is not None)
    if not paragraphs:
        return problems
    if not any(_stands_in(quantity, paragraph) for paragraph in paragraphs):
        problems += (_not_in_paragraph(given, want, owner, paragraphs),)
    told = frozenset[StandardName]().union(*(paragraph.on.names for paragraph in paragraphs))
    if not given.on.names <= told:
        problems += (
            Diagnostic(
                "H210",
                given.span,
                f"'{want.name}' of {owner.name} is given for {listed(sorted(given.on.names - told))} too, "
                f"but {listed([p.number for p in paragraphs])} is about {standards_listed(told, head)} only.",
                f"Write on: {paragraphs[0].on.words}, or cite the paragraph for the others.",
                tuple((paragraph.span, f"{paragraph.number} says:") for paragraph in paragraphs),
            ),
        )
    return problems


def not_borne_out(given: Given, want: Want, standard: StandardName, folder: Folder) -> str:
    """What the paragraphs that a figure cites have for a standard in its place, where they do not have it (H209, H210);
    '' where one of them does, or nothing that can be looked up is cited."""
    cited = tuple(one for cite in given.cites if (one := paragraph(folder, cite)) is not None)
    if not cited:
        return ""
    numbers, verb = listed([one.number for one in cited]), "is" if len(cited) == 1 else "are"
    if not any(_stands_in(given.quantity, one) for one in cited):
        has = _printed(cited, want)
        instead = f" and {'has' if verb == 'is' else 'have'} {listed(has)}" if has else ""
        return f"{numbers}, which {verb} cited for it, {'does' if verb == 'is' else 'do'} not have it{instead}"
    if not any(standard in one.on.names for one in cited):
        return f"{numbers}, which {verb} cited for it, {verb} not about {standard}"
    return ""


def _within(quantity: Quantity, usual: Quantity) -> bool:
    low, high = sorted(low_high_si(usual))
    least, most = low_high_si(quantity)
    slack = 1e-9 * max(abs(low), abs(high))
    return low - slack <= least and most <= high + slack


@lru_cache(maxsize=1024)
def _figures(text: str) -> tuple[Quantity, ...]:
    return figures_in(text)


@lru_cache(maxsize=4096)
def _stands_in(quantity: Quantity, paragraph: Paragraph) -> bool:
    text = "\n".join((plain_text(paragraph.text), *paragraph.cautions))
    return states(text, quantity) or states_without_unit(text, quantity)


def _not_in_paragraph(given: Given, want: Want, owner: Owner, paragraphs: tuple[Paragraph, ...]) -> Diagnostic:
    numbers = listed([paragraph.number for paragraph in paragraphs])
    has = _printed(paragraphs, want)
    hint = f"It has {listed(has)}." if has else "Cite the paragraph that has it, or write it as assumed:"
    if not has:
        hint += f" {{assume: {given.quantity.text}, because: …}}"
    return Diagnostic(
        "H209",
        given.span,
        f"'{given.quantity.text}' for '{want.name}' of {owner.name} does not stand in {numbers}.",
        hint,
        tuple((paragraph.span, f"{paragraph.number} reads:") for paragraph in paragraphs),
    )


def _printed(paragraphs: tuple[Paragraph, ...], want: Want) -> tuple[str, ...]:
    """The figures of a quantity's dimension that some paragraphs have, each once."""
    found = (f for p in paragraphs for f in _figures(plain_text(p.text)) if f.dimension == want.dimension)
    return tuple(dict.fromkeys(one.text.rstrip(".") for one in found))


def likely_paragraphs(head: Head, part: str, want: Want) -> tuple[str, ...]:
    """The paragraphs that most likely give a quantity: those that speak of the part, the quantity and have a figure."""
    words = {_stem(word) for word in re.findall(r"[a-z]{3,}", f"{part} {want.name}".lower())}
    scored: list[tuple[float, str]] = []
    for (source, number), one in head.paragraphs.items():
        text = {_stem(word) for word in re.findall(r"[a-z]{3,}", f"{one.title} {one.text}".lower())}
        score = float(len(words & text))
        if score and any(figure.dimension == want.dimension for figure in _figures(plain_text(one.text))):
            score += 1.5
        if score >= max(1.0, len(words) / 2):
            scored.append((-score, f"{source} {number}"))
    return tuple(name for _, name in sorted(scored, key=lambda one: one[0])[:3])


def _stem(word: str) -> str:
    return word[:-1] if word.endswith("s") else word


def standards_listed(names: frozenset[StandardName], head: Head) -> str:
    """Some standards as a sentence lists them, in the type's own order."""
    return listed([standard.name for standard in head.type.standards if standard.name in names])
