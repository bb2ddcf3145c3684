"""Paragraphs that contradict each other: by figure, unit and term."""

import pytest

from cutaway.handbook.amendments import superseded
from cutaway.handbook.contradictions import Contradiction, contradictions
from cutaway.handbook.load import load_folder
from cutaway.handbook.search import ParagraphIndex
from tests.handbook.folders import WHINCHAT, write


def found(path) -> tuple[Contradiction, ...]:
    folder, _ = load_folder(path)
    assert folder is not None
    over = tuple(one for source in folder.sources for one in superseded(source, None))
    standing = tuple(p for source in folder.sources for p in source.paragraphs)
    return contradictions(folder, standing, over, ParagraphIndex(folder.sources, folder.glossary))


def pairs(path) -> list[tuple[str, str]]:
    return [(one.first.paragraph.number, one.second.paragraph.number) for one in found(path)]


def book(tmp_path, *paragraphs: str, head: str = ""):
    text = "---\ntitle: B\n---\n" + "\n\n".join(paragraphs) + "\n"
    return write(tmp_path, {"type.yaml": f"name: X\nmarks: [Mk 1, Mk 2]\n{head}", "sources/hb.md": text})


def test_the_two_of_the_whinchat_and_no_other():
    suction, lamp = sorted(found(WHINCHAT), key=lambda one: one.amended is not None)
    assert [suction.first.paragraph.number, suction.second.paragraph.number] == ["§32", "§45"]
    assert suction.decided is not None and suction.decided.prefer.number == "§32" and suction.settled
    assert [lamp.first.paragraph.number, lamp.second.paragraph.number] == ["§25", "§25a"]
    assert lamp.amended is not None and lamp.amended.new.amended_by == "A.L. 1"
    assert lamp.subject == "fuel lamp" and lamp.names == {"Mk 2", "Mk 2 with mod 12"}


def test_the_same_term_with_two_figures(tmp_path):
    folder = book(
        tmp_path, "## 1 Oil reservoir\nThe reservoir holds 3 pints.", "## 9 Quantities\nOil reservoir: 4 pints."
    )
    (one,) = found(folder)
    assert (one.first.quantity.text, one.second.quantity.text, one.settled) == ("3 pints.", "4 pints.", False)


@pytest.mark.parametrize(
    "other",
    [
        "## 9 Quantities\nOil reservoir: 3 pints.",
        "## 9 Quantities\nOil reservoir: 0.375 gal.",
        "## 9 Quantities\nHydraulic ram: 4 pints.",
        "## 9 Quantities\nOil reservoir: 40 pints.",
        "## 9 Quantities\nThe oil reservoir weighs 4 lb.",
        "## 9 Quantities\nFill the oil reservoir when it is below 2 pints.",
        "## 9 Quantities\nOil reservoir: 2 to 3 pints.",
    ],
    ids=["same", "other unit", "other thing", "far apart", "other dimension", "a limit", "a range"],
)
def test_what_is_no_contradiction(tmp_path, other):
    assert pairs(book(tmp_path, "## 1 Oil reservoir\nThe reservoir holds 3 pints.", other)) == []


def test_two_marks_may_differ(tmp_path):
    first = "## 1 Oil reservoir\n{on: Mk 1}\nThe reservoir holds 3 pints."
    assert pairs(book(tmp_path, first, "## 2 Oil reservoir\n{on: Mk 2}\nThe reservoir holds 4 pints.")) == []
    assert pairs(book(tmp_path, first, "## 2 Oil reservoir\nThe reservoir holds 4 pints.")) == [("§1", "§2")]


def test_a_decision_counts_before_there_are_any_parts(tmp_path):
    kept = ("type.yaml", "decided.yaml", "sources/hb.md")
    root = write(tmp_path, {name: (WHINCHAT / name).read_text(encoding="utf-8") for name in kept})
    folder, problems = load_folder(root)
    assert folder is not None and problems == ()
    assert folder.type.airframes[0].missing == ("hand pump",), "a part that cannot be judged yet is kept as written"
    suction = next(one for one in found(root) if one.first.paragraph.number == "§32")
    assert suction.decided is not None and suction.decided.prefer.number == "§32" and suction.settled


def test_a_decision_of_another_part_settles_nothing(tmp_path):
    decided = "- {part: fuel lamp, value: lights below, prefer: hb §1, because: so}\n"
    root = book(
        tmp_path, "## 1 Oil reservoir\nThe reservoir holds 3 pints.", "## 9 Quantities\nOil reservoir: 4 pints."
    )
    (root / "decided.yaml").write_text(decided, encoding="utf-8")
    (one,) = found(root)
    assert not one.settled


def test_the_rows_of_a_table_contradict_a_paragraph(tmp_path):
    table = (
        "## 9 Quantities\n\n| Item | Amount | Unit |\n|---|---|---|\n| Oil reservoir | 4 | pints |\n| Tank | 3 | gal |"
    )
    (one,) = found(book(tmp_path, "## 1 Oil reservoir\nThe reservoir holds 3 pints.", table))
    assert (one.first.quantity.text, one.second.quantity.text) == ("3 pints.", "4 pints")
