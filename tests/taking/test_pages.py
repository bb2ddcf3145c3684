"""Pages of text become numbered paragraphs: numbers, titles, amendments, cautions, pages, running heads, tables."""

import csv

import pytest

from cutaway.api.loading import load
from cutaway.taking.heads import Head, in_order
from cutaway.taking.paragraphs import paragraphs_of
from cutaway.taking.printed import printed_pages
from cutaway.taking.running_heads import without_running_heads
from cutaway.taking.texts import text_pages
from tests.taking.pdfs import text_pdf

BOOK = [
    [
        "THE WHINCHAT",
        "",
        "Issued to the pupils of the school.",
        "",
        "21. Fuel cocks. A selector on the left wall takes",
        "petrol from either tank. It is an engine-",
        "driven thing. The tank holds 22 gallons.",
        "",
        "22 Fuel pressure",
        "The pump gives 4.5 lb/sq in. (A.L. 2)",
        "CAUTION.- Not above 6 lb/sq in.",
        "- 1 -",
    ],
    [
        "THE WHINCHAT",
        "It goes on over the page, where the engine is, driven by",
        "12 Men at most.",
        "",
        "22a. The pilot must look at the gauge.",
        "",
        "24. Battery. Of 12 volts.",
        "- 2 -",
    ],
    ["THE WHINCHAT", "", "25. Suction. It reads 4.5 in. Hg.", "", "A second part of the same.", "", "- 3 -"],
]


def paragraphs(text: str):
    lines, _ = without_running_heads(text_pages(text))
    runs, problems = paragraphs_of(lines)
    return [run.paragraphs for run in runs], [problem.code for problem in problems]


@pytest.mark.parametrize("as_pdf", [True, False])
def test_a_book_with_numbers_as_pdf_and_as_text(as_pdf, taken, tmp_path) -> None:
    if as_pdf:
        pytest.importorskip("pypdfium2")
        (tmp_path / "hb2.pdf").write_bytes(text_pdf(BOOK))
        _, codes = taken(tmp_path / "hb2.pdf")
    else:
        (tmp_path / "hb2.txt").write_text("\f".join("\n".join(page) for page in BOOK), encoding="utf-8")
        _, codes = taken(tmp_path / "hb2.txt")
    assert codes == ["T208"]
    loaded, problems = load(taken.folder)
    assert problems == ()
    source = next(s for s in loaded.folder.sources if s.key == "hb2")
    found = {p.number: p for p in source.paragraphs}
    assert list(found) == ["§0", "§21", "§22", "§22a", "§24", "§25"]
    assert found["§0"].text == "Issued to the pupils of the school."
    assert found["§21"].title == "Fuel cocks"
    assert found["§21"].text == (
        "A selector on the left wall takes petrol from either tank. It is an engine-driven thing. The tank "
        "holds 22 gallons."
    )
    assert (found["§22"].title, found["§22"].amended_by) == ("Fuel pressure", "A.L. 2")
    assert found["§22"].text == "The pump gives 4.5 lb/sq in. (A.L. 2)"
    assert found["§22"].cautions == (
        "Not above 6 lb/sq in. It goes on over the page, where the engine is, driven by 12 Men at most.",
    )
    assert (found["§22a"].title, found["§22a"].text) == ("", "The pilot must look at the gauge.")
    assert [p.page for p in source.paragraphs] == ["1", "1", "1", "2", "2", "3"]
    assert found["§25"].text == "It reads 4.5 in. Hg.\n\nA second part of the same."
    assert [a.name for a in source.amendments] == ["A.L. 2"]


def test_a_number_out_of_order_stays_in_the_paragraph_before_and_is_told() -> None:
    runs, codes = paragraphs(
        "20. One. Some text.\n\n71. Two. Some text.\n\n22. Three. Some text.\n\n23. Four. Some text.\n"
    )
    assert [p.number for p in runs[0]] == ["20", "22", "23"]
    assert runs[0][0].blocks[-1] == "71. Two. Some text."
    assert codes == ["T204"]


def test_numbers_that_begin_anew_make_a_further_source(taken, tmp_path) -> None:
    text = "\n\n".join(f"{n}. Part. Of section {s} it says {n}." for s in ("one", "two") for n in range(1, 8))
    (tmp_path / "sections.txt").write_text(text, encoding="utf-8")
    outcome, codes = taken(tmp_path / "sections.txt", key="ap")
    assert codes == ["T206"]
    assert [(s.key, s.paragraphs) for s in outcome.sources] == [("ap", 7), ("ap-2", 7)]
    loaded, problems = load(taken.folder)
    assert problems == ()
    assert {(p.source, p.number) for s in loaded.folder.sources for p in s.paragraphs} >= {("ap", "§7"), ("ap-2", "§7")}


def test_text_that_comes_back_at_the_edge_of_each_page_is_no_running_head() -> None:
    pages = [
        f"THE TURNSTONE {at}\n\n{at}. Cocks. One shuts the pipe to\nthe tank, which holds {at} gallons at\n"
        f"full throttle.\n{at + 90}"
        for at in range(1, 7)
    ]
    lines, out = without_running_heads(text_pages("\f".join(pages)))
    assert {placed.line.text for placed in out} == {f"THE TURNSTONE {at}" for at in range(1, 7)} | {
        str(at + 90) for at in range(1, 7)
    }
    runs, _ = paragraphs_of(lines)
    assert [(p.number, p.blocks) for p in runs[0].paragraphs][2] == (
        "3",
        ("One shuts the pipe to the tank, which holds 3 gallons at full throttle.",),
    )


def test_a_text_without_numbers_is_numbered_in_order() -> None:
    runs, codes = paragraphs("The petrol cock.\n\nIt stands on the\nleft wall of 22 men.\n\nThat is all.\n")
    assert [(p.number, p.title or p.blocks[0]) for p in runs[0]] == [
        ("1", "The petrol cock."),
        ("2", "It stands on the left wall of 22 men."),
        ("3", "That is all."),
    ]
    assert codes == ["T203"]


def test_contents_and_figures_at_the_start_of_a_line_are_no_heads() -> None:
    runs, codes = paragraphs(
        "21. Fuel cocks ........ 7\n22. Pressure . . . . . 8\n\n21. Fuel cocks. They are two, on the\n22 gallon tank.\n"
        "\n22. Pressure. It is low.\n"
    )
    assert [p.number for p in runs[0]] == ["0", "21", "22"]
    assert runs[0][1].blocks == ("They are two, on the 22 gallon tank.",)
    assert codes == []


def test_of_many_heads_the_longest_rising_row_is_kept() -> None:
    def head(number, letter=""):
        return Head(0, number, letter, "", True)

    kept, out = in_order((head(1), head(2), head(90), head(3), head(3, "a"), head(2), head(4)))
    assert [h.name for h in kept] == ["1", "2", "3", "3a", "4"]
    assert [h.name for h in out] == ["90", "2"]


def test_nothing_that_is_written_is_taken_for_a_heading_or_braces(taken, tmp_path) -> None:
    (tmp_path / "odd.txt").write_text(
        "1. Signs. See the note.\n\n## 7 not a heading\n\n{on: nothing}\n\n2. More. > than that.\n", encoding="utf-8"
    )
    taken(tmp_path / "odd.txt")
    loaded, problems = load(taken.folder)
    assert problems == ()
    source = next(s for s in loaded.folder.sources if s.key == "odd")
    assert [p.number for p in source.paragraphs] == ["§1", "§2"]
    assert "## 7 not a heading" in source.paragraphs[0].text and "{on: nothing}" in source.paragraphs[0].text


def test_markdown_keeps_its_numbers_lists_and_tables(taken, tmp_path) -> None:
    (tmp_path / "notes.md").write_text(
        "---\ntitle: Notes\n---\n# Fuel\n\n## 4 Cocks\n\nTwo of them:\n\n- port\n- starboard\n\n"
        "## Gauges\n\n| tank | gal |\n| --- | --- |\n| port | 22 |\n\n> Caution: Not in the air.\n",
        encoding="utf-8",
    )
    _, codes = taken(tmp_path / "notes.md")
    assert codes == ["T203"]
    loaded, problems = load(taken.folder)
    assert problems == ()
    four, five = next(s for s in loaded.folder.sources if s.key == "notes").paragraphs
    assert (four.number, four.title, four.text) == ("§4", "Cocks", "Two of them:\n\n- port\n- starboard")
    assert (five.number, five.title) == ("§5", "Gauges")
    assert "| port | 22 |" in five.text and five.cautions == ("Not in the air.",)


def test_tables_keep_figures_as_they_are_shown(taken, tmp_path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Settings"
    for row in (["valve", "set at"], ["relief", 4.5], ["lamp", 2], ["flaps|bar", 750]):
        sheet.append(row)
    sheet["B2"].number_format = "0.00"
    book.create_sheet("Empty")
    book.save(tmp_path / "settings.xlsx")
    outcome, codes = taken(tmp_path / "settings.xlsx")
    assert (outcome.sources[0].paragraphs, codes) == (1, [])
    text = (taken.folder / "sources" / "settings.md").read_text(encoding="utf-8")
    assert "## 1 Settings" in text and "| relief | 4.50 |" in text and "| lamp | 2 |" in text
    assert "| flaps\\|bar | 750 |" in text


@pytest.mark.parametrize("between", [",", ";", "\t"])
def test_a_csv_whatever_parts_its_cells(between, taken, tmp_path) -> None:
    with (tmp_path / "table.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=between).writerows([["speed", "boost"], ["1,850", "+2"], ["", ""], ["2,100", "+4"]])
    taken(tmp_path / "table.csv")
    text = (taken.folder / "sources" / "table.md").read_text(encoding="utf-8")
    assert "| speed | boost |\n| --- | --- |\n| 1,850 | +2 |\n| 2,100 | +4 |" in text


def test_text_over_a_picture_is_told_and_its_figures_are_asked_for(taken, tmp_path) -> None:
    pdfium = pytest.importorskip("pypdfium2")
    from PIL import Image

    document = pdfium.PdfDocument(text_pdf([["21. Fuel. The tank holds 22 gallons."]]))
    page = document[0]
    picture = pdfium.PdfImage.new(document)
    picture.set_bitmap(pdfium.PdfBitmap.from_pil(Image.new("L", (600, 850), 240)))
    picture.set_matrix(pdfium.PdfMatrix().scale(595, 842))
    page.insert_obj(picture)
    page.gen_content()
    document.save(tmp_path / "archive.pdf")
    outcome, codes = taken(tmp_path / "archive.pdf")
    assert codes == ["T207"]
    assert outcome.to_confirm == 2  # the number of the paragraph, and 22


HEADED = [
    ["THE TURNSTONE", "", "21. Fuel cocks. A selector on the left wall takes", "petrol from either tank.", "", "37"],
    ["THE TURNSTONE", "It has three positions.", "", "22. Battery. It has 12 volts.", "", "- 38 -"],
]


def test_a_book_of_two_pages_loses_its_running_heads_and_keeps_the_printed_numbers(taken, tmp_path) -> None:
    pytest.importorskip("pypdfium2")
    (tmp_path / "two.pdf").write_bytes(text_pdf(HEADED))
    outcome, codes = taken(tmp_path / "two.pdf")
    assert codes == ["T208"] and set(outcome.left_out) == {"THE TURNSTONE", "37", "- 38 -"}
    text = (taken.folder / "sources" / "two.md").read_text(encoding="utf-8")
    assert "TURNSTONE" not in text and "either tank. It has three positions." in text
    loaded, problems = load(taken.folder)
    assert problems == ()
    found = next(s for s in loaded.folder.sources if s.key == "two").paragraphs
    assert [(p.number, p.page, p.in_file) for p in found] == [("§21", "37", "1"), ("§22", "38", "2")]


def test_one_page_loses_the_number_at_its_foot(taken, tmp_path) -> None:
    pytest.importorskip("pypdfium2")
    (tmp_path / "one.pdf").write_bytes(text_pdf([["21. Cocks. One is on the left.", "It is red.", "", "Page 9 of 40"]]))
    _, codes = taken(tmp_path / "one.pdf")
    assert codes == ["T208"]
    text = (taken.folder / "sources" / "one.md").read_text(encoding="utf-8")
    assert "{page: 9, in file: 1}" in text and "of 40" not in text


def test_two_pages_that_share_no_line_lose_none() -> None:
    pages = ["Fuel\n\n21. Cocks. One.\nIt is red.\nIt is so.", "Power\n\n22. Battery. One.\nIt is black.\nIt is so."]
    lines, out = without_running_heads(text_pages("\f".join(pages)))
    assert out == () and len(lines) == 8


def test_a_number_beside_the_name_of_the_book_is_read_and_a_misread_one_is_not_believed() -> None:
    names = {1: "36 THE SKUA", 2: "THE SKUA 37", 3: "38 THE SKUA", 4: "THE SKUA 89"}
    pages = text_pages("\f".join(f"{name}\n\nSome text of it.\nAnd more.\nAnd an end." for name in names.values()))
    _, out = without_running_heads(pages)
    assert dict(printed_pages(out, 4)) == {1: "36", 2: "37", 3: "38"}


def test_the_number_of_a_chapter_is_no_number_of_a_page() -> None:
    pages = text_pages(
        "\f".join(f"CHAPTER 3\n\n{at}. Some text of it.\nAnd more.\nOf {at} and {at} an end." for at in range(1, 5))
    )
    _, out = without_running_heads(pages)
    assert len(out) == 4 and dict(printed_pages(out, 4)) == {}


def test_a_page_without_a_number_among_such_with_one_says_only_where_it_is_in_the_file(taken, tmp_path) -> None:
    feet = ["iv", "v", "nothing", "1", "2"]
    text = "\f".join(
        f"{at}. Part. Of this it says {at}.\n\nAnd so on and on.\nTo its end."
        + ("" if foot == "nothing" else f"\n\n{foot}")
        for at, foot in enumerate(feet, 1)
    )
    (tmp_path / "front.txt").write_text(text, encoding="utf-8")
    taken(tmp_path / "front.txt")
    made = (taken.folder / "sources" / "front.md").read_text(encoding="utf-8")
    assert [line for line in made.split("\n") if line.startswith("{")] == [
        "{page: iv, in file: 1}",
        "{page: v, in file: 2}",
        "{in file: 3}",
        "{page: 1, in file: 4}",
        "{page: 2, in file: 5}",
    ]
    assert load(taken.folder)[1] == ()
