"""What the books say of themselves, and what rests on them."""

from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.handbook.amendments import InForce, Superseded, amendments_at, paragraphs_at, superseded
from cutaway.handbook.contradictions import Contradiction, contradictions
from cutaway.handbook.dates import Stretch, day_words, read_date
from cutaway.handbook.records import Folder, Paragraph, Source
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from cutaway.narrate.standing_on import Standing, standing_on
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.publish.published import Publication, publications


@dataclass(frozen=True, slots=True)
class Book:
    """One book at a date: its amendments, how many of its paragraphs stand, and which are altered or replaced.

    there: False where the book is of a later date; None where its own date is not understood, and it is taken to have
    been there.
    """

    source: Source
    there: bool | None
    amendments: tuple[InForce, ...]
    standing: int
    superseded: tuple[Superseded, ...]


@dataclass(frozen=True, slots=True)
class Sources:
    """The books of a folder at a date ('' for as they are), their contradictions, and what rests on each paragraph.

    on: the day that the date means, which is its last: '31 December 1939' for 1939. published: what went out last, None
    where nothing did.
    """

    folder: Folder
    at: str
    on: str
    books: tuple[Book, ...]
    contradictions: tuple[Contradiction, ...]
    standing: tuple[Standing, ...]
    published: Publication | None = None


def sources(folder: Path | str, at: str = "") -> tuple[Sources | None, Problems]:
    """The books of a folder as they were at a date: 'May 1939', '1939-05-12', '1940'; '' for as they are now."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    date = read_date(at) if at.strip() else None
    if at.strip() and date is None:
        hint = "Write a year, a month of a year or a day: 1939, May 1939, 12 May 1939, 1939-05-12."
        return None, (Diagnostic("C113", None, f"'{at}' is not understood as a date.", hint),)
    told: Problems = ()
    books: list[Book] = []
    stood: list[Paragraph] = []
    for source in loaded.folder.sources:
        book, paragraphs, more = _book(source, date)
        books.append(book)
        stood.extend(paragraphs)
        told += more
    earlier, more = publications(loaded.path)
    told += more
    ranking = Ranking(loaded.folder)
    comparer = Comparer(ranking)
    held = tuple(
        (script, comparer.sentence(heard))
        for script in loaded.folder.scripts
        for heard in ranking.heard(script)
        if not (heard.sentence.claims or heard.sentence.cites or heard.sentence.aside)
    )
    found = Sources(
        loaded.folder,
        at.strip(),
        day_words(date.last) if date is not None else "",
        tuple(books),
        contradictions(
            loaded.folder,
            tuple(stood),
            tuple(one for book in books for one in book.superseded),
            ranking.index,
        ),
        standing_on(loaded.folder, loaded.parsed, held),
        earlier[-1] if earlier else None,
    )
    return found, in_order(told)


def _book(source: Source, date: Stretch | None) -> tuple[Book, tuple[Paragraph, ...], Problems]:
    """A book at a date with the paragraphs that stood in it then; none of one that did not exist yet."""
    amendments, problems = amendments_at(source, date)
    written = read_date(source.date) if source.date else None
    there = True if date is None else None if written is None else written.first <= date.last
    if there is False:
        return Book(source, there, amendments, 0, ()), (), problems
    standing = paragraphs_at(source, date)
    return Book(source, there, amendments, len(standing), superseded(source, date)), standing, problems
