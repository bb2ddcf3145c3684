"""A recording of a part of a script: the part is timed, the rest is listed, another script is still refused."""

import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.recording import make_captions
from cutaway.cli.main import app
from cutaway.narrate.alignment import Absent, Alignment
from cutaway.narrate.caption_reading import read_captions
from cutaway.narrate.part_of_script import set_apart
from cutaway.problems.span import TextFile
from tests.conftest import SAMPLE
from tests.narrate.recording.conftest import music, voice_or_skip
from tests.narrate.recording.test_alignment import align, heard, script_of
from tests.narrate.recording.turnstone import OTHER, SENTENCES
from tests.narrate.recording.voice import Speech, write_wav

CHAPTERS = ("Hull", "Crew", "Engines", "Flaps", "Water", "Comfort", "History")
"""Seven chapters of six sentences each."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place: Path = tmp_path_factory.mktemp("types") / "sample"
    shutil.copytree(SAMPLE, place)
    parts = [f"## {name}\n\n" + "\n\n".join(SENTENCES[6 * at : 6 * at + 6]) for at, name in enumerate(CHAPTERS)]
    (place / "scripts" / "boat.md").write_text("# The boat\n\n" + "\n\n".join(parts) + "\n", encoding="utf-8")
    return place


@pytest.fixture(scope="module")
def second_chapter() -> Speech:
    return voice_or_skip("slt").say(SENTENCES[6:12])


def captioned(folder: Path, speech: Speech, tmp_path: Path):  # type: ignore[no-untyped-def]
    return make_captions(folder, "boat", speech.write(tmp_path / "part.wav"), tmp_path / "out")


def closely(alignment: Alignment, speech: Speech, first: int) -> None:
    """The sentences from `first` on are found, and begin when they are said."""
    found = [one for one in alignment.sentences if one.words]
    assert [one.sentence for one in found] == list(range(first, first + len(speech.words)))
    assert max(abs(one.start - said[0].start) for one, said in zip(found, speech.words, strict=True)) <= 0.15


def test_one_chapter_of_seven(folder, second_chapter, tmp_path) -> None:
    """It has a seventh of the script's words, which is less than was once wanted of a recording of the script."""
    done, problems = captioned(folder, second_chapter, tmp_path)
    assert done is not None, problems
    assert [problem.code for problem in problems] == ["N507"]
    assert "36 of its 42 sentences are not in it" in problems[0].message
    closely(done.alignment, second_chapter, 6)
    assert done.alignment.absent == (Absent(0, 5), Absent(12, 41))
    assert done.alignment.departures == ()
    cues, _ = read_captions(TextFile("x.vtt", done.files[0].read_text()))
    assert " ".join(cue.words for cue in cues) == " ".join(SENTENCES[6:12])
    chapters, _ = read_captions(TextFile("x.vtt", done.files[2].read_text()))
    assert [chapter.words for chapter in chapters] == ["Crew"]
    assert chapters[0].end == pytest.approx(second_chapter.words[-1][-1].end, abs=0.1)


def test_the_first_half(folder, tmp_path) -> None:
    speech = voice_or_skip("rms").say(SENTENCES[:21])
    done, problems = captioned(folder, speech, tmp_path)
    assert done is not None, problems
    closely(done.alignment, speech, 0)
    assert done.alignment.absent == (Absent(21, 41),)
    assert not [one for one in done.alignment.departures if one.kind == "not heard"]


def test_two_chapters_with_those_between_them_left_out(folder, tmp_path) -> None:
    speech = voice_or_skip("slt").say((*SENTENCES[6:12], *SENTENCES[30:36]))
    done, problems = captioned(folder, speech, tmp_path)
    assert done is not None, problems
    assert done.alignment.absent == (Absent(0, 5), Absent(12, 29), Absent(36, 41))
    chapters, _ = read_captions(TextFile("x.vtt", done.files[2].read_text()))
    assert [chapter.words for chapter in chapters] == ["Crew", "Comfort"]
    assert chapters[1].start == pytest.approx(speech.words[6][0].start, abs=0.15)


def test_the_rest_is_listed_once_for_people_and_for_programs(folder, second_chapter, tmp_path) -> None:
    path = second_chapter.write(tmp_path / "part.wav")
    command = ["captions", "boat", "-C", str(folder), "--recording", str(path), "--out", str(tmp_path / "out")]
    shown = CliRunner().invoke(app, command)
    assert shown.exit_code == 0, shown.output
    assert "6 of 42 sentences found" in shown.stdout
    listed = shown.stdout.split("Not in this recording:\n")[1]
    assert f"sentences 1 to 6 (Hull): from '{SENTENCES[0]}' to '{SENTENCES[5]}'" in listed
    assert "sentences 13 to 42 (Engines, Flaps, Water, Comfort, History): from " in listed
    assert "not heard" not in shown.stdout
    record = CliRunner().invoke(app, [*command, "--replace", "--json"])
    assert '"from sentence": 13,' in record.stdout


@pytest.mark.parametrize("sort", ["gardening", "the same trade", "music"])
def test_another_script_is_refused_however_much_it_is_like_it(sort, folder, tmp_path) -> None:
    text = "# Half\n\n" + "\n\n".join(SENTENCES[:21]) + "\n"
    (folder / "scripts" / "half.md").write_text(text, encoding="utf-8")
    path = tmp_path / "narration.wav"
    if sort == "music":
        write_wav(path, music(25.0))
    else:
        voice_or_skip("rms").say(OTHER if sort == "gardening" else SENTENCES[21:33]).write(path)
    done, problems = make_captions(folder, "half", path, tmp_path / "out")
    assert done is None
    assert [problem.code for problem in problems] == ["N505"]
    assert "of its words were made out in their order" in problems[0].message


# --- without sound ---------------------------------------------------------------------------------------------------

SCRIPT = ("open the port cock", "wait for the lamp", "press the starter", "close the port cock", "count to ten",
          "look at the gauge", "never do this alone")  # fmt: skip


def apart(text: str) -> Alignment:
    script = tuple(script_of(*SCRIPT))
    return set_apart(align(script, heard(text)), script)


def test_one_or_two_sentences_are_left_out_by_the_speaker() -> None:
    found = apart("open the port cock wait for the lamp close the port cock look at the gauge never do this alone")
    assert found.absent == ()
    assert [(one.kind, one.sentence) for one in found.departures] == [("not heard", 2), ("not heard", 4)]


def test_what_is_said_before_the_part_is_added_to_the_script() -> None:
    found = apart("good evening close the port cock count to ten look at the gauge never do this alone")
    assert found.absent == (Absent(0, 2),)
    (one,) = found.departures
    assert (one.kind, one.sentence, one.said, one.written) == ("added", -1, "good evening", "")


def test_where_as_much_is_said_it_is_not_absent_but_to_be_checked() -> None:
    found = apart(
        "open a pot clock weight of a ramp breast a carter x close the port cock count to ten look at the gauge"
    )
    assert found.absent == ()
    assert {one.sentence for one in found.departures if one.kind == "not heard"} == {0, 1, 2, 6}
