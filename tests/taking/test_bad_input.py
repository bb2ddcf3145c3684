"""Files that cannot be taken, pages that went badly, places that cannot be written: a sentence each, nothing lost."""

import shutil
import sys
from pathlib import Path

import pytest
from PIL import Image

from cutaway.api.taking import take_in
from cutaway.taking import gathering
from cutaway.taking.reader import find_reader, read_page
from tests.taking.conftest import reads_pictures
from tests.taking.drawn import PARAGRAPHS, page, worn
from tests.taking.pdfs import scanned_pdf, text_pdf

LINES = ["21. Fuel cocks. A selector takes petrol from either tank."]


def untouched(folder: Path) -> bool:
    return not (folder / "taken").exists() and [p.name for p in (folder / "sources").iterdir()] == ["hb.md"]


def file_of(name: str, content: bytes, tmp_path: Path) -> Path:
    (tmp_path / name).write_bytes(content)
    return tmp_path / name


@pytest.mark.parametrize(
    "name, content, code",
    [
        ("locked.pdf", text_pdf([LINES], encrypted=True), "T103"),
        ("half.pdf", text_pdf([LINES])[:300], "T104"),
        ("empty.pdf", text_pdf([]), "T104"),
        ("half.png", b"\x89PNG\r\n\x1a\n broken", "T105"),
        ("half.xlsx", b"PK\x03\x04[Content_Types].xml xl/ broken", "T105"),
        ("engine.wav", b"RIFF\0\0\0\0WAVEfmt ", "T102"),
        ("letter.docx", b"PK\x03\x04[Content_Types].xml word/document.xml", "T102"),
        ("letter.txt", b"{\\rtf1 words}", "T102"),
        ("page.pdf", b"<!DOCTYPE html><title>Not found</title>", "T102"),
        ("other.zip", b"PK\x03\x04 something else", "T102"),
        ("nothing.txt", b" \n \n", "T112"),
        ("long.txt", b"1. Long. " + b"It goes on and on.\n" * 120_000, "T113"),
    ],
)
def test_files_that_cannot_be_taken(name, content, code, taken, tmp_path) -> None:
    pytest.importorskip("pypdfium2")
    pytest.importorskip("openpyxl")
    assert taken(file_of(name, content, tmp_path)) == (None, [code])
    assert untouched(taken.folder)
    # One sentence that names the file, and what to do.
    _, (problem,) = take_in(taken.folder, [tmp_path / name])
    assert Path(name).stem in problem.message and problem.message.endswith(".") and problem.message.count(". ") == 0
    assert problem.hint.strip()


def test_what_is_said_wrongly(taken, tmp_path) -> None:
    good = file_of("good.txt", LINES[0].encode(), tmp_path)
    assert taken(tmp_path / "not there.pdf") == (None, ["T101"])
    assert taken(good, key="A.P. §1") == (None, ["T109"])
    assert taken(good, key="my book") == (None, ["T109"])
    assert taken(good, key="hb-") == (None, ["T109"])
    assert taken(good, pages="40-1") == (None, ["T110"])
    assert taken(good, pages="0") == (None, ["T110"])
    assert untouched(taken.folder)


def test_a_folder_that_is_not_there_or_cannot_be_written(taken, tmp_path) -> None:
    good = file_of("good.txt", LINES[0].encode(), tmp_path)
    outcome, problems = take_in(tmp_path / "nowhere", [good])
    assert outcome is None and [p.code for p in problems] == ["T116"]
    outside = tmp_path / "outside"
    outside.mkdir()
    shutil.rmtree(taken.folder / "sources")
    (taken.folder / "sources").symlink_to(outside)
    assert taken(good) == (None, ["T111"])
    assert list(outside.iterdir()) == []


@pytest.mark.parametrize("name, library", [("a.pdf", "pypdfium2"), ("a.xlsx", "openpyxl")])
def test_a_library_that_is_missing_is_named(name, library, taken, tmp_path, monkeypatch) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    content = text_pdf([LINES]) if name == "a.pdf" else b"PK\x03\x04[Content_Types].xml"
    assert taken(file_of(name, content, tmp_path)) == (None, ["T106"])


def test_the_reader_that_is_missing_is_named_and_text_pages_do_without(taken, tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(gathering, "find_reader", lambda: None)
    page(PARAGRAPHS[:1]).save(tmp_path / "scan.png")
    assert taken(tmp_path / "scan.png") == (None, ["T107"])
    pytest.importorskip("pypdfium2")
    outcome, codes = taken(file_of("text.pdf", text_pdf([LINES]), tmp_path))
    assert outcome is not None and codes == []


@reads_pictures
def test_a_blank_page_alone_is_nothing_to_take(taken, tmp_path) -> None:
    Image.new("L", (1240, 1754), 245).save(tmp_path / "blank.png")
    assert taken(tmp_path / "blank.png") == (None, ["T112"])


@reads_pictures
def test_blank_and_turned_pages_are_told(taken, tmp_path) -> None:
    pages = [Image.new("L", (1240, 1754), 245), page(PARAGRAPHS[:2]), page(PARAGRAPHS[2:4]).rotate(90, expand=True)]
    for number, picture in enumerate(pages):
        picture.save(tmp_path / f"page{number}.png")
    _, codes = taken(*(tmp_path / f"page{number}.png" for number in range(3)), key="three")
    assert sorted(codes) == ["T201", "T202"]
    text = (taken.folder / "sources" / "three.md").read_text(encoding="utf-8")
    assert "## 41 Float cocks\n{page: 2}" in text and "## 44 Battery\n{page: 3}" in text


@reads_pictures
def test_a_page_out_of_focus_is_called_guesses(taken, tmp_path) -> None:
    worn(page(PARAGRAPHS[:3]), blur=3.1, speckle=0.01, stains=3).save(tmp_path / "dim.png")
    outcome, codes = taken(tmp_path / "dim.png")
    assert outcome is not None and "T212" in codes


@reads_pictures
def test_a_dirty_page_is_blank_and_one_with_a_single_line_is_not() -> None:
    reader = find_reader()
    dirty = worn(Image.new("L", (1240, 1754), 245), stains=6, speckle=0.01)
    assert read_page(dirty, 1, reader, None).blank
    one = read_page(page(["Left blank on purpose."]), 1, reader, None)
    assert not one.blank and [line.text for line in one.lines] == ["Left blank on purpose."]


@reads_pictures
def test_a_page_on_which_the_reader_breaks_is_left_out_and_the_others_are_taken(taken, tmp_path, monkeypatch) -> None:
    pytest.importorskip("pypdfium2")
    real = gathering.read_page

    def breaks(picture, number, reader, second):
        if number == 2:
            raise gathering.ReaderFailedError("it fell over")
        return real(picture, number, reader, second)

    monkeypatch.setattr(gathering, "read_page", breaks)
    (tmp_path / "book.pdf").write_bytes(scanned_pdf([page([text]) for text in PARAGRAPHS[:3]]))
    outcome, codes = taken(tmp_path / "book.pdf")
    assert codes == ["T114"] and outcome.pages == 2
    text = (taken.folder / "sources" / "book.md").read_text(encoding="utf-8")
    assert "## 41 " in text and "## 42 " not in text and "## 43 " in text


def test_old_letters_are_told(taken, tmp_path) -> None:
    old = file_of("old.txt", "21. Heat. Not above 90° for ½ hour.".encode("cp1252"), tmp_path)
    assert taken(old)[1] == ["T210"]
    assert "90° for ½ hour" in (taken.folder / "sources" / "old.md").read_text(encoding="utf-8")


def test_formulas_that_were_never_calculated_are_told(taken, tmp_path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    book.active.append(["set at", 4.5])
    book.active.append(["twice", "=B1*2"])
    book.save(tmp_path / "sums.xlsx")
    assert taken(tmp_path / "sums.xlsx")[1] == ["T211"]


def test_a_folder_that_is_no_type_folder_is_left_alone(tmp_path, monkeypatch) -> None:
    good = file_of("good.txt", LINES[0].encode(), tmp_path)
    (tmp_path / "letters").mkdir()
    monkeypatch.chdir(tmp_path / "letters")
    outcome, (problem,) = take_in(Path(), [good])
    assert outcome is None and problem.code == "T116"
    assert "cutaway new" in problem.hint and "-C" in problem.hint
    assert list((tmp_path / "letters").iterdir()) == []


def test_a_broken_file_is_left_out_and_the_rest_is_taken(taken, tmp_path) -> None:
    broken = file_of("broken.png", b"\x89PNG\r\n\x1a\n broken", tmp_path)
    sound = file_of("engine.wav", b"RIFF\0\0\0\0WAVEfmt ", tmp_path)
    good = file_of("good.txt", LINES[0].encode(), tmp_path)
    outcome, codes = taken(broken, sound, good, key="some")
    assert sorted(codes) == ["T102", "T105"]
    assert outcome.not_taken == (str(broken), str(sound))
    assert "takes petrol" in (taken.folder / "sources" / "some.md").read_text(encoding="utf-8")
    # The broken ones are no part of the book, so that it can be taken again without them.
    assert taken(good, key="some")[1] == []


def test_a_file_that_is_not_there_stops_the_whole(taken, tmp_path) -> None:
    good = file_of("good.txt", LINES[0].encode(), tmp_path)
    assert taken(good, tmp_path / "gone.txt") == (None, ["T101"])
    assert untouched(taken.folder)


def test_a_text_that_is_named_as_a_pdf_is_told(taken, tmp_path) -> None:
    outcome, codes = taken(file_of("junk.pdf", LINES[0].encode(), tmp_path))
    assert outcome is not None and codes == ["T215"]


def test_pages_beyond_the_end_are_told_with_how_many_there_are(taken, tmp_path) -> None:
    leaflet = file_of("leaflet.txt", "\f".join(LINES * 2).encode(), tmp_path)
    outcome, (problem,) = take_in(taken.folder, [leaflet], pages="9")
    assert outcome is None and problem.code == "T117" and "only 2 pages" in problem.message
    assert untouched(taken.folder)
    outcome, codes = taken(leaflet, pages="1,7-9")
    assert outcome is not None and codes == ["T117"]


PROGRAM = "import os\n\n\ndef made(path):\n    if path:\n        return os.stat(path)\n    return None\n\n\nmade('x')\n"
PASSWORDS = "".join(f"user{n}:x:{n}:{n}:User:/home/user{n}:/bin/bash\n" for n in range(20))


@pytest.mark.parametrize(("name", "text"), [("mk.py", PROGRAM), ("made", PROGRAM), ("passwd", PASSWORDS)])
def test_a_text_that_is_no_book_is_asked_about_and_taken_when_told(name, text, taken, tmp_path) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    outcome, codes = taken(tmp_path / name)
    assert (outcome, codes) == (None, ["T220"])
    outcome, codes = taken(tmp_path / name, sure=True)
    assert outcome is not None and "T220" not in codes


@pytest.mark.parametrize(
    "text",
    [
        "1. Oil. It is oil.\n\n2. Petrol. It is petrol: 22 gallons (of 77 octane); the cock is at 'off'.\n",
        "Item: 3\nSpan = 33 ft.\nLength = 25 ft.\nHeight = 9 ft.\nWeight = 1,080 lb.\n",
    ],
)
def test_a_book_is_no_program(text, taken, tmp_path) -> None:
    (tmp_path / "b.txt").write_text(text, encoding="utf-8")
    assert "T220" not in taken(tmp_path / "b.txt")[1]
