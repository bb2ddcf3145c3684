"""The second reading: figures on which two readers agree or differ."""

import pytest
from PIL import Image

from cutaway.taking.doubts import agreement, put_right
from cutaway.taking.reader import find_reader, read_page
from cutaway.taking.records import Word
from tests.taking.conftest import reads_pictures
from tests.taking.drawn import PARAGRAPHS, page


@pytest.mark.parametrize(
    "word, second, told",
    [
        ("22", "", ""),
        ("22", "holds 22 gallons", "agrees"),
        ("22", "holds 27 gallons", "differs"),
        ("22", "holds 122 gallons", "differs"),
        ("1,850", "at1850r.p.m.", "agrees"),
        ("4.5", "reads 45 in", "differs"),
        ("petrol", "PETROLlights", "agrees"),
        ("petrol", "patrol lights", "differs"),
    ],
)
def test_agreement_goes_by_whole_figures(word, second, told) -> None:
    assert agreement(Word(word), second) == told


@pytest.mark.parametrize(
    "read, right",
    [
        ("Ib/sq", "lb/sq"),
        ("1b/sq", "lb/sq"),
        ("2Ib.", "2lb."),
        ("l2", "12"),
        ("1O", "10"),
        ("2.O,", "2.0,"),
        ("1b.", "1b."),
        ("Ibis", "Ibis"),
        ("oil", "oil"),
        ("I", "I"),
        ("22", "22"),
    ],
)
def test_few_confusions_are_put_right_and_each_is_known(read, right) -> None:
    word = put_right(Word(read, 90.0))
    assert word.text == right
    assert word.was == (read if read != right else "")


@reads_pictures
def test_the_other_reader_sees_the_strips_with_figures_only() -> None:
    seen: list[Image.Image] = []

    class Other:
        name = "other"

        def read(self, picture):
            seen.append(picture)
            return "21 22"

    read = read_page(page(PARAGRAPHS[:1]), 1, find_reader(), Other())
    with_second = [line for line in read.lines if line.second]
    assert len(seen) == len(with_second) == sum(bool(line.crop) for line in read.lines) > 0
    assert all(any(letter.isdigit() for letter in line.text) for line in with_second)
    assert len(with_second) < len(read.lines)


@reads_pictures
def test_the_real_second_reader_agrees_on_a_clean_page() -> None:
    pytest.importorskip("rapidocr_onnxruntime")
    from cutaway.taking.second import find_second_reader

    read = read_page(page(PARAGRAPHS[:2]), 1, find_reader(), find_second_reader())
    figures = [(w, line.second) for line in read.lines for w in line.words if any(c.isdigit() for c in w.text)]
    assert figures and all(agreement(word, second) == "agrees" for word, second in figures)
