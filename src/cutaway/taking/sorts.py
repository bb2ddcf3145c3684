"""Which sort of file something is: told by what is in it, since endings lie."""

from pathlib import Path
from typing import Literal

Sort = Literal["pdf", "picture", "workbook", "table", "markdown", "text", "unknown"]

_PICTURES = (b"\x89PNG\r\n", b"\xff\xd8\xff", b"II*\0", b"MM\0*", b"GIF8", b"BM", b"\0\0\0\x0cjP  ")
_TABLES = (".csv", ".tsv")
_MARKDOWN = (".md", ".markdown")


def sort_of(path: Path, data: bytes) -> Sort:
    """The sort of a file by its first bytes; its ending decides only between kinds of plain text."""
    if b"%PDF-" in data[:1024]:
        return "pdf"
    if data.startswith(_PICTURES) or (data[:4] == b"RIFF" and data[8:12] == b"WEBP"):
        return "picture"
    if data.startswith(b"PK\x03\x04"):
        return "workbook" if b"xl/" in data or b"[Content_Types].xml" in data[:2000] else "unknown"
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" not in data:
        ending = path.suffix.lower()
        return "table" if ending in _TABLES else "markdown" if ending in _MARKDOWN else "text"
    return "unknown"
