"""The runs behind many verdicts, run side by side before the verdicts are asked for one by one."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import islice

from cutaway.inquiry.asking import plan_of
from cutaway.inquiry.check import first_bound, is_joined, put_to_machine, question_of
from cutaway.inquiry.memory import Memory, key_of
from cutaway.inquiry.mixed import Left, without_built
from cutaway.inquiry.told import Told
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject

# How many are begun at once: enough for every processor, few enough that one sees how it goes on. A choice of ours.
AT_ONCE = 32


def run_together(
    put: Sequence[tuple[Claim, Subject]], workshop: Workshop, told: Told, rests: bool, memory: Memory | None
) -> None:
    """Run what the verdicts on claims will want first, on all processors; the workshop then has those runs.

    rests, memory: as for `check.verdict_for`; what is remembered is not run.
    """
    wanted = (one for claim, subject in put for one in _wanted(claim, subject, workshop, told, rests, memory))
    while several := list(islice(wanted, AT_ONCE)):
        workshop.runs(several)


def _wanted(
    claim: Claim, subject: Subject, workshop: Workshop, told: Told, rests: bool, memory: Memory | None
) -> Iterable[Request]:
    question = question_of(claim, subject, workshop, told)
    left = without_built(question)
    if not isinstance(left, Left) or is_joined(left.statement):
        return ()
    put = put_to_machine(replace(question, statement=left.statement))
    if not isinstance(put, tuple):
        return ()
    asked, made = put
    if memory is not None and memory.get(key_of(asked, made, rests)) is not None:
        return ()
    return plan_of(asked, made, first_bound(asked)).requests
