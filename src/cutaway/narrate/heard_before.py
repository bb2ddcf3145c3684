"""What was heard in pieces of recordings in earlier sessions, kept by the content of all that decides it.

The key of a piece is a digest of its sound, the recogniser and what it expects, so nothing stale can be found. Nothing
depends on the file: one that cannot be used is done without, one that is broken is begun again.
"""

import json
import sqlite3
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from cutaway.narrate.recogniser import Heard

# Some forty hours of speech in about 25 MB; the pieces heard longest ago are forgotten first.
MOST = 50_000

_TABLE = "create table if not exists heard (key text primary key, words text)"
_FORGET = "delete from heard where rowid <= (select max(rowid) from heard) - ?"


class HeardBefore:
    """A file of what was heard. lasts: whether it outlives this session. most: how many pieces are kept."""

    def __init__(self, path: Path | None, most: int = MOST) -> None:
        on_disk = _open(path) if path is not None else None
        self.lasts = on_disk is not None
        self._most = most
        self._db = on_disk if on_disk is not None else sqlite3.connect(":memory:")
        if on_disk is None:
            self._db.execute(_TABLE)

    def get(self, key: str) -> tuple[Heard, ...] | None:
        """The words kept under a key, or None."""
        try:
            row = self._db.execute("select words from heard where key = ?", (key,)).fetchone()
        except sqlite3.Error:
            return None
        return _words(row[0]) if row is not None else None

    def put(self, key: str, words: Sequence[Heard]) -> None:
        """Keep the words of a piece, and forget the oldest beyond the bound."""
        text = json.dumps([(one.word, one.start, one.end) for one in words])
        # A full disk, a broken page or another session's lock costs only the next session's time.
        with suppress(sqlite3.Error):
            self._db.execute("insert or replace into heard values (?, ?)", (key, text))
            self._db.execute(_FORGET, (self._most,))
            self._db.commit()

    def close(self) -> None:
        """Let go of the file."""
        self._db.close()


def _open(path: Path) -> sqlite3.Connection | None:
    """The file of a path, begun again if it is broken; None where it cannot be used (a read-only home, say)."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        return _connected(path)
    except sqlite3.OperationalError:
        return None
    except sqlite3.DatabaseError:
        with suppress(OSError, sqlite3.Error):
            path.unlink()
            return _connected(path)
    except OSError:
        pass
    return None


def _connected(path: Path) -> sqlite3.Connection:
    db = sqlite3.connect(path, timeout=2.0)
    try:
        db.execute(_TABLE)
        db.execute("pragma synchronous = off")
        db.execute("select words from heard limit 1").fetchone()
    except sqlite3.Error:
        db.close()
        raise
    return db


def _words(text: object) -> tuple[Heard, ...] | None:
    """The words of a row; None if it is not what was written."""
    try:
        return tuple(Heard(str(word), float(start), float(end)) for word, start, end in json.loads(str(text)))
    except (ValueError, TypeError):
        return None
