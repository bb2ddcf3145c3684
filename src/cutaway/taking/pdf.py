"""PDF files: their text where they have any, with the place of each line; else a picture of the page to be read."""

import ctypes
import re
from typing import Any

from PIL import Image

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.records import Line, Page, Word

DOTS_AN_INCH = 300
_LARGEST = 4200
_HYPHENS = ("\x02", "\ufffe", "\xad")
_STRETCH = re.compile(r"[^\r\n\x02\ufffe\xad]+")
_LEAST = 8
"""Letters below which a page counts as having no text: a page number on a scan is no text of the page."""


class Book:
    """An open PDF. The library is not made for several threads, so that only one may ask."""

    def __init__(self, document: Any, raw: Any) -> None:
        self._document = document
        self._raw = raw
        self.pages = len(document)

    def text_page(self, number: int) -> Page | None:
        """The page's own text as lines; None where it has (next to) none."""
        page = self._document[number - 1]
        try:
            text_page = page.get_textpage()
            try:
                if text_page.count_chars() < _LEAST:
                    return None
                text = text_page.get_text_range()
                if sum(letter.isalnum() for letter in text) < _LEAST:
                    return None
                lines = _lines(text, self._places(text_page, text))
            finally:
                text_page.close()
            return Page(number, lines, "text", over_picture=self._picture_covers(page))
        finally:
            page.close()

    def picture(self, number: int) -> Image.Image:
        """The page as a picture."""
        page = self._document[number - 1]
        try:
            longer = max(page.get_size()) / 72
            scale = min(DOTS_AN_INCH / 72, _LARGEST / 72 / max(longer, 0.1))
            return page.render(scale=scale, grayscale=True).to_pil()  # type: ignore[no-any-return]
        finally:
            page.close()

    def close(self) -> None:
        """Let the file go."""
        self._document.close()

    def _places(self, text_page: Any, text: str) -> dict[int, tuple[float, float]]:
        """Top and bottom of the line that begins at each offset, counted downwards; empty where offsets disagree."""
        raw, places = self._raw, {}
        left, right, bottom, top = (ctypes.c_double() for _ in range(4))
        for match in _STRETCH.finditer(text):
            at = match.start() + len(match[0]) - len(match[0].lstrip())
            if at >= match.end():
                continue
            if raw.FPDFText_GetUnicode(text_page, at) != ord(text[at]):
                return {}
            raw.FPDFText_GetCharBox(text_page, at, *(ctypes.byref(v) for v in (left, right, bottom, top)))
            places[match.start()] = (-top.value, -bottom.value)
        return places

    def _picture_covers(self, page: Any) -> bool:
        """Whether a picture covers most of the page: its text then is another reader's."""
        width, height = page.get_size()
        for thing in page.get_objects(filter=[self._raw.FPDF_PAGEOBJ_IMAGE], max_depth=3):
            left, bottom, right, top = thing.get_bounds()
            if (right - left) * (top - bottom) > 0.6 * width * height:
                return True
        return False


def open_book(data: bytes, shown: str) -> tuple[Book | None, Problems]:
    """The PDF in these bytes, or why it cannot be opened."""
    try:
        import pypdfium2
        import pypdfium2.raw
    except ImportError:
        return None, (missing_library("pypdfium2", shown, "a PDF"),)
    try:
        document = pypdfium2.PdfDocument(data)
        if not len(document):
            return None, (_broken(shown, "it has no pages"),)
        return Book(document, pypdfium2.raw), ()
    except pypdfium2.PdfiumError as fault:
        if "password" in str(fault).lower():
            return None, (
                Diagnostic(
                    "T103",
                    None,
                    f"'{shown}' is locked with a password.",
                    "Open it with the password, save or print a copy without one, and take that.",
                ),
            )
        return None, (_broken(shown, "it is cut short or damaged"),)


def missing_library(name: str, shown: str, sort: str) -> Diagnostic:
    """The problem of a library that comes with the extra `sources` only."""
    return Diagnostic(
        "T106",
        None,
        f"'{shown}' is {sort}; the library {name}, which reads it, is not installed.",
        "Install it with: pip install -c constraints.txt -e '.[sources]'",
    )


def _broken(shown: str, why: str) -> Diagnostic:
    return Diagnostic(
        "T104",
        None,
        f"'{shown}' begins as a PDF but cannot be opened: {why}.",
        "Fetch or copy it again. If a viewer still shows it, print it from there into a new PDF and take that.",
    )


def _lines(text: str, places: dict[int, tuple[float, float]]) -> tuple[Line, ...]:
    # The library gives a hyphen at the end of a line as U+0002 or U+FFFE, and leaves the line end out.
    lines: list[Line] = []
    for match in _STRETCH.finditer(text):
        hyphen = "-" if text[match.end() : match.end() + 1] in _HYPHENS else ""
        words = tuple(Word(word) for word in (match[0].replace("\0", " ") + hyphen).split())
        if words:
            lines.append(Line(words, *places.get(match.start(), (0.0, 0.0))))
    return tuple(lines)
