"""The clauses of a paragraph taken apart, with what each takes from its title, its row and the clauses before it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from cutaway.handbook.records import Paragraph
from cutaway.handbook.stems import WORD
from cutaway.narrate.clauses import Clause
from cutaway.narrate.differing import Books
from cutaway.narrate.taken_apart import Apart, take_apart

_LEADING_UP = re.compile(
    r"\b(?:on|for|in|of|with|to|from|both)\s+(?:all |both |every |each )?(?:the\s+)?(?:\w+\s+of\s+)?$", re.IGNORECASE
)
_POINTS_BACK = re.compile(
    r"^(?:\W|and\s|but\s|then\s)*(?:it|its|they|their|each|both|this|these|either|neither|the latter)\b", re.I
)
_IT = re.compile(r"\b(?:it|they)\s+(?:must|may|is|are|has|have|can|should|will|was|were|shall)\b", re.IGNORECASE)
# 'The upper lamp is white; the lower lamps are red': a clause with a subject of its own is not read with another.
_OWN_SUBJECT = re.compile(
    r"^(?:and|but|while|whereas|so that)?\s*(?:(?:on|for|with)\b[^,]*,\s*)?"
    r"(?:the|a|an|no|one|two|three|four|five|six|its|his|every|all)\b(?!.*\bof (?:it|them|which)\b)",
    re.IGNORECASE,
)
_GAPPED = re.compile(r"^(?:and|but)\b(?!.*\b(?:is|are|was|were|has|have|must|may)\b)", re.IGNORECASE)
_SUBJECT = re.compile(
    r"^(?:and|but|while|whereas|so that)?\s*(?:(?:on|for|with)\b[^,]*,\s*)?"
    r"(?:the|a|an|no|one|two|three|four|five|six|its|his|every|all)\b(?!.*\bof (?:it|them|which)\b)",
    re.IGNORECASE,
)
_INSTEAD = re.compile(r"\b(?:in place of|instead of|takes? the place of|replac(?:ed|ing))\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Part:
    """A clause of a paragraph taken apart, with the stems that its title, its row and its antecedents lend it. near:
    the places of the clauses beside it that it may be read with; place: its own."""

    clause: Clause
    apart: Apart
    lent: frozenset[str]
    near: tuple[int, ...]
    place: int


@dataclass(frozen=True, slots=True)
class Read:
    """A clause read with those beside it. around: all of them in order."""

    part: Part
    near: tuple[Apart, ...]
    around: tuple[Apart, ...]


class Parts:
    """The clauses of paragraphs taken apart, each once. It lives as long as its books."""

    def __init__(self, books: Books) -> None:
        self._books = books
        self.index = books.ranking.index
        about = books.ranking.folder.type
        self._own = frozenset(WORD.findall(f"{about.name} {about.maker}".lower()))
        self._parts: dict[tuple[str, str], tuple[Part, ...]] = {}

    def apart(self, text: str) -> Apart:
        """A clause of a sentence or a book taken apart, without its marks."""
        return take_apart(self._unmarked(text), self.index.stems, self._own)

    def _unmarked(self, text: str) -> str:
        for start, end in reversed(self._books.ranking.marks.places_in(text)):
            lead = _LEADING_UP.search(text[:start])
            text = text[: lead.start() if lead else start] + " , " + text[end:]
        return _INSTEAD.sub(" replaces ", text.replace(" ,  , ", " , "))

    def parts_of(self, paragraph: Paragraph) -> tuple[Part, ...]:
        """The clauses of a paragraph in order."""
        key = (str(paragraph.source), paragraph.number)
        if key not in self._parts:
            self._parts[key] = tuple(self._taken(paragraph))
        return self._parts[key]

    def _taken(self, paragraph: Paragraph) -> Iterator[Part]:
        clauses = self._books.ranking.clauses(paragraph)
        aparts = [self.apart(one.text) for one in clauses]
        title = self.apart(paragraph.title).stems
        subject: frozenset[str] = frozenset()
        for at, clause in enumerate(clauses):
            first = at == 0 or clauses[at - 1].sentence != clause.sentence
            points = _POINTS_BACK.search(clause.text) is not None or _IT.search(clause.text) is not None
            if first and not points:
                verb = _SUBJECT.search(clause.text)
                subject = self.apart(clause.text[: verb.start()]).stems if verb else frozenset()
            own = _OWN_SUBJECT.match(clause.text) is not None and not points
            lent = title | self.apart(clause.carried).stems
            lent |= subject if points or not (first or own) else frozenset()
            lent |= self._meant(clause.text, aparts[:at], paragraph)
            beside = [
                by
                for by in (at - 1, at + 1)
                if 0 <= by < len(clauses) and clauses[by].sentence == clause.sentence and "|" not in paragraph.text
                and not _OWN_SUBJECT.match(clauses[max(by, at)].text)
            ]  # fmt: skip
            if first and points and at and clauses[at - 1].names >= clause.names:
                beside.append(at - 1)
            before = clauses[at - 1] if at and not first else None
            differ = before is not None and not before.names >= clause.names and bool(aparts[at].figures)
            if differ and _GAPPED.match(clause.text):
                # 'at 2 lb. on Mk 1 and at 3 lb. on Mk 2': what is said of the one is said of the other.
                lent |= aparts[at - 1].stems
                aparts[at] = _as_before(aparts[at], aparts[at - 1])
            yield Part(clause, aparts[at], frozenset(lent), tuple(beside), at)

    def _meant(self, text: str, before: list[Apart], paragraph: Paragraph) -> frozenset[str]:
        """What 'the brakes' are called in full just before: 'wheel'. Nothing where two things have that name."""
        found: set[str] = set()
        for word in re.findall(r"\b[Tt]he (\w+)", text):
            stem = self.index.stems.one(word)
            names = {
                one.words[place - 1].stem
                for one in before
                for place, other in enumerate(one.words)
                if place and other.stem == stem and _adjoin(one, place)
            }
            found |= names if len(names) == 1 else set()
        return frozenset(found)

    def told(self, part: Part, paragraph: Paragraph) -> str:
        """A clause as it is shown to a person: a cell with its row, a clause without a verb with the one before it."""
        if "|" in paragraph.text and part.clause.carried:
            return f"{part.clause.carried}: {part.clause.text}"
        if part.place and _GAPPED.match(part.clause.text):
            return f"{self.parts_of(paragraph)[part.place - 1].clause.text} {part.clause.text}"
        return part.clause.text

    def read(self, part: Part, paragraph: Paragraph) -> Read:
        """A clause with those that it is read with."""
        parts = self.parts_of(paragraph)
        near = tuple(parts[place].apart for place in part.near)
        around = tuple(parts[place].apart for place in sorted({*part.near, part.place}))
        return Read(part, near, around)

    def among(self, stem: str, stems: frozenset[str]) -> bool:
        """Whether a word, or another word for the same, is among some."""
        return stem in stems or any(other in stems for other in self.index.ring_of_stem(stem))


def _as_before(apart: Apart, before: Apart) -> Apart:
    """A clause without a verb, with the duty, denial and limit of the one before it."""
    side = before.figures[-1].side if before.figures else ""
    figures = tuple(one if one.side else replace(one, side=side) for one in apart.figures)
    return replace(apart, figures=figures, duty=before.duty, denied=before.denied, negated=before.negated)


def _adjoin(apart: Apart, place: int) -> bool:
    before, word = apart.words[place - 1], apart.words[place]
    return word.at - before.at - len(before.text) == 1
