"""Whether one clause of a paragraph, with those beside it, says all that a sentence says; and if not, what it lacks."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from cutaway.handbook.records import Paragraph
from cutaway.narrate.clauses import clauses_in
from cutaway.narrate.differing import Books
from cutaway.narrate.figures_borne import TOGETHER, FiguresBorne, alike, is_total
from cutaway.narrate.lacks import Borne, Lack, weight
from cutaway.narrate.likely import Heard
from cutaway.narrate.opposites import Opposites
from cutaway.narrate.paragraph_parts import Part, Parts
from cutaway.narrate.small_words import small_words
from cutaway.narrate.superseding import superseded_words
from cutaway.narrate.taken_apart import Apart, Word
from cutaway.quantities.which import StandardName

Names = frozenset[StandardName]

_BUT = re.compile(
    r"\s+but\s+(?=(?:must|may|is|are|has|have|not|never|can|should|the)\b)|"
    r"\s+and\s+(?=(?:the|its|it|they|each)\b[^,;]*\b(?:is|are|must|may|has|have|was|were|will|should|can)\b)",
    re.IGNORECASE,
)
# 'The upper lamp is white; the lower lamps are red': a clause with a subject of its own is not read with another.
_OWN_SUBJECT = re.compile(
    r"\b(?:is|are|was|were|has|have|had|must|may|can|cannot|should|will|holds?|gives?|stands?|takes?|carr(?:y|ies)|"
    r"delivers?|lies?|works?|drives?|feeds?|shows?|draws?|keeps?|supplies)\b",
    re.IGNORECASE,
)
# What a word counts that stands in the clause beside, or that the title lends. A choice of ours.
_NEAR, _LENT = 0.9, 0.95
# How far a paragraph that is less likely stands back behind one that is likelier. A choice of ours.
_LATER = 0.5
# A clause for other marks is the one that a sentence is of where it has so much more of it. A choice of ours.
_NEARER = 0.25


@dataclass(frozen=True, slots=True)
class _Held:
    """A clause with what it lacks of a sentence's clause, and the share that it has."""

    part: Part
    lacks: list[Lack]
    share: float


class Bearing:
    """Holds whole sentences against single clauses. It lives as long as its books."""

    def __init__(self, books: Books) -> None:
        self._books = books
        self._index = books.ranking.index
        self._opposites = Opposites(self._index.stems)
        self._parts = Parts(books)
        self._figures = FiguresBorne(self._parts)

    def best(self, heard: Heard, paragraphs: tuple[Paragraph, ...], as_said: bool) -> Borne | None:
        """The paragraph that bears a sentence out, or comes nearest to it; of two alike the first."""
        found = [self._of(heard, paragraph, as_said) for paragraph in paragraphs]
        weighed = {at: weight(one.lacks) - 4 * one.share + _LATER * at for at, one in enumerate(found)}
        best = min(weighed, key=lambda at: (bool(found[at].lacks), weighed[at]), default=None)
        return None if best is None else found[best]

    def _of(self, heard: Heard, paragraph: Paragraph, as_said: bool) -> Borne:
        lacks: list[Lack] = []
        texts: list[str] = []
        shares: list[float] = []
        parts = self._parts.parts_of(paragraph)
        for said, names in self._said(heard) if parts else ():
            for name in sorted(names):
                here = [part for part in parts if self._stands_for(part, paragraph, name)]
                best = self._nearest(said, here, paragraph, as_said, name)
                anywhere = best if best and not best.lacks else self._nearest(said, parts, paragraph, as_said, None)
                assert anywhere is not None
                if best is None or (best.lacks and not anywhere.lacks) or best.share < anywhere.share - _NEARER:
                    lacks.append(self._other_mark(anywhere.part, paragraph, name, heard))
                    best = anywhere
                lacks += best.lacks
                shares.append(best.share)
                texts.append(self._parts.told(best.part, paragraph))
        if not shares:
            lacks.append(Lack("word", "", f"{self._books.label(paragraph)} says nothing of it."))
        once = tuple({(one.sort, one.said): one for one in lacks}.values())
        return Borne(paragraph, tuple(dict.fromkeys(texts)), once, min(shares, default=0.0))

    def _nearest(
        self, said: Apart, parts: Sequence[Part], paragraph: Paragraph, as_said: bool, name: StandardName | None
    ) -> _Held | None:
        """The clause of some that has most of a sentence's clause, read with those beside it for the same standard."""
        held: list[_Held] = []
        for part in parts:
            if name is not None:
                kept = [p for p in part.near if self._stands_for(self._parts.parts_of(paragraph)[p], paragraph, name)]
                part = replace(part, near=tuple(kept))
            held.append(_Held(part, *self._lacks(said, part, paragraph, as_said)))
        return min(held, key=lambda one: weight(tuple(one.lacks)) - 4 * one.share, default=None)

    def _other_mark(self, part: Part, paragraph: Paragraph, name: StandardName, heard: Heard) -> Lack:
        label, listed = self._books.label(paragraph), self._books.ranking.listed
        over = next(iter(self._books.later.of(paragraph, frozenset([name]))), None)
        if name in part.clause.names and over is not None:
            return Lack("altered", str(name), f"{superseded_words(over, self._books.several)}, which does not say it.")
        if name in part.clause.names:
            return Lack("mark", str(name), f"{label} does not say all of it for {listed(frozenset([name]))}.")
        if heard.names is None:
            return Lack("mark", "no mark", f"{label} says it for {listed(part.clause.names)} only.")
        said = listed(frozenset([name]))
        return Lack("mark", said, f"{label} says it for {listed(part.clause.names)}, and not for {said}.")

    def _stands_for(self, part: Part, paragraph: Paragraph, name: StandardName) -> bool:
        """Whether a clause is for a standard, and no later paragraph puts it out of use there."""
        if name not in part.clause.names:
            return False
        return not self._books.later.alters(paragraph, part.clause.text, frozenset([name]))

    def _said(self, heard: Heard) -> Iterator[tuple[Apart, Names]]:
        """The clauses of a sentence, each with the standards that it must hold for."""
        ranking = self._books.ranking
        base = heard.names or heard.lasting or self._books.everyone
        before: Apart | None = None
        for piece in _BUT.split(heard.sentence.text):
            for clause in clauses_in(piece, base, ranking.marks):
                apart = self._parts.apart(clause.text)
                if not apart.words and not apart.figures:
                    if before is not None:
                        yield before, clause.names
                    continue
                before = apart
                yield apart, clause.names

    def _lacks(self, said: Apart, part: Part, paragraph: Paragraph, as_said: bool) -> tuple[list[Lack], float]:
        """What a clause lacks of a sentence's clause, and the share of its telling words that it has."""
        label = self._books.label(paragraph)
        book = part.apart
        read = self._parts.read(part, paragraph)
        lacks: list[Lack] = []
        used_near = False
        there = 0.0
        total = any(not one.counts and is_total(one, said, read) for one in said.figures)
        for word in said.words:
            if total and TOGETHER.fullmatch(word.text):
                there += _NEAR
                continue
            where = next((one for one in (book, *read.near) if self._parts.among(word.stem, one.stems)), None)
            if where is not None and where is not book and self._parts.among(word.stem, part.lent):
                where = None
                there += _LENT
            elif where is not None:
                there += 1 if where is book else _NEAR
                used_near = used_near or where is not book
                if self._misplaced(word, said, where):
                    why = f"{label} has '{word.text}' beside another word: '{where.text.strip()}'"
                    lacks.append(Lack("place", word.text, why))
            elif self._parts.among(word.stem, part.lent):
                there += _LENT
            else:
                lacks.append(self._word(word, said, part, paragraph))
        counted = sum(1 for one in said.figures)
        for figure in said.figures:
            lack = self._figures.figure(figure, said, read, label)
            if lack is None:
                there += 1 if any(alike(figure, one) for one in book.figures) else _NEAR
            else:
                lacks.append(lack)
        if not any(self._parts.among(w.stem, book.stems) for w in said.words) and not any(
            alike(one, other) for one in said.figures for other in book.figures
        ):
            lacks.append(Lack("word", "", f"No one clause of {label} says it all: '{book.text.strip()}'"))
        lacks += self._figures.crossed(said, read, label)
        lacks += small_words(said, read, used_near, label, as_said, self._parts.among)
        whole = len(said.words) + counted - sum(1 for one in lacks if one.printed and one.sort in ("word", "figure"))
        return lacks, min(there / whole, 1.0) if whole > 0 else 0.0

    def _word(self, word: Word, said: Apart, part: Part, paragraph: Paragraph) -> Lack:
        label = self._books.label(paragraph)
        contrary = next(
            (
                one
                for one in part.apart.words
                if self._opposites.are(word.stem, one.stem) and not self._parts.among(one.stem, said.stems)
            ),
            None,
        )
        if contrary is not None:
            why = f"The sentence has '{word.text}' where {label} has '{contrary.text}': '{part.clause.text}'"
            return Lack("word", word.text, why, contrary.text)
        everything = [one.apart.stems | one.lent for one in self._parts.parts_of(paragraph)]
        if any(self._parts.among(word.stem, stems) for stems in everything):
            return Lack("word", word.text, f"{label} has '{word.text}', but not in the clause that says the rest.")
        return Lack("word", word.text, f"Nothing in {label} speaks of '{word.text}'.")

    def _misplaced(self, word: Word, said: Apart, book: Apart) -> bool:
        """Whether a 'front' or 'left' stands beside other words here than there: 'front of the back seat'."""
        if not self._parts.among(word.stem, book.stems):
            return False
        own = next((one for one in (word.stem, *self._index.ring_of_stem(word.stem)) if one in book.stems), word.stem)
        if any(self._opposites.are(word.stem, one) for one in book.stems):
            # Both of a pair stand there: 'with the undercarriage lowered and the flaps raised'.
            sides = ((said.ahead(word.stem), book.ahead(own)), (said.behind(word.stem), book.behind(own)))
            return not any(self._parts.among(one, there) for here, there in sides for one in here)
        if not self._opposites.places(word.stem):
            return False
        here, there = said.behind(word.stem), book.behind(own)
        if not here or not there or any(self._parts.among(one, there) for one in here):
            return False
        here, there = (frozenset(one for one in stems if not self._opposites.places(one))
                       for stems in (said.beside(word.stem), book.beside(own)))  # fmt: skip
        return not any(self._parts.among(one, there) for one in here)
