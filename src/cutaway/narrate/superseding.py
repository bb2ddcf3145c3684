"""What a later paragraph of a book put out of use, so that nothing is called stated by the earlier one alone."""

import re

from cutaway.handbook.amendments import Superseded, superseded
from cutaway.handbook.records import Folder, Paragraph
from cutaway.narrate.agreeing import comparable
from cutaway.narrate.amending import Amended
from cutaway.narrate.overlap import Overlap
from cutaway.quantities.prose import figures_in
from cutaway.quantities.which import StandardName

# 'The lamp is otherwise as in §25': whatever the later paragraph does not speak of stands as before.
_OTHERWISE = re.compile(
    r"\b(?:otherwise|in (?:all )?other respects|remains? (?:the same|unchanged|as)|for the rest|apart from this)\b",
    re.IGNORECASE,
)

# A clause is altered where the later paragraph has so much of its words. A choice of ours.
_THE_SAME = 0.5

Names = frozenset[StandardName]


class Later:
    """Knows for each paragraph which later ones alter or replace it. It lives as long as its folder is worked with."""

    def __init__(self, folder: Folder, amended: Amended | None = None, overlap: Overlap | None = None) -> None:
        self._everyone = frozenset(one.name for one in folder.type.standards)
        self._taken = amended.taken if amended else {}
        self._unread = amended.unread if amended else frozenset()
        self._overlap = overlap
        self._by_old: dict[tuple[str, str], list[Superseded]] = {}
        for source in folder.sources:
            for one in superseded(source, None):
                self._by_old.setdefault((str(one.old.source), one.old.number), []).append(one)

    def of(self, paragraph: Paragraph, names: Names | None) -> tuple[Superseded, ...]:
        """What alters a paragraph on any of some standards; names None: on any at all."""
        found = self._by_old.get((str(paragraph.source), paragraph.number), ())
        return tuple(one for one in found if one.names & (self._everyone if names is None else names))

    def alters(self, paragraph: Paragraph, clause: str, names: Names) -> bool:
        """Whether a later paragraph puts a clause of a paragraph out of use on any of some standards: it replaces the
        whole, takes out words that stand in the clause, or speaks of the same."""
        return any(self.is_of(one, clause) for one in self.of(paragraph, names))

    def is_of(self, one: Superseded, clause: str) -> bool:
        """Whether what alters a paragraph alters this clause of it."""
        key = (str(one.new.source), one.new.number)
        if one.how == "replaced" or key in self._unread:
            return True
        if key in self._taken:
            folded = " ".join(clause.lower().split())
            return any(" ".join(words.lower().rstrip(".").split()) in folded for words in self._taken[key])
        if self._overlap is None:
            return True
        if self._overlap.both_ways(one.new.text, clause)[0] >= _THE_SAME:
            return True
        shared = self._overlap.telling_of(_bare(clause), [_bare(one.new.text)]) - self._overlap.stems(one.old.title)
        return bool(shared) and _another_figure(clause, one.new.text)

    def unread(self, paragraph: Paragraph, names: Names | None) -> tuple[Superseded, ...]:
        """What alters a paragraph in words that were not understood."""
        return tuple(one for one in self.of(paragraph, names) if (str(one.new.source), one.new.number) in self._unread)

    def instead(self, paragraph: Paragraph, names: Names | None) -> Superseded | None:
        """What wholly takes the place of a paragraph's words on all of some standards: it replaces it, or alters it
        without saying that the rest stands as before."""
        wanted = self._everyone if names is None else names
        for one in self.of(paragraph, names):
            if one.names >= wanted and (one.how == "replaced" or not says_otherwise_as_before(one.new)):
                return one
        return None


def _bare(text: str) -> str:
    """A text without its figures and their units."""
    for one in figures_in(text, bare=True):
        text = text.replace(one.text, " ", 1)
    return text


def _another_figure(clause: str, later: str) -> bool:
    """Whether a later text has a figure of the sort that a clause has."""
    new = figures_in(later)
    return any(comparable(old, other) for old in figures_in(clause) for other in new)


def says_otherwise_as_before(paragraph: Paragraph) -> bool:
    """Whether a paragraph says that what it does not speak of stands as before."""
    return _OTHERWISE.search(paragraph.text) is not None


def superseded_words(one: Superseded, several: bool = False) -> str:
    """'§25 was altered by §25a, A.L. 1'. several: whether there are several books, so that each is named."""
    old, new = (f"{p.source} {p.number}" if several else p.number for p in (one.old, one.new))
    return f"{old} was {one.how} by {new}, {one.new.amended_by}"
