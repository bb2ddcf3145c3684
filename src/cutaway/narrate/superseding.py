"""What a later paragraph of a book put out of use, so that nothing is called stated by the earlier one alone."""

import re

from cutaway.handbook.amendments import Superseded, superseded
from cutaway.handbook.records import Folder, Paragraph
from cutaway.quantities.which import StandardName

# 'The lamp is otherwise as in §25': whatever the later paragraph does not speak of stands as before.
_OTHERWISE = re.compile(
    r"\b(?:otherwise|in (?:all )?other respects|remains? (?:the same|unchanged|as)|for the rest|apart from this)\b",
    re.IGNORECASE,
)

Names = frozenset[StandardName]


class Later:
    """Knows for each paragraph which later ones alter or replace it. It lives as long as its folder is worked with."""

    def __init__(self, folder: Folder) -> None:
        self._everyone = frozenset(one.name for one in folder.type.standards)
        self._by_old: dict[tuple[str, str], list[Superseded]] = {}
        for source in folder.sources:
            for one in superseded(source, None):
                self._by_old.setdefault((str(one.old.source), one.old.number), []).append(one)

    def of(self, paragraph: Paragraph, names: Names | None) -> tuple[Superseded, ...]:
        """What alters a paragraph on any of some standards; names None: on any at all."""
        found = self._by_old.get((str(paragraph.source), paragraph.number), ())
        return tuple(one for one in found if one.names & (self._everyone if names is None else names))

    def instead(self, paragraph: Paragraph, names: Names | None) -> Superseded | None:
        """What wholly takes the place of a paragraph's words on all of some standards: it replaces it, or alters it
        without saying that the rest stands as before."""
        wanted = self._everyone if names is None else names
        for one in self.of(paragraph, names):
            if one.names >= wanted and (one.how == "replaced" or not says_otherwise_as_before(one.new)):
                return one
        return None


def says_otherwise_as_before(paragraph: Paragraph) -> bool:
    """Whether a paragraph says that what it does not speak of stands as before."""
    return _OTHERWISE.search(paragraph.text) is not None


def superseded_words(one: Superseded) -> str:
    """'§25 was altered by §25a, A.L. 1'."""
    return f"{one.old.number} was {one.how} by {one.new.number}, {one.new.amended_by}"
