"""A synthetic voice that knows when it said what: flite, spoken to through its own library."""

import ctypes
import wave
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

RATE = 16_000
GAP = 0.35
"""Seconds of silence between two sentences."""

_WORD_START = b"R:SylStructure.daughter1.daughter1.R:Segment.p.end"
_WORD_END = b"R:SylStructure.daughtern.daughtern.R:Segment.end"


class _Wave(ctypes.Structure):
    _fields_ = (
        ("kind", ctypes.c_char_p),
        ("rate", ctypes.c_int),
        ("count", ctypes.c_int),
        ("channels", ctypes.c_int),
        ("samples", ctypes.POINTER(ctypes.c_short)),
    )


@dataclass(frozen=True, slots=True)
class SpokenWord:
    """A word with the true times of its first and last sound, in s."""

    word: str
    start: float
    end: float


@dataclass(frozen=True, slots=True, eq=False)
class Speech:
    """What was said. words: one tuple for each sentence, with times in the whole."""

    samples: npt.NDArray[np.int16]
    words: tuple[tuple[SpokenWord, ...], ...]

    def write(self, path: Path) -> Path:
        """The speech as a WAV file."""
        write_wav(path, self.samples)
        return path


def joined(parts: Sequence[Speech]) -> Speech:
    """One speech after the other."""
    starts = np.cumsum([0, *(len(part.samples) for part in parts)]) / RATE
    words = tuple(
        tuple(SpokenWord(word.word, word.start + start, word.end + start) for word in sentence)
        for part, start in zip(parts, starts.tolist(), strict=False)
        for sentence in part.words
    )
    return Speech(np.concatenate([part.samples for part in parts]), words)


def write_wav(path: Path, samples: npt.NDArray[np.int16], rate: int = RATE, channels: int = 1) -> None:
    """Samples as a WAV file of 16 bits."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(samples.astype("<i2").tobytes())


class Voice:
    """One of the voices of flite: slt, rms, awb, kal16. Has a life: the library keeps state."""

    def __init__(self, name: str = "slt") -> None:
        def library(file: str) -> ctypes.CDLL:
            return ctypes.CDLL(file, mode=ctypes.RTLD_GLOBAL)

        self._lib = library("libflite.so.1")
        library("libflite_cmulex.so.1")
        library("libflite_usenglish.so.1")
        pointer, text = ctypes.c_void_p, ctypes.c_char_p
        for function, takes, gives in (
            ("flite_synth_text", (text, pointer), pointer),
            ("utt_relation", (pointer, text), pointer),
            ("relation_head", (pointer,), pointer),
            ("item_next", (pointer,), pointer),
            ("utt_wave", (pointer,), pointer),
            ("flite_ffeature_float", (pointer, text), ctypes.c_float),
            ("flite_ffeature_string", (pointer, text), text),
            ("delete_utterance", (pointer,), None),
        ):
            getattr(self._lib, function).argtypes = takes
            getattr(self._lib, function).restype = gives
        sort = "" if name == "kal16" else "us_"
        register = getattr(library(f"libflite_cmu_{sort}{name}.so.1"), f"register_cmu_{sort}{name}")
        register.restype, register.argtypes = pointer, (pointer,)
        self._lib.flite_init()
        self._voice = register(None)

    def _sentence(self, text: str) -> tuple[npt.NDArray[np.int16], tuple[SpokenWord, ...]]:
        lib = self._lib
        said = lib.flite_synth_text(text.encode(), self._voice)
        sound = ctypes.cast(lib.utt_wave(said), ctypes.POINTER(_Wave)).contents
        assert sound.rate == RATE
        samples = np.frombuffer(ctypes.string_at(sound.samples, sound.count * 2), np.int16)
        words: list[SpokenWord] = []
        item = lib.relation_head(lib.utt_relation(said, b"Word"))
        while item:
            word = lib.flite_ffeature_string(item, b"name").decode().lower()
            start, end = (float(lib.flite_ffeature_float(item, path)) for path in (_WORD_START, _WORD_END))
            words.append(SpokenWord(word, start, end))
            item = lib.item_next(item)
        lib.delete_utterance(said)
        return samples, tuple(words)

    def say(self, sentences: tuple[str, ...], gap: float = GAP) -> Speech:
        """The sentences one after the other, with silence between them. Numbers must be spelt out."""
        pause = np.zeros(int(gap * RATE), np.int16)
        parts: list[npt.NDArray[np.int16]] = [pause]
        times: list[tuple[SpokenWord, ...]] = []
        at = len(pause)
        for sentence in sentences:
            samples, words = self._sentence(sentence)
            times.append(tuple(SpokenWord(w.word, w.start + at / RATE, w.end + at / RATE) for w in words))
            parts += [samples, pause]
            at += len(samples) + len(pause)
        return Speech(np.concatenate(parts), tuple(times))
