"""What stands on a handout, as the template takes it. All measures in points."""

from dataclasses import dataclass

from cutaway.handbook.records import HandoutKind

Kind = HandoutKind


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper: its name for users and for the typesetter, and its sides, pt."""

    name: str
    known_as: str
    width: float
    height: float


PAPERS = (Paper("a4", "a4", 595.28, 841.89), Paper("letter", "us-letter", 612.0, 792.0))
MARGIN = 56.7
"""At the sides of pages: 20 mm."""
SHEET_MARGIN = 42.52
"""At the sides of the visitor sheet, where the drawing needs the room: 15 mm."""


@dataclass(frozen=True, slots=True)
class Key:
    """What one sort of line of a drawing means: a sample as SVG, and the words."""

    svg: str
    words: str


@dataclass(frozen=True, slots=True)
class Tile:
    """A piece of a drawing on one page. column, row: its place in the whole, from 0."""

    svg: str
    width: float
    height: float
    column: int
    row: int


@dataclass(frozen=True, slots=True)
class Plate:
    """A drawing brought to paper. words: its text alternative. flipped: on a page of its own, lying on its long side.

    whole: on a page of its own, since it needs the room. smallest: the size of its smallest words, pt. looks: stands
    for what is drawn, so that sheets that look the same are known.
    """

    title: str
    says: str
    words: tuple[str, ...]
    tiles: tuple[Tile, ...]
    columns: int
    rows: int
    flipped: bool
    whole: bool
    smallest: float
    key: tuple[Key, ...]
    cautions: tuple[str, ...]
    looks: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence and the note behind it, '' for none. opens: whether a paragraph begins with it."""

    text: str
    note: str
    opens: bool = False


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter of a story. title: '' where the script has none."""

    title: str
    sentences: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Story:
    """One script as it is read."""

    title: str
    chapters: tuple[Chapter, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """A term: its meaning in full, and simply ('' where one level serves)."""

    name: str
    full: str
    simply: str
    said_as: str
    source: str


@dataclass(frozen=True, slots=True)
class Told:
    """A caution with what it is about and its paragraphs."""

    text: str
    about: str
    source: str


@dataclass(frozen=True, slots=True)
class Book:
    """A book behind the handout. short: what notes call it, 'hb'."""

    short: str
    words: str
    rights: str


@dataclass(frozen=True, slots=True)
class Handout:
    """The whole. points: sentences for a sheet of one page; words: a drawing told, where none can be shown.

    lead: the type in a sentence or two. assumed: how many values no book gives; tried: whether
    they were taken to both ends of their ranges. called: what readers of files show as its name, '' for the title.
    """

    kind: Kind
    paper: Paper
    title: str
    type: str
    maker: str
    lead: str
    notice: str
    standard: str
    situation: str
    system: str = ""
    plates: tuple[Plate, ...] = ()
    points: tuple[Said, ...] = ()
    words: tuple[str, ...] = ()
    stories: tuple[Story, ...] = ()
    terms: tuple[Word, ...] = ()
    cautions: tuple[Told, ...] = ()
    books: tuple[Book, ...] = ()
    credits: tuple[str, ...] = ()
    assumed: int = 0
    tried: bool = True
    language: str = "en-GB"
    called: str = ""
