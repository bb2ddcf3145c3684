"""Taking in a source from its files to `sources/<key>.md`: the whole way, in order."""

import json
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from cutaway.handbook.reading import decoded
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.taking.confirming import (
    Answer,
    read_answers,
    with_answers,
)
from cutaway.taking.gathering import Gatherer, Given, read_given
from cutaway.taking.markdown import markdown_paragraphs
from cutaway.taking.paragraphs import paragraphs_of
from cutaway.taking.putting import Gathered, Outcome, put
from cutaway.taking.records import Table, Taken
from cutaway.taking.running_heads import without_running_heads
from cutaway.taking.tables import as_markdown, csv_table, workbook_tables
from cutaway.taking.texts import decoded_text, text_pages
from cutaway.taking.told import told_of_pages
from cutaway.taking.wanted import ALL, Wanted


@dataclass(frozen=True, slots=True)
class HowTaken:
    """What may be said about taking. read_again: read the pictures even where text lies over them.
    new_copy: the files are another copy of the book that the key already names."""

    key: str = ""
    pages: Wanted = ALL
    read_again: bool = False
    new_copy: bool = False
    workers: int = 2


def take(
    folder: Path, files: tuple[Path, ...], how: HowTaken, shelf: Any, progress: Callable[[int], None]
) -> tuple[Outcome | None, Problems]:
    """Take some files in as one source. Nothing is written where an error stands in the way of the whole."""
    given, problems = _given(files)
    if has_error(problems):
        return None, problems
    key, more = _key(how.key, files[0])
    if more or not folder.is_dir():
        return None, more or (_no_folder(folder),)
    record, more = _record(folder, key, given, how.new_copy)
    if more:
        return None, more
    answers, more = _answers(folder, key)
    problems += more
    if answers is None:
        return None, problems
    gathered, more = _gather(given, how, shelf, progress, answers)
    problems += more
    if gathered is None:
        return None, problems
    outcome, more = put(folder, key, given, gathered, record["written"], answers)
    return outcome, problems + more


# --- before -------------------------------------------------------------------------------------------------------


def _given(files: tuple[Path, ...]) -> tuple[tuple[Given, ...], Problems]:
    read = [read_given(path) for path in files]
    return tuple(given for given, _ in read if given), tuple(p for _, some in read for p in some)


def _key(key: str, first: Path) -> tuple[str, Problems]:
    """The source's key: as said, or made from the file's name."""
    if not key:
        made = re.sub(r"[^a-z0-9]+", "-", first.stem.lower()).strip("-")
        key = made if made and not made.isdigit() else "book"
    if re.fullmatch(r"[A-Za-z][A-Za-z0-9 -]{0,60}", key) and key == key.strip():
        return key, ()
    return key, (
        Diagnostic(
            "T109",
            None,
            f"'{key}' cannot be the short name of a source: it is written before every § that cites it.",
            "Begin with a letter, and use letters, digits and hyphens: --key hb",
        ),
    )


def _no_folder(folder: Path) -> Diagnostic:
    return Diagnostic(
        "T111",
        None,
        f"There is no folder '{folder}' to take it into.",
        "Begin one with: cutaway new NAME, then say -C NAME",
    )


def _record(folder: Path, key: str, given: tuple[Given, ...], new_copy: bool) -> tuple[dict[str, Any], Problems]:
    """What is known of the last taking under this key; a problem where the key belongs to something else."""
    try:
        record = json.loads((folder / "taken" / key / "taken.json").read_text(encoding="utf-8"))
        record = {"files": list(record["files"]), "written": dict(record["written"])}
    except (OSError, ValueError, KeyError, TypeError):
        record = {"files": [], "written": {}}
        if (folder / "sources" / f"{key}.md").exists():
            return record, (
                Diagnostic(
                    "T108",
                    None,
                    f"'sources/{key}.md' is there already and was not taken from a file; nothing was written.",
                    f"Give this one a name of its own: --key {key}-2",
                ),
            )
    known = {str(file.get("digest")) for file in record["files"]}
    if known and not new_copy and not known <= {one.digest for one in given}:
        names = ", ".join(str(file.get("name")) for file in record["files"])
        return record, (
            Diagnostic(
                "T108",
                None,
                f"'sources/{key}.md' was taken from {names}, which is not what is given now; nothing was written.",
                f"Give this one a name of its own with --key, or say --new-copy where it is another copy of "
                f"the same book; to add pages, name the earlier files too: {names} and then the new ones.",
            ),
        )
    return record, ()


def _answers(folder: Path, key: str) -> tuple[tuple[Answer, ...] | None, Problems]:
    path = folder / "taken" / key / "confirm.yaml"
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return (), ()
    except OSError as fault:
        return None, (Diagnostic("T101", None, f"'{path}' cannot be read: {fault.strerror}.", "Mend its rights."),)
    file, problems = decoded(data, f"taken/{key}/confirm.yaml")
    return read_answers(file) if file is not None else (None, problems)


# --- gathering ----------------------------------------------------------------------------------------------------


def _gather(
    given: tuple[Given, ...], how: HowTaken, shelf: Any, progress: Callable[[int], None], answers: tuple[Answer, ...]
) -> tuple[Gathered | None, Problems]:
    problems: Problems = ()
    gatherer = Gatherer(shelf, progress, how.workers, how.read_again)
    pages, count, more = gatherer.pages(tuple(one for one in given if one.sort in ("pdf", "picture")), how.pages.has)
    problems += more
    if any(p.code == "T107" for p in more) and not pages:
        return None, problems
    texts: list[Taken] = []
    tables: list[Table] = []
    for one in given:
        if one.sort == "workbook":
            found, more = workbook_tables(one.data, one.shown)
            tables += found
        elif one.sort in ("table", "markdown", "text"):
            text, more = decoded_text(one.data, one.shown)
            if one.sort == "table":
                tables.append(csv_table(text, one.path.stem.replace("-", " ").replace("_", " ")))
            elif one.sort == "markdown":
                some, told = markdown_paragraphs(text)
                texts += some
                more += told
            else:
                further = text_pages(text)
                pages += tuple(replace(p, number=p.number + count) for p in further if how.pages.has(p.number + count))
                count += len(further)
        else:
            continue
        problems += more
    pages, used = with_answers(pages, answers)
    lines, left_out = without_running_heads(pages)
    runs, more = paragraphs_of(lines)
    problems += more + told_of_pages(pages, left_out)
    parted = _with_tables([tuple(run.paragraphs) for run in runs], texts, [t for t in tables if t.rows])
    if not any(parted):
        return None, (*problems, _nothing(given)) if not has_error(problems) else problems
    readers = " and ".join(
        name for name in (gatherer.reader and gatherer.reader.version, gatherer.second and gatherer.second.name) if name
    )
    whole = how.pages.all and not has_error(problems)
    return Gathered(tuple(parted), pages, left_out, dict(used), readers, whole), problems


def _with_tables(runs: list[tuple[Taken, ...]], texts: list[Taken], tables: list[Table]) -> list[tuple[Taken, ...]]:
    """The runs, Markdown as a run of its own, and the tables numbered on after the first run."""
    if texts:
        runs = [*runs, tuple(_once_each(texts))]
    highest = max((int(re.sub(r"\D", "", taken.number)) for taken in runs[0]), default=0) if runs else 0
    made = tuple(
        Taken(str(number), table.title, (as_markdown(table),), number - highest)
        for number, table in enumerate(tables, highest + 1)
    )
    if not made:
        return runs
    return [(*runs[0], *made), *runs[1:]] if runs else [made]


def _once_each(texts: list[Taken]) -> list[Taken]:
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


def _nothing(given: tuple[Given, ...]) -> Diagnostic:
    return Diagnostic(
        "T112",
        None,
        f"Nothing to take was found in {', '.join(one.shown for one in given)}.",
        "Look whether the pages are blank, too faint, or left out by --pages.",
    )
