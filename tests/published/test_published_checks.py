"""Counts the checks, wants a source and a kind of evidence beside each, and holds the page to them."""

import ast
from collections import Counter
from pathlib import Path

import pytest

from tests.machine.behaviours import BEHAVIOURS, ONCE_NOT_RUN
from tests.published import checked, page

LEAST = 60
TESTS = Path(__file__).parents[1]
AREAS = {
    "test_atmosphere": 20, "test_units": 20, "test_network_current": 8, "test_flow_of_parts": 15,
    "test_network_of_a_town": 20, "test_network_flow": 6, "test_engines": 20,
}  # fmt: skip


def test_there_are_as_many_as_were_promised() -> None:
    obeyed = Counter[str]()
    for check in checked.listed():
        obeyed[check.module] += check.cases if check.evidence != "N" else 0
    assert obeyed.total() >= LEAST
    assert {area: obeyed[area] for area, least in AREAS.items() if obeyed[area] < least} == {}


@pytest.mark.parametrize("module", checked.modules(), ids=lambda module: module.__name__)
def test_each_names_its_source_and_its_evidence(module) -> None:  # type: ignore[no-untyped-def]
    bare = [test.__name__ for test in checked.tests_of(module) if not hasattr(test, "held_to")]
    assert bare == []


@pytest.mark.parametrize("check", checked.listed(), ids=lambda check: check.what)
def test_a_source_says_something(check: checked.Check) -> None:
    assert check.evidence in checked.KINDS and check.cases > 0
    assert len(check.source) > 8
    if check.evidence in ("P", "P/M", "M"):
        assert any(letter.isupper() for letter in check.source) or "page" in check.source


def test_behaviours_are_where_the_table_says() -> None:
    for row in (*BEHAVIOURS, *ONCE_NOT_RUN):
        assert row.tests
        for test in row.tests:
            file, name = test.split("::")
            tree = ast.parse((TESTS / file).read_text(encoding="utf-8"))
            assert name in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}, test


def test_the_page_is_not_stale() -> None:
    assert page.PAGE.read_text(encoding="utf-8") == page.page(), "Say `python -m tests.published.page`."
