"""`check` of a folder with books and no model."""

import json

from typer.testing import CliRunner

from cutaway.api.checking import check, found_wrong
from cutaway.cli.main import app
from tests.narrate.sentence_first.folders import bare_whinchat

SCRIPT = """# Petrol

Good morning. `aside`

## Tanks

Each tank holds 12 gallons.

## Lamp

On Mk 2 the switch of the fuel lamp is set so that the lamp lights below 3 lb./sq. in. `cite: hb §25a`

## Filter

The filter is washed out every thirty hours.
"""


def test_every_sentence_but_an_aside_is_held_against_the_books(tmp_path) -> None:
    checked, problems = check(bare_whinchat(tmp_path, SCRIPT))
    assert checked is not None
    verdicts = [one.compared.verdict if one.compared else None for one in checked.sentences]
    assert verdicts == [None, "differs", "stated", "stated"]
    assert [problem.code for problem in problems] == ["N801"]


def test_a_difference_is_a_doubt_unless_one_is_strict(tmp_path) -> None:
    checked, problems = check(bare_whinchat(tmp_path, SCRIPT))
    assert not found_wrong(checked, problems)
    assert found_wrong(checked, problems, strict=True)


def test_a_cited_figure_that_differs_is_told_once_and_as_an_error(tmp_path) -> None:
    wrong = SCRIPT.replace("3 lb./sq. in.", "4 lb./sq. in.").replace("12 gallons", "11 gallons")
    checked, problems = check(bare_whinchat(tmp_path, wrong))
    assert [problem.code for problem in problems] == ["N201"]
    assert found_wrong(checked, problems)


def test_the_command_says_what_each_sentence_rests_on(tmp_path) -> None:
    folder = str(bare_whinchat(tmp_path, SCRIPT))
    told = CliRunner().invoke(app, ["check", folder, "--all"])
    assert told.exit_code == 0
    assert "Stated: hb §23 Filter has its figure and" in told.output
    assert "3 sentences held against the books alone: 2 stated, 1 differs." in told.output
    record = json.loads(CliRunner().invoke(app, ["check", folder, "--json"]).stdout)
    assert [one["against"] for one in record["compared"]] == ["hb §21", "hb §25a", "hb §23"]
    assert record["compared"][0]["differences"][0]["printed"] == "11 gallons"


def test_books_and_no_script_and_scripts_and_no_book(tmp_path) -> None:
    folder = bare_whinchat(tmp_path, SCRIPT.replace(" `cite: hb §25a`", ""))
    (folder / "sources/hb.md").unlink()
    checked, _ = check(folder)
    assert checked is not None
    assert {one.compared.verdict for one in checked.sentences if one.compared} == {"open"}
    (folder / "scripts/01-all.md").unlink()
    checked, _ = check(folder)
    assert checked is not None and checked.sentences == ()
