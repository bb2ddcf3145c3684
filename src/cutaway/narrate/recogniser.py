"""The recogniser: the one file that knows pocketsphinx. It is an extra, so what is missing is told, not raised."""

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from threading import local
from typing import Any

from cutaway.narrate.language_model import arpa_text
from cutaway.narrate.phrases_of_sound import heard_by_machine, phrases, seconds_of
from cutaway.narrate.pronounce import Dictionary, read_dictionary, said
from cutaway.narrate.sound import RATE, Recording
from cutaway.problems.diagnostic import Diagnostic, Problems

_PACKAGE = "pocketsphinx"
_FRAMES_A_SECOND = 100
# How many common words may be heard that the script does not have. A choice of ours.
_COMMON = 5000
# Two are as fast as one machine of two cores gets; each has its own copy of the acoustic model.
_WORKERS = 2


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
    file = scratch / "expected.arpa"
    file.write_text(arpa_text(spoken, common_words()), encoding="utf-8")
    known = dictionary()
    unknown = said(sorted({word for sentence in spoken for word in sentence if word not in known}), known)
    own = local()

    def one(piece: tuple[int, int]) -> tuple[Heard, ...]:
        if not hasattr(own, "decoder"):
            own.decoder = _listener(unknown, file)
        found = _words_in(own.decoder, heard_by_machine(recording, *piece), seconds_of(piece[0]))
        if progress is not None:
            progress((piece[1] - piece[0]) // RATE)
        return found

    with ThreadPoolExecutor(_WORKERS) as pool:
        try:
            return tuple(word for found in pool.map(one, phrases(recording)) for word in found)
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise


def _listener(unknown: Mapping[str, tuple[str, ...]], model: Path) -> Any:
    """A decoder that knows the words and expects what the model says."""
    from pocketsphinx import NGramModel

    decoder = _decoder()
    for word, ways in unknown.items():
        for number, sounds in enumerate(ways, 1):
            decoder.add_word(word if number == 1 else f"{word}({number})", sounds, False)
    decoder.add_lm("script", NGramModel(decoder.config, decoder.logmath, str(model)))
    decoder.activate_search("script")
    return decoder


def _words_in(decoder: Any, samples: bytes, start: float) -> tuple[Heard, ...]:
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
