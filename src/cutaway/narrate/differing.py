"""The figures, units and marks of a sentence compared with those of the paragraphs that it most likely comes from."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.narrate.agreeing import agrees, asserted, comparable, is_round, same_unit
from cutaway.narrate.citing import figure_words
from cutaway.narrate.clauses import Clause, clauses_in
from cutaway.narrate.compared import NEAR, Difference
from cutaway.narrate.likely import Heard, Ranking
from cutaway.narrate.limits_said import side_of
from cutaway.narrate.overlap import BookSentence, Overlap, sentences_of
from cutaway.narrate.superseding import Later, superseded_words
from cutaway.quantities.prose import figures_in
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER
from cutaway.quantities.which import StandardName

# A paragraph that has the sentence's figure counts only if it has so much of the sentence's words, beside the one that
# has most. A choice of ours.
_BESIDE = 0.55
# A figure with the same number and a unit of another sort ('ten yards' for 'ten seconds') is held against a sentence
# only where the paragraph has so much of it. A choice of ours.
_SURE = 0.65
# Figures further apart than this factor measure different things, and not one thing wrongly. A choice of ours.
_APART = 30.0
# What a paragraph says for other marks is nothing to remark on while one has nearly as much of the sentence for the
# right mark, or the paragraph itself has most of it. Choices of ours.
_AS_MUCH = 0.9
_FITTING = 0.75
# Of a table only those rows count that have nearly as much of the sentence's words as the best of them.
_ROW = 0.8
_TOGETHER = re.compile(r"\b(?:altogether|in all|together|in total|between them|all told)\b", re.IGNORECASE)
NEGATIVE = re.compile(
    r"\b(?:no|not|never|none|nobody|nothing|neither|nor|without|cannot|gone|lacks?|missing|instead)\b|n't\b|n’t\b",
    re.IGNORECASE,
)

Names = frozenset[StandardName]
Shares = tuple[tuple[Paragraph, float], ...]


@dataclass(frozen=True, slots=True)
class Printed:
    """A figure of a paragraph that a sentence may be held against. names: the standards that its clause is for. before:
    the words that lead up to it. clause: all of it."""

    paragraph: Paragraph
    share: float
    names: Names
    quantity: Quantity
    before: str = ""
    clause: str = ""


@dataclass(frozen=True, slots=True)
class FiguresHeld:
    """What the figures of a sentence come to: differences; those that nothing can be set against; the paragraph that
    has them, None where none has any."""

    differences: tuple[Difference, ...]
    unfound: tuple[str, ...]
    having: Paragraph | None


class Books:
    """What sentences are held against: the paragraphs, how much of a text stands in them, and what came later."""

    def __init__(self, ranking: Ranking) -> None:
        self.ranking = ranking
        self.overlap = Overlap(ranking.index)
        self.later = Later(ranking.folder, ranking.amended, self.overlap)
        self.several = ranking.several
        self.everyone = frozenset(one.name for one in ranking.folder.type.standards)

    def label(self, paragraph: Paragraph) -> str:
        """A paragraph as a person is told of it."""
        return self.ranking.label(paragraph)

    def share_for(self, words: str, paragraph: Paragraph, names: Names) -> float:
        """The share of a text that a paragraph has in its clauses for all of some standards."""
        fitting = [f"{one.text} {one.carried}" for one in self.ranking.clauses(paragraph) if names <= one.names]
        title = [paragraph.title] if names <= paragraph.on.names else []
        return self.overlap.share_of_texts(words, (*title, *fitting))

    def nearest(self, words: str, paragraph: Paragraph, names: Names | None) -> BookSentence | None:
        """The sentence of a paragraph nearest to a text, of those that say anything for all of some standards."""
        fitting = {one.sentence for one in self.ranking.clauses(paragraph) if names is None or names <= one.names}
        sentences = sentences_of(paragraph)
        kept = [one for number, one in enumerate(sentences) if number in fitting]
        return self.overlap.nearest_of(words, kept or sentences)

    def figures(self, words: str, near: Shares) -> Iterator[Printed]:
        """The figures of some paragraphs, each with the standards that its clause is for; of a table, those of the rows
        that the words are nearest to."""
        for paragraph, share in near:
            for one in figures_in(paragraph.title, bare=True):
                yield Printed(paragraph, share, paragraph.on.names, one)
            clauses = self.ranking.clauses(paragraph)
            rows = self._rows(words, clauses) if "|" in paragraph.text else None
            for clause in clauses:
                if rows is None or clause.sentence in rows:
                    for one in figures_in(clause.text, bare=True):
                        before = clause.text[: max(clause.text.find(one.text), 0)]
                        yield Printed(paragraph, share, clause.names, one, before, clause.text)

    def _rows(self, words: str, clauses: tuple[Clause, ...]) -> frozenset[int]:
        """The sentences and rows that have most of the words; all of them where none has any."""
        shares: dict[int, float] = {}
        for number in dict.fromkeys(one.sentence for one in clauses):
            texts = [f"{one.text} {one.carried}" for one in clauses if one.sentence == number]
            shares[number] = self.overlap.share_of_texts(words, texts)
        best = max(shares.values(), default=0.0)
        return frozenset(number for number, share in shares.items() if share >= _ROW * best)


def figure_differences(heard: Heard, shares: Shares, books: Books) -> FiguresHeld:
    """The figures of a sentence held against those of its likeliest paragraphs, as they stand for its marks."""
    text = heard.sentence.text
    words = books.ranking.words(text)
    least = _BESIDE * max((share for _, share in shares), default=0.0)
    printed = tuple(books.figures(words, tuple(one for one in shares if one[1] >= least)))
    everything = tuple(books.figures(words, shares)) if _TOGETHER.search(text) else ()
    differences: list[Difference] = []
    unfound: list[str] = []
    having: Paragraph | None = None
    for said in asserted(text):
        names = _names_at(said, heard, books)
        has = [one for one in printed if agrees(said, one.quantity, is_round(text, said))]
        over = [_superseded(said, one, heard, names or heard.lasting, books) for one in has]
        standing = [one for one, gone in zip(has, over, strict=True) if gone is None]
        between = frozenset[StandardName]().union(*(one.names for one in standing))
        fits = [one for one in standing if names is None or names <= one.names]
        fits = fits or [one for one in standing if names is not None and names <= between]
        if fits:
            having = having or fits[0].paragraph
            differences += other_limit(text, said, fits)
            continue
        if standing:
            having = having or standing[0].paragraph
            if names is not None and not NEGATIVE.search(text):
                differences.append(_of_other_marks(said, standing[0], names, books))
            continue
        if is_total(said, everything):
            continue
        gone = next((one for one in over if one is not None), None)
        if gone is not None:
            differences.append(gone)
            continue
        near = tuple(one for one in printed if one.share >= NEAR and _stands(one, names or heard.lasting, books))
        against = _set_against(said, near, names)
        if against is None:
            unfound.append(figure_words(said))
        else:
            differences.append(_figure(said, *against))
    return FiguresHeld(tuple(differences), tuple(unfound), having)


def is_total(said: Quantity, printed: tuple[Printed, ...]) -> bool:
    """Whether a figure said to be that of all together is what a clause prints of each, times how many there are."""
    for one in printed:
        if one.quantity.unit == said.unit and re.search(r"\beach\b", one.clause, re.IGNORECASE):
            counts = [q.value for q in figures_in(one.paragraph.text, bare=True) if q.unit == NUMBER and q.value > 1]
            if any(math.isclose(one.quantity.value * count, said.value) for count in counts):
                return True
    return False


def other_limit(text: str, said: Quantity, printed: list[Printed]) -> list[Difference]:
    """A figure said to be the least where every clause that has it makes it the most, or the other way round."""
    side, words = side_of(text[: max(text.find(said.text), 0)])
    sides = [side_of(one.before) for one in printed]
    if not side or any(other in ("", side) for other, _ in sides):
        return []
    there, paragraph = sides[0][1], printed[0].paragraph
    here, other = figure_words(said), figure_words(printed[0].quantity)
    why = f"The sentence has '{words} {here}' where {paragraph.number} has '{there} {other}'."
    return [Difference("caution", words, there, paragraph, why)]


def _names_at(said: Quantity, heard: Heard, books: Books) -> Names | None:
    """The standards that a sentence names in the clause of a figure, or in all where that clause names none."""
    if heard.names is None:
        return None
    clauses = clauses_in(heard.sentence.text, heard.names, books.ranking.marks)
    return next((one.names for one in clauses if said.text in one.text), heard.names)


def _stands(printed: Printed, names: Names | None, books: Books) -> bool:
    """Whether no later paragraph prints another figure of the sort in its place."""
    return not any(
        comparable(printed.quantity, new) and _counts(new)
        for one in books.later.of(printed.paragraph, names)
        if books.later.is_of(one, printed.clause)
        for new in books.ranking.figures(one.new)
    )


def _superseded(said: Quantity, printed: Printed, heard: Heard, names: Names | None, books: Books) -> Difference | None:
    """The difference that a figure makes which agrees only with what a later paragraph put out of use."""
    for one in books.later.of(printed.paragraph, names):
        if not books.later.is_of(one, printed.clause):
            continue
        instead = [new for new in books.ranking.figures(one.new) if comparable(said, new) and _counts(new)]
        if any(agrees(said, new, is_round(heard.sentence.text, said)) for new in instead):
            continue
        if not instead and one.how == "altered":
            continue
        words, on = figure_words(said), books.ranking.listed(one.names & printed.names or one.names)
        there = figure_words(instead[0]) if instead else ""
        has = f"which has '{there}'" if there else f"which has no {said.dimension}"
        why = f"'{words}' stands in {books.label(one.old)}, but {superseded_words(one, books.several)}, {has} for {on}."
        return Difference("superseded", words, there, one.new, why)
    return None


def _of_other_marks(said: Quantity, printed: Printed, names: Names, books: Books) -> Difference:
    speaks, has = books.ranking.listed(names), books.ranking.listed(printed.names)
    why = f"The sentence speaks of {speaks}; '{figure_words(said)}' stands in {printed.paragraph.number} for {has}."
    return Difference("mark", speaks, has, printed.paragraph, why)


def mark_difference(heard: Heard, against: Paragraph, shares: Shares, books: Books) -> Difference | None:
    """Whether the sentence names other standards than those that the clauses are for in which its words stand."""
    words = books.ranking.words(heard.sentence.text)
    share = dict_of(shares).get(key_of(against), 0.0)
    if NEGATIVE.search(heard.sentence.text):
        return None
    if heard.names is None:
        return None
    if len(names := {one.names for one in clauses_in(heard.sentence.text, heard.names, books.ranking.marks)}) > 1:
        return _of_clauses(heard, heard.names, shares, books) if heard.names not in names else None
    if books.share_for(words, against, heard.names) >= _FITTING * share:
        return None
    others = (books.share_for(words, other, heard.names) for other, _ in shares if other is not against)
    if any(much >= _AS_MUCH * share for much in others):
        return None
    said, printed = (
        books.ranking.listed(heard.names),
        books.ranking.listed(_names_of(words, against, heard.names, books)),
    )
    why = f"The sentence speaks of {said}; what {against.number} says there is for {printed}."
    return Difference("mark", said, printed, against, why)


def _of_clauses(heard: Heard, names: Names, shares: Shares, books: Books) -> Difference | None:
    """The same for a sentence that says one thing of one mark and another of another, clause by clause."""
    for clause in clauses_in(heard.sentence.text, names, books.ranking.marks):
        words = books.ranking.words(clause.text)
        alike = [(books.overlap.share(words, paragraph), paragraph) for paragraph, _ in shares]
        share, against = max(alike, key=lambda one: one[0])
        fitting = max(books.share_for(words, paragraph, clause.names) for paragraph, _ in shares)
        if share >= 2 * NEAR and fitting < _FITTING * share:
            said = books.ranking.listed(clause.names)
            printed = books.ranking.listed(_names_of(words, against, clause.names, books))
            why = f"The sentence says '{clause.text}' of {said}; what {against.number} says there is for {printed}."
            return Difference("mark", said, printed, against, why)
    return None


def _names_of(words: str, paragraph: Paragraph, but: Names, books: Books) -> Names:
    """The standards of the clause, not for all of some others, that has most of the words."""
    clauses = [one for one in books.ranking.clauses(paragraph) if not but <= one.names]
    best = max(clauses, key=lambda one: books.overlap.share_of_texts(words, [one.text]), default=None)
    return best.names if best is not None else paragraph.on.names


def dict_of(shares: Shares) -> dict[tuple[str, str], float]:
    """The shares by the book and number of their paragraph."""
    return {key_of(paragraph): share for paragraph, share in shares}


def key_of(paragraph: Paragraph) -> tuple[str, str]:
    """A paragraph by its book and number."""
    return (str(paragraph.source), paragraph.number)


def _set_against(
    said: Quantity, near: tuple[Printed, ...], names: Names | None
) -> tuple[Paragraph, Quantity, bool] | None:
    """The printed figure that a figure is to be held against, and whether only the units differ: first those of the
    sentence's own marks."""
    ordered = sorted(near, key=lambda one: names is not None and not names <= one.names)
    for one in ordered:
        printed = one.quantity
        same = math.isclose(said.value, printed.value, rel_tol=1e-9) and NUMBER not in (said.unit, printed.unit)
        if same and (comparable(said, printed) or one.share >= _SURE):
            return one.paragraph, printed, True
    for paragraph in dict.fromkeys((str(one.paragraph.source), one.paragraph.number) for one in ordered):
        alike = [
            one
            for one in ordered
            if (str(one.paragraph.source), one.paragraph.number) == paragraph
            and comparable(said, one.quantity)
            and _counts(one.quantity)
        ]
        nearest = min(alike, key=lambda one: _apart(one.quantity, said), default=None)
        if nearest is not None and _apart(nearest.quantity, said) <= math.log(_APART):
            return nearest.paragraph, nearest.quantity, False
    return None


def _counts(printed: Quantity) -> bool:
    """A plain number counts only where it is written in figures, as in the sentence."""
    return printed.unit != NUMBER or any(letter.isdigit() for letter in printed.text)


def _apart(one: Quantity, other: Quantity) -> float:
    if same_unit(other, one):
        return abs(math.log(max(abs(one.value), 1e-12) / max(abs(other.value), 1e-12)))
    return abs(math.log(_size(one) / _size(other)))


def _size(quantity: Quantity) -> float:
    return max(abs(quantity.value) * quantity.unit.size, 1e-12)


def _figure(said: Quantity, paragraph: Paragraph, printed: Quantity, unit: bool) -> Difference:
    words, there = figure_words(said), figure_words(printed)
    why = f"The sentence says '{words}', and {paragraph.number} has '{there}'."
    return Difference("unit" if unit else "figure", words, there, paragraph, why)
