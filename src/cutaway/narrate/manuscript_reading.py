"""A manuscript in DOCX as headings and paragraphs: the one file that knows python-docx."""

import re
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from cutaway.narrate.imported import Block
from cutaway.problems.diagnostic import Diagnostic, Problems

NOT_SPOKEN = "Not spoken"
"""How the styles of our own manuscripts begin whose words are no part of the script: title page, figures, books."""

_LEFT_OUT = re.compile(
    r"^(?:not spoken|caption|toc \d|toc heading|table of (?:figures|contents|authorities)|index \d|footnote|endnote|"
    r"header|footer|bibliography|(?:foot|end)note text|illustration|figure|table)\b",
    re.IGNORECASE,
)
"""Styles, by their names in every word processor, of what is not the running text."""


def read_docx(path: Path) -> tuple[tuple[Block, ...] | None, Problems]:
    """The headings and paragraphs of a manuscript; tables, notes and pictures are not spoken and are left out."""
    if find_spec("docx") is None:
        words = "What reads DOCX (python-docx) is not installed."
        hint = "Install it with: pip install -c constraints.txt -e '.[manuscript]'"
        return None, (Diagnostic("N601", None, words, hint),)
    import docx

    try:
        styled = [(_style(one), one.text) for one in docx.Document(str(path)).paragraphs]
        return tuple(Block(_level(style), text) for style, text in styled if not _LEFT_OUT.match(style)), ()
    except Exception as fault:  # the library raises whatever its parts raise on a broken file
        words = f"'{path.name}' is no DOCX file that can be read ({type(fault).__name__})."
        return None, (Diagnostic("N601", None, words, "Open it in a word processor and save it again as DOCX."),)


def _style(paragraph: Any) -> str:
    return str(paragraph.style.name or "") if paragraph.style else ""


def _level(style: str) -> int:
    name = style.lower()
    if name == "title":
        return 1
    if name.startswith("heading"):
        digits = "".join(letter for letter in name if letter.isdigit())
        return max(1, int(digits)) if digits else 2
    return 0
