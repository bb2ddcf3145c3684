"""The catalogue: every sample gives what it says, so that no entry can be dead and no code mean two things."""

import ast
import re
from pathlib import Path

import pytest

from cutaway.api.checking import check_problems
from cutaway.problems.catalogue import CATALOGUE
from cutaway.problems.entry import Entry
from cutaway.problems.reference import ROOMS, differing, entry_text, problems_page

ROOT = Path(__file__).parents[2]
SAMPLED = sorted(code for code, entry in CATALOGUE.items() if entry.where)
TOLD = sorted(set(CATALOGUE) - set(SAMPLED))


def codes_in(folder: Path) -> set[str]:
    """The codes of everything that is wrong with a type folder: reading it, its claims, and binding each standard."""
    return {problem.code for problem in check_problems(folder)}


def with_sample(folder: Path, entry: Entry, text: str) -> Path:
    file = folder / entry.where
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return folder


def test_the_sample_folder_is_right(sample) -> None:
    assert codes_in(sample) == set()


@pytest.mark.parametrize("code", SAMPLED)
def test_the_wrong_sample_gives_its_code_alone(code, sample) -> None:
    entry = CATALOGUE[code]
    assert codes_in(with_sample(sample, entry, entry.wrong)) == {code}


@pytest.mark.parametrize("code", SAMPLED)
def test_the_right_sample_gives_none(code, sample) -> None:
    entry = CATALOGUE[code]
    assert codes_in(with_sample(sample, entry, entry.right)) == set()


@pytest.mark.parametrize("code", TOLD)
def test_a_code_without_samples_names_a_test_that_exists(code) -> None:
    path, _, name = CATALOGUE[code].tested_by.partition("::")
    assert path, f"{code} has neither a sample nor a test"
    text = (ROOT / path).read_text(encoding="utf-8")
    assert code in text, f"{path} never speaks of {code}"
    if name:
        functions = {node.name for node in ast.walk(ast.parse(text)) if isinstance(node, ast.FunctionDef)}
        assert name in functions


@pytest.mark.parametrize("code, entry", CATALOGUE.items(), ids=list(CATALOGUE))
def test_an_entry_is_whole(code, entry) -> None:
    assert re.fullmatch(r"[A-Z][0-9]{3}", code) and code[0] in ROOMS
    assert entry.title and entry.why.endswith(".") and entry.wrong and entry.right
    assert entry.wrong != entry.right
    assert not entry.title.endswith(".")


def test_every_code_that_is_reported_is_in_the_catalogue_and_the_other_way_round() -> None:
    written: set[str] = set()
    for path in (ROOT / "src").rglob("*.py"):
        if not path.name.startswith("codes_"):
            written |= set(re.findall(r'"([A-Z][0-9]{3})"', path.read_text(encoding="utf-8")))
    assert written - CATALOGUE.keys() == set()
    assert CATALOGUE.keys() - written == set()


def test_the_page_has_every_code() -> None:
    page = problems_page()
    assert re.findall(r"^### ([A-Z][0-9]{3}) ", page, re.MULTILINE) == sorted(
        CATALOGUE, key=lambda code: (list(ROOMS).index(code[0]), code)
    )


def test_an_entry_as_text() -> None:
    text = entry_text("Q104", CATALOGUE["Q104"])
    assert "20 galons" in text and "20 gal\n" in text and text.startswith("Q104  unknown unit (error)")


@pytest.mark.parametrize(
    "wrong, right, shown",
    [
        ("a\nb\nc\nd\ne\nf\ng", "a\nb\nc\nX\ne\nf\ng", ("…\nb\nc\nd\ne\nf\n…", "…\nb\nc\nX\ne\nf\n…")),
        ("X\nb", "a\nb", ("X\nb", "a\nb")),
        ("a", "a\nb", ("a", "a\nb")),
        ("a\na", "a", ("a\na", "a")),
    ],
)
def test_only_the_lines_about_the_difference_are_shown(wrong, right, shown) -> None:
    assert differing(wrong, right) == shown
