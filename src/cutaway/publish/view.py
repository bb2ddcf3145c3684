"""What the page shows, as records. Whoever makes the pack fills them in; the page adds no fact of its own."""

from dataclasses import dataclass
from typing import Literal

from cutaway.problems.diagnostic import Problems
from cutaway.wording.verdicts import Kind


@dataclass(frozen=True, slots=True)
class VerdictView:
    """One verdict for one standard. heading: 'Holds'. sentence: the verdict as it reads aloud."""

    standard: str
    kind: Kind
    heading: str
    sentence: str


@dataclass(frozen=True, slots=True)
class ClaimView:
    """One claim of a sentence, in the author's words, with its verdict for each standard that it speaks of."""

    text: str
    verdicts: tuple[VerdictView, ...]
    cites: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SentenceView:
    """One sentence of a script.

    time: when it is spoken, '0:41'. cites: keys of the paragraphs it is marked with, as in `ParagraphView.key`.
    cite_verdict: for a sentence that reports a paragraph. likely: for an unchecked one, the likeliest paragraphs.
    """

    text: str
    chapter: str
    paragraph: int
    kind: Literal["claimed", "cited", "aside", "unchecked"]
    time: str = ""
    claims: tuple[ClaimView, ...] = ()
    cites: tuple[str, ...] = ()
    cite_verdict: Literal["", "stated", "fails"] = ""
    cite_words: str = ""
    likely: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ScriptView:
    """One script. captions: the file in the pack, '' if there is none. length: how long it takes to say, '4:10'."""

    name: str
    title: str
    sentences: tuple[SentenceView, ...]
    captions: str = ""
    length: str = ""


@dataclass(frozen=True, slots=True)
class SheetView:
    """One drawing: for which standard, system and situation, its file in the pack, what it shows in words.

    dark_path: the same drawing in the dark theme, '' if there is none. svg, dark_svg: the drawings themselves, to be
    put into the page, which then needs no other file; without `svg` the page shows the files at the paths.
    """

    standard: str
    system: str
    title: str
    path: str
    desc: str
    svg: str = ""
    dark_svg: str = ""
    situation: str = ""
    dark_path: str = ""


@dataclass(frozen=True, slots=True)
class ParagraphView:
    """One paragraph of a book. key: what sentences cite, 'hb §21'. label: as shown, '§21'."""

    key: str
    label: str
    title: str
    text: str
    book: str
    on: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CautionView:
    """A caution and what it is about, with the paragraphs behind it."""

    text: str
    about: str
    cites: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TermView:
    """One entry of the glossary."""

    name: str
    meaning: str
    said_as: str = ""
    also: tuple[str, ...] = ()
    cites: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AssumptionView:
    """A value that no book gives, with the range that it is taken from."""

    part: str
    value: str
    stated: str
    between: str
    because: str


@dataclass(frozen=True, slots=True)
class PackView:
    """All that the page shows. made: a date as text, given by the caller; '' leaves it out."""

    title: str
    maker: str
    says: str
    notice: str
    standards: tuple[str, ...]
    scripts: tuple[ScriptView, ...] = ()
    sheets: tuple[SheetView, ...] = ()
    paragraphs: tuple[ParagraphView, ...] = ()
    glossary: tuple[TermView, ...] = ()
    cautions: tuple[CautionView, ...] = ()
    assumptions: tuple[AssumptionView, ...] = ()
    problems: Problems = ()
    made: str = ""
    language: str = "en-GB"
