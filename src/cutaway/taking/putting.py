"""What was gathered is put into the folder: sources merged with what is there, what to confirm, the record of it."""

import json
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from cutaway.handbook.reading import LARGEST, decoded
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.taking.amending import Listed
from cutaway.taking.confirming import Answer, confirm_html, confirm_yaml, crop_name, doubts_of, word_id
from cutaway.taking.gathering import Given
from cutaway.taking.merging import Merged, digests, merged
from cutaway.taking.records import Doubt, Page, PlacedLine, Proposal, Taken
from cutaway.taking.source_text import SourceText, apart, source_text
from cutaway.taking.told import told_of_amendments, told_of_merging, told_of_runs, told_of_standards
from cutaway.taking.writing import clear_crops, write_files


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

    figures_seen_twice, second_agrees: the figures that two readers saw, and of those the ones they agree on. standards:
    paragraphs of which a person is asked for which marks they are. not_taken: files that were given and left out.
    amendments: paragraphs of which a person is asked whether they are of an amendment.
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
    standards: int = 0
    not_taken: tuple[str, ...] = ()
    amendments: int = 0


@dataclass(frozen=True, slots=True)
class Gathered:
    """All that was read. runs: the paragraphs, a tuple for each source. left_out: running heads. used: the answers put
    into the words. whole: all pages were taken. proposals: paragraphs that name marks in their heading or opening, or
    an amendment. labels: lines that name an amendment above what it brought. amendments: those that the book dates."""

    runs: tuple[tuple[Taken, ...], ...]
    pages: tuple[Page, ...]
    left_out: tuple[PlacedLine, ...]
    used: dict[str, Answer]
    readers: str
    whole: bool
    proposals: tuple[Proposal, ...] = ()
    labels: tuple[PlacedLine, ...] = ()
    amendments: tuple[Listed, ...] = ()


def put(
    folder: Path,
    key: str,
    given: tuple[Given, ...],
    gathered: Gathered,
    last_written: dict[str, dict[str, str]],
    answers: tuple[Answer, ...],
) -> tuple[Outcome | None, Problems]:
    files: dict[str, bytes] = {}
    sources: list[Source] = []
    written: dict[str, dict[str, str]] = dict(last_written)
    problems: Problems = ()
    title = re.sub(r"[-_]+", " ", given[0].path.stem)
    for at, run in enumerate(gathered.runs, 1):
        name = key if at == 1 else f"{key}-{at}"
        new = source_text(title if at == 1 else f"{title}, part {at}", run, gathered.amendments)
        made, more = _now(folder, name)
        if more:
            return None, (*problems, *more)
        last = written.get(name, {})
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
    asked = _asked(gathered.proposals, tuple(sources))
    files |= _to_confirm(key, everything, doubts, gathered, answers, asked)
    files[f"taken/{key}/taken.json"] = _taken_json(given, written, everything, gathered)
    problems += write_files(folder, files) + told_of_runs(tuple(source.key for source in sources))
    problems += told_of_standards(gathered.proposals, asked) + told_of_amendments(everything, gathered.labels, asked)
    if has_error(problems):
        return None, problems
    crops = folder / "taken" / key / "crops"
    clear_crops(crops, frozenset(Path(name).name for name in files if "/crops/" in name))
    return _outcome(folder, key, tuple(sources), gathered, doubts, asked), problems


def _asked(proposals: tuple[Proposal, ...], sources: tuple[Source, ...]) -> tuple[Proposal, ...]:
    """The proposals to put to a person: not those that are sure, nor those whose paragraph a person has put right."""
    merged = sources[0].merged if sources else None
    yours = frozenset(merged.yours) if merged is not None and len(sources) == 1 else frozenset()
    return tuple(one for one in proposals if (not one.sure or one.answer) and one.paragraph not in yours)


def _now(folder: Path, key: str) -> tuple[SourceText | None, Problems]:
    """The source as it is in the folder; what cannot be read is not written over."""
    path = folder / "sources" / f"{key}.md"
    if not path.exists():
        return None, ()
    try:
        file, problems = decoded(path.read_bytes(), f"sources/{key}.md")
    except OSError as fault:
        return None, (Diagnostic("T101", None, f"'{path}' cannot be read: {fault.strerror}.", "Mend its rights."),)
    return (apart(file.text) if file is not None else None), problems


def _to_confirm(
    key: str,
    everything: tuple[Taken, ...],
    doubts: tuple[Doubt, ...],
    gathered: Gathered,
    answers: tuple[Answer, ...],
    proposals: tuple[Proposal, ...],
) -> dict[str, bytes]:
    """The list, the page and the strips; nothing where nothing is to be confirmed and nothing was answered."""
    asked = {doubt.id for doubt in doubts}
    used = {id: answer for id, answer in gathered.used.items() if id in asked}
    settled = {one.id for one in proposals if one.answer}
    others = tuple(answer for answer in answers if used.get(answer.id) != answer and answer.id not in settled)
    if not doubts and not others and not proposals:
        return {}
    files = {
        f"taken/{key}/confirm.yaml": confirm_yaml(key, doubts, used, others, proposals).encode(),
        f"taken/{key}/confirm.html": confirm_html(key, everything, doubts, frozenset(used), proposals).encode(),
    }
    for taken in everything:
        for placed in taken.lines:
            ids = {word_id(placed.page, placed.place, at) for at in range(1, len(placed.line.words) + 1)}
            if placed.line.crop and ids & asked:
                files[f"taken/{key}/{crop_name(placed.page, placed.place)}"] = placed.line.crop
    return files


def _taken_json(
    given: tuple[Given, ...], written: dict[str, dict[str, str]], everything: tuple[Taken, ...], gathered: Gathered
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
    folder: Path,
    key: str,
    sources: tuple[Source, ...],
    gathered: Gathered,
    doubts: tuple[Doubt, ...],
    proposals: tuple[Proposal, ...],
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
        folder / "taken" / key / "confirm.html" if doubts or proposals else None,
        sum(not one.answer and one.asks == "standards" for one in proposals),
        amendments=sum(not one.answer and one.asks == "amendment" for one in proposals),
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
