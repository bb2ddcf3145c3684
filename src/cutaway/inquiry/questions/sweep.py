"""Many questions on one folder, cut in chunks that carry the folder with them: a sweep."""

import threading
from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.inquiry.carried import Carried, Files, carried
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.questions.failures import FailuresAnswer, failures
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import base_of
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.verdicts import NotModelled, Verdict
from cutaway.language.syntax import Claim
from cutaway.quantities.which import StandardName

# How many questions go into a chunk: few enough that a lost one costs little. A choice of ours.
AT_ONCE = 8


# A worker may begin a chunk while it is at another; a workshop serves one at a time, with all the threads there are.
_ONE_AT_A_TIME = threading.Lock()


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
        place = carried(chunk.files)
        return tuple(
            verdict_for(one.claim, place.subject(one.subject), place.workshop, place.told, chunk.rests, None)
            for one in chunk.put
        )


def failed(chunk: FailureChunk) -> tuple[FailuresAnswer | NotModelled, ...]:
    """The smallest failure sets of each claim of a chunk."""
    with _ONE_AT_A_TIME:
        place = carried(chunk.files)
        return tuple(_failed(one, place, chunk) for one in chunk.put)


def _failed(one: Put, place: Carried, chunk: FailureChunk) -> FailuresAnswer | NotModelled:
    bound, _ = place.workshop.bound(place.subject(one.subject))
    base = base_of(Question(one.claim.statement, one.claim.scope, bound, place.told, place.workshop))
    return base if isinstance(base, NotModelled) else failures(base, Bound(chunk.size), chunk.most)
