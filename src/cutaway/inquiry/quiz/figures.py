"""At what figure something stands on one mark, where the books print another figure elsewhere."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from cutaway.handbook.doubts import not_borne_out
from cutaway.handbook.records import Cite, Given, Part, given_on
from cutaway.inquiry.quiz.candidates import Candidate, parts_in
from cutaway.inquiry.quiz.proving import Setter, arranged, on_words, option
from cutaway.inquiry.quiz.records import FigureOf, Option, QuizQuestion, Trap, WhichFigure
from cutaway.language.syntax import Built
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Want
from cutaway.quantities.prose import figures_in, same_figure
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.si import figure
from cutaway.quantities.which import StandardName

DIGITS = 7
"""As many as any book prints."""
FARTHEST = 12.0
"""A figure more than so many times another is no likely slip for it. A choice of ours."""


def figure_candidates(setter: Setter, among: tuple[Subject, ...], every: bool) -> Iterator[Candidate]:
    """A question for each figure that a book prints of a part. every: also of those that no talk speaks of."""
    told = () if every else tuple(_told(setter))
    for subject in among:
        bound, _ = setter.workshop.bound(subject)
        for name, part in bound.parts.items():
            for want in bound.kinds[part.kind].wants:
                given = given_on(part, want.name, subject.standard)
                if given is None or given.quantity.is_range or not _printed(setter, given, want, subject.standard):
                    continue
                if not every and not any(one.tells(given, str(name)) for one in told):
                    continue
                key = f"figure; {subject.name}; {name}; {want.name}"
                make = partial(_question, setter, subject, bound, part, want, given, key)
                yield Candidate(key, "figure", subject, part.system, make, quantity=want.dimension)


@dataclass(frozen=True, slots=True)
class _Told:
    """The figures of a sentence of a talk, the parts that its claims speak of, and what it cites."""

    values: tuple[float, ...]
    parts: frozenset[str]
    cites: frozenset[str]

    def tells(self, given: Given, part: str) -> bool:
        """Whether the sentence has a figure of a part. A speaker says 'two pounds' of a pressure: the number counts."""
        near = part in self.parts or any(cite.key in self.cites for cite in given.cites)
        return near and any(math.isclose(one, given.quantity.value) for one in self.values)


def _told(setter: Setter) -> Iterator[_Told]:
    """The sentences of the talks that have a figure, in their words or in a claim under them."""
    for one in setter.parsed.sentences:
        statements = [claim.statement for claim in one.claims]
        claimed = [said.quantity for said in statements if isinstance(said, Built) and said.quantity is not None]
        values = tuple(figure.value for figure in (*figures_in(one.sentence.text), *claimed))
        if values:
            parts = frozenset(part for said in statements for part in parts_in(said, setter))
            yield _Told(values, parts, frozenset(cite.key for cite in one.sentence.cites))


def _printed(setter: Setter, given: Given, want: Want, standard: StandardName) -> bool:
    """Whether a figure stands in a paragraph that is cited for it."""
    return not given.assumed and bool(given.cites) and not not_borne_out(given, want, standard, setter.folder)


def _question(
    setter: Setter, subject: Subject, bound: Bound, part: Part, want: Want, given: Given, key: str
) -> QuizQuestion | None:
    right = _option(setter, subject, part, want, given.quantity, Trap(""))
    if right is None:
        return None
    kept: list[Quantity] = [given.quantity]
    wrong: list[Option] = []
    for quantity, trap in _others(setter, bound, subject, part, want, given):
        if any(same_figure(quantity, one) for one in kept) or quantity.unit != given.quantity.unit:
            continue
        kept.append(quantity)
        found = _option(setter, subject, part, want, quantity, trap)
        wrong += [found] if found is not None else []
    if len(wrong) < 2 and not any(one.trap.sort == "other mark" for one in wrong):
        return None
    options = arranged(key, right, wrong)
    if options is None:
        return None
    return QuizQuestion(key, "figure", subject, part.system, WhichFigure(str(part.name), want.name), options)


def _option(setter: Setter, subject: Subject, part: Part, want: Want, quantity: Quantity, trap: Trap) -> Option | None:
    words = f"{figure(quantity.value, DIGITS)} {quantity.unit.name}".strip()
    text = f"on {on_words(setter.folder, subject)}: {part.name} has {want.name} of {words}"
    found = option(setter, subject, text, FigureOf(words), trap)
    return replace(found, cites=trap.cites) if found is not None and trap.cites else found


def _others(
    setter: Setter, bound: Bound, subject: Subject, part: Part, want: Want, given: Given
) -> Iterator[tuple[Quantity, Trap]]:
    """Figures that a listener may have in his head instead: of another mark, from the same paragraphs or those that
    they amend, of another part."""
    for value in part.values:
        for other in value.givens if value.name == want.name else ():
            elsewhere = subject.standard not in other.on.names
            if elsewhere and all(_printed(setter, other, want, name) for name in other.on.names):
                yield other.quantity, Trap("other mark", other.on.words, other.cites)
    near = list(_near(setter, bound, subject, part, want, given))
    for source in setter.folder.sources:
        own = {cite.number.rstrip("abcdefgh") for cite in (*given.cites, *part.cites) if cite.source == source.key}
        cited = {cite.number for cite in given.cites if cite.source == source.key}
        for one in source.paragraphs:
            if one.number.rstrip("abcdefgh") in own:
                label = f"{source.key} {one.number}"
                of = Trap("figure of", label, (Cite(source.key, one.number, one.span),))
                there = Trap("same paragraph", label) if one.number in cited else of
                for quantity in figures_in(one.text):
                    yield quantity, _own(quantity, near, str(part.name)) or there
    for found in sorted((one for one in near if one.apart <= FARTHEST), key=lambda one: one.apart):
        yield found.quantity, found.trap


@dataclass(frozen=True, slots=True)
class _Near:
    """A figure of the records in the same dimension. apart: how many times as large it is as the answer."""

    part: str
    quantity: Quantity
    apart: float
    trap: Trap


def _own(quantity: Quantity, near: list[_Near], part: str) -> Trap | None:
    """Which other value of the part itself a figure is; None where it is none: another part may have it by chance."""
    return next((one.trap for one in near if one.part == part and same_figure(quantity, one.quantity)), None)


def _near(setter: Setter, bound: Bound, subject: Subject, part: Part, want: Want, given: Given) -> Iterator[_Near]:
    """The other figures of the dimension, those of the part itself first."""
    for name, there in sorted(bound.parts.items(), key=lambda one: one[0] != part.name):
        for also in bound.kinds[there.kind].wants:
            its = given_on(there, also.name, subject.standard)
            same = name == part.name and also.name == want.name
            if (
                its is None
                or also.dimension != want.dimension
                or same
                or not _printed(setter, its, also, subject.standard)
            ):
                continue
            apart = _apart(its.quantity.value, given.quantity.value)
            trap = Trap("figure of", f"the {name} ({also.name})", its.cites)
            yield _Near(str(name), its.quantity, apart, trap)


def _apart(one: float, other: float) -> float:
    """How many times as large one of two figures is."""
    small, large = sorted((abs(one), abs(other)))
    return large / small if small else math.inf
