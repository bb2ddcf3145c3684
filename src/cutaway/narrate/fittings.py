"""What a sentence says is fitted or is not: 'The Mk 2 has no gauge', 'there is a hand pump', held against every clause
of the books that speaks of the thing."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.handbook.stems import EMPTY, WORD
from cutaway.narrate.clauses import Clause, clauses_in, is_denied
from cutaway.narrate.compared import Difference
from cutaway.narrate.likely import Heard, Ranking
from cutaway.quantities.which import StandardName

# A thing of one word counts only where that word stands in so few paragraphs: a 'pump' may be any of several.
_FEW = 3
# How many paragraphs that speak of a thing are looked at. A choice of ours.
_MANY = 40

_AUX = r"(?:is|are|was|were)"
_HAVING = re.compile(
    r"^(?P<subject>.*?)\b(?:(?:ha(?:s|ve|d)|carr(?:y|ies|ied)|gets?|got|keeps?|kept|lacks?|lacked)"
    rf"|{_AUX} (?:\w+ )?(?:fitted|equipped|provided) with|{_AUX} given|{_AUX} without|(?:do|does|did)(?: not|n't|n’t)"
    r" have)\s+(?!been\b|gone\b|to\b|not\b|had\b|never been\b|\w+ed\b)(?P<things>.+)$",
    re.IGNORECASE,
)
_THERE = re.compile(rf"\bthere (?:{_AUX}|isn't|isn’t|wasn't|wasn’t)\s+(?P<things>.+)$", re.IGNORECASE)
_FITTED = re.compile(
    rf"^(?P<things>.+?)\s+{_AUX}\s+(?:(?:not|never|also|now|only)\s+)?"
    r"(?:fitted|carried|installed|added|provided)\b(?! with)",
    re.IGNORECASE,
)
_PUT_IN = re.compile(
    r"\b(?:they|makers?|works|firm)\s+(?:\w+ly\s+)?(?:fitted|put in|added)\s+(?P<things>.+)$", re.IGNORECASE
)
_GONE = re.compile(
    r"^(?P<things>.+?)\s+(?:(?:has|have|had|is|are|was|were)\s+gone"
    r"|(?:(?:has|have|had) been|is|are|was|were)\s+(?:deleted|removed|taken out|left out|done away with))\b",
    re.IGNORECASE,
)
_REPLACES = re.compile(
    r"^(?P<new>[^,;]*?)\b(?:replaces?|replaced|takes? the place of|supersedes?)\b(?P<old>.+)$", re.IGNORECASE
)
# 'The Mk 2 has none': what was spoken of just before.
_NONE = re.compile(r"\b(?:has|have|had|carries|carry)\s+(?:none|neither|no such thing|not)\s*$", re.IGNORECASE)
_AWAY = re.compile(r"\b(?:gone|removed|deleted|taken out|left out|missing|instead|lost)\b", re.IGNORECASE)
_LEADING_UP = re.compile(r"\b(?:on|for|in|of|with|to|from)\s+(?:all |both |every |each )?(?:the\s+)?$", re.IGNORECASE)
# Where the name of a thing ends.
_ENDS = re.compile(
    r"\b(?:of|for|on|in|at|with|beside|behind|below|above|under|over|which|that|who|to|from|instead|by|near|as|so|when|"
    r"if|before|after|like|is|are|was|were|has|have|had|may|can|must|should|will|would|stands?|left|fitted|marked|than)\b",
    re.IGNORECASE,
)
_LEADS = frozenset(
    re.findall(
        r"\S+",
        """a an the no not any its their his her our your some one two three four both each every another other own
        also only now still never always instead even either neither nor little big new old red proper such""",
    )
)
# Words that mean the aeroplane itself, as the owner of what it has.
_OWNERS = frozenset(
    re.findall(
        r"\S+",
        """aeroplane aeroplanes aircraft machine machines it she they we he marks mark mk mks which who type model
        one ones later early earlier on in for all both every there""",
    )
)

Names = frozenset[StandardName]


@dataclass(frozen=True, slots=True)
class Fitting:
    """What a clause says is there or is not. owner: stems of what has it, empty for the aeroplane. things: each by the
    stems of its name, and as written."""

    owner: frozenset[str]
    things: tuple[tuple[tuple[str, ...], str], ...]
    denied: bool


@dataclass(frozen=True, slots=True)
class _SpokenOf:
    """Where the books have a thing, by standard, and where they say that there is none."""

    there: dict[StandardName, tuple[Clause | None, Paragraph]]
    denied: dict[StandardName, tuple[Clause, Paragraph]]

    @property
    def have(self) -> Names:
        return frozenset(self.there) - frozenset(self.denied)


class Fittings:
    """Holds what sentences say is fitted against the books. It lives as long as its ranking."""

    def __init__(self, ranking: Ranking) -> None:
        self._ranking = ranking
        self._type = frozenset(WORD.findall(ranking.folder.type.name.lower()))
        self._everyone = frozenset(one.name for one in ranking.folder.type.standards)
        self._denials: tuple[tuple[tuple[str, ...], str, Names, Clause, Paragraph], ...] | None = None
        self._clauses: dict[tuple[str, str], tuple[tuple[Clause, tuple[Fitting, ...]], ...]] = {}

    def held(self, heard: Heard) -> tuple[tuple[Difference, ...], bool]:
        """The things that a sentence says are there, or are not, where the books say otherwise; and whether the books
        say it of all of them as the sentence does."""
        found: dict[str, Difference] = {}
        so: list[bool] = []
        names = heard.names or heard.lasting or frozenset()
        for clause in clauses_in(heard.sentence.text, names, self._ranking.marks):
            for fitting in self._said(clause.text, ()):
                for stems, words in fitting.things:
                    wanted = clause.names or None
                    spoken = self._spoken_of(stems, words, fitting)
                    one = self._against(words, fitting, wanted, spoken)
                    if one is not None:
                        found.setdefault(words, one)
                    known = spoken.denied if fitting.denied else spoken.have
                    so.append(one is None and (wanted or self._everyone) <= frozenset(known))
            for one in self._taken_for_granted(clause):
                found.setdefault(one.said, one)
        return tuple(found.values()), bool(so) and all(so)

    def _taken_for_granted(self, clause: Clause) -> Iterator[Difference]:
        """What a clause speaks of as being there on a mark for which the books say that there is none."""
        if not clause.names or is_denied(clause.text) or _AWAY.search(clause.text):
            return
        said = self._stems(self._unmarked(clause.text))
        for stems, words, names, book, paragraph in self._denied_things():
            if clause.names & names and any(said[at : at + len(stems)] == stems for at in range(len(said))):
                yield _caution(words, (book, paragraph))

    def _denied_things(self) -> tuple[tuple[tuple[str, ...], str, Names, Clause, Paragraph], ...]:
        """All things that the books say some mark is without; found once, when first asked for."""
        if self._denials is None:
            found: list[tuple[tuple[str, ...], str, Names, Clause, Paragraph]] = []
            for paragraph in self._ranking.index.paragraphs:
                marked = paragraph.on.words or self._ranking.marks.places_in(paragraph.text)
                if not marked or not is_denied(paragraph.text):
                    continue
                for clause, fittings in self._book(paragraph):
                    things = [thing for one in fittings if one.denied and not one.owner for thing in one.things]
                    if clause.names < self._everyone:
                        found += [(s, words, clause.names, clause, paragraph) for s, words in things if len(s) > 1]
            self._denials = tuple(found)
        return self._denials

    def _spoken_of(self, stems: tuple[str, ...], words: str, said: Fitting) -> "_SpokenOf":
        """For which standards the books have a thing, and for which they say that there is none."""
        there: dict[StandardName, tuple[Clause | None, Paragraph]] = {}
        denied: dict[StandardName, tuple[Clause, Paragraph]] = {}
        if len(stems) == 1 and self._places(stems[0]) > _FEW:
            return _SpokenOf(there, denied)
        for paragraph in self._ranking.index.speaks_of(words)[:_MANY]:
            if paragraph.on.words and set(stems) <= set(self._stems(paragraph.title)):
                there |= {name: (None, paragraph) for name in paragraph.on.names if name not in there}
            called = False
            for clause, fittings in self._book(paragraph):
                called_before, called = called, called or set(stems) <= set(self._stems(clause.text))
                if any(one.denied and self._denies(one, stems, said) for one in fittings):
                    denied |= dict.fromkeys(clause.names, (clause, paragraph))
                elif is_denied(clause.text):
                    continue
                elif set(stems) <= set(self._stems(clause.text)) or (
                    called_before and self._the(stems[-1], clause.text)
                ):
                    there |= {name: (clause, paragraph) for name in clause.names if name not in there}
        return _SpokenOf(there, denied)

    def _the(self, stem: str, text: str) -> bool:
        """Whether a clause speaks of 'the brakes', which were called 'wheel brakes' before."""
        return any(stem in self._stems(word) for word in re.findall(r"\b[Tt]he (\w+)", text))

    def _against(self, words: str, said: Fitting, names: Names | None, spoken: "_SpokenOf") -> Difference | None:
        """What the books say otherwise of one thing."""
        wanted = self._everyone if names is None else names
        if said.denied:
            return self._denied_here(words, wanted, spoken.there, spoken.denied)
        against = next((spoken.denied[name] for name in sorted(wanted) if name in spoken.denied), None)
        if against is not None and names is not None:
            return _caution(words, against)
        have = spoken.have
        if not have or wanted <= have:
            return None
        return self._other_marks(words, names, have, spoken.there[min(have)][1])

    def _denied_here(
        self,
        words: str,
        wanted: Names,
        there: dict[StandardName, tuple[Clause | None, Paragraph]],
        denied: dict[StandardName, tuple[Clause, Paragraph]],
    ) -> Difference | None:
        """'no' of a thing that the books have on those very marks: said of them by name, or of all without a 'no'."""
        for name in sorted(wanted - frozenset(denied)):
            clause, paragraph = there.get(name, (None, None))
            if paragraph is None:
                continue
            named = paragraph.on.names if clause is None else clause.names
            if named < self._everyone or wanted >= self._everyone:
                text = clause.text if clause is not None else paragraph.title
                return Difference(
                    "caution",
                    f"no {words}",
                    words,
                    paragraph,
                    f"The sentence denies '{words}', which {paragraph.number} speaks of: '{text}'",
                )
        return None

    def _other_marks(self, words: str, names: Names | None, have: Names, paragraph: Paragraph) -> Difference:
        printed = self._ranking.listed(have)
        if names is None:
            why = f"The books speak of '{words}' for {printed} only, and the sentence does not say so."
            return Difference("mark", "no mark", printed, paragraph, why)
        said = self._ranking.listed(names)
        why = f"The sentence speaks of {said}; '{words}' is in the books for {printed}."
        return Difference("mark", said, printed, paragraph, why)

    def _book(self, paragraph: Paragraph) -> tuple[tuple[Clause, tuple[Fitting, ...]], ...]:
        key = (str(paragraph.source), paragraph.number)
        if key not in self._clauses:
            found: list[tuple[Clause, tuple[Fitting, ...]]] = []
            before: tuple[Fitting, ...] = ()
            for clause in self._ranking.clauses(paragraph):
                fittings = tuple(self._said(clause.text, before))
                found.append((clause, fittings))
                before = fittings or before
            self._clauses[key] = tuple(found)
        return self._clauses[key]

    def _denies(self, one: Fitting, stems: tuple[str, ...], said: Fitting) -> bool:
        """Whether a book's 'no' is of the thing that is spoken of, and of the same owner's."""
        if one.owner and said.owner and not one.owner & said.owner:
            return False
        return any(book[-1] == stems[-1] and set(book) <= set(stems) for book, _ in one.things)

    def _said(self, text: str, before: tuple[Fitting, ...]) -> Iterator[Fitting]:
        """What a clause says is there or is not. before: what the clause before it said, for a 'has none'."""
        if _NONE.search(text.rstrip(" .")):
            yield from (Fitting(one.owner, one.things, True) for one in before if not one.denied)
            return
        replaced = _REPLACES.search(self._unmarked(text))
        if replaced is not None:
            yield Fitting(frozenset(), tuple(self._things(replaced["new"])), is_denied(text))
            yield Fitting(frozenset(), tuple(self._things(replaced["old"])), not is_denied(text))
            return
        gone = _GONE.search(text)
        if gone is not None:
            yield Fitting(frozenset(), tuple(self._things(gone["things"])), not is_denied(text))
            return
        for pattern in (_THERE, _PUT_IN, _HAVING, _FITTED):
            found = pattern.search(text)
            if found is not None:
                things = tuple(self._things(found["things"]))
                owner = self._owner(found["subject"]) if pattern is _HAVING else frozenset()
                if things:
                    yield Fitting(owner, things, is_denied(text))
                return

    def _owner(self, subject: str) -> frozenset[str]:
        words = [w for w in WORD.findall(self._unmarked(subject).lower()) if not w.isdigit() and w not in _OWNERS]
        return frozenset(self._stems(" ".join(word for word in words if word not in self._type)))

    def _things(self, text: str) -> Iterator[tuple[tuple[str, ...], str]]:
        """The names of things in a list of them: 'a hand pump for petrol, a voltmeter and an oil gauge'."""
        for piece in re.split(r",|;|\band\b|\bor\b|\bnor\b|\bbut\b", self._unmarked(text).strip(" .")):
            end = _ENDS.search(piece)
            words = list(WORD.findall((piece[: end.start()] if end else piece).lower()))
            while words and words[0] in _LEADS:
                words.pop(0)
            if words and len(words) <= 4 and not any(word.isdigit() for word in words):
                stems = self._stems(" ".join(words))
                if stems and not set(words) <= EMPTY:
                    yield stems, " ".join(words)

    def _unmarked(self, text: str) -> str:
        """A text without its marks and what leads up to them: 'On the Mk 1', 'to the Mk 2'."""
        for start, end in reversed(self._ranking.marks.places_in(text)):
            lead = _LEADING_UP.search(text[:start])
            text = text[: lead.start() if lead else start] + " " + text[end:]
        return text

    def _stems(self, text: str) -> tuple[str, ...]:
        return tuple(self._same_word(stem) for stem in self._ranking.index.stems.of(text))

    def _places(self, stem: str) -> int:
        """In how many paragraphs a word stands at least, under any of its names."""
        index = self._ranking.index
        return max(map(index.places_of_stem, {stem} | index.ring_of_stem(stem)))

    def _same_word(self, stem: str) -> str:
        """One stem for all the words of a ring, so that a petrol gauge is a fuel gauge."""
        return min({stem} | self._ranking.index.ring_of_stem(stem))


def _caution(words: str, against: tuple[Clause, Paragraph]) -> Difference:
    clause, paragraph = against
    why = f"The sentence has '{words}' where {paragraph.number} says that there is none: '{clause.text}'"
    return Difference("caution", words, f"no {words}", paragraph, why)
