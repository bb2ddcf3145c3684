"""Whether one clause of a paragraph, with those beside it, says all that a sentence says; and if not, what it lacks."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from cutaway.handbook.records import Paragraph
from cutaway.handbook.stems import WORD
from cutaway.narrate.agreeing import agrees, comparable, is_round
from cutaway.narrate.citing import figure_words
from cutaway.narrate.clauses import Clause, clauses_in
from cutaway.narrate.differing import Books
from cutaway.narrate.likely import Heard
from cutaway.narrate.opposites import Opposites
from cutaway.narrate.superseding import superseded_words
from cutaway.narrate.taken_apart import Apart, Figure, Word, take_apart
from cutaway.quantities.which import StandardName

Sort = Literal["word", "figure", "place", "denial", "duty", "every", "only", "condition", "order", "mark", "altered"]
Names = frozenset[StandardName]

_LEADING_UP = re.compile(
    r"\b(?:on|for|in|of|with|to|from|both)\s+(?:all |both |every |each )?(?:the\s+)?(?:\w+\s+of\s+)?$", re.IGNORECASE
)
_BUT = re.compile(
    r"\s+but\s+(?=(?:must|may|is|are|has|have|not|never|can|should|the)\b)|"
    r"\s+and\s+(?=(?:the|its|it|they|each)\b[^,;]*\b(?:is|are|must|may|has|have|was|were|will|should|can)\b)",
    re.IGNORECASE,
)
_POINTS_BACK = re.compile(
    r"^(?:\W|and\s|but\s|then\s)*(?:it|its|they|their|each|both|this|these|either|neither|the latter)\b", re.I
)
_IT = re.compile(r"\b(?:it|they)\s+(?:must|may|is|are|has|have|can|should|will|was|were|shall)\b", re.IGNORECASE)
_GAPPED = re.compile(r"^(?:and|but)\b(?!.*\b(?:is|are|was|were|has|have|must|may)\b)", re.IGNORECASE)
_SUBJECT = re.compile(
    r"\b(?:is|are|was|were|has|have|had|must|may|can|cannot|should|will|holds?|gives?|stands?|takes?|carr(?:y|ies)|"
    r"delivers?|lies?|works?|drives?|feeds?|shows?|draws?|keeps?|supplies)\b",
    re.IGNORECASE,
)
_TOGETHER = re.compile(r"\b(?:altogether|in all|together|in total|between them|a total of|all told)\b", re.IGNORECASE)
_INSTEAD = re.compile(r"\b(?:in place of|instead of|takes? the place of|replac(?:ed|ing))\b", re.IGNORECASE)
_SEGMENTS = re.compile(r",(?!\d)|;|\band\b|\bor\b|\bbut\b", re.IGNORECASE)
# So much of a sentence's words must be in a clause for a contrary word in it to be told as a difference. A choice of
# ours.
_ENOUGH_TO_TURN = 0.6
# What a word counts that stands in the clause beside, or that the title lends. A choice of ours.
_NEAR, _LENT = 0.9, 0.95
# How far a paragraph that is less likely stands back behind one that is likelier. A choice of ours.
_LATER = 0.5
# A clause for other marks is the one that a sentence is of where it has so much more of it. A choice of ours.
_NEARER = 0.25


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that keeps a sentence from being stated. said: its words; why: for a person. printed: what the clause
    has to the contrary, '' where it only lacks it."""

    sort: Sort
    said: str
    why: str
    printed: str = ""


@dataclass(frozen=True, slots=True)
class Borne:
    """How a paragraph bears a sentence out. clauses: its own words that do, or do best. lacks: nothing where it is
    stated. share: how many of the telling words are there, 0 to 1."""

    paragraph: Paragraph
    clauses: tuple[str, ...]
    lacks: tuple[Lack, ...]
    share: float

    @property
    def only_words(self) -> bool:
        """Whether all that it lacks is words of the sentence that the paragraph does not have."""
        return all(one.sort == "word" and one.said and not one.printed for one in self.lacks)

    @property
    def turned(self) -> tuple[Lack, ...]:
        """What the clause has to the contrary, where it is nearly the sentence."""
        against = tuple(one for one in self.lacks if one.printed)
        others = len(self.lacks) - len(against)
        return against if self.share >= _ENOUGH_TO_TURN and others <= 1 else ()


@dataclass(frozen=True, slots=True)
class _Part:
    """A clause of a paragraph taken apart, with the stems that its title, its row and its antecedents lend it. near:
    the places of the clauses beside it that it may be read with; place: its own."""

    clause: Clause
    apart: Apart
    lent: frozenset[str]
    near: tuple[int, ...]
    place: int


@dataclass(frozen=True, slots=True)
class _Read:
    """A clause read with those beside it. around: all of them in order."""

    part: _Part
    near: tuple[Apart, ...]
    around: tuple[Apart, ...]


@dataclass(frozen=True, slots=True)
class _Held:
    """A clause with what it lacks of a sentence's clause, and the share that it has."""

    part: _Part
    lacks: list[Lack]
    share: float


class Bearing:
    """Holds whole sentences against single clauses. It lives as long as its books."""

    def __init__(self, books: Books) -> None:
        self._books = books
        self._index = books.ranking.index
        self._opposites = Opposites(self._index.stems)
        about = books.ranking.folder.type
        self._own = frozenset(WORD.findall(f"{about.name} {about.maker}".lower()))
        self._parts: dict[tuple[str, str], tuple[_Part, ...]] = {}

    def best(self, heard: Heard, paragraphs: tuple[Paragraph, ...], as_said: bool) -> Borne | None:
        """The paragraph that bears a sentence out, or comes nearest to it; of two alike the first."""
        found = [self._of(heard, paragraph, as_said) for paragraph in paragraphs]
        weighed = {at: _weight(one.lacks) - 4 * one.share + _LATER * at for at, one in enumerate(found)}
        best = min(weighed, key=lambda at: (bool(found[at].lacks), weighed[at]), default=None)
        return None if best is None else found[best]

    def _of(self, heard: Heard, paragraph: Paragraph, as_said: bool) -> Borne:
        lacks: list[Lack] = []
        texts: list[str] = []
        shares: list[float] = []
        parts = self._parts_of(paragraph)
        for said, names in self._said(heard) if parts else ():
            for name in sorted(names):
                here = [part for part in parts if self._stands_for(part, paragraph, name)]
                best = self._nearest(said, here, paragraph, as_said, name)
                anywhere = best if best and not best.lacks else self._nearest(said, parts, paragraph, as_said, None)
                assert anywhere is not None
                if best is None or (best.lacks and not anywhere.lacks) or best.share < anywhere.share - _NEARER:
                    lacks.append(self._other_mark(anywhere.part, paragraph, name, heard))
                    best = anywhere
                lacks += best.lacks
                shares.append(best.share)
                texts.append(best.part.clause.text)
        if not shares:
            lacks.append(Lack("word", "", f"{self._books.label(paragraph)} says nothing of it."))
        once = tuple({(one.sort, one.said): one for one in lacks}.values())
        return Borne(paragraph, tuple(dict.fromkeys(texts)), once, min(shares, default=0.0))

    def _nearest(
        self, said: Apart, parts: Sequence[_Part], paragraph: Paragraph, as_said: bool, name: StandardName | None
    ) -> _Held | None:
        """The clause of some that has most of a sentence's clause, read with those beside it for the same standard."""
        held: list[_Held] = []
        for part in parts:
            if name is not None:
                kept = [p for p in part.near if self._stands_for(self._parts_of(paragraph)[p], paragraph, name)]
                part = replace(part, near=tuple(kept))
            held.append(_Held(part, *self._lacks(said, part, paragraph, as_said)))
        return min(held, key=lambda one: _weight(tuple(one.lacks)) - 4 * one.share, default=None)

    def _other_mark(self, part: _Part, paragraph: Paragraph, name: StandardName, heard: Heard) -> Lack:
        label, listed = self._books.label(paragraph), self._books.ranking.listed
        over = next(iter(self._books.later.of(paragraph, frozenset([name]))), None)
        if name in part.clause.names and over is not None:
            return Lack("altered", str(name), f"{superseded_words(over, self._books.several)}, which does not say it.")
        if name in part.clause.names:
            return Lack("mark", str(name), f"{label} does not say all of it for {listed(frozenset([name]))}.")
        if heard.names is None:
            return Lack("mark", "no mark", f"{label} says it for {listed(part.clause.names)} only.")
        said = listed(frozenset([name]))
        return Lack("mark", said, f"{label} says it for {listed(part.clause.names)}, and not for {said}.")

    def _stands_for(self, part: _Part, paragraph: Paragraph, name: StandardName) -> bool:
        """Whether a clause is for a standard, and no later paragraph puts it out of use there."""
        if name not in part.clause.names:
            return False
        return not self._books.later.alters(paragraph, part.clause.text, frozenset([name]))

    def _said(self, heard: Heard) -> Iterator[tuple[Apart, Names]]:
        """The clauses of a sentence, each with the standards that it must hold for."""
        ranking = self._books.ranking
        base = heard.names or heard.lasting or self._books.everyone
        before: Apart | None = None
        for piece in _BUT.split(heard.sentence.text):
            for clause in clauses_in(piece, base, ranking.marks):
                apart = self._apart(clause.text)
                if not apart.words and not apart.figures:
                    if before is not None:
                        yield before, clause.names
                    continue
                before = apart
                yield apart, clause.names

    def _apart(self, text: str) -> Apart:
        return take_apart(self._unmarked(text), self._index.stems, self._own)

    def _unmarked(self, text: str) -> str:
        for start, end in reversed(self._books.ranking.marks.places_in(text)):
            lead = _LEADING_UP.search(text[:start])
            text = text[: lead.start() if lead else start] + " , " + text[end:]
        return _INSTEAD.sub(" replaces ", text.replace(" ,  , ", " , "))

    def _parts_of(self, paragraph: Paragraph) -> tuple[_Part, ...]:
        key = (str(paragraph.source), paragraph.number)
        if key not in self._parts:
            self._parts[key] = tuple(self._taken(paragraph))
        return self._parts[key]

    def _taken(self, paragraph: Paragraph) -> Iterator[_Part]:
        clauses = self._books.ranking.clauses(paragraph)
        aparts = [self._apart(one.text) for one in clauses]
        title = self._apart(paragraph.title).stems
        subject: frozenset[str] = frozenset()
        for at, clause in enumerate(clauses):
            first = at == 0 or clauses[at - 1].sentence != clause.sentence
            points = _POINTS_BACK.search(clause.text) is not None or _IT.search(clause.text) is not None
            if first and not points:
                verb = _SUBJECT.search(clause.text)
                subject = self._apart(clause.text[: verb.start()]).stems if verb else frozenset()
            lent = title | self._apart(clause.carried).stems | (subject if points or not first else frozenset())
            lent |= self._meant(clause.text, aparts[:at], paragraph)
            beside = [by for by in (at - 1, at + 1) if 0 <= by < len(clauses)
                      and clauses[by].sentence == clause.sentence and "|" not in paragraph.text]  # fmt: skip
            if first and points and at and clauses[at - 1].names >= clause.names:
                beside.append(at - 1)
            before = clauses[at - 1] if at and not first else None
            if before is not None and not before.names >= clause.names and aparts[at].figures:
                # 'at 2 lb. on Mk 1 and at 3 lb. on Mk 2': what is said of the one is said of the other.
                lent |= aparts[at - 1].stems if _GAPPED.match(clause.text) else frozenset()
            yield _Part(clause, aparts[at], frozenset(lent), tuple(beside), at)

    def _meant(self, text: str, before: list[Apart], paragraph: Paragraph) -> frozenset[str]:
        """What 'the brakes' are called in full just before: 'wheel'. Nothing where two things have that name."""
        found: set[str] = set()
        for word in re.findall(r"\b[Tt]he (\w+)", text):
            stem = self._index.stems.one(word)
            names = {
                one.words[place - 1].stem
                for one in before
                for place, other in enumerate(one.words)
                if place and other.stem == stem and _adjoin(one, place)
            }
            found |= names if len(names) == 1 else set()
        return frozenset(found)

    def _lacks(self, said: Apart, part: _Part, paragraph: Paragraph, as_said: bool) -> tuple[list[Lack], float]:
        """What a clause lacks of a sentence's clause, and the share of its telling words that it has."""
        label = self._books.label(paragraph)
        book = part.apart
        parts = self._parts_of(paragraph)
        near = tuple(parts[place].apart for place in part.near)
        around = tuple(parts[place].apart for place in sorted({*part.near, part.place}))
        read = _Read(part, near, around)
        lacks: list[Lack] = []
        used_near = False
        there = 0.0
        total = any(not one.counts and _is_total(one, said, read) for one in said.figures)
        for word in said.words:
            if total and _TOGETHER.fullmatch(word.text):
                there += _NEAR
                continue
            where = next((one for one in (book, *near) if self._among(word.stem, one.stems)), None)
            if where is not None and where is not book and self._among(word.stem, part.lent):
                where = None
                there += _LENT
            elif where is not None:
                there += 1 if where is book else _NEAR
                used_near = used_near or where is not book
                if self._misplaced(word, said, where):
                    why = f"{label} has '{word.text}' beside another word: '{where.text.strip()}'"
                    lacks.append(Lack("place", word.text, why))
            elif self._among(word.stem, part.lent):
                there += _LENT
            else:
                lacks.append(self._word(word, said, part, paragraph))
        counted = sum(1 for one in said.figures)
        for figure in said.figures:
            lack = self._figure(figure, said, read, label)
            if lack is None:
                there += 1 if any(_alike(figure, one) for one in book.figures) else _NEAR
            else:
                lacks.append(lack)
        if not any(self._among(w.stem, book.stems) for w in said.words) and not any(
            _alike(one, other) for one in said.figures for other in book.figures
        ):
            lacks.append(Lack("word", "", f"No one clause of {label} says it all: '{book.text.strip()}'"))
        lacks += self._crossed(said, read, label)
        lacks += self._small(said, read, used_near, label, as_said)
        whole = len(said.words) + counted - sum(1 for one in lacks if one.printed and one.sort in ("word", "figure"))
        return lacks, min(there / whole, 1.0) if whole > 0 else 0.0

    def _word(self, word: Word, said: Apart, part: _Part, paragraph: Paragraph) -> Lack:
        label = self._books.label(paragraph)
        contrary = next(
            (
                one
                for one in part.apart.words
                if self._opposites.are(word.stem, one.stem) and not self._among(one.stem, said.stems)
            ),
            None,
        )
        if contrary is not None:
            why = f"The sentence has '{word.text}' where {label} has '{contrary.text}': '{part.clause.text}'"
            return Lack("word", word.text, why, contrary.text)
        everything = [one.apart.stems | one.lent for one in self._parts_of(paragraph)]
        if any(self._among(word.stem, stems) for stems in everything):
            return Lack("word", word.text, f"{label} has '{word.text}', but not in the clause that says the rest.")
        return Lack("word", word.text, f"Nothing in {label} speaks of '{word.text}'.")

    def _misplaced(self, word: Word, said: Apart, book: Apart) -> bool:
        """Whether a 'front' or 'left' stands beside other words here than there: 'front of the back seat'."""
        if not self._opposites.places(word.stem) or not self._among(word.stem, book.stems):
            return False
        own = next((one for one in (word.stem, *self._index.ring_of_stem(word.stem)) if one in book.stems), word.stem)
        here, there = said.behind(word.stem), book.behind(own)
        if not here or not there or any(self._among(one, there) for one in here):
            return False
        here, there = (frozenset(one for one in stems if not self._opposites.places(one))
                       for stems in (said.beside(word.stem), book.beside(own)))  # fmt: skip
        return not any(self._among(one, there) for one in here)

    def _figure(self, one: Figure, said: Apart, read: _Read, label: str) -> Lack | None:
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
        if _is_total(one, said, read):
            return None
        return Lack(
            "figure", words, f"The clause of {label} that is nearest has no '{words}': '{read.part.clause.text}'"
        )

    def _count(self, one: Figure, said: Apart, read: _Read, label: str) -> Lack | None:
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
        return bool(one and other) and any(self._among(stem, frozenset(other)) for stem in one)

    def _one_of(self, one: Figure, read: _Read) -> bool:
        """'A float gauge' is one float gauge."""
        for apart in (read.part.apart, *read.near):
            for found in re.finditer(r"\b(?:a|an)\s+((?:[\w-]+\s*){1,4})", apart.text, re.IGNORECASE):
                stems = frozenset(map(self._index.stems.one, WORD.findall(found[1].lower())))
                if any(self._among(stem, stems) for stem in one.of):
                    return True
        return False

    def _crossed(self, said: Apart, read: _Read, label: str) -> Iterator[Lack]:
        """A figure with the words of another one of the same clause: 'the first at 2 lb. and the second at 3 lb.'."""
        everything = (read.part.apart, *read.near)
        for one in said.figures:
            apart = next((a for a in everything if any(_alike(one, f) for f in a.figures)), None)
            if apart is None:
                continue
            rivals = [f for a in everything for f in a.figures if _rival(one, f)]
            if not rivals or any(_alike(s, f) for s in said.figures for f in rivals if s is not one):
                continue
            own = self._segment(apart, next(f for f in apart.figures if _alike(one, f)).at)
            others = frozenset(
                stem for a in everything for f in a.figures if f in rivals for stem in self._segment(a, f.at)
            )
            for word in said.words:
                if not self._among(word.stem, own | read.part.lent) and self._among(word.stem, others):
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

    def _small(self, said: Apart, read: _Read, used_near: bool, label: str, as_said: bool) -> Iterator[Lack]:
        """The small words: denial, duty, all, only, if, before."""
        book, text = read.part.apart, read.part.clause.text
        wrong_near = used_near and any(one.denied != said.denied for one in read.near)
        ordered = said.order is not None and book.order is not None
        if not as_said and not ordered and (said.denied != book.denied or wrong_near):
            has, not_ = (label, "the sentence") if book.denied else ("The sentence", label)
            why = f"{has} has a 'not' where {not_} has none: '{text}'"
            yield Lack("denial", "not", why, "" if wrong_near or said.order or book.order else "not")
        gone = {stem for stem in book.behind("without") if self._among(stem, said.stems)} - said.behind("without")
        if gone and "without" not in said.stems:
            yield Lack("word", "with", f"{label} has 'without' there: '{text}'", "without")
        yield from _duty(said, book, label, text)
        if said.every and not any(one.every for one in (book, *read.near)):
            yield Lack("every", "every", f"{label} does not say it of every one or at all times: '{text}'")
        if said.only and not book.only:
            yield Lack("only", "only", f"{label} has no 'only' there: '{text}'")
        if book.condition and not said.condition and (said.duty or said.denied or book.denied):
            behind = book.text.lower().find(book.condition)
            stems = {w.stem for w in book.words if w.at > behind}
            if not any(self._among(stem, said.stems) for stem in stems):
                yield Lack("condition", book.condition, f"{label} says it only '{book.text[behind:].strip(' .,')}'.")
        yield from self._ordered(said, read.part, label)

    def _ordered(self, said: Apart, part: _Part, label: str) -> Iterator[Lack]:
        book, text = part.apart, part.clause.text
        if said.order is None:
            if book.order is not None and said.duty == "must":
                yield Lack("order", book.order.word, f"{label} says it only '{book.order.word}' something: '{text}'")
            return
        if book.order is None:
            yield Lack("order", said.order.word, f"{label} has no '{said.order.word}' there: '{text}'")
            return
        first = any(self._among(one, book.order.later) for one in said.order.earlier)
        then = any(self._among(one, book.order.earlier) for one in said.order.later)
        if first and then:
            why = f"The sentence has '{said.order.word}' where {label} has '{book.order.word}': '{text}'"
            if said.order.word == book.order.word:
                why = (
                    f"The sentence has what comes first and what comes then the other way round than {label}: '{text}'"
                )
            yield Lack("order", said.order.word, why, book.order.word)
        elif first or then:
            yield Lack("order", said.order.word, f"{label} puts other things before and after: '{text}'")

    def _among(self, stem: str, stems: frozenset[str]) -> bool:
        return stem in stems or any(other in stems for other in self._index.ring_of_stem(stem))


def _weight(lacks: tuple[Lack, ...]) -> float:
    return sum(0.5 if one.sort == "mark" or one.printed else 1.0 for one in lacks)


def _adjoin(apart: Apart, place: int) -> bool:
    before, word = apart.words[place - 1], apart.words[place]
    return word.at - before.at - len(before.text) == 1


def _alike(one: Figure, other: Figure) -> bool:
    return one.counts == other.counts and agrees(one.quantity, other.quantity)


def _rival(one: Figure, other: Figure) -> bool:
    """Another figure of the same sort, so that the two can be confounded."""
    return (
        one.counts == other.counts
        and not one.counts
        and comparable(one.quantity, other.quantity)
        and not _alike(one, other)
    )


def _swapped(said: Apart, book: tuple[Apart, ...], label: str) -> Iterator[Lack]:
    """Two figures of one sort in the other order than in the book."""
    printed = [f for apart in book for f in apart.figures if not f.counts]
    places = [
        (one, next((at for at, f in enumerate(printed) if _alike(one, f)), None))
        for one in said.figures if not one.counts
    ]  # fmt: skip
    for (one, here), (other, there) in pairwise(places):
        if here is not None and there is not None and comparable(one.quantity, other.quantity) and there < here:
            words = f"{figure_words(one.quantity)} … {figure_words(other.quantity)}"
            yield Lack(
                "figure", figure_words(one.quantity), f"{label} has these figures in another order than '{words}'."
            )


def _is_total(one: Figure, said: Apart, read: _Read) -> bool:
    """Whether a figure said of all together is that of each, times how many there are."""
    if not _TOGETHER.search(said.text):
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


def _duty(said: Apart, book: Apart, label: str, text: str) -> Iterator[Lack]:
    if said.duty in ("", book.duty) or (said.denied and book.denied):
        return
    said_word, printed = said.duty, book.duty or "neither 'may' nor 'must'"
    if book.duty:
        yield Lack(
            "duty", said_word, f"The sentence has '{said_word}' where {label} has '{printed}': '{text}'", printed
        )
    else:
        yield Lack("duty", said_word, f"The sentence has '{said_word}' where {label} has {printed}: '{text}'")


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
