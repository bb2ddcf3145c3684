"""How much of a sentence stands in a paragraph, and which sentence of the paragraph is nearest to it."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.handbook.search import ParagraphIndex
from cutaway.handbook.sentences import cut

# What a word counts that stands nowhere in the books, beside one that stands in a single paragraph: a speaker's own
# words ('brass', 'hedge') say little of where a sentence comes from. A choice of ours.
_OWN_WORD = 0.4


@dataclass(frozen=True, slots=True)
class BookSentence:
    """One sentence of a paragraph. caution: whether it stands in one. there, here: the share of the book's sentence
    that the speaker's has, and of the speaker's that the book's has, 0 to 1."""

    text: str
    caution: bool
    there: float
    here: float


class Overlap:
    """Weighs the words that two texts share. It lives as long as its index."""

    def __init__(self, index: ParagraphIndex) -> None:
        self._index = index
        self._stems: dict[str, frozenset[str]] = {}
        self._weights: dict[str, float] = {}

    def share(self, text: str, paragraph: Paragraph) -> float:
        """The share of a text, by the weight of its words, that a paragraph has in any spelling."""
        return self._shared(self.stems(text), self.stems(paragraph_text(paragraph)))

    def nearest(self, text: str, paragraph: Paragraph) -> BookSentence | None:
        """The sentence of a paragraph that has most in common with a text, None where it has no sentence."""
        own = self.stems(text)
        found = [
            BookSentence(book, caution, self._shared(self.stems(book), own), self._shared(own, self.stems(book)))
            for book, caution in sentences_of(paragraph)
        ]
        return max(found, key=lambda one: one.here + 0.5 * one.there, default=None)

    def stems(self, text: str) -> frozenset[str]:
        """The stems of the telling words of a text."""
        if text not in self._stems:
            self._stems[text] = frozenset(self._index.stems.of(text))
        return self._stems[text]

    def weight(self, stem: str) -> float:
        """What a word tells: the rarer the more."""
        if stem not in self._weights:
            places = self._index.places_of_stem(stem)
            total = len(self._index.paragraphs)
            self._weights[stem] = math.log(1 + total / (1 + places)) * (1.0 if places else _OWN_WORD)
        return self._weights[stem]

    def _shared(self, of: frozenset[str], others: frozenset[str]) -> float:
        total = self._sum(of)
        return (
            self._sum(one for one in of if one in others or self._by_another_name(one, others)) / total
            if total
            else 0.0
        )

    def _by_another_name(self, stem: str, others: frozenset[str]) -> bool:
        return any(other in others for other in self._index.ring_of_stem(stem))

    def _sum(self, stems: Iterable[str]) -> float:
        return sum(map(self.weight, sorted(stems)))


def paragraph_text(paragraph: Paragraph) -> str:
    """All that a paragraph says."""
    return "\n".join((paragraph.title, paragraph.text, *paragraph.cautions))


def sentences_of(paragraph: Paragraph) -> tuple[tuple[str, bool], ...]:
    """The sentences of a paragraph, those of its cautions last and marked as such."""
    found = [(paragraph.text[s.start : s.end], False) for s in cut(paragraph.text)]
    found += [(caution[s.start : s.end], True) for caution in paragraph.cautions for s in cut(caution)]
    return tuple(found)
