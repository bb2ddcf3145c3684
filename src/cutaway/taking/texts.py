"""Plain text and Markdown as pages of lines."""

import re

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.records import Line, Page, Word


def decoded_text(data: bytes, shown: str) -> tuple[str, Problems]:
    """The letters of a text: UTF-8 or UTF-16 where it says so, else the letters of Western Europe, which is told."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        text, problems = data.decode("utf-16", "replace"), ()
    else:
        try:
            text, problems = data.decode("utf-8-sig"), ()
        except UnicodeDecodeError:
            return _line_ends(data.decode("cp1252", "replace")), (
                Diagnostic(
                    "T210",
                    None,
                    f"'{shown}' is not in UTF-8; it was read as Western European text (Windows-1252).",
                    "See that signs such as £, ½ and ° are right in the result.",
                ),
            )
    return _line_ends(text), problems


def text_pages(text: str) -> tuple[Page, ...]:
    """Pages at form feeds; a line after blank lines knows it."""
    return tuple(Page(number, _lines(page), "text") for number, page in enumerate(text.split("\f"), 1))


def _lines(text: str) -> tuple[Line, ...]:
    lines: list[Line] = []
    gap = False
    for row in text.split("\n"):
        words = tuple(Word(word) for word in re.sub(r"[\0-\x08\x0e-\x1f]", " ", row).split())
        if not words:
            gap = True
        else:
            lines.append(Line(words, gap=gap))
            gap = False
    return tuple(lines)


def _line_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")
