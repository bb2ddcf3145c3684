"""On which marks something is so: a claim of a talk about some standards, put to all of them."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from cutaway.inquiry.quiz.candidates import Candidate, SaidClaim, case_of, parts_in, said_claims, system_of
from cutaway.inquiry.quiz.proving import Setter, arranged, cites_in, claim_text, proof
from cutaway.inquiry.quiz.records import Option, Proof, QuizQuestion, Trap, WhichStandards
from cutaway.language.print_back import printed
from cutaway.language.syntax import Built, ComesOnAt
from cutaway.machine.subjects import Subject
from cutaway.quantities.which import StandardName


def marks_candidates(setter: Setter, among: tuple[Subject, ...]) -> Iterator[Candidate]:
    """A question for each claim that names some standards and not all."""
    every = {subject.name for subject in among}
    if len(every) < 2:
        return
    for said in said_claims(setter):
        on = said.claim.scope.on
        if on is None or not on.names & every or every <= on.names:
            continue
        parts = parts_in(said.claim.statement, setter)
        key = f"marks; {claim_text(setter.folder, among[0], said.claim.scope, printed(said.claim.statement))}"
        system = system_of(setter, parts)
        make = partial(_question, setter, among, said, system, key)
        figure = said.claim.statement.quantity if isinstance(said.claim.statement, Built | ComesOnAt) else None
        quantity = figure.dimension if figure is not None else ""
        yield Candidate(key, "marks", among[0], system, make, said.script, said.sentence.chapter, quantity)


def _question(
    setter: Setter, among: tuple[Subject, ...], said: SaidClaim, system: str, key: str
) -> QuizQuestion | None:
    claim, found = said.claim, []
    for subject in among:
        text = claim_text(setter.folder, subject, claim.scope, printed(claim.statement))
        one = proof(setter, subject, text, holds=True)
        if one is None:
            return None  # a standard that cannot do it at all is no wrong answer
        found.append(one)
    right = tuple(one.subject.name for one in found if one.agrees)
    every = tuple(subject.name for subject in among)
    if not right or right == every:
        return None
    others = tuple(name for name in every if name not in right)
    wrong: dict[tuple[StandardName, ...], Trap] = {every: Trap("too many"), others: Trap("others")}
    if len(right) > 1:
        wrong.setdefault(right[:1], Trap("too few"))
    if len(others) > 1:
        some = {*right, others[0]}
        wrong.setdefault(tuple(name for name in every if name in some), Trap("too many"))
    answer = _option(right, found, Trap(""))
    options = arranged(key, answer, [_option(names, found, trap) for names, trap in wrong.items()])
    if options is None:
        return None
    asked = WhichStandards(claim)
    place = (said.script, said.sentence.chapter)
    return QuizQuestion(key, "marks", among[0], system, asked, options, *place, case=case_of(claim.scope))


def _option(names: tuple[StandardName, ...], found: list[Proof], trap: Trap) -> Option:
    """That it is so on these standards and on no other."""
    proofs = tuple(replace(one, holds=one.subject.name in names) for one in found)
    return Option(names, proofs, trap, cites_in(proofs))
