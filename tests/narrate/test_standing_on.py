"""What rests on each paragraph."""

import json

import pytest
from typer.testing import CliRunner

from cutaway.api.sources import Sources, sources
from cutaway.api.telling_sources import rest_on
from cutaway.cli.main import app
from tests.narrate.sentence_first.folders import WHINCHAT, bare_whinchat


@pytest.fixture(scope="module")
def whinchat() -> Sources:
    found, problems = sources(WHINCHAT)
    assert found is not None and problems == ()
    return found


def test_a_paragraph_has_its_parts_claims_sentences_and_letters(whinchat) -> None:
    (one,) = rest_on(whinchat, "§25a")
    assert one.parts == ("fuel lamp",) and one.systems == ("Fuel",)
    assert ("letter", "the lamp's figure") in one.others
    said = [s.sentence.text for s in one.sentences]
    assert any(text.startswith("On the Mk 2 the gauge has gone") for text in said)
    # It is for Mk 2, so what is claimed of Mk 1 alone does not rest on it.
    assert not any(text.startswith("On the Mk 1 the lamp lights") for text in said)


def test_a_sentence_that_cites_a_paragraph_rests_on_it(whinchat) -> None:
    (one,) = rest_on(whinchat, "hb §46")
    assert [(s.script, s.how) for s in one.sentences] == [("01-fuel", "cites it")]


def test_a_service_is_looked_through(whinchat) -> None:
    (one,) = rest_on(whinchat, "§24a")
    text = "Work it, and in less than ten seconds there is petrol at the carburettor again."
    assert text in [s.sentence.text for s in one.sentences]


def test_every_paragraph_is_there_once_and_in_order(whinchat) -> None:
    assert [one.paragraph for one in whinchat.standing] == list(whinchat.folder.sources[0].paragraphs)
    assert rest_on(whinchat, "§999") == ()


def test_without_a_model_a_stated_sentence_rests_on_its_paragraph(tmp_path) -> None:
    found, _ = sources(bare_whinchat(tmp_path, "# A\n\nThe filter is washed out every thirty hours.\n"))
    assert found is not None
    (one,) = rest_on(found, "§23")
    assert [s.how for s in one.sentences] == ["held against it"]
    assert rest_on(found, "§24")[0].nothing


def test_the_command(whinchat) -> None:
    told = CliRunner().invoke(app, ["sources", str(WHINCHAT), "--at", "1940"])
    assert told.exit_code == 0
    assert "§25 is altered on Mk 2 and Mk 2 with mod 12 by §25a (A.L. 1)." in told.output
    assert "Decided for 'set at' of suction relief valve: hb §32." in told.output
    before = CliRunner().invoke(app, ["sources", str(WHINCHAT), "--at", "August 1938", "--json"])
    record = json.loads(before.stdout)
    assert [a["in force"] for a in record["books"][0]["amendments"]] == [False, False]
    assert record["books"][0]["superseded"] == []


def test_an_undecided_contradiction_ends_with_one(tmp_path) -> None:
    folder = bare_whinchat(tmp_path, "# A\n\nHallo.\n")
    told = CliRunner().invoke(app, ["sources", str(folder)])
    assert told.exit_code == 1 and "Nothing in decided.yaml says which is followed." in told.output
