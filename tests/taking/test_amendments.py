"""Amendments in a book: set where its words are plain, asked where they are not, their dates kept, nothing lost."""

import pytest

from cutaway.api.loading import load
from cutaway.taking.headings import title_and_rest

BOOK = """1. Oil pressure
Normal oil pressure is 45 lb. per sq. in.

1a. Oil pressure (A.L. 1)
Normal oil pressure is 60 lb. per sq. in.

2. Oil temperature (Amendment No. 2)
The oil must not exceed 80 deg. C.

3. Water temperature
[A.L. 3, May 1938] The water must not exceed 90 degrees C.

4. Water pressure
[Amendment List No. 4]
The water stands at 3 lb. per sq. in.

5. Lamps
The lamps must not be left on for long.

6. Tanks
A.L. 2. For paragraph 6: there are two tanks.

7. Speeds. The dive is flown as laid down in Amendment No. 3 to the regulations.

AMENDMENT LIST
A.L. 1 July 1937. A.L. 2 March 1938. A.L. 3 May 1938.
"""

LATER = """8. Hand pump
A hand pump is fitted.

9. Oil pressure
Normal oil pressure is 45 lb. per sq. in.

14. Airspeed
The speed must not exceed 170 m.p.h.

A.L. 1, August 1937
9a. Oil pressure
For paragraph 9: normal oil pressure is 60 lb. per sq. in.

A.L. 2, March 1938
14a. Airspeed
In para. 14 delete "170 m.p.h." and substitute "155 m.p.h."
"""


@pytest.fixture
def book(taken, tmp_path):
    """A function that takes a text in and gives its codes, its paragraphs by number, and its amendments' dates."""

    def take(text: str):
        (tmp_path / "al.txt").write_text(text, encoding="utf-8")
        outcome, codes = taken(tmp_path / "al.txt")
        loaded, problems = load(taken.folder)
        assert [p for p in problems if "sources/al" in (p.span.file.path if p.span else "")] == []
        source = next(s for s in loaded.folder.sources if s.key == "al")
        return (
            outcome,
            codes,
            {p.number: p for p in source.paragraphs},
            {one.name: one.date for one in source.amendments},
        )

    take.folder = taken.folder
    return take


def test_amendments_are_set_where_the_words_are_plain(book) -> None:
    _, _, found, dates = book(BOOK)
    by = {number: one.amended_by for number, one in found.items()}
    assert by == {
        "§1": "", "§1a": "A.L. 1", "§2": "A.L. 2", "§3": "A.L. 3", "§4": "A.L. 4", "§5": "", "§6": "A.L. 2", "§7": "",
        "§8": "",
    }  # fmt: skip
    assert dates == {"A.L. 1": "July 1937", "A.L. 2": "March 1938", "A.L. 3": "May 1938", "A.L. 4": ""}


def test_headings_are_not_cut_and_do_not_disappear(book) -> None:
    _, _, found, _ = book(BOOK)
    assert found["§2"].title == "Oil temperature (Amendment No. 2)"
    assert found["§2"].text == "The oil must not exceed 80 deg. C."
    assert (found["§3"].title, found["§4"].title) == ("Water temperature", "Water pressure")
    assert found["§3"].text.startswith("[A.L. 3, May 1938] The water")
    assert title_and_rest("Oil temperature (deg. C.). It is told.") == ("Oil temperature (deg. C.)", "It is told.")


def test_a_list_of_amendments_is_told_and_no_part_of_the_paragraph_before(book) -> None:
    _, codes, found, _ = book(BOOK)
    assert "A.L. 1 July" not in found["§7"].text
    assert (found["§8"].title, "A.L. 1 July 1937" in found["§8"].text) == ("Amendment list", True)
    assert codes == ["T218", "T219"]


def test_a_paragraph_that_only_names_an_amendment_is_asked_about(book, tmp_path) -> None:
    outcome, _, found, _ = book(BOOK)
    assert outcome.amendments == 1
    confirm = book.folder / "taken" / "al" / "confirm.yaml"
    asked = confirm.read_text(encoding="utf-8")
    assert "amendments to confirm:\n- id: al-7\n" in asked and "proposed: 'A.L. 3'" in asked
    assert "the text names A.L. 3; is this paragraph its?" in asked
    assert "Of an amendment?" in (confirm.parent / "confirm.html").read_text(encoding="utf-8")
    for answer, wanted in (("yes", "A.L. 3"), ("none", ""), ("Amendment 2", "A.L. 2")):
        confirm.write_text(asked.replace("  is: ''", f"  is: '{answer}'"), encoding="utf-8")
        outcome, codes, found, _ = book(BOOK)
        assert (found["§7"].amended_by, outcome.amendments, codes) == (wanted, 0, ["T219"])


def test_paragraphs_that_an_amendment_brought_at_the_end_are_paragraphs(book) -> None:
    _, codes, found, dates = book(LATER)
    assert list(found) == ["§8", "§9", "§9a", "§14", "§14a"]
    assert (found["§9a"].amended_by, found["§14a"].amended_by) == ("A.L. 1", "A.L. 2")
    assert found["§14"].text == "The speed must not exceed 170 m.p.h."
    assert "A.L. 2" not in found["§9a"].text
    assert dates == {"A.L. 1": "August 1937", "A.L. 2": "March 1938"}
    assert codes == ["T217"]


def test_paragraphs_that_come_at_the_end_without_a_line_above_are_not_swallowed(book) -> None:
    text = LATER.replace("A.L. 1, August 1937\n", "").replace("A.L. 2, March 1938\n", "")
    _, _, found, _ = book(text.replace("For paragraph 9:", "A.L. 1. For paragraph 9:"))
    assert list(found) == ["§8", "§9", "§9a", "§14", "§14a"]
    assert (found["§9a"].amended_by, found["§9a"].title) == ("A.L. 1", "Oil pressure")


def test_many_paragraphs_of_amendments_are_no_new_numbering(book) -> None:
    old = "\n\n".join(f"{n}. Part {'abcdefg'[n]}. It is as it was." for n in range(1, 7))
    new = "\n".join(f"{n}a. Part {'abcdefg'[n]}. It is another." for n in range(1, 7))
    outcome, _, found, _ = book(f"{old}\n\nA.L. 5\n{new}\n")
    assert len(outcome.sources) == 1 and len(found) == 12
    assert {found[f"§{n}a"].amended_by for n in range(1, 7)} == {"A.L. 5"}
    assert {found[f"§{n}"].amended_by for n in range(1, 7)} == {""}


def test_a_numbered_list_tells_what_each_amendment_brought(book) -> None:
    listed = (
        "26. Amendments\nA.L. 1, August 1937: paragraph 9a added. A.L. 2, March 1938: paragraphs 9b and 25 amended.\n"
    )
    text = "9. Oil\nIt is 45 lb.\n\n9a. Oil\nIt is 60 lb.\n\n9b. Oil\nIt is 70 lb.\n\n25. Picketing\nAt the wings.\n\n"
    _, codes, found, dates = book(text + listed)
    assert (found["§9a"].amended_by, found["§9b"].amended_by, found["§26"].amended_by) == ("A.L. 1", "A.L. 2", "")
    assert found["§25"].amended_by == ""  # it has no letter, so a person is asked
    assert codes == ["T218"]
    assert dates == {"A.L. 1": "August 1937", "A.L. 2": "March 1938"}


def test_two_dates_for_one_amendment_are_no_date(book) -> None:
    _, _, _, dates = book(BOOK.replace("A.L. 3 May 1938", "A.L. 3 June 1938"))
    assert dates["A.L. 3"] == ""


def test_a_figure_after_a_mark_is_no_mark(book) -> None:
    (book.folder / "type.yaml").write_text("name: Wren\nmarks: [Mk 1, Mk 2]\n", encoding="utf-8")
    book("4. Weights\nThe weight must not exceed 1,700 lb on Mk. I and 1,820 lb on Mk. II.\n\n5. Oil. It is oil.\n")
    asked = (book.folder / "taken" / "al" / "confirm.yaml").read_text(encoding="utf-8")
    assert "proposed: 'Mk 1'" in asked
