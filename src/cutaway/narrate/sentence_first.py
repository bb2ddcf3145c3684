"""Checking a script against the books alone: for each sentence its likeliest paragraphs and what differs from them."""

from cutaway.handbook.records import Paragraph, Script, paragraph
from cutaway.narrate.agreeing import asserted
from cutaway.narrate.citing import place_of
from cutaway.narrate.compared import NEAR, Compared, Difference, Differing
from cutaway.narrate.differing import Shares, figure_differences, mark_difference
from cutaway.narrate.likely import Heard, Likely, Ranking
from cutaway.narrate.overlap import Overlap
from cutaway.narrate.turned import caution_differences
from cutaway.narrate.unheard import Terms
from cutaway.problems.diagnostic import Diagnostic, Problems


class Comparer:
    """Holds sentences against the books of one folder. It lives as long as its scripts are worked through."""

    def __init__(self, ranking: Ranking) -> None:
        self.ranking = ranking
        self._overlap = Overlap(ranking.index)
        self._terms = Terms(ranking.folder, ranking.index)

    def script(self, script: Script) -> tuple[Compared | None, ...]:
        """Each sentence of a script compared, None for one that is marked as an aside."""
        heard = self.ranking.heard(script)
        return tuple(None if one.sentence.aside else self.sentence(one) for one in heard)

    def sentence(self, heard: Heard) -> Compared:
        """One sentence: held against the paragraphs that it cites, or else against its likeliest."""
        text = heard.sentence.text
        likely = self._cited(heard) or self.ranking.likeliest(heard)
        words = self.ranking.words(text)
        shares: Shares = tuple((one.paragraph, self._overlap.share(words, one.paragraph)) for one in likely)
        figures, unfound, having = figure_differences(heard, shares, self.ranking)
        against = having or self._nearest(figures, shares)
        differences = list(figures)
        if against is not None:
            mark = mark_difference(heard, against, shares, self.ranking, self._overlap)
            differences += [mark] if mark else []
            differences += caution_differences(text, against, self._overlap.nearest(words, against))
        differences += self._terms.unheard(text)
        share = next((much for one, much in shares if one is against), 0.0)
        agreed = len(asserted(text)) - len(figures) - len(unfound)
        return Compared(heard.sentence, likely, against, share, tuple(differences), unfound, agreed)

    def _cited(self, heard: Heard) -> tuple[Likely, ...]:
        found = (paragraph(self.ranking.folder, cite) for cite in heard.sentence.cites)
        return tuple(Likely(one, 1.0) for one in found if one is not None)

    def _nearest(self, figures: tuple[Difference, ...], shares: Shares) -> Paragraph | None:
        """The paragraph to hold the words against: that of a figure that differs, or the likeliest that is near."""
        named = next((one.paragraph for one in figures if one.paragraph is not None), None)
        return named or next((one for one, share in shares if share >= NEAR), None)


_CODES: dict[Differing, str] = {"figure": "N801", "unit": "N802", "mark": "N803", "term": "N804", "caution": "N805"}


def told(compared: Compared) -> Problems:
    """Each difference of a sentence as a problem at its place. A figure of a sentence that cites its paragraph is
    told by `cite_verdict`, which compares more strictly, and not again."""
    cited = bool(compared.sentence.cites)
    return tuple(
        _problem(one, compared) for one in compared.differences if not (cited and one.sort in ("figure", "unit"))
    )


def _problem(one: Difference, compared: Compared) -> Diagnostic:
    where = place_of(one.said, compared.sentence)
    also = ((one.paragraph.span, f"{one.paragraph.number} {one.paragraph.title}".strip()),) if one.paragraph else ()
    return Diagnostic(_CODES[one.sort], where, one.why, _hint(one), also)


def _hint(one: Difference) -> str:
    if one.sort == "term":
        write = f"Write '{one.printed}'" if one.printed else "Write the books' own word"
        return f"{write}, or put '{one.said}' into glossary.yaml under 'also' of the term it stands for."
    if one.sort == "mark":
        return f"Say that it is so on {one.printed}, or cite the paragraph for the mark that is meant."
    if one.sort == "caution":
        return "Say it as the book does, or mark the sentence `aside` if it is no report of the book."
    return f"Write {one.printed}, or cite the paragraph that says {one.said}."
