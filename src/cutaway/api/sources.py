"""What the books say of themselves, and what rests on them."""

from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.handbook.amendments import InForce, Superseded, amendments_at, paragraphs_at, superseded
from cutaway.handbook.contradictions import Contradiction, contradictions
from cutaway.handbook.dates import read_date
from cutaway.handbook.records import Folder, Source
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from cutaway.narrate.standing_on import Standing, standing_on
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order


@dataclass(frozen=True, slots=True)
class Book:
    """One book at a date: its amendments, how many of its paragraphs stand, and which are altered or replaced."""

    source: Source
    amendments: tuple[InForce, ...]
    standing: int
    superseded: tuple[Superseded, ...]


@dataclass(frozen=True, slots=True)
class Sources:
    """The books of a folder at a date ('' for as they are), their contradictions, and what rests on each paragraph."""

    folder: Folder
    at: str
    books: tuple[Book, ...]
    contradictions: tuple[Contradiction, ...]
    standing: tuple[Standing, ...]


def sources(folder: Path | str, at: str = "") -> tuple[Sources | None, Problems]:
    """The books of a folder as they were at a date: 'May 1939', '1939-05-12', '1940'; '' for as they are now."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    date = read_date(at) if at.strip() else None
    if at.strip() and date is None:
        hint = "Write a year, a month of a year or a day: 1939, May 1939, 12 May 1939, 1939-05-12."
        return None, (Diagnostic("C113", None, f"'{at}' is not understood as a date.", hint),)
    told: list[Diagnostic] = []
    books: list[Book] = []
    for source in loaded.folder.sources:
        amendments, more = amendments_at(source, date)
        told.extend(more)
        books.append(Book(source, amendments, len(paragraphs_at(source, date)), superseded(source, date)))
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
        tuple(books),
        contradictions(
            loaded.folder,
            tuple(one for source in loaded.folder.sources for one in paragraphs_at(source, date)),
            tuple(one for book in books for one in book.superseded),
            ranking.index,
        ),
        standing_on(loaded.folder, loaded.parsed, held),
    )
    return found, in_order(tuple(told))
