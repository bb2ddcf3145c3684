"""The recogniser: the one file that knows pocketsphinx. It is an extra, so what is missing is told, not raised."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from cutaway.narrate.language_model import arpa_text
from cutaway.narrate.phrases_of_sound import phrases
from cutaway.narrate.pronounce import Dictionary, read_dictionary, said
from cutaway.narrate.sound import RATE, Recording
from cutaway.problems.diagnostic import Diagnostic, Problems

_PACKAGE = "pocketsphinx"
_FRAMES_A_SECOND = 100
# How many common words may be heard that the script does not have. A choice of ours.
_COMMON = 5000
# Each process has its own copy of the acoustic model, some 150 MB.
_WORKERS = 2
# The files in which the processes find what they need.
MODEL = "expected.arpa"
UNKNOWN = "unknown.json"


@dataclass(frozen=True, slots=True)
class Heard:
    """A word that the recogniser heard, with its times in s."""

    word: str
    start: float
    end: float


def missing() -> Problems:
    """A problem if the recogniser is not installed."""
    if find_spec(_PACKAGE) is not None:
        return ()
    words = "The recogniser and its dictionary of sounds (pocketsphinx) are not installed."
    return (Diagnostic("N503", None, words, "Install them with: pip install 'cutaway[recording]'"),)


def _model() -> Path:
    spec = find_spec(_PACKAGE)
    assert spec is not None and spec.origin is not None, "ask `missing` first"
    return Path(spec.origin).parent / "model" / "en-us"


def dictionary() -> Dictionary:
    """The recogniser's own dictionary."""
    return read_dictionary(_model() / "cmudict-en-us.dict")


def _decoder() -> Any:
    from pocketsphinx import Decoder

    return Decoder(lm=None, loglevel="FATAL")


@lru_cache(maxsize=1)
def common_words() -> tuple[str, ...]:
    """The commonest words of the general language model that comes with the recogniser, commonest first."""
    from pocketsphinx import NGramModel

    decoder = _decoder()
    model = NGramModel(decoder.config, decoder.logmath, str(_model() / "en-us.lm.bin"))
    words = (word for word in dictionary().words if word.isalpha())
    return tuple(sorted(words, key=lambda word: (-model.prob([word]), word))[:_COMMON])


def hear(
    recording: Recording,
    sentences: Iterable[tuple[str, ...]],
    scratch: Path,
    progress: Callable[[int], None] | None = None,
) -> tuple[Heard, ...]:
    """What is said in a recording, by a model of the sentences that are expected.

    scratch: a folder for what the recogniser reads from a file. progress: is called with the seconds of each piece.
    """
    spoken = tuple(sentence for sentence in sentences if sentence)
    known = dictionary()
    unknown = said(sorted({word for sentence in spoken for word in sentence if word not in known}), known)
    (scratch / MODEL).write_text(arpa_text(spoken, common_words()), encoding="utf-8")
    (scratch / UNKNOWN).write_text(json.dumps(unknown), encoding="utf-8")
    pieces = phrases(recording)
    # The recogniser never lets go of the interpreter, so that only processes of their own run side by side.
    turns = [pieces[turn::_WORKERS] for turn in range(_WORKERS) if pieces[turn::_WORKERS]]
    with ThreadPoolExecutor(len(turns)) as pool, ExitStack() as running:
        workers = [running.enter_context(_worker(recording.raw, scratch, turn)) for turn in turns]
        found = [one for part in pool.map(lambda worker: _told_by(worker, progress), workers) for one in part]
    return tuple(word for _, words in sorted(found) for word in words)


@contextmanager
def _worker(raw: Path, scratch: Path, pieces: tuple[tuple[int, int], ...]) -> Iterator[subprocess.Popen[str]]:
    """A process that hears some pieces; it ends with this one, whatever happens."""
    command = [sys.executable, "-m", "cutaway.narrate.listening", str(raw), str(scratch)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as worker:
        try:
            assert worker.stdin is not None
            json.dump(pieces, worker.stdin)
            worker.stdin.close()
            yield worker
        finally:
            worker.kill()


def _told_by(
    worker: subprocess.Popen[str], progress: Callable[[int], None] | None
) -> list[tuple[int, tuple[Heard, ...]]]:
    """What a process has heard: for each piece its first sample and its words."""
    assert worker.stdout is not None
    found: list[tuple[int, tuple[Heard, ...]]] = []
    for line in worker.stdout:
        first, last, words = json.loads(line)
        found.append((first, tuple(Heard(*word) for word in words)))
        if progress is not None:
            progress((last - first) // RATE)
    if worker.wait():
        raise OSError("the recogniser stopped before it had heard everything")
    return found


# --- in a process of its own ---------------------------------------------------------------------------------------


def listener(scratch: Path) -> Any:
    """A decoder that knows the script's words and expects what its model says."""
    from pocketsphinx import NGramModel

    decoder = _decoder()
    for word, ways in json.loads((scratch / UNKNOWN).read_text(encoding="utf-8")).items():
        for number, sounds in enumerate(ways, 1):
            decoder.add_word(word if number == 1 else f"{word}({number})", sounds, False)
    decoder.add_lm("script", NGramModel(decoder.config, decoder.logmath, str(scratch / MODEL)))
    decoder.activate_search("script")
    return decoder


def words_in(decoder: Any, samples: bytes, start: float) -> tuple[Heard, ...]:
    """The words of one piece; none where the recogniser gives up, which it does with an exception or in silence."""
    try:
        decoder.start_utt()
        decoder.process_raw(samples, full_utt=True)
        decoder.end_utt()
    except RuntimeError:
        return ()
    if decoder.hyp() is None:
        return ()
    return tuple(
        Heard(
            part.word.partition("(")[0],
            start + part.start_frame / _FRAMES_A_SECOND,
            start + (part.end_frame + 1) / _FRAMES_A_SECOND,
        )
        for part in decoder.seg()
        if part.word[0] not in "<["
    )
