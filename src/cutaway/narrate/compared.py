"""A sentence held against the books without any model: the records of what was compared and what differs."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Paragraph, Sentence
from cutaway.narrate.likely import Likely

Differing = Literal["figure", "unit", "mark", "term", "caution", "superseded"]
Held = Literal["stated", "differs", "open"]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that the sentence says otherwise than the books.

    said: the sentence's words. printed: the book's words in their place, '' where it has none. paragraph: where they
    stand, None for a term that no paragraph uses. why: a sentence for a person.
    """

    sort: Differing
    said: str
    printed: str
    paragraph: Paragraph | None
    why: str


@dataclass(frozen=True, slots=True)
class Compared:
    """A sentence and the paragraphs it most likely comes from, best first.

    against: the paragraph that it was held against, None where none is near enough. share: how much of what the
    sentence says, by the weight of its words, stands there, 0 to 1. unfound: its figures that none of the likely
    paragraphs has anything to set against. agreed: how many of its figures stand in a likely paragraph. doubts: why it
    is not called stated although its words are there.
    """

    sentence: Sentence
    likely: tuple[Likely, ...]
    against: Paragraph | None
    share: float
    differences: tuple[Difference, ...]
    unfound: tuple[str, ...]
    agreed: int = 0
    doubts: tuple[str, ...] = ()
    borne: tuple[str, ...] = ()
    nearly: bool = False

    @property
    def verdict(self) -> Held:
        """'stated' with its paragraph; 'differs'; or 'open', where too little could be compared to say either."""
        if self.differences:
            return "differs"
        if self.against is not None and self.borne and not self.unfound and not self.doubts:
            return "stated"
        return "open"


NEAR = 0.3
"""The share below which a paragraph is not near enough for anything to be held against it. A choice of ours."""
