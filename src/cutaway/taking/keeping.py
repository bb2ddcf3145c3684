"""Pages already read, kept in the user's cache by what was read and how, so that a stop loses no page that was done."""

import base64
import contextlib
import hashlib
import json
import os
import tempfile
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from cutaway.taking.records import Line, Page, Word

_HOW = ("pictures.py", "reader.py", "second.py", "doubts.py", "records.py", "keeping.py", "pdf.py", "images.py")


@cache
def recipe() -> str:
    """A digest of everything that decides how a picture is read: an old page is not taken for a new reading."""
    digest = hashlib.sha256()
    for name in _HOW:
        digest.update((files("cutaway.taking") / name).read_bytes())
    return digest.hexdigest()[:16]


def key(content: str, number: int, reader: str, second: str) -> str:
    """The name under which a page is kept. content: the digest of its file."""
    return hashlib.sha256(f"{content} {number} {reader} {second} {recipe()}".encode()).hexdigest()[:40]


class Shelf:
    """The folder of kept pages; None keeps nothing."""

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder

    def get(self, name: str) -> Page | None:
        """A kept page; None where there is none, or what is there is of no use."""
        if self._folder is None:
            return None
        try:
            return _page(json.loads((self._folder / f"{name}.json").read_text(encoding="utf-8")))
        except (OSError, ValueError, KeyError, TypeError):
            return None

    def put(self, name: str, page: Page) -> None:
        """Keep a page. A full or forbidden disk is no reason to stop: the page is then read again next time."""
        if self._folder is None:
            return
        with contextlib.suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, path = tempfile.mkstemp(dir=self._folder, suffix=".part")
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                json.dump(_record(page), file, ensure_ascii=False)
            Path(path).replace(self._folder / f"{name}.json")


def _record(page: Page) -> dict[str, Any]:
    return {
        "number": page.number,
        "turned": page.turned,
        "blank": page.blank,
        "lines": [
            {
                "words": [[word.text, word.confidence, word.was] for word in line.words],
                "top": line.top,
                "bottom": line.bottom,
                "crop": base64.b64encode(line.crop).decode("ascii"),
                "second": line.second,
            }
            for line in page.lines
        ],
    }


def _page(record: dict[str, Any]) -> Page:
    lines = tuple(
        Line(
            tuple(Word(str(text), float(confidence), str(was)) for text, confidence, was in line["words"]),
            float(line["top"]),
            float(line["bottom"]),
            crop=base64.b64decode(line["crop"]),
            second=str(line["second"]),
        )
        for line in record["lines"]
    )
    return Page(int(record["number"]), lines, "read", int(record["turned"]), blank=bool(record["blank"]))
