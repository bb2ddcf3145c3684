"""What the page shows, as records. Whoever makes the pack fills them in; the page adds no fact of its own."""

from dataclasses import dataclass
from typing import Literal

from cutaway.problems.diagnostic import Problems
from cutaway.wording.verdicts import Kind


@dataclass(frozen=True, slots=True)
class VerdictView:
    """One verdict for one standard. heading: 'Holds'. sentence: the verdict as it reads aloud.

    wrong: whether the sentence must be mended, as with a verdict that fails, or that rests on assumptions and fails
    with the values that are assumed.
    """

    standard: str
    kind: Kind
    heading: str
    sentence: str
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class ClaimView:
    """One claim of a sentence, in the author's words, with its verdict for each standard that it speaks of."""

    text: str
    verdicts: tuple[VerdictView, ...]
    cites: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HeldView:
    """A sentence held against the books alone. said: its differences in few words, each with both values. words: the
    same as sentences. keys: the paragraphs to read beside it."""

    verdict: Literal["stated", "differs", "open"]
    words: str
    keys: tuple[str, ...] = ()
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SentenceView:
    """One sentence of a script, or one step of a drill.

    time: when it is spoken, '0:41', or the number of the step. cites: keys of the paragraphs it is marked with, as in
    `ParagraphView.key`. cite_verdict: for one that is marked: every figure of it is stated there; it has no figure to
    compare, or a doubt about it, and only reports; or it fails. cite_words: the same as a sentence. likely: for an
    unchecked one that was held against nothing, the likeliest paragraphs. held: what the books alone say of one without
    claims. at_odds: what its words say otherwise than the claims under it. caution: of a step. carried: the cautions of
    the parts that it speaks of or moves, in the words of `CautionView.text`.
    """

    text: str
    chapter: str
    paragraph: int
    kind: Literal["claimed", "cited", "aside", "unchecked", "step"]
    time: str = ""
    claims: tuple[ClaimView, ...] = ()
    cites: tuple[str, ...] = ()
    cite_verdict: Literal["", "stated", "reported", "fails"] = ""
    cite_words: str = ""
    likely: tuple[str, ...] = ()
    caution: str = ""
    carried: tuple[str, ...] = ()
    held: HeldView | None = None
    at_odds: tuple[str, ...] = ()

    @property
    def differs(self) -> bool:
        """Whether its words say otherwise than the books or its claims, by a comparison that can be mistaken."""
        return bool(self.at_odds) or (self.held is not None and self.held.verdict == "differs")

    @property
    def wrong(self) -> bool:
        """Whether it must be mended, on whatever standard."""
        return self.cite_verdict == "fails" or any(v.wrong for claim in self.claims for v in claim.verdicts)


@dataclass(frozen=True, slots=True)
class ScriptView:
    """One script or drill. captions: the file in the pack, '' if there is none. length: how long it takes to say,
    '4:10'. says: where a drill begins, and for which standards it is."""

    name: str
    title: str
    sentences: tuple[SentenceView, ...]
    captions: str = ""
    length: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class SheetView:
    """One drawing: for which standard, system and situation, its file in the pack, what it shows in words.

    svg: the drawing as `draw/svg.py` writes it for a page that has its stylesheet; '' where the page shows the file.
    """

    standard: str
    system: str
    situation: str
    path: str
    words: tuple[str, ...]
    svg: str


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
class ProductView:
    """One sort of thing that the pack has besides the page. links: paths in the pack, each with its title. others: the
    files that one comes to from there, likewise."""

    name: str
    says: str
    links: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class PackView:
    """All that the page shows. made: a date as text, given by the caller; '' leaves it out.

    products: what else is in the pack. airframes: single aeroplanes, which claims speak of only by name.
    """

    title: str
    maker: str
    says: str
    notice: str
    standards: tuple[str, ...]
    airframes: tuple[str, ...] = ()
    scripts: tuple[ScriptView, ...] = ()
    drills: tuple[ScriptView, ...] = ()
    sheets: tuple[SheetView, ...] = ()
    paragraphs: tuple[ParagraphView, ...] = ()
    glossary: tuple[TermView, ...] = ()
    cautions: tuple[CautionView, ...] = ()
    assumptions: tuple[AssumptionView, ...] = ()
    problems: Problems = ()
    made: str = ""
    language: str = "en-GB"
    products: tuple[ProductView, ...] = ()

    @property
    def subjects(self) -> tuple[str, ...]:
        """What can be chosen to read the page for: the standards, then the airframes."""
        return self.standards + self.airframes
