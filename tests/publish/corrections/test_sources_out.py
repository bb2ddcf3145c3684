"""The books at a date, and the sentences that rest on a paragraph: those of the scripts and those that are out."""

import json
from datetime import date
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.corrections import publish
from cutaway.api.sources import sources
from cutaway.api.telling_sources import sources_record, sources_text
from cutaway.cli.main import app

OLD = "The petrol is in one tank, and it holds twenty gallons, says the book."


def test_what_is_out_is_told_by_its_record_beside_what_the_scripts_say(out: Path, edit) -> None:
    edit("scripts/01-fuel.md", OLD, "Twenty gallons of petrol are in one tank.")
    found, _ = sources(out)
    assert found is not None
    text = sources_text(found, "§1")
    assert "In scripts (01-fuel, cites it): Twenty gallons of petrol are in one tank." in text
    assert f"As published on 2026-03-01 (01-fuel, at 0:00): {OLD}" in text
    assert "1 sentence in scripts; 1 sentence as published on 2026-03-01" in sources_text(found)
    (rest,) = sources_record(found, "§1")["rests"]  # type: ignore[misc]
    assert rest["published"] == [{"script": "01-fuel", "sentence": OLD, "at": 0.0}]


def test_a_paragraph_on_which_only_a_published_sentence_rests_is_not_called_bare(out: Path, edit) -> None:
    edit("scripts/01-fuel.md", f"{OLD} `cite: hb §1`", "Mind the step. `aside`")
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 20 gal, cite: §21")
    found, _ = sources(out)
    assert found is not None and "1 sentence as published on 2026-03-01" in sources_text(found)
    assert OLD in sources_text(found, "hb §1") and "Nothing rests on it" not in sources_text(found, "hb §1")


def test_the_last_publication_counts(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", OLD, "The petrol is in one tank of twenty gallons.")
    made()
    publish(out, date(2026, 4, 1))
    found, _ = sources(out)
    text = sources_text(found, "§1") if found else ""
    assert (
        "As published on 2026-04-01 (01-fuel, at 0:00): The petrol is in one tank of twenty" in text and OLD not in text
    )


def test_nothing_published_and_nothing_is_said_of_it(home: Path) -> None:
    found, _ = sources(home)
    assert found is not None and "published" not in sources_text(found)


@pytest.fixture
def dated(home: Path, edit) -> Path:
    text = (home / "sources" / "hb.md").read_text(encoding="utf-8")
    head = next(line for line in text.splitlines() if line.startswith("date:"))
    edit("sources/hb.md", head, "date: March 1938")
    return home


def test_a_book_that_did_not_exist_yet_is_told_so(dated: Path) -> None:
    found, _ = sources(dated, "1937")
    assert found is not None and found.books[0].there is False and found.books[0].standing == 0
    text = sources_text(found)
    assert "March 1938. It did not exist yet on 31 December 1937" in text
    assert " in force" not in text and "paragraphs on" not in text and found.contradictions == ()


@pytest.mark.parametrize(
    ("at", "says"),
    [
        ("1939", "on 31 December 1939, the last day of '1939'."),
        ("May 1939", "on 31 May 1939, the last day of 'May 1939'."),
        ("12 May 1939", "on 12 May 1939."),
    ],
)
def test_the_day_that_a_date_means_is_said(dated: Path, at: str, says: str) -> None:
    result = CliRunner().invoke(app, ["sources", str(dated), "--at", at])
    assert result.stdout.startswith(f"The books as they stood {says}\n")
    assert "It did not exist" not in result.stdout
    record = json.loads(CliRunner().invoke(app, ["sources", str(dated), "--at", at, "--json"]).stdout)
    assert says.startswith(f"on {record['on']}") and record["books"][0]["there"] is True


def test_the_month_in_which_a_book_came_out_has_it(dated: Path) -> None:
    found, _ = sources(dated, "March 1938")
    assert found is not None and found.books[0].there is True


def test_a_book_without_a_date_is_taken_to_be_there_and_said_to_be(dated: Path, edit) -> None:
    edit("sources/hb.md", "date: March 1938", "date: in the spring")
    found, _ = sources(dated, "1937")
    assert found is not None and found.books[0].there is None and "taken to have been there" in sources_text(found)
