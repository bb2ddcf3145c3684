"""The recogniser: the one file that knows pocketsphinx. It is an extra, so what is missing is told, not raised."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from cutaway.narrate.language_model import arpa_text
from cutaway.narrate.pronounce import Dictionary, read_dictionary, said
from cutaway.problems.diagnostic import Diagnostic, Problems

_PACKAGE = "pocketsphinx"
_DICTIONARY = "cmudict-en-us.dict"
_FRAMES_A_SECOND = 100
# How many common words may be heard that the script does not have. A choice of ours.
_COMMON = 5000
# The files in which the processes that listen find what they need.
_MODEL = "expected.arpa"
_UNKNOWN = "unknown.json"


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
    return (Diagnostic("N503", None, words, "Install them with: pip install -c constraints.txt -e '.[recording]'"),)


def _model() -> Path:
    spec = find_spec(_PACKAGE)
    assert spec is not None and spec.origin is not None, "ask `missing` first"
    return Path(spec.origin).parent / "model" / "en-us"


def dictionary() -> Dictionary:
    """The recogniser's own dictionary."""
    return read_dictionary(_model() / _DICTIONARY)


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


def prepare(sentences: Iterable[tuple[str, ...]], scratch: Path) -> bytes:
    """Write to a folder what a listener needs to expect these sentences; a digest of all that decides what it hears."""
    spoken = tuple(sentence for sentence in sentences if sentence)
    known = dictionary()
    unknown = said(sorted({word for sentence in spoken for word in sentence if word not in known}), known)
    model = arpa_text(spoken, common_words()).encode()
    ways = json.dumps(unknown).encode()
    (scratch / _MODEL).write_bytes(model)
    (scratch / _UNKNOWN).write_bytes(ways)
    stamp = blake2b(version(_PACKAGE).encode(), digest_size=20)
    # This file and its neighbours decide as well: how sound is made ready, and what is kept of what was heard.
    sources = (Path(__file__).with_name(name) for name in ("recogniser.py", "phrases_of_sound.py"))
    for part in (model, ways, (_model() / _DICTIONARY).read_bytes(), *(source.read_bytes() for source in sources)):
        stamp.update(len(part).to_bytes(8))
        stamp.update(part)
    return stamp.digest()


# --- in a process of its own ---------------------------------------------------------------------------------------


def listener(scratch: Path) -> Any:
    """A decoder that knows the script's words and expects what its model says."""
    from pocketsphinx import NGramModel

    decoder = _decoder()
    for word, ways in json.loads((scratch / _UNKNOWN).read_text(encoding="utf-8")).items():
        for number, sounds in enumerate(ways, 1):
            decoder.add_word(word if number == 1 else f"{word}({number})", sounds, False)
    decoder.add_lm("script", NGramModel(decoder.config, decoder.logmath, str(scratch / _MODEL)))
    decoder.activate_search("script")
    return decoder


def words_in(decoder: Any, samples: bytes) -> tuple[Heard, ...]:
    """The words of one piece with their times in it; none where the recogniser gives up, which it does with an
    exception or in silence."""
    # What was heard before must not colour this piece: the decoder follows the noise from one to the next.
    decoder.reinit_feat()
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
            part.start_frame / _FRAMES_A_SECOND,
            (part.end_frame + 1) / _FRAMES_A_SECOND,
        )
        for part in decoder.seg()
        if part.word[0] not in "<["
    )
