"""Where in the user's text something stands."""

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class TextFile:
    """One text that the user wrote: `path` as shown to the user (relative, with `/`), and its characters."""

    path: str
    text: str = field(repr=False)


@dataclass(frozen=True, slots=True)
class Span:
    """A half-open stretch of characters, `start` to `end`, in one file."""

    file: TextFile
    start: int
    end: int

    @property
    def text(self) -> str:
        """The author's characters, as they stand there."""
        return self.file.text[self.start : self.end]

    @property
    def words(self) -> str:
        """The same on one line, with single blanks."""
        return " ".join(self.text.split())


@dataclass(frozen=True, slots=True)
class Place:
    """A span as a reader counts it: `line` and `column` from 1, and the line's own text."""

    line: int
    column: int
    text: str
    width: int


@lru_cache(maxsize=256)
def _line_starts(text: str) -> tuple[int, ...]:
    starts = [0]
    starts.extend(i + 1 for i, letter in enumerate(text) if letter == "\n")
    return tuple(starts)


def place(span: Span) -> Place:
    """Line, column and marked width of a span; a span over several lines is marked to the end of its first."""
    starts = _line_starts(span.file.text)
    offset = min(max(span.start, 0), len(span.file.text))
    line = bisect_right(starts, offset) - 1
    begin = starts[line]
    end = starts[line + 1] - 1 if line + 1 < len(starts) else len(span.file.text)
    text = span.file.text[begin:end].rstrip("\r")
    width = max(1, min(span.end, begin + len(text)) - offset)
    return Place(line + 1, offset - begin + 1, text, width)


def whole(file: TextFile) -> Span:
    """The span of a whole file."""
    return Span(file, 0, len(file.text))
