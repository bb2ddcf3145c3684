"""An overlay for an editing timeline: pictures held and faded into one another, as a film that keeps its transparency.

Encoding runs as a program beside ours, fed one frame at a time; a stop ends it and leaves no half a film behind.
"""

import hashlib
import io
import itertools
import mmap
import os
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image

from cutaway.problems.diagnostic import Diagnostic, Problems

Frame = npt.NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Format:
    """A way to keep a film with transparency. arguments: of the encoder. says: what it is for."""

    name: str
    ending: str
    arguments: tuple[str, ...]
    says: str


FORMATS = (
    Format(
        "prores",
        ".mov",
        ("-c:v", "prores_ks", "-profile:v", "4444", "-pix_fmt", "yuva444p10le", "-alpha_bits", "8", "-qscale:v", "11"),
        "for editing programs",
    ),
    Format("rle", ".mov", ("-c:v", "qtrle", "-pix_fmt", "argb"), "without loss, quick and small"),
    Format("png", ".mov", ("-c:v", "png", "-pix_fmt", "rgba"), "without loss"),
    Format(
        "vp9",
        ".webm",
        ("-c:v", "libvpx-vp9", "-pix_fmt", "yuva420p", "-deadline", "realtime", "-cpu-used", "8", "-row-mt", "1",
         "-b:v", "0", "-crf", "30", "-auto-alt-ref", "0"),
        "for web pages",
    ),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Film:
    """What is to be seen. pictures: PNG, all of one size. held: how long each is shown, s. fade: how long the change
    from one to the next takes, s, within the time of the first. rate: frames a second."""

    pictures: tuple[bytes, ...]
    held: tuple[float, ...]
    fade: float
    rate: int

    @property
    def counts(self) -> tuple[int, ...]:
        """How many frames each picture has, its fade into the next among them."""
        return tuple(max(1, round(seconds * self.rate)) for seconds in self.held)


def format_named(name: str) -> Format | None:
    """The format of that name."""
    return next((one for one in FORMATS if one.name == name.lower()), None)


def stamp(film: Film, form: Format) -> str:
    """What stands for the film's content; it is written into the file as its comment."""
    digest = hashlib.sha256(repr((film.held, film.fade, film.rate, form.arguments)).encode())
    for picture in film.pictures:
        digest.update(hashlib.sha256(picture).digest())
    return f"cutaway {digest.hexdigest()[:32]}"


def is_there(path: Path, mark: str) -> bool:
    """Whether the file is the film that the stamp stands for."""
    if not path.is_file() or not path.stat().st_size:
        return False
    with path.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as content:
        return content.find(mark.encode()) >= 0


def frames(film: Film) -> Iterator[Frame]:
    """Every frame, rows by columns by red, green, blue and how opaque it is."""
    shown = [_pixels(picture) for picture in film.pictures]
    for (one, other), count in zip(itertools.pairwise((*shown, shown[-1])), film.counts, strict=True):
        fading = 0 if one is other else min(count - 1, round(film.fade * film.rate))
        for _ in range(count - fading):
            yield one
        for step in range(1, fading + 1):
            yield _blend(one, other, step / (fading + 1))


def _pixels(png: bytes) -> Frame:
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGBA"))


def _blend(one: Frame, other: Frame, share: float) -> Frame:
    """A picture on the way to another. Colours weigh as much as they are opaque, or edges would darken."""
    opaque = [shot[..., 3:].astype(np.float32) * part for shot, part in ((one, 1.0 - share), (other, share))]
    whole = opaque[0] + opaque[1]
    colours = one[..., :3] * opaque[0] + other[..., :3] * opaque[1]
    out = np.concatenate((colours / np.maximum(whole, 1e-6), whole), axis=2)
    return np.asarray(np.rint(out), dtype=np.uint8)


def write_film(path: Path, film: Film, form: Format, progress: Callable[[int], None] | None = None) -> Problems:
    """Write the film; nothing is left of it where that is stopped or fails."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.stem}.", suffix=form.ending, dir=path.parent)
    os.close(handle)
    making = Path(name)
    try:
        fault = _encode(making, film, form, progress)
        if fault:
            message = f"'{path}' could not be written: {fault}."
            return (Diagnostic("K507", None, message, "Look whether the disk has room, or choose another --as."),)
        mask = os.umask(0)
        os.umask(mask)
        making.chmod(0o666 & ~mask)
        making.replace(path)
    finally:
        making.unlink(missing_ok=True)
    return ()


def _encode(path: Path, film: Film, form: Format, progress: Callable[[int], None] | None) -> str:
    """Feed the frames to the encoder; what it complains of, '' for nothing."""
    height, width = _pixels(film.pictures[0]).shape[:2]
    said = [_program(), "-y", "-loglevel", "error", "-f", "rawvideo", "-pix_fmt", "rgba", "-s", f"{width}x{height}"]
    said += ["-r", str(film.rate), "-i", "-", *form.arguments, "-metadata", f"comment={stamp(film, form)}"]
    said += ["-fflags", "+bitexact", "-flags:v", "+bitexact", str(path)]
    with tempfile.TemporaryFile() as complaints:
        # In a session of its own, so that Ctrl-C reaches us alone and we end it in order.
        encoder = subprocess.Popen(said, stdin=subprocess.PIPE, stderr=complaints, start_new_session=True)
        try:
            assert encoder.stdin is not None
            for frame in frames(film):
                encoder.stdin.write(frame.tobytes())
                if progress is not None:
                    progress(1)
            encoder.stdin.close()
            code = encoder.wait()
        except BrokenPipeError:
            code = encoder.wait()
        finally:
            if encoder.poll() is None:
                encoder.kill()
                encoder.wait()
        complaints.seek(0)
        words = complaints.read().decode(errors="replace").strip().splitlines()
    return "" if code == 0 else (words[-1].rstrip(".") if words else f"the encoder ended with {code}")


def _program() -> str:
    import imageio_ffmpeg

    return str(imageio_ffmpeg.get_ffmpeg_exe())
