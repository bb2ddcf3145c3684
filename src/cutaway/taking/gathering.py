"""All pages of some files: text as it stands, pictures read, several at once, or taken from the shelf."""

import hashlib
from collections.abc import Callable
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass, replace
from pathlib import Path

from PIL import Image

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.images import open_pictures
from cutaway.taking.keeping import Shelf, key
from cutaway.taking.pdf import Book, open_book
from cutaway.taking.reader import Reader, ReaderFailedError, find_reader, read_page
from cutaway.taking.records import Page
from cutaway.taking.second import SecondReader, find_second_reader
from cutaway.taking.sorts import Sort, named_as, no_book, other_sort, sort_of

Progress = Callable[[int], None]


@dataclass(frozen=True, slots=True)
class Given:
    """A file that was given: how it is shown, its bytes, their digest, its sort."""

    path: Path
    shown: str
    data: bytes
    digest: str
    sort: Sort


@dataclass(frozen=True, slots=True)
class Job:
    """A picture to be read. number: of the page in all files together. inside: of the page in its file."""

    given: Given
    number: int
    inside: int
    open: Callable[[], Image.Image]


def read_given(path: Path, sure: bool = False) -> tuple[Given | None, Problems]:
    """A file's bytes, or why there are none. sure: a person said that it is a book, whatever it looks like."""
    shown = str(path)
    try:
        data = path.read_bytes()
    except OSError as fault:
        why = (fault.strerror or "the system refused").lower()
        return None, (Diagnostic("T101", None, f"'{shown}' cannot be read: {why}.", "Name a file that is there."),)
    if not data.strip():
        return None, (Diagnostic("T112", None, f"'{shown}' is empty.", "Take a file with text in it."),)
    sort = sort_of(path, data)
    if sort == "unknown":
        what, hint = other_sort(path, data)
        return None, (Diagnostic("T102", None, f"'{shown}' is {what}.", hint),)
    other = no_book(path, data) if sort == "text" and not sure else ""
    if other:
        words = f"'{shown}' does not look like a book but like {other}; it was not taken."
        return None, (Diagnostic("T220", None, words, "If it is a book all the same, say --yes."),)
    given = Given(path, shown, data, hashlib.sha256(data).hexdigest(), sort)
    pretended = named_as(path) if sort == "text" else ""
    if not pretended:
        return given, ()
    return given, (
        Diagnostic(
            "T215",
            None,
            f"'{shown}' is named as {pretended} but is none: it holds plain text, and was taken as that.",
            "If that is not the book, fetch the file again; else give it the ending .txt.",
        ),
    )


class Gatherer:
    """Has a life: the readers it found, the pages it keeps, the files it could not open. One for one call of `take`."""

    def __init__(self, shelf: Shelf, progress: Progress, workers: int, read_again: bool) -> None:
        self._shelf = shelf
        self._progress = progress
        self._workers = workers
        self._read_again = read_again
        self.reader: Reader | None = None
        self.second: SecondReader | None = None
        self.closed: frozenset[str] = frozenset()

    def pages(self, files: tuple[Given, ...], wanted: Callable[[int], bool]) -> tuple[tuple[Page, ...], int, Problems]:
        """The pages of all PDF files and pictures that are wanted, numbered on; how many there are in all."""
        pages: list[Page] = []
        jobs: list[Job] = []
        problems: Problems = ()
        books: list[Book] = []
        before = 0
        try:
            for given in files:
                if given.sort == "pdf":
                    book, more = open_book(given.data, given.shown)
                    problems += more
                    if book is None:
                        self.closed |= {given.shown}
                    else:
                        books.append(book)
                        text, pictures = self._of_book(given, book, before, wanted)
                        pages += text
                        jobs += pictures
                        before += book.pages
                else:
                    openers, more = open_pictures(given.data, given.shown)
                    problems += more
                    if not openers:
                        self.closed |= {given.shown}
                    numbers = range(before + 1, before + len(openers) + 1)
                    jobs += [
                        Job(given, number, at, opener)
                        for at, (number, opener) in enumerate(zip(numbers, openers, strict=True), 1)
                        if wanted(number)
                    ]
                    before += len(openers)
            read, more = self._read(jobs)
        finally:
            for book in books:
                book.close()
        pages += read
        return tuple(sorted(pages, key=lambda page: page.number)), before, problems + more

    def _of_book(
        self, given: Given, book: Book, before: int, wanted: Callable[[int], bool]
    ) -> tuple[list[Page], list[Job]]:
        pages: list[Page] = []
        jobs: list[Job] = []
        for inside in range(1, book.pages + 1):
            number = before + inside
            if not wanted(number):
                continue
            page = book.text_page(inside)
            if page is None or (self._read_again and page.over_picture):
                jobs.append(Job(given, number, inside, lambda inside=inside: book.picture(inside)))  # type: ignore[misc]
            else:
                pages.append(replace(page, number=number))
                self._progress(1)
        return pages, jobs

    def _read(self, jobs: list[Job]) -> tuple[list[Page], Problems]:
        if not jobs:
            return [], ()
        self.reader = find_reader()
        if self.reader is None:
            return [], (_no_reader(jobs),)
        self.second = find_second_reader()
        pages: list[Page] = []
        problems: list[Diagnostic] = []
        pending: dict[Future[Page], Job] = {}

        def collect(at_most: int) -> None:
            while len(pending) > at_most:
                for future in wait(pending, return_when=FIRST_COMPLETED).done:
                    job = pending.pop(future)
                    fault = future.exception()
                    if isinstance(fault, ReaderFailedError | OSError):
                        problems.append(_not_read(job, fault))
                    else:
                        pages.append(replace(future.result(), number=job.number))
                    self._progress(1)

        with ThreadPoolExecutor(self._workers) as pool:
            try:
                for job in jobs:
                    name = key(
                        job.given.digest, job.inside, self.reader.version, self.second.name if self.second else ""
                    )
                    kept = self._shelf.get(name)
                    if kept is not None:
                        pages.append(replace(kept, number=job.number))
                        self._progress(1)
                        continue
                    collect(self._workers)  # one more than are read waits ready; more would fill the memory
                    try:
                        picture = job.open()
                    except (OSError, ValueError, RuntimeError) as fault:
                        problems.append(_not_read(job, fault))
                        continue
                    pending[pool.submit(self._one, picture, job, name)] = job
                collect(0)
            except BaseException:
                # A stop: the pages in hand are finished and kept, none is begun.
                pool.shutdown(wait=True, cancel_futures=True)
                raise
        return pages, tuple(problems)

    def _one(self, picture: Image.Image, job: Job, name: str) -> Page:
        assert self.reader is not None
        page = read_page(picture, job.number, self.reader, self.second)
        self._shelf.put(name, page)
        return page


def _no_reader(jobs: list[Job]) -> Diagnostic:
    shown = ", ".join(sorted({job.given.shown for job in jobs}))
    are = "is a picture" if len(jobs) == 1 else "are pictures"
    return Diagnostic(
        "T107",
        None,
        f"{counted(len(jobs), 'page')} of {shown} {are}, and the reader of pictures is not installed.",
        "Install it with: sudo apt-get install tesseract-ocr    (it brings the English letters with it)",
    )


def _not_read(job: Job, fault: BaseException) -> Diagnostic:
    return Diagnostic(
        "T114",
        None,
        f"Page {job.inside} of '{job.given.shown}' could not be read: {fault}.",
        "The other pages were taken. Scan that page again, or type it into the file.",
    )
