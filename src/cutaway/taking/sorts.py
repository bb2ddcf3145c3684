"""Which sort of file something is: told by what is in it, since endings lie."""

import re
from pathlib import Path
from typing import Literal

Sort = Literal["pdf", "picture", "workbook", "table", "markdown", "text", "unknown"]

_PICTURES = (b"\x89PNG\r\n", b"\xff\xd8\xff", b"II*\0", b"MM\0*", b"GIF8", b"BM", b"\0\0\0\x0cjP  ")
_TABLES = (".csv", ".tsv")
_MARKDOWN = (".md", ".markdown")
_WEB_PAGE = re.compile(rb"(?:\xef\xbb\xbf)?\s*<(?:!doctype\s+html|html)\b", re.IGNORECASE)
_NAMED_AS = {
    ".pdf": "a PDF",
    ".xlsx": "a workbook",
    ".xls": "a workbook",
    ".docx": "a Word document",
    **dict.fromkeys((".png", ".jpg", ".jpeg", ".tif", ".tiff", ".gif", ".bmp", ".webp", ".jp2"), "a picture"),
}
_PROGRAMS = re.compile(
    r"\.(?:py|js|ts|c|h|cc|cpp|hpp|java|rs|go|rb|pl|php|sh|bash|bat|ps1|css|sql|lua|swift)", re.IGNORECASE
)
_SETTINGS = re.compile(r"\.(?:json|toml|ini|cfg|conf|ya?ml|xml|log|lock|env)", re.IGNORECASE)
_CODE = re.compile(
    r"\s*(?:def \w|class \w+[:({]|import [\w.]+$|from \S+ import |return\b.*[;)\]\w]$"
    r"|(?:if|for|while|else|elif|try)\b.*[:{]$|#include|function \w|(?:var|let|const) \w+ =|[{}\])]+;?$"
    r"|\w+ = .*[;)\]]$|\w+\(.*\);?$)"
)
_SORTS = "Take a PDF, a picture (PNG, JPEG, TIFF), a text, Markdown, a CSV or a workbook (.xlsx)."


def sort_of(path: Path, data: bytes) -> Sort:
    """The sort of a file by its first bytes; its ending decides only between kinds of plain text."""
    if b"%PDF-" in data[:1024]:
        return "pdf"
    if data.startswith(_PICTURES) or (data[:4] == b"RIFF" and data[8:12] == b"WEBP"):
        return "picture"
    if data.startswith(b"PK\x03\x04"):
        return "workbook" if b"xl/" in data or (b"[Content_Types].xml" in data and b"word/" not in data) else "unknown"
    if _WEB_PAGE.match(data) or data.startswith(b"{\\rtf"):
        return "unknown"
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" not in data:
        ending = path.suffix.lower()
        return "table" if ending in _TABLES else "markdown" if ending in _MARKDOWN else "text"
    return "unknown"


def named_as(path: Path) -> str:
    """What a file's ending says that it is, where that is no plain text: 'a PDF'."""
    return _NAMED_AS.get(path.suffix.lower(), "")


def no_book(path: Path, data: bytes) -> str:
    """What a plain text seems to be instead of a book, '' where it may well be one: 'a program', 'a list of settings'.

    >>> no_book(Path("a.py"), b"import os"), no_book(Path("passwd"), b"root:x:0:0:root:/root:/bin/bash\\n" * 9)
    ('a program', 'a list of settings')
    """
    text = data.decode("utf-8", "replace")
    lines = [line for line in text.split("\n") if line.strip()]
    code = sum(_CODE.match(line) is not None for line in lines)
    if _PROGRAMS.fullmatch(path.suffix) or text.startswith("#!") or (len(lines) > 4 and code > 0.2 * len(lines)):
        return "a program"
    blanks = sum(letter in " \t" for letter in text)
    # In running text every sixth letter is a blank.
    few = len(text) > 200 and blanks < 0.05 * len(text) and len(text.split()) > 3
    return "a list of settings" if _SETTINGS.fullmatch(path.suffix) or few else ""


def other_sort(path: Path, data: bytes) -> tuple[str, str]:
    """What a file is that cannot be taken, and what to do instead."""
    if _WEB_PAGE.match(data):
        wanted = named_as(path)
        but = f", not {wanted}" if wanted else ""
        return f"a web page{but}", "Fetch the book itself, or print the page into a PDF and take that."
    if b"word/" in data or data.startswith(b"{\\rtf"):
        return "a document of a word processor", "Save it as a PDF or as plain text (.txt), and take that."
    return "of no sort that can be taken in", _SORTS
