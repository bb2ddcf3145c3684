"""Markdown as paragraphs: one for each heading, with its number where it has one that rises."""

import re

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.records import Taken

_HEADING = re.compile(r"^(#{1,6}) +(.*?)[ #]*$")
_NUMBERED = re.compile(r"^§?\s*(?P<number>\d+)(?P<letter>[a-z]?)\b[.:)]?\s*(?P<title>.*)$", re.IGNORECASE)
_FENCE = re.compile(r"^\s*(?:```|~~~)")
_LINES = re.compile(r"^\s*(?:[-*+] |\d+[.)] |\|)")
_FRONT = re.compile(r"\A---[ \t]*\n.*?^---[ \t]*\n", re.DOTALL | re.MULTILINE)


def without_front(text: str) -> str:
    """The text without the head between lines of ---."""
    return _FRONT.sub("", text, count=1)


def markdown_paragraphs(text: str) -> tuple[tuple[Taken, ...], Problems]:
    """A paragraph for each heading that has text under it; the headings above it are told in its title."""
    made: list[Taken] = []
    unnumbered = 0
    for title, blocks in _sections(without_front(text)):
        if not blocks and not title:
            continue
        numbered = _NUMBERED.match(title)
        rank = _rank(made[-1].number) if made else (0, "")
        if numbered and (int(numbered["number"]), numbered["letter"].lower()) > rank:
            number, title = numbered["number"] + numbered["letter"].lower(), numbered["title"]
        elif blocks:
            number, unnumbered = str(rank[0] + 1), unnumbered + 1
        else:
            continue
        made.append(Taken(number, title, blocks, 1))
    return tuple(made), _told(unnumbered)


def _sections(text: str) -> list[tuple[str, tuple[str, ...]]]:
    sections: list[tuple[str, list[str]]] = [("", [])]
    fenced = False
    for line in text.split("\n"):
        fenced ^= bool(_FENCE.match(line))
        heading = None if fenced else _HEADING.match(line)
        if heading:
            sections.append((heading[2], []))
        else:
            sections[-1][1].append(line)
    return [(title, _blocks("\n".join(lines))) for title, lines in sections]


def _blocks(text: str) -> tuple[str, ...]:
    blocks: list[str] = []
    for block in re.split(r"\n\s*\n", text.strip()):
        if _LINES.match(block):
            blocks.append("\n".join(line.rstrip() for line in block.split("\n")))
        elif block.strip():
            blocks.append(" ".join(re.sub(r"^> ?", "", block, flags=re.MULTILINE).split()))
            if block.startswith(">"):
                blocks[-1] = f"> {blocks[-1]}"
    return tuple(blocks)


def _rank(number: str) -> tuple[int, str]:
    return int(re.sub(r"\D", "", number)), re.sub(r"\d", "", number)


def _told(unnumbered: int) -> Problems:
    if not unnumbered:
        return ()
    return (
        Diagnostic(
            "T203",
            None,
            f"{counted(unnumbered, 'heading')} without a number, or with one out of order, took the next number.",
            "Write ## 21 Title where the book has a number.",
        ),
    )
