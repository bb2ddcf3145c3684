"""Where there is no model the pack says of a sentence what `check` says: stated, differs with both values, or open."""

import io
import re
import zipfile
from pathlib import Path

import pytest

from cutaway.api.checking import check
from tests.cli.running import cutaway

TYPE = "name: Wren\nnotice: Interpretation only.\nmarks: [Mk 1, Mk 2]\n"
BOOK = """---
title: Wren handbook
---

## 9 Oil pressure
Normal oil pressure is 60 lb. per sq. in.

## 17 Brakes
The brakes are worked by air from a bottle behind the seat.
"""
STATED = "The brakes are worked by air from a bottle behind the seat."
DIFFERS = "Normal oil pressure is 65 pounds per square inch."
OPEN = "The king saw her once."
LETTERS = f"letters:\n  the pressure:\n    objects to: {DIFFERS}\n    says: It is 60.\n"


@pytest.fixture
def wren(tmp_path: Path) -> Path:
    """A type with a book and a script, and no part."""
    folder = tmp_path / "wren"
    for name, text in (
        ("type.yaml", TYPE),
        ("sources/hb.md", BOOK),
        ("scripts/01-tour.md", f"# A tour\n\n{STATED} {DIFFERS} {OPEN}\n"),
        ("letters.yaml", LETTERS),
    ):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def page(wren: Path) -> str:
    cutaway("make", wren)
    return (wren / "pack" / "index.html").read_text(encoding="utf-8")


def row(page: str, sentence: str) -> str:
    """All that the page has of one sentence, as text."""
    rows = re.findall(r"<li id=\"s-.*?</li>", page, re.DOTALL) or re.findall(r"<li[^>]*class=\"is-.*?</li>", page, re.S)
    found = next(one for one in rows if sentence in one)
    return " ".join(re.sub(r"<[^>]+>", " ", found).replace("&#x27;", "'").replace("&#39;", "'").split())


def test_the_page_says_what_check_says(page: str, wren: Path) -> None:
    checked, _ = check(wren)
    assert checked is not None
    assert [s.compared.verdict for s in checked.sentences if s.compared] == ["stated", "differs", "open"]
    assert "stated in §17 by the books" in row(page, STATED)
    differs = row(page, DIFFERS)
    assert "differs" in differs and "65 pounds per square inch" in differs and "60 lb. per sq. in" in differs
    assert "open" in row(page, OPEN) and "unchecked" not in row(page, OPEN)
    assert "Nothing says where this comes from" not in page


def test_what_differs_heads_the_page_and_is_open(page: str) -> None:
    assert "1 sentence differs from the books or from its own claims:" in page
    # It is a doubt, of which `check` ends with 0, and stands in no box of what is wrong.
    assert '<div class="doubt"' in page and '<div class="wrong"' not in page
    assert re.search(r"<details open[^>]*>\s*<summary[^>]*>(?:(?!</details>).)*65 pounds", page, re.DOTALL)
    assert "1 stated by the books, 1 that differs from the books and 1 open" in page


def test_a_letter_has_the_verdict_of_the_books(wren: Path) -> None:
    told = cutaway("letters", wren).stdout
    assert "today: Differs from the books. The sentence says '65 pounds per square inch'" in told


def test_the_manuscript_has_it_as_footnotes_and_lists_what_differs(wren: Path, tmp_path: Path) -> None:
    pytest.importorskip("docx")
    cutaway("manuscript", wren, "--out", tmp_path / "ms.docx")
    with zipfile.ZipFile(io.BytesIO((tmp_path / "ms.docx").read_bytes())) as book:
        notes, text = (book.read(f"word/{name}.xml").decode() for name in ("footnotes", "document"))
    assert "Cf. Wren handbook, §17 'Brakes'." in notes and "§9" not in notes
    after = text.partition("Sentences that differ from the books")[2]
    assert DIFFERS in after and "60 lb. per sq. in" in after and STATED not in after
    assert "Wren handbook" in after.partition("Bibliography")[2]


def test_a_cited_sentence_that_differs_is_a_doubt_on_page_handout_and_in_letters(wren: Path) -> None:
    cited = "The brakes are not worked by air from a bottle behind the seat."
    script = wren / "scripts" / "01-tour.md"
    script.write_text(f"# A tour\n\n{cited} `cite: hb §17`\n", encoding="utf-8")
    (wren / "letters.yaml").write_text(
        f"letters:\n  air:\n    objects to: {cited}\n    says: It is.\n", encoding="utf-8"
    )
    told = cutaway("make", wren)
    page = (wren / "pack" / "index.html").read_text(encoding="utf-8")
    assert "differs" in row(page, cited) and "The sentence has 'not' where §17 has no 'not'" in row(page, cited)
    assert "not in the books" not in page and "not what it cites" not in page and '<div class="wrong"' not in page
    assert "K510" not in told.stdout + told.stderr
    answer = cutaway("letters", wren).stdout
    assert "Marked as coming from hb §17." in answer and "Differs from the books." in answer


def test_what_claims_say_otherwise_stands_on_the_page(sample: Path) -> None:
    script = sample / "scripts" / "01-fuel.md"
    claimed = "The tank holds 29 gallons.\n\n```claim\nfuel tank is set at 20 gal\n```\n"
    script.write_text(f"# Fuel\n\n{claimed}", encoding="utf-8")
    _, problems = check(sample)
    assert "N807" in [problem.code for problem in problems]
    cutaway("make", sample)
    page = (sample / "pack" / "index.html").read_text(encoding="utf-8")
    told = row(page, "29 gallons")
    assert "differs from its claims" in told and "the claims under it have" in told
