"""A recording as samples on the disk: 16 kHz, one channel, 16 bits, whatever it was before.

Samples stay in a file and are read a stretch at a time, so that two hours of sound take little more memory than two
minutes.
"""

import subprocess
import wave
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import numpy.typing as npt

from cutaway.problems.diagnostic import Diagnostic, Problems

RATE = 16_000
FRAME = 160
"""Samples in a hundredth of a second, the step in which loudness is measured."""

# Below this loudness nobody hears a word: about -62 dB of full scale. A choice of ours.
_INAUDIBLE = 26.0
_SHORTEST = 0.5
_BLOCK = RATE * 60

Samples = npt.NDArray[np.int16]
Loudness = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Recording:
    """A recording. raw: the file of its samples; count: how many. loudness: root mean square of every hundredth of a
    second, 0 to 32768."""

    name: str
    raw: Path
    count: int
    loudness: Loudness

    @property
    def seconds(self) -> float:
        """How long it is."""
        return self.count / RATE

    def stretch(self, first: int, last: int) -> Samples:
        """The samples from `first` to one before `last`."""
        return stretch(self.raw, first, last)


def stretch(raw: Path, first: int, last: int) -> Samples:
    """Some of the samples that lie in a file."""
    return np.fromfile(raw, dtype="<i2", count=last - first, offset=2 * first)


def open_recording(path: Path, scratch: Path) -> tuple[Recording | None, Problems]:
    """The sound of a file. scratch: a folder where its samples may lie while they are used."""
    if not path.is_file():
        words = f"There is no recording '{path}'." if not path.exists() else f"'{path}' is not a file."
        return None, (Diagnostic("N501", None, words, "Name the file of the narration, a WAV or anything with sound."),)
    raw = scratch / "samples"
    if not _from_plain_wav(path, raw):
        problems = _through_ffmpeg(path, raw)
        if problems:
            return None, problems
    count = raw.stat().st_size // 2
    if count < _SHORTEST * RATE:
        words = f"'{path.name}' has only {count / RATE:.1f} s of sound."
        return None, (Diagnostic("N504", None, words, "Give the whole recording of the narration."),)
    found = Recording(path.name, raw, count, _loudness(raw, count))
    if float(np.percentile(found.loudness, 99)) < _INAUDIBLE:
        words = f"'{path.name}' is silent: in {_clock(found.seconds)} nothing is loud enough to be speech."
        return None, (Diagnostic("N504", None, words, "See that the right track was recorded and is not muted."),)
    return found, ()


def _clock(seconds: float) -> str:
    return f"{int(seconds) // 60} min {int(seconds) % 60} s" if seconds >= 60 else f"{seconds:.0f} s"


def _from_plain_wav(path: Path, raw: Path) -> bool:
    """Copy the samples of a WAV file that is as we need it; whether it was."""
    try:
        with wave.open(str(path), "rb") as sound:
            if (sound.getnchannels(), sound.getsampwidth(), sound.getframerate()) != (1, 2, RATE):
                return False
            with raw.open("wb") as out:
                while block := sound.readframes(_BLOCK):
                    out.write(block)
    except (wave.Error, EOFError, OSError):
        return False
    return True


def _through_ffmpeg(path: Path, raw: Path) -> Problems:
    if find_spec("imageio_ffmpeg") is None:
        words = f"'{path.name}' is not a WAV of 16 kHz, one channel and 16 bits, and what reads other sound is missing."
        return (Diagnostic("N503", None, words, "Install it with: pip install -c constraints.txt -e '.[recording]'"),)
    import imageio_ffmpeg

    # Only files may be opened: a playlist must not make the program fetch anything.
    command = [imageio_ffmpeg.get_ffmpeg_exe(), "-v", "error", "-nostdin", "-y", "-protocol_whitelist", "file"]
    command += ["-i", f"file:{path.resolve()}", "-vn", "-ac", "1", "-ar", str(RATE), "-f", "s16le", f"file:{raw}"]
    done = subprocess.run(command, capture_output=True, text=True, errors="replace", check=False)
    if done.returncode == 0 and raw.exists():
        return ()
    words = f"'{path.name}' has no sound that can be read: it is no recording, is damaged, or is cut short."
    return (Diagnostic("N502", None, words, "Save it again as WAV, or give the file with the sound in it."),)


def _loudness(raw: Path, count: int) -> Loudness:
    """Root mean square of each frame, a minute at a time."""
    parts: list[Loudness] = []
    for start in range(0, count - FRAME + 1, _BLOCK):
        block = stretch(raw, start, min(start + _BLOCK, count)).astype(np.float64)
        frames = block[: len(block) // FRAME * FRAME].reshape(-1, FRAME)
        parts.append(np.sqrt((frames**2).mean(axis=1)))
    return np.concatenate(parts)
