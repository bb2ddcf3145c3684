"""Captions of a script: planned, or on the times of a recording of it."""

import tempfile
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.api.places import heard_file
from cutaway.handbook.names import did_you_mean
from cutaway.handbook.records import Folder, Script
from cutaway.narrate.alignment import Alignment, align
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.heard_before import HeardBefore
from cutaway.narrate.hearing import Progress, hear
from cutaway.narrate.judging_recordings import heard_badly, not_this_script, of_a_part
from cutaway.narrate.part_of_script import set_apart
from cutaway.narrate.recogniser import missing
from cutaway.narrate.recorded import chapters_heard, piece_times
from cutaway.narrate.script_words import script_words
from cutaway.narrate.sound import open_recording
from cutaway.narrate.srt import srt_file
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file, chapter_file
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.single_file import write_files

CAPTIONS_FOLDER = "captions"
_ENDINGS = (".vtt", ".srt", ".chapters.vtt")


@dataclass(frozen=True, slots=True)
class Captioned:
    """Captions that were written. alignment: what was heard, None without a recording. seconds: of the recording."""

    script: Script
    cues: tuple[Cue, ...]
    alignment: Alignment | None
    seconds: float
    files: tuple[Path, ...]
    unchanged: bool = False


def make_captions(
    folder: Path | str,
    script: str,
    recording: Path | None = None,
    out: Path | None = None,
    replace: bool = False,
    progress: Progress | None = None,
) -> tuple[Captioned | None, Problems]:
    """Write the captions of a script as WebVTT and SRT, and its chapters; with a recording, on its times.

    out: the folder to write to, else `captions` in the type folder. Problems are those of the captions and of the
    script's file.
    """
    loaded, of_folder = load(folder)
    if loaded is None:
        return None, of_folder
    found, problems = script_named(loaded.folder, script)
    if found is None:
        return None, problems
    where = out if out is not None else loaded.path / CAPTIONS_FOLDER
    alignment: Alignment | None = None
    seconds = 0.0
    if recording is not None:
        alignment, seconds, problems = align_recording(found, loaded.folder, recording, progress)
        if alignment is None:
            return None, problems
    cues, texts, more = _texts(found, loaded.folder, alignment)
    problems += more + tuple(
        p for p in of_folder if p.span is not None and p.span.file.path == f"scripts/{found.name}.md"
    )
    files = tuple(
        (where / f"{found.name}{ending}", text.encode()) for ending, text in zip(_ENDINGS, texts, strict=True)
    )
    others = tuple(one for one in files if not _is_there(*one))
    if not others:
        return Captioned(found, cues, alignment, seconds, (), unchanged=True), problems
    more = in_the_way(tuple(path for path, _ in others), replace)
    if more:
        return None, problems + more
    written, more = write_files(others, replace=True)
    return (None if more else Captioned(found, cues, alignment, seconds, written)), problems + more


def _is_there(path: Path, content: bytes) -> bool:
    """Whether a file is there with just this content."""
    try:
        return path.read_bytes() == content
    except OSError:
        return False


def in_the_way(paths: tuple[Path, ...], replace: bool) -> Problems:
    """A problem for files that are there, differ and may not be replaced: then none is written."""
    there = [path for path in paths if path.exists()]
    if replace or not there:
        return ()
    names = ", ".join(f"'{path}'" for path in there)
    words = (
        f"{names} {'is' if len(there) == 1 else 'are'} there already with other words or times; nothing was written."
    )
    return (Diagnostic("N604", None, words, "Say --replace to write over, or --out and another folder."),)


def script_named(folder: Folder, name: str) -> tuple[Script | None, Problems]:
    """The script of that name, which has sentences."""
    known = [script.name for script in folder.scripts]
    found = next((script for script in folder.scripts if script.name == Path(name).stem or script.name == name), None)
    if found is None:
        hint = did_you_mean(name, known) or "Name a file of scripts/ without its ending."
        return None, (Diagnostic("C102", None, f"There is no script '{name}'.", hint),)
    if not found.sentences:
        words = f"The script {found.name} has no sentences."
        return None, (Diagnostic("H606", None, words, f"Write the narration in scripts/{found.name}.md."),)
    return found, ()


def align_recording(
    script: Script, folder: Folder, recording: Path, progress: Progress | None = None
) -> tuple[Alignment | None, float, Problems]:
    """Lay a script beside a recording of it; how long the recording is, s."""
    problems = missing()
    if problems:
        return None, 0.0, problems
    words = script_words(script.sentences, folder.glossary)
    with tempfile.TemporaryDirectory(prefix="cutaway-") as scratch:
        sound, problems = open_recording(recording, Path(scratch))
        if sound is None:
            return None, 0.0, problems
        expected: list[list[str]] = [[] for _ in script.sentences]
        for word in words:
            expected[word.sentence].append(word.word)
        with closing(HeardBefore(heard_file())) as before:
            heard = hear(sound, map(tuple, expected), Path(scratch), progress, before)
        seconds = sound.seconds
    found = set_apart(align(words, heard), words)
    problems = not_this_script(found, script, recording.name, seconds)
    if problems:
        return None, seconds, problems
    return found, seconds, of_a_part(found, script, recording.name) + heard_badly(found, script, recording.name)


def _texts(
    script: Script, folder: Folder, alignment: Alignment | None
) -> tuple[tuple[Cue, ...], tuple[str, str, str], Problems]:
    """The captions and the texts of the three files, in the order of `_ENDINGS`."""
    if alignment is None:
        times, chaptered, when = None, script, timeline(script, folder.glossary)
    else:
        times = piece_times(script, folder.glossary, alignment)
        chaptered, when = chapters_heard(script, alignment)
    cues, problems = captions(script, folder.glossary, recorded=times)
    title = script.title or script.name
    return cues, (caption_file(cues, title), srt_file(cues), chapter_file(chaptered, when)), problems
