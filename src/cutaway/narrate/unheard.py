"""Terms of a sentence that the books do not use: another spelling, another word for it, a part they do not speak of."""

import re
from itertools import pairwise

from cutaway.handbook.records import Folder
from cutaway.handbook.search import ParagraphIndex
from cutaway.handbook.spellings import RINGS
from cutaway.handbook.stems import EMPTY, WORD
from cutaway.narrate.compared import Difference
from cutaway.parts.library import KINDS

# Words of a ring that are everyday English as well, so that they say nothing about the trade.
_EVERYDAY = frozenset(
    re.findall(
        r"\S+",
        """machine starboard stbd ground earth back right left port rear draft draught idle idling glow glows lights lit
        mag connection horizon aircraft filling refuelling fuel grounded colour centre grey suction vacuum revs metre
        litre battery""",
    )
) | {"slow running", "tick over", "ticks over"}


class Terms:
    """Knows the terms of the trade and of one folder's books. It lives as long as its index."""

    def __init__(self, folder: Folder, index: ParagraphIndex) -> None:
        self._index = index
        self._known = {" ".join(WORD.findall(name.lower())) for t in folder.glossary for name in (t.name, *t.also)}
        self._known |= {" ".join(WORD.findall(p.name.lower())) for p in folder.parts}
        self._trade = {name.lower() for ring in RINGS for name in ring} - _EVERYDAY
        self._heads, self._before = self._of_titles(folder)

    def unheard(self, text: str) -> tuple[Difference, ...]:
        """The terms of a sentence that no paragraph uses, each once, with what the books say instead."""
        words = WORD.findall(text.lower())
        found = [self._spelled_otherwise(word) for word in dict.fromkeys(words)]
        found += [self._no_such_thing(one, two) for one, two in dict.fromkeys(pairwise(words))]
        return tuple(one for one in found if one is not None)

    def _spelled_otherwise(self, word: str) -> Difference | None:
        """'gasoline', 'carburetor': a word of the trade that the books spell or call otherwise."""
        if word not in self._trade or self._index.places(word) or word in self._known:
            return None
        used = [other for other in self._index.other_words(word) if self._index.places(other)]
        if not used:
            return None
        return Difference("term", word, used[0], None, f"The books do not say '{word}'; they say '{used[0]}'.")

    def _no_such_thing(self, one: str, two: str) -> Difference | None:
        """'vacuum gauge': made of the books' own words, but of no thing that they speak of."""
        head = self._index.stems.one(two)
        if head not in self._heads or self._index.stems.one(one) not in self._before or one in EMPTY:
            return None
        name = f"{one} {two}"
        if self._index.places(name) or any(name in known for known in self._known):
            return None
        # 'oil gauge' is a fair short name for the oil pressure gauge.
        if any(one in title.split() for title in self._heads[head]):
            return None
        others = ", ".join(f"'{title}'" for title in self._heads[head][:3])
        return Difference("term", name, "", None, f"The books do not speak of a '{name}'; they have {others}.")

    def _of_titles(self, folder: Folder) -> tuple[dict[str, list[str]], frozenset[str]]:
        """The things that titles, glossary and kinds name by two words or more, by their last; the words before it."""
        kinds = {word for kind in KINDS for word in WORD.findall(kind)}
        stems = self._index.stems
        stems.learn(kinds)
        trade = {stems.one(word) for word in kinds}
        heads: dict[str, list[str]] = {}
        before: set[str] = set()
        titles = [one for p in self._index.paragraphs for one in re.split(r",| and ", p.title)]
        for title in (*titles, *(term.name for term in folder.glossary)):
            words = WORD.findall(title.lower())
            if len(words) < 2 or any(word in EMPTY for word in words):
                continue
            head = stems.one(words[-1])
            if head in trade and title.lower() not in heads.setdefault(head, []):
                heads[head].append(title.lower())
                before |= {stems.one(word) for word in words[:-1]}
        return heads, frozenset(before)
