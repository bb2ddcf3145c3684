"""Amendments in force at a date, what they alter, and dates as books print them."""

import pytest

from cutaway.api.sources import sources
from cutaway.handbook.amendments import amendments_at, paragraphs_at, superseded
from cutaway.handbook.dates import read_date
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Source
from tests.handbook.folders import WHINCHAT, write

BOOK = """---
title: Book
amendments:
  A.L. 1: {date: September 1938, says: First.}
  A.L. 2: {date: DATE, says: Second.}
---
## 1 Fuel lamp
It lights below 2 lb./sq. in.
## 1a Fuel lamp
{amendment: A.L. 1}
This replaces paragraph 1. It lights below 3 lb./sq. in.
## 2 Tanks
Two tanks.
"""


def source(tmp_path, date: str = "May 1939") -> Source:
    write(tmp_path, {"type.yaml": "name: X\nmarks: [Mk 1]\n", "sources/hb.md": BOOK.replace("DATE", date)})
    folder, _ = load_folder(tmp_path)
    assert folder is not None
    return folder.sources[0]


@pytest.mark.parametrize(
    "text, first, last",
    [
        ("1939", (1939, 1, 1), (1939, 12, 31)),
        ("February 1940", (1940, 2, 1), (1940, 2, 29)),
        ("Sept. 1938", (1938, 9, 1), (1938, 9, 30)),
        ("12th May, 1939", (1939, 5, 12), (1939, 5, 12)),
        ("May 12, 1939", (1939, 5, 12), (1939, 5, 12)),
        ("3/9/39", (1939, 9, 3), (1939, 9, 3)),
        ("1939-05-12", (1939, 5, 12), (1939, 5, 12)),
    ],
)
def test_dates_as_they_are_printed(text, first, last):
    found = read_date(text)
    assert found is not None and (found.first, found.last) == (first, last)


@pytest.mark.parametrize("text", ["", "last summer", "31 June 1939", "1939-13", "0000", "12", "mayhem 1939", "§"])
def test_what_is_no_date(text):
    assert read_date(text) is None


@pytest.mark.parametrize(
    "at, in_force, standing",
    [
        ("", [True, True], ["§1", "§1a", "§2"]),
        ("August 1938", [False, False], ["§1", "§2"]),
        ("September 1938", [True, False], ["§1", "§1a", "§2"]),
        ("1939", [True, True], ["§1", "§1a", "§2"]),
    ],
)
def test_what_is_in_force(tmp_path, at, in_force, standing):
    book, date = source(tmp_path), read_date(at)
    found, problems = amendments_at(book, date)
    assert [one.so for one in found] == in_force and problems == ()
    assert [one.number for one in paragraphs_at(book, date)] == standing


def test_a_paragraph_that_says_what_it_replaces(tmp_path):
    book = source(tmp_path)
    (one,) = superseded(book, None)
    assert (one.old.number, one.new.number, one.how) == ("§1", "§1a", "replaced")
    assert superseded(book, read_date("1937")) == ()


def test_the_whinchat(tmp_path):
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    found = {(o.old.number, o.new.number, tuple(sorted(o.names)), o.how) for o in superseded(folder.sources[0], None)}
    assert ("§25", "§25a", ("Mk 2", "Mk 2 with mod 12"), "altered") in found
    assert ("§25", "§25b", ("Mk 2 with mod 12",), "altered") in found
    # §24a and §37a are letters of the first printing, and alter nothing.
    assert {old for old, *_ in found} == {"§25", "§25a"}


def test_an_amendment_without_a_date_that_can_be_read(tmp_path):
    found, problems = amendments_at(source(tmp_path, "in the autumn"), read_date("1939"))
    assert [one.so for one in found] == [True, None]
    assert [problem.code for problem in problems] == ["H231"]


def test_a_date_on_the_command_line_that_is_none():
    found, problems = sources(WHINCHAT, "last summer")
    assert found is None and [problem.code for problem in problems] == ["C113"]
