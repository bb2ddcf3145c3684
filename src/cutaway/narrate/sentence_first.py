"""Checking a script against the books alone: for each sentence its likeliest paragraphs and what differs from them."""

import re
from dataclasses import replace

from cutaway.handbook.names import listed
from cutaway.handbook.records import Paragraph, Script, Sentence, paragraph
from cutaway.handbook.stems import WORD
from cutaway.narrate.agreeing import asserted
from cutaway.narrate.bearing import Bearing
from cutaway.narrate.citing import full_stop, place_of
from cutaway.narrate.clauses import clauses_in
from cutaway.narrate.compared import NEAR, Compared, Difference, Differing
from cutaway.narrate.differing import Books, Shares, dict_of, figure_differences, key_of, mark_difference
from cutaway.narrate.fittings import Fittings
from cutaway.narrate.lacks import Borne, Lack
from cutaway.narrate.likely import Heard, Likely, Ranking
from cutaway.narrate.superseding import superseded_words
from cutaway.narrate.turned import caution_differences, turned_clauses
from cutaway.narrate.unheard import Terms
from cutaway.problems.diagnostic import Diagnostic, Problems


class Comparer:
    """Holds sentences against the books of one folder. It lives as long as its scripts are worked through."""

    def __init__(self, ranking: Ranking) -> None:
        self.ranking = ranking
        self._books = Books(ranking)
        self._terms = Terms(ranking.folder, ranking.index)
        self._fittings = Fittings(ranking)
        self._bearing = Bearing(self._books)

    def script(self, script: Script) -> tuple[Compared | None, ...]:
        """Each sentence of a script compared, None for one that is marked as an aside."""
        heard = self.ranking.heard(script)
        return tuple(None if one.sentence.aside else self.sentence(one) for one in heard)

    def sentence(self, heard: Heard) -> Compared:
        """One sentence: held against the paragraphs that it cites, or else against its likeliest."""
        text = heard.sentence.text
        cited = self._cited(heard)
        likely = cited or self.ranking.likeliest(heard)
        words = self.ranking.words(text)
        shares = self._shares(words, likely, heard, not cited)
        figures = figure_differences(heard, shares, self._books)
        differences, doubts = list(figures.differences), list[str]()
        against = figures.having or self._nearest(figures.differences, shares)
        strange, odd = strange_marks(heard, against, self.ranking)
        doubts += odd
        fittings, as_said = ((), False) if strange else self._fittings.held(heard)
        if against is not None:
            against, over, why = self._standing(against, words, heard, shares)
            differences += over
            doubts += why
            mark = None if strange else mark_difference(heard, against, shares, self._books)
            differences += [mark] if mark else []
            differences += caution_differences(text, against, self._books.nearest(words, against, heard.names), as_said)
            if not as_said:
                differences += turned_clauses(heard, words, against, self._books)
        own = self.ranking.words(text)
        kept = [*(one for one in fittings if one.said != "no mark"), *strange, *self._terms.unheard(own)]
        doubts += [one.why for one in fittings if one.said == "no mark"]
        borne = self._bearing.best(heard, self._candidates(against, shares), as_said)
        unfound = figures.unfound
        if borne is not None and not borne.lacks:
            differences, doubts, unfound, against = [], list(odd), (), borne.paragraph
        elif borne is not None:
            differences += [_turned(one, borne) for one in borne.turned]
            doubts += [one.why for one in borne.lacks]
            doubts += self._unread(borne.paragraph, heard)
        agreed = len(asserted(text)) - len([d for d in differences if d.sort in ("figure", "unit")]) - len(unfound)
        differences = [self._named(one) for one in (*differences, *kept)]
        return Compared(
            heard.sentence,
            likely,
            against,
            self._share(words, against, heard),
            _once(differences),
            unfound,
            max(agreed, 0),
            tuple(dict.fromkeys(self._with_book(doubt, against) for doubt in doubts)),
            borne.clauses if borne is not None and not borne.lacks else (),
            self._nearly(borne, against, words, agreed, unfound),
        )

    def _nearly(
        self, borne: Borne | None, against: Paragraph | None, words: str, agreed: int, unfound: tuple[str, ...]
    ) -> bool:
        """Whether only words of the speaker's own keep a sentence from being stated by what it was held against."""
        if borne is None or against is None or unfound or not borne.only_words or borne.paragraph is not against:
            return False
        share = self._books.overlap.share(words, against)
        return share >= (NEAR if agreed else _MOST) and self._books.overlap.telling(words, against) >= 2 - bool(agreed)

    def _candidates(self, against: Paragraph | None, shares: Shares) -> tuple[Paragraph, ...]:
        """The paragraphs that may bear a sentence out, that which it was held against first."""
        found = [*([against] if against else []), *(paragraph for paragraph, _ in shares)]
        return tuple({key_of(one): one for one in found}.values())

    def _unread(self, against: Paragraph, heard: Heard) -> list[str]:
        return [
            f"{self.ranking.label(one.new)} alters {self.ranking.label(one.old)} in words that were not understood: "
            f"'{one.new.text}'"
            for one in self._books.later.unread(against, heard.names or heard.lasting)
        ]

    def _named(self, one: Difference) -> Difference:
        """A difference that names the book of its paragraph where there are several."""
        return replace(one, why=self._with_book(one.why, one.paragraph))

    def _with_book(self, why: str, paragraph: Paragraph | None) -> str:
        if paragraph is None or not self.ranking.several:
            return why
        bare = rf"(?<!{re.escape(paragraph.source)} )(?<!\w){re.escape(paragraph.number)}(?!\w)"
        return re.sub(bare, self.ranking.label(paragraph), why)

    def of_marks(self, heard: Heard) -> tuple[Difference, ...]:
        """What a sentence says of marks by name and the books say otherwise; and marks that there are not."""
        strange, _ = strange_marks(heard, None, self.ranking)
        if strange or heard.names is None:
            return strange
        mark = tuple(one for one in self.sentence(heard).differences if one.sort == "mark")
        return mark or self._fittings.held(heard)[0]

    def _cited(self, heard: Heard) -> tuple[Likely, ...]:
        found = (paragraph(self.ranking.folder, cite) for cite in heard.sentence.cites)
        return tuple(Likely(one, 1.0) for one in found if one is not None)

    def _shares(self, words: str, likely: tuple[Likely, ...], heard: Heard, later: bool) -> Shares:
        """How much of a sentence stands in each paragraph. later: also in those that alter one of them."""
        found = [one.paragraph for one in likely]
        if later:
            names = heard.names or heard.lasting
            found += [over.new for one in likely for over in self._books.later.of(one.paragraph, names)]
        once = {(one.source, one.number): one for one in found}
        return tuple((one, self._books.overlap.share(words, one)) for one in once.values())

    def _nearest(self, figures: tuple[Difference, ...], shares: Shares) -> Paragraph | None:
        """The paragraph to hold the words against: that of a figure that differs, or the likeliest that is near."""
        named = next((one.paragraph for one in figures if one.paragraph is not None), None)
        return named or next((one for one, share in shares if share >= NEAR), None)

    def _standing(
        self, against: Paragraph, words: str, heard: Heard, shares: Shares
    ) -> tuple[Paragraph, list[Difference], list[str]]:
        """What stands in the place of a paragraph: itself, or the later one that the sentence's words are also in; with
        what is to be said where they are only in the earlier."""
        names = heard.names or heard.lasting
        over = self._books.later.instead(against, names)
        nearest = self._books.nearest(words, against, heard.names)
        if over is None or (nearest is not None and not self._books.later.is_of(over, nearest.text)):
            return against, [], []
        if self._books.overlap.share(words, over.new) >= _AS_WELL * dict_of(shares).get(key_of(against), 0.0):
            return over.new, [], []
        on = self.ranking.listed(over.names)
        why = f"{superseded_words(over, self.ranking.several)}, for {on}, which does not say it."
        if over.how == "replaced":
            return against, [Difference("superseded", heard.sentence.text, "", over.new, why)], []
        return against, [], [why]

    def _share(self, words: str, against: Paragraph | None, heard: Heard) -> float:
        """How much of the sentence stands in the paragraph, in its clauses for the marks that the sentence names."""
        if against is None:
            return 0.0
        clauses = clauses_in(heard.sentence.text, heard.names or frozenset(), self.ranking.marks)
        if heard.names is None or len({one.names for one in clauses}) > 1:
            return self._books.overlap.share(words, against)
        return self._books.share_for(words, against, heard.names)


def _turned(one: Lack, borne: Borne) -> Difference:
    """What the book's clause has to the contrary of a sentence, as a difference."""
    limit = one.printed in ("the most", "the least")
    sort: Differing = "figure" if one.sort == "figure" and not limit else "caution"
    return Difference(sort, one.said, one.printed, borne.paragraph, one.why)


def strange_marks(
    heard: Heard, against: Paragraph | None, ranking: Ranking
) -> tuple[tuple[Difference, ...], tuple[str, ...]]:
    """The marks of a sentence that the type does not have: a difference, or only a doubt where the books name them."""
    differences: list[Difference] = []
    doubts: list[str] = []
    for words in ranking.marks.strange_in(heard.sentence.text):
        known = listed((*ranking.folder.type.marks, *(mod.name for mod in ranking.folder.type.mods)))
        why = f"The sentence speaks of '{words}', and type.yaml has only {known}."
        if not ranking.index.places(" ".join(WORD.findall(words.lower()))):
            differences.append(Difference("mark", words, "", None, why))
        elif against is None or words.lower() not in against.text.lower():
            doubts.append(why)
    return tuple(differences), tuple(doubts)


def _once(differences: list[Difference]) -> tuple[Difference, ...]:
    """Each difference once: one of the marks, and one of each caution. What a later paragraph altered says for which
    marks it is so."""
    if any(one.sort == "superseded" for one in differences):
        differences = [one for one in differences if one.sort != "mark" or one.said != "no mark"]
    kept: dict[tuple[str, ...], Difference] = {}
    for one in differences:
        number = one.paragraph.number if one.paragraph else ""
        strange = one.said if one.paragraph is None else ""
        key = (one.sort, strange) if one.sort == "mark" else (one.sort, number) if one.sort == "caution" else ()
        kept.setdefault(key or (one.sort, number, one.said), one)
    return tuple(kept.values())


_MOST = 0.5
"""So much of a sentence without a figure must stand in a paragraph to be worth proposing as its citation. A choice of
ours."""
_AS_WELL = 0.9
"""So much of what an altered paragraph has of a sentence must be in the later one to be held against that. A choice
of ours."""

_CODES: dict[Differing, str] = {
    "figure": "N801",
    "unit": "N802",
    "mark": "N803",
    "term": "N804",
    "caution": "N805",
    "superseded": "N806",
}


def told(compared: Compared) -> Problems:
    """Each difference of a sentence as a problem at its place. A figure of a sentence that cites its paragraph is
    told by `cite_verdict`, which compares more strictly, and not again."""
    cited = bool(compared.sentence.cites)
    kept = tuple(one for one in compared.differences if not (cited and one.sort in ("figure", "unit")))
    return problems_of(compared.sentence, kept)


def problems_of(sentence: Sentence, differences: tuple[Difference, ...]) -> Problems:
    """Some differences of a sentence as problems, each at its place."""
    return tuple(_problem(one, sentence) for one in differences)


def _problem(one: Difference, sentence: Sentence) -> Diagnostic:
    where = place_of(one.said, sentence)
    also = ((one.paragraph.span, f"{one.paragraph.number} {one.paragraph.title}".strip()),) if one.paragraph else ()
    return Diagnostic(_CODES[one.sort], where, one.why, _hint(one), also)


def _hint(one: Difference) -> str:
    if one.sort == "term":
        write = f"Write '{one.printed}'" if one.printed else "Write the books' own word"
        return f"{write}, or put '{one.said}' into glossary.yaml under 'also' of the term it stands for."
    if one.sort == "superseded":
        write = f"Write {one.printed}" if one.printed else "Say what stands there now"
        return full_stop(f"{write}, or say for which mark and time the earlier paragraph is meant")
    if one.sort == "mark" and one.paragraph is None:
        return "Write a mark that there is, or add it to type.yaml under marks, mods or standards."
    if one.sort == "mark":
        return f"Say that it is so on {one.printed}, or cite the paragraph for the mark that is meant."
    if one.sort == "caution":
        return "Say it as the book does, or mark the sentence `aside` if it is no report of the book."
    return full_stop(f"Write {one.printed}, or cite the paragraph that says {one.said}")
