"""How much of a script is checked, and for each sentence that is not, the paragraphs it most likely comes from."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Folder, Paragraph, Script, Sentence
from cutaway.handbook.search import ParagraphIndex
from cutaway.problems.diagnostic import Diagnostic, Problems

Checking = Literal["claimed", "cited", "aside", "unchecked"]
_LIKELY = 3


@dataclass(frozen=True, slots=True)
class Unchecked:
    """A sentence with no claim, no citation and no mark as an aside. number: of the sentence in its script, from 0."""

    number: int
    sentence: Sentence
    likely: tuple[Paragraph, ...]


@dataclass(frozen=True, slots=True)
class Coverage:
    """The sentences of one script by what checks them; a sentence with claims and a citation counts as claimed."""

    script: str
    claimed: int
    cited: int
    asides: int
    unchecked: tuple[Unchecked, ...]

    @property
    def sentences(self) -> int:
        """All of them."""
        return self.claimed + self.cited + self.asides + len(self.unchecked)

    @property
    def share(self) -> float:
        """The share that is checked of those that could be, 0 to 1; 1 where nothing could be."""
        could = self.sentences - self.asides
        return (self.claimed + self.cited) / could if could else 1.0


def checking(sentence: Sentence) -> Checking:
    """What checks a sentence."""
    if sentence.claims:
        return "claimed"
    if sentence.cites:
        return "cited"
    return "aside" if sentence.aside else "unchecked"


def coverage(script: Script, folder: Folder, index: ParagraphIndex | None = None) -> tuple[Coverage, Problems]:
    """What is checked in a script, with a problem for each sentence that is not.

    index: of the folder's paragraphs, from a caller who asks for several scripts.
    """
    paragraphs = index if index is not None else ParagraphIndex(folder.sources, folder.glossary)
    kinds = tuple(checking(sentence) for sentence in script.sentences)
    unchecked = tuple(
        Unchecked(number, sentence, likeliest(sentence, paragraphs))
        for number, (sentence, kind) in enumerate(zip(script.sentences, kinds, strict=True))
        if kind == "unchecked"
    )
    covered = Coverage(script.name, kinds.count("claimed"), kinds.count("cited"), kinds.count("aside"), unchecked)
    return covered, tuple(_told(one) for one in unchecked)


def likeliest(sentence: Sentence, index: ParagraphIndex) -> tuple[Paragraph, ...]:
    """The paragraphs that a sentence most likely comes from, best first; () where none shares a word with it."""
    return tuple(hit.paragraph for hit in index.search(sentence.text, _LIKELY))


def _told(one: Unchecked) -> Diagnostic:
    message = f"Nothing says where '{_short(one.sentence.text)}' comes from."
    if not one.likely:
        hint = "Put a claim block under it, or `aside` behind it if it is history, opinion or a greeting."
        return Diagnostic("N101", one.sentence.span, message, hint)
    first = one.likely[0]
    hint = (
        f"Write `cite: {first.source} {first.number}` behind it if it reports that paragraph, or put a claim under it."
    )
    also = tuple((paragraph.span, f"{paragraph.number} {paragraph.title}".strip()) for paragraph in one.likely)
    return Diagnostic("N101", one.sentence.span, message, hint, also)


def _short(text: str) -> str:
    return text if len(text) <= 60 else text[:57].rsplit(" ", 1)[0] + " …"
