"""Captions that somebody else made, WebVTT or SRT, read as a player reads them: what cannot be read is told and left
out, the rest is kept with its place in the file."""

import html
import re
from dataclasses import dataclass

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile

# The W3C's rule for readers of WebVTT: hours of any length, the rest of two digits, thousandths of three.
_VTT_TIME = re.compile(
    r"(?:(?P<hours>[0-9]+):)?(?P<minutes>[0-9]{2}):(?P<seconds>[0-9]{2})\.(?P<rest>[0-9]{3})(?![0-9])"
)
# No standard exists for SRT; a comma is usual, some write a stop, and some leave out noughts.
_SRT_TIME = re.compile(
    r"(?:(?P<hours>[0-9]+):)?(?P<minutes>[0-9]{1,2}):(?P<seconds>[0-9]{1,2})(?:[.,](?P<rest>[0-9]{1,3}))?(?![0-9])"
)
_SIGNATURE = re.compile(r"\ufeff?WEBVTT(?:[ \t].*)?$")
# What was meant for the signature, though no player takes it for one.
_MEANT = re.compile(r"\s*webvt", re.IGNORECASE)
# Tags of WebVTT and SRT, and the commands in braces that some SRT files carry.
_TAG = re.compile(r"<[^<>]*>|\{\\[^{}]*\}")
_REFERENCE = re.compile(r"&(?:[a-zA-Z]+|#[0-9]+|#x[0-9a-fA-F]+);")


@dataclass(frozen=True, slots=True)
class ReadCue:
    """A caption as it stands in a file. text: where its text stands, all lines of it."""

    identifier: str
    start: float
    end: float
    text: Span

    @property
    def raw(self) -> str:
        """The text as written, tags and all."""
        return self.text.text

    @property
    def words(self) -> str:
        """The text as it is read: no tags, references resolved, on one line."""
        return " ".join(html.unescape(tags_removed(self.raw)).split())


def tags_removed(raw: str) -> str:
    """The text without tags and commands; references stand as they are."""
    return _TAG.sub("", raw)


def timestamp_seconds(text: str, srt: bool = False) -> float | None:
    """The seconds of one time stamp; None if a reader must refuse it.

    >>> timestamp_seconds("01:02.500"), timestamp_seconds("00:60:00.000"), timestamp_seconds("00:00:01,500", srt=True)
    (62.5, None, 1.5)
    """
    found = (_SRT_TIME if srt else _VTT_TIME).fullmatch(text)
    return _seconds(found) if found else None


def _seconds(found: re.Match[str]) -> float | None:
    minutes, seconds = int(found["minutes"]), int(found["seconds"])
    if minutes > 59 or seconds > 59:
        return None
    thousandths = int((found["rest"] or "0").ljust(3, "0"))
    return int(found["hours"] or 0) * 3600 + minutes * 60 + seconds + thousandths / 1000


def read_captions(file: TextFile) -> tuple[tuple[ReadCue, ...], Problems]:
    """The captions of a file in its order. WebVTT is known by its signature; anything else is taken for SRT, unless its
    name or its first line says that it should be WebVTT: no player takes a caption from such a file."""
    lines = _lines(file.text)
    signed = bool(lines and _SIGNATURE.match(_line(file.text, lines[0])))
    if not signed and "-->" in file.text and _should_be_webvtt(file, lines[0]):
        return (), (_unsigned(Span(file, *lines[0])),)
    cues: list[ReadCue] = []
    problems: list[Diagnostic] = []
    # Lines before `free` belong to the head of the file or to another caption, so that none is an identifier.
    at = free = _end_of_block(file.text, lines, 0, srt=False) if signed else 0
    at = next((n for n in range(free) if "-->" in _line(file.text, lines[n])), at)
    while at < len(lines):
        start, end = lines[at]
        if "-->" not in file.text[start:end]:
            at += 1
            continue
        last = _last_line_of_text(file.text, lines, at + 1, not signed)
        cue = _cue(file, lines, at, last, free, not signed)
        if cue is None:
            problems.append(_unreadable(Span(file, start, end), not signed))
        else:
            cues.append(cue)
        at = free = max(last, at + 1)
    if not cues and not problems:
        words = f"'{file.path}' holds no captions: it has no line with two times and an arrow between them."
        return (), (Diagnostic("N401", None, words, "Give a WebVTT or SRT file."),)
    return tuple(cues), (*problems, *_doubts(tuple(cues)))


def _should_be_webvtt(file: TextFile, first: tuple[int, int]) -> bool:
    return file.path.lower().endswith(".vtt") or bool(_MEANT.match(_line(file.text, first)))


def _unsigned(span: Span) -> Diagnostic:
    words = "The file should be WebVTT, but its first line is not 'WEBVTT', so that no player takes a caption from it."
    hint = "Put WEBVTT alone on the first line, and a blank line after it; if it is SRT, name it so."
    return Diagnostic("N405", span, words, hint)


def _lines(text: str) -> list[tuple[int, int]]:
    return [match.span() for match in re.finditer(r"[^\n]*(?:\n|\Z)", text) if match.end() > match.start()]


def _line(text: str, place: tuple[int, int]) -> str:
    return text[place[0] : place[1]].rstrip("\n")


def _end_of_block(text: str, lines: list[tuple[int, int]], first: int, srt: bool) -> int:
    """Where the next blank line is. In WebVTT a line of blanks is none; SRT is written with less care."""
    at = first
    while at < len(lines) and (_line(text, lines[at]).strip() if srt else _line(text, lines[at])):
        at += 1
    return at


def _last_line_of_text(text: str, lines: list[tuple[int, int]], first: int, srt: bool) -> int:
    """One past the last line of a caption that begins at `first`: a blank line ends it, or another's times."""
    end = _end_of_block(text, lines, first, srt)
    at = next((n for n in range(first, end) if "-->" in _line(text, lines[n])), end)
    # The next one's number, where the blank line between two was forgotten.
    if srt and first < at < end and _line(text, lines[at - 1]).strip().isdigit():
        at -= 1
    return at


def _cue(file: TextFile, lines: list[tuple[int, int]], at: int, last: int, free: int, srt: bool) -> ReadCue | None:
    times = _times(_line(file.text, lines[at]), srt)
    if times is None:
        return None
    first = lines[at][1]
    end = lines[last - 1][1] if last > at + 1 else first
    trimmed = first + len(file.text[first:end].rstrip("\n"))
    return ReadCue(_identifier(file.text, lines, at, free, srt), *times, Span(file, first, max(first, trimmed)))


def _identifier(text: str, lines: list[tuple[int, int]], at: int, free: int, srt: bool) -> str:
    """The line before the times, if it is the first of its block and belongs to nothing else."""
    if at == 0 or at - 1 < free:
        return ""
    first = at - 1 == free or srt or not _line(text, lines[at - 2])
    return _line(text, lines[at - 1]) if first else ""


def _times(line: str, srt: bool) -> tuple[float, float] | None:
    left, _, right = line.partition("-->")
    words = right.split()
    start = timestamp_seconds(left.strip(), srt)
    end = timestamp_seconds(words[0], srt) if words else None
    return (start, end) if start is not None and end is not None else None


def _unreadable(span: Span, srt: bool) -> Diagnostic:
    words = "The times of this caption cannot be read, so it is left out."
    return Diagnostic(
        "N402", span, words, f"Write 00:01:02{',' if srt else '.'}500 --> 00:01:04{',' if srt else '.'}000"
    )


def _doubts(cues: tuple[ReadCue, ...]) -> Problems:
    """Captions whose times run backwards, alone or one after the other."""
    found: list[Diagnostic] = []
    latest = 0.0
    for cue in cues:
        if cue.end <= cue.start:
            words = f"The caption '{_short(cue)}' ends at {cue.end:.3f} s, before it begins at {cue.start:.3f} s."
            found.append(Diagnostic("N403", cue.text, words, "Put its two times the other way round."))
        if cue.start < latest:
            words = f"The caption '{_short(cue)}' begins at {cue.start:.3f} s, but the one before it at {latest:.3f} s."
            found.append(Diagnostic("N404", cue.text, words, "Put the captions in the order of their times."))
        latest = cue.start
    return tuple(found)


def _short(cue: ReadCue) -> str:
    return cue.words if len(cue.words) <= 40 else cue.words[:37].rstrip() + "…"


def without_tags(raw: str) -> str:
    """The text with tags and references blanked, so that offsets stay.

    >>> without_tags("<v Guide>Oil &amp; air")
    '         Oil       air'
    """
    return _REFERENCE.sub(lambda m: " " * len(m[0]), _TAG.sub(lambda m: " " * len(m[0]), raw))
