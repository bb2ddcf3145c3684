"""Paragraphs that give different figures for the same quantity: found by figure, unit and term."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from cutaway.handbook.amendments import Superseded
from cutaway.handbook.records import Decided, Folder, Paragraph
from cutaway.handbook.search import ParagraphIndex
from cutaway.handbook.sentences import cut
from cutaway.handbook.stems import EMPTY, WORD, Stems
from cutaway.handbook.tables import plain_text
from cutaway.parts.library import KINDS
from cutaway.quantities.prose import figures_in
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER
from cutaway.quantities.which import StandardName

# Figures further apart than this factor belong to different things that share a word. A choice of ours.
_APART = 2.0
# Nearer than this share they are one figure in two units, each rounded. A choice of ours.
_SAME = 0.01
# A word that stands in more than this share of the paragraphs (and in more than a few) tells no two quantities apart.
_COMMON, _FEW = 0.1, 4
# A limit is no setting: 'above 3.5 in Hg' does not contradict '4.5 in Hg'.
_LIMIT = re.compile(
    r"\b(?P<word>below|above|under|over|exceed\w*|pass\w*|more than|less than|at least|at most|not more than|up to|"
    r"until|after|within|every|between|before)\s+(?:\w+\s+){0,2}$",
    re.IGNORECASE,
)
_CLAUSE = re.compile(r"[;:]\s+|,\s+(?:and|but|which)\s+")


@dataclass(frozen=True, slots=True)
class Printed:
    """A figure where it stands. limit: the word that makes it a limit ('below'), '' for a plain figure. terms: stems of
    the words that say what it is the figure of."""

    paragraph: Paragraph
    quantity: Quantity
    limit: str
    terms: frozenset[str]


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two paragraphs with different figures for what seems the same quantity, on standards that both are for.

    terms: the words that both use of it. amended: the amendment that settles it; decided: what decided.yaml says.
    """

    first: Printed
    second: Printed
    terms: tuple[str, ...]
    names: frozenset[StandardName]
    amended: Superseded | None
    decided: Decided | None

    @property
    def subject(self) -> str:
        """What both paragraphs speak of: the words that their titles share, or else those that their texts do."""
        titles = [WORD.findall(one.paragraph.title.lower()) for one in (self.first, self.second)]
        common = [word for word in titles[0] if word in titles[1] and word not in EMPTY]
        return " ".join(common or self.terms)

    @property
    def settled(self) -> bool:
        """Whether an amendment or a decision says which is followed."""
        return self.amended is not None or self.decided is not None


def contradictions(
    folder: Folder, standing: tuple[Paragraph, ...], over: tuple[Superseded, ...], index: ParagraphIndex
) -> tuple[Contradiction, ...]:
    """The contradictions among the paragraphs that stand at a date, in the order of the books.

    index: of all the folder's paragraphs. A person has to judge: that two figures are of one quantity is told by words.
    """
    subjects = _subjects(folder, index)
    # Only figures that share a term can contradict each other, so that a large book needs no look at every pair.
    groups: dict[tuple[str, str], list[Printed]] = {}
    for paragraph in standing:
        for figure in printed(paragraph, index, subjects):
            for term in sorted(figure.terms):
                groups.setdefault((term, figure.quantity.dimension), []).append(figure)
    found: dict[tuple[str, str, str, str], Contradiction] = {}
    for many in groups.values():
        for first, second in combinations(many, 2):
            one = _contradiction(first, second, folder, over, index.stems)
            if one is not None:
                key = (
                    first.paragraph.source + first.paragraph.number,
                    second.paragraph.source + second.paragraph.number,
                )
                found.setdefault((*key, first.quantity.text, second.quantity.text), one)
    order = {id(paragraph): place for place, paragraph in enumerate(standing)}
    return tuple(sorted(found.values(), key=lambda c: (order[id(c.first.paragraph)], order[id(c.second.paragraph)])))


def printed(paragraph: Paragraph, index: ParagraphIndex, subjects: frozenset[str]) -> Iterator[Printed]:
    """The figures of a paragraph with the terms that say what each is the figure of."""
    title = frozenset(index.stems.of(paragraph.title)) & subjects
    blocks = plain_text(paragraph.text).split("\n\n")
    for text in (block[s.start : s.end] for block in blocks for s in cut(block)):
        for clause in _CLAUSE.split(text):
            for quantity in figures_in(clause):
                before = clause[: max(clause.find(quantity.text), 0)]
                limit = _LIMIT.search(before)
                terms = (frozenset(index.stems.of(text.replace(quantity.text, " "))) & subjects) | title
                yield Printed(paragraph, quantity, limit["word"].lower() if limit else "", terms)


def _contradiction(
    first: Printed, second: Printed, folder: Folder, over: tuple[Superseded, ...], stems: Stems
) -> Contradiction | None:
    one, other = first.paragraph, second.paragraph
    names = one.on.names & other.on.names
    shared = first.terms & second.terms
    if one is other or not names or not shared or first.limit != second.limit or first.quantity.unit == NUMBER:
        return None
    if not _differ(first.quantity, second.quantity):
        return None
    amended = next((s for s in over if {id(s.old), id(s.new)} == {id(one), id(other)}), None)
    decided = _decision(one, other, folder) if folder.parts else _decision_by_words(one, other, shared, folder, stems)
    return Contradiction(first, second, tuple(sorted(shared)), names, amended, decided)


def _differ(one: Quantity, other: Quantity) -> bool:
    """Whether two figures differ, and not so much that they must be of different things. A range takes in its ends."""
    low, high = (one.low * one.unit.size + one.unit.zero, one.high * one.unit.size + one.unit.zero)
    low2, high2 = (other.low * other.unit.size + other.unit.zero, other.high * other.unit.size + other.unit.zero)
    if low <= high2 * (1 + _SAME) and low2 <= high * (1 + _SAME):
        return False
    middle, middle2 = (low + high) / 2, (low2 + high2) / 2
    return min(middle, middle2) > 0 and max(middle, middle2) / min(middle, middle2) <= _APART


def _decision(one: Paragraph, other: Paragraph, folder: Folder) -> Decided | None:
    """The decision that prefers one of two paragraphs, for a value that cites both."""
    pair = {(one.source, one.number), (other.source, other.number)}
    for decided in folder.decided:
        if (decided.prefer.source, decided.prefer.number) not in pair:
            continue
        for part in folder.parts:
            for value in part.values if part.name == decided.part else ():
                cited = {(c.source, c.number) for given in value.givens for c in given.cites}
                if value.name == decided.value and (pair <= cited or cited <= pair):
                    return decided
    return None


def _decision_by_words(
    one: Paragraph, other: Paragraph, shared: frozenset[str], folder: Folder, stems: Stems
) -> Decided | None:
    """Before there are parts: the decision that prefers one of two paragraphs, for a part of a name that both use."""
    pair = {(one.source, one.number), (other.source, other.number)}
    for decided in folder.decided:
        preferred = (decided.prefer.source, decided.prefer.number) in pair
        if preferred and set(stems.of(decided.part)) & shared:
            return decided
    return None


def _subjects(folder: Folder, index: ParagraphIndex) -> frozenset[str]:
    """The stems that tell one quantity from another: of titles, glossary and parts, but no sort of part and no word
    that stands all over the books."""
    stems = index.stems
    names = [p.title for s in folder.sources for p in s.paragraphs]
    names += [t.name for t in folder.glossary] + [p.name for p in folder.parts]
    words = {word for name in names for word in WORD.findall(name.lower()) if word not in EMPTY and word.isalpha()}
    heads = {WORD.findall(kind)[-1] for kind in KINDS}
    stems.learn(words | heads)
    most = max(_FEW, _COMMON * len(index.paragraphs))
    found = {stems.one(word) for word in words} - {stems.one(head) for head in heads}
    return frozenset(stem for stem in found if index.places_of_stem(stem) <= most)
