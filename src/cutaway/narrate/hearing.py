"""A recording heard from end to end, in processes of their own; what was heard before is not heard again."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack, contextmanager
from hashlib import blake2b
from pathlib import Path
from queue import SimpleQueue
from threading import Thread

from cutaway.narrate.heard_before import HeardBefore
from cutaway.narrate.phrases_of_sound import gain_for, phrases, seconds_of
from cutaway.narrate.recogniser import Heard, prepare
from cutaway.narrate.sound import Recording

# Each process has its own copy of the acoustic model, some 150 MB.
_WORKERS = 2

Piece = tuple[int, int]
"""A stretch of a recording as its first sample and one past its last."""
Progress = Callable[[float, float], None]
"""Told how many seconds have been heard so far, and how many there are."""


def hear(
    recording: Recording,
    sentences: Iterable[tuple[str, ...]],
    scratch: Path,
    progress: Progress | None = None,
    before: HeardBefore | None = None,
) -> tuple[Heard, ...]:
    """What is said in a recording, by a recogniser that expects some sentences.

    scratch: a folder for what the recogniser reads from a file. before: what was heard in earlier sessions, where the
    pieces that are heard now are kept as they come. A stop by Ctrl-C says so in its notes.
    """
    kept = before if before is not None else HeardBefore(None)
    told = progress if progress is not None else _to_nobody
    stamp, gain = prepare(sentences, scratch), gain_for(recording)
    keys = {piece: _key(recording, piece, stamp, gain) for piece in phrases(recording)}
    found = {piece: words for piece, key in keys.items() if (words := kept.get(key)) is not None}
    told(_seconds_of(found), recording.seconds)
    try:
        for piece, words in _heard_now(recording.raw, scratch, gain, tuple(p for p in keys if p not in found)):
            found[piece] = words
            kept.put(keys[piece], words)
            told(_seconds_of(found), recording.seconds)
    except KeyboardInterrupt as stop:
        if kept.lasts:
            stop.add_note(
                f"{_seconds_of(found):.0f} of {recording.seconds:.0f} s have been heard and are kept; the same "
                "command goes on from there."
            )
        raise
    return tuple(
        Heard(word.word, start + word.start, start + word.end)
        for piece in keys
        for start in (seconds_of(piece[0]),)
        for word in found[piece]
    )


def _to_nobody(heard: float, whole: float) -> None:
    """Nobody asked how far it is."""


def _seconds_of(pieces: Iterable[Piece]) -> float:
    return seconds_of(sum(last - first for first, last in pieces))


def _key(recording: Recording, piece: Piece, stamp: bytes, gain: float) -> str:
    """Stands for all that decides what is heard in a piece: its sound, and the recogniser with what it expects."""
    digest = blake2b(stamp + repr(gain).encode(), digest_size=20)
    digest.update(recording.stretch(*piece).tobytes())
    return digest.hexdigest()


def _heard_now(
    raw: Path, scratch: Path, gain: float, pieces: tuple[Piece, ...]
) -> Iterator[tuple[Piece, tuple[Heard, ...]]]:
    """What the processes hear, as they tell it."""
    # The recogniser never lets go of the interpreter, so that only processes of their own run side by side.
    turns = [pieces[turn::_WORKERS] for turn in range(_WORKERS) if pieces[turn::_WORKERS]]
    with ExitStack() as running:
        workers = [running.enter_context(_worker(raw, scratch, gain, turn)) for turn in turns]
        lines: SimpleQueue[str] = SimpleQueue()
        for worker in workers:
            Thread(target=_pass_on, args=(worker, lines), daemon=True).start()
        silent = 0
        while silent < len(workers):
            if line := lines.get():
                first, last, words = json.loads(line)
                yield (first, last), tuple(Heard(*word) for word in words)
            else:
                silent += 1
        if any(worker.wait() for worker in workers):
            raise OSError("the recogniser stopped before it had heard everything")


@contextmanager
def _worker(raw: Path, scratch: Path, gain: float, pieces: tuple[Piece, ...]) -> Iterator[subprocess.Popen[str]]:
    """A process that hears some pieces; it ends with this one, whatever happens."""
    command = [sys.executable, "-m", "cutaway.narrate.listening", str(raw), str(scratch)]
    # In a session of its own, a Ctrl-C at the terminal reaches this process alone, which then ends the other.
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, start_new_session=True
    ) as worker:
        try:
            assert worker.stdin is not None
            json.dump((gain, pieces), worker.stdin)
            worker.stdin.close()
            yield worker
        finally:
            worker.kill()


def _pass_on(worker: subprocess.Popen[str], lines: "SimpleQueue[str]") -> None:
    """What a process says, line by line, and nothing when it has said all."""
    assert worker.stdout is not None
    try:
        for line in worker.stdout:
            lines.put(line)
    except ValueError:
        # The pipe was closed on a stop; nobody waits for the rest.
        pass
    finally:
        lines.put("")
