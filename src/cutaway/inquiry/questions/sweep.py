"""Many questions on one folder, cut in chunks that carry the folder with them: a sweep."""

import tempfile
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from cutaway.handbook.load import load_folder
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.cluster import threads_here
from cutaway.inquiry.questions.failures import FailuresAnswer, failures
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import base_of
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.told import Told, told_from
from cutaway.inquiry.verdicts import NotModelled, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import read_claims
from cutaway.language.syntax import Claim
from cutaway.language.words import words_of
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.library import KINDS
from cutaway.problems.span import TextFile
from cutaway.quantities.which import StandardName

Files = tuple[TextFile, ...]

# How many questions go into a chunk: few enough that a lost one costs little. A choice of ours.
AT_ONCE = 8


@dataclass(frozen=True, slots=True)
class Put:
    """A claim on one subject."""

    claim: Claim
    subject: StandardName


@dataclass(frozen=True, slots=True)
class ClaimChunk:
    """Claims to be judged. rests: whether assumed values are taken to the ends of their ranges."""

    files: Files
    put: tuple[Put, ...]
    rests: bool


@dataclass(frozen=True, slots=True)
class FailureChunk:
    """Claims whose smallest failure sets, up to `size`, are looked for. most: of how many the crew's view is told."""

    files: Files
    put: tuple[Put, ...]
    size: int
    most: int


def claim_chunks(files: Files, put: Sequence[Put], rests: bool) -> tuple[ClaimChunk, ...]:
    """The chunks of many claims, in their order."""
    return tuple(ClaimChunk(files, tuple(put[i : i + AT_ONCE]), rests) for i in range(0, len(put), AT_ONCE))


def failure_chunks(files: Files, put: Sequence[Put], size: int, most: int) -> tuple[FailureChunk, ...]:
    """The chunks of many searches for failures, one in each: they are long."""
    return tuple(FailureChunk(files, (one,), size, most) for one in put)


def judged(chunk: ClaimChunk) -> tuple[Verdict, ...]:
    """The verdict on each claim of a chunk."""
    with _ONE_AT_A_TIME:
        bench = _bench(chunk.files)
        return tuple(
            verdict_for(one.claim, bench.subject(one.subject), bench.workshop, bench.told, chunk.rests, None)
            for one in chunk.put
        )


def failed(chunk: FailureChunk) -> tuple[FailuresAnswer | NotModelled, ...]:
    """The smallest failure sets of each claim of a chunk."""
    with _ONE_AT_A_TIME:
        bench = _bench(chunk.files)
        return tuple(_failed(one, bench, chunk) for one in chunk.put)


def _failed(one: Put, bench: "_Bench", chunk: FailureChunk) -> FailuresAnswer | NotModelled:
    bound, _ = bench.workshop.bound(bench.subject(one.subject))
    base = base_of(Question(one.claim.statement, one.claim.scope, bound, bench.told, bench.workshop))
    return base if isinstance(base, NotModelled) else failures(base, Bound(chunk.size), chunk.most)


# --- the folder at a chunk's place of work -------------------------------------------------------------------------

# A worker may begin a chunk while it is at another; a workshop serves one at a time, with all the threads there are.
_ONE_AT_A_TIME = threading.Lock()


@dataclass(frozen=True, slots=True, eq=False)
class _Bench:
    workshop: Workshop
    told: Told

    def subject(self, name: StandardName) -> Subject:
        return next(one for one in subjects(self.workshop.folder) if one.name == name)


@lru_cache(maxsize=2)
def _bench(files: Files) -> _Bench:
    """The folder of some files, loaded once in a process."""
    with tempfile.TemporaryDirectory() as place:
        for file in files:
            path = Path(place) / file.path
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(file.text, encoding="utf-8")
        folder, _ = load_folder(place)
    assert folder is not None, "a folder that was loaded before is loaded again"
    parsed, _ = read_claims(folder, words_of(folder, KINDS))
    return _Bench(Workshop(folder, KINDS, threads_here()), told_from(parsed))
