"""What was heard is kept: a second call is quick, a stop loses nothing, and a bad file does no harm."""

import json
import os
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from cutaway.narrate import hearing
from cutaway.narrate.heard_before import HeardBefore
from cutaway.narrate.hearing import hear
from cutaway.narrate.recogniser import Heard
from cutaway.narrate.script_words import words_said
from cutaway.narrate.sound import Recording, open_recording
from tests.narrate.recording.turnstone import SENTENCES
from tests.narrate.recording.voice import RATE, Speech, write_wav

WORDS = (Heard("red", 0.1, 0.4), Heard("lamp", 0.41, 0.9))
SPOKEN = tuple(map(words_said, SENTENCES[:16]))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "heard.sqlite"


@pytest.fixture
def recording(kept_to: Speech, tmp_path: Path) -> Recording:
    found, problems = open_recording(kept_to.write(tmp_path / "narration.wav"), tmp_path)
    assert found is not None, problems
    return found


@pytest.fixture
def sent(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many pieces each call gives to the processes that listen."""
    counts: list[int] = []
    real = hearing._heard_now

    def counting(raw, scratch, gain, pieces) -> Iterator[object]:  # type: ignore[no-untyped-def]
        counts.append(len(pieces))
        return real(raw, scratch, gain, pieces)

    monkeypatch.setattr(hearing, "_heard_now", counting)
    return counts


def test_what_was_heard_is_not_heard_again(recording, tmp_path, file, sent) -> None:
    told: list[float] = []
    with closing(HeardBefore(file)) as before:
        first = hear(recording, SPOKEN, tmp_path, before=before)
    with closing(HeardBefore(file)) as before:
        again = hear(recording, SPOKEN, tmp_path, lambda heard, whole: told.append(heard), before)
    assert first and again == first
    assert sent[0] > 10 and sent[1] == 0
    assert told[0] == pytest.approx(recording.seconds, abs=0.01)


def test_only_what_is_new_is_heard(recording, kept_to, tmp_path, file, sent) -> None:
    """The end said again, as in a second take: the rest is known, though it is another file."""
    with closing(HeardBefore(file)) as before:
        hear(recording, SPOKEN, tmp_path, before=before)
    last = round(kept_to.words[14][0].start * RATE)
    samples = kept_to.samples.copy()
    samples[last:] = samples[last:] // 2
    write_wav(tmp_path / "second take.wav", samples)
    second, _ = open_recording(tmp_path / "second take.wav", tmp_path)
    assert second is not None
    with closing(HeardBefore(file)) as before:
        hear(second, SPOKEN, tmp_path, before=before)
    assert 0 < sent[1] <= 4 < sent[0]


def test_another_script_is_heard_anew(recording, tmp_path, file, sent) -> None:
    with closing(HeardBefore(file)) as before:
        hear(recording, SPOKEN, tmp_path, before=before)
        hear(recording, SPOKEN[:15], tmp_path, before=before)
    assert sent[1] == sent[0]


def test_a_stop_keeps_what_was_heard_and_says_so(recording, tmp_path, file, sent) -> None:
    calls = 0

    def stop_after_five(heard: float, whole: float) -> None:
        nonlocal calls
        calls += 1
        if calls > 5:
            raise KeyboardInterrupt

    with closing(HeardBefore(file)) as before, pytest.raises(KeyboardInterrupt) as stop:
        hear(recording, SPOKEN, tmp_path, stop_after_five, before)
    (note,) = stop.value.__notes__
    assert "have been heard and are kept" in note
    with closing(HeardBefore(file)) as before:
        words = hear(recording, SPOKEN, tmp_path, before=before)
    assert sent[1] == sent[0] - 5
    # A piece is heard alike whichever pieces are heard before it.
    assert words == hear(recording, SPOKEN, tmp_path)


def test_nothing_is_promised_that_is_not_kept(recording, tmp_path) -> None:
    def stop(heard: float, whole: float) -> None:
        if heard:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt) as stopped:
        hear(recording, SPOKEN, tmp_path, stop)
    assert not getattr(stopped.value, "__notes__", ())


@pytest.mark.skipif(os.name != "posix", reason="signals are sent as a terminal does")
def test_control_c_at_the_terminal(sample: Path, departed: Speech, tmp_path: Path) -> None:
    """The command as it is typed: stopped half way, it says what is kept, leaves no process behind, and goes on."""
    (sample / "scripts" / "boat.md").write_text("# The boat\n\n" + "\n\n".join(SENTENCES) + "\n", encoding="utf-8")
    path = departed.write(tmp_path / "talk.wav")
    cache = tmp_path / "cache"
    command = [sys.executable, "-m", "cutaway", "captions", "boat", "-C", str(sample), "--recording", str(path)]
    running = subprocess.Popen(
        command,
        env={**os.environ, "XDG_CACHE_HOME": str(cache)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    kept = cache / "cutaway" / "heard.sqlite"
    patience = time.monotonic() + 120.0
    while not _rows(kept) and running.poll() is None and time.monotonic() < patience:
        time.sleep(0.02)
    assert running.poll() is None, running.communicate()
    os.killpg(running.pid, signal.SIGINT)
    _, said = running.communicate(timeout=60)
    assert running.returncode == 130, said
    assert "have been heard and are kept; the same command goes on from there." in said
    assert "Traceback" not in said
    assert not (sample / "captions").exists()
    rows = _rows(kept)
    assert 0 < rows < 36
    time.sleep(0.5)
    assert _rows(kept) == rows


def _rows(path: Path) -> int:
    if not path.exists():
        return 0
    with closing(sqlite3.connect(path)) as db:
        try:
            return int(db.execute("select count(*) from heard").fetchone()[0])
        except sqlite3.Error:
            return 0


# --- the file --------------------------------------------------------------------------------------------------------


def test_words_are_kept_from_session_to_session(file) -> None:
    with closing(HeardBefore(file)) as before:
        assert before.lasts and before.get("a") is None
        before.put("a", WORDS)
        before.put("b", ())
    with closing(HeardBefore(file)) as before:
        assert before.get("a") == WORDS
        assert before.get("b") == ()


def test_the_oldest_are_forgotten_beyond_the_bound(file) -> None:
    with closing(HeardBefore(file, most=10)) as before:
        for number in range(25):
            before.put(str(number), WORDS)
        assert [number for number in range(25) if before.get(str(number))] == list(range(15, 25))
    assert _rows(file) == 10


@pytest.mark.parametrize("content", [b"not a database at all" * 100, b"SQLite format 3\0" + b"\xff" * 4000, b""])
def test_a_broken_file_is_begun_again(content, file) -> None:
    file.parent.mkdir()
    file.write_bytes(content)
    with closing(HeardBefore(file)) as before:
        assert before.get("a") is None
        before.put("a", WORDS)
    with closing(HeardBefore(file)) as before:
        assert before.lasts and before.get("a") == WORDS


def test_a_file_broken_in_the_middle_is_done_without(file) -> None:
    with closing(HeardBefore(file)) as before:
        for number in range(2000):
            before.put(f"{number:040d}", WORDS)
    data = bytearray(file.read_bytes())
    data[4096 * 3 :] = b"\xa5" * (len(data) - 4096 * 3)
    file.write_bytes(data)
    with closing(HeardBefore(file)) as before:
        assert all(before.get(f"{number:040d}") in (None, WORDS) for number in range(0, 2000, 100))
        before.put("a", WORDS)


@pytest.mark.parametrize("row", ["", "[", "{}", '[["red", 1]]', '[["red", "x", 2]]', json.dumps([1, 2]), "null"])
def test_a_row_that_is_not_what_was_written_is_ignored(row, file) -> None:
    with closing(HeardBefore(file)) as before:
        before.put("a", WORDS)
    with closing(sqlite3.connect(file)) as db:
        db.execute("update heard set words = ?", (row,))
        db.commit()
    with closing(HeardBefore(file)) as before:
        assert before.get("a") in (None, ())


def test_where_nothing_can_be_written_it_remembers_for_the_session(tmp_path) -> None:
    (tmp_path / "a file").write_text("x")
    with closing(HeardBefore(tmp_path / "a file" / "heard.sqlite")) as before:
        assert not before.lasts
        before.put("a", WORDS)
        assert before.get("a") == WORDS
