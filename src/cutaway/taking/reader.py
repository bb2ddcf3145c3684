"""Reading a picture of a page by tesseract: turned upright where it lies wrong, straightened, freed of stains."""

import os
import re
import shutil
import subprocess
from dataclasses import dataclass, replace

from PIL import Image, ImageOps

from cutaway.taking.doubts import doubtful, put_right
from cutaway.taking.pictures import as_png, fit, flattened, ink, straightened, strip
from cutaway.taking.records import Box, Line, Page, Word
from cutaway.taking.second import SecondReader

_SURE = 75.0
"""Mean confidence at which nobody asks whether the page lay the wrong way up."""
_CLEAN, _TO_TURN, _DIRT = 0.0001, 0.002, 0.012
"""Shares of ink: below the first a page is blank unread, below the second not worth turning about, below the third
what nobody can read may be dirt."""
_SECONDS = 180


class ReaderFailedError(Exception):
    """The reader was stopped, or broke on this page."""


@dataclass(frozen=True, slots=True)
class Reader:
    """The program that reads, and the version that it gives of itself."""

    command: str
    version: str


def find_reader() -> Reader | None:
    """The reader with its English letters, or None where it is not installed."""
    command = shutil.which("tesseract")
    if command is None:
        return None
    told = subprocess.run([command, "--version"], capture_output=True, text=True, check=False)
    languages = subprocess.run([command, "--list-langs"], capture_output=True, text=True, check=False)
    if "eng" not in languages.stdout.split():
        return None
    return Reader(command, (told.stdout or told.stderr).split("\n")[0].strip())


def read_page(picture: Image.Image, number: int, reader: Reader, second: SecondReader | None) -> Page:
    """The lines of a page; none where it is blank."""
    grey = fit(ImageOps.exif_transpose(picture))
    dark = ink(flattened(grey))
    if dark < _CLEAN:
        return Page(number, (), "read", blank=True)
    best = _reading(grey, reader)
    turned = 0
    if best.confidence < _SURE and dark > _TO_TURN:
        for degrees in _ways(best.flat, reader):
            other = _reading(grey.rotate(degrees, expand=True), reader)
            if other.worth > best.worth * 1.2:
                best, turned = other, degrees
            if best.confidence >= _SURE:
                break
    if dark < _DIRT and not best.has_words:
        return Page(number, (), "read", blank=True)
    lines = tuple(_kept(line, box, best, second) for line, box in best.lines)
    return Page(number, lines, "read", turned)


@dataclass(frozen=True, slots=True)
class _Reading:
    level: Image.Image
    flat: Image.Image
    lines: tuple[tuple[Line, Box], ...]

    @property
    def confidence(self) -> float:
        words = [word.confidence for line, _ in self.lines for word in line.words]
        return sum(words) / len(words) if words else 0.0

    @property
    def has_words(self) -> bool:
        """Whether anything looks like a word or a figure rather than a speck."""
        return any(word.confidence >= 50 for line, _ in self.lines for word in line.words if word.text.strip(".,-_|'"))

    @property
    def worth(self) -> float:
        """Letters in words that the reader was fairly sure of."""
        return float(sum(len(word.text) for line, _ in self.lines for word in line.words if word.confidence >= _SURE))


def _reading(grey: Image.Image, reader: Reader) -> _Reading:
    level, flat = straightened(grey)
    return _Reading(level, flat, _lines(_run(reader, flat, "--psm", "3", "tsv")))


def _run(reader: Reader, picture: Image.Image, *how: str) -> str:
    # One thread a page: several pages are read at once, and the reader's own threads make it four times slower.
    # A session of its own, so that Ctrl-C lets the page in hand be finished and kept.
    try:
        done = subprocess.run(
            [reader.command, "-", "-", "-l", "eng", "--dpi", "300", *how],
            input=as_png(picture),
            capture_output=True,
            env={**os.environ, "OMP_THREAD_LIMIT": "1"},
            timeout=_SECONDS,
            check=False,
            start_new_session=True,
        )
    except subprocess.TimeoutExpired as fault:
        raise ReaderFailedError(f"it took more than {_SECONDS} seconds") from fault
    if done.returncode:
        raise ReaderFailedError(done.stderr.decode("utf-8", "replace").strip().split("\n")[-1] or "no reason given")
    return done.stdout.decode("utf-8", "replace")


def _lines(tsv: str) -> tuple[tuple[Line, Box], ...]:
    """The reader's table of words as lines, in its order."""
    lines: dict[tuple[str, ...], list[tuple[Word, Box]]] = {}
    for row in tsv.split("\n")[1:]:
        cells = row.split("\t")
        if len(cells) < 12 or cells[0] != "5" or not cells[11].strip():
            continue
        left, top, width, height = (int(cell) for cell in cells[6:10])
        word = put_right(Word(cells[11].strip(), max(0.0, float(cells[10]))))
        lines.setdefault(tuple(cells[2:5]), []).append((word, (left, top, left + width, top + height)))
    return tuple(_line(words) for words in lines.values() if not _speck(words))


def _line(words: list[tuple[Word, Box]]) -> tuple[Line, Box]:
    boxes = [box for _, box in words]
    box = (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))
    return Line(tuple(word for word, _ in words), float(box[1]), float(box[3])), box


def _speck(words: list[tuple[Word, Box]]) -> bool:
    """A stain or a rule that was read as a sign or two, with no letter in it."""
    return not any(letter.isalnum() for word, _ in words for letter in word.text)


def _kept(line: Line, box: Box, reading: _Reading, second: SecondReader | None) -> Line:
    if not doubtful(line):
        return line
    other = second.read(reading.flat.crop((box[0] - 8, box[1] - 6, box[2] + 8, box[3] + 6))) if second else ""
    return replace(line, crop=strip(reading.level, box), second=other)


def _ways(flat: Image.Image, reader: Reader) -> tuple[int, ...]:
    """By how much the page might be turned: first what the reader itself thinks, then upside down, then on its side."""
    try:
        told = _run(reader, flat, "--psm", "0")
    except ReaderFailedError:
        told = ""  # too few letters to tell
    found = re.search(r"Orientation in degrees: (\d+)", told)
    thought = int(found[1]) % 360 if found else 0
    ways = (thought,) if thought else ()
    return (*ways, *(way for way in (180, 90, 270) if way != thought))
