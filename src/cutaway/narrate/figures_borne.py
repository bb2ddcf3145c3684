"""Whether the figures and counts of a sentence are those of a clause, and of the same thing there."""

import re
from collections.abc import Iterator
from itertools import pairwise

from cutaway.handbook.stems import WORD
from cutaway.narrate.agreeing import agrees, comparable, is_round
from cutaway.narrate.citing import figure_words
from cutaway.narrate.lacks import Lack
from cutaway.narrate.paragraph_parts import Parts, Read
from cutaway.narrate.taken_apart import Apart, Figure

TOGETHER = re.compile(r"\b(?:altogether|in all|together|in total|between them|a total of|all told)\b", re.IGNORECASE)
_HAS = re.compile(r"\b(?:has|have|had)\b", re.IGNORECASE)
_SEGMENTS = re.compile(r",(?!\d)|;|\band\b|\bor\b|\bbut\b", re.IGNORECASE)


class FiguresBorne:
    """Compares figures and counts with those of clauses. It lives as long as its parts."""

    def __init__(self, parts: Parts) -> None:
        self._parts = parts

    def figure(self, one: Figure, said: Apart, read: Read, label: str) -> Lack | None:
        """What keeps a figure of a sentence from being that of a clause."""
        roughly = is_round(said.text, one.quantity)
        words = figure_words(one.quantity)
        own = read.part.apart.figures
        near = tuple(figure for apart in read.near for figure in apart.figures)
        if one.counts:
            return self._count(one, said, read, label)
        alike = [f for f in (*own, *near) if agrees(one.quantity, f.quantity, roughly)]
        if any(f.side == one.side for f in alike):
            return None
        if alike:
            if {one.side, alike[0].side} == {"most", "least"}:
                why = (
                    f"The sentence makes '{words}' {_limit(one.side)} where {label} makes it {_limit(alike[0].side)}: "
                )
                return Lack("figure", words, f"{why}'{read.part.clause.text}'", _limit(alike[0].side))
            why = f"{label} has '{words}' as {_limit(alike[0].side)}, and the sentence as {_limit(one.side)}."
            return Lack("figure", words, why)
        if is_total(one, said, read):
            return None
        return Lack(
            "figure", words, f"The clause of {label} that is nearest has no '{words}': '{read.part.clause.text}'"
        )

    def _count(self, one: Figure, said: Apart, read: Read, label: str) -> Lack | None:
        words = _counted_words(one, said)
        figures = [*read.part.apart.figures, *(f for apart in read.near for f in apart.figures)]
        value = one.quantity.value
        if not one.of and any(f.quantity.value == value and f.side == one.side for f in figures):
            return None
        same = [f for f in figures if f.counts and f.ordinal == one.ordinal and self._of_one(one.of, f.of)]
        if any(f.quantity.value == value for f in same):
            return None
        if value == 1.0 and not one.ordinal and self._one_of(one, read):
            return None
        if same:
            there = _counted_words(same[0], read.part.apart)
            why = f"The sentence says '{words}', and {label} has '{there}': '{read.part.clause.text}'"
            return Lack("figure", words, why, there)
        return Lack("figure", words, f"{label} does not say '{words}' there: '{read.part.clause.text}'")

    def _of_one(self, one: tuple[str, ...], other: tuple[str, ...]) -> bool:
        """Whether two counts are of one thing."""
        return bool(one and other) and any(self._parts.among(stem, frozenset(other)) for stem in one)

    def _one_of(self, one: Figure, read: Read) -> bool:
        """'A float gauge' is one float gauge."""
        for apart in (read.part.apart, *read.near):
            for found in re.finditer(r"\b(?:a|an)\s+((?:[\w-]+\s*){1,4})", apart.text, re.IGNORECASE):
                stems = frozenset(map(self._parts.index.stems.one, WORD.findall(found[1].lower())))
                if any(self._parts.among(stem, stems) for stem in one.of):
                    return True
        return False

    def crossed(self, said: Apart, read: Read, label: str) -> Iterator[Lack]:
        """A figure with the words of another one of the same clause: 'the first at 2 lb. and the second at 3 lb.'."""
        everything = (read.part.apart, *read.near)
        for one in said.figures:
            apart = next((a for a in everything if any(alike(one, f) for f in a.figures)), None)
            if apart is None:
                continue
            rivals = [f for a in everything for f in a.figures if _rival(one, f)]
            if not rivals or any(_names(s, f) for s in said.figures for f in rivals if s is not one):
                continue
            own = _owner_of_all(apart) | self._segment(apart, next(f for f in apart.figures if alike(one, f)).at)
            others = frozenset(
                stem for a in everything for f in a.figures if f in rivals for stem in self._segment(a, f.at)
            )
            for word in said.words:
                if not self._parts.among(word.stem, own | read.part.lent) and self._parts.among(word.stem, others):
                    words = figure_words(one.quantity)
                    yield Lack("figure", words, f"{label} has '{word.text}' with another figure than '{words}'.")
                    break
        yield from _swapped(said, read.around, label)

    def _segment(self, apart: Apart, at: int) -> frozenset[str]:
        """The stems of the words between the joints of a clause around a place."""
        joints = [0, *(one.start() for one in _SEGMENTS.finditer(apart.text)), len(apart.text) + 1]
        low = max(one for one in joints if one <= at)
        high = min(one for one in joints if one > at)
        return frozenset(word.stem for word in apart.words if low <= word.at < high)


def alike(one: Figure, other: Figure) -> bool:
    """Whether two figures are the same."""
    return one.counts == other.counts and agrees(one.quantity, other.quantity)


def _names(one: Figure, other: Figure) -> bool:
    """Whether a figure is another; one that shares the unit of the next, 'of fifty-four and thirty gallons', by its
    number."""
    return alike(one, other) or (one.counts and not one.ordinal and one.quantity.value == other.quantity.value)


def _owner_of_all(apart: Apart) -> frozenset[str]:
    """What has the things that a clause lists, which goes with each of them: 'each engine has an inner tank of 54
    gallons and an outer tank of 30'."""
    has = _HAS.search(apart.text)
    return frozenset(word.stem for word in apart.words if has is not None and word.at < has.start())


def _rival(one: Figure, other: Figure) -> bool:
    """Another figure of the same sort, so that the two can be confounded."""
    return (
        one.counts == other.counts
        and not one.counts
        and comparable(one.quantity, other.quantity)
        and not alike(one, other)
    )


def _swapped(said: Apart, book: tuple[Apart, ...], label: str) -> Iterator[Lack]:
    """Two figures of one sort in the other order than in the book."""
    printed = [f for apart in book for f in apart.figures if not f.counts]
    places = [
        (one, next((at for at, f in enumerate(printed) if alike(one, f)), None))
        for one in said.figures if not one.counts
    ]  # fmt: skip
    for (one, here), (other, there) in pairwise(places):
        if here is not None and there is not None and comparable(one.quantity, other.quantity) and there < here:
            words = f"{figure_words(one.quantity)} … {figure_words(other.quantity)}"
            yield Lack(
                "figure", figure_words(one.quantity), f"{label} has these figures in another order than '{words}'."
            )


def is_total(one: Figure, said: Apart, read: Read) -> bool:
    """Whether a figure said of all together is that of each, times how many there are."""
    if not TOGETHER.search(said.text):
        return False
    for apart in read.around:
        if not apart.every:
            continue
        counts = [f.quantity.value for a in read.around for f in a.figures if f.counts and not f.ordinal]
        for f in apart.figures:
            alike = not f.counts and f.quantity.unit == one.quantity.unit
            if alike and any(abs(f.quantity.value * count - one.quantity.value) < 1e-6 for count in counts):
                return True
    return False


def _limit(side: str) -> str:
    return {"most": "the most", "least": "the least"}.get(side, "no limit")


def _counted_words(one: Figure, apart: Apart) -> str:
    """'three tanks', 'Severn II': a count with the word that it belongs to."""
    if re.fullmatch(r"[IVX]+", one.quantity.text):
        before = re.search(r"(\w+)\s+$", apart.text[: one.at])
        return f"{before[1]} {one.quantity.text}" if before else one.quantity.text
    end = one.at + len(one.quantity.text)
    behind = re.match(r"[\s-]*\w+", apart.text[end:])
    return f"{one.quantity.text}{behind[0]}" if behind else one.quantity.text
