"""A manuscript as DOCX: footnotes, numbered figures with a list of them, bibliography. Same manuscript, same bytes."""

import io
import zipfile
from collections.abc import Mapping
from typing import Any

import docx
from docx.document import Document
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Cm, Pt
from docx.text.paragraph import Paragraph

from cutaway.narrate.manuscript_reading import NOT_SPOKEN
from cutaway.publish.docx_footnotes import Footnotes, plain
from cutaway.publish.manuscript import Figure, Manuscript, Part

_WIDTH = Cm(15.0)
_DIFFERING = "Sentences that differ from the books or from their claims"
_MARGIN = Cm(2.5)
# The first moment that a ZIP archive can name, so that nothing in the file tells when it was written.
_ALWAYS = (1980, 1, 1, 0, 0, 0)


def docx_of(script: Manuscript, pictures: Mapping[str, bytes]) -> bytes:
    """The manuscript as the bytes of a DOCX. pictures: PNG by the words of the picture; one that is missing leaves a
    frame with its name."""
    document = docx.Document()
    _prepare(document, script)
    notes = Footnotes(document)
    _front(document, script)
    figures = [figure for part in script.parts for one in part.paragraphs for figure in one.figures]
    if figures:
        _list_of_figures(document, figures)
    number = 0
    for part in script.parts:
        number = _part(document, part, notes, pictures, number)
    if script.differing:
        document.add_paragraph(_DIFFERING, style=f"{NOT_SPOKEN} heading")
        for words in script.differing:
            document.add_paragraph(plain(words), style=NOT_SPOKEN)
    if script.books:
        document.add_paragraph("Bibliography", style=f"{NOT_SPOKEN} heading")
        for book in script.books:
            document.add_paragraph(plain(book), style=NOT_SPOKEN)
    notes.close()
    written = io.BytesIO()
    document.save(written)
    return _settled(written.getvalue())


def _prepare(document: Document, script: Manuscript) -> None:
    about = document.core_properties
    about.title, about.author, about.last_modified_by = plain(script.title), "", ""
    about.comments = "Made from the type folder by Cutaway."
    about.language = "en-GB"
    for language in document.styles.element.iter(qn("w:lang")):
        language.set(qn("w:val"), "en-GB")
    document.styles["Normal"].font.size = Pt(11)
    for name, base in (
        ("table of figures", "Normal"),
        (NOT_SPOKEN, "Normal"),
        (f"{NOT_SPOKEN} title", "Title"),
        (f"{NOT_SPOKEN} heading", "Heading 1"),
    ):
        document.styles.add_style(name, WD_STYLE_TYPE.PARAGRAPH).base_style = document.styles[base]
    _pages(document)


def _pages(document: Document) -> None:
    """Sheets of A4, with their number at the foot."""
    section = document.sections[0]
    section.page_width, section.page_height = Cm(21.0), Cm(29.7)
    section.left_margin = section.right_margin = section.top_margin = section.bottom_margin = _MARGIN
    foot = section.footer.paragraphs[0]
    foot.alignment = WD_ALIGN_PARAGRAPH.CENTER
    _mark(foot, "begin")
    _instruction(foot, " PAGE ")
    _mark(foot, "separate")
    foot.add_run("1")
    _mark(foot, "end")


def _front(document: Document, script: Manuscript) -> None:
    document.add_paragraph(plain(script.title), style=f"{NOT_SPOKEN} title")
    if script.maker:
        document.add_paragraph(plain(script.maker), style=NOT_SPOKEN)
    if script.notice:
        paragraph = document.add_paragraph(style=NOT_SPOKEN)
        paragraph.add_run(plain(script.notice)).italic = True


def _list_of_figures(document: Document, figures: list[Figure]) -> None:
    """A field that the word processor can renew, filled in already."""
    document.add_paragraph("Figures", style=f"{NOT_SPOKEN} heading")
    for number, figure in enumerate(figures, 1):
        paragraph = document.add_paragraph(style="table of figures")
        if number == 1:
            _mark(paragraph, "begin")
            _instruction(paragraph, ' TOC \\h \\z \\c "Figure" ')
            _mark(paragraph, "separate")
        paragraph.add_run(plain(f"Figure {number}. {figure.caption}"))
        if number == len(figures):
            _mark(paragraph, "end")


def _part(document: Document, part: Part, notes: Footnotes, pictures: Mapping[str, bytes], number: int) -> int:
    """One script; the number of the last figure."""
    document.add_heading(plain(part.title), 1)
    chapter = ""
    for one in part.paragraphs:
        if one.chapter != chapter:
            chapter = one.chapter
            document.add_heading(plain(chapter), 2)
        paragraph = document.add_paragraph()
        for place, run in enumerate(one.runs):
            paragraph.add_run((" " if place else "") + plain(run.text))
            if run.footnote:
                notes.add(paragraph, run.footnote)
        for figure in one.figures:
            number += 1
            _figure(document, figure, number, pictures.get(figure.picture.words))
    return number


def _figure(document: Document, figure: Figure, number: int, picture: bytes | None) -> None:
    frame = document.add_paragraph(style=NOT_SPOKEN)
    frame.alignment = WD_ALIGN_PARAGRAPH.CENTER
    frame.paragraph_format.keep_with_next = True
    if picture is None:
        frame.add_run(plain(f"[picture: {figure.picture.words}]"))
    else:
        shape = frame.add_run().add_picture(io.BytesIO(picture), width=_WIDTH)
        shape._inline.docPr.set("descr", plain(figure.caption))
    caption = document.add_paragraph(style="Caption")
    caption.add_run("Figure ")
    _mark(caption, "begin")
    _instruction(caption, " SEQ Figure \\* ARABIC ")
    _mark(caption, "separate")
    caption.add_run(str(number))
    _mark(caption, "end")
    caption.add_run(plain(f". {figure.caption}"))


def _mark(paragraph: Paragraph, sort: str) -> None:
    element: Any = OxmlElement("w:fldChar")
    element.set(qn("w:fldCharType"), sort)
    paragraph.add_run()._r.append(element)


def _instruction(paragraph: Paragraph, words: str) -> None:
    element: Any = OxmlElement("w:instrText")
    element.set(qn("xml:space"), "preserve")
    element.text = words
    paragraph.add_run()._r.append(element)


def _settled(content: bytes) -> bytes:
    """The same archive with every date the same."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            info = zipfile.ZipInfo(name, _ALWAYS)
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, old.read(name))
    return out.getvalue()
