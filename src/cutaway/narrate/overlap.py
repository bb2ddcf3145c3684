"""How much of a sentence stands in a paragraph, and which sentence of the paragraph is nearest to it."""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.handbook.search import ParagraphIndex
from cutaway.handbook.sentences import cut
from cutaway.handbook.tables import plain_text

# What a word counts that stands nowhere in the books, beside one that stands in a single paragraph: a speaker's own
# words ('brass', 'hedge') say little of where a sentence comes from. A choice of ours.
_OWN_WORD = 0.4
# Words that any sentence may have whatever it speaks of, and what they count beside others. A choice of ours.
_LIGHT_WORD = 0.3
_LIGHT = frozenset(
    re.findall(
        r"\S+",
        """every each all any some most both either neither other such can could will would shall should may might
        must do does did been being had having he she her his him we our us i me my they them one ones very just
        only also too here now how what who why carry carries carried fitted gets got still ever never always
        again well""",
    )
)


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
        index.stems.learn(_LIGHT)
        self._light = frozenset(map(index.stems.one, _LIGHT))

    def share(self, text: str, paragraph: Paragraph) -> float:
        """The share of a text, by the weight of its words, that a paragraph has in any spelling."""
        return self._shared(self.stems(text), self.stems(paragraph_text(paragraph)))

    def share_of_texts(self, text: str, others: Iterable[str]) -> float:
        """The share of a text that some others have between them."""
        own = self.stems(text)
        return self._shared(own, frozenset().union(*map(self.stems, others)))

    def nearest(self, text: str, paragraph: Paragraph) -> BookSentence | None:
        """The sentence of a paragraph that has most in common with a text, None where it has no sentence."""
        return self.nearest_of(text, sentences_of(paragraph))

    def nearest_of(self, text: str, sentences: Iterable[tuple[str, bool]]) -> BookSentence | None:
        """The nearest of some sentences, each with whether it is a caution; None where there is none."""
        own = self.stems(text)
        found = [
            BookSentence(book, caution, self._shared(self.stems(book), own), self._shared(own, self.stems(book)))
            for book, caution in sentences
        ]
        return max(found, key=lambda one: one.here + 0.5 * one.there, default=None)

    def telling(self, text: str, paragraph: Paragraph) -> int:
        """How many words of a text, but for those that any sentence may have, a paragraph has in any spelling."""
        return len(self.telling_of(text, [paragraph_text(paragraph)]))

    def telling_of(self, text: str, texts: Iterable[str]) -> frozenset[str]:
        """The words of a text, as stems, that some others have in any spelling, but for those that any may have."""
        others = frozenset().union(*map(self.stems, texts))
        own = self.stems(text) - self._light
        return frozenset(one for one in own if one in others or self._by_another_name(one, others))

    def both_ways(self, text: str, other: str) -> tuple[float, float]:
        """How much of the other a text has, and how much of the text the other has."""
        own, stems = self.stems(text), self.stems(other)
        return self._shared(stems, own), self._shared(own, stems)

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
            much = _LIGHT_WORD if stem in self._light else 1.0 if places else _OWN_WORD
            self._weights[stem] = math.log(1 + total / (1 + places)) * much
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
    """The sentences of a paragraph and the rows of its tables, those of its cautions last and marked as such."""
    found = [(block[s.start : s.end], False) for block in plain_text(paragraph.text).split("\n\n") for s in cut(block)]
    found += [(caution[s.start : s.end], True) for caution in paragraph.cautions for s in cut(caution)]
    return tuple(found)
