"""What keeps a sentence from being stated by a paragraph: the records."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Paragraph

Sort = Literal["word", "figure", "place", "denial", "duty", "every", "only", "condition", "order", "mark", "altered"]
# So much of a sentence's words must be in a clause for a contrary word in it to be told as a difference. A choice of
# ours.
_ENOUGH_TO_TURN = 0.6


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that keeps a sentence from being stated. said: its words; why: for a person. printed: what the clause
    has to the contrary, '' where it only lacks it."""

    sort: Sort
    said: str
    why: str
    printed: str = ""


@dataclass(frozen=True, slots=True)
class Borne:
    """How a paragraph bears a sentence out. clauses: its own words that do, or do best. lacks: nothing where it is
    stated. share: how many of the telling words are there, 0 to 1."""

    paragraph: Paragraph
    clauses: tuple[str, ...]
    lacks: tuple[Lack, ...]
    share: float

    @property
    def only_words(self) -> bool:
        """Whether all that it lacks is words of the sentence that the paragraph does not have."""
        return all(one.sort == "word" and one.said and not one.printed for one in self.lacks)

    @property
    def turned(self) -> tuple[Lack, ...]:
        """What the clause has to the contrary, where it is nearly the sentence."""
        against = tuple(one for one in self.lacks if one.printed)
        if any(one.sort == "mark" and one.said != "no mark" for one in self.lacks):
            # A 'not' of one mark says nothing against what the book has of another.
            against = tuple(one for one in against if one.sort != "denial")
        others = len(self.lacks) - len(against)
        return against if self.share >= _ENOUGH_TO_TURN and others <= 1 else ()


def weight(lacks: tuple[Lack, ...]) -> float:
    """How much is lacking, to compare by: what has a contrary in the clause, or only another mark, counts half."""
    return sum(0.5 if one.sort == "mark" or one.printed else 1.0 for one in lacks)
