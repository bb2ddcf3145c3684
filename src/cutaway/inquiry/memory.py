"""Verdicts of earlier sessions, kept by the content of everything that decides them.

The key is a digest of the cone's network, the assumptions that reach it, the scene, the statement and the sources of
the solver and of this room; a change of any of them makes another key, so nothing stale can be found.
"""

import json
import sqlite3
from dataclasses import asdict, replace
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.judging import Question
from cutaway.inquiry.told import legs_for
from cutaway.inquiry.verdicts import Fails, Holds, RestsOn
from cutaway.inquiry.workshop import Made
from cutaway.language.print_back import printed_claim
from cutaway.language.syntax import Claim
from cutaway.machine.compiled import source_hash

Kept = Holds | Fails | RestsOn
_KINDS: dict[str, type] = {"Holds": Holds, "Fails": Fails, "RestsOn": RestsOn}


class Memory:
    """A file of verdicts. Where the file cannot be used (a read-only home, say) it remembers for this session only."""

    def __init__(self, path: Path | None) -> None:
        self._db = _open(path)

    def get(self, key: str) -> Kept | None:
        """The verdict kept under a key, without its citations, or None."""
        row = self._db.execute("select verdict from verdicts where key = ?", (key,)).fetchone()
        if row is None:
            return None
        kind, value = json.loads(row[0])
        try:
            kept: Kept = TypeAdapter(_KINDS[kind]).validate_python(value)
        except (ValidationError, KeyError):
            return None
        return kept

    def put(self, key: str, verdict: Kept) -> None:
        """Keep a verdict; its citations are found again from the folder when it is read."""
        text = json.dumps([type(verdict).__name__, asdict(_bare(verdict))])
        try:
            self._db.execute("insert or replace into verdicts values (?, ?)", (key, text))
            self._db.commit()
        except sqlite3.Error:
            # A full disk or another session's lock costs only the next session's time.
            return


def _open(path: Path | None) -> sqlite3.Connection:
    table = "create table if not exists verdicts (key text primary key, verdict text)"
    if path is not None:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            db = sqlite3.connect(path, timeout=2.0)
            db.execute(table)
            db.execute("pragma synchronous = off")
        except (OSError, sqlite3.Error):
            pass
        else:
            return db
    db = sqlite3.connect(":memory:")
    db.execute(table)
    return db


def _bare(verdict: Kept) -> Kept:
    if isinstance(verdict, RestsOn):
        return replace(verdict, nominal=replace(verdict.nominal, cites=()))
    return replace(verdict, cites=())


def key_of(question: Question, made: Made, rests: bool) -> str:
    """The digest of all that decides the verdict on a question."""
    bound, scope = question.bound, question.scope
    parts = {owner for _, owner in made.network.owners}
    assumed = [a for a in bound.assumptions if a.part in parts] if rests else []
    legs = legs_for(question.workshop.folder, question.told, bound, scope)
    claim = printed_claim(Claim(replace(scope, on=None), question.statement, scope.span))
    services = [s.statement.file.text[s.statement.start : s.statement.end] for s in question.workshop.folder.services]
    text = repr((source_hash(), _room_hash(), made.digest, assumed, legs, claim, services))
    return blake2b(text.encode(), digest_size=20).hexdigest()


@lru_cache(maxsize=1)
def _room_hash() -> str:
    """Stands for the sources of this room."""
    sources = sorted(Path(__file__).parent.glob("*.py"))
    return blake2b(b"".join(source.read_bytes() for source in sources), digest_size=16).hexdigest()


def cited(verdict: Kept, question: Question) -> Kept:
    """A kept verdict with the citations of the folder as it is now."""
    cites = cites_of(question.statement, question.scope, question.bound, question.told.services)
    if isinstance(verdict, RestsOn):
        return replace(verdict, nominal=replace(verdict.nominal, cites=cites))
    return replace(verdict, cites=cites)
