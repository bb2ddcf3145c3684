"""Finding the paragraphs that speak of something: SQLite's full-text index, which knows endings of words.

A word is searched together with its other spellings and with the glossary's other words for it. A word that stands
nowhere in the books is replaced by the nearest that does, or taken apart where two words of the books make it.
"""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from rapidfuzz import fuzz, process

from cutaway.handbook.records import Folder, Paragraph, Source, Term
from cutaway.handbook.spellings import RINGS
from cutaway.handbook.stems import EMPTY, WORD, Stems

# How many places in the books the words of one search may have in all before its commonest words are dropped, and how
# many words are kept at least. A word that stands everywhere costs most and tells least. Choices of ours.
_PLACES = 8_000
_KEPT = 3


@dataclass(frozen=True, slots=True)
class Hit:
    """A paragraph that was found. score: higher is better. instead: (word asked for, word searched in its place)."""

    paragraph: Paragraph
    score: float
    instead: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class _Asked:
    """What one word or phrase of a search is looked for under: any of its spellings that the books use."""

    words: tuple[str, ...]
    places: int


class ParagraphIndex:
    """The paragraphs of some sources, ready to be searched. It lives as long as its owner wants to search them.

    terms: the glossary, whose other words for a thing find it too.
    """

    def __init__(self, sources: tuple[Source, ...], terms: tuple[Term, ...] = ()) -> None:
        self.paragraphs = tuple(paragraph for source in sources for paragraph in source.paragraphs)
        self._rows = {(p.source, p.number): row for row, p in enumerate(self.paragraphs)}
        self._base = sqlite3.connect(":memory:", check_same_thread=False)
        self._base.execute("CREATE VIRTUAL TABLE paragraphs USING fts5(title, text, tokenize='porter unicode61')")
        self._base.executemany(
            "INSERT INTO paragraphs (rowid, title, text) VALUES (?, ?, ?)",
            [(row, p.title, "\n".join((p.text, *p.cautions))) for row, p in enumerate(self.paragraphs, 1)],
        )
        self._base.execute("CREATE VIRTUAL TABLE stems USING fts5vocab(paragraphs, 'row')")
        self._counts: dict[str, int] = dict(self._base.execute("SELECT term, doc FROM stems"))
        self.stems = Stems()
        texts = (f"{p.title} {p.text} {' '.join(p.cautions)}".lower() for p in self.paragraphs)
        self.vocabulary = tuple(sorted({word for text in texts for word in WORD.findall(text)}))
        self._words = frozenset(self.vocabulary)
        self.stems.learn(self.vocabulary)
        self._places: dict[str, int] = {}
        self._rings: dict[str, tuple[str, ...]] = {}
        own = tuple((term.name, *term.also) for term in terms if term.also)
        for ring in (*RINGS, *own):
            names = tuple(dict.fromkeys(" ".join(WORD.findall(name.lower())) for name in ring))
            for name in names:
                self._rings[name] = tuple(dict.fromkeys((*self._rings.get(name, ()), *names)))
        self._stem_rings = self._rings_of_stems()
        self._longest = max((len(name.split()) for name in self._rings), default=1)

    def search(self, words: str, limit: int = 10) -> tuple[Hit, ...]:
        """The paragraphs that fit the words best, by bm25 with the title counting three times."""
        asked, instead = self._asked(words)
        if not asked or limit < 1:
            return ()
        # Every word stands in quotes, so that no sign or operator of the query language can be meant.
        text = " OR ".join(f'"{word}"' for one in self._affordable(asked) for word in one.words)
        rows = self._base.execute(
            "SELECT rowid, bm25(paragraphs, 3.0, 1.0) AS rank FROM paragraphs WHERE paragraphs MATCH ? "
            "ORDER BY rank, rowid LIMIT ?",
            (text, min(limit, 10_000)),
        ).fetchall()
        return tuple(Hit(self.paragraphs[row - 1], -rank, instead) for row, rank in rows)

    def speaks_of(self, name: str) -> tuple[Paragraph, ...]:
        """The paragraphs in which a name stands, or another word for it, whole and in order; endings do not matter."""
        words = " ".join(WORD.findall(name.lower()))
        spellings = [word for word in (words, *self._rings.get(words, ())) if word]
        if not spellings:
            return ()
        query = " OR ".join(f'"{word}"' for word in dict.fromkeys(spellings))
        rows = self._base.execute("SELECT rowid FROM paragraphs WHERE paragraphs MATCH ? ORDER BY rowid", (query,))
        return tuple(self.paragraphs[row - 1] for (row,) in rows)

    def row_of(self, paragraph: Paragraph) -> int:
        """The place of a paragraph in `paragraphs`."""
        return self._rows[(paragraph.source, paragraph.number)]

    def places(self, words: str) -> int:
        """In how many paragraphs a word or phrase stands, whatever its ending."""
        if words not in self._places and " " not in words:
            self._places[words] = self._counts.get(self.stems.one(words), 0)
        elif words not in self._places:
            found = self._base.execute("SELECT count(*) FROM paragraphs WHERE paragraphs MATCH ?", (f'"{words}"',))
            self._places[words] = int(found.fetchone()[0])
        return self._places[words]

    def places_of_stem(self, stem: str) -> int:
        """In how many paragraphs a stem stands."""
        return self._counts.get(stem, 0)

    def ring_of_stem(self, stem: str) -> frozenset[str]:
        """The stems of the single words that mean the same as a word with this stem."""
        return self._stem_rings.get(stem, frozenset())

    def other_words(self, words: str) -> tuple[str, ...]:
        """What else the thing is called, by the glossary and the trade's spellings."""
        name = " ".join(WORD.findall(words.lower()))
        return tuple(word for word in self._rings.get(name, ()) if word != name)

    def _rings_of_stems(self) -> dict[str, frozenset[str]]:
        single = {
            name: [one for one in ring if " " not in one] for name, ring in self._rings.items() if " " not in name
        }
        self.stems.learn(single)
        found: dict[str, frozenset[str]] = {}
        for name, ring in single.items():
            stem = self.stems.one(name)
            found[stem] = found.get(stem, frozenset()) | frozenset(map(self.stems.one, ring)) - {stem}
        return found

    def _asked(self, text: str) -> tuple[tuple[_Asked, ...], tuple[tuple[str, str], ...]]:
        """The words to search with all their spellings; with which word stands in for one that the books lack."""
        self.stems.learn(WORD.findall(text.lower()))
        asked: list[_Asked] = []
        instead: list[tuple[str, str]] = []
        for word in _telling(WORD.findall(text.lower())):
            found = self._spelled(word)
            if found and word not in found.words:
                instead.append((word, found.words[0]))
            asked.extend([found] if found else [])
        for phrase in self._phrases(WORD.findall(text.lower())):
            found = self._spelled(phrase, near=False)
            asked.extend([found] if found else [])
        return tuple(dict.fromkeys(asked)), tuple(dict.fromkeys(instead))

    def _phrases(self, words: list[str]) -> Iterable[str]:
        """The phrases of two words or more in a text that have another word."""
        for size in range(2, self._longest + 1):
            for at in range(len(words) - size + 1):
                phrase = " ".join(words[at : at + size])
                if phrase in self._rings:
                    yield phrase

    def _spelled(self, words: str, near: bool = True) -> _Asked | None:
        """The spellings of a word that stand in the books, its own first; None where nothing near it does."""
        found = [one for one in dict.fromkeys((words, *self._rings.get(words, ()))) if self.places(one)]
        if not found and near:
            found = [one for one in (self._taken_apart(words) or self._nearest(words),) if one]
        return _Asked(tuple(found), sum(map(self.places, found))) if found else None

    def _nearest(self, word: str) -> str:
        near = process.extractOne(word, self.vocabulary, scorer=fuzz.ratio, score_cutoff=75.0)
        return near[0] if near else ""

    def _taken_apart(self, word: str) -> str:
        """'lampswitch' as 'lamp switch', if the books say that."""
        halves = ((word[:at], word[at:]) for at in range(3, len(word) - 2))
        known = (f"{one} {two}" for one, two in halves if one in self._words and two in self._words)
        return next((phrase for phrase in known if self.places(phrase)), "")

    def _affordable(self, asked: tuple[_Asked, ...]) -> tuple[_Asked, ...]:
        """The rarest words, as many as can be searched at once in good time."""
        rarest = sorted(asked, key=lambda one: one.places)
        kept, places = 0, 0
        for one in rarest:
            places += one.places
            if places > _PLACES and kept >= _KEPT:
                break
            kept += 1
        return tuple(rarest[:kept])


def search_paragraphs(folder: Folder, words: str, limit: int = 10) -> tuple[Hit, ...]:
    """The paragraphs of the folder's sources that speak of some words, best first; () where none does.

    Whoever asks often keeps a `ParagraphIndex` of `folder.sources` and `folder.glossary` instead.
    """
    return ParagraphIndex(folder.sources, folder.glossary).search(words, limit)


def _telling(words: list[str]) -> tuple[str, ...]:
    """The words that can be searched, each once; those that tell nothing apart only where there are no others."""
    found = tuple(dict.fromkeys(words))[:64]
    return tuple(word for word in found if word not in EMPTY) or found
