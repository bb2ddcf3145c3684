"""The manuscript: footnotes are there, numbered and referenced; figures and their list; books; the same bytes twice."""

import io
import json
import struct
import zipfile
from pathlib import Path
from typing import Any

import docx
import pytest
from docx.oxml.ns import qn
from lxml import etree
from typer.testing import CliRunner

import cutaway.api.manuscript as room
from cutaway.api.manuscript import manuscript
from cutaway.cli.main import app
from cutaway.narrate.shots import Picture
from cutaway.publish.docx_file import docx_of
from cutaway.publish.manuscript import Figure, Manuscript, Paragraph, Part, Run
from tests.cli.running import cutaway

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"
FOOTNOTES = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/footnotes"


def picture(words: str) -> Picture:
    return Picture(words, "Fuel", "Mk 1", "parked", "marked")


def small() -> Manuscript:
    runs = (Run("The lamp lights.", "Handbook, §25."), Run("Good morning.", ""), Run("A < B & \x07C.", "Q & A <§1>."))
    figure = Figure("Fuel on Mk 1, parked.", picture("Fuel, Mk 1, parked"))
    part = Part("Petrol", (Paragraph("Tanks", runs, (figure,)), Paragraph("Tanks", (Run("End.", "§3."),), ())))
    return Manuscript("Whinchat", "Hallam & Reeve", "Not for flight.", (part,), ("Handbook, 1938.",))


def tree(content: bytes, name: str) -> Any:
    return etree.fromstring(zipfile.ZipFile(io.BytesIO(content)).read(name))


def one_pixel() -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (4, 3), "white").save(out, "PNG")
    return out.getvalue()


def test_footnotes_are_there_numbered_and_referenced() -> None:
    content = docx_of(small(), {})
    notes = tree(content, "word/footnotes.xml")
    body = tree(content, "word/document.xml")
    ids = [note.get(qn("w:id")) for note in notes if note.get(qn("w:type")) is None]
    references = [one.get(qn("w:id")) for one in body.iter(qn("w:footnoteReference"))]
    assert ids == references == ["1", "2", "3"]
    kinds = {note.get(qn("w:id")): note.get(qn("w:type")) for note in notes}
    assert kinds["-1"] == "separator" and kinds["0"] == "continuationSeparator"
    words = ["".join(note.itertext()).strip() for note in notes if note.get(qn("w:type")) is None]
    assert words == ["Handbook, §25.", "Q & A <§1>.", "§3."]
    assert all(len(list(note.iter(qn("w:footnoteRef")))) == 1 for note in notes if note.get(qn("w:type")) is None)


def test_the_package_knows_its_footnotes() -> None:
    content = docx_of(small(), {})
    document = docx.Document(io.BytesIO(content))
    part = document.part.part_related_by(FOOTNOTES)
    assert str(part.partname) == "/word/footnotes.xml"
    assert part.content_type.endswith("wordprocessingml.footnotes+xml")
    styles = {style.style_id for style in document.styles}
    used = {one.get(qn("w:val")) for one in tree(content, "word/footnotes.xml").iter(qn("w:pStyle"), qn("w:rStyle"))}
    assert used and used <= styles
    settings = tree(content, "word/settings.xml")
    (look,) = settings.iter(qn("w:footnotePr"))
    assert [one.get(qn("w:id")) for one in look] == ["-1", "0"]
    order = [child.tag for child in settings]
    assert order.index(qn("w:footnotePr")) < order.index(qn("w:compat"))


def test_a_reference_stands_behind_its_sentence() -> None:
    document = docx.Document(io.BytesIO(docx_of(small(), {})))
    paragraph = next(p for p in document.paragraphs if p.text.startswith("The lamp lights."))
    seen = [("note" if run._r.find(qn("w:footnoteReference")) is not None else run.text) for run in paragraph.runs]
    assert seen == ["The lamp lights.", "note", " Good morning.", " A < B &  C.", "note"]


def test_figures_are_numbered_listed_and_described() -> None:
    content = docx_of(small(), {"Fuel, Mk 1, parked": one_pixel()})
    document = docx.Document(io.BytesIO(content))
    texts = [p.text for p in document.paragraphs]
    captions = [p.text for p in document.paragraphs if p.style.name == "Caption"]
    assert captions == ["Figure 1. Fuel on Mk 1, parked."]
    assert texts.index("Figures") < texts.index("Figure 1. Fuel on Mk 1, parked.") < texts.index("Petrol")
    instructions = [one.text.strip() for one in tree(content, "word/document.xml").iter(qn("w:instrText"))]
    assert instructions == ['TOC \\h \\z \\c "Figure"', "SEQ Figure \\* ARABIC"]
    marks = [one.get(qn("w:fldCharType")) for one in tree(content, "word/document.xml").iter(qn("w:fldChar"))]
    assert marks == ["begin", "separate", "end"] * 2
    (shape,) = document.inline_shapes
    assert shape._inline.docPr.get("descr") == "Fuel on Mk 1, parked."


def test_without_figures_there_is_no_list_of_them() -> None:
    bare = Manuscript("A", "", "", (Part("B", (Paragraph("", (Run("C.", ""),), ()),)),), ())
    texts = [p.text for p in docx.Document(io.BytesIO(docx_of(bare, {}))).paragraphs]
    assert texts == ["A", "B", "C."]


def test_the_same_manuscript_gives_the_same_bytes() -> None:
    assert docx_of(small(), {}) == docx_of(small(), {})
    archive = zipfile.ZipFile(io.BytesIO(docx_of(small(), {})))
    assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert archive.namelist()[0] == "[Content_Types].xml" and archive.testzip() is None


def test_the_whinchat(tmp_path: Path) -> None:
    out = tmp_path / "book.docx"
    result = CliRunner().invoke(app, ["manuscript", str(WHINCHAT), "--no-rests", "--out", str(out), "--json"])
    record = json.loads(result.stdout)
    assert result.exit_code == 0
    content = out.read_bytes()
    notes = [note for note in tree(content, "word/footnotes.xml") if note.get(qn("w:type")) is None]
    assert len(notes) == record["footnotes"] > 40
    words = " ".join("".join(note.itertext()) for note in notes)
    assert "§43" in words and "holds on Mk 1" in words
    texts = [p.text for p in docx.Document(out).paragraphs]
    assert any(text.startswith("The Whinchat Trainer") and "March 1938" in text and "A.L. 2" in text for text in texts)
    assert any("not flight, maintenance or" in text for text in texts)
    assert texts.index("Petrol, and the lamp that watches it") < texts.index("Current, air and oil")
    assert sum(text.startswith("Figure ") for text in texts) == 2 * record["figures"]


def test_k402_what_is_there_is_left_alone(tmp_path: Path) -> None:
    out = tmp_path / "book.docx"
    out.write_bytes(b"mine")
    script = WHINCHAT / "scripts" / "01-fuel.md"
    book, problems = manuscript((script,), out, rests=False)
    assert book is None and out.read_bytes() == b"mine"
    assert "K402" in {p.code for p in problems}


def test_k401_the_library_is_not_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(room, "find_spec", lambda name: None)
    book, problems = manuscript((WHINCHAT,), tmp_path / "book.docx", rests=False)
    assert book is None and [p.code for p in problems] == ["K401"] and "-e '.[manuscript]'" in problems[0].hint


def test_k403_scripts_of_several_folders(sample: Path, tmp_path: Path) -> None:
    places = (WHINCHAT / "scripts" / "01-fuel.md", sample / "scripts" / "01-fuel.md")
    book, problems = manuscript(places, tmp_path / "book.docx", rests=False)
    assert book is None and [p.code for p in problems] == ["K403"]


def test_k405_drawings_only_from_a_pack_of_today(sample: Path, tmp_path: Path) -> None:
    from cutaway.api.making import make

    script = sample / "scripts" / "01-fuel.md"
    out = tmp_path / "book.docx"
    book, problems = manuscript((script,), out, rests=False)
    assert book is not None and book.figures == 1
    assert "K405" in {p.code for p in problems} and not docx.Document(out).inline_shapes
    make(sample, rests=False)
    book, problems = manuscript((script,), out, rests=False, replace=True)
    assert "K405" not in {p.code for p in problems}
    assert len(docx.Document(out).inline_shapes) == 1
    (name,) = [n for n in zipfile.ZipFile(out).namelist() if n.startswith("word/media/")]
    width, height = struct.unpack(">II", zipfile.ZipFile(out).read(name)[16:24])
    assert width == 1800 and height > 100
    system = sample / "systems" / "fuel.yaml"
    system.write_text(system.read_text(encoding="utf-8").replace("20 gal", "21 gal"), encoding="utf-8")
    _, problems = manuscript((script,), out, rests=False, replace=True)
    assert "K405" in {p.code for p in problems}


def test_a_name_that_is_no_docx_is_refused(sample: Path, tmp_path: Path) -> None:
    told = cutaway("manuscript", sample, "--out", tmp_path / "ms.txt")
    assert told.exit_code != 0 and "K406" in told.stderr and "ms.docx" in told.stderr
    assert not (tmp_path / "ms.txt").exists() and not (tmp_path / "ms.docx").exists()
