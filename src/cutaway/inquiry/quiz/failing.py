"""Which failure alone takes a service away: the one that does among others that a listener would believe as soon."""

from collections.abc import Iterator
from functools import partial

from cutaway.inquiry.quiz.candidates import Candidate, parts_in, system_of
from cutaway.inquiry.quiz.proving import MOST_OPTIONS, Setter, arranged, on_words, option, order_of, proof
from cutaway.inquiry.quiz.records import Option, QuizQuestion, Trap, WhichFailure
from cutaway.inquiry.signals import needed
from cutaway.language.syntax import FailureRef
from cutaway.machine.bind import Bound
from cutaway.machine.names import failure_name
from cutaway.machine.subjects import Subject

MOST_TRIED = 24
"""How many failures are put to the model for one question. A choice of ours."""


def failure_candidates(setter: Setter, among: tuple[Subject, ...]) -> Iterator[Candidate]:
    """A question for each service in each situation."""
    for service, statement in setter.told.services.items():
        system = system_of(setter, parts_in(statement, setter))
        for situation in setter.folder.situations:
            for subject in among:
                key = f"failure; {subject.name}; {situation.name}; {service}"
                make = partial(_question, setter, subject, situation.name, service, system, key)
                yield Candidate(key, "failure", subject, system, make)


def _question(
    setter: Setter, subject: Subject, situation: str, service: str, system: str, key: str
) -> QuizQuestion | None:
    on = on_words(setter.folder, subject)
    served = proof(setter, subject, f"on {on}, in {situation}: {service} is served", holds=True)
    if served is None or not served.agrees:
        return None
    bound, _ = setter.workshop.bound(subject)
    right: Option | None = None
    wrong: dict[str, Option] = {}
    for one, says in _likely(setter, bound, service, system, key)[:MOST_TRIED]:
        if right is not None and len(wrong) >= MOST_OPTIONS - 1:
            break
        if str(one.part) in wrong or (right is not None and one == right.choice):
            continue  # one failure a part, so that no two options are nearly the same
        text = f"on {on}, in {situation}, with {one.part} {one.failure}: {service} is not served"
        found = option(setter, subject, text, one, Trap("no harm", says))
        if found is None:
            continue
        if not found.right:
            wrong[str(one.part)] = found
        elif right is None:
            right = Option(one, found.proofs, Trap("", says), found.cites)
    if right is None or len(wrong) < 2:
        return None
    options = arranged(key, right, tuple(wrong.values()))
    if options is None:
        return None
    return QuizQuestion(key, "failure", subject, system, WhichFailure(situation, service), options)


def _likely(setter: Setter, bound: Bound, service: str, system: str, key: str) -> list[tuple[FailureRef, str]]:
    """What can go wrong, each with what it does: those of the service's own system first, since they are what a
    listener thinks of."""
    statement = setter.told.services[service]
    made = setter.workshop.made(bound, needed(statement, bound, setter.told.services).signals)
    found: list[tuple[tuple[bool, bool, str], FailureRef, str]] = []
    for name, part in bound.parts.items():
        for failure in bound.kinds[part.kind].failures:
            reaches = failure_name(name, failure.name) in made.inputs
            if reaches or part.system == system:
                rank = (part.system != system, not reaches, order_of(key, name, failure.name))
                found.append((rank, FailureRef(part.name, failure.name), failure.says))
    return [(one, says) for _, one, says in sorted(found, key=lambda entry: entry[0])]
