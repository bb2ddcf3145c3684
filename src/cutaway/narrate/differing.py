"""The figures, units and marks of a sentence compared with those of the paragraphs that it most likely comes from."""

import math
import re

from cutaway.handbook.records import Paragraph
from cutaway.narrate.agreeing import agrees, asserted, comparable, is_round
from cutaway.narrate.citing import figure_words
from cutaway.narrate.compared import NEAR, Difference
from cutaway.narrate.likely import Heard, Ranking
from cutaway.narrate.overlap import BookSentence, Overlap
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
# A paragraph of another mark is nothing to remark on while one of the right mark has nearly as much of the sentence.
_AS_MUCH = 0.9
NEGATIVE = re.compile(
    r"\b(?:no|not|never|none|nobody|nothing|neither|nor|without|cannot|gone|lacks?|missing|instead)\b|n't\b|n’t\b",
    re.IGNORECASE,
)

Names = frozenset[StandardName]
Shares = tuple[tuple[Paragraph, float], ...]


def figure_differences(
    heard: Heard, shares: Shares, ranking: Ranking
) -> tuple[tuple[Difference, ...], tuple[str, ...], Paragraph | None]:
    """What the figures of a sentence differ in; those that nothing can be set against; the paragraph that has them."""
    text = heard.sentence.text
    differences: list[Difference] = []
    unfound: list[str] = []
    having: Paragraph | None = None
    least = _BESIDE * max((share for _, share in shares), default=0.0)
    near = tuple(paragraph for paragraph, share in shares if share >= least)
    for said in asserted(text):
        roughly = is_round(text, said)
        has = [p for p in near if any(agrees(said, one, roughly) for one in ranking.figures(p))]
        fits = [p for p in has if heard.names is None or heard.names & p.on.names]
        if has:
            having = having or (fits or has)[0]
            continue
        near_enough = tuple((p, share) for p, share in shares if share >= max(least, NEAR))
        against = _set_against(said, near_enough, ranking)
        if against is None:
            unfound.append(figure_words(said))
        else:
            differences.append(_figure(said, *against))
    return tuple(differences), tuple(unfound), having


def mark_difference(
    heard: Heard, against: Paragraph, shares: Shares, ranking: Ranking, overlap: Overlap
) -> Difference | None:
    """Whether the sentence names other standards than those that the paragraph, or its nearest sentence, is for."""
    text = heard.sentence.text
    words = ranking.words(text)
    nearest = overlap.nearest(words, against)
    books = names_of(against, nearest, ranking)
    share = dict_of(shares).get(against.number, 0.0)
    if heard.names is None:
        return _left_out(heard, against, books, share, ranking)
    if heard.names <= books or NEGATIVE.search(text):
        return None
    if any(
        heard.names <= names_of(other, overlap.nearest(words, other), ranking)
        for other, much in shares
        if other is not against and much >= _AS_MUCH * share
    ):
        return None
    said, printed = listed_names(heard.names, ranking), listed_names(books, ranking)
    why = f"The sentence speaks of {said}; what {against.number} says there is for {printed}."
    return Difference("mark", said, printed, against, why)


def _left_out(heard: Heard, against: Paragraph, books: Names, share: float, ranking: Ranking) -> Difference | None:
    """A paragraph for some standards only, while nothing said so far tells which."""
    everyone = frozenset(one.name for one in ranking.folder.type.standards)
    if books >= everyone or share < 2 * NEAR or (heard.lasting is not None and heard.lasting & books):
        return None
    if NEGATIVE.search(heard.sentence.text):
        return None
    printed = listed_names(books, ranking)
    why = f"{against.number} is for {printed} only, and the sentence does not say so."
    return Difference("mark", "no mark", printed, against, why)


def names_of(paragraph: Paragraph, nearest: BookSentence | None, ranking: Ranking) -> Names:
    """The standards that a sentence of a paragraph is for: those that it names, of those of the paragraph."""
    named = ranking.marks.named_in(nearest.text).names if nearest else None
    return paragraph.on.names & named or paragraph.on.names if named else paragraph.on.names


def listed_names(names: Names, ranking: Ranking) -> str:
    """Standards as a speaker names them: 'Mk 1', 'Mk 1 and Mk 2', by marks where a whole mark is meant."""
    standards = ranking.folder.type.standards
    if names >= frozenset(one.name for one in standards):
        return "every mark"
    whole = [m for m in ranking.folder.type.marks if all(s.name in names for s in standards if s.mark == m)]
    rest = [s.name for s in standards if s.name in names and s.mark not in whole]
    return " and ".join([*whole, *rest])


def dict_of(shares: Shares) -> dict[str, float]:
    """The shares by the number of their paragraph."""
    return {paragraph.number: share for paragraph, share in shares}


def _set_against(said: Quantity, near: Shares, ranking: Ranking) -> tuple[Paragraph, Quantity, bool] | None:
    """The printed figure that a figure is to be held against, and whether only the units differ."""
    for paragraph, share in near:
        for printed in ranking.figures(paragraph):
            same = math.isclose(said.value, printed.value, rel_tol=1e-9) and NUMBER not in (said.unit, printed.unit)
            if same and (comparable(said, printed) or share >= _SURE):
                return paragraph, printed, True
    for paragraph, _ in near:
        alike = [one for one in ranking.figures(paragraph) if comparable(said, one) and _counts(one)]
        nearest = min(alike, key=lambda one: _apart(one, said), default=None)
        if nearest is not None and _apart(nearest, said) <= math.log(_APART):
            return paragraph, nearest, False
    return None


def _counts(printed: Quantity) -> bool:
    """A plain number counts only where it is written in figures, as in the sentence."""
    return printed.unit != NUMBER or any(letter.isdigit() for letter in printed.text)


def _apart(one: Quantity, other: Quantity) -> float:
    return abs(math.log(_size(one) / _size(other)))


def _size(quantity: Quantity) -> float:
    return max(abs(quantity.value) * quantity.unit.size, 1e-12)


def _figure(said: Quantity, paragraph: Paragraph, printed: Quantity, unit: bool) -> Difference:
    words, there = figure_words(said), figure_words(printed)
    why = f"The sentence says '{words}', and {paragraph.number} has '{there}'."
    return Difference("unit" if unit else "figure", words, there, paragraph, why)
