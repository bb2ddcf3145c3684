"""Finding the paragraphs that speak of something: SQLite's full-text index, with near misses for words not found."""

import re
import sqlite3
from dataclasses import dataclass

from rapidfuzz import fuzz, process

from cutaway.handbook.records import Folder, Paragraph, Source

_WORD = re.compile(r"[^\W_]+", re.UNICODE)
# Words that stand in every paragraph and tell nothing apart.
_EMPTY = frozenset(
    [
        *("a", "an", "and", "are", "as", "at", "be", "by", "for", "from", "has", "have", "if", "in", "into", "is"),
        *("it", "its", "no", "not", "of", "off", "on", "or", "so", "that", "the", "their", "then", "there", "these"),
        *("they", "this", "to", "was", "when", "where", "which", "while", "with", "you", "your"),
    ]
)


@dataclass(frozen=True, slots=True)
class Hit:
    """A paragraph that was found. score: higher is better. instead: (word asked for, word searched in its place)."""

    paragraph: Paragraph
    score: float
    instead: tuple[tuple[str, str], ...] = ()


class ParagraphIndex:
    """The paragraphs of some sources, ready to be searched. It lives as long as its owner wants to search them."""

    def __init__(self, sources: tuple[Source, ...]) -> None:
        self._paragraphs = tuple(paragraph for source in sources for paragraph in source.paragraphs)
        self._base = sqlite3.connect(":memory:", check_same_thread=False)
        self._base.execute("CREATE VIRTUAL TABLE paragraphs USING fts5(title, text, tokenize='porter unicode61')")
        self._base.executemany(
            "INSERT INTO paragraphs (rowid, title, text) VALUES (?, ?, ?)",
            [(row, p.title, "\n".join((p.text, *p.cautions))) for row, p in enumerate(self._paragraphs, 1)],
        )
        texts = (f"{p.title} {p.text} {' '.join(p.cautions)}".lower() for p in self._paragraphs)
        self._vocabulary = sorted({word for text in texts for word in _WORD.findall(text)})

    def search(self, words: str, limit: int = 10) -> tuple[Hit, ...]:
        """The paragraphs that fit the words best, by bm25 with the title counting three times."""
        asked = _asked(words)
        if not asked or limit < 1:
            return ()
        query, instead = self._with_near_misses(asked)
        if not query:
            return ()
        # Every word stands in quotes, so that no sign or operator of the query language can be meant.
        text = " OR ".join(f'"{word}"' for word in query)
        rows = self._base.execute(
            "SELECT rowid, bm25(paragraphs, 3.0, 1.0) AS rank FROM paragraphs WHERE paragraphs MATCH ? "
            "ORDER BY rank, rowid LIMIT ?",
            (text, min(limit, 10_000)),
        ).fetchall()
        return tuple(Hit(self._paragraphs[row - 1], -rank, instead) for row, rank in rows)

    def _with_near_misses(self, asked: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[tuple[str, str], ...]]:
        """The words to search, those that stand nowhere replaced by the nearest that does."""
        query: list[str] = []
        instead: list[tuple[str, str]] = []
        for word in asked:
            if self._is_found(word):
                query.append(word)
                continue
            near = process.extractOne(word, self._vocabulary, scorer=fuzz.ratio, score_cutoff=75.0)
            if near:
                query.append(near[0])
                instead.append((word, near[0]))
        return tuple(query), tuple(instead)

    def _is_found(self, word: str) -> bool:
        found = self._base.execute("SELECT 1 FROM paragraphs WHERE paragraphs MATCH ? LIMIT 1", (f'"{word}"',))
        return found.fetchone() is not None


def search_paragraphs(folder: Folder, words: str, limit: int = 10) -> tuple[Hit, ...]:
    """The paragraphs of the folder's sources that speak of some words, best first; () where none does.

    Whoever asks often keeps a `ParagraphIndex` of `folder.sources` instead.
    """
    return ParagraphIndex(folder.sources).search(words, limit)


def _asked(words: str) -> tuple[str, ...]:
    """The words that can be searched, each once; those that tell nothing apart only where there are no others."""
    found = tuple(dict.fromkeys(_WORD.findall(words.lower())))[:64]
    telling = tuple(word for word in found if word not in _EMPTY)
    return telling or found
