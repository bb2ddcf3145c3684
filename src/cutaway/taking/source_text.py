"""Paragraphs as the text of `sources/<key>.md`, and such a text taken apart again by its headings."""

import re
import textwrap
from dataclasses import dataclass

from cutaway.taking.amending import Listed
from cutaway.taking.records import Taken

WIDTH = 118
_HEADING = re.compile(r"^## +§?\s*(?P<number>\d+[a-z]?)\b", re.MULTILINE | re.IGNORECASE)
_PART = re.compile(r"^## ", re.MULTILINE)
# What would be read as something else at the start of a line: a heading, a caution, braces, a table, a list.
_SPECIAL = re.compile(r"^(?:#|>|\{|\||---|[-*] )")


@dataclass(frozen=True, slots=True)
class Piece:
    """One paragraph in a text: its number ('' where the heading has none) and all its characters."""

    number: str
    text: str


@dataclass(frozen=True, slots=True)
class SourceText:
    """A source file in pieces: what stands before the first heading, and the paragraphs."""

    head: str
    pieces: tuple[Piece, ...]

    @property
    def text(self) -> str:
        """The whole file."""
        return self.head + "".join(piece.text for piece in self.pieces)


def apart(text: str) -> SourceText:
    """A source file in pieces."""
    starts = [match.start() for match in _PART.finditer(text)]
    pieces = []
    for at, stop in zip(starts, [*starts[1:], len(text)], strict=False):
        heading = _HEADING.match(text, at)
        pieces.append(Piece(heading["number"].lower() if heading else "", text[at:stop]))
    return SourceText(text[: starts[0]] if starts else text, tuple(pieces))


def source_text(title: str, paragraphs: tuple[Taken, ...], amendments: tuple[Listed, ...] = ()) -> SourceText:
    """The file for some paragraphs. amendments: those that the book dates; they stand at the top too."""
    dates = {one.name: one.date for one in amendments}
    names = sorted({p.amendment for p in paragraphs if p.amendment} | dates.keys(), key=_in_row)
    head = ["---", f"title: {quoted(title)}", "date: ''", "rights: ''"]
    if names:
        head.append("amendments:")
        head += [f"  {name}: {{date: {quoted(dates.get(name, ''))}, says: ''}}" for name in names]
    head += ["---", "", ""]
    return SourceText("\n".join(head), tuple(Piece(p.number, _paragraph(p)) for p in paragraphs))


def _in_row(name: str) -> tuple[int, str]:
    """Amendments by their numbers; one without, as a person may write, last."""
    number = re.search(r"\d+", name)
    return (int(number[0]) if number else 10**9, name)


def quoted(words: str) -> str:
    """Words as a YAML text in single quotes, on one line."""
    return "'" + " ".join(words.split()).replace("'", "''") + "'"


def _paragraph(taken: Taken) -> str:
    inside = [f"on: {_in_braces(taken.on)}"] if taken.on else []
    inside += [f"amendment: {_in_braces(taken.amendment)}"] if taken.amendment else []
    inside += _pages(taken)
    lines = [f"## {taken.number} {_on_one_line(taken.title)}".rstrip(), f"{{{', '.join(inside)}}}", ""]
    for block in taken.blocks:
        lines += [*_block(block), ""]
    return "\n".join(lines) + "\n"


def _pages(taken: Taken) -> list[str]:
    """Where the book prints its numbers: that of the page, and which page of the file it is; else the latter alone."""
    if taken.printed is None:
        return [f"page: {taken.page}"]
    printed = [f"page: {taken.printed}"] if taken.printed else []
    return [*printed, *([f"in file: {taken.page}"] if taken.printed != str(taken.page) else [])]


def _in_braces(words: str) -> str:
    """Words as they stand between braces: in quotes where YAML would make something else of them."""
    return words if re.fullmatch(r"[A-Za-z][\w .()/-]*", words) else quoted(words)


def _on_one_line(title: str) -> str:
    return " ".join(title.split()).rstrip("#").rstrip()


def _block(block: str) -> list[str]:
    if "\n" in block or block.startswith("| "):
        return block.split("\n")  # a table or a list, whose lines stand for themselves
    if block.startswith("> "):
        return [f"> {line}" for line in _wrapped(block[2:])]
    lines: list[str] = []
    for line in _wrapped(block):
        if lines and _SPECIAL.match(line):
            lines[-1] += f" {line}"
        else:
            lines.append(f"\\{line}" if _SPECIAL.match(line) else line)
    return lines


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, break_long_words=False, break_on_hyphens=False)
