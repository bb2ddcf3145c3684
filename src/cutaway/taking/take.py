"""Taking in a source from its files to `sources/<key>.md`: the whole way, in order."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from cutaway.handbook.names import listed
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.taking.amended import with_amendments
from cutaway.taking.before import answers_of, folder_problems, key_of, last_record, type_of
from cutaway.taking.confirming import Answer, with_answers
from cutaway.taking.gathering import Gatherer, Given, read_given
from cutaway.taking.markdown import markdown_paragraphs
from cutaway.taking.paragraphs import paragraphs_of
from cutaway.taking.printed import printed_pages
from cutaway.taking.putting import Gathered, Outcome, put
from cutaway.taking.records import Page, Table, Taken
from cutaway.taking.running_heads import without_running_heads
from cutaway.taking.standards import with_standards
from cutaway.taking.tables import as_markdown, csv_rows, workbook_rows
from cutaway.taking.tables_apart import tables_in
from cutaway.taking.texts import decoded_text, text_pages
from cutaway.taking.told import told_of_pages
from cutaway.taking.wanted import ALL, Wanted


@dataclass(frozen=True, slots=True)
class HowTaken:
    """What may be said about taking. read_again: read the pictures even where text lies over them.
    new_copy: the files are another copy of the book that the key already names. sure: one that
    does not look like a book is one."""

    key: str = ""
    pages: Wanted = ALL
    read_again: bool = False
    new_copy: bool = False
    sure: bool = False
    workers: int = 2


def take(
    folder: Path, files: tuple[Path, ...], how: HowTaken, shelf: Any, progress: Callable[[int], None]
) -> tuple[Outcome | None, Problems]:
    """Take some files in as one source. A file that is not there stops the whole; one that holds nothing to be read is
    left out, and the rest is taken."""
    key, problems = key_of(how.key, files[0])
    problems = problems or folder_problems(folder)
    if problems:
        return None, problems
    given, problems = _given(files, how.sure)
    if not given or any(problem.code == "T101" for problem in problems):
        return None, problems
    record, more = last_record(folder, key, given, how.new_copy)
    if more:
        return None, more
    answers, more = answers_of(folder, key)
    problems += more
    if answers is None:
        return None, problems
    gathered, used, more = _gather(given, how, Gatherer(shelf, progress, how.workers, how.read_again), answers)
    problems += more
    if gathered is None:
        return None, problems
    runs, proposals = with_standards(gathered.runs, type_of(folder), answers)
    labels = tuple(placed.line.text for placed in gathered.labels)
    runs, of_amendments, amendments = with_amendments(runs, answers, labels)
    whole = gathered.whole and not has_error(problems)
    gathered = replace(gathered, runs=runs, proposals=proposals + of_amendments, amendments=amendments, whole=whole)
    outcome, more = put(folder, key, used, gathered, record["written"], answers)
    problems += more
    if outcome is None:
        return None, problems
    names = {one.shown for one in used}
    return replace(outcome, not_taken=tuple(str(file) for file in files if str(file) not in names)), problems


def _given(files: tuple[Path, ...], sure: bool) -> tuple[tuple[Given, ...], Problems]:
    read = [read_given(path, sure) for path in files]
    return tuple(given for given, _ in read if given), tuple(p for _, some in read for p in some)


def _gather(
    given: tuple[Given, ...], how: HowTaken, gatherer: Gatherer, answers: tuple[Answer, ...]
) -> tuple[Gathered | None, tuple[Given, ...], Problems]:
    """All that is in some files, and those of them that could be opened."""
    pages, count, problems = gatherer.pages(
        tuple(one for one in given if one.sort in ("pdf", "picture")), how.pages.has
    )
    if any(p.code == "T107" for p in problems) and not pages:
        return None, (), problems
    others, count, more = _others(given, how.pages, count)
    problems += more
    closed = gatherer.closed | others.closed
    opened = tuple(one for one in given if one.shown not in closed)
    if opened:
        problems += _no_such_pages(how.pages, count)
    pages, used = with_answers((*pages, *others.pages), answers)
    lines, left_out = without_running_heads(pages)
    runs, more = paragraphs_of(lines)
    problems += more + told_of_pages(pages, left_out)
    printed = printed_pages(left_out, len(pages))
    parted = _with_tables([_printed(run.paragraphs, printed) for run in runs], others.texts, others.tables)
    if not any(parted):
        return None, (), (*problems, _nothing(given)) if not has_error(problems) else problems
    readers = " and ".join(
        name for name in (gatherer.reader and gatherer.reader.version, gatherer.second and gatherer.second.name) if name
    )
    labels = tuple(label for run in runs for label in run.labels)
    done = Gathered(tuple(parted), pages, left_out, dict(used), readers, how.pages.all, labels=labels)
    return done, opened, problems


@dataclass(frozen=True, slots=True)
class _Others:
    """What files hold that are no pages of print. closed: the files that could not be opened."""

    pages: tuple[Page, ...]
    texts: tuple[Taken, ...]
    tables: tuple[Table, ...]
    closed: frozenset[str]


def _others(given: tuple[Given, ...], wanted: Wanted, count: int) -> tuple[_Others, int, Problems]:
    """Texts, Markdown and tables. count: of the pages so far, and after them."""
    pages: list[Page] = []
    texts: list[Taken] = []
    tables: list[Table] = []
    closed: set[str] = set()
    problems: Problems = ()
    for one in given:
        more: Problems = ()
        if one.sort == "workbook":
            sheets, more = workbook_rows(one.data, one.shown)
            if has_error(more):
                closed.add(one.shown)
            for title, rows in sheets:
                found, told = tables_in(title, rows, one.shown)
                tables += found
                more += told
        elif one.sort in ("table", "markdown", "text"):
            text, more = decoded_text(one.data, one.shown)
            if one.sort == "table":
                title = one.path.stem.replace("-", " ").replace("_", " ")
                found, told = tables_in(title, csv_rows(text), one.shown)
                tables += found
            elif one.sort == "markdown":
                some, told = markdown_paragraphs(text)
                texts += some
            else:
                told = ()
                further = text_pages(text)
                pages += [replace(p, number=p.number + count) for p in further if wanted.has(p.number + count)]
                count += len(further)
            more += told
        problems += more
    return _Others(tuple(pages), tuple(texts), tuple(tables), frozenset(closed)), count, problems


def _printed(paragraphs: tuple[Taken, ...], printed: Mapping[int, str]) -> tuple[Taken, ...]:
    """With the number that their page bears, where the book has such numbers."""
    if all(number == str(page) for page, number in printed.items()):
        return paragraphs
    return tuple(replace(taken, printed=printed.get(taken.page, "")) for taken in paragraphs)


def _with_tables(
    runs: list[tuple[Taken, ...]], texts: tuple[Taken, ...], tables: tuple[Table, ...]
) -> list[tuple[Taken, ...]]:
    """The runs, Markdown as a run of its own, and the tables numbered on after the first run."""
    if texts:
        runs = [*runs, tuple(_once_each(texts))]
    highest = max((int(re.sub(r"\D", "", taken.number)) for taken in runs[0]), default=0) if runs else 0
    made = tuple(
        Taken(str(number), table.title, (as_markdown(table), *table.notes), number - highest)
        for number, table in enumerate(tables, highest + 1)
    )
    if not made:
        return runs
    return [(*runs[0], *made), *runs[1:]] if runs else [made]


def _once_each(texts: tuple[Taken, ...]) -> list[Taken]:
    """Paragraphs of several Markdown files, numbered on where a number was there already."""
    seen: set[str] = set()
    done: list[Taken] = []
    for taken in texts:
        number = taken.number
        if number in seen:
            number = str(1 + max(int(re.sub(r"\D", "", n)) for n in seen))
        seen.add(number)
        done.append(replace(taken, number=number))
    return done


def _no_such_pages(wanted: Wanted, count: int) -> Problems:
    """Stretches of pages that lie beyond the end."""
    beyond = [str(a) if a == b else f"{a} to {b}" for a, b in wanted.stretches if a > count]
    if not beyond:
        return ()
    has = f"There {'is' if count == 1 else 'are'} only {counted(count, 'page')}" if count else "There are no pages"
    word = "page" if len(beyond) == 1 and "to" not in beyond[0] else "pages"
    hint = f"Write --pages 1-{count}, or leave it out." if count > 1 else "Leave --pages out."
    return (Diagnostic("T117", None, f"{has} in what was given, so no {word} {listed(beyond)}.", hint),)


def _nothing(given: tuple[Given, ...]) -> Diagnostic:
    return Diagnostic(
        "T112",
        None,
        f"Nothing to take was found in {', '.join(one.shown for one in given)}.",
        "Look whether the pages are blank or too faint.",
    )
