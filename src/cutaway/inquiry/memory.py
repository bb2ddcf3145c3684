"""Verdicts of earlier sessions, kept by the content of everything that decides them.

The key is a digest of the cone's network, the assumptions that may reach it, the way to the situation, the claim, the
services and rules that it uses and the sources of everything that judges; a change of any of them makes another key, so
nothing stale can be found.
"""

import json
import sqlite3
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.rules import ruled
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.signals import services_in
from cutaway.inquiry.told import legs_for
from cutaway.inquiry.verdicts import Empty, Fails, Holds, RestsOn
from cutaway.inquiry.workshop import Made
from cutaway.language.claims import ParsedRule
from cutaway.language.print_back import printed, printed_actions, printed_claim
from cutaway.language.syntax import Claim
from cutaway.machine.bind import Bound
from cutaway.machine.compiled import source_hash
from cutaway.machine.fitting import Assumption

Kept = Holds | Fails | RestsOn | Empty
_KINDS: dict[str, TypeAdapter[Kept]] = {kind.__name__: TypeAdapter(kind) for kind in (Holds, Fails, RestsOn, Empty)}
# The rooms whose sources decide a verdict once the claim is read, and what in them does.
_JUDGES = ("inquiry/*.py", "machine/*.py", "parts/**/*.py", "quantities/*.py")


@dataclass(frozen=True, slots=True)
class Came:
    """What came of a question with an assumed value at another place of its range. so: whether it is true then, None
    where that could not be said. margin: how far it is from turning over, None where it has no such measure."""

    so: bool | None
    margin: float | None


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
            return _KINDS[kind].validate_python(value)
        except (ValidationError, KeyError):
            return None

    def came(self, key: str) -> dict[str, Came]:
        """What came of the ends of assumed values that were tried for the question under a key, by their words."""
        row = self._db.execute("select came from ends where key = ?", (key,)).fetchone()
        try:
            return {words: Came(bool(so) if so is not None else None, margin) for words, (so, margin) in _pairs(row)}
        except (ValueError, TypeError):
            return {}

    def put_came(self, key: str, came: Mapping[str, Came]) -> None:
        """Keep what came of ends of assumed values, all that are known of the question at once."""
        self._write("ends", key, json.dumps({words: [one.so, one.margin] for words, one in came.items()}))

    def put(self, key: str, verdict: Kept) -> None:
        """Keep a verdict; its citations are found again from the folder when it is read."""
        self._write("verdicts", key, json.dumps([type(verdict).__name__, asdict(_bare(verdict))]))

    def _write(self, table: str, key: str, text: str) -> None:
        try:
            self._db.execute(f"insert or replace into {table} values (?, ?)", (key, text))
            self._db.commit()
        except sqlite3.Error:
            # A full disk or another session's lock costs only the next session's time.
            return


def _pairs(row: tuple[str] | None) -> Iterable[tuple[str, tuple[bool | None, float | None]]]:
    return json.loads(row[0]).items() if row is not None else ()


def _open(path: Path | None) -> sqlite3.Connection:
    if path is not None:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            db = sqlite3.connect(path, timeout=2.0)
            _tables(db)
            db.execute("pragma synchronous = off")
        except (OSError, sqlite3.Error):
            pass
        else:
            return db
    db = sqlite3.connect(":memory:")
    _tables(db)
    return db


def _tables(db: sqlite3.Connection) -> None:
    for name, column in (("verdicts", "verdict"), ("ends", "came")):
        db.execute(f"create table if not exists {name} (key text primary key, {column} text)")


def _bare(verdict: Kept) -> Kept:
    match verdict:
        case RestsOn(nominal=nominal):
            return replace(verdict, nominal=replace(nominal, cites=()))
        case Empty():
            return verdict
        case _:
            return replace(verdict, cites=())


def key_of(question: Question, made: Made, rests: bool) -> str:
    """The digest of all that decides the verdict on a question made ready."""
    bound, scope, told = question.bound, question.scope, question.told
    legs = legs_for(question.workshop.folder, told, bound, scope)
    claim = printed_claim(Claim(replace(scope, on=None), question.statement, scope.span))
    services = [(name, printed(told.services[name])) for name in sorted(services_in(question.statement, told.services))]
    rules = [_rule_words(rule) for rule in ruled(told.rules, scope, bound)]
    controls = [slot for slot in bound.controls.values() if slot.input in made.inputs]
    assumed = _assumed(bound, made) if rests else ["not asked"]
    text = repr((source_hash(), _judges_hash(), made.digest, assumed, legs, claim, services, rules, controls))
    return blake2b(text.encode(), digest_size=20).hexdigest()


def _assumed(bound: Bound, made: Made) -> list[Assumption]:
    """The assumed values of the parts that have anything in a cone."""
    parts = {owner for _, owner in made.network.owners}
    names = tuple(name for name, _ in made.network.signals)
    return [
        a
        for a in bound.assumptions
        if a.part in parts or any(n.startswith((f"{a.part}:", f"{a.part}.")) for n in names)
    ]


def _rule_words(rule: ParsedRule) -> tuple[object, ...]:
    asked = printed(rule.only_when) if rule.only_when is not None else ""
    return (rule.control, rule.to, asked, printed_actions(rule.then))


@lru_cache(maxsize=1)
def _judges_hash() -> str:
    """Stands for the sources of what judges."""
    package = Path(__file__).parents[1]
    sources = sorted(source for pattern in _JUDGES for source in package.glob(pattern))
    return blake2b(b"".join(source.read_bytes() for source in sources), digest_size=16).hexdigest()


def cited(verdict: Kept, question: Question) -> Kept:
    """A kept verdict with the citations of the folder as it is now."""
    cites = cites_of(question.statement, question.scope, question.bound, question.told.services)
    match verdict:
        case RestsOn(nominal=nominal):
            return replace(verdict, nominal=replace(nominal, cites=cites))
        case Empty():
            return verdict
        case _:
            return replace(verdict, cites=cites)
