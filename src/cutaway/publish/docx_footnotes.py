"""The footnotes of a DOCX as a part of its package, since python-docx has no way of its own to write them.

The part has the two separators that Word wants, then one footnote a note, numbered from 1 in the order of the text.
ECMA-376, part 1, section 17.11.
"""

import re
from typing import Any

from docx.document import Document
from docx.enum.style import WD_STYLE_TYPE
from docx.opc.packuri import PackURI
from docx.opc.part import Part
from docx.oxml import OxmlElement
from docx.oxml.ns import nsdecls, qn
from docx.oxml.parser import parse_xml
from docx.shared import Pt
from docx.text.paragraph import Paragraph
from lxml import etree

_CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.wordprocessingml.footnotes+xml"
_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/footnotes"
_NO_XML = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")
_NO_SPACE = '<w:pPr><w:spacing w:after="0"/></w:pPr>'
_SEPARATORS = (
    f"<w:footnotes {nsdecls('w')}>"
    f'<w:footnote w:type="separator" w:id="-1"><w:p>{_NO_SPACE}<w:r><w:separator/></w:r></w:p></w:footnote>'
    f'<w:footnote w:type="continuationSeparator" w:id="0"><w:p>{_NO_SPACE}<w:r><w:continuationSeparator/></w:r></w:p>'
    "</w:footnote></w:footnotes>"
)


def plain(text: str) -> str:
    """The text without what no XML can hold."""
    return _NO_XML.sub(" ", text)


class Footnotes:
    """The footnotes of one document while it is written; `close` puts them into its package."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._root: Any = parse_xml(_SEPARATORS)
        self._count = 0
        styles = document.styles
        text = styles.add_style("footnote text", WD_STYLE_TYPE.PARAGRAPH)
        text.base_style = styles["Normal"]
        text.font.size = Pt(9)
        text.paragraph_format.space_after = Pt(0)
        mark = styles.add_style("footnote reference", WD_STYLE_TYPE.CHARACTER)
        mark.font.superscript = True
        self._text_style, self._mark_style = str(text.style_id), str(mark.style_id)

    def add(self, paragraph: Paragraph, words: str) -> int:
        """A footnote at the end of what the paragraph holds so far; its number."""
        self._count += 1
        run = paragraph.add_run()
        run.style = self._document.styles["footnote reference"]
        reference = OxmlElement("w:footnoteReference")
        reference.set(qn("w:id"), str(self._count))
        run._r.append(reference)
        self._root.append(self._note(words))
        return self._count

    def _note(self, words: str) -> Any:
        note = OxmlElement("w:footnote")
        note.set(qn("w:id"), str(self._count))
        body = etree.SubElement(note, qn("w:p"))
        look = etree.SubElement(body, qn("w:pPr"))
        etree.SubElement(look, qn("w:pStyle")).set(qn("w:val"), self._text_style)
        mark = etree.SubElement(body, qn("w:r"))
        etree.SubElement(etree.SubElement(mark, qn("w:rPr")), qn("w:rStyle")).set(qn("w:val"), self._mark_style)
        etree.SubElement(mark, qn("w:footnoteRef"))
        text = etree.SubElement(etree.SubElement(body, qn("w:r")), qn("w:t"))
        text.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
        text.text = plain(f" {words}")
        return note

    def close(self) -> None:
        """Put the footnotes into the package, and say in its settings which are the separators."""
        package = self._document.part.package
        blob = etree.tostring(self._root, xml_declaration=True, encoding="UTF-8", standalone=True)
        part = Part(PackURI("/word/footnotes.xml"), _CONTENT_TYPE, blob, package)
        self._document.part.relate_to(part, _RELATION)
        settings = self._document.settings.element
        look = OxmlElement("w:footnotePr")
        for ident in ("-1", "0"):
            etree.SubElement(look, qn("w:footnote")).set(qn("w:id"), ident)
        # The schema has these before the settings for compatibility.
        before = settings.find(qn("w:compat"))
        if before is None:
            settings.append(look)
        else:
            before.addprevious(look)
