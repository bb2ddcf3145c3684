"""The page of claims: every line of it is understood, and no form of the grammar is without one."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from lark import Token, Tree

from cutaway.api.loading import load
from cutaway.language.parse import _grammar, _tree, parse_actions, parse_claim, parse_scope
from cutaway.language.words import Words
from cutaway.problems.span import TextFile, whole

ROOT = Path(__file__).parent.parent
PAGE = (ROOT / "docs" / "claims.md").read_text(encoding="utf-8")
READ = {"claim": parse_claim, "actions": parse_actions, "scope": parse_scope}
STARTS = {"claim": "claim", "actions": "actions", "scope": "only_scope"}
ELSEWHERE = {"mark", "does", "sees", "given_scope", "bare_clause"}
"""Ways into the grammar for drills and `--with`, which lead to the same forms; and a clause without its subject, which
is read only so that it can be told (L109)."""


def lines() -> list[tuple[str, str]]:
    blocks = re.findall(r"^```(claim|actions|scope)\n(.*?)^```$", PAGE, re.DOTALL | re.MULTILINE)
    return [(sort, line) for sort, text in blocks for line in text.splitlines()]


@pytest.fixture(scope="module")
def words() -> Words:
    loaded, _ = load(ROOT / "demo" / "whinchat")
    assert loaded is not None
    return loaded.words


def test_every_line_is_understood(words: Words) -> None:
    assert len(lines()) > 70
    told = {}
    for sort, line in lines():
        found, problems = READ[sort](whole(TextFile(sort, line)), words)
        if found is None or problems:
            told[line] = [problem.message for problem in problems]
    assert told == {}


def forms(tree: Tree[Token]) -> Iterator[str]:
    for one in tree.iter_subtrees():
        yield str(one.data)


def test_every_form_of_the_grammar_has_an_example(words: Words) -> None:
    used: set[str] = set()
    for sort, line in lines():
        tree, _ = _tree(whole(TextFile(sort, line)), words, STARTS[sort])
        assert tree is not None
        used |= set(forms(tree))
    every = {str(rule.alias or rule.origin.name) for rule in _grammar().rules if not rule.options.expand1 or rule.alias}
    assert {form for form in every if not form.startswith("_")} - used - ELSEWHERE == set()
