"""The verb `captions` with a recording: one narration, heard once."""

import shutil
from itertools import pairwise
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cutaway.api.recording import make_captions
from cutaway.cli.main import app
from cutaway.narrate.caption_reading import read_captions, timestamp_seconds
from cutaway.narrate.language_model import NUMBER_WORDS
from cutaway.narrate.recorded import slots
from cutaway.narrate.spoken import spoken_form
from cutaway.problems.span import TextFile
from tests.conftest import SAMPLE
from tests.narrate.recording.conftest import aligned, voice_or_skip
from tests.narrate.recording.test_alignment import align, heard, script_of
from tests.narrate.recording.turnstone import SENTENCES
from tests.narrate.recording.voice import Speech

SPOKEN = SENTENCES[:16]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A type folder with the narration as a script of two chapters."""
    place: Path = tmp_path_factory.mktemp("types") / "sample"
    shutil.copytree(SAMPLE, place)
    text = "# The boat\n\n## Hull\n\n" + "\n\n".join(SPOKEN[:8]) + "\n\n## Engines\n\n" + "\n\n".join(SPOKEN[8:])
    (place / "scripts" / "boat.md").write_text(text + "\n", encoding="utf-8")
    return place


@pytest.fixture(scope="module")
def command(folder: Path, kept_to: Speech) -> list[str]:
    path = kept_to.write(folder.parent / "narration.wav")
    return ["captions", "boat", "-C", str(folder), "--recording", str(path)]


@pytest.fixture(scope="module")
def first(command: list[str]) -> Result:
    return CliRunner().invoke(app, command)


def written(folder: Path, ending: str) -> str:
    return (folder / "captions" / f"boat{ending}").read_bytes().decode()


def test_all_is_found_and_written(first: Result, folder: Path) -> None:
    assert first.exit_code == 0, first.output
    assert "16 of 16 sentences found" in first.stdout
    cues, problems = read_captions(TextFile("boat.vtt", written(folder, ".vtt")))
    assert not problems
    assert " ".join(cue.words for cue in cues) == " ".join(SPOKEN)


def test_a_strict_reader_takes_every_caption(first: Result, folder: Path) -> None:
    webvtt = pytest.importorskip("webvtt")
    theirs = list(webvtt.from_string(written(folder, ".vtt"), strict=True))
    mine, _ = read_captions(TextFile("boat.vtt", written(folder, ".vtt")))
    assert [timestamp_seconds(cue.start) for cue in theirs] == [cue.start for cue in mine]
    assert [" ".join(cue.text.split()) for cue in theirs] == [cue.words for cue in mine]


def test_each_sentence_opens_a_caption_when_it_is_said(first: Result, folder: Path, kept_to: Speech) -> None:
    cues, _ = read_captions(TextFile("boat.vtt", written(folder, ".vtt")))
    starts = {cue.words: cue.start for cue in cues}
    late = [
        abs(start - words[0].start)
        for sentence, words in zip(SPOKEN, kept_to.words, strict=True)
        for text, start in starts.items()
        if sentence.startswith(text) or text.startswith(sentence)
    ]
    # A short sentence may share a caption with the one before it.
    assert len(late) >= 12
    assert max(late) <= 0.15


def test_none_is_faster_than_can_be_read(first: Result, folder: Path) -> None:
    cues, _ = read_captions(TextFile("boat.vtt", written(folder, ".vtt")))
    assert max(len(cue.words) / (cue.end - cue.start) for cue in cues) <= 17.0 * (1 + 1e-6)
    assert all(one.end <= other.start for one, other in pairwise(cues))


def test_srt_and_chapters_have_the_same_times(first: Result, folder: Path, kept_to: Speech) -> None:
    mine, _ = read_captions(TextFile("boat.vtt", written(folder, ".vtt")))
    theirs, problems = read_captions(TextFile("boat.srt", written(folder, ".srt").replace("\r\n", "\n")))
    assert not problems
    assert [(c.start, c.end, c.words) for c in theirs] == [(c.start, c.end, c.words) for c in mine]
    chapters, _ = read_captions(TextFile("c.vtt", written(folder, ".chapters.vtt")))
    assert [c.words for c in chapters] == ["Hull", "Engines"]
    assert abs(chapters[1].start - kept_to.words[8][0].start) <= 0.15


def test_nothing_is_written_over_unasked(first: Result, command: list[str], folder: Path) -> None:
    (folder / "captions" / "boat.vtt").write_text("WEBVTT mended by hand\n", encoding="utf-8")
    again = CliRunner().invoke(app, command)
    assert again.exit_code == 1 and "N604" in again.stderr
    assert written(folder, ".vtt") == "WEBVTT mended by hand\n"
    done, problems = make_captions(folder, "boat", replace=True)
    assert done is not None and not [one for one in problems if one.severity == "error"]
    assert written(folder, ".vtt").startswith("WEBVTT The boat")


def test_a_sentence_that_was_not_heard_takes_no_time_in_the_chapters() -> None:
    found = align(script_of("open the port cock", "never do this alone", "wait for the lamp"),
                  heard("open the port cock wait for the lamp"))  # fmt: skip
    times = slots(found)
    assert times[1].start == times[1].stop == times[0].stop
    assert [slot.start for slot in times] == sorted(slot.start for slot in times)


FIGURES = (
    ("The Mk 2 has two tanks, each of {} gallons, in the lower wing roots.", "15", "50"),
    ("Normal oil pressure on the Mk 2 is {} pounds per square inch.", "65", "60"),
    ("The engine is run at {} revolutions per minute after starting.", "800", "900"),
    ("The speed in a dive must not exceed {} miles an hour on any account.", "170", "117"),
    ("The navigation lamps take {} volts from the battery behind the seat.", "12", "24"),
)


@pytest.mark.parametrize("voice", ["rms", "slt"])
def test_figures_that_are_read_wrongly_are_among_the_doubts(voice: str, tmp_path: Path) -> None:
    """Four of five at least: 'seventy' and 'seventeen' can sound alike to the end."""
    written, wrong = (tuple(spoken_form(one[0].format(one[at])) for one in FIGURES) for at in (1, 2))
    speaker = voice_or_skip(voice)
    right = aligned(speaker.say(written).write(tmp_path / "right.wav"), tmp_path, written)
    assert right.departures == ()
    said = aligned(speaker.say(wrong).write(tmp_path / "wrong.wav"), tmp_path, written)
    told = {one.sentence for one in said.departures if NUMBER_WORDS & set(f"{one.written} {one.said}".split())}
    assert len(told) >= 4
