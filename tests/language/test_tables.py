"""The tables of the grammar that are kept: read as they were made, never stale, never broken."""

from pathlib import Path

import pytest
from lark import Lark

from cutaway.language.tables import kept_tables

GRAMMAR = 'start: "a" "b"*'


def made() -> Lark:
    return Lark(GRAMMAR, parser="lalr", keep_all_tokens=True)


def other() -> Lark:
    return Lark('start: "c"', parser="lalr", keep_all_tokens=True)


def test_tables_are_read_as_they_were_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    first = kept_tables(GRAMMAR, "", made)
    # Would give another parser if it were asked, so what follows comes from the file.
    assert kept_tables(GRAMMAR, "", other).parse("abb") == first.parse("abb")
    assert kept_tables('start: "c"', "", other).parse("c").children == ["c"]
    assert kept_tables(GRAMMAR, "other", other).parse("c").children == ["c"]


@pytest.mark.parametrize("keeps", [0, 10, 21, 300])
def test_broken_tables_are_made_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, keeps: int) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    kept_tables(GRAMMAR, "", made)
    (file,) = tmp_path.rglob("grammar/*")
    file.write_bytes(file.read_bytes()[:keeps])
    assert kept_tables(GRAMMAR, "", other).parse("c").children == ["c"]
    assert kept_tables(GRAMMAR, "", made).parse("c").children == ["c"], "it was put right"


def test_a_folder_that_refuses_costs_only_time(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "cutaway").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    assert kept_tables(GRAMMAR, "", made).parse("ab").children == ["a", "b"]
