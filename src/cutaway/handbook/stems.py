"""Stems of words, by the same stemmer that the paragraph index uses: SQLite's porter tokeniser."""

import re
import sqlite3
from collections.abc import Iterable

WORD = re.compile(r"[^\W_]+", re.UNICODE)
# Words that stand in every paragraph and tell nothing apart.
EMPTY = frozenset(
    [
        *("a", "an", "and", "are", "as", "at", "be", "by", "for", "from", "has", "have", "if", "in", "into", "is"),
        *("it", "its", "no", "not", "of", "off", "on", "or", "so", "that", "the", "their", "then", "there", "these"),
        *("they", "this", "to", "was", "when", "where", "which", "while", "with", "you", "your"),
    ]
)


class Stems:
    """The stem of each word that was asked for; asks SQLite once for each new word. It lives as long as its owner."""

    def __init__(self) -> None:
        self._base = sqlite3.connect(":memory:", check_same_thread=False)
        self._base.execute("CREATE VIRTUAL TABLE words USING fts5(word, tokenize='porter unicode61')")
        self._base.execute("CREATE VIRTUAL TABLE stems USING fts5vocab(words, 'instance')")
        self._known: dict[str, str] = {}

    def learn(self, words: Iterable[str]) -> None:
        """Find the stems of many words in one go."""
        new = sorted({word.lower() for word in words} - self._known.keys())
        if not new:
            return
        self._base.execute("DELETE FROM words")
        self._base.executemany("INSERT INTO words (rowid, word) VALUES (?, ?)", enumerate(new, 1))
        found = dict(self._base.execute("SELECT doc, term FROM stems WHERE offset = 0"))
        self._known |= {word: found.get(at, word) for at, word in enumerate(new, 1)}

    def one(self, word: str) -> str:
        """The stem of one word."""
        self.learn([word])
        return self._known[word.lower()]

    def of(self, text: str) -> tuple[str, ...]:
        """The stems of the telling words of a text, in order.

        >>> Stems().of("The pumps are pumping, and the lamp glows.")
        ('pump', 'pump', 'lamp', 'glow')
        """
        words = [word for word in WORD.findall(text.lower()) if word not in EMPTY]
        self.learn(words)
        return tuple(self._known[word] for word in words)
