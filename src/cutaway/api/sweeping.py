"""Sweeps: all claims of a folder on a cluster, and the failures of all services on all standards."""

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.api.asking import Asked, Opened, claim_of, opened, remembered
from cutaway.api.checking import standards_named
from cutaway.api.failures import FailuresTold, failures_record, failures_text
from cutaway.inquiry.cluster import spread
from cutaway.inquiry.questions.failures import AlreadyUndone, FailuresAnswer
from cutaway.inquiry.questions.failures import failures as failures_of
from cutaway.inquiry.questions.sweep import Put, failed, failure_chunks
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.verdicts import NotModelled
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject, subjects
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems, has_error


@dataclass(frozen=True, slots=True, eq=False)
class Swept:
    """The failures of many services: those that could be asked, in the order of services, situations and standards.
    answers: the same as they came, for comparison. nothing: how many were not so to begin with, or not modelled. left:
    how many were not come to."""

    told: tuple[FailuresTold, ...]
    answers: tuple[FailuresAnswer | NotModelled, ...]
    nothing: int
    left: int = 0


_Pair = tuple[Asked, Claim, Subject]


def all_failures(
    folder: Path | str | Opened,
    situation: str = "",
    on: str = "",
    size: int = 2,
    most: int = 5,
    cluster: str = "",
    progress: Callable[[int], None] | None = None,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
) -> tuple[Swept | None, Problems]:
    """The smallest failure sets of every service on every standard, in every situation or in one.

    cluster: the address of a Dask scheduler, '' to work on this machine's threads; the answers are the same.
    seconds: how long to look, here. stop: asked now and then whether to end with what is known. What was found is
    remembered, so that the next sweep goes on from there.
    """
    here, problems = opened(folder)
    if here is None:
        return None, problems
    only, more = standards_named(here.loaded.folder, on)
    problems += more
    asked = tuple(_asked(here, situation))
    claims = [claim_of(here.loaded, one) for one in asked]
    problems += tuple(dict.fromkeys(p for _, more in claims for p in more))
    if has_error(problems):
        return None, problems
    standards = [s for s in subjects(here.loaded.folder) if s.name == s.standard and (only is None or s.name in only)]
    pairs = [(one, claim, s) for one, (claim, _) in zip(asked, claims, strict=True) if claim for s in standards]
    if cluster:
        put = [Put(claim, s.name) for _, claim, s in pairs]
        found, more = spread(failed, failure_chunks(here.loaded.folder.files, put, size, most), cluster, progress)
        if found is None:
            return None, (*problems, *more)
        answers = tuple(one for chunk in found for one in chunk)
    else:
        answers = tuple(_one_by_one(here, pairs, Bound(size), most, progress, seconds, stop))
    told = []
    for (one, claim, subject), answer in zip(pairs, answers, strict=False):
        if isinstance(answer, NotModelled | AlreadyUndone):
            continue
        base = _base(here, claim, subject)
        assert not isinstance(base, NotModelled)
        told.append(FailuresTold(here, one, base, subject, answer, most))
    return Swept(tuple(told), answers, len(answers) - len(told), len(pairs) - len(answers)), problems


def _one_by_one(
    here: Opened,
    pairs: Sequence[_Pair],
    bound: Bound,
    most: int,
    progress: Callable[[int], None] | None,
    seconds: float | None,
    stop: Callable[[], bool],
) -> Iterator[FailuresAnswer | NotModelled]:
    """The answers of this machine in their order, until it is stopped or the time is up."""
    until = None if seconds is None else time.monotonic() + seconds
    memory = remembered()

    for _, claim, subject in pairs:
        left = None if until is None else until - time.monotonic()
        if stop() or (left is not None and left <= 0.0):
            return
        base = _base(here, claim, subject)
        within = replace(bound, seconds=left)
        yield base if isinstance(base, NotModelled) else failures_of(base, within, most, stop, memory=memory)
        if progress is not None:
            progress(1)


def _base(here: Opened, claim: Claim, subject: Subject) -> Base | NotModelled:
    bound, _ = here.workshop.bound(subject)
    return base_of(Question(claim.statement, claim.scope, bound, here.loaded.told, here.workshop))


def _asked(here: Opened, situation: str) -> Iterator[Asked]:
    folder = here.loaded.folder
    for service in folder.services:
        for name in (situation,) if situation else tuple(s.name for s in folder.situations):
            yield Asked(service.name, name)


def swept_text(swept: Swept) -> str:
    """Every answer, one after another."""
    parts = [failures_text(one) for one in swept.told]
    if swept.nothing:
        parts.append(f"Left out: {swept.nothing} in which the service is not given to begin with, or is not modelled.")
    if swept.left:
        parts.append(
            f"Not come to: {counted(swept.left, 'question')}. What was found is remembered, and the same "
            "command goes on from there."
        )
    return "\n\n".join(parts) or "There are no services: services.yaml names what the crew needs."


def swept_record(swept: Swept) -> dict[str, object]:
    """Every answer for a program."""
    return {
        "question": "all failures",
        "nothing": swept.nothing,
        "left": swept.left,
        "answers": [failures_record(o) for o in swept.told],
    }
