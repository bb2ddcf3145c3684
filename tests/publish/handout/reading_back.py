"""A PDF read back by a reader that is not the writer: words, sizes, fonts, tags, pages."""

import ctypes
import math
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as raw


@dataclass(frozen=True)
class Tag:
    """An element of the tree of tags: its type and its text alternative."""

    sort: str
    alt: str


def sizes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page, pt."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_size() for page in document]


def texts(pdf: bytes) -> list[str]:
    """The words of every page."""
    document = pypdfium2.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]


def letter_sizes(pdf: bytes) -> dict[float, str]:
    """Every size of letters as they stand on the page, pt, with some that have it."""
    found: dict[float, str] = {}
    for page in pypdfium2.PdfDocument(pdf):
        words = page.get_textpage()
        for number in range(words.count_chars()):
            letter = chr(raw.FPDFText_GetUnicode(words.raw, number))
            matrix = raw.FS_MATRIX()
            if letter.isspace() or raw.FPDFText_IsGenerated(words.raw, number) == 1:
                continue
            assert raw.FPDFText_GetMatrix(words.raw, number, matrix)
            size = raw.FPDFText_GetFontSize(words.raw, number) * math.hypot(matrix.b, matrix.d)
            found[round(size, 2)] = (found.get(round(size, 2), "") + letter)[:20]
    return found


def fonts(pdf: bytes) -> dict[str, bool]:
    """Every font that words are set in, and whether it is in the file."""
    found: dict[str, bool] = {}
    for page in pypdfium2.PdfDocument(pdf):
        for one in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=20):
            font = raw.FPDFTextObj_GetFont(one.raw)
            room = ctypes.create_string_buffer(200)
            raw.FPDFFont_GetBaseFontName(font, room, 200)
            found[room.value.decode()] = raw.FPDFFont_GetIsEmbedded(font) == 1
    return found


def tags(pdf: bytes) -> list[Tag]:
    """Every element of the trees of tags of all pages."""
    found: list[Tag] = []
    for page in pypdfium2.PdfDocument(pdf):
        tree = raw.FPDF_StructTree_GetForPage(page.raw)
        for number in range(raw.FPDF_StructTree_CountChildren(tree)):
            found.extend(_below(raw.FPDF_StructTree_GetChildAtIndex(tree, number)))
        raw.FPDF_StructTree_Close(tree)
    return found


def about(pdf: bytes) -> dict[str, str]:
    """Title, author and the like."""
    return dict(pypdfium2.PdfDocument(pdf).get_metadata_dict())


def _below(element: object) -> Iterator[Tag]:
    if not element:
        return
    yield Tag(_said(raw.FPDF_StructElement_GetType, element), _said(raw.FPDF_StructElement_GetAltText, element))
    for number in range(raw.FPDF_StructElement_CountChildren(element)):
        yield from _below(raw.FPDF_StructElement_GetChildAtIndex(element, number))


def _said(of: object, element: object) -> str:
    size = of(element, None, 0)  # type: ignore[operator]
    room = ctypes.create_string_buffer(max(size, 2))
    of(element, room, size)  # type: ignore[operator]
    return room.raw[: max(size - 2, 0)].decode("utf-16-le")
