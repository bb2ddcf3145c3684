"""Scans and photographs: how much is read rightly, and that every wrong figure is among those asked for."""

import re

import pytest
from rapidfuzz.distance import Levenshtein

from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.span import TextFile
from cutaway.taking.doubts import reason
from cutaway.taking.reader import find_reader, read_page
from tests.taking.conftest import reads_pictures
from tests.taking.drawn import PARAGRAPHS, distance, page, worn
from tests.taking.pdfs import scanned_pdf

WORN = {
    "clean": ("mono", {}),
    "skewed": ("mono", {"degrees": 1.8}),
    "skewed, stained, speckled, blurred": ("mono", {"degrees": -3.2, "stains": 6, "speckle": 0.002, "blur": 0.8}),
    "stained, more blurred": ("mono", {"stains": 6, "blur": 1.2, "seed": 3}),
    "serif, skewed and stained": ("serif", {"degrees": 2.2, "stains": 6, "speckle": 0.002, "blur": 0.8, "seed": 5}),
}


def text_of(folder, key: str) -> str:
    """The words of a source without what take put in: heads, braces; numbers of paragraphs as the page has them."""
    text = (folder / "sources" / f"{key}.md").read_text(encoding="utf-8")
    text = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.DOTALL)
    text = re.sub(r"^\{.*\}$", "", text, flags=re.MULTILINE)
    return " ".join(re.sub(r"^## (\S+) (.+)$", r"\1. \2.", text, flags=re.MULTILINE).split())


def listed(folder, key: str) -> list[str]:
    """The words that a person is asked to confirm."""
    file = folder / "taken" / key / "confirm.yaml"
    if not file.exists():
        return []
    root, problems = read_tree(TextFile("confirm.yaml", file.read_text(encoding="utf-8")))
    assert not problems
    return [item.get("read").text for item in root.get("to confirm").items]


def wrong_words(read: str, truth: str) -> list[str]:
    """What was read where the page has another word, and either has a figure in it."""
    one, two = read.split(), truth.split()
    found = []
    for step in Levenshtein.editops(one, two):
        was = one[step.src_pos] if step.tag != "insert" and step.src_pos < len(one) else ""
        should = two[step.dest_pos] if step.tag != "delete" and step.dest_pos < len(two) else ""
        if any(letter.isdigit() for letter in was + should):
            found.append(was)
    return found


@reads_pictures
@pytest.mark.parametrize("name", WORN)
def test_a_worn_page_is_read_with_few_errors_and_each_wrong_figure_is_asked_for(name, taken, tmp_path) -> None:
    face, wear = WORN[name]
    worn(page(face=face), **wear).save(tmp_path / "worn.png")
    outcome, _ = taken(tmp_path / "worn.png", key="worn")
    assert outcome is not None
    truth, read = " ".join(PARAGRAPHS), text_of(taken.folder, "worn")
    assert distance(read, truth) <= 0.03 * len(truth), read
    asked = listed(taken.folder, "worn")
    assert [word for word in wrong_words(read, truth) if word not in asked] == []
    figures = [word for word in truth.split() if any(letter.isdigit() for letter in word)]
    assert len([word for word in asked if any(letter.isdigit() for letter in word)]) >= len(figures) - 1


@reads_pictures
def test_pages_so_bad_that_figures_go_wrong_and_each_of_them_is_asked_for() -> None:
    # Without these the test above might never meet a wrong figure.
    truth, reader = " ".join(PARAGRAPHS), find_reader()
    bad = (("mono", {"stains": 9, "speckle": 0.02, "blur": 1.2}, 13), ("serif", {"degrees": 0.6, "blur": 2.2}, 14))
    wrong, missed = [], []
    for face, wear, seed in bad:
        read = read_page(worn(page(face=face), **wear, seed=seed), 1, reader, None)
        asked = [line.words[at].text for line in read.lines for at in range(len(line.words)) if reason(line.words, at)]
        some = wrong_words(" ".join(line.text for line in read.lines), truth)
        wrong += some
        missed += [word for word in some if word not in asked]
    assert len(wrong) >= 2
    assert missed == []


@reads_pictures
def test_a_photograph_that_is_not_ours(taken, tmp_path) -> None:
    data = pytest.importorskip("skimage.data")
    from PIL import Image

    # As printed on the page; the last of its seven lines is a line of program text, cut by a shadow.
    prose = (
        "Region-based segmentation Let us first determine markers of the coins and the background. These markers are "
        "pixels that we can label unambiguously as either object or background. Here, the markers are found at the two "
        "extreme parts of the histogram of grey values:"
    )
    Image.fromarray(data.page()).save(tmp_path / "photo.png")
    taken(tmp_path / "photo.png", key="photo")
    text = (taken.folder / "sources" / "photo.md").read_text(encoding="utf-8")
    words = " ".join(re.sub(r"^(?:---|title|date|rights|## |\{).*$", "", text, flags=re.MULTILINE).split())
    read = words[: words.index("values:") + len("values:")]
    assert distance(read, prose) <= 0.02 * len(prose)


@reads_pictures
def test_a_scanned_book_with_a_blank_back_and_a_page_upside_down(taken, tmp_path) -> None:
    from PIL import Image

    upside_down = page(PARAGRAPHS[3:]).rotate(180)
    (tmp_path / "book.pdf").write_bytes(
        scanned_pdf([page(PARAGRAPHS[:3]), Image.new("L", (1240, 1754), 245), upside_down])
    )
    outcome, codes = taken(tmp_path / "book.pdf")
    assert sorted(codes) == ["T201", "T202"]
    assert (outcome.pages, outcome.read, outcome.blank) == (3, 3, 1)
    assert distance(text_of(taken.folder, "book"), " ".join(PARAGRAPHS)) <= 5
    text = (taken.folder / "sources" / "book.md").read_text(encoding="utf-8")
    assert re.search(r"^## 44 Battery\n\{page: 3\}$", text, re.MULTILINE)


@reads_pictures
def test_the_strip_of_each_line_in_question_is_there_to_look_at(taken, tmp_path) -> None:
    page(PARAGRAPHS[:2]).save(tmp_path / "two.png")
    outcome, _ = taken(tmp_path / "two.png", key="two")
    shown = outcome.confirm.read_text(encoding="utf-8")
    sources = re.findall(r'<img [^>]*src="([^"]+)"', shown)
    assert sources and all((outcome.confirm.parent / source).read_bytes()[:3] == b"\xff\xd8\xff" for source in sources)
    assert len(sources) == len(set(sources)) == len(list((outcome.confirm.parent / "crops").iterdir()))
    assert shown.count("<mark") == outcome.to_confirm == len(listed(taken.folder, "two"))


@reads_pictures
def test_a_stop_keeps_the_pages_that_were_read(taken, tmp_path) -> None:
    pages = [page([text]) for text in PARAGRAPHS[:3]]
    (tmp_path / "book.pdf").write_bytes(scanned_pdf(pages))

    def stop(_: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        taken(tmp_path / "book.pdf", progress=stop)
    kept = list((tmp_path / "cache").rglob("*.json"))
    assert kept and not list((tmp_path / "cache").rglob("*.part"))
    assert not (taken.folder / "sources" / "book.md").exists()
    outcome, _ = taken(tmp_path / "book.pdf")
    assert outcome.read == 3 and set(kept) <= set((tmp_path / "cache").rglob("*.json"))
