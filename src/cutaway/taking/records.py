"""What stands on a page as it was read, and what was made of it."""

from dataclasses import dataclass
from typing import Literal

Box = tuple[int, int, int, int]
"""Left, top, right, bottom, in dots of the straightened page."""

Origin = Literal["text", "read"]
"""Whether the letters were in the file itself, or were read from a picture."""


@dataclass(frozen=True, slots=True)
class Word:
    """One word. confidence: of the reader, 0 to 100; 100 where the letters were in the file. was: as the reader had it,
    where a confusion of letters was put right."""

    text: str
    confidence: float = 100.0
    was: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of print. top, bottom: in the page's own measure, 0 where the file has no places; gap: blank lines stand
    before it. crop: its strip of the picture (JPEG), kept where somebody has to look at it. second: the other reader's
    words for the same strip, '' where there was none."""

    words: tuple[Word, ...]
    top: float = 0.0
    bottom: float = 0.0
    gap: bool = False
    crop: bytes = b""
    second: str = ""

    @property
    def text(self) -> str:
        """The words with single blanks."""
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True)
class Page:
    """One page. number: counted from 1 in the file. turned: degrees by which it lay wrong. over_picture: its text lies
    over a picture of a page, so that somebody else's reader made it. blank: there is no ink; where there is ink and no
    line, nothing could be made out."""

    number: int
    lines: tuple[Line, ...]
    origin: Origin
    turned: int = 0
    over_picture: bool = False
    blank: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its title, rows of cells as they are shown (the first is its head), and notes that stand under it."""

    title: str
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line with its place: page and position on it, both from 1."""

    page: int
    place: int
    line: Line


@dataclass(frozen=True, slots=True)
class Taken:
    """One paragraph as taken. number: '21' or '25a', without sign. blocks: its text, blank lines between; a block that
    begins with '> ' is a caution. lines: what it was made from, empty for tables. on: the standards that it is for, ''
    for all. printed: the number on its page, where some page of the book has one that could be read; '' if this one's
    could not, None where no page's could. under: the line above it that names an amendment and nothing else.
    section: the heading above it, perhaps above others too, that names marks."""

    number: str
    title: str
    blocks: tuple[str, ...]
    page: int
    amendment: str = ""
    lines: tuple[PlacedLine, ...] = ()
    on: str = ""
    printed: str | None = None
    under: str = ""
    section: str = ""

    @property
    def confidence(self) -> float:
        """The mean confidence of its words; 100 where nothing was read from a picture."""
        words = [word.confidence for placed in self.lines for word in placed.line.words]
        return sum(words) / len(words) if words else 100.0


@dataclass(frozen=True, slots=True)
class Doubt:
    """One word that a person should confirm. why: 'figure', 'before a unit', 'hard to read' or 'put right'. second: the
    other reader agrees, differs, or was not there ('')."""

    id: str
    page: int
    paragraph: str
    read: str
    context: str
    confidence: float
    why: str
    second: Literal["", "agrees", "differs"] = ""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A paragraph that names marks in its heading or opening, or an amendment. words: where it does. on: the `on:` or
    the amendment that they mean, '' where the type has no such mark. sure: it was written without asking. why: what
    makes it doubtful. answer: a person's."""

    id: str
    paragraph: str
    page: int
    words: str
    on: str
    sure: bool
    why: str = ""
    answer: str = ""
    asks: Literal["standards", "amendment"] = "standards"
