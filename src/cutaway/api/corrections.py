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
from cutaway.handbook.records import Sentence
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.checked import Checked
from cutaway.narrate.corrected import Film, corrected
from cutaway.narrate.desk import desk as look_over
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.publish.errata import Errata, errata, pairs_of
from cutaway.publish.errata_page import Correction, errata_json, errata_lines, errata_page
from cutaway.publish.published import RECORD, Publication, mark_published, publications, record_of
from cutaway.publish.snapshot import ScriptThen, Snapshot, cites_behind, snapshot_of


@dataclass(frozen=True, slots=True)
class Written:
    """The written side of a pack. files: by path. touched: what of the last publication reads otherwise, line by
    line, () where nothing was published or touched."""

    files: Mapping[str, bytes]
    touched: tuple[str, ...]


def written_side(loaded: Loaded, checked: Checked, files: Mapping[str, bytes], rests: bool) -> tuple[Written, Problems]:
    """The files of the script desk, the record of what the pack says, and what of earlier publications is touched."""
    folder = loaded.folder
    looked, problems = look_over(folder, loaded.parsed, loaded.kinds)
    out = desk_files(looked, frozenset(files))
    said = spoken_terms(folder)
    slots = {script.name: timeline(script, said) for script in folder.scripts}
    cues = {script.name: captions(script, said, _cites(checked, script.name))[0] for script in folder.scripts}
    drawings = {path: content for path, content in files.items() if path.endswith(".svg")}
    says = snapshot_of(folder, checked, slots, cues, drawings, rests)
    earlier, more = publications(loaded.path)
    problems += more
    touched: tuple[str, ...] = ()
    if earlier:
        says, captioned, more = _films(loaded, earlier[-1].says, says)
        out |= captioned
        problems += more
        corrections = _corrections(earlier, says)
        out["errata.html"] = errata_page(folder.type.name, corrections, folder.letters, folder.type.notice).encode()
        out["errata.json"] = errata_json(corrections)
        since = corrections[-1].errata
        if not since.nothing:
            touched = tuple(errata_lines(since, corrections[-1].since))
            problems += (_told(since, corrections[-1].since),)
    out[RECORD] = record_of(says)
    return Written(out, touched), problems


def _cites(checked: Checked, script: str) -> Mapping[int, tuple[str, ...]]:
    mine = (one for one in checked.sentences if one.script.name == script)
    return {number: cites_behind(one) for number, one in enumerate(mine)}


def publish(
    folder: Path, on: date, pack: Path | None = None, note: str = "", same_films: bool = False
) -> tuple[Publication | None, Problems]:
    """Mark the pack of a type folder as published on a date."""
    return mark_published(folder, pack if pack is not None else pack_folder(folder), on, note, same_films)


def _corrections(earlier: tuple[Publication, ...], says: Snapshot) -> tuple[Correction, ...]:
    between = tuple(
        Correction(one.date.isoformat(), other.date.isoformat(), errata(one.says, other.says))
        for one, other in pairwise(earlier)
    )
    last = earlier[-1]
    return (*between, Correction(last.date.isoformat(), "", errata(last.says, says)))


def _told(since: Errata, day: str) -> Diagnostic:
    counts = (
        (len(since.sentences), "sentence"),
        (len(since.captions), "caption"),
        (len(since.drawings), "drawing"),
        (len(since.figures), "figure"),
        (len(since.paragraphs), "paragraph"),
    )
    words = listed(f"{count} {what}{'' if count == 1 else 's'}" for count, what in counts if count)
    message = f"Of what was published on {day}, {words} read otherwise now."
    return Diagnostic("K310", None, message, "Hand on errata.html of the pack, then say `cutaway publish` again.")


def _films(loaded: Loaded, then: Snapshot, now: Snapshot) -> tuple[Snapshot, dict[str, bytes], Problems]:
    """The captions of films that are out and whose script was touched, corrected."""
    files: dict[str, bytes] = {}
    problems: Problems = ()
    before = {script.name: script for script in then.scripts}
    scripts: list[ScriptThen] = []
    for script in now.scripts:
        old = before.get(script.name)
        if old is None or [one.text for one in old.sentences] == [one.text for one in script.sentences]:
            scripts.append(script)
            continue
        new, text, more = _film(loaded, old, script)
        problems += more
        scripts.append(new)
        if text:
            files[f"captions/{script.name}.corrected.vtt"] = text.encode()
    return replace(now, scripts=tuple(scripts)), files, problems


def _film(loaded: Loaded, old: ScriptThen, new: ScriptThen) -> tuple[ScriptThen, str, Problems]:
    """A script with the captions and times of its film; the corrected caption file, '' where no words changed."""
    pairs = pairs_of(old, new)
    today = next(script.sentences for script in loaded.folder.scripts if script.name == new.name)
    changed: dict[int, Sentence] = {
        pair.then: today[pair.now]
        for pair in pairs
        if pair.then is not None and pair.now is not None
        if old.sentences[pair.then].text != today[pair.now].text
    }
    film = Film(new.name, tuple(one.text for one in old.sentences), old.cues)
    cues, problems = corrected(film, changed, spoken_terms(loaded.folder)) if changed else (old.cues, ())
    number: dict[int | None, int | None] = {pair.then: pair.now for pair in pairs if pair.then is not None}
    starts = {pair.now: old.sentences[pair.then].start for pair in pairs if pair.then is not None}
    moved = tuple(_numbered(cue, number) for cue in cues)
    problems += tuple(
        _no_room(today[pair.now].span, today[pair.now].text)
        for pair in pairs
        if pair.then is None and pair.now is not None
    )
    text = caption_file(cues, f"{new.title}, corrected") if changed else ""
    kept = tuple(starts.get(at) for at in range(len(new.sentences)))
    return replace(new, film_cues=moved, film_starts=kept), text, problems


def _numbered(cue: Cue, number: Mapping[int | None, int | None]) -> Cue:
    """A caption with its sentences counted as they are today; those that were taken out have no number any more."""
    return replace(cue, sentences=tuple(at for one in cue.sentences if (at := number.get(one)) is not None))


def _no_room(span: Span, text: str) -> Diagnostic:
    message = f"'{text}' was put in after the film was published, so that no corrected caption can show it."
    return Diagnostic("K311", span, message, "Make the film again, or say it in words that a caption of then can hold.")
