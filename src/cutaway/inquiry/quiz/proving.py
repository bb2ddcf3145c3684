"""Claims made for the options of a quiz, put to the model: an option whose claim gets no firm answer is no option."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from hashlib import blake2b

from cutaway.handbook.doubts import not_borne_out
from cutaway.handbook.records import Cite, Folder, given_on
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.likeliest import Sensed
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.links import Reads
from cutaway.inquiry.questions.why import Cause, cause
from cutaway.inquiry.quiz.records import Choice, Option, Proof, QuizQuestion, Sort, Trap, is_so
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import base_of
from cutaway.inquiry.told import Told
from cutaway.inquiry.verdicts import Fails, Holds, NotModelled, RestsOn, Stated, Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import ParsedClaims
from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed_scope
from cutaway.language.syntax import Claim, Scope
from cutaway.language.words import Words
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import has_error
from cutaway.problems.span import TextFile, whole

MOST_OPTIONS = 4
"""How many options a question has at most. A choice of ours."""


EXCLUSIVE: frozenset[Sort] = frozenset({"shows", "reads", "figure"})
"""The sorts of question of which only one option can be true."""


@dataclass(frozen=True, slots=True, eq=False)
class Setter:
    """What questions are made from. memory: verdicts of earlier sessions. rests: whether the assumed values are taken
    to the ends of their ranges, so that what rests on them is not asked. sensed: what they did to answers so far."""

    workshop: Workshop
    told: Told
    parsed: ParsedClaims
    words: Words
    memory: Memory | None
    rests: bool
    sensed: Sensed = field(default_factory=Sensed)

    @property
    def folder(self) -> Folder:
        """The folder that is asked about."""
        return self.workshop.folder


def order_of(*words: str) -> str:
    """Where something stands in an order that looks like chance and is the same for the same words."""
    return blake2b("\n".join(words).encode(), digest_size=8).hexdigest()


def on_words(folder: Folder, subject: Subject) -> str:
    """The words of `on` that mean this subject alone: 'Mk 2 without mod 12', where a mark has standards with mods."""
    this = next((s for s in folder.type.standards if s.name == subject.name), None)
    if this is None:
        return str(subject.name)
    others = {mod: None for s in folder.type.standards if s.mark == this.mark for mod in s.mods if mod not in this.mods}
    return " ".join((str(this.name), *(f"without {mod}" for mod in others)))


def claim_text(folder: Folder, subject: Subject, scope: Scope, statement: str) -> str:
    """A claim of one subject in the grammar."""
    there = printed_scope(replace(scope, on=None))
    return f"on {on_words(folder, subject)}{f', {there}' if there else ''}: {statement}"


def proof(setter: Setter, subject: Subject, text: str, holds: bool) -> Proof | None:
    """A claim put to the model with the values as stated; None where it is not understood, or the answer is neither
    yes nor no."""
    claim = claim_from(setter, text)
    if claim is None or claim.scope.on is None or claim.scope.on.names != {subject.name}:
        return None
    verdict = verdict_for(claim, subject, setter.workshop, setter.told, False, setter.memory)
    return None if is_so(verdict) is None else Proof(text, claim, subject, holds, verdict)


def firm(setter: Setter, made: QuizQuestion) -> QuizQuestion | None:
    """The question with the assumed values taken to the ends of their ranges: options that rest on one are left out.
    None where the answer does, or nothing wrong is left to choose."""
    kept: list[Option] = []
    for one in sorted(made.options, key=lambda one: not one.right):  # without its answer nothing else need be tried
        # Of several readings of one thing at one moment no other is true where the answer always is.
        tried = one if not one.right and made.sort in EXCLUSIVE else _at_the_ends(setter, one)
        if tried is None and one.right:
            return None
        kept += [tried] if tried is not None else []
    if len(kept) < 2:
        return None
    order = [option.choice for option in made.options]
    return replace(made, options=tuple(sorted(kept, key=lambda one: order.index(one.choice))))


def _at_the_ends(setter: Setter, one: Option) -> Option | None:
    """The option with the verdicts that it then has; None where one of them is another."""
    proofs = tuple(replace(p, verdict=_to_the_ends(setter, p)) for p in one.proofs)
    same = all(is_so(p.verdict) is is_so(old.verdict) for p, old in zip(proofs, one.proofs, strict=True))
    return replace(one, proofs=proofs) if same else None


def _to_the_ends(setter: Setter, one: Proof) -> Verdict:
    """The verdict with the assumed values at both ends. That it rests on one is all that is wanted of it then: so the
    likeliest are tried first, and the others only where none of these turns it over."""
    asked = (one.claim, one.subject, setter.workshop, setter.told, True, setter.memory)
    likeliest = verdict_for(*asked, sensed=setter.sensed, quick=True)
    return likeliest if isinstance(likeliest, RestsOn) else verdict_for(*asked, sensed=setter.sensed)


def claim_from(setter: Setter, text: str) -> Claim | None:
    """A claim read as an author's would be."""
    claim, problems = parse_claim(whole(TextFile("quiz", text)), setter.words)
    return None if has_error(problems) else claim


def option(
    setter: Setter, subject: Subject, text: str, choice: Choice, trap: Trap, holds: bool = True
) -> Option | None:
    """An option of one claim, with the paragraphs behind it."""
    found = proof(setter, subject, text, holds)
    return None if found is None else Option(choice, (found,), trap, cites_in((found,)))


def cites_in(proofs: Iterable[Proof]) -> tuple[Cite, ...]:
    """The paragraphs behind some verdicts, each once."""
    cited = (p.verdict.cites for p in proofs if isinstance(p.verdict, (Holds, Fails, Stated)))
    return tuple({(c.source, c.number): c for cites in cited for c in cites}.values())


def arranged(key: str, right: Option, wrong: Sequence[Option]) -> tuple[Option, ...] | None:
    """The options of a question in their order, at most `MOST_OPTIONS`; None where the answer is not the answer, or
    nothing wrong is left to choose."""
    false = [one for one in wrong if not one.right]
    if not right.right or not false:
        return None
    every = (right, *false[: MOST_OPTIONS - 1])
    return tuple(sorted(every, key=lambda one: order_of(key, *(f"{p.text} {p.holds}" for p in one.proofs))))


def cause_of(setter: Setter, one: Option) -> Cause | None:
    """The chain of cause behind an option of one claim; None where the model tells none."""
    claim, bound = one.proofs[0].claim, setter.workshop.bound(one.proofs[0].subject)[0]
    base = base_of(Question(claim.statement, replace(claim.scope, on=None), bound, setter.told, setter.workshop))
    found = None if isinstance(base, NotModelled) else cause(base)
    if not isinstance(found, Cause) or not found.so:
        return None
    links = tuple(link for link in found.links if not (isinstance(link, Reads) and _unprinted(setter, bound, link)))
    return replace(found, links=links) if links else None


def _unprinted(setter: Setter, bound: Bound, link: Reads) -> bool:
    """Whether the limit of a part may be a figure that the paragraph which is cited for it does not have."""
    part, standard = bound.parts.get(link.part), bound.subject.standard
    wants = bound.kinds[part.kind].wants if part is not None else ()
    given = [(want, given_on(part, want.name, standard)) for want in wants if part and want.dimension == link.dimension]
    return any(one is not None and not_borne_out(one, want, standard, setter.folder) for want, one in given)
