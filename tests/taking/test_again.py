"""A book taken again: what a person corrected stays, in the source and in the answers."""

from hypothesis import given
from hypothesis import strategies as st

from cutaway.taking.merging import digests, merged
from cutaway.taking.source_text import Piece, SourceText
from tests.taking.conftest import reads_pictures
from tests.taking.drawn import PARAGRAPHS, page

FIRST = "21. Fuel. The tank holds 22 gallons.\n\n22. Oil. It holds 4 gallons.\n\n23. Air. It is thin.\n"
SECOND = FIRST.replace("22 gallons", "23 gallons").replace("It holds 4", "It holds 5") + "\n24. Water. None.\n"


def test_a_corrected_paragraph_stays_and_the_others_are_renewed(taken, tmp_path) -> None:
    file, source = tmp_path / "hb2.txt", taken.folder / "sources" / "hb2.md"
    file.write_text(FIRST, encoding="utf-8")
    taken(file)
    yours = (
        source.read_text(encoding="utf-8").replace("22 gallons", "25 gallons").replace("title: 'hb2'", "title: Mine")
    )
    source.write_text(yours, encoding="utf-8")
    file.write_text(SECOND, encoding="utf-8")
    outcome, codes = taken(file, new_copy=True)
    text = source.read_text(encoding="utf-8")
    assert "25 gallons" in text and "title: Mine" in text and "It holds 5 gallons" in text and "## 24 Water" in text
    assert codes == ["T205"]
    result = outcome.sources[0].merged
    assert (result.yours, result.differs, result.renewed, result.added) == (("21",), ("21",), ("22",), ("24",))
    assert "23 gallons" in (taken.folder / "taken" / "hb2" / "reading.md").read_text(encoding="utf-8")
    # And it stays a person's ever after.
    taken(file)
    assert "25 gallons" in source.read_text(encoding="utf-8")


def test_taking_the_same_again_changes_no_byte(taken, tmp_path) -> None:
    file = tmp_path / "hb2.txt"
    file.write_text(SECOND, encoding="utf-8")
    taken(file)
    before = {path: path.read_bytes() for path in taken.folder.rglob("*") if path.is_file()}
    outcome, codes = taken(file)
    assert codes == [] and outcome.sources[0].merged.renewed == ()
    assert {path: path.read_bytes() for path in taken.folder.rglob("*") if path.is_file()} == before


def test_what_a_person_took_out_stays_out_and_what_they_added_stays(taken, tmp_path) -> None:
    file, source = tmp_path / "hb2.txt", taken.folder / "sources" / "hb2.md"
    file.write_text(FIRST, encoding="utf-8")
    taken(file)
    text = source.read_text(encoding="utf-8")
    at = text.index("## 22 ")
    source.write_text(text[:at] + "## 22b Mine\n\nMy own words.\n\n" + text[text.index("## 23 ") :], encoding="utf-8")
    _, codes = taken(file)
    text = source.read_text(encoding="utf-8")
    assert "## 22 " not in text and "My own words." in text
    assert sorted(codes) == ["T205", "T209"]


def test_a_source_typed_by_hand_or_taken_from_other_files_is_not_touched(taken, tmp_path) -> None:
    mine = taken.folder / "sources" / "mine.md"
    mine.write_text("## 1 Mine\n\nTyped by hand.\n", encoding="utf-8")
    one, other = tmp_path / "one.txt", tmp_path / "other.txt"
    one.write_text(FIRST, encoding="utf-8")
    other.write_text(SECOND, encoding="utf-8")
    assert taken(one, key="mine") == (None, ["T108"])
    assert mine.read_text(encoding="utf-8") == "## 1 Mine\n\nTyped by hand.\n"
    assert taken(one, key="book")[1] == []
    before = (taken.folder / "sources" / "book.md").read_bytes()
    assert taken(other, key="book") == (None, ["T108"])
    assert (taken.folder / "sources" / "book.md").read_bytes() == before
    assert taken(other, key="book", new_copy=True)[1] == []


def test_a_source_that_can_no_longer_be_read_is_not_written_over(taken, tmp_path) -> None:
    file, source = tmp_path / "hb2.txt", taken.folder / "sources" / "hb2.md"
    file.write_text(FIRST, encoding="utf-8")
    taken(file)
    old = source.read_text(encoding="utf-8").replace("thin", "thin at 20°").encode("cp1252")
    source.write_bytes(old)
    assert taken(file) == (None, ["H002"])
    assert source.read_bytes() == old


def test_some_pages_only_leave_the_others_alone(taken, tmp_path) -> None:
    file = tmp_path / "hb2.txt"
    file.write_text(FIRST.replace("\n\n23", "\n\f23"), encoding="utf-8")
    taken(file)
    before = (taken.folder / "sources" / "hb2.md").read_text(encoding="utf-8")
    taken(file, pages="2")
    assert (taken.folder / "sources" / "hb2.md").read_text(encoding="utf-8") == before


@reads_pictures
def test_answers_are_kept_and_put_into_the_text(taken, tmp_path) -> None:
    picture, answers = tmp_path / "hb2.png", taken.folder / "taken" / "hb2" / "confirm.yaml"
    page(PARAGRAPHS[:2]).save(picture)
    outcome, _ = taken(picture)
    text = answers.read_text(encoding="utf-8")
    head, tail = text.split("  read: '48'\n")
    text = head + "  read: '48'\n" + tail.replace("is: ''", "is: '49'", 1)
    head, tail = text.split("  read: '2.5'\n")
    answers.write_text(head + "  read: '2.5'\n" + tail.replace("is: ''", "is: yes", 1), encoding="utf-8")
    outcome, codes = taken(picture)
    source = taken.folder / "sources" / "hb2.md"
    assert "holds 49 gallons" in source.read_text(encoding="utf-8") and "lifts 2.5 gallons" in source.read_text("utf-8")
    assert outcome.confirmed == 2 and codes == []
    again = answers.read_text(encoding="utf-8")
    assert "is: '49'" in again and "is: 'yes'" in again
    taken(picture)
    assert answers.read_text(encoding="utf-8") == again
    # A correction in the text itself wins over what is read, and over the answer.
    source.write_text(source.read_text(encoding="utf-8").replace("49 gallons", "47 gallons"), encoding="utf-8")
    _, codes = taken(picture)
    assert "47 gallons" in source.read_text(encoding="utf-8") and codes == ["T205"]


@reads_pictures
def test_answers_that_cannot_be_read_are_not_written_over(taken, tmp_path) -> None:
    picture, answers = tmp_path / "hb2.png", taken.folder / "taken" / "hb2" / "confirm.yaml"
    page(PARAGRAPHS[:1]).save(picture)
    taken(picture)
    broken = answers.read_text(encoding="utf-8").replace("is: ''", "is: '22", 1)
    answers.write_text(broken, encoding="utf-8")
    outcome, codes = taken(picture)
    assert outcome is None and "T115" in codes
    assert answers.read_text(encoding="utf-8") == broken


_BOOKS = st.dictionaries(st.integers(1, 8).map(str), st.sampled_from("abc"), max_size=6)


def _source(book: dict[str, str]) -> SourceText:
    return SourceText("head\n", tuple(Piece(n, f"## {n}\n\n{book[n]}\n\n") for n in sorted(book, key=int)))


@given(last=_BOOKS, changes=_BOOKS, new=_BOOKS, whole=st.booleans())
def test_no_word_of_a_person_is_ever_lost_and_none_comes_twice(last, changes, new, whole) -> None:
    now = {**last, **{n: f"by hand {word}" for n, word in changes.items()}}
    result = merged(_source(now), digests(_source(last)), _source(new), whole)
    texts = {piece.number: piece.text for piece in result.text.pieces}
    assert len(texts) == len(result.text.pieces)
    assert [int(n) for n in texts] == sorted(int(n) for n in texts)
    assert all(f"by hand {word}" in texts[n] for n, word in changes.items())
    assert all(new[n] in texts[n] for n in new if n not in changes)
