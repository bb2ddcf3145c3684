"""What was published and what of it is touched: the pack's record, its errata page, its corrected captions."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise
from pathlib import Path

from cutaway.api.desk import desk_files
from cutaway.api.loading import Loaded
from cutaway.api.places import pack_folder
from cutaway.handbook.names import listed
from cutaway.handbook.reading import read_folder
from cutaway.narrate.checked import Checked
from cutaway.narrate.desk import desk as look_over
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import timeline
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.captioning import planned
from cutaway.publish.errata import Errata, errata
from cutaway.publish.errata_page import Correction, errata_json, errata_lines, errata_page, film_lines
from cutaway.publish.films import carried_on, film_report
from cutaway.publish.published import RECORD, Publication, mark_published, publications, record_of
from cutaway.publish.shelf import Shelf
from cutaway.publish.snapshot import ScriptThen, Snapshot, cites_behind, drawings_then, snapshot_of


@dataclass(frozen=True, slots=True)
class Written:
    """The written side of a pack. files: by path. touched: what of the last publication reads otherwise, line by
    line, () where nothing was published or touched."""

    files: Mapping[str, bytes]
    touched: tuple[str, ...]


def written_side(
    loaded: Loaded, checked: Checked, files: Mapping[str, bytes], rests: bool, shelf: Shelf
) -> tuple[Written, Problems]:
    """The files of the script desk, the record of what the pack says, and what of earlier publications is touched."""
    folder = loaded.folder
    looked, problems = look_over(folder, loaded.parsed, loaded.kinds)
    out = desk_files(looked, frozenset(files))
    said = spoken_terms(folder)
    slots = {script.name: timeline(script, said) for script in folder.scripts}
    cues = {script.name: planned(script, said, _cites(checked, script.name), shelf)[0] for script in folder.scripts}
    drawings = {path: content for path, content in files.items() if path.endswith(".svg")}
    then = shelf.piece("drawings then", drawings, lambda: drawings_then(drawings))
    says = snapshot_of(folder, checked, slots, cues, then, rests)
    earlier, more = publications(loaded.path)
    problems += more
    touched: tuple[str, ...] = ()
    if earlier:
        says, more = _carried_on(loaded, earlier[-1].says, says)
        problems += more
        films = tuple(film for script in says.scripts if (film := film_report(script)) is not None)
        out |= {path: content for film in films for path, content in film.files.items()}
        corrections = _corrections(earlier, says)
        out["errata.html"] = errata_page(folder.type.name, corrections, films, folder.type.notice).encode()
        out["errata.json"] = errata_json(corrections, films)
        since = corrections[-1].errata
        if not since.nothing:
            touched = (*errata_lines(since, corrections[-1].since), *film_lines(films))
            problems += (_told(since, corrections[-1].since, bool(films)),)
    out[RECORD] = record_of(says)
    return Written(out, touched), problems


def _cites(checked: Checked, script: str) -> Mapping[int, tuple[str, ...]]:
    mine = (one for one in checked.sentences if one.script.name == script)
    return {number: cites_behind(one) for number, one in enumerate(mine)}


def publish(
    folder: Path,
    on: date,
    pack: Path | None = None,
    note: str = "",
    same_films: bool = False,
    as_it_is: bool = False,
) -> tuple[Publication | None, Problems]:
    """Mark the pack of a type folder as published on a date. as_it_is: also with errors, or with what does not hold."""
    there, problems = read_folder(folder)
    if there is None:
        return None, problems
    return mark_published(folder, pack if pack is not None else pack_folder(folder), on, note, same_films, as_it_is)


def _corrections(earlier: tuple[Publication, ...], says: Snapshot) -> tuple[Correction, ...]:
    between = tuple(
        Correction(one.date.isoformat(), other.date.isoformat(), errata(one.says, other.says))
        for one, other in pairwise(earlier)
    )
    last = earlier[-1]
    return (*between, Correction(last.date.isoformat(), "", errata(last.says, says)))


def _told(since: Errata, day: str, films: bool) -> Diagnostic:
    counts = (
        (len(since.sentences), "sentence"),
        (len(since.captions), "caption"),
        (len(since.drawings), "drawing"),
        (len(since.figures), "figure"),
        (len(since.paragraphs), "paragraph"),
    )
    words = listed(f"{count} {what}{'' if count == 1 else 's'}" for count, what in counts if count)
    message = f"Of what was published on {day}, {words} read otherwise now."
    hint = "Hand on errata.html of the pack, then say `cutaway publish` again."
    if films:
        hint = "Hand on errata.html and the corrected captions of the pack, then say `cutaway publish --same-films`."
    return Diagnostic("K310", None, message, hint)


def _carried_on(loaded: Loaded, then: Snapshot, now: Snapshot) -> tuple[Snapshot, Problems]:
    """What the pack says, with the films of scripts that are out and their captions as they are to read."""
    before = {script.name: script for script in then.scripts}
    today = {script.name: script for script in loaded.folder.scripts}
    terms = spoken_terms(loaded.folder)
    scripts: list[ScriptThen] = []
    problems: Problems = ()
    for script in now.scripts:
        old = before.get(script.name)
        if old is not None:
            film, more = carried_on(old, script, today[script.name], terms)
            script = replace(script, film=film)
            problems += more
        scripts.append(script)
    return replace(now, scripts=tuple(scripts)), problems
