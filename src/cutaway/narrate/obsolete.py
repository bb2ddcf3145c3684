"""Sentences that were right once: what they say stands in a paragraph that a later amendment altered on their mark."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cutaway.handbook.amendments import Superseded
from cutaway.handbook.records import Cite, Folder, Paragraph, Sentence, paragraph
from cutaway.inquiry.check import Judged
from cutaway.inquiry.questions.corrections import failed
from cutaway.language.syntax import And, Built, Claim, ComesOnAt, Compare, Not, Statement
from cutaway.narrate.agreeing import agrees, asserted, comparable, figures_of, is_round
from cutaway.narrate.superseding import Later
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.which import StandardName


@dataclass(frozen=True, slots=True)
class Obsolete:
    """What an amendment overtook: the words of the sentence or of its claim, the paragraph that has them, and the later
    one. standards: on which that is so."""

    said: str
    old: Paragraph
    new: Paragraph
    standards: tuple[StandardName, ...]


def overtaken(
    sentence: Sentence, judged: Iterable[tuple[Claim, tuple[Judged, ...]]], folder: Folder, later: Later
) -> tuple[Obsolete, ...]:
    """What later amendments made of a sentence, each thing once.

    A claim that fails is overtaken where its figure stands in a paragraph that was altered for that standard, and the
    later paragraph has another. A sentence that cites a paragraph is, where that was replaced, or its figure altered,
    on every standard that the sentence is for.
    """
    claims = tuple(judged)
    found = [one for claim, several in claims for one in _claimed(claim, several, folder, later)]
    names = frozenset(j.subject.standard for _, several in claims for j in several) or None
    for cite in sentence.cites:
        old = paragraph(folder, cite)
        if old is not None:
            found.extend(_cited(sentence, old, names, folder, later))
    by_pair: dict[tuple[str, str, str], Obsolete] = {}
    for one in found:
        by_pair.setdefault((str(one.old.source), one.old.number, one.new.number), one)
    return tuple(by_pair.values())


def _claimed(claim: Claim, judged: tuple[Judged, ...], folder: Folder, later: Later) -> Iterator[Obsolete]:
    """Where a claim fails, and the book had its figure before an amendment."""
    figures = tuple(_figures(claim.statement))
    by_pair: dict[tuple[str, str, str], tuple[Quantity, Superseded, list[StandardName]]] = {}
    for one in judged:
        fails = failed(one.verdict)
        for cite in fails.cites if fails is not None else ():
            for over in _around(cite, one.subject.standard, folder, later):
                said = _gone(figures, over)
                if said is not None:
                    key = (str(over.old.source), over.old.number, over.new.number)
                    by_pair.setdefault(key, (said, over, []))[2].append(one.subject.name)
    for said, over, names in by_pair.values():
        yield Obsolete(said.text, over.old, over.new, tuple(dict.fromkeys(names)))


def _around(cite: Cite, standard: StandardName, folder: Folder, later: Later) -> Iterator[Superseded]:
    """What altered a cited paragraph for a standard, or what the cited paragraph altered itself."""
    here = paragraph(folder, cite)
    if here is None:
        return
    yield from later.of(here, frozenset({standard}))
    for source in folder.sources:
        if source.key == cite.source:
            for old in source.paragraphs:
                yield from (one for one in later.of(old, frozenset({standard})) if one.new == here)


def _gone(figures: Iterable[Quantity], over: Superseded) -> Quantity | None:
    """A figure that the old paragraph has, and in whose place the new one has another."""
    before, now = figures_of(over.old), figures_of(over.new)
    for said in figures:
        had = any(agrees(said, one) for one in before)
        has = any(agrees(said, one) for one in now)
        if had and not has and any(comparable(said, one) for one in now):
            return said
    return None


def _cited(
    sentence: Sentence, old: Paragraph, names: frozenset[StandardName] | None, folder: Folder, later: Later
) -> Iterator[Obsolete]:
    everyone = frozenset(standard.name for standard in folder.type.standards)
    for over in later.of(old, names):
        if not over.names >= (names or everyone):
            continue  # it still stands for some that the sentence is for
        figures = tuple(one for one in asserted(sentence.text) if not is_round(sentence.text, one))
        gone = _gone(figures, over)
        if over.how == "replaced" or gone is not None:
            standards = tuple(s.name for s in folder.type.standards if s.name in over.names & (names or everyone))
            yield Obsolete(gone.text if gone is not None else sentence.text, over.old, over.new, standards)


def _figures(statement: Statement) -> Iterator[Quantity]:
    match statement:
        case Compare(quantity=quantity) | ComesOnAt(quantity=quantity):
            yield quantity
        case Built(quantity=quantity) if quantity is not None:
            yield quantity
        case And(of=several):
            for one in several:
                yield from _figures(one)
        case Not(of=one):
            yield from _figures(one)
        case _:
            return
