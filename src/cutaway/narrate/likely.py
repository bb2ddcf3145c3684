"""The paragraphs that a sentence most likely comes from: by its words, figures and mark, and by what went before."""

import re
from dataclasses import dataclass

from cutaway.handbook.marks_named import MarkNames
from cutaway.handbook.records import Folder, Paragraph, Script, Sentence
from cutaway.handbook.search import ParagraphIndex
from cutaway.narrate.agreeing import agrees, asserted, figures_of
from cutaway.narrate.amending import as_amended
from cutaway.narrate.clauses import Clause, clauses_of
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.which import StandardName

# How many paragraphs of the index are weighed against each other.
_WEIGHED = 30
# What counts beside the words, as a share of the best paragraph's score for words. Choices of ours: what went before
# counts more where the sentence points back with a pronoun.
_BEFORE = 0.25
_BEFORE_POINTING = 0.5
_CHAPTER = 0.15
_FIGURE = 0.4
_MARK = 0.15
_POINTING = re.compile(r"\b(?:it|its|they|them|their|that|those|this|these|she|her|both|so)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Likely:
    """A paragraph that a sentence may come from. score: 1 is as good as the best match of words alone."""

    paragraph: Paragraph
    score: float


@dataclass(frozen=True, slots=True)
class Heard:
    """A sentence with what a listener knows when it comes. before: the sentence before it in its chapter, '' if none.

    names: the standards that it names, None if none; lasting: those that the chapter named last.
    """

    sentence: Sentence
    before: str
    names: frozenset[StandardName] | None
    lasting: frozenset[StandardName] | None


class Ranking:
    """Ranks a folder's paragraphs for sentences. It lives as long as a script is worked through.

    folder: with the paragraphs of amendments that say 'for X substitute Y' read as what they make."""

    def __init__(self, folder: Folder) -> None:
        self.amended = as_amended(folder)
        folder = self.amended.folder
        self.folder = folder
        self.index = ParagraphIndex(folder.sources, folder.glossary)
        self.marks = MarkNames(folder.type)
        self._searched: dict[str, dict[int, float]] = {}
        self._figures: dict[int, tuple[Quantity, ...]] = {}
        self._clauses: dict[tuple[str, str], tuple[Clause, ...]] = {}

    @property
    def several(self) -> bool:
        """Whether there are several books, so that a paragraph must be named with its own."""
        return len(self.folder.sources) > 1

    def label(self, paragraph: Paragraph) -> str:
        """A paragraph as a person is told of it: '§25', or 'hb §25' where there are several books."""
        return f"{paragraph.source} {paragraph.number}" if self.several else paragraph.number

    def listed(self, names: frozenset[StandardName]) -> str:
        """Standards as a speaker names them: 'Mk 1', 'Mk 1 and Mk 2', by marks where a whole mark is meant."""
        standards = self.folder.type.standards
        if names >= frozenset(one.name for one in standards):
            return "every mark"
        whole = [m for m in self.folder.type.marks if all(s.name in names for s in standards if s.mark == m)]
        rest = [str(s.name) for s in standards if s.name in names and s.mark not in whole]
        return " and ".join([*whole, *rest])

    def heard(self, script: Script) -> tuple[Heard, ...]:
        """The sentences of a script in the order in which they are heard."""
        found: list[Heard] = []
        before, chapter = "", None
        lasting: frozenset[StandardName] | None = None
        for sentence in script.sentences:
            if sentence.chapter != chapter:
                before, lasting, chapter = "", None, sentence.chapter
            names = self.marks.named_in(sentence.text).names
            found.append(Heard(sentence, before, names, lasting))
            lasting = names or lasting
            before = sentence.text
        return tuple(found)

    def likeliest(self, heard: Heard, limit: int = 3) -> tuple[Likely, ...]:
        """The likeliest paragraphs, best first; () where none shares a word with the sentence."""
        sentence = heard.sentence
        own = self._by_words(sentence.text)
        if not own:
            return ()
        best = max(own.values())
        scores = {row: score / best for row, score in own.items()}
        pointing = _BEFORE_POINTING if _POINTING.search(sentence.text) else _BEFORE
        for text, weight in ((heard.before, pointing), (sentence.chapter, _CHAPTER)):
            self._add(scores, self._by_words(text), weight)
        figures = asserted(sentence.text)
        names = heard.names or heard.lasting
        for row in scores:
            scores[row] += self._extra(self.index.paragraphs[row], row, figures, names)
        first = sorted(scores, key=lambda row: (-scores[row], row))[:limit]
        return tuple(Likely(self.index.paragraphs[row], scores[row]) for row in first)

    def figures(self, paragraph: Paragraph, row: int | None = None) -> tuple[Quantity, ...]:
        """The figures that a paragraph prints; found once for each."""
        key = id(paragraph) if row is None else row
        if key not in self._figures:
            self._figures[key] = figures_of(paragraph)
        return self._figures[key]

    def clauses(self, paragraph: Paragraph) -> tuple[Clause, ...]:
        """The clauses of a paragraph with the standards that each is for; found once for each."""
        key = (str(paragraph.source), paragraph.number)
        if key not in self._clauses:
            self._clauses[key] = clauses_of(paragraph, self.marks)
        return self._clauses[key]

    def _by_words(self, text: str) -> dict[int, float]:
        """The scores of a text's words; each sentence is asked for twice, for itself and as the one before."""
        if text not in self._searched:
            hits = self.index.search(self.words(text), _WEIGHED)
            self._searched[text] = {self.index.row_of(hit.paragraph): hit.score for hit in hits}
        return self._searched[text]

    def words(self, text: str) -> str:
        """The text without its figures and marks, which are compared by themselves."""
        for start, end in sorted(self.marks.named_in(text).places, reverse=True):
            text = text[:start] + " " + text[end:]
        for figure in asserted(text):
            text = text.replace(figure.text, " ", 1)
        return text

    def _add(self, scores: dict[int, float], more: dict[int, float], weight: float) -> None:
        best = max(more.values(), default=0.0)
        for row, score in more.items():
            if best > 0.0:
                scores[row] = scores.get(row, 0.0) + weight * score / best

    def _extra(
        self,
        paragraph: Paragraph,
        row: int,
        figures: tuple[Quantity, ...],
        names: frozenset[StandardName] | None,
    ) -> float:
        """What the figures and the mark say for a paragraph."""
        printed = self.figures(paragraph, row) if figures else ()
        extra = _FIGURE * sum(any(agrees(one, other) for other in printed) for one in figures)
        if names is not None and paragraph.on.words:
            extra += _MARK if names & paragraph.on.names else -_MARK
        return extra
