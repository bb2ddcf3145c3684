"""Taking in a source from its files to `sources/<key>.md`: the whole way, in order."""

import json
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from cutaway.handbook.reading import LARGEST, decoded
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.taking.confirming import (
    Answer,
    confirm_html,
    confirm_yaml,
    crop_name,
    doubts_of,
    read_answers,
    with_answers,
    word_id,
)
from cutaway.taking.gathering import Gatherer, Given, read_given
from cutaway.taking.markdown import markdown_paragraphs
from cutaway.taking.merging import Merged, digests, merged
from cutaway.taking.paragraphs import paragraphs_of
from cutaway.taking.records import Doubt, Page, PlacedLine, Table, Taken
from cutaway.taking.running_heads import without_running_heads
from cutaway.taking.source_text import SourceText, apart, source_text
from cutaway.taking.tables import as_markdown, csv_table, workbook_tables
from cutaway.taking.texts import decoded_text, text_pages
from cutaway.taking.told import told_of_merging, told_of_pages, told_of_runs
from cutaway.taking.wanted import ALL, Wanted
from cutaway.taking.writing import clear_crops, write_files


@dataclass(frozen=True, slots=True)
class HowTaken:
    """What may be said about taking. read_again: read the pictures even where text lies over them.
    new_copy: the files are another copy of the book that the key already names."""

    key: str = ""
    pages: Wanted = ALL
    read_again: bool = False
    new_copy: bool = False
    workers: int = 2


@dataclass(frozen=True, slots=True)
class Source:
    """One source that was written: its key, its file, how many paragraphs it has, what became of them."""

    key: str
    path: Path
    paragraphs: int
    merged: Merged | None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What taking did. read: pages read from pictures. to_confirm, confirmed: words.

    figures_seen_twice, second_agrees: the figures that two readers saw, and of those the ones they agree on.
    """

    sources: tuple[Source, ...]
    pages: int
    read: int
    blank: int
    to_confirm: int
    confirmed: int
    figures_seen_twice: int
    second_agrees: int
    left_out: tuple[str, ...]
    confirm: Path | None


@dataclass(frozen=True, slots=True)
class _Gathered:
    runs: tuple[tuple[Taken, ...], ...]
    pages: tuple[Page, ...]
    left_out: tuple[PlacedLine, ...]
    used: dict[str, Answer]
    readers: str
    whole: bool


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
    outcome, more = _write(folder, key, given, gathered, record, answers)
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
) -> tuple[_Gathered | None, Problems]:
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
    return _Gathered(tuple(parted), pages, left_out, dict(used), readers, whole), problems


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


# --- writing ------------------------------------------------------------------------------------------------------


def _write(
    folder: Path,
    key: str,
    given: tuple[Given, ...],
    gathered: _Gathered,
    record: dict[str, Any],
    answers: tuple[Answer, ...],
) -> tuple[Outcome | None, Problems]:
    files: dict[str, bytes] = {}
    sources: list[Source] = []
    written: dict[str, dict[str, str]] = dict(record["written"])
    problems: Problems = ()
    title = re.sub(r"[-_]+", " ", given[0].path.stem)
    for at, run in enumerate(gathered.runs, 1):
        name = key if at == 1 else f"{key}-{at}"
        new = source_text(title if at == 1 else f"{title}, part {at}", run)
        made, last = _now(folder, name), written.get(name, {})
        if made is not None and not last:
            return None, (*problems, _belongs(name))
        result = merged(made, last, new, gathered.whole) if made is not None else None
        text = result.text if result else new
        if len(text.text) > LARGEST:
            return None, (*problems, _too_long(name, len(text.text)))
        files[f"sources/{name}.md"] = text.text.encode()
        files[f"taken/{key}/reading{'' if at == 1 else f'-{at}'}.md"] = new.text.encode()
        written[name] = {**({} if gathered.whole else last), **digests(new)}
        sources.append(Source(name, folder / "sources" / f"{name}.md", len(text.pieces), result))
        problems += told_of_merging(name, result, key)
    everything = tuple(taken for run in gathered.runs for taken in run)
    read = frozenset(page.number for page in gathered.pages if page.origin == "read" or page.over_picture)
    doubts = doubts_of(everything, read)
    files |= _to_confirm(key, everything, doubts, gathered, answers)
    files[f"taken/{key}/taken.json"] = _taken_json(given, written, everything, gathered)
    problems += write_files(folder, files) + told_of_runs(tuple(source.key for source in sources))
    if has_error(problems):
        return None, problems
    crops = folder / "taken" / key / "crops"
    clear_crops(crops, frozenset(Path(name).name for name in files if "/crops/" in name))
    return _outcome(folder, key, tuple(sources), gathered, doubts), problems


def _now(folder: Path, key: str) -> SourceText | None:
    path = folder / "sources" / f"{key}.md"
    if not path.exists():
        return None
    file, _ = decoded(path.read_bytes(), path.name)
    return apart(file.text) if file is not None else None


def _to_confirm(
    key: str, everything: tuple[Taken, ...], doubts: tuple[Doubt, ...], gathered: _Gathered, answers: tuple[Answer, ...]
) -> dict[str, bytes]:
    """The list, the page and the strips; nothing where nothing is to be confirmed and nothing was answered."""
    asked = {doubt.id for doubt in doubts}
    used = {id: answer for id, answer in gathered.used.items() if id in asked}
    others = tuple(answer for answer in answers if used.get(answer.id) != answer)
    if not doubts and not others:
        return {}
    files = {
        f"taken/{key}/confirm.yaml": confirm_yaml(key, doubts, used, others).encode(),
        f"taken/{key}/confirm.html": confirm_html(key, everything, doubts, frozenset(used)).encode(),
    }
    for taken in everything:
        for placed in taken.lines:
            ids = {word_id(placed.page, placed.place, at) for at in range(1, len(placed.line.words) + 1)}
            if placed.line.crop and ids & asked:
                files[f"taken/{key}/{crop_name(placed.page, placed.place)}"] = placed.line.crop
    return files


def _taken_json(
    given: tuple[Given, ...], written: dict[str, dict[str, str]], everything: tuple[Taken, ...], gathered: _Gathered
) -> bytes:
    read = {page.number for page in gathered.pages if page.origin == "read"}
    record = {
        "says": "Made by 'cutaway take'. By the digests it knows what was corrected by hand; do not change it.",
        "files": [{"name": one.path.name, "digest": one.digest} for one in given],
        "readers": gathered.readers,
        "written": written,
        "confidence": {t.number: round(t.confidence, 1) for t in everything if t.page in read},
        "left out as running heads": [f"page {p.page}: {p.line.text}" for p in gathered.left_out],
    }
    return (json.dumps(record, indent=1, ensure_ascii=False) + "\n").encode()


def _outcome(
    folder: Path, key: str, sources: tuple[Source, ...], gathered: _Gathered, doubts: tuple[Doubt, ...]
) -> Outcome:
    asked = {doubt.id for doubt in doubts}
    second = Counter(doubt.second for doubt in doubts if doubt.why.startswith("figure"))
    return Outcome(
        sources,
        len(gathered.pages),
        sum(page.origin == "read" for page in gathered.pages),
        sum(page.blank for page in gathered.pages),
        len(doubts),
        len(asked & gathered.used.keys()),
        second["agrees"] + second["differs"],
        second["agrees"],
        tuple(dict.fromkeys(placed.line.text for placed in gathered.left_out)),
        folder / "taken" / key / "confirm.html" if doubts else None,
    )


def _belongs(name: str) -> Diagnostic:
    return Diagnostic(
        "T108",
        None,
        f"'sources/{name}.md' is there already and was not taken from these files; nothing was written.",
        "Give this source a name of its own with --key.",
    )


def _too_long(name: str, size: int) -> Diagnostic:
    return Diagnostic(
        "T113",
        None,
        f"'sources/{name}.md' would have {size / 1e6:.1f} million characters, more than the {LARGEST / 1e6:.0f} "
        "million that are read; nothing was written.",
        "Take it in parts: --pages 1-300 --key book-a, then --pages 301-600 --key book-b. Pages read so far are kept.",
    )
