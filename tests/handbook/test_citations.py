"""Sources, citations, and `on` where an airframe is named: H204, H803 and what stands around them."""

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import paragraph
from tests.handbook.folders import WHINCHAT, codes, fuel, load_sample

OTHER = "## 21 Another\n\nThe fuel tank holds 20 gallons.\n"


@pytest.mark.parametrize("cite, wanted", [
    ("§1", ["§1"]), ("hb §1", ["§1"]), ("HB §2A", ["§2a"]), ("§ 2a", ["§2a"]),
    ("'§1, §2'", ["§1", "§2"]), ("[§1, hb §2]", ["§1", "§2"]), ("hb §1 and §2", ["§1", "§2"]),
])  # fmt: skip
def test_a_citation_is_read(cite, wanted, tmp_path):
    folder, problems = load_sample(tmp_path, fuel(f"cock: {{kind: cock, cite: {cite}}}"))
    assert problems == ()
    assert [c.number for c in folder.parts[0].cites] == wanted
    assert all(paragraph(folder, c) is not None for c in folder.parts[0].cites)


def test_a_bare_number_with_two_books_is_h204(tmp_path):
    files = {"sources/other.md": OTHER, "services.yaml": "services:\n  petrol: {is: fuel cock is on, cite: §21}\n"}
    _, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["H204"]
    assert "hb §21 or other §21" in problems[0].hint


def test_a_system_says_which_book_its_bare_numbers_are_of(tmp_path):
    files = {"sources/other.md": OTHER}
    folder, problems = load_sample(tmp_path, files)
    assert problems == ()
    assert {cite.source for part in folder.parts for cite in part.cites} == {"hb"}


def test_citing_without_a_book_is_told_once_a_place(tmp_path):
    files = {"sources/hb.md": "", "scripts/01-fuel.md": "It is. `cite: hb §1`\n", "glossary.yaml": ""}
    _, problems = load_sample(tmp_path, files)
    assert set(codes(problems)) == {"H201"}


def test_an_airframe_in_an_on_is_h803(tmp_path):
    files = fuel("cock: {kind: cock, on: S-1}")
    files["type.yaml"] = "name: S\nmarks: [Mk 1, Mk 2]\nairframes: {S-1: {standard: Mk 2}}\n"
    _, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["H803"]
    assert "on: Mk 2" in problems[0].hint


@pytest.mark.parametrize("on, names", [("S-1", {"S-1"}), ("[Mk 1, s-1]", {"Mk 1", "S-1"}), ("Mk 2", {"Mk 2"})])
def test_a_drill_can_be_of_an_airframe(tmp_path, on, names):
    files = fuel("cock: {kind: cock}")
    files["type.yaml"] = "name: S\nmarks: [Mk 1, Mk 2]\nairframes: {S-1: {standard: Mk 2}}\n"
    files["drills/starting.md"] = f"---\nfrom: parked\non: {on}\n---\n\n1. Wait: `cock is off`.\n"
    folder, problems = load_sample(tmp_path, files)
    assert problems == ()
    assert folder.drills[0].on.names == names


@pytest.mark.parametrize("on, wanted", [
    ("Mk 1", {"Mk 1"}), ("not Mk 1", {"Mk 2"}), ("[Mk 1, Mk 2]", {"Mk 1", "Mk 2"}), ("Mk 1 or Mk 2", {"Mk 1", "Mk 2"}),
])  # fmt: skip
def test_on_is_read(on, wanted, tmp_path):
    folder, problems = load_sample(tmp_path, fuel(f"cock: {{kind: cock, on: {on}}}"))
    assert problems == ()
    assert folder.parts[0].on.names == wanted


def test_a_paragraph_has_its_text_cautions_and_amendment():
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    (source,) = folder.sources
    by_number = {one.number: one for one in source.paragraphs}
    assert by_number["§25a"].amended_by in {amendment.name for amendment in source.amendments}
    assert by_number["§25a"].on.names < {standard.name for standard in folder.type.standards}
    assert any("Petrol vapour" in caution for caution in by_number["§21"].cautions)
    assert "Caution" not in by_number["§21"].text
    for one in source.paragraphs:
        assert one.span.file.text[one.span.start :].startswith(f"## {one.number[1:]}")
        assert one.text and "\n## " not in one.text


BOOK = """\
Preface.

# Part I

## 1 Tank

The tank holds 20 gallons.

### Note

More.

## 2 Cock

A cock.

## 2a B

A.
"""


def test_only_numbered_headings_of_the_second_rank_begin_paragraphs(tmp_path):
    folder, problems = load_sample(tmp_path, {"sources/hb.md": BOOK})
    assert problems == ()
    assert [one.number for one in folder.sources[0].paragraphs] == ["§1", "§2", "§2a"]
    assert "More." in folder.sources[0].paragraphs[0].text
