"""What is no narration of the script: each with one clear sentence, and nothing written."""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from cutaway.api import recording as api
from cutaway.narrate import recogniser, sound
from cutaway.narrate.alignment import align
from cutaway.narrate.judging_recordings import heard_badly
from cutaway.narrate.phrases_of_sound import phrases
from cutaway.narrate.sound import RATE, open_recording
from tests.narrate.recording.conftest import music
from tests.narrate.recording.test_alignment import heard, script_of
from tests.narrate.recording.turnstone import SENTENCES
from tests.narrate.recording.voice import write_wav


@pytest.fixture
def folder(sample: Path) -> Path:
    """A type folder with the narration of the Turnstone as a script."""
    text = "# The boat\n\n" + "\n\n".join(f"{sentence}" for sentence in SENTENCES[:16]) + "\n"
    (sample / "scripts" / "boat.md").write_text(text, encoding="utf-8")
    return sample


def codes(path: Path, scratch: Path) -> list[str]:
    _, problems = open_recording(path, scratch)
    return [problem.code for problem in problems]


def test_no_such_file_and_no_file(tmp_path) -> None:
    assert codes(tmp_path / "none.wav", tmp_path) == ["N501"]
    assert codes(tmp_path, tmp_path) == ["N501"]


@pytest.mark.parametrize("content", [b"", b"RIFF", b"not sound at all\n" * 100, b"\x89PNG\r\n\x1a\n" + b"\0" * 64])
def test_a_file_without_sound(content, tmp_path) -> None:
    (tmp_path / "x.wav").write_bytes(content)
    assert codes(tmp_path / "x.wav", tmp_path) == ["N502"]


def test_silence_a_murmur_and_a_click(tmp_path) -> None:
    write_wav(tmp_path / "silent.wav", np.zeros(10 * RATE, np.int16))
    write_wav(tmp_path / "faint.wav", np.random.default_rng(0).normal(0, 5, 10 * RATE).astype(np.int16))
    write_wav(tmp_path / "short.wav", np.full(1000, 3000, np.int16))
    for name in ("silent.wav", "faint.wav", "short.wav"):
        assert codes(tmp_path / name, tmp_path) == ["N504"]


def test_what_is_not_installed_is_named(tmp_path, monkeypatch) -> None:
    write_wav(tmp_path / "cd.wav", np.zeros(44100, np.int16), 44100)
    monkeypatch.setattr(sound, "find_spec", lambda name: None)
    monkeypatch.setattr(recogniser, "find_spec", lambda name: None)
    assert codes(tmp_path / "cd.wav", tmp_path) == ["N503"]
    (problem,) = recogniser.missing()
    assert problem.code == "N503" and "pip install -c constraints.txt -e '.[recording]'" in problem.hint


def test_sound_of_other_rates_and_channels_is_read(tmp_path) -> None:
    t = np.arange(44100) / 44100
    tone = (8000 * np.sin(2 * np.pi * 400 * t)).astype(np.int16)
    write_wav(tmp_path / "cd.wav", np.stack([tone, tone], axis=1), 44100, 2)
    found, problems = open_recording(tmp_path / "cd.wav", tmp_path)
    assert found is not None and not problems
    assert abs(found.seconds - 1.0) < 0.01
    crossings = np.count_nonzero(np.diff(np.signbit(found.stretch(0, found.count).astype(float))))
    assert abs(crossings - 800) <= 4


@pytest.mark.parametrize("sort", ["music", "noise", "another script"])
def test_what_is_not_the_script_is_refused(sort, folder, tmp_path, request) -> None:
    path = tmp_path / "narration.wav"
    if sort == "music":
        write_wav(path, music(25.0))
    elif sort == "noise":
        write_wav(path, np.random.default_rng(1).normal(0, 2000, 20 * RATE).astype(np.int16))
    else:
        request.getfixturevalue("other").write(path)
    done, problems = api.make_captions(folder, "boat", path)
    assert done is None
    assert [problem.code for problem in problems] == ["N505"]
    assert "narration.wav" in problems[0].message
    assert not (folder / "captions").exists()


def test_a_bad_recording_is_used_with_a_warning(folder) -> None:
    script = script_of("open the port cock and wait until the red lamp of the board goes out")
    words = heard("open the port cat or weight and ill the red lamp or a bore goes out")
    found = align(script, words)
    assert found.sentences[0].words
    read, _ = api.load(folder)
    assert read is not None
    (problem,) = heard_badly(found, read.folder.scripts[0], "far.wav")
    assert problem.code == "N506"
    assert not heard_badly(align(script, heard(" ".join(w.word for w in script))), read.folder.scripts[0], "near.wav")


def test_two_hours_are_cut_into_pieces_end_to_end(tmp_path) -> None:
    """Speech for an hour, then an hour of organ without a pause: no piece is too long for the recogniser."""
    second = np.concatenate([music(0.7), np.zeros(int(0.3 * RATE), np.int16)])
    with_pauses = np.tile(second, 3600)
    organ = np.tile((6000 * np.sin(2 * np.pi * 200 * np.arange(RATE) / RATE)).astype(np.int16), 3600)
    path = tmp_path / "day.wav"
    write_wav(path, np.concatenate([with_pauses, organ]))
    recording, problems = open_recording(path, tmp_path)
    assert recording is not None and not problems
    assert recording.seconds == 7200.0
    pieces = phrases(recording)
    assert pieces[0][0] == 0 and pieces[-1][1] == 7200 * RATE
    assert all(end == start for (_, end), (start, _) in pairwise(pieces))
    assert max(end - start for start, end in pieces) <= 31 * RATE


def test_the_recogniser_giving_up_is_no_crash() -> None:
    class Broken:
        def reinit_feat(self) -> None: ...
        def start_utt(self) -> None:
            raise RuntimeError("no")

    class Silent:
        def reinit_feat(self) -> None: ...
        def start_utt(self) -> None: ...
        def process_raw(self, data: bytes, full_utt: bool) -> None: ...
        def end_utt(self) -> None: ...
        def hyp(self) -> None: ...

    assert recogniser.words_in(Broken(), b"") == ()
    assert recogniser.words_in(Silent(), b"") == ()
