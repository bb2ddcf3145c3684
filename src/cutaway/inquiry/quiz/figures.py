"""At what figure something stands on one mark, where the books print another figure elsewhere."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from cutaway.handbook.records import Given, Part, given_on
from cutaway.inquiry.quiz.candidates import Candidate
from cutaway.inquiry.quiz.proving import Setter, arranged, on_words, option
from cutaway.inquiry.quiz.records import FigureOf, Option, QuizQuestion, Trap, WhichFigure
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Want
from cutaway.quantities.prose import figures_in, same_figure
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.si import figure

DIGITS = 7
"""As many as any book prints."""
FARTHEST = 12.0
"""A figure more than so many times another is no likely slip for it. A choice of ours."""


def figure_candidates(setter: Setter, among: tuple[Subject, ...]) -> Iterator[Candidate]:
    """A question for each figure that a book prints of a part."""
    for subject in among:
        bound, _ = setter.workshop.bound(subject)
        for name, part in bound.parts.items():
            for want in bound.kinds[part.kind].wants:
                given = given_on(part, want.name, subject.standard)
                if given is None or given.assumed or not given.cites or given.quantity.is_range:
                    continue
                key = f"figure; {subject.name}; {name}; {want.name}"
                make = partial(_question, setter, subject, bound, part, want, given, key)
                yield Candidate(key, "figure", subject, part.system, make)


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
    return option(setter, subject, text, FigureOf(words), trap)


def _others(
    setter: Setter, bound: Bound, subject: Subject, part: Part, want: Want, given: Given
) -> Iterator[tuple[Quantity, Trap]]:
    """Figures that a listener may have in his head instead: of another mark, from the same paragraphs or those that
    they amend, of another part."""
    for value in part.values:
        for other in value.givens if value.name == want.name else ():
            if subject.standard not in other.on.names and not other.assumed:
                yield other.quantity, Trap("other mark", other.on.words)
    near = list(_near(bound, subject, part, want, given))
    for source in setter.folder.sources:
        own = {cite.number.rstrip("abcdefgh") for cite in (*given.cites, *part.cites) if cite.source == source.key}
        cited = {cite.number for cite in given.cites if cite.source == source.key}
        for one in source.paragraphs:
            if one.number.rstrip("abcdefgh") in own:
                there = Trap("same paragraph" if one.number in cited else "figure of", f"{source.key} {one.number}")
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


def _near(bound: Bound, subject: Subject, part: Part, want: Want, given: Given) -> Iterator[_Near]:
    """The other figures of the dimension, those of the part itself first."""
    for name, there in sorted(bound.parts.items(), key=lambda one: one[0] != part.name):
        for also in bound.kinds[there.kind].wants:
            its = given_on(there, also.name, subject.standard)
            same = name == part.name and also.name == want.name
            if its is not None and also.dimension == want.dimension and not its.assumed and not same:
                apart = _apart(its.quantity.value, given.quantity.value)
                yield _Near(str(name), its.quantity, apart, Trap("figure of", f"the {name} ({also.name})"))


def _apart(one: float, other: float) -> float:
    """How many times as large one of two figures is."""
    small, large = sorted((abs(one), abs(other)))
    return large / small if small else math.inf
