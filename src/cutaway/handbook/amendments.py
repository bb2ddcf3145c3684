"""Which amendments of a book are in force at a date, and which paragraphs they alter or put out of use."""

import re
from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.dates import Stretch, read_date
from cutaway.handbook.records import Amendment, Paragraph, Source
from cutaway.handbook.stems import EMPTY, WORD
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.which import StandardName

_REPLACES = re.compile(
    r"\b(?:replaces|supersedes|cancels|in place of|instead of)\s+(?:the\s+)?(?:§|para(?:graph)?s?\.?)\s*"
    r"(\d+\s?[a-z]?)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class InForce:
    """An amendment at a date. so: False where it came later; None where its date is not understood."""

    amendment: Amendment
    so: bool | None


@dataclass(frozen=True, slots=True)
class Superseded:
    """A paragraph that an amendment's paragraph alters on some standards, or, where the text says so, replaces."""

    old: Paragraph
    new: Paragraph
    names: frozenset[StandardName]
    how: Literal["altered", "replaced"]


def amendments_at(source: Source, at: Stretch | None) -> tuple[tuple[InForce, ...], Problems]:
    """Each amendment of a book, whether it was in force at the end of a date; with no date, all of them are."""
    found: list[InForce] = []
    problems: list[Diagnostic] = []
    for one in source.amendments:
        dated = read_date(one.date) if one.date else None
        if dated is None:
            problems.append(_undated(one, source))
        found.append(InForce(one, True if at is None else None if dated is None else dated.first <= at.last))
    return tuple(found), tuple(problems)


def paragraphs_at(source: Source, at: Stretch | None) -> tuple[Paragraph, ...]:
    """The paragraphs that stood in the book at a date; what an undated amendment put in counts as there."""
    later = {one.amendment.name for one in amendments_at(source, at)[0] if one.so is False}
    return tuple(one for one in source.paragraphs if one.amended_by not in later)


def superseded(source: Source, at: Stretch | None) -> tuple[Superseded, ...]:
    """The paragraphs that a later one alters or replaces, at a date.

    An amendment puts its paragraph beside the one it alters, with a letter (§25a beside §25); the two share a word of
    their titles. Where the new one says 'replaces §25', that one is out of use.
    """
    standing = paragraphs_at(source, at)
    order = {one.name: place for place, one in enumerate(source.amendments)}
    beside: dict[str, list[Paragraph]] = {}
    for one in standing:
        beside.setdefault(_digits(one.number), []).append(one)
    found: list[Superseded] = []
    for new in standing:
        if not new.amended_by:
            continue
        replaced = {f"§{n.replace(' ', '').lower()}" for n in _REPLACES.findall(new.text)}
        near = {_digits(new.number), *map(_digits, replaced)}
        for old in (one for digits in sorted(near) for one in beside.get(digits, ())):
            names = old.on.names & new.on.names
            if old is new or not names:
                continue
            if old.number in replaced:
                found.append(Superseded(old, new, names, "replaced"))
            elif _stands_beside(old, new, order):
                found.append(Superseded(old, new, names, "altered"))
    return tuple(found)


def _stands_beside(old: Paragraph, new: Paragraph, order: dict[str, int]) -> bool:
    same_number = _digits(old.number) == _digits(new.number)
    earlier = order.get(old.amended_by, -1) < order.get(new.amended_by, len(order))
    return same_number and earlier and bool(_words(old.title) & _words(new.title))


def _digits(number: str) -> str:
    return re.sub(r"\D", "", number)


def _words(title: str) -> set[str]:
    return {word for word in WORD.findall(title.lower()) if word not in EMPTY}


def _undated(one: Amendment, source: Source) -> Diagnostic:
    date = f"the date '{one.date}'" if one.date else "no date"
    return Diagnostic(
        "H231",
        source.span,
        f"{one.name} of {source.key} has {date}, so whether it is in force cannot be told.",
        f"Write {one.name}: {{date: September 1938, says: …}} at the top of the book.",
    )
