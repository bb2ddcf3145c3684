"""A manuscript in DOCX as headings and paragraphs: the one file that knows python-docx."""

from importlib.util import find_spec
from pathlib import Path

from cutaway.narrate.imported import Block
from cutaway.problems.diagnostic import Diagnostic, Problems


def read_docx(path: Path) -> tuple[tuple[Block, ...] | None, Problems]:
    """The headings and paragraphs of a manuscript; tables, notes and pictures are not spoken and are left out."""
    if find_spec("docx") is None:
        words = "What reads DOCX (python-docx) is not installed."
        return None, (Diagnostic("N601", None, words, "Install it with: pip install 'cutaway[manuscript]'"),)
    import docx

    try:
        paragraphs = docx.Document(str(path)).paragraphs
        return tuple(Block(_level(one.style.name if one.style else ""), one.text) for one in paragraphs), ()
    except Exception as fault:  # the library raises whatever its parts raise on a broken file
        words = f"'{path.name}' is no DOCX file that can be read ({type(fault).__name__})."
        return None, (Diagnostic("N601", None, words, "Open it in a word processor and save it again as DOCX."),)


def _level(style: str | None) -> int:
    name = (style or "").lower()
    if name == "title":
        return 1
    if name.startswith("heading"):
        digits = "".join(letter for letter in name if letter.isdigit())
        return max(1, int(digits)) if digits else 2
    return 0
